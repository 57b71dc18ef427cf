"""A larger panel or service that would do, of a standard rating."""

from collections.abc import Iterator

from branchwright.calculations.service_capacity import busbar_limit_a, busbar_supplies_a
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.changes import Change
from branchwright.checks.service_capacity.capacity_review.rules.backfeed import (
    counted_backfeed_a,
    has_backfeed,
)
from branchwright.checks.service_capacity.capacity_review.rules.conductors import service_conductors


def panel_upgrades(case: Case) -> Iterator[tuple[float, list[Change]]]:
    """Yield larger panels, smallest first, with the changes that they make.

    The main breaker stays, unless it is below the rating of the service and the conductors are stated and hold: a
    breaker is never enlarged on conductors that are not known to be large enough.
    """
    service, held = case.service, case.held_a
    if held is None or service.rating_a < held.greatest:
        return
    main = service.main_breaker_a
    mains = [main]
    if main is not None and main < service.rating_a and service_conductors(case).outcome == "pass":
        mains.append(service.rating_a)
    for tried in mains:
        changes = [] if tried == main else [Change("/service/main_breaker_a", tried)]
        if service.busbar_rating_a is None:
            if changes and tried is not None:
                yield tried, changes
            continue
        for rating in case.edition.standard_ratings:
            if rating > service.busbar_rating_a and rating >= held.greatest:
                yield rating, [*changes, Change("/service/busbar_rating_a", rating)]


def service_upgrades(case: Case) -> Iterator[tuple[float, list[Change]]]:
    """Yield larger services, smallest first, with the changes that they make: new conductors are sized for them."""
    service, held = case.service, case.held_a
    for rating in case.edition.standard_ratings if held else ():
        if rating <= service.rating_a or (held and rating < held.greatest):
            continue
        changes = [Change("/service/rating_a", rating)]
        if service.main_breaker_a is not None:
            changes.append(Change("/service/main_breaker_a", rating))
        if service.busbar_rating_a is not None:
            busbar = _busbar_a(case, rating)
            if busbar is None:
                continue
            changes.append(Change("/service/busbar_rating_a", busbar))
        if service.conductors is not None:
            changes.append(Change("/service/conductors", None))
        yield rating, changes


def _busbar_a(case: Case, main_a: float) -> float | None:
    """Return the least standard busbar in A, no smaller than the old one, for a main breaker and any source."""
    service = case.service
    least = max(main_a, service.busbar_rating_a or 0.0)
    provision = case.edition.provision("busbar-with-backfeed")
    percent = provision.number("percent" if service.backfeed_opposite_main else "anywhere_percent")
    for rating in (least, *case.edition.standard_ratings):
        if rating < least:
            continue
        if not has_backfeed(service):
            return rating
        current, factor = counted_backfeed_a(service, provision)
        if busbar_supplies_a.value(main_a, factor, current) <= busbar_limit_a.value(percent, rating):
            return rating
    return None
