"""The ledger that steps are written into, and the inputs that several of them share."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.facts import CircuitReviewRequest
from branchwright.checks.circuits.segment_conditions import SegmentConditions
from branchwright.findings import Citation, Step, StepInput
from branchwright.findings.citations import Value
from branchwright.quantities.lengths import UNITS_PER_FOOT

_ESCAPES = str.maketrans({"~": "~0", "/": "~1"})


def stated(value: Value, unit: str, pointer: str) -> StepInput:
    """Return an input that the request states."""
    return StepInput(value, unit, "request:" + pointer)


class Ledger:
    """Collects the steps of one circuit in order, and remembers inputs by segment."""

    def __init__(self, circuit: Circuit) -> None:
        """Open the ledger of a circuit."""
        self.circuit = circuit
        self.given = circuit.given
        self.edition = circuit.given.edition
        self.steps: list[Step] = []
        self.ambients: dict[int, StepInput] = {}
        self.adjustments: dict[int, StepInput] = {}
        self._lengths: dict[int, StepInput] = {}

    def note(self, step: Step) -> None:
        """Enter a step that no later one builds on."""
        self.steps.append(step)

    def add(self, step: Step) -> StepInput:
        """Enter a step and return its value as an input of later ones."""
        self.steps.append(step)
        return step.as_input()

    def work_out(
        self,
        step_id: str,
        quantity: str,
        expression: str,
        inputs: dict[str, StepInput],
        value: Value,
        unit: str,
        citation: Citation | None,
        segment: int | None = None,
    ) -> StepInput:
        """Enter a step whose value the engine has worked out already."""
        self.steps.append(Step(step_id, quantity, segment, expression, inputs, value, unit, citation))
        return StepInput(value, unit, "step:" + step_id)

    def size(self, what: str, size: str) -> StepInput:
        """Return a size as a review states it, or as the row of the ampacity table that a design chose."""
        if self.circuit.is_review:
            return stated(size, "size", self.circuit.pointer(what))
        return StepInput(size, "size", f"codebook:ampacity/{size.translate(_ESCAPES)}/size")

    def material(self) -> StepInput:
        """Return the metal of the ungrounded conductors."""
        return stated(self.given.material, "text", "/conductors/material")

    def grounding_material(self) -> StepInput:
        """Return the metal of the grounding conductor, from where it is stated."""
        facts = self.circuit.facts
        pointer = (
            "/conductors/grounding_material"
            if facts.conductors.grounding_material
            else "/conductors/material"
        )
        if isinstance(facts, CircuitReviewRequest) and facts.installed.grounding_material:
            pointer = "/installed/grounding_material"
        return stated(self.circuit.sizes.grounding_material, "text", pointer)

    def length(self, segment: SegmentConditions) -> StepInput:
        """Return a segment's length in feet, converting it once where it was stated in another unit."""
        found = self._lengths.get(segment.index)
        if found is None:
            given = segment.facts.length
            found = stated(given.value, given.unit, f"/run/{segment.index}/length/value")
            if given.unit != "ft":
                found = self.work_out(
                    f"segment-{segment.index}-length",
                    "length in feet",
                    f"length / {UNITS_PER_FOOT[given.unit]:g}",
                    {"length": found},
                    segment.length_ft,
                    "ft",
                    None,
                    segment.index,
                )
            self._lengths[segment.index] = found
        return found
