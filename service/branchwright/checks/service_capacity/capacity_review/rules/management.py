"""Energy management of the service: its setting, its monitors, its listing, and who can reach its settings."""

from branchwright.calculations.service_capacity import busbar_supplies_a
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.facts import EnergyManagement
from branchwright.checks.service_capacity.capacity_review.rules.backfeed import (
    counted_backfeed_a,
    has_backfeed,
)
from branchwright.checks.service_capacity.capacity_review.rules.rule import rule
from branchwright.findings import Finding
from branchwright.questions.fields import LEAST_SIGNALLED_A

AT = "/management"
NONE = "No management is stated."


def acting(case: Case) -> EnergyManagement | None:
    """Return the management where it holds at least one charger."""
    return case.management if case.managed else None


@rule("control-setting-range", subject="energy management", concept="energy-management-load")
def control_setting_range(case: Case) -> Finding:
    """Is the control setting one that the service can have?

    Applies: where there is management.
    Rests on: a setting above the rating of the service holds nothing.
    Missing facts: none; the setting is always stated.
    """
    cited = control_setting_range.cited(case.edition)
    management = case.management
    if management is None:
        return control_setting_range.not_applicable(NONE, cited)
    return control_setting_range.at_most(
        management.control_setting_a,
        case.service.rating_a,
        "A",
        f"Control setting of {management.control_setting_a:g} A on a service of {case.service.rating_a:g} A.",
        cited,
        AT + "/control_setting_a",
    )


@rule("managed-least-load", subject="energy management", concept="energy-management-load", is_about_load=True)
def managed_least_load(case: Case) -> Finding:
    """Does the service carry what cannot be lowered further?

    Applies: where there is management that the chargers need, in an edition that counts least operating currents.
    Rests on: loads that nobody controls, and the least operating current of each controlled one, are within service,
    main breaker and busbar; for a charger that current is the 6 A of the pilot signal.
    Missing facts: undetermined where the existing load cannot be computed, or where an unknown fact decides.
    """
    provision = case.edition.provision("energy-management-load")
    management = acting(case)
    if management is None:
        return managed_least_load.not_applicable(NONE, provision.citation)
    if not provision.says("least_currents_count"):
        return managed_least_load.not_applicable(
            "The setting alone counts in this edition.", provision.citation
        )
    if case.is_carried_unmanaged:
        return managed_least_load.not_applicable(
            "The service carries the chargers without management.", provision.citation
        )
    least = case.rounded(case.with_managed_at_a(LEAST_SIGNALLED_A))
    if least is None:
        return managed_least_load.undetermined(
            "/existing_load", "The existing load cannot be computed.", provision.citation
        )
    return managed_least_load.carries(
        case.limit_a,
        least,
        f"What is not controlled and {LEAST_SIGNALLED_A} A for each managed charger come to {least.greatest:g} A; "
        f"{case.limit_a:g} A are carried.",
        provision.citation,
        "/service/rating_a",
        " An unknown fact decides whether it is less.",
    )


@rule("management-listing", subject="energy management", concept="energy-management-equipment")
def management_listing(case: Case) -> Finding:
    """Is the management equipment listed for it?

    Applies: where there is management, in an edition that asks for listing.
    Rests on: equipment that holds a load below a setting is listed for energy management.
    Missing facts: undetermined where it is not stated.
    """
    provision = case.edition.provision("energy-management-equipment")
    management = acting(case)
    if management is None:
        return management_listing.not_applicable(NONE, provision.citation)
    if not provision.says("listed"):
        return management_listing.not_applicable(
            "This edition has no words on the listing of management equipment.", provision.citation
        )
    return management_listing.states(
        management.listed,
        "the equipment is listed for energy management",
        "the equipment is not listed for energy management",
        "the equipment is listed for energy management",
        provision.citation,
        AT + "/listed",
    )


