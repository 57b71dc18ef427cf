# Generated from the OpenAPI document by sdk/generator. Do not edit.
# ruff: noqa
"""What is asked and answered, as pydantic models."""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field
from typing_extensions import TypeAliasType


class Conductors(BaseModel):
    """
    What the conductors are made of.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    material: Literal["copper", "aluminum"]
    """
    Metal of the ungrounded conductors.
    """
    insulation: Literal["THWN-2", "XHHW-2", "THW", "THW-2", "RHW-2", "THHN", "THWN"] | None = None
    """
    Insulation of conductors in raceways. Not stated: THWN-2. Cables bring their own.
    """
    grounding_material: Literal["copper", "aluminum"] | None = None
    """
    Metal of the grounding conductor. Not stated: as the others.
    """


CurrentsAItem = TypeAliasType("CurrentsAItem", Annotated[float, Field(ge=6.0, le=80.0)])


class Depth(BaseModel):
    """
    A depth with its unit; none at all is one.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    value: Annotated[float, Field(ge=0.0, le=1000000.0)]
    unit: Literal["ft", "in", "m", "mm"]


class Hardwired(BaseModel):
    """
    The charger is wired to the circuit permanently.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["hardwired"]


class InstalledDisconnect(BaseModel):
    """
    The disconnecting means at the charger.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    present: bool
    readily_accessible: bool | None = None
    lockable_open: bool | None = None


class Length(BaseModel):
    """
    A length with its unit.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    value: Annotated[float, Field(gt=0.0, le=1000000.0)]
    unit: Literal["ft", "in", "m", "mm"]


class Markings(BaseModel):
    """
    What the charger's label or manual says.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    greatest_overcurrent_device_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Greatest overcurrent device that the manufacturer permits, A.
    """
    forbids_gfci_breaker: bool | None = None
    """
    Whether the manufacturer forbids a ground-fault breaker.
    """


class Premises(BaseModel):
    """
    Where the circuit is.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    occupancy: Literal["one-family", "two-family", "multifamily", "other"] | None = None
    """
    Kind of building; decides on ground-fault protection.
    """
    charger_location: Literal["outdoors", "garage", "accessory-building", "indoors"] | None = None
    """
    Where the charger is mounted; decides on ground-fault protection.
    """


class Readings(BaseModel):
    """
    Readings of disputed provisions that the caller chooses; GET /v1/editions/{edition} lists them.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    liquidtight_temperature: Annotated[
        Literal["operating-temperature", "sixty-degree-column"] | None,
        Field(alias="liquidtight-temperature"),
    ] = None
    grounding_near_miss: Annotated[
        Literal["strict", "within-rounding"] | None, Field(alias="grounding-near-miss")
    ] = None
    hardwired_outlet: Annotated[
        Literal["outlet", "not-an-outlet"] | None, Field(alias="hardwired-outlet")
    ] = None
    rooftop_clearance: Annotated[
        Literal["seven-eighths-inch", "three-quarters-inch"] | None,
        Field(alias="rooftop-clearance"),
    ] = None
    setting_as_rating: Annotated[Literal["nameplate", "setting"] | None, Field(alias="setting-as-rating")] = (
        None
    )
    grounding_growth: Annotated[
        Literal["counts-correction", "exempts-correction"] | None,
        Field(alias="grounding-growth"),
    ] = None
    permanently_wired_protection: Annotated[
        Literal["required", "not-enacted"] | None,
        Field(alias="permanently-wired-protection"),
    ] = None
    sixty_ampere_receptacle: Annotated[
        Literal["printed", "not-printed"] | None, Field(alias="sixty-ampere-receptacle")
    ] = None
    charger_in_optional_method: Annotated[
        Literal["full-value", "in-the-pool"] | None,
        Field(alias="charger-in-optional-method"),
    ] = None
    existing_heating_and_cooling: Annotated[
        Literal["in-the-pool", "left-out"] | None,
        Field(alias="existing-heating-and-cooling"),
    ] = None
    added_heating_and_cooling: Annotated[
        Literal["at-full-value", "in-the-pool"] | None,
        Field(alias="added-heating-and-cooling"),
    ] = None
    measured_with_generation: Annotated[
        Literal["refused", "measured-gross"] | None,
        Field(alias="measured-with-generation"),
    ] = None
    measured_demand_interval: Annotated[
        Literal["fifteen-minutes", "as-metered"] | None,
        Field(alias="measured-demand-interval"),
    ] = None
    charger_on_service: Annotated[
        Literal["at-125-percent", "at-its-load"] | None,
        Field(alias="charger-on-service"),
    ] = None


class Supply(BaseModel):
    """
    The system that the circuit is taken from.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    system: Literal["split-phase-120-240", "wye-208y-120"]
    """
    240 V between the lines of a split-phase system, or 208 V between two of a wye.
    """
    phases: Literal[1, 3] | None = None
    """
    Phases that the charger uses; 3 on a wye system only. Not stated: 1.
    """


