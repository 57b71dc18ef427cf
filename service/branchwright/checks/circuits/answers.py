"""What circuit designs and reviews answer with: open to growth, every field present."""

from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import Field

from branchwright.checks.circuits.facts import Configuration
from branchwright.codebook.editions import Ground, WiringMethod
from branchwright.findings.open_enums import open_enum
from branchwright.questions.answers import CodeAnswer


@dataclass(slots=True)
class Measure:
    """A length or torque with its unit."""

    value: float
    unit: str


@dataclass(slots=True)
class GroundFaultProtection:
    """Whether the outlet needs ground-fault protection for personnel."""

    required: Annotated[bool | None, Field(description="Null where a fact is missing.")]
    why: str


@dataclass(slots=True)
class DesignedBreaker:
    """The breaker."""

    rating_a: float
    poles: int
    ground_fault_protection: GroundFaultProtection


@dataclass(slots=True)
class UngroundedConductors:
    """The conductors from the breaker's poles to the charger."""

    size: str
    material: str
    insulation: Annotated[str | None, Field(description="Null where the whole run is cable.")]
    count: int


@dataclass(slots=True)
class Neutral:
    """The neutral."""

    size: str


@dataclass(slots=True)
class GroundingConductor:
    """The grounding conductor."""

    least_size: str
    size: str
    material: str


@dataclass(slots=True)
class DesignedConductors:
    """The conductors of the circuit."""

    ungrounded: UngroundedConductors
    neutral: Neutral | None
    grounding: GroundingConductor


@dataclass(slots=True)
class DesignedRaceway:
    """The raceway of a segment."""

    trade_size: str
    fill_percent: float
    fill_limit_percent: float


@dataclass(slots=True)
class Supports:
    """Where a raceway or cable is fastened."""

    within_of_box: Measure
    interval: Measure
    section: str


@dataclass(slots=True)
class Cover:
    """How deep a segment lies."""

    least: Annotated[Measure, Field(description="From the top of raceway or cable to finished grade.")]
    under: Annotated[str, open_enum(Ground, "The row of the cover table that applies.")]
    section: str


@dataclass(slots=True)
class DesignedSegment:
    """One segment of the run."""

    wiring_method: Annotated[str, open_enum(WiringMethod, "Wiring method of the segment.")]
    ampacity_a: Annotated[float, Field(description="After correction, adjustment and cap.")]
    conductor_temperature_c: Annotated[
        float | None, Field(description="Operating temperature at the load, degC.")
    ]
    raceway: DesignedRaceway | None
    supports: Supports | None
    cover: Annotated[Cover | None, Field(description="Null above ground.")]


@dataclass(slots=True)
class DesignedReceptacle:
    """The receptacle."""

    configuration: Annotated[str, open_enum(Configuration, "NEMA designation.")]
    rating_a: float


@dataclass(slots=True)
class Need:
    """Whether something is asked for, and why."""

    required: bool
    why: str


@dataclass(slots=True)
class ShutoffNeed:
    """Whether an emergency shutoff is asked for, and why."""

    required: Annotated[bool | None, Field(description="Null where a fact is missing.")]
    why: str


@dataclass(slots=True)
class Label:
    """The label of an adjusted setting."""

    required: Annotated[bool | None, Field(description="Null where the edition has no words on it.")]
    current_a: Annotated[float | None, Field(description="The current to stand on it; null without one.")]
    why: str


@dataclass(slots=True)
class VoltageDrop:
    """Voltage drop at the charging current."""

    volts: float
    percent: float
    method: str


@dataclass(slots=True)
class Termination:
    """A place where conductors are terminated."""

    at: str
    torque: Annotated[Measure | None, Field(description="As marked; null: read the marking.")]
    strip_length: Annotated[Measure | None, Field(description="As marked; null: read the marking.")]
    source: str


@dataclass(slots=True)
class GovernedBy:
    """The rule that set each size."""

    breaker: str
    conductors: str
    grounding: str
    raceway: str | None


@dataclass(slots=True)
class Design:
    """A circuit that holds."""

    breaker: DesignedBreaker
    conductors: DesignedConductors
    segments: list[DesignedSegment]
    receptacle: DesignedReceptacle | None
    disconnect: Need
    emergency_shutoff: ShutoffNeed
    label: Label
    voltage_drop: VoltageDrop | None
    terminations: list[Termination]
    governed_by: GovernedBy


@dataclass(slots=True)
class ExistingCircuit:
    """What an existing circuit allows as it stands."""

    largest_charging_current_a: Annotated[
        float | None,
        Field(
            description="Greatest whole current, 6 to 80 A, of a charger for which no rule about the load fails on the "
            "installed sizes; null where there is none or a size is unknown."
        ),
    ]
    limited_by: Annotated[
        list[str], Field(description="Rules that the next ampere would fail; or that fail now.")
    ]


class CircuitDesignAnswer(CodeAnswer):
    """The circuit that a charger needs, with the findings of its own review."""

    design: Annotated[
        Design | None,
        Field(description="Null where none can be made; the findings say which limit was met first."),
    ]
    review_request: Annotated[
        dict[str, Any] | None,
        Field(description="The complete body for POST /v1/circuit-reviews of this design; null without one."),
    ]


class CircuitReviewAnswer(CodeAnswer):
    """What the review of a proposed or installed circuit found."""

    design: Annotated[
        Design | None,
        Field(description="For a circuit that fails: the design that would do, if there is one. Else null."),
    ]
    existing_circuit: Annotated[
        ExistingCircuit, Field(description="What charging current the installed sizes allow.")
    ]