@rule("management-access", subject="energy management", concept="energy-management-equipment")
def management_access(case: Case) -> Finding:
    """Is access to the settings of the management restricted?

    Applies: where there is management, in an edition that asks for it.
    Rests on: settings are behind a sealable cover, a locked door, a tool or a password.
    Missing facts: undetermined where it is not stated.
    """
    provision = case.edition.provision("energy-management-equipment")
    management = acting(case)
    if management is None:
        return management_access.not_applicable(NONE, provision.citation)
    if not provision.says("restricted_access"):
        return management_access.not_applicable(
            "This edition has no words on access to these settings.", provision.citation
        )
    if management.access is None:
        return management_access.undetermined(
            AT + "/access", "It is not stated who can reach the settings.", provision.citation
        )
    return management_access.one_of(
        management.access,
        ["restricted"],
        f"Access to the settings is {management.access}.",
        provision.citation,
        AT + "/access",
        holds=management.access == "restricted",
    )


@rule("monitored-legs", subject="monitors of the service", concept="monitored-conductors")
def monitored_legs(case: Case) -> Finding:
    """Is every ungrounded conductor of the service monitored?

    Applies: where there is management.
    Rests on: a conductor that is not monitored is not held; the largest leg governs, not the mean. A service has two
    ungrounded conductors, three on three phases; more monitors than these is a contradiction.
    Missing facts: undetermined where the number is not stated.
    """
    cited, management = monitored_legs.cited(case.edition), acting(case)
    if management is None:
        return monitored_legs.not_applicable(NONE, cited)
    pointer, legs = AT + "/monitored_legs", case.ungrounded_count
    monitored = management.monitored_legs
    if monitored is None:
        return monitored_legs.undetermined(
            pointer, "It is not stated how many ungrounded conductors are monitored.", cited
        )
    message = f"{monitored} of {legs} ungrounded conductors are stated to be monitored."
    if monitored > legs:
        return monitored_legs.at_most(float(monitored), float(legs), "count", message, cited, pointer)
    return monitored_legs.at_least(float(monitored), float(legs), "count", message, cited, pointer)


@rule("monitor-position", subject="monitors of the service", concept="monitored-conductors")
def monitor_position(case: Case) -> Finding:
    """Do the monitors see what the busbar carries, with a source that feeds back?

    Applies: where there is management and generation.
    Rests on: monitors on the load side of the source see the load. On its supply side they see the service alone:
    then loads may draw the setting and the source's current together, and the busbar is held against both.
    Missing facts: undetermined where the position is not stated, or on the supply side the busbar or the source.
    """
    cited, management = monitor_position.cited(case.edition), acting(case)
    if management is None:
        return monitor_position.not_applicable(NONE, cited)
    service = case.service
    if not has_backfeed(service) and not case.has_generation:
        return monitor_position.not_applicable("No source that feeds back is stated.", cited)
    pointer = AT + "/monitor_position"
    if management.monitor_position is None:
        return monitor_position.undetermined(
            pointer, "It is not stated on which side of the source the monitors sit.", cited
        )
    if management.monitor_position == "load-side-of-generation":
        return monitor_position.finding(
            "pass",
            "On the load side of the source the monitors see the load.",
            citation=cited,
            pointer=pointer,
        )
    if not has_backfeed(service) or service.busbar_rating_a is None:
        return monitor_position.undetermined(
            "/service",
            "On the supply side the busbar carries setting and source together; one of the ratings is not stated.",
            cited,
        )
    current, factor = counted_backfeed_a(service, case.edition.provision("busbar-with-backfeed"))
    both = busbar_supplies_a.value(management.control_setting_a, factor, current)
    return monitor_position.at_least(
        service.busbar_rating_a,
        both,
        "A",
        f"On the supply side of the source the busbar may carry the setting of {management.control_setting_a:g} A and "
        f"the source: {both:g} A on {service.busbar_rating_a:g} A.",
        cited,
        pointer,
    )
