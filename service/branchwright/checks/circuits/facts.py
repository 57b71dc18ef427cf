"""The request models of circuit designs and reviews: what the caller states about a circuit."""

from typing import Annotated, Generic, Literal, TypeAlias, TypeVar

from pydantic import BeforeValidator, Field

from branchwright.codebook.editions import Ground, Location, Material, RacewayMethod, WiringMethod
from branchwright.quantities.conductor_sizes import ConductorSize
from branchwright.quantities.lengths import LengthUnit, feet
from branchwright.quantities.torques import TorqueUnit
from branchwright.quantities.trade_sizes import TradeSize
from branchwright.questions.fields import (
    Access,
    CurrentA,
    Edition,
    Facts,
    Jurisdiction,
    Number,
    RatingA,
    SupplySystem,
    Yes,
    whole,
)
from branchwright.questions.readings import Readings

Insulation: TypeAlias = Literal["THWN-2", "XHHW-2", "THW", "THW-2", "RHW-2", "THHN", "THWN"]
Configuration: TypeAlias = Literal["14-50", "6-50", "14-30", "6-30", "6-20", "14-60", "10-30", "10-50"]


class Length(Facts):
    """A length with its unit."""

    value: Annotated[Number, Field(gt=0, le=1_000_000)]
    unit: LengthUnit

    @property
    def ft(self) -> float:
        """The length in feet."""
        return feet(self.value, self.unit)


class Torque(Facts):
    """A tightening torque with its unit."""

    value: Annotated[Number, Field(gt=0, le=10_000)]
    unit: TorqueUnit


class Terminals(Facts):
    """What is marked at the terminals of a device. A missing marking is unknown, not absent."""

    temperature_rating_c: Annotated[
        Literal[60, 75, 90] | None,
        BeforeValidator(whole),
        Field(
            description="Conductor temperature that the terminals are marked for, degC. "
            "Not stated: taken as unmarked."
        ),
    ] = None
    materials: Annotated[
        tuple[Material, ...] | None,
        Field(min_length=1, max_length=2, description="Conductor materials that they are identified for."),
    ] = None
    smallest: Annotated[ConductorSize | None, Field(description="Smallest conductor that they take.")] = None
    largest: Annotated[ConductorSize | None, Field(description="Largest conductor that they take.")] = None
    torque: Annotated[Torque | None, Field(description="Tightening torque marked on the device.")] = None
    strip_length: Annotated[
        Length | None, Field(description="Length of insulation to strip, as marked on the device.")
    ] = None


class Premises(Facts):
    """Where the circuit is."""

    occupancy: Annotated[
        Literal["one-family", "two-family", "multifamily", "other"] | None,
        Field(description="Kind of building; decides on ground-fault protection."),
    ] = None
    charger_location: Annotated[
        Literal["outdoors", "garage", "accessory-building", "indoors"] | None,
        Field(description="Where the charger is mounted; decides on ground-fault protection."),
    ] = None


class Supply(Facts):
    """The system that the circuit is taken from."""

    system: SupplySystem
    phases: Annotated[
        Literal[1, 3] | None,
        BeforeValidator(whole),
        Field(description="Phases that the charger uses; 3 on a wye system only. Not stated: 1."),
    ] = None


class Hardwired(Facts):
    """The charger is wired to the circuit permanently."""

    kind: Literal["hardwired"]


class Receptacle(Facts):
    """The charger is plugged into a receptacle."""

    kind: Literal["receptacle"]
    configuration: Annotated[Configuration, Field(description="Configuration by its NEMA designation.")]
    listed_for_ev_charging: Annotated[Yes | None, Field(description="Whether it is listed for this use.")] = (
        None
    )
    terminals: Annotated[Terminals | None, Field(description="Markings at the receptacle's terminals.")] = (
        None
    )


class Markings(Facts):
    """What the charger's label or manual says."""

    greatest_overcurrent_device_a: Annotated[
        RatingA | None, Field(description="Greatest overcurrent device that the manufacturer permits, A.")
    ] = None
    forbids_gfci_breaker: Annotated[
        Yes | None, Field(description="Whether the manufacturer forbids a ground-fault breaker.")
    ] = None