class Targets(BaseModel):
    """
    What the caller asks for beyond the code.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    voltage_drop_percent: Annotated[float | None, Field(gt=0.0, le=100.0)] = None
    """
    Greatest voltage drop at the charging current, percent of the nominal voltage.
    """


class Torque(BaseModel):
    """
    A tightening torque with its unit.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    value: Annotated[float, Field(gt=0.0, le=10000.0)]
    unit: Literal["lbf-in", "lbf-ft", "N-m"]


class TorqueRecord(BaseModel):
    """
    A torque that was applied and written down.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    at: Annotated[str, Field(pattern="^(breaker|charger|receptacle|points/([0-9]|1[0-9]))$")]
    """
    breaker, charger, receptacle, or points/<index>.
    """
    torque: Torque


class Underground(BaseModel):
    """
    A segment below grade; it counts as a wet location.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    cover: Depth | None = None
    """
    From the top of raceway or cable to finished grade; a design states the least.
    """
    under: Literal["soil", "dwelling-driveway", "street", "building", "concrete"]
    """
    What lies above it. concrete: an exterior slab at least 4 in thick without vehicles; dwelling-driveway: of a one- or two-family dwelling.
    """


class Appearance(BaseModel):
    """
    Where one of the two editions has an entry.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    section: str
    """
    Section or table number as this edition prints it.
    """
    confidence: str | None
    """
    How sure we are of the entry: high, medium or low; null for an interpretation.
    """


class CellDifference(BaseModel):
    """
    A cell of a row that both editions have, or a value of a provision that both have.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    key: list[float | str | None]
    """
    The keys that find the row; empty for a provision, null for an open last row.
    """
    column: str
    """
    Name of the column or value.
    """
    unit: str
    """
    Unit of the cell; 1 for a plain number, text or size for a name.
    """
    this: float | str | None
    """
    Here; null where this edition prints nothing or sets no limit.
    """
    other: float | str | None
    """
    There; null where the other edition prints nothing or sets no limit.
    """


class Citation(BaseModel):
    """
    A place in a publication.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    publication: str
    """
    The code edition or publication, by its name here.
    """
    section: str
    """
    Section or table number as the publication prints it.
    """


class Column(BaseModel):
    """
    A column of a table or a value of a provision.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    unit: str
    meaning: str


class ComparedDrop(BaseModel):
    """
    Voltage drop at the charging current.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    volts: float
    percent: float


class ComparedRaceway(BaseModel):
    """
    The least raceway of a segment that takes the conductors, or the one that the request states.

    A cable's sleeve is one too, where the request states it.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    segment: int
    """
    Index of the run's segment.
    """
    wiring_method: str
    """
    Wiring method of the segment. Known values: emt, imc, rmc, pvc-40, pvc-80, fmc, lfmc, lfnc-b, nm-b, uf-b, se, mc, ac; others may be added.
    """
    trade_size: str
    fill_percent: float
    fill_limit_percent: float


class ComparedReading(BaseModel):
    """
    Another reading of a disputed provision, and the currents that it decides on.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    reading: str
    currents_a: list[float]
    """
    Currents whose verdict changes under this reading alone.
    """


class CurrentChange(BaseModel):
    """
    One thing that is different from the next lower current that has a circuit.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    what: str
    """
    What changes. Known values: breaker, ungrounded, neutral, grounding, raceway, ground-fault-protection, disconnect, label; others may be added.
    """
    segment: int | None
    """
    Index of the run's segment, for a raceway.
    """
    from_: Annotated[float | str, Field(alias="from")]
    """
    At the lower current: a rating in A, a size, or required, not-required or undetermined.
    """
    to: float | str
    """
    At this current, in the same form.
    """
    rule: str
    """
    The rule that sets the new value: it refuses the next smaller one. A neutral is as large as the ungrounded conductors and bears their rule.
    """
    is_dear: bool
    """
    Whether it is a step in cost: larger ungrounded conductors, a larger raceway, or a disconnecting means that becomes required. The next breaker rating alone is none.
    """


