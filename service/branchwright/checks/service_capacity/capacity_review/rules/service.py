"""The load against service, main breaker and busbar."""

from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.rules.rule import CapacityRule, rule
from branchwright.findings import Citation, Finding


def _held(
    own: CapacityRule, case: Case, rating_a: float, what: str, citation: Citation, pointer: str
) -> Finding:
    """Judge a rating: by the load itself, or by what the control setting counts for where that is less."""
    held = case.held_a
    if held is None:
        return own.undetermined("/existing_load", "The existing load cannot be computed.", citation)
    if case.management is not None and case.is_held_by_setting:
        setting = case.management.control_setting_a
        message = f"energy management holds {setting:g} A, which count for {held.greatest:g} A."
    else:
        load = f"{held.greatest:g} A" if held.is_known else f"{held.least:g} to {held.greatest:g} A"
        message = f"existing load and chargers come to {load}."
    waits_for = f" Which of it, depends on {_what_is_open(case)}."
    return own.carries(rating_a, held, f"{what} of {rating_a:g} A; {message}", citation, pointer, waits_for)


def _what_is_open(case: Case) -> str:
    """Return in words what leaves the load open."""
    existing = case.existing.load_va
    is_open = existing is not None and not existing.is_known
    return ", ".join(
        [*(["the demand within the intervals of the record"] if is_open else []), *sorted(case.unknown)]
    )


@rule("service-capacity", subject="service", concept="charger-on-service", is_about_load=True)
def service_capacity(case: Case) -> Finding:
    """Does the service carry the existing load and the chargers?

    Applies: always.
    Rests on: the rating of the service is at least the load: the existing one by the method chosen, and what the
    chargers add to it, at 125 percent unless the other reading is chosen. Where energy management holds the service,
    its control setting may stand for the load, and counts as continuous. Fractions of an ampere are rounded as the
    edition permits, save for a setting.
    Missing facts: undetermined where unknown access to a setting, or the interval of a record, decides.
    """
    cited = case.edition.citation_of(_concept(case))
    return _held(service_capacity, case, case.service.rating_a, "Service", cited, "/service/rating_a")


def _concept(case: Case) -> str:
    """Return what the load against the service rests on."""
    if case.is_held_by_setting:
        return "energy-management-load"
    return "charger-on-service"


@rule("main-breaker-capacity", subject="main breaker", concept="charger-on-service", is_about_load=True)
def main_breaker_capacity(case: Case) -> Finding:
    """Does the main breaker carry the load?

    Applies: where its rating is stated.
    Rests on: as for the service; an overcurrent device has at least the load and 125 percent of what is continuous.
    Missing facts: as for the service.
    """
    cited, rating_a = case.edition.citation_of(_concept(case)), case.service.main_breaker_a
    if rating_a is None:
        return main_breaker_capacity.not_applicable("The rating of the main breaker is not stated.", cited)
    return _held(main_breaker_capacity, case, rating_a, "Main breaker", cited, "/service/main_breaker_a")


@rule("busbar-capacity", subject="panel busbar", concept="busbar-load", is_about_load=True)
def busbar_capacity(case: Case) -> Finding:
    """Does the busbar of the panel carry the load?

    Applies: where its rating is stated.
    Rests on: a panelboard is rated for at least the load that it is calculated for.
    Missing facts: as for the service.
    """
    cited, rating_a = busbar_capacity.cited(case.edition), case.service.busbar_rating_a
    if rating_a is None:
        return busbar_capacity.not_applicable("The rating of the busbar is not stated.", cited)
    return _held(busbar_capacity, case, rating_a, "Busbar", cited, "/service/busbar_rating_a")


@rule("main-breaker-within-service", subject="main breaker", concept="service-overload-protection")
def main_breaker_within_service(case: Case) -> Finding:
    """Does the main breaker protect the service?

    Applies: where its rating is stated.
    Rests on: overload protection of service conductors is not above what they may carry, and so not above the rating
    of the service.
    Missing facts: not applicable without the rating of the main breaker.
    """
    cited, main = main_breaker_within_service.cited(case.edition), case.service.main_breaker_a
    if main is None:
        return main_breaker_within_service.not_applicable(
            "The rating of the main breaker is not stated.", cited
        )
    return main_breaker_within_service.at_most(
        main,
        case.service.rating_a,
        "A",
        f"Main breaker of {main:g} A on a service of {case.service.rating_a:g} A.",
        cited,
        "/service/main_breaker_a",
    )


@rule("busbar-protection", subject="panel busbar", concept="busbar-load")
def busbar_protection(case: Case) -> Finding:
    """Does the main breaker protect the busbar?

    Applies: where both ratings are stated.
    Rests on: the overcurrent device ahead of a panelboard is not rated above its busbar.
    Missing facts: not applicable where one of the two is not stated.
    """
    cited, service = busbar_protection.cited(case.edition), case.service
    if service.main_breaker_a is None or service.busbar_rating_a is None:
        return busbar_protection.not_applicable(
            "The ratings of main breaker and busbar are not both stated.", cited
        )
    return busbar_protection.at_most(
        service.main_breaker_a,
        service.busbar_rating_a,
        "A",
        f"Main breaker of {service.main_breaker_a:g} A on a busbar of {service.busbar_rating_a:g} A.",
        cited,
        "/service/main_breaker_a",
    )


@rule("service-phases", subject="service", concept="nominal_voltages")
def service_phases(case: Case) -> Finding:
    """Does the supply system have as many phases as the service is stated to have?

    Applies: always.
    Rests on: a split-phase system has one phase; a wye system one or three.
    Missing facts: no number of phases stands for one.
    """
    phases, system = case.service.phases or 1, case.service.system
    return service_phases.at_most(
        float(phases),
        case.edition.greatest_phases(system).number,
        "count",
        f"The service is stated to have {phases} phase{'s' if phases > 1 else ''} of a {system} system.",
        service_phases.cited(case.edition),
        "/service/phases",
    )
