"""The ledger that steps are written into."""

from branchwright.findings import Citation, Step, StepInput
from branchwright.findings.citations import Value


def stated(value: Value, unit: str, pointer: str) -> StepInput:
    """Return an input that the request states."""
    return StepInput(value, unit, "request:" + pointer)


class StepLedger:
    """Collects steps in order."""

    def __init__(self) -> None:
        """Open an empty ledger."""
        self.steps: list[Step] = []

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