class DesignedRaceway(BaseModel):
    """
    The raceway of a segment.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    trade_size: str
    fill_percent: float
    fill_limit_percent: float


class DesignedReceptacle(BaseModel):
    """
    The receptacle.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    configuration: str
    """
    NEMA designation. Known values: 14-50, 6-50, 14-30, 6-30, 6-20, 14-60, 10-30, 10-50; others may be added.
    """
    rating_a: float


class Difference(BaseModel):
    """
    A table, provision or interpretation that is not the same in both editions.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    kind: str
    """
    What differs. Known values: table, provision, interpretation; others may be added.
    """
    name: str
    """
    Name of the table, provision or interpretation.
    """
    title: str
    """
    What it is about.
    """
    change: str
    """
    added: the other edition has it and this one does not; removed: the other way round; changed: both have it. Known values: added, removed, changed; others may be added.
    """
    this: Appearance | None
    """
    Where this edition has it; null where it does not.
    """
    other: Appearance | None
    """
    Where the other edition has it; null where it does not.
    """
    renumbered: bool
    """
    Whether both have it, under different sections.
    """
    rows_added: list[dict[str, float | str | None]]
    """
    Rows that only the other edition has, by column; an added provision is one row.
    """
    rows_removed: list[dict[str, float | str | None]]
    """
    Rows that only this edition has, by column; a removed provision is one row.
    """
    cells: list[CellDifference]
    """
    Cells that differ in rows that both have; empty where it is only renumbered.
    """


class EditionComparison(BaseModel):
    """
    A part of what differs between two editions.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: str
    """
    This edition, from which the change is told.
    """
    other: str
    """
    The other edition, to which it leads.
    """
    items: list[Difference]
    next_after: str | None
    """
    'after' of the next page; null on the last one.
    """


class EditionRecord(BaseModel):
    """
    An edition of a code as the codebook knows it.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    title: str
    publication: str
    status: str
    notes: str | None


class Evidence(BaseModel):
    """
    Where values were found and how sure we are of them.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    section: str
    confidence: str
    found: str
    source: str
    checked: str
    notes: str | None


class ExistingCircuit(BaseModel):
    """
    What an existing circuit allows as it stands.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    largest_charging_current_a: float | None
    """
    Greatest whole current, 6 to 80 A, of a charger for which no rule about the load fails on the installed sizes; null where there is none or a size is unknown.
    """
    limited_by: list[str]
    """
    Rules that the next ampere would fail; or that fail now.
    """


class GovernedBy(BaseModel):
    """
    The rule that set each size.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    breaker: str
    conductors: str
    grounding: str
    raceway: str | None


class GroundFaultProtection(BaseModel):
    """
    Whether the outlet needs ground-fault protection for personnel.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    required: bool | None
    """
    Null where a fact is missing.
    """
    why: str


class GroundingConductor(BaseModel):
    """
    The grounding conductor.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    least_size: str
    size: str
    material: str


class Health(BaseModel):
    """
    The state of one service process.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    status: str
    """
    'live' or 'ready'.
    """


class InterpretationAnswer(BaseModel):
    """
    A point that is read two ways.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    """
    As used in the readings of a request.
    """
    question: str
    default: str
    """
    The reading that binds where a request chooses none.
    """
    readings: dict[str, str]
    """
    Each reading with its meaning.
    """
    section: str | None
    """
    The disputed section; null where the edition has none.
    """
    notes: str | None


class Label(BaseModel):
    """
    The label of an adjusted setting.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    required: bool | None
    """
    Null where the edition has no words on it.
    """
    current_a: float | None
    """
    The current to stand on it; null without one.
    """
    why: str


class Measure(BaseModel):
    """
    A length or torque with its unit.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    value: float
    unit: str


class Need(BaseModel):
    """
    Whether something is asked for, and why.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    required: bool
    why: str


class Neutral(BaseModel):
    """
    The neutral.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    size: str


class OtherReading(BaseModel):
    """
    The verdict of the same facts under another reading.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    reading: str
    verdict: str
    """
    Verdict under this reading alone. Known values: no-failure-found, fail, undetermined; others may be added.
    """


class Provenance(BaseModel):
    """
    The three things that an answer depends on.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    engine_version: str
    """
    Version of the service that computed the answer.
    """
    codebook_revision: str
    """
    SHA-256 over the codebook's files, first 16 digits.
    """
    input_sha256: str
    """
    SHA-256 of the RFC 8785 canonical form of the request.
    """


