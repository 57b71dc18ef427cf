"""Rules about the service: whether its rating carries the load by a method that is permitted."""

from branchwright.checks.service_capacity.dwelling_load.case import LoadCase
from branchwright.checks.service_capacity.dwelling_load.facts import Method
from branchwright.checks.service_capacity.dwelling_load.methods import MethodLoad
from branchwright.checks.service_capacity.dwelling_load.rules.rule import LoadRule, rule
from branchwright.findings import Finding, Verdict

RATING = "/service/rating_a"
BY: dict[Method, str] = {
    "standard": "the standard method",
    "optional-new": "the optional method for a dwelling",
    "optional-existing": "the optional method for an existing dwelling",
}


def verdict_by(case: LoadCase, method: Method) -> Verdict | None:
    """Return what a method alone says of the service; None without a rating or where it is not permitted.

    A service that carries the load whatever the unknown facts are passes, one that does not in any case fails.
    """
    place = case.methods.index(method)
    load = case.loads[place]
    rating = case.household.supply.rating_a
    if rating is None or load.permitted is False:
        return None
    worst, best = case.worst[place].rounded_current_a, case.best[place].rounded_current_a
    if load.rounded_current_a is None or worst is None or best is None:
        return "undetermined"
    greatest = max(worst, load.rounded_current_a)
    least = min(best, load.rounded_current_a)
    if least > rating:
        return "fail"
    return "no-failure-found" if greatest <= rating and load.permitted else "undetermined"


def _waits(case: LoadCase, method: Method) -> str:
    """Return in words the unknown facts that move the load by a method."""
    place = case.methods.index(method)
    if case.worst[place].total_va == case.best[place].total_va:
        return ""
    return f" It depends on {', '.join(sorted(case.household.unknown))}, not stated."


def _by(case: LoadCase, method: Method, of: LoadRule) -> Finding:
    """Return the finding of one method."""
    cited = of.cited(case.edition)
    if method not in case.methods:
        return of.not_applicable(f"{BY[method].capitalize()} was not asked for.", cited)
    load = case.loads[case.methods.index(method)]
    rating = case.household.supply.rating_a
    if rating is None:
        return of.not_applicable("No rating of the service is stated.", cited)
    if load.permitted is False:
        return of.not_applicable(load.why, cited)
    verdict = verdict_by(case, method)
    if load.rounded_current_a is None:
        # With a rating there is a supply, so that only a lacking fact leaves the current out.
        return of.undetermined(load.lacking[0].pointer, f"By {BY[method]} the load is undetermined.", cited)
    found = of.at_least(
        rating,
        load.rounded_current_a,
        "A",
        f"By {BY[method]} the load is {load.rounded_current_a:g} A; the service has {rating:g} A.",
        cited,
        RATING,
    )
    if verdict == "undetermined":
        found.outcome = "undetermined"
        if load.permitted is None:
            found.message += f" {load.why}"
        found.message += _waits(case, method)
    return found


@rule("service-by-standard-method", subject="service", concept="lighting-load", force="recommendation")
def service_by_standard_method(case: LoadCase) -> Finding:
    """Does the service carry the load by the standard method?

    Applies: where the rating of the service is stated.
    Rests on: the service is rated for the calculated load. No one method must pass: `service-rating` asks whether
    any permitted one does.
    Missing facts: undetermined where a load or the supply is not stated, or where an unknown fact decides.
    """
    return _by(case, "standard", service_by_standard_method)


@rule(
    "service-by-optional-method",
    subject="service",
    concept="optional-dwelling-load",
    force="recommendation",
)
def service_by_optional_method(case: LoadCase) -> Finding:
    """Does the service carry the load by the optional method for a dwelling?

    Applies: where the rating of the service is stated, on three wires.
    Rests on: one dwelling unit on a single three-wire supply of 120/240 V or 208Y/120 V with conductors of 100 A or
    more; their ampacity follows from a rating of the service whose conductors must have it.
    Missing facts: undetermined where the ampacity cannot be told, or a load is not stated.
    """
    return _by(case, "optional-new", service_by_optional_method)


