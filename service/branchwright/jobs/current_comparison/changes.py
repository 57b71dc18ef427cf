"""What changes from one current to the next, which rule asks for it, and where it is dear."""

from collections.abc import Iterator

from branchwright.checks.circuits.answers import GovernedBy
from branchwright.checks.circuits.rules.current_setting import setting_label
from branchwright.checks.circuits.rules.disconnecting_means import disconnecting_means
from branchwright.checks.circuits.rules.ground_fault_protection import ground_fault_protection
from branchwright.findings.citations import Value
from branchwright.jobs.current_comparison.answers import Changing, ComparedCurrent, CurrentChange, Needed
from branchwright.quantities.conductor_sizes import RANK
from branchwright.quantities.trade_sizes import TRADE_SIZE_RANK

LAST_ALLOWED = "last current that these facts allow"


def changes(lower: ComparedCurrent, row: ComparedCurrent, governed_by: GovernedBy) -> list[CurrentChange]:
    """Return what is different between two currents that have a circuit; `governed_by` is of the higher one."""
    return [change for change in _compared(lower, row, governed_by) if change.before != change.to]


def _compared(
    lower: ComparedCurrent, row: ComparedCurrent, governed_by: GovernedBy
) -> Iterator[CurrentChange]:
    if lower.breaker_rating_a is not None and row.breaker_rating_a is not None:
        yield _change("breaker", lower.breaker_rating_a, row.breaker_rating_a, governed_by.breaker)
    if lower.ungrounded_size and row.ungrounded_size:
        larger = RANK[row.ungrounded_size] > RANK[lower.ungrounded_size]
        rule = governed_by.conductors
        yield _change("ungrounded", lower.ungrounded_size, row.ungrounded_size, rule, is_dear=larger)
    if lower.neutral_size and row.neutral_size:
        yield _change("neutral", lower.neutral_size, row.neutral_size, governed_by.conductors)
    if lower.grounding_size and row.grounding_size:
        yield _change("grounding", lower.grounding_size, row.grounding_size, governed_by.grounding)
    if governed_by.raceway is not None:
        before = {raceway.segment: raceway.trade_size for raceway in lower.raceways}
        for raceway in row.raceways:
            smaller, after = before[raceway.segment], raceway.trade_size
            larger = TRADE_SIZE_RANK[after] > TRADE_SIZE_RANK[smaller]
            rule = governed_by.raceway
            yield _change("raceway", smaller, after, rule, is_dear=larger, segment=raceway.segment)
    yield _change(
        "ground-fault-protection",
        _needed(lower.ground_fault_protection_required),
        _needed(row.ground_fault_protection_required),
        ground_fault_protection.name,
    )
    yield _change(
        "disconnect",
        _needed(lower.disconnect_required),
        _needed(row.disconnect_required),
        disconnecting_means.name,
        is_dear=row.disconnect_required is True,
    )
    yield _change("label", _needed(lower.label_required), _needed(row.label_required), setting_label.name)


def _change(
    what: Changing, before: Value, to: Value, rule: str, *, is_dear: bool = False, segment: int | None = None
) -> CurrentChange:
    return CurrentChange(what, segment, before, to, rule, is_dear)


def _needed(required: bool | None) -> Needed:
    return "undetermined" if required is None else "required" if required else "not-required"


def mark(next_served: ComparedCurrent | None, *, more_was_asked: bool) -> str | None:
    """Return why a current with a circuit is a good one to stop at; None where it is not.

    Args:
        next_served: the next higher current that has a circuit, if any.
        more_was_asked: whether any higher current was compared at all.
    """
    if next_served is None:
        return LAST_ALLOWED if more_was_asked else None
    if not any(change.is_dear for change in next_served.changes):
        return None
    return "last current before " + _listed(list(_named(next_served.changes)))


def _named(of_next: list[CurrentChange]) -> Iterator[str]:
    """Name the dear changes, and the breaker that comes with them."""
    dear = [change for change in of_next if change.is_dear]
    sizes = [f"{change.to} conductors" for change in dear if change.what == "ungrounded"]
    yield from sizes
    trade_sizes = list(dict.fromkeys(str(change.to) for change in dear if change.what == "raceway"))
    if trade_sizes:
        raceways = "a raceway" if len(trade_sizes) == 1 else "raceways"
        yield f"{raceways} of trade size {_listed(trade_sizes)}"
    if any(change.what == "disconnect" for change in dear):
        yield "a disconnecting means"
    for change in of_next:
        if change.what == "breaker":
            rating = f"{change.to:g}"
            yield f"{'an' if rating.startswith('8') else 'a'} {rating} A breaker"


def _listed(names: list[str]) -> str:
    *all_but_last, last = names
    return f"{', '.join(all_but_last)} and {last}" if all_but_last else last