class Provided(BaseModel):
    """
    What the circuit has.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    value: float | str
    """
    The circuit's own value.
    """
    unit: str
    """
    Unit of the value; text for names.
    """


class ProvisionAnswer(BaseModel):
    """
    What an edition says on one concept.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    concept: str
    title: str
    columns: list[Column]
    """
    The values' names, units and meanings.
    """
    values: dict[str, str | float]
    evidence: Evidence


class RemedyChange(BaseModel):
    """
    One field of the request and what to put there.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    pointer: str
    """
    JSON pointer into the request.
    """
    value: Any
    """
    The value to put there, whatever was or was not stated.
    """


class Required(BaseModel):
    """
    What the rule asks for.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    value: float | str | list[str]
    """
    The limit, or the permitted values.
    """
    unit: str
    """
    Unit of the value; text for names.
    """
    comparison: str
    """
    How the provided value is held against it. Known values: at-least, at-most, equal, one-of, present; others may be added.
    """


class RuleSection(BaseModel):
    """
    The section that a rule rests on in one edition.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: str
    section: str | None
    """
    Null where the edition has no such provision.
    """


class RuleSummary(BaseModel):
    """
    A rule: one question that a check asks.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    check: str
    """
    The check that applies it, such as circuits.
    """
    subject: str
    """
    What it judges.
    """
    force: str
    """
    requirement or recommendation.
    """
    question: str


class ShutoffNeed(BaseModel):
    """
    Whether an emergency shutoff is asked for, and why.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    required: bool | None
    """
    Null where a fact is missing.
    """
    why: str


class StepInput(BaseModel):
    """
    One input of a step: a value, its unit and the place that it was taken from.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    value: float | str
    """
    The number, or the name of a size, material or column.
    """
    unit: str
    """
    The unit; 1 for a plain number, text for a name.
    """
    from_: Annotated[str, Field(alias="from")]
    """
    request:<JSON pointer into the request>, design:<JSON pointer into the design>, codebook:<table or provision>/<row key>/<column>, or step:<id of an earlier step>.
    """


class Supports(BaseModel):
    """
    Where a raceway or cable is fastened.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    within_of_box: Measure
    interval: Measure
    section: str


class TableAnswer(BaseModel):
    """
    A table of an edition with its rows.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: str
    name: str
    title: str
    lookup: str
    """
    How the table is read.
    """
    row_keys: list[str]
    """
    The columns that find a row.
    """
    columns: list[Column]
    rows: list[dict[str, str | float | None]]
    """
    Each row by column name; null where the book prints nothing.
    """
    evidence: Evidence


class TableSummary(BaseModel):
    """
    A table of an edition, without its rows.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    title: str
    row_count: int
    evidence: Evidence


class Termination(BaseModel):
    """
    A place where conductors are terminated.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    at: str
    torque: Measure | None
    """
    As marked; null: read the marking.
    """
    strip_length: Measure | None
    """
    As marked; null: read the marking.
    """
    source: str


class ToVerify(BaseModel):
    """
    A fact that the caller declared or left open, to be seen on site.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    pointer: str
    stated: str
    """
    What was stated, or what was assumed.
    """
    evidence: str
    """
    Where it can be seen.
    """


class UngroundedConductors(BaseModel):
    """
    The conductors from the breaker's poles to the charger.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    size: str
    material: str
    insulation: str | None
    """
    Null where the whole run is cable.
    """
    count: int


class VoltageDrop(BaseModel):
    """
    Voltage drop at the charging current.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    volts: float
    percent: float
    method: str


class Cable(BaseModel):
    """
    What a cable brings beside its ungrounded conductors, and what is printed on it.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    grounding_size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Grounding conductor that the cable is made with.
    """
    neutral_size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Neutral that the cable is made with.
    """
    outside_diameter: Length | None = None
    """
    Over the sheath, the larger one of a flat cable; for fill of a sleeve.
    """
    conductor_temperature_rating_c: Literal[60, 75, 90] | None = None
    """
    Temperature rating of the conductors as printed on SE, MC or AC cable, degC. Not stated: 75. Other cables have the rating of their article.
    """
    listed_for_wet: bool | None = None
    """
    Whether MC cable is listed for wet locations. Not stated: unknown.
    """


