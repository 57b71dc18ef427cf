"""The service conductors: against the rating of the service, the printed table, and the load."""

from branchwright.calculations.service_capacity import least_service_ampacity_a
from branchwright.checks.service_capacity.capacity_review.ampacity import is_corrected
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.rules.rule import rule
from branchwright.checks.service_capacity.capacity_review.spans import Span
from branchwright.findings import Citation, Finding, Provided, Required
from branchwright.quantities.conductor_sizes import RANK
from branchwright.questions.overcurrent import permitted_breaker_a

AT = "/service/conductors"
NONE = "The service conductors are not stated."
DWELLINGS = ("one-family", "two-family", "multifamily")


def is_by_percent(case: Case) -> bool | None:
    """Return whether the conductors may be sized by a percentage of the rating; None where a fact is missing."""
    conductors, rule = case.service.conductors, case.edition.provision("dwelling-service-conductors")
    in_range = rule.number("from_a") <= case.service.rating_a <= rule.number("to_a")
    if conductors is None or not in_range or case.service.system != "split-phase-120-240":
        return False
    occupancy = case.request.occupancy
    facts = (None if occupancy is None else occupancy in DWELLINGS, conductors.carry_entire_load)
    return False if False in facts else None if None in facts else True


@rule("service-conductors", subject="service conductors", concept="dwelling-service-conductors")
def service_conductors(case: Case) -> Finding:
    """Are the service conductors large enough for the rating of the service?

    Applies: where the conductors are stated.
    Rests on: conductors that carry the entire load of a dwelling unit on 120/240 V from 100 to 400 A have at least 83
    percent of the rating, after correction and adjustment. Others are protected at their ampacity, the next higher
    standard rating permitted.
    Missing facts: undetermined without size and metal or ampacity, and where unmarked terminals, the kind of building
    or what the conductors carry would decide.
    """
    cited, conductors = service_conductors.cited(case.edition), case.service.conductors
    if conductors is None:
        return service_conductors.not_applicable(NONE, cited)
    ampacity = case.ampacity_a
    if ampacity is None:
        return service_conductors.undetermined(
            AT, "Neither size and metal nor the ampacity of the service conductors is stated.", cited
        )
    by_percent = is_by_percent(case)
    if by_percent is False:
        return _protected(case, ampacity)
    finding = _by_percent(case, ampacity, cited)
    if by_percent is None and finding.outcome != "fail":
        protected = _protected(case, ampacity)
        if protected.outcome == "pass":
            return protected
        pointer, what = AT + "/carry_entire_load", "whether they carry it"
        if case.request.occupancy is None:
            pointer, what = "/occupancy", "the kind of building"
        finding.outcome, finding.pointer, finding.margin_percent = "undetermined", pointer, None
        finding.message += f" That does for the entire load of one dwelling unit; {what} is not stated."
    return finding


def _by_percent(case: Case, ampacity: Span, cited: Citation) -> Finding:
    percent = case.edition.provision("dwelling-service-conductors").number("percent")
    least = least_service_ampacity_a.value(percent, case.service.rating_a)
    finding = service_conductors.at_least(
        ampacity.least,
        least,
        "A",
        f"The conductors have {_in_words(ampacity)}; {percent:g} % of {case.service.rating_a:g} A are {least:g} A.",
        cited,
        AT,
    )
    return _waits_for_terminals(finding, is_open=ampacity.least < least <= ampacity.greatest)


def _protected(case: Case, ampacity: Span) -> Finding:
    rating = case.service.main_breaker_a or case.service.rating_a
    at_worst, at_best = (
        permitted_breaker_a(case.edition, value) for value in (ampacity.least, ampacity.greatest)
    )
    finding = service_conductors.at_most(
        rating,
        at_worst,
        "A",
        f"The conductors have {_in_words(ampacity)}, which permits {at_worst:g} A; the service has {rating:g} A.",
        case.edition.citation_of("next-size-up"),
        AT,
    )
    return _waits_for_terminals(finding, is_open=at_worst < rating <= at_best)


