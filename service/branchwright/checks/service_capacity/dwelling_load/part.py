"""A part of a load as it is entered: its items, its lines, the steps behind them, and the facts that it lacks."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import fsum

from branchwright.calculations.dwelling_load import demand_va
from branchwright.checks.service_capacity.dwelling_load.answers import Group, LoadItem, LoadLine
from branchwright.findings import Citation, StepInput
from branchwright.questions.ledger import StepLedger

EDITION = "/edition"


@dataclass(slots=True, frozen=True)
class Lacking:
    """A fact, or a provision of the edition, without which a load cannot be told."""

    pointer: str
    message: str


class Part:
    """Items and lines of a load, with the demand of every line as an input of later steps."""

    def __init__(self, ledger: StepLedger, prefix: str) -> None:
        """Open a part whose steps bear a prefix."""
        self.ledger = ledger
        self.prefix = prefix
        self.items: list[LoadItem] = []
        self.lines: list[LoadLine] = []
        self.demands: dict[str, StepInput] = {}
        """Demand of each line that counts, by a name for expressions."""
        self.lacking: list[Lacking] = []

    def item(self, group: Group, item: str, pointer: str | None, connected_va: float) -> None:
        """Enter a load before any demand factor."""
        self.items.append(LoadItem(group, item, pointer, connected_va))

    def line(
        self,
        group: Group,
        item: str,
        connected_va: float,
        demand: tuple[str, StepInput],
        citation: Citation,
        pointer: str | None = None,
    ) -> None:
        """Enter a line by the name and value of its demand."""
        name, counted = demand
        demand_va = float(counted.value)
        factor = demand_va / connected_va if connected_va else 0.0
        self.lines.append(LoadLine(group, item, pointer, connected_va, factor, demand_va, citation))
        self.demands[name] = counted

    def omitted(
        self, group: Group, item: str, connected_va: float, citation: Citation, pointer: str | None = None
    ) -> None:
        """Enter a line that does not count."""
        self.lines.append(LoadLine(group, item, pointer, connected_va, 0.0, 0.0, citation))

    def lacks(self, pointer: str, message: str) -> None:
        """Enter a fact that is missing."""
        self.lacking.append(Lacking(pointer, message))

    def take(self, others: "Iterable[Part]") -> None:
        """Take over what other parts have."""
        for other in others:
            self.items.extend(other.items)
            self.lines.extend(other.lines)
            self.demands.update(other.demands)
            self.lacking.extend(other.lacking)

    def add_up(
        self,
        step: str,
        quantity: str,
        inputs: dict[str, StepInput],
        citation: Citation | None = None,
        unit: str = "VA",
    ) -> StepInput:
        """Enter the sum of inputs as a step; without inputs it is zero."""
        expression = f"round({' + '.join(inputs)}, 6)" if inputs else "0"
        value = round(fsum(float(item.value) for item in inputs.values()), 6)
        return self.ledger.work_out(self.prefix + step, quantity, expression, inputs, value, unit, citation)

    def percent_of(
        self, step: str, load: StepInput, percent: StepInput, citation: Citation | None
    ) -> StepInput:
        """Enter a percentage of a load as a step."""
        inputs = {"load_va": load, "percent": percent}
        return self.ledger.add(demand_va.step(self.prefix + step, inputs, citation))

    def greatest(
        self,
        step: str,
        quantity: str,
        inputs: dict[str, StepInput],
        citation: Citation | None = None,
        unit: str = "VA",
    ) -> StepInput:
        """Enter the greatest of one or more inputs as a step."""
        value = max(float(item.value) for item in inputs.values())
        expression = f"max({', '.join(inputs)})" if len(inputs) > 1 else next(iter(inputs))
        return self.ledger.work_out(self.prefix + step, quantity, expression, inputs, value, unit, citation)