class Installed(BaseModel):
    """
    The circuit as proposed or found. What is not stated is unknown.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    breaker_rating_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    ungrounded_size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    neutral_size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Not stated: unknown where one is needed.
    """
    grounding_size: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    grounding_material: Literal["copper", "aluminum"] | None = None
    ground_fault_protection: Literal["breaker", "receptacle", "charger", "none"] | None = None
    disconnect: InstalledDisconnect | None = None
    emergency_shutoff: bool | None = None
    """
    Whether there is an emergency shutoff for the chargers, where one is asked for.
    """
    setting_label: bool | None = None
    """
    Whether the adjusted current is on the label.
    """
    torque_records: Annotated[list[TorqueRecord] | None, Field(max_length=50)] = None


class Segment(BaseModel):
    """
    A part of the run with one wiring method and environment, in order from panel to charger.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    wiring_method: Literal[
        "emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b", "nm-b", "uf-b", "se", "mc", "ac"
    ]
    length: Length
    location: Literal["dry", "damp", "wet"] | None = None
    """
    Not stated: unknown, and the worst is assumed.
    """
    ambient_c: Annotated[float | None, Field(ge=-60.0, le=120.0)] = None
    """
    Greatest ambient temperature, degC. Not stated: that of the ampacity table.
    """
    rooftop_clearance: Length | None = None
    """
    Height of the raceway or cable above a roof in the sun. Not stated: not on such a roof.
    """
    other_current_carrying_conductors: Annotated[int | None, Field(ge=0, le=500)] = None
    """
    Current-carrying conductors of other circuits in the raceway or bundle. Not stated: 0, or two for each other cable of bundled_cables.
    """
    bundled_cables: Annotated[int | None, Field(ge=1, le=100)] = None
    """
    Cables that lie together without spacing, this one included; for cables. Not stated: 1.
    """
    in_thermal_insulation: bool | None = None
    """
    Whether a cable lies in contact with thermal insulation, or passes framing in an opening that is sealed with it. Not stated: it does not.
    """
    underground: Underground | None = None
    """
    Not stated: the segment is not underground.
    """
    listed_for_direct_burial: bool | None = None
    """
    Whether MC, LFMC or LFNC is marked for direct burial. Not stated: unknown.
    """
    other_conductors_area_in2: Annotated[float | None, Field(ge=0.0, le=100.0)] = None
    """
    Area that other conductors fill in the raceway, in2. Not stated: 0 where there are none.
    """
    raceway_trade_size: Literal["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"] | None = None
    """
    Trade size of the raceway, or of the sleeve around a cable; a design chooses a raceway's where not stated.
    """
    sleeve_method: Literal["emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b"] | None = None
    """
    Raceway that a cable is drawn into. Not stated: none or unknown.
    """
    raceway_temperature_rating_c: Annotated[float | None, Field(ge=40.0, le=250.0)] = None
    """
    Temperature marked on the raceway, degC. Not stated: the usual listing of its kind.
    """
    cable: Cable | None = None


class Terminals(BaseModel):
    """
    What is marked at the terminals of a device. A missing marking is unknown, not absent.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    temperature_rating_c: Literal[60, 75, 90] | None = None
    """
    Conductor temperature that the terminals are marked for, degC. Not stated: taken as unmarked.
    """
    materials: Annotated[list[Literal["copper", "aluminum"]] | None, Field(max_length=2, min_length=1)] = None
    """
    Conductor materials that they are identified for.
    """
    smallest: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Smallest conductor that they take.
    """
    largest: (
        Literal[
            "14 AWG",
            "12 AWG",
            "10 AWG",
            "8 AWG",
            "6 AWG",
            "4 AWG",
            "3 AWG",
            "2 AWG",
            "1 AWG",
            "1/0 AWG",
            "2/0 AWG",
            "3/0 AWG",
            "4/0 AWG",
            "250 kcmil",
        ]
        | None
    ) = None
    """
    Largest conductor that they take.
    """
    torque: Torque | None = None
    """
    Tightening torque marked on the device.
    """
    strip_length: Length | None = None
    """
    Length of insulation to strip, as marked on the device.
    """


class ComparedCurrent(BaseModel):
    """
    One charging current: the circuit that it needs and the energy that it brings.

    The circuit is the one that a circuit design answers for the same facts and this current. Where that has no
    design, every field of the circuit is null and the raceways are none.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    charging_current_a: float
    verdict: str
    """
    Verdict of the circuit at this current. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    failed_rules: list[str]
    """
    Requirements that fail.
    """
    undetermined_rules: list[str]
    """
    Requirements that lack a fact.
    """
    breaker_rating_a: float | None
    poles: int | None
    ungrounded_size: str | None
    neutral_size: str | None
    """
    Null also where the charger needs none.
    """
    grounding_size: str | None
    raceways: list[ComparedRaceway]
    """
    One for each segment whose fill is known.
    """
    voltage_drop: ComparedDrop | None
    conductor_temperature_c: float | None
    """
    Operating temperature in the hottest segment, degC.
    """
    ground_fault_protection_required: bool | None
    """
    Null also where a fact is missing.
    """
    disconnect_required: bool | None
    label_required: bool | None
    """
    Whether the setting stands on a label; null also where it is not known.
    """
    power_kw: float
    """
    At the wall and the nominal voltage; a circuit or none.
    """
    kwh_per_hour: float
    """
    Energy of an hour, kWh: the same number as the power.
    """
    kwh_per_night: float | None
    """
    Null where no hours of a night are stated.
    """
    changes: list[CurrentChange]
    """
    What is different from the next lower current that has a circuit.
    """
    mark: str | None
    """
    Why this current is a good one to stop at, in words: the last before a step in cost, or the last that these facts allow. Null where it is neither.
    """


class ComparedInterpretation(BaseModel):
    """
    A disputed provision that at least one current had to read one way.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    reading: str
    """
    The reading in force for this answer.
    """
    other_readings: list[ComparedReading]