class ChargerFacts(Facts):
    """What is known of a charger apart from the current that it is set to."""

    rated_current_a: Annotated[
        CurrentA | None,
        Field(description="Current on its nameplate, A. Not stated: the charging current is taken for it."),
    ] = None
    setting_access: Annotated[
        Access | None,
        Field(
            description="Whether the current setting is reachable only by a tool, key, seal or password. "
            "Not stated: unknown."
        ),
    ] = None
    connection: Annotated[Hardwired | Receptacle, Field(discriminator="kind")]
    uses_neutral: Annotated[
        Yes | None, Field(description="Whether a hardwired charger needs a neutral. Not stated: it does not.")
    ] = None
    terminals: Annotated[Terminals | None, Field(description="Markings at a hardwired charger's lugs.")] = (
        None
    )
    power_factor: Annotated[
        Annotated[Number, Field(gt=0, le=1)] | None,
        Field(description="Displacement power factor of the charger; for the voltage drop. Not stated: 1."),
    ] = None
    markings: Markings | None = None


class Charger(ChargerFacts):
    """The charger: what it is set to, what it is rated for, and how it is connected."""

    charging_current_a: Annotated[CurrentA, Field(description="Continuous current that it is set to, A.")]


class Breaker(Facts):
    """The breaker at the panel, apart from its rating."""

    terminals: Annotated[Terminals | None, Field(description="Markings at the breaker's lugs.")] = None
    listed_for_panel: Annotated[
        Yes | None, Field(description="Whether the breaker is listed for the panel. Not stated: unknown.")
    ] = None


class Conductors(Facts):
    """What the conductors are made of."""

    material: Annotated[Material, Field(description="Metal of the ungrounded conductors.")]
    insulation: Annotated[
        Insulation | None,
        Field(
            description="Insulation of conductors in raceways. Not stated: THWN-2. Cables bring their own."
        ),
    ] = None
    grounding_material: Annotated[
        Material | None, Field(description="Metal of the grounding conductor. Not stated: as the others.")
    ] = None


class Cable(Facts):
    """What a cable brings beside its ungrounded conductors, and what is printed on it."""

    grounding_size: Annotated[
        ConductorSize | None, Field(description="Grounding conductor that the cable is made with.")
    ] = None
    neutral_size: Annotated[
        ConductorSize | None, Field(description="Neutral that the cable is made with.")
    ] = None
    outside_diameter: Annotated[
        Length | None,
        Field(description="Over the sheath, the larger one of a flat cable; for fill of a sleeve."),
    ] = None
    conductor_temperature_rating_c: Annotated[
        Literal[60, 75, 90] | None,
        BeforeValidator(whole),
        Field(
            description="Temperature rating of the conductors as printed on SE, MC or AC cable, degC. "
            "Not stated: 75. Other cables have the rating of their article."
        ),
    ] = None
    listed_for_wet: Annotated[
        Yes | None, Field(description="Whether MC cable is listed for wet locations. Not stated: unknown.")
    ] = None


class Depth(Facts):
    """A depth with its unit; none at all is one."""

    value: Annotated[Number, Field(ge=0, le=1_000_000)]
    unit: LengthUnit


class Underground(Facts):
    """A segment below grade; it counts as a wet location."""

    cover: Annotated[
        Depth | None,
        Field(description="From the top of raceway or cable to finished grade; a design states the least."),
    ] = None
    under: Annotated[
        Ground,
        Field(
            description="What lies above it. concrete: an exterior slab at least 4 in thick without vehicles; "
            "dwelling-driveway: of a one- or two-family dwelling."
        ),
    ]


class Segment(Facts):
    """A part of the run with one wiring method and environment, in order from panel to charger."""

    wiring_method: WiringMethod
    length: Length
    location: Annotated[
        Location | None, Field(description="Not stated: unknown, and the worst is assumed.")
    ] = None
    ambient_c: Annotated[
        Annotated[Number, Field(ge=-60, le=120)] | None,
        Field(description="Greatest ambient temperature, degC. Not stated: that of the ampacity table."),
    ] = None
    rooftop_clearance: Annotated[
        Length | None,
        Field(
            description="Height of the raceway or cable above a roof in the sun. Not stated: not on such a roof."
        ),
    ] = None
    other_current_carrying_conductors: Annotated[
        Annotated[int, Field(strict=True, ge=0, le=500), BeforeValidator(whole)] | None,
        Field(
            description="Current-carrying conductors of other circuits in the raceway or bundle. Not stated: 0, or "
            "two for each other cable of bundled_cables."
        ),
    ] = None
    bundled_cables: Annotated[
        Annotated[int, Field(strict=True, ge=1, le=100), BeforeValidator(whole)] | None,
        Field(
            description="Cables that lie together without spacing, this one included; for cables. Not stated: 1."
        ),
    ] = None
    in_thermal_insulation: Annotated[
        Yes | None,
        Field(
            description="Whether a cable lies in contact with thermal insulation, or passes framing in an opening "
            "that is sealed with it. Not stated: it does not."
        ),
    ] = None
    underground: Annotated[
        Underground | None, Field(description="Not stated: the segment is not underground.")
    ] = None
    listed_for_direct_burial: Annotated[
        Yes | None,
        Field(description="Whether MC, LFMC or LFNC is marked for direct burial. Not stated: unknown."),
    ] = None
    other_conductors_area_in2: Annotated[
        Annotated[Number, Field(ge=0, le=100)] | None,
        Field(
            description="Area that other conductors fill in the raceway, in2. Not stated: 0 where there are none."
        ),
    ] = None
    raceway_trade_size: Annotated[
        TradeSize | None,
        Field(
            description="Trade size of the raceway, or of the sleeve around a cable; a design chooses a raceway's "
            "where not stated."
        ),
    ] = None
    sleeve_method: Annotated[
        RacewayMethod | None,
        Field(description="Raceway that a cable is drawn into. Not stated: none or unknown."),
    ] = None
    raceway_temperature_rating_c: Annotated[
        Annotated[Number, Field(ge=40, le=250)] | None,
        Field(
            description="Temperature marked on the raceway, degC. Not stated: the usual listing of its kind."
        ),
    ] = None
    cable: Cable | None = None


