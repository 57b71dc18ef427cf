"""What a comparison of charging currents answers with: open to growth, every field present."""

from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, Field

from branchwright.codebook import WiringMethod
from branchwright.findings import Provenance, Step, Verdict
from branchwright.findings.citations import Value
from branchwright.findings.open_enums import open_enum
from branchwright.jobs.installation.answers import MoneyRange, UsedLabourTable, UsedPriceBook
from branchwright.questions.answers import ToVerify
from branchwright.questions.money_fields import Money

Changing: TypeAlias = Literal[
    "breaker",
    "ungrounded",
    "neutral",
    "grounding",
    "raceway",
    "ground-fault-protection",
    "disconnect",
    "label",
]
Needed: TypeAlias = Literal["required", "not-required", "undetermined"]


@dataclass(slots=True)
class ComparedRaceway:
    """The least raceway of a segment that takes the conductors, or the one that the request states.

    A cable's sleeve is one too, where the request states it.
    """

    segment: Annotated[int, Field(description="Index of the run's segment.")]
    wiring_method: Annotated[str, open_enum(WiringMethod, "Wiring method of the segment.")]
    trade_size: str
    fill_percent: float
    fill_limit_percent: float


@dataclass(slots=True)
class ComparedDrop:
    """Voltage drop at the charging current."""

    volts: float
    percent: float


@dataclass(slots=True)
class CurrentChange:
    """One thing that is different from the next lower current that has a circuit."""

    what: Annotated[str, open_enum(Changing, "What changes.")]
    segment: Annotated[int | None, Field(description="Index of the run's segment, for a raceway.")]
    before: Annotated[
        Value,
        Field(
            serialization_alias="from",
            description="At the lower current: a rating in A, a size, or required, not-required or undetermined.",
        ),
    ]
    to: Annotated[Value, Field(description="At this current, in the same form.")]
    rule: Annotated[
        str,
        Field(
            description="The rule that sets the new value: it refuses the next smaller one. A neutral is as large "
            "as the ungrounded conductors and bears their rule."
        ),
    ]
    is_dear: Annotated[
        bool,
        Field(
            description="Whether it is a step in cost: larger ungrounded conductors, a larger raceway, or a "
            "disconnecting means that becomes required. The next breaker rating alone is none."
        ),
    ]


@dataclass(slots=True)
class ComparedCost:
    """What the installation of one current costs: the totals of an installation estimate for the same facts."""

    total: MoneyRange
    more_than_lower_current: Annotated[
        Money | None,
        Field(
            description="Likely total less that of the next lower current that has a circuit; below zero where it "
            "costs less than that. Null for the lowest."
        ),
    ]
    is_complete: Annotated[
        bool, Field(description="Whether every line has an amount; if not, it costs more than the total.")
    ]
    unpriced: Annotated[list[str], Field(description="Keys that have no price or no hours.")]
    currency: str | None


@dataclass(slots=True)
class ComparedCurrent:
    """One charging current: the circuit that it needs and the energy that it brings.

    The circuit is the one that a circuit design answers for the same facts and this current. Where that has no
    design, every field of the circuit is null and the raceways are none.
    """

    charging_current_a: float
    verdict: Annotated[str, open_enum(Verdict, "Verdict of the circuit at this current.")]
    failed_rules: Annotated[list[str], Field(description="Requirements that fail.")]
    undetermined_rules: Annotated[list[str], Field(description="Requirements that lack a fact.")]
    breaker_rating_a: float | None
    poles: int | None
    ungrounded_size: str | None
    neutral_size: Annotated[str | None, Field(description="Null also where the charger needs none.")]
    grounding_size: str | None
    raceways: Annotated[list[ComparedRaceway], Field(description="One for each segment whose fill is known.")]
    voltage_drop: ComparedDrop | None
    conductor_temperature_c: Annotated[
        float | None, Field(description="Operating temperature in the hottest segment, degC.")
    ]
    ground_fault_protection_required: Annotated[
        bool | None, Field(description="Null also where a fact is missing.")
    ]
    disconnect_required: bool | None
    label_required: Annotated[
        bool | None,
        Field(description="Whether the setting stands on a label; null also where it is not known."),
    ]
    power_kw: Annotated[float, Field(description="At the wall and the nominal voltage; a circuit or none.")]
    kwh_per_hour: Annotated[float, Field(description="Energy of an hour, kWh: the same number as the power.")]
    kwh_per_night: Annotated[float | None, Field(description="Null where no hours of a night are stated.")]
    changes: Annotated[
        list[CurrentChange],
        Field(description="What is different from the next lower current that has a circuit."),
    ]
    mark: Annotated[
        str | None,
        Field(
            description="Why this current is a good one to stop at, in words: the last before a step in cost, or "
            "the last that these facts allow. Null where it is neither."
        ),
    ]
    cost: Annotated[
        ComparedCost | None,
        Field(
            description="Null without a price book, and where there is no circuit. POST /v1/installation-estimates "
            "shows its lines and working."
        ),
    ]


@dataclass(slots=True)
class ComparedReading:
    """Another reading of a disputed provision, and the currents that it decides on."""

    reading: str
    currents_a: Annotated[
        list[float], Field(description="Currents whose verdict changes under this reading alone.")
    ]


@dataclass(slots=True)
class ComparedInterpretation:
    """A disputed provision that at least one current had to read one way."""

    name: str
    reading: Annotated[str, Field(description="The reading in force for this answer.")]
    other_readings: list[ComparedReading]


class CurrentComparisonAnswer(BaseModel):
    """What each charging current needs and brings, one row each, lowest current first."""

    edition: Annotated[str, Field(description="The code edition that was applied.")]
    jurisdiction: Annotated[
        str | None, Field(description="As stated in the request; its local amendments are not applied.")
    ]
    rows: list[ComparedCurrent]
    steps: Annotated[
        list[Step],
        Field(
            description="Power and energy of each row; POST /v1/circuit-designs shows a circuit's working."
        ),
    ]
    price_book: Annotated[UsedPriceBook | None, Field(description="Null where no cost is estimated.")]
    labour_table: Annotated[UsedLabourTable | None, Field(description="Null where no cost is estimated.")]
    exclusions: Annotated[list[str], Field(description="What the cost does not hold; empty without one.")]
    interpretations: list[ComparedInterpretation]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