class ConsultedInterpretation(BaseModel):
    """
    A disputed provision that this answer had to read one way.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    reading: str
    """
    The reading in force for this answer.
    """
    other_readings: list[OtherReading]
    changes_verdict: bool
    """
    Whether any other reading changes the verdict.
    """


class Cover(BaseModel):
    """
    How deep a segment lies.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    least: Measure
    """
    From the top of raceway or cable to finished grade.
    """
    under: str
    """
    The row of the cover table that applies. Known values: soil, dwelling-driveway, street, building, concrete; others may be added.
    """
    section: str


class DesignedBreaker(BaseModel):
    """
    The breaker.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    rating_a: float
    poles: int
    ground_fault_protection: GroundFaultProtection


class DesignedConductors(BaseModel):
    """
    The conductors of the circuit.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    ungrounded: UngroundedConductors
    neutral: Neutral | None
    grounding: GroundingConductor


class DesignedSegment(BaseModel):
    """
    One segment of the run.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    wiring_method: str
    """
    Wiring method of the segment. Known values: emt, imc, rmc, pvc-40, pvc-80, fmc, lfmc, lfnc-b, nm-b, uf-b, se, mc, ac; others may be added.
    """
    ampacity_a: float
    """
    After correction, adjustment and cap.
    """
    conductor_temperature_c: float | None
    """
    Operating temperature at the load, degC.
    """
    raceway: DesignedRaceway | None
    supports: Supports | None
    cover: Cover | None
    """
    Null above ground.
    """


class EditionAnswer(BaseModel):
    """
    An edition with what the codebook holds of it.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: EditionRecord
    tables: list[TableSummary]
    provisions: list[ProvisionAnswer]
    interpretations: list[InterpretationAnswer]


class EditionPage(BaseModel):
    """
    A part of the list of editions.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    items: list[EditionRecord]
    next_after: str | None
    """
    'after' of the next page; null on the last one.
    """


class Remedy(BaseModel):
    """
    The nearest single change that was computed and reviewed again.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    pointer: str
    """
    JSON pointer of the field of the request to change.
    """
    given: float | str | None
    """
    Its value now; null where it is not stated.
    """
    proposed: float | str
    """
    What to change it to, in a word or a number.
    """
    changes: list[RemedyChange]
    """
    The change as it was made for the second check, with what belongs to it.
    """
    message: str
    """
    The change in words.
    """
    verdict: str
    """
    Verdict of the whole circuit after this change alone; fail means that other failures remain. Known values: no-failure-found, fail, undetermined; others may be added.
    """


class RuleAnswer(BaseModel):
    """
    A rule in prose, with the sections that it rests on.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    name: str
    check: str
    """
    The check that applies it, such as circuits.
    """
    subject: str
    """
    What it judges.
    """
    force: str
    """
    requirement or recommendation.
    """
    question: str
    prose: str
    """
    When it applies, what it rests on, what a missing fact does.
    """
    sections: list[RuleSection]
    interpretations: list[str]
    """
    The interpretations that it may consult.
    """


class RulePage(BaseModel):
    """
    A part of the list of rules.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    items: list[RuleSummary]
    next_after: str | None
    """
    'after' of the next page; null on the last one.
    """


