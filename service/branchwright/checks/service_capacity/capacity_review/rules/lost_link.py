"""What happens when a managed charger has lost its monitor."""

from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.rules.management import AT, NONE, acting
from branchwright.checks.service_capacity.capacity_review.rules.rule import rule
from branchwright.findings import Finding
from branchwright.questions.fields import LEAST_SIGNALLED_A

POINTER = AT + "/fail_safe_current_a"
NOT_STATED = "It is not stated what a managed charger draws when it has lost its monitor."


@rule("fail-safe-current", subject="lost link of energy management", concept="energy-management-equipment")
def fail_safe_current(case: Case) -> Finding:
    """Is the fail-safe current one that a charger can offer: nothing, or 6 A and more?

    Applies: where there is management.
    Rests on: the pilot signal of SAE J1772 offers no less than 6 A; below it a charger stops.
    Missing facts: undetermined where the fail-safe current is not stated.
    """
    management = acting(case)
    if management is None:
        return fail_safe_current.not_applicable(NONE)
    current = management.fail_safe_current_a
    if current is None:
        return fail_safe_current.undetermined(POINTER, NOT_STATED)
    if current == 0:
        return fail_safe_current.finding(
            "pass", "Without its monitor a managed charger stops.", citation=None, pointer=POINTER
        )
    return fail_safe_current.at_least(
        current,
        float(LEAST_SIGNALLED_A),
        "A",
        f"Without its monitor a managed charger draws {current:g} A; the pilot signal offers no less than "
        f"{LEAST_SIGNALLED_A} A.",
        None,
        POINTER,
    )


@rule("lost-link-current", subject="lost link of energy management", concept="energy-management-equipment")
def lost_link_current(case: Case) -> Finding:
    """Does a managed charger draw less than its full current when it has lost its monitor?

    Applies: where there is management that the chargers need; a fail-safe current above the charging current is a
    contradiction wherever it stands.
    Rests on: on malfunction the current stops or falls to a value that overloads nothing. Full current on a lost
    link is a failure.
    Missing facts: undetermined where the fail-safe current is not stated.
    """
    cited, management = lost_link_current.cited(case.edition), acting(case)
    if management is None:
        return lost_link_current.not_applicable(NONE, cited)
    current = management.fail_safe_current_a
    full = min(charger.facts.charging_current_a for charger in case.managed)
    if case.is_carried_unmanaged and (current is None or current <= full):
        return lost_link_current.not_applicable(
            "The service carries the chargers at their full current.", cited
        )
    if current is None:
        return lost_link_current.undetermined(POINTER, NOT_STATED, cited)
    message = (
        f"Without its monitor a managed charger draws {current:g} A; set to {full:g} A, it should draw less."
    )
    finding = lost_link_current.at_most(current, full, "A", message, cited, POINTER)
    if current == full:
        finding.outcome = "fail"
    return finding


@rule(
    "lost-link-capacity",
    subject="lost link of energy management",
    concept="energy-management-equipment",
    is_about_load=True,
)
def lost_link_capacity(case: Case) -> Finding:
    """Does the service carry the chargers when every monitor is lost?

    Applies: where there is management.
    Rests on: the existing load and the fail-safe current of every managed charger, at 125 percent unless the other
    reading is chosen, are within service, main breaker and busbar. The existing load is the calculated one, or 125
    percent of the measured demand.
    Missing facts: undetermined where the fail-safe current is not stated, or where an unknown fact decides.
    """
    cited, management = lost_link_capacity.cited(case.edition), acting(case)
    if management is None:
        return lost_link_capacity.not_applicable(NONE, cited)
    load = case.rounded(case.lost_link_a)
    if load is None:
        return lost_link_capacity.undetermined(
            POINTER,
            NOT_STATED if management.fail_safe_current_a is None else "The existing load cannot be computed.",
            cited,
        )
    return lost_link_capacity.carries(
        case.limit_a,
        load,
        f"Existing load and fail-safe currents come to {load.greatest:g} A; {case.limit_a:g} A are carried.",
        cited,
        POINTER,
        f" At its best it comes to {load.least:g} A.",
    )


@rule("link-loss-test", subject="lost link of energy management", concept="energy-management-equipment")
def link_loss_test(case: Case) -> Finding:
    """Was the lost link tested on site?

    Applies: where there is management.
    Rests on: what a charger does without its monitor is known when it has been tried; common practice, no source.
    Missing facts: undetermined where it is not stated.
    """
    management = acting(case)
    if management is None:
        return link_loss_test.not_applicable(NONE)
    return link_loss_test.states(
        management.link_loss_tested,
        "the lost link was tested",
        "the lost link was not tested",
        "the lost link was tested",
        None,
        AT + "/link_loss_tested",
    )