class Point(Facts):
    """A device or splice between two segments, with terminals of its own."""

    after_segment: Annotated[
        int,
        Field(strict=True, ge=0, le=100, description="Index of the segment that it follows."),
        BeforeValidator(whole),
    ]
    kind: Literal["disconnect", "meter-socket", "submeter", "splice"]
    rating_a: Annotated[RatingA | None, Field(description="Rating of the device, A; a splice has none.")] = (
        None
    )
    terminals: Terminals | None = None


class Targets(Facts):
    """What the caller asks for beyond the code."""

    voltage_drop_percent: Annotated[
        Annotated[Number, Field(gt=0, le=100)] | None,
        Field(description="Greatest voltage drop at the charging current, percent of the nominal voltage."),
    ] = None


StatedCharger = TypeVar("StatedCharger", bound=ChargerFacts)


class RunFacts(Facts, Generic[StatedCharger]):
    """What every question about a circuit is told; how the charger is stated depends on the question."""

    edition: Annotated[Edition, Field(description="The code edition that the answer applies.")]
    jurisdiction: Jurisdiction = None
    readings: Readings | None = None
    premises: Premises | None = None
    supply: Supply
    charger: StatedCharger
    breaker: Breaker | None = None
    conductors: Conductors
    run: Annotated[
        tuple[Segment, ...],
        Field(min_length=1, max_length=50, description="Segments in order from panel to charger."),
    ]
    points: Annotated[tuple[Point, ...] | None, Field(max_length=20)] = None
    targets: Targets | None = None


class CircuitFacts(RunFacts[Charger]):
    """What a design and a review both are told."""


class CircuitDesignRequest(CircuitFacts):
    """What circuit does this charger need?"""


class InstalledDisconnect(Facts):
    """The disconnecting means at the charger."""

    present: Yes
    readily_accessible: Yes | None = None
    lockable_open: Yes | None = None


class TorqueRecord(Facts):
    """A torque that was applied and written down."""

    at: Annotated[
        str,
        Field(
            strict=True,
            pattern=r"^(breaker|charger|receptacle|points/([0-9]|1[0-9]))$",
            description="breaker, charger, receptacle, or points/<index>.",
        ),
    ]
    torque: Torque


class Installed(Facts):
    """The circuit as proposed or found. What is not stated is unknown."""

    breaker_rating_a: RatingA | None = None
    ungrounded_size: ConductorSize | None = None
    neutral_size: Annotated[
        ConductorSize | None, Field(description="Not stated: unknown where one is needed.")
    ] = None
    grounding_size: ConductorSize | None = None
    grounding_material: Material | None = None
    ground_fault_protection: Literal["breaker", "receptacle", "charger", "none"] | None = None
    disconnect: InstalledDisconnect | None = None
    emergency_shutoff: Annotated[
        Yes | None,
        Field(description="Whether there is an emergency shutoff for the chargers, where one is asked for."),
    ] = None
    setting_label: Annotated[
        Yes | None, Field(description="Whether the adjusted current is on the label.")
    ] = None
    torque_records: Annotated[tuple[TorqueRecord, ...] | None, Field(max_length=50)] = None


class CircuitReviewRequest(CircuitFacts):
    """Does this proposed or installed circuit hold?"""

    installed: Installed