class Step(BaseModel):
    """
    One replayable computation.

    The expression uses numbers, the names of its inputs, `+ - * / ^ ( )`, `sqrt min max floor ceil round`
    and `lookup(table, key, ..., column part, ...)`.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    id: str
    """
    Unique within the answer; other steps name it as step:<id>.
    """
    quantity: str
    """
    What is computed, in the words of the trade.
    """
    segment: int | None
    """
    Index of the run's segment, if it concerns one.
    """
    expression: str
    """
    The expression over the inputs.
    """
    inputs: dict[str, StepInput]
    """
    The inputs by the names that the expression uses.
    """
    value: float | str
    """
    What the expression evaluates to.
    """
    unit: str
    """
    Unit of the value; 1 for a plain number, size for a size.
    """
    citation: Citation | None
    """
    The section that asks for this computation, if any.
    """


class Breaker(BaseModel):
    """
    The breaker at the panel, apart from its rating.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    terminals: Terminals | None = None
    """
    Markings at the breaker's lugs.
    """
    listed_for_panel: bool | None = None
    """
    Whether the breaker is listed for the panel. Not stated: unknown.
    """


class Point(BaseModel):
    """
    A device or splice between two segments, with terminals of its own.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    after_segment: Annotated[int, Field(ge=0, le=100)]
    """
    Index of the segment that it follows.
    """
    kind: Literal["disconnect", "meter-socket", "submeter", "splice"]
    rating_a: Annotated[float | None, Field(gt=0.0, le=6000.0)] = None
    """
    Rating of the device, A; a splice has none.
    """
    terminals: Terminals | None = None


class Receptacle(BaseModel):
    """
    The charger is plugged into a receptacle.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    kind: Literal["receptacle"]
    configuration: Literal["14-50", "6-50", "14-30", "6-30", "6-20", "14-60", "10-30", "10-50"]
    """
    Configuration by its NEMA designation.
    """
    listed_for_ev_charging: bool | None = None
    """
    Whether it is listed for this use.
    """
    terminals: Terminals | None = None
    """
    Markings at the receptacle's terminals.
    """


class CurrentComparisonAnswer(BaseModel):
    """
    What each charging current needs and brings, one row each, lowest current first.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: str
    """
    The code edition that was applied.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    rows: list[ComparedCurrent]
    steps: list[Step]
    """
    Power and energy of each row; POST /v1/circuit-designs shows a circuit's working.
    """
    interpretations: list[ComparedInterpretation]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance


class Design(BaseModel):
    """
    A circuit that holds.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
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


class Finding(BaseModel):
    """
    What one rule says of the circuit.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    rule: str
    """
    Name of the rule; GET /v1/rules/{rule} explains it.
    """
    outcome: str
    """
    What the rule found. Known values: pass, fail, undetermined, not-applicable; others may be added.
    """
    force: str
    """
    Only requirements decide the verdict. Known values: requirement, recommendation; others may be added.
    """
    subject: str
    """
    What the rule looked at.
    """
    pointer: str | None
    """
    JSON pointer of the field of the request that the finding is about.
    """
    segment: int | None
    """
    Index of the segment that governs, if one does.
    """
    required: Required | None
    """
    What is asked for.
    """
    provided: Provided | None
    """
    What there is.
    """
    margin_percent: float | None
    """
    How far the provided value is on the safe side, in percent of the required.
    """
    citation: Citation | None
    """
    The section that the rule rests on.
    """
    message: str
    """
    The finding in one sentence.
    """
    remedy: Remedy | None
    """
    For a failure: the nearest change that was found to work.
    """


class Charger(BaseModel):
    """
    The charger: what it is set to, what it is rated for, and how it is connected.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    rated_current_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    setting_access: Literal["restricted", "unrestricted"] | None = None
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: Annotated[Hardwired | Receptacle, Field(discriminator="kind")]
    uses_neutral: bool | None = None
    """
    Whether a hardwired charger needs a neutral. Not stated: it does not.
    """
    terminals: Terminals | None = None
    """
    Markings at a hardwired charger's lugs.
    """
    power_factor: Annotated[float | None, Field(gt=0.0, le=1.0)] = None
    """
    Displacement power factor of the charger; for the voltage drop. Not stated: 1.
    """
    markings: Markings | None = None
    charging_current_a: Annotated[float, Field(gt=0.0, le=1000.0)]
    """
    Continuous current that it is set to, A.
    """


class CircuitDesignRequest(BaseModel):
    """
    What circuit does this charger need?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: Annotated[str | None, Field(max_length=200, min_length=1)] = None
    """
    Place, for the record; local amendments are not applied.
    """
    readings: Readings | None = None
    premises: Premises | None = None
    supply: Supply
    charger: Charger
    breaker: Breaker | None = None
    conductors: Conductors
    run: Annotated[list[Segment], Field(max_length=50, min_length=1)]
    """
    Segments in order from panel to charger.
    """
    points: Annotated[list[Point] | None, Field(max_length=20)] = None
    targets: Targets | None = None


