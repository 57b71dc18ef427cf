"""The request of a comparison: a circuit design's, save that the charging current is left open."""

from typing import Annotated, Final

from pydantic import Field

from branchwright.checks.circuits.facts import (
    Charger,
    ChargerFacts,
    CircuitFacts,
    RunFacts,
)
from branchwright.jobs.installation.facts import JobFacts
from branchwright.jobs.installation.price_facts import LabourTable, PriceBook
from branchwright.questions.fields import GREATEST_SIGNALLED_A, LEAST_SIGNALLED_A, Number, Yes

USUAL_CURRENTS_A: Final = (6, 8, 10, 12, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64, 72, 80)
"""What is compared where nothing is stated: settings that chargers have; common practice, no source."""


class ComparedCharger(ChargerFacts):
    """The charger, apart from its charging current: the comparison varies that, see currents_a."""


class CurrentComparisonRequest(RunFacts[ComparedCharger]):
    """What does each step of charging current cost, and what does it bring in?"""

    currents_a: Annotated[
        tuple[Annotated[Number, Field(ge=LEAST_SIGNALLED_A, le=GREATEST_SIGNALLED_A)], ...] | None,
        Field(
            min_length=1,
            max_length=40,
            description="Charging currents to compare, A. They are sorted, and one that is stated twice is "
            "compared once. Settings of the charger where its rated current is stated, else each is a charger of "
            f"that rating. Not stated: {', '.join(f'{current:g}' for current in USUAL_CURRENTS_A)} (common "
            "practice, no source).",
        ),
    ] = None
    night_h: Annotated[
        Annotated[Number, Field(gt=0, le=24)] | None,
        Field(description="Hours of charging in a night. Not stated: no energy of a night is computed."),
    ] = None

    price_book: Annotated[
        PriceBook | None,
        Field(
            description="What things cost. Not stated: no cost is estimated, unless demo_prices asks for it."
        ),
    ] = None
    labour_table: Annotated[
        LabourTable | None,
        Field(description="What work takes. Not stated: the demo table, whose hourly rate is invented."),
    ] = None
    demo_prices: Annotated[
        Yes | None,
        Field(description="Whether the demo book, whose prices are invented, stands in for a price book."),
    ] = None
    job: Annotated[
        JobFacts | None,
        Field(description="What an installation estimate is told beside circuit and prices; for the cost."),
    ] = None

    def compared_currents_a(self) -> list[float]:
        """Return the currents to compare in A, each once, in ascending order."""
        return sorted({float(current) for current in self.currents_a or USUAL_CURRENTS_A})

    def circuit_at(self, current_a: float) -> CircuitFacts:
        """Return the facts of the circuit of one current. They are valid already and are not validated again."""
        known = {name: getattr(self.charger, name) for name in ChargerFacts.model_fields}
        charger = Charger.model_construct(charging_current_a=current_a, **known)
        shared = {name: getattr(self, name) for name in RunFacts.model_fields if name != "charger"}
        return CircuitFacts.model_construct(charger=charger, **shared)
