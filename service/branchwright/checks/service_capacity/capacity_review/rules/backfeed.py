"""A busbar with two supplies: the main breaker and a source that feeds back."""

from branchwright.calculations.service_capacity import busbar_limit_a, busbar_supplies_a
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.facts import ReviewedService
from branchwright.checks.service_capacity.capacity_review.rules.rule import rule
from branchwright.codebook import Provision
from branchwright.findings import Finding


def has_backfeed(service: ReviewedService) -> bool:
    """Return whether a source that feeds the busbar back is stated."""
    return service.backfeed_breaker_a is not None or service.backfeed_output_a is not None


def counted_backfeed_a(service: ReviewedService, provision: Provision) -> tuple[float, float]:
    """Return the current of the source in A and the factor on it: its breaker counts once, its output at the factor."""
    if service.backfeed_output_a is not None:
        return service.backfeed_output_a, provision.number("backfeed_factor")
    return service.backfeed_breaker_a or 0.0, 1.0


@rule("busbar-with-backfeed", subject="panel busbar", concept="busbar-with-backfeed")
def busbar_with_backfeed(case: Case) -> Finding:
    """Does the busbar bear both of its supplies?

    Applies: where a source feeds the busbar back, such as a solar inverter.
    Rests on: the main breaker and 125 percent of the source's output come to at most 120 percent of the busbar where
    the source connects at the end opposite to the main, else to at most its rating. A backfed breaker, sized at 125
    percent, counts at its rating where the output is not stated. The other ways to comply are not judged.
    Missing facts: undetermined without the ratings of busbar and main, or where the unknown place of the source
    decides. No main breaker stands for the rating of the service.
    """
    service = case.service
    provision = case.edition.provision("busbar-with-backfeed")
    cited, pointer = provision.citation, "/service/busbar_rating_a"
    if not has_backfeed(service):
        return busbar_with_backfeed.not_applicable("No source that feeds back is stated.", cited)
    if service.busbar_rating_a is None:
        return busbar_with_backfeed.undetermined(pointer, "The rating of the busbar is not stated.", cited)
    main = service.main_breaker_a or service.rating_a
    current, factor = counted_backfeed_a(service, provision)
    supplies = busbar_supplies_a.value(main, factor, current)
    opposite = busbar_limit_a.value(provision.number("percent"), service.busbar_rating_a)
    anywhere = busbar_limit_a.value(provision.number("anywhere_percent"), service.busbar_rating_a)
    limit = opposite if service.backfeed_opposite_main else anywhere
    finding = busbar_with_backfeed.at_most(
        supplies,
        limit,
        "A",
        f"Main and source put up to {supplies:g} A on a busbar of {service.busbar_rating_a:g} A, which may have "
        f"{opposite:g} A with the source at the opposite end, else {anywhere:g} A.",
        cited,
        pointer,
    )
    if service.backfeed_opposite_main is None and anywhere < supplies <= opposite:
        finding.outcome = "undetermined"
        finding.pointer = "/service/backfeed_opposite_main"
        finding.message += " It is not stated at which end the source connects."
    return finding


@rule("backfeed-breaker", subject="breaker of the source that feeds back", concept="busbar-with-backfeed")
def backfeed_breaker(case: Case) -> Finding:
    """Is the breaker of the source as large as its output asks for?

    Applies: where both are stated.
    Rests on: the device of a source that feeds back has at least 125 percent of the rated output current.
    Missing facts: not applicable where one of the two is not stated.
    """
    service = case.service
    provision = case.edition.provision("busbar-with-backfeed")
    breaker, output = service.backfeed_breaker_a, service.backfeed_output_a
    if breaker is None or output is None:
        return backfeed_breaker.not_applicable(
            "Breaker and output of a source that feeds back are not both stated.", provision.citation
        )
    least = busbar_supplies_a.value(0.0, provision.number("backfeed_factor"), output)
    return backfeed_breaker.at_least(
        breaker,
        least,
        "A",
        f"Breaker of {breaker:g} A; an output of {output:g} A asks for at least {least:g} A.",
        provision.citation,
        "/service/backfeed_breaker_a",
    )
