"""Runs the rules over a circuit, and again under every other reading that was consulted."""

from collections.abc import Callable, Sequence
from contextlib import suppress

from branchwright.checks.circuits.circuit import Circuit, Sizes
from branchwright.checks.circuits.facts import CircuitReviewRequest
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.rules import RULES, Rule
from branchwright.checks.circuits.sizing import minimum_size
from branchwright.codebook import Book, ProvisionLacking
from branchwright.findings import Finding, Verdict, verdict_of
from branchwright.quantities.conductor_sizes import RANK, SIZES, ConductorSize

REVIEW_RULES: tuple[Rule, ...] = RULES
DESIGN_RULES: tuple[Rule, ...] = tuple(rule for rule in RULES if not rule.review_only)

_RULE_CONSULTED = frozenset[str]().union(*(rule.consults for rule in RULES))
"""Interpretations that only rules consult; any other is consulted while the conditions are derived."""


def installed_circuit(request: CircuitReviewRequest, book: Book) -> Circuit:
    """Return the circuit of a review request as it is stated."""
    installed = request.installed
    given = Given(request, book, installed.breaker_rating_a)
    grounding = installed.grounding_size or _brought_by_every_cable(given)
    sizes = Sizes(
        breaker_a=installed.breaker_rating_a,
        ungrounded=installed.ungrounded_size,
        neutral=installed.neutral_size,
        grounding=grounding,
        grounding_is_the_cables=installed.grounding_size is None and grounding is not None,
        grounding_material=installed.grounding_material
        or request.conductors.grounding_material
        or request.conductors.material,
        trade_sizes=[segment.raceway_trade_size for segment in request.run],
        ground_fault_protection=installed.ground_fault_protection,
        disconnect=installed.disconnect,
        emergency_shutoff=installed.emergency_shutoff,
        setting_label=installed.setting_label,
        torque_records=installed.torque_records,
    )
    return Circuit(given, sizes, minimum_size(given), is_review=True)


def _brought_by_every_cable(given: Given) -> ConductorSize | None:
    """Return the smallest grounding conductor of a run that is cable all the way; None where one is not stated."""
    brought = [
        None
        if segment.method.is_raceway or segment.facts.cable is None
        else segment.facts.cable.grounding_size
        for segment in given.segments
    ]
    stated = [size for size in brought if size is not None]
    return SIZES[min(RANK[size] for size in stated)] if len(stated) == len(brought) else None


def judge(circuit: Circuit, rules: Sequence[Rule]) -> list[Finding]:
    """Return one finding of each rule."""
    if not circuit.missing and not circuit.given.unknown:
        # Everything is known: the rules need no second thought, unless the edition lacks a provision.
        with suppress(ProvisionLacking):
            return [rule.function(circuit) for rule in rules]
    best = _best_of(circuit)
    return [rule(circuit, best) for rule in rules]


def _best_of(circuit: Circuit) -> Callable[[], Circuit]:
    """Return a maker of the same circuit with every unknown fact at its best, built at most once."""
    made: list[Circuit] = []

    def make() -> Circuit:
        if not made:
            best = circuit.given.at_best()
            made.append(Circuit(best, circuit.sizes, minimum_size(best), is_review=circuit.is_review))
        return made[0]

    return make


def _rebuilt(circuit: Circuit, book: Book) -> Circuit:
    given = Given(circuit.facts, book, circuit.sizes.breaker_a, circuit.given.assumption)
    return Circuit(given, circuit.sizes, minimum_size(given), is_review=circuit.is_review)


def verdict_under(
    circuit: Circuit, rules: Sequence[Rule], findings: Sequence[Finding], name: str, reading: str
) -> Verdict:
    """Return the verdict of the same circuit under one other reading; only rules that consult it run again."""
    given = circuit.given
    own = given.book
    if name not in _RULE_CONSULTED:
        return verdict_of(judge(_rebuilt(circuit, own.with_reading(name, reading)), rules))
    # The conditions do not depend on this reading, so they are lent the other book while the rules run.
    given.book = own.with_reading(name, reading)
    try:
        other = Circuit(given, circuit.sizes, circuit.minimum_size, is_review=circuit.is_review)
        best = _best_of(other)
        changed = list(findings)
        for place, rule in enumerate(rules):
            if name in rule.consults:
                changed[place] = rule(other, best)
        return verdict_of(changed)
    finally:
        given.book = own