@rule(
    "service-by-existing-dwelling-method",
    subject="service",
    concept="existing-dwelling-load",
    force="recommendation",
)
def service_by_existing_dwelling_method(case: LoadCase) -> Finding:
    """Does the service carry the load by the optional method for an existing dwelling?

    Applies: where the rating of the service is stated, on three wires.
    Rests on: the method asks whether the service of a dwelling that is there already takes additional load.
    Missing facts: undetermined where nothing is stated to be new, or a load is not stated.
    """
    return _by(case, "optional-existing", service_by_existing_dwelling_method)


@rule("service-rating", subject="service", concept="lighting-load")
def service_rating(case: LoadCase) -> Finding:
    """Does the service carry the load by any method that is permitted?

    Applies: where the rating of the service is stated.
    Rests on: the code lets the load be calculated by any of its methods whose conditions are met, so the service
    holds if it carries the load by one of them. Amperes are rounded as the edition does.
    Missing facts: undetermined where only a method carries it whose conditions or loads are not all stated.
    """
    cited = service_rating.cited(case.edition)
    rating = case.household.supply.rating_a
    if rating is None:
        return service_rating.not_applicable("No rating of the service is stated.", cited)
    judged = [
        (load, verdict) for load in case.loads if (verdict := verdict_by(case, load.method)) is not None
    ]
    if not judged:
        return service_rating.undetermined(
            "/methods", "None of the methods that were asked for is permitted here.", cited
        )
    passing = [load for load, verdict in judged if verdict == "no-failure-found"]
    waiting = [load for load, verdict in judged if verdict == "undetermined"]
    for load in (*_by_current(passing), *_by_current(waiting)):
        if load.rounded_current_a is not None:
            found = service_rating.at_least(
                rating,
                load.rounded_current_a,
                "A",
                f"By {BY[load.method]} the load is {load.rounded_current_a:g} A; the service has {rating:g} A.",
                cited,
                RATING,
            )
            if not passing:
                found.outcome = "undetermined"
                found.message += f" {load.why}{_waits(case, load.method)}"
            return found
    if waiting:
        return service_rating.undetermined(
            case.household.at, "The load is undetermined by every method that could carry it.", cited
        )
    least = _by_current([load for load, _ in judged])[0]
    return service_rating.at_least(
        rating,
        least.rounded_current_a or 0.0,
        "A",
        f"The load is {least.rounded_current_a:g} A or more by every method; the service has {rating:g} A.",
        cited,
        RATING,
    )


def _by_current(loads: list[MethodLoad]) -> list[MethodLoad]:
    """Return loads, the smallest current first, undetermined ones last."""
    return sorted(loads, key=lambda load: (load.rounded_current_a is None, load.rounded_current_a or 0.0))


@rule("least-service-rating", subject="service", concept="least-service-rating")
def least_service_rating(case: LoadCase) -> Finding:
    """Is the service rated for what the edition asks of any?

    Applies: where the rating of the service is stated.
    Rests on: 100 A for a one-family dwelling, 60 A for others.
    Missing facts: no occupancy stands for a one-family dwelling.
    """
    cited = least_service_rating.cited(case.edition)
    rating = case.household.supply.rating_a
    if rating is None:
        return least_service_rating.not_applicable("No rating of the service is stated.", cited)
    least = case.least_service
    return least_service_rating.at_least(
        rating,
        least.number,
        "A",
        f"The service has {rating:g} A; the edition asks for {least.number:g} A or more.",
        cited,
        RATING,
    )


@rule("dwelling-supply-phases", subject="supply system", concept="nominal_voltages")
def dwelling_supply_phases(case: LoadCase) -> Finding:
    """Does the supply system have as many phases as are stated?

    Applies: where the supply is stated.
    Rests on: a split-phase system has one phase, a wye system up to three.
    Missing facts: no number of phases stands for one.
    """
    cited = dwelling_supply_phases.cited(case.edition)
    service = case.request.service
    if service is None:
        return dwelling_supply_phases.not_applicable("The supply is not stated.", cited)
    greatest = case.edition.greatest_phases(service.system).number
    phases = service.phases or 1
    return dwelling_supply_phases.at_most(
        float(phases),
        greatest,
        "count",
        f"{phases} phase{'s are' if phases > 1 else ' is'} stated; a {service.system} system has up to {greatest:g}.",
        cited,
        "/service/phases",
    )