class CircuitReviewRequest(BaseModel):
    """
    Does this proposed or installed circuit hold?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: Annotated[str | None, Field(max_length=200, min_length=1)] = None
    """
    Place, for the record; local amendments are not applied.
    """
    readings: Readings | None = None
    premises: Premises | None = None
    supply: Supply
    charger: Charger
    breaker: Breaker | None = None
    conductors: Conductors
    run: Annotated[list[Segment], Field(max_length=50, min_length=1)]
    """
    Segments in order from panel to charger.
    """
    points: Annotated[list[Point] | None, Field(max_length=20)] = None
    targets: Targets | None = None
    installed: Installed


class ComparedCharger(BaseModel):
    """
    The charger, apart from its charging current: the comparison varies that, see currents_a.
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    rated_current_a: Annotated[float | None, Field(gt=0.0, le=1000.0)] = None
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    setting_access: Literal["restricted", "unrestricted"] | None = None
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: Annotated[Hardwired | Receptacle, Field(discriminator="kind")]
    uses_neutral: bool | None = None
    """
    Whether a hardwired charger needs a neutral. Not stated: it does not.
    """
    terminals: Terminals | None = None
    """
    Markings at a hardwired charger's lugs.
    """
    power_factor: Annotated[float | None, Field(gt=0.0, le=1.0)] = None
    """
    Displacement power factor of the charger; for the voltage drop. Not stated: 1.
    """
    markings: Markings | None = None


class CurrentComparisonRequest(BaseModel):
    """
    What does each step of charging current cost, and what does it bring in?
    """

    model_config = ConfigDict(
        extra="forbid",
        validate_by_name=True,
    )
    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: Annotated[str | None, Field(max_length=200, min_length=1)] = None
    """
    Place, for the record; local amendments are not applied.
    """
    readings: Readings | None = None
    premises: Premises | None = None
    supply: Supply
    charger: ComparedCharger
    breaker: Breaker | None = None
    conductors: Conductors
    run: Annotated[list[Segment], Field(max_length=50, min_length=1)]
    """
    Segments in order from panel to charger.
    """
    points: Annotated[list[Point] | None, Field(max_length=20)] = None
    targets: Targets | None = None
    currents_a: Annotated[list[CurrentsAItem] | None, Field(max_length=40, min_length=1)] = None
    """
    Charging currents to compare, A. They are sorted, and one that is stated twice is compared once. Settings of the charger where its rated current is stated, else each is a charger of that rating. Not stated: 6, 8, 10, 12, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64, 72, 80 (common practice, no source).
    """
    night_h: Annotated[float | None, Field(gt=0.0, le=24.0)] = None
    """
    Hours of charging in a night. Not stated: no energy of a night is computed.
    """


class CircuitDesignAnswer(BaseModel):
    """
    The circuit that a charger needs, with the findings of its own review.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: str
    """
    The code edition that was applied.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    interpretations: list[ConsultedInterpretation]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    design: Design | None
    """
    Null where none can be made; the findings say which limit was met first.
    """
    review_request: dict[str, Any] | None
    """
    The complete body for POST /v1/circuit-reviews of this design; null without one.
    """


class CircuitReviewAnswer(BaseModel):
    """
    What the review of a proposed or installed circuit found.
    """

    model_config = ConfigDict(
        extra="allow",
        validate_by_name=True,
    )
    edition: str
    """
    The code edition that was applied.
    """
    jurisdiction: str | None
    """
    As stated in the request; its local amendments are not applied.
    """
    verdict: str
    """
    Never more than that no failure was found in what was stated. Known values: no-failure-found, fail, undetermined; others may be added.
    """
    findings: list[Finding]
    steps: list[Step]
    interpretations: list[ConsultedInterpretation]
    to_verify: list[ToVerify]
    not_examined: list[str]
    cautions: list[str]
    provenance: Provenance
    design: Design | None
    """
    For a circuit that fails: the design that would do, if there is one. Else null.
    """
    existing_circuit: ExistingCircuit
    """
    What charging current the installed sizes allow.
    """
