"""The ledger that steps are written into, and the inputs that several of them share."""

from branchwright.checks.circuits.circuit import Circuit
from branchwright.checks.circuits.facts import CircuitReviewRequest
from branchwright.checks.circuits.segment_conditions import SegmentConditions
from branchwright.findings import StepInput
from branchwright.quantities.lengths import UNITS_PER_FOOT
from branchwright.questions.ledger import StepLedger, stated

_ESCAPES = str.maketrans({"~": "~0", "/": "~1"})


class Ledger(StepLedger):
    """Collects the steps of one circuit in order, and remembers inputs by segment."""

    def __init__(self, circuit: Circuit) -> None:
        """Open the ledger of a circuit."""
        super().__init__()
        self.circuit = circuit
        self.given = circuit.given
        self.edition = circuit.given.edition
        self.ambients: dict[int, StepInput] = {}
        self.adjustments: dict[int, StepInput] = {}
        self._lengths: dict[int, StepInput] = {}

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