def _in_words(ampacity: Span) -> str:
    return f"{ampacity.least:g} A" if ampacity.is_known else f"{ampacity.least:g} to {ampacity.greatest:g} A"


def _waits_for_terminals(finding: Finding, *, is_open: bool) -> Finding:
    if is_open:
        finding.outcome = "undetermined"
        finding.pointer = AT + "/terminal_temperature_rating_c"
        finding.message += " The marking of the terminals decides; it is not stated."
    return finding


@rule(
    "service-conductor-table",
    subject="service conductors",
    concept="dwelling_service_sizes",
    force="recommendation",
)
def service_conductor_table(case: Case) -> Finding:
    """Are the service conductors at least of the printed size for a dwelling?

    Applies: where size and metal are stated of conductors that carry the entire load of a dwelling unit, in an edition
    that prints the table, at a rating that has a row, with neither correction nor adjustment.
    Rests on: the printed table of service conductors for dwellings, for terminals of 75 degC.
    Missing facts: not applicable where a fact is not stated; the percentage decides in any case.
    """
    conductors, rating = case.service.conductors, case.service.rating_a
    if conductors is None or conductors.size is None or conductors.material is None:
        return service_conductor_table.not_applicable("The size of the service conductors is not stated.")
    if is_by_percent(case) is not True:
        return service_conductor_table.not_applicable(
            "The table is for the entire load of a dwelling unit on 120/240 V."
        )
    if is_corrected(conductors, case.edition):
        return service_conductor_table.not_applicable(
            "The table is not for conductors that need correction or adjustment."
        )
    printed = case.edition.dwelling_loads.service_size(rating, conductors.material)
    if printed is None:
        return service_conductor_table.not_applicable(f"The edition prints no size for {rating:g} A.")
    # Printed sizes beyond those of circuits are larger than any that can be stated.
    holds = RANK[conductors.size] >= RANK.get(printed.name, len(RANK))
    return service_conductor_table.finding(
        "pass" if holds else "fail",
        f"The table prints {printed.name} {conductors.material} for {rating:g} A; there is {conductors.size}.",
        citation=printed.citation,
        pointer=AT + "/size",
        required=Required(printed.name, "size", "at-least"),
        provided=Provided(conductors.size, "size"),
    )


@rule(
    "service-conductor-load", subject="service conductors", concept="charger-on-service", is_about_load=True
)
def service_conductor_load(case: Case) -> Finding:
    """Do the service conductors carry the load?

    Applies: where the conductors are stated and not sized by the percentage for dwellings, which stands for the load.
    Rests on: their ampacity is at least the load with 125 percent of what is continuous.
    Missing facts: undetermined where an unknown fact decides.
    """
    cited, conductors, ampacity = (
        service_conductor_load.cited(case.edition),
        case.service.conductors,
        case.ampacity_a,
    )
    if conductors is None or ampacity is None:
        return service_conductor_load.not_applicable(NONE, cited)
    if is_by_percent(case) is True:
        return service_conductor_load.not_applicable(
            "Conductors by the percentage for dwellings carry the load of the service.", cited
        )
    held = case.held_a
    if held is None:
        return service_conductor_load.undetermined(
            "/existing_load", "The existing load cannot be computed.", cited
        )
    finding = service_conductor_load.at_least(
        ampacity.least,
        held.greatest,
        "A",
        f"The conductors have {_in_words(ampacity)}; the load is {held.greatest:g} A.",
        cited,
        AT,
    )
    if finding.outcome == "fail" and ampacity.greatest >= held.least:
        finding.outcome = "undetermined"
        finding.message += " Which of it, depends on facts not stated."
    elif finding.outcome == "fail" and is_by_percent(case) is None:
        finding.outcome = "undetermined"
        finding.message += " Whether the percentage for dwellings stands for it, depends on facts not stated."
    return finding
