"""Compares charging currents: one judged design each, without its working, the energy that it brings
and what it costs."""

from typing import Final

from branchwright.checks.circuits.design import judged_design
from branchwright.checks.circuits.given import Given
from branchwright.checks.circuits.remarks import cautions, not_examined, to_verify
from branchwright.jobs.current_comparison.answers import ComparedCurrent, CurrentComparisonAnswer
from branchwright.jobs.current_comparison.changes import changes, mark
from branchwright.jobs.current_comparison.costs import Costs
from branchwright.jobs.current_comparison.energy import EnergyWorking
from branchwright.jobs.current_comparison.facts import CurrentComparisonRequest
from branchwright.jobs.current_comparison.readings import ReadingsTally
from branchwright.jobs.current_comparison.rows import row_of
from branchwright.questions.answers import ToVerify
from branchwright.questions.remarks import provenance_of

NOT_EXAMINED: Final = "what the vehicle accepts, what charging loses, and the voltage at the hour of charging"
RATED_CURRENT: Final = "/charger/rated_current_a"


def compare(request: CurrentComparisonRequest) -> CurrentComparisonAnswer:
    """Return a row for each charging current: the circuit that it needs, what that changes, and its energy."""
    stated = request.model_dump(by_alias=True, exclude_unset=True)
    judged = [judged_design(request.circuit_at(current_a)) for current_a in request.compared_currents_a()]
    energy, readings, costs = EnergyWorking(request), ReadingsTally(), Costs(request)
    rows: list[ComparedCurrent] = []
    lower: ComparedCurrent | None = None
    for one in judged:
        design = one.described()
        row = row_of(one, design, *energy.enter(one.circuit.given))
        readings.add(row, one.interpretations())
        if design is not None:
            if lower is not None:
                row.changes = changes(lower, row, design.governed_by)
            row.cost = costs.of(one, design)
            lower = row
        rows.append(row)
    _mark(rows)
    first = judged[0].circuit
    return CurrentComparisonAnswer(
        edition=request.edition,
        jurisdiction=request.jurisdiction,
        rows=rows,
        steps=energy.steps,
        price_book=costs.price_book,
        labour_table=costs.labour_table,
        exclusions=costs.exclusions(judged[0]),
        interpretations=readings.interpretations(),
        to_verify=[*_to_verify(first.given), *costs.to_verify()],
        not_examined=[*not_examined(first.given), NOT_EXAMINED],
        cautions=[
            *cautions(first.given, request.conductors.grounding_material or request.conductors.material),
            *costs.cautions(),
        ],
        provenance=provenance_of(stated),
    )


def _mark(rows: list[ComparedCurrent]) -> None:
    """Mark the rows with a circuit after which it becomes dear, or after which there is none."""
    higher: ComparedCurrent | None = None
    for place, row in reversed(list(enumerate(rows))):
        if row.breaker_rating_a is not None:
            row.mark = mark(higher, more_was_asked=place + 1 < len(rows))
            higher = row


def _to_verify(given: Given) -> list[ToVerify]:
    """Return what was declared or assumed, alike at every current; a rated current not stated is each row's own."""
    return [
        ToVerify(item.pointer, "not stated, taken as the charging current of each row", item.evidence)
        if item.pointer == RATED_CURRENT
        else item
        for item in to_verify(given)
    ]
