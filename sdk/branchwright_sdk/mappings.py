# Generated from the OpenAPI document by sdk/generator. Do not edit.
# ruff: noqa
"""What is asked, as plain mappings."""

from typing import Literal, NotRequired, TypeAlias, TypedDict


class Conductors(TypedDict):
    """
    What the conductors are made of.
    """

    material: Literal["copper", "aluminum"]
    """
    Metal of the ungrounded conductors.
    """
    insulation: NotRequired[Literal["THWN-2", "XHHW-2", "THW", "THW-2", "RHW-2", "THHN", "THWN"] | None]
    """
    Insulation of conductors in raceways. Not stated: THWN-2. Cables bring their own.
    """
    grounding_material: NotRequired[Literal["copper", "aluminum"] | None]
    """
    Metal of the grounding conductor. Not stated: as the others.
    """


CurrentsAItem: TypeAlias = float


class Depth(TypedDict):
    """
    A depth with its unit; none at all is one.
    """

    value: float
    unit: Literal["ft", "in", "m", "mm"]


class Hardwired(TypedDict):
    """
    The charger is wired to the circuit permanently.
    """

    kind: Literal["hardwired"]


class InstalledDisconnect(TypedDict):
    """
    The disconnecting means at the charger.
    """

    present: bool
    readily_accessible: NotRequired[bool | None]
    lockable_open: NotRequired[bool | None]


class Length(TypedDict):
    """
    A length with its unit.
    """

    value: float
    unit: Literal["ft", "in", "m", "mm"]


class Markings(TypedDict):
    """
    What the charger's label or manual says.
    """

    greatest_overcurrent_device_a: NotRequired[float | None]
    """
    Greatest overcurrent device that the manufacturer permits, A.
    """
    forbids_gfci_breaker: NotRequired[bool | None]
    """
    Whether the manufacturer forbids a ground-fault breaker.
    """


class Premises(TypedDict):
    """
    Where the circuit is.
    """

    occupancy: NotRequired[Literal["one-family", "two-family", "multifamily", "other"] | None]
    """
    Kind of building; decides on ground-fault protection.
    """
    charger_location: NotRequired[Literal["outdoors", "garage", "accessory-building", "indoors"] | None]
    """
    Where the charger is mounted; decides on ground-fault protection.
    """


Readings = TypedDict(
    "Readings",
    {
        "liquidtight-temperature": NotRequired[
            Literal["operating-temperature", "sixty-degree-column"] | None
        ],
        "grounding-near-miss": NotRequired[Literal["strict", "within-rounding"] | None],
        "hardwired-outlet": NotRequired[Literal["outlet", "not-an-outlet"] | None],
        "rooftop-clearance": NotRequired[Literal["seven-eighths-inch", "three-quarters-inch"] | None],
        "setting-as-rating": NotRequired[Literal["nameplate", "setting"] | None],
        "grounding-growth": NotRequired[Literal["counts-correction", "exempts-correction"] | None],
        "permanently-wired-protection": NotRequired[Literal["required", "not-enacted"] | None],
        "sixty-ampere-receptacle": NotRequired[Literal["printed", "not-printed"] | None],
        "charger-in-optional-method": NotRequired[Literal["full-value", "in-the-pool"] | None],
        "existing-heating-and-cooling": NotRequired[Literal["in-the-pool", "left-out"] | None],
        "added-heating-and-cooling": NotRequired[Literal["at-full-value", "in-the-pool"] | None],
        "measured-with-generation": NotRequired[Literal["refused", "measured-gross"] | None],
        "measured-demand-interval": NotRequired[Literal["fifteen-minutes", "as-metered"] | None],
        "charger-on-service": NotRequired[Literal["at-125-percent", "at-its-load"] | None],
    },
)


class Supply(TypedDict):
    """
    The system that the circuit is taken from.
    """

    system: Literal["split-phase-120-240", "wye-208y-120"]
    """
    240 V between the lines of a split-phase system, or 208 V between two of a wye.
    """
    phases: NotRequired[Literal[1, 3] | None]
    """
    Phases that the charger uses; 3 on a wye system only. Not stated: 1.
    """


class Targets(TypedDict):
    """
    What the caller asks for beyond the code.
    """

    voltage_drop_percent: NotRequired[float | None]
    """
    Greatest voltage drop at the charging current, percent of the nominal voltage.
    """


class Torque(TypedDict):
    """
    A tightening torque with its unit.
    """

    value: float
    unit: Literal["lbf-in", "lbf-ft", "N-m"]


class TorqueRecord(TypedDict):
    """
    A torque that was applied and written down.
    """

    at: str
    """
    breaker, charger, receptacle, or points/<index>.
    """
    torque: Torque


class Underground(TypedDict):
    """
    A segment below grade; it counts as a wet location.
    """

    cover: NotRequired[Depth | None]
    """
    From the top of raceway or cable to finished grade; a design states the least.
    """
    under: Literal["soil", "dwelling-driveway", "street", "building", "concrete"]
    """
    What lies above it. concrete: an exterior slab at least 4 in thick without vehicles; dwelling-driveway: of a one- or two-family dwelling.
    """


class Cable(TypedDict):
    """
    What a cable brings beside its ungrounded conductors, and what is printed on it.
    """

    grounding_size: NotRequired[
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
    ]
    """
    Grounding conductor that the cable is made with.
    """
    neutral_size: NotRequired[
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
    ]
    """
    Neutral that the cable is made with.
    """
    outside_diameter: NotRequired[Length | None]
    """
    Over the sheath, the larger one of a flat cable; for fill of a sleeve.
    """
    conductor_temperature_rating_c: NotRequired[Literal[60, 75, 90] | None]
    """
    Temperature rating of the conductors as printed on SE, MC or AC cable, degC. Not stated: 75. Other cables have the rating of their article.
    """
    listed_for_wet: NotRequired[bool | None]
    """
    Whether MC cable is listed for wet locations. Not stated: unknown.
    """


class Installed(TypedDict):
    """
    The circuit as proposed or found. What is not stated is unknown.
    """

    breaker_rating_a: NotRequired[float | None]
    ungrounded_size: NotRequired[
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
    ]
    neutral_size: NotRequired[
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
    ]
    """
    Not stated: unknown where one is needed.
    """
    grounding_size: NotRequired[
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
    ]
    grounding_material: NotRequired[Literal["copper", "aluminum"] | None]
    ground_fault_protection: NotRequired[Literal["breaker", "receptacle", "charger", "none"] | None]
    disconnect: NotRequired[InstalledDisconnect | None]
    emergency_shutoff: NotRequired[bool | None]
    """
    Whether there is an emergency shutoff for the chargers, where one is asked for.
    """
    setting_label: NotRequired[bool | None]
    """
    Whether the adjusted current is on the label.
    """
    torque_records: NotRequired[list[TorqueRecord] | None]


class Segment(TypedDict):
    """
    A part of the run with one wiring method and environment, in order from panel to charger.
    """

    wiring_method: Literal[
        "emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b", "nm-b", "uf-b", "se", "mc", "ac"
    ]
    length: Length
    location: NotRequired[Literal["dry", "damp", "wet"] | None]
    """
    Not stated: unknown, and the worst is assumed.
    """
    ambient_c: NotRequired[float | None]
    """
    Greatest ambient temperature, degC. Not stated: that of the ampacity table.
    """
    rooftop_clearance: NotRequired[Length | None]
    """
    Height of the raceway or cable above a roof in the sun. Not stated: not on such a roof.
    """
    other_current_carrying_conductors: NotRequired[int | None]
    """
    Current-carrying conductors of other circuits in the raceway or bundle. Not stated: 0, or two for each other cable of bundled_cables.
    """
    bundled_cables: NotRequired[int | None]
    """
    Cables that lie together without spacing, this one included; for cables. Not stated: 1.
    """
    in_thermal_insulation: NotRequired[bool | None]
    """
    Whether a cable lies in contact with thermal insulation, or passes framing in an opening that is sealed with it. Not stated: it does not.
    """
    underground: NotRequired[Underground | None]
    """
    Not stated: the segment is not underground.
    """
    listed_for_direct_burial: NotRequired[bool | None]
    """
    Whether MC, LFMC or LFNC is marked for direct burial. Not stated: unknown.
    """
    other_conductors_area_in2: NotRequired[float | None]
    """
    Area that other conductors fill in the raceway, in2. Not stated: 0 where there are none.
    """
    raceway_trade_size: NotRequired[Literal["1/2", "3/4", "1", "1-1/4", "1-1/2", "2"] | None]
    """
    Trade size of the raceway, or of the sleeve around a cable; a design chooses a raceway's where not stated.
    """
    sleeve_method: NotRequired[
        Literal["emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b"] | None
    ]
    """
    Raceway that a cable is drawn into. Not stated: none or unknown.
    """
    raceway_temperature_rating_c: NotRequired[float | None]
    """
    Temperature marked on the raceway, degC. Not stated: the usual listing of its kind.
    """
    cable: NotRequired[Cable | None]


class Terminals(TypedDict):
    """
    What is marked at the terminals of a device. A missing marking is unknown, not absent.
    """

    temperature_rating_c: NotRequired[Literal[60, 75, 90] | None]
    """
    Conductor temperature that the terminals are marked for, degC. Not stated: taken as unmarked.
    """
    materials: NotRequired[list[Literal["copper", "aluminum"]] | None]
    """
    Conductor materials that they are identified for.
    """
    smallest: NotRequired[
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
    ]
    """
    Smallest conductor that they take.
    """
    largest: NotRequired[
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
    ]
    """
    Largest conductor that they take.
    """
    torque: NotRequired[Torque | None]
    """
    Tightening torque marked on the device.
    """
    strip_length: NotRequired[Length | None]
    """
    Length of insulation to strip, as marked on the device.
    """


class Breaker(TypedDict):
    """
    The breaker at the panel, apart from its rating.
    """

    terminals: NotRequired[Terminals | None]
    """
    Markings at the breaker's lugs.
    """
    listed_for_panel: NotRequired[bool | None]
    """
    Whether the breaker is listed for the panel. Not stated: unknown.
    """


class Point(TypedDict):
    """
    A device or splice between two segments, with terminals of its own.
    """

    after_segment: int
    """
    Index of the segment that it follows.
    """
    kind: Literal["disconnect", "meter-socket", "submeter", "splice"]
    rating_a: NotRequired[float | None]
    """
    Rating of the device, A; a splice has none.
    """
    terminals: NotRequired[Terminals | None]


class Receptacle(TypedDict):
    """
    The charger is plugged into a receptacle.
    """

    kind: Literal["receptacle"]
    configuration: Literal["14-50", "6-50", "14-30", "6-30", "6-20", "14-60", "10-30", "10-50"]
    """
    Configuration by its NEMA designation.
    """
    listed_for_ev_charging: NotRequired[bool | None]
    """
    Whether it is listed for this use.
    """
    terminals: NotRequired[Terminals | None]
    """
    Markings at the receptacle's terminals.
    """


class Charger(TypedDict):
    """
    The charger: what it is set to, what it is rated for, and how it is connected.
    """

    rated_current_a: NotRequired[float | None]
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    setting_access: NotRequired[Literal["restricted", "unrestricted"] | None]
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: Hardwired | Receptacle
    uses_neutral: NotRequired[bool | None]
    """
    Whether a hardwired charger needs a neutral. Not stated: it does not.
    """
    terminals: NotRequired[Terminals | None]
    """
    Markings at a hardwired charger's lugs.
    """
    power_factor: NotRequired[float | None]
    """
    Displacement power factor of the charger; for the voltage drop. Not stated: 1.
    """
    markings: NotRequired[Markings | None]
    charging_current_a: float
    """
    Continuous current that it is set to, A.
    """


class CircuitDesignRequest(TypedDict):
    """
    What circuit does this charger need?
    """

    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: NotRequired[str | None]
    """
    Place, for the record; local amendments are not applied.
    """
    readings: NotRequired[Readings | None]
    premises: NotRequired[Premises | None]
    supply: Supply
    charger: Charger
    breaker: NotRequired[Breaker | None]
    conductors: Conductors
    run: list[Segment]
    """
    Segments in order from panel to charger.
    """
    points: NotRequired[list[Point] | None]
    targets: NotRequired[Targets | None]


class CircuitReviewRequest(TypedDict):
    """
    Does this proposed or installed circuit hold?
    """

    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: NotRequired[str | None]
    """
    Place, for the record; local amendments are not applied.
    """
    readings: NotRequired[Readings | None]
    premises: NotRequired[Premises | None]
    supply: Supply
    charger: Charger
    breaker: NotRequired[Breaker | None]
    conductors: Conductors
    run: list[Segment]
    """
    Segments in order from panel to charger.
    """
    points: NotRequired[list[Point] | None]
    targets: NotRequired[Targets | None]
    installed: Installed


class ComparedCharger(TypedDict):
    """
    The charger, apart from its charging current: the comparison varies that, see currents_a.
    """

    rated_current_a: NotRequired[float | None]
    """
    Current on its nameplate, A. Not stated: the charging current is taken for it.
    """
    setting_access: NotRequired[Literal["restricted", "unrestricted"] | None]
    """
    Whether the current setting is reachable only by a tool, key, seal or password. Not stated: unknown.
    """
    connection: Hardwired | Receptacle
    uses_neutral: NotRequired[bool | None]
    """
    Whether a hardwired charger needs a neutral. Not stated: it does not.
    """
    terminals: NotRequired[Terminals | None]
    """
    Markings at a hardwired charger's lugs.
    """
    power_factor: NotRequired[float | None]
    """
    Displacement power factor of the charger; for the voltage drop. Not stated: 1.
    """
    markings: NotRequired[Markings | None]


class CurrentComparisonRequest(TypedDict):
    """
    What does each step of charging current cost, and what does it bring in?
    """

    edition: Literal["nec-2017", "nec-2020", "nec-2023", "nec-2026"]
    """
    The code edition that the answer applies.
    """
    jurisdiction: NotRequired[str | None]
    """
    Place, for the record; local amendments are not applied.
    """
    readings: NotRequired[Readings | None]
    premises: NotRequired[Premises | None]
    supply: Supply
    charger: ComparedCharger
    breaker: NotRequired[Breaker | None]
    conductors: Conductors
    run: list[Segment]
    """
    Segments in order from panel to charger.
    """
    points: NotRequired[list[Point] | None]
    targets: NotRequired[Targets | None]
    currents_a: NotRequired[list[CurrentsAItem] | None]
    """
    Charging currents to compare, A. They are sorted, and one that is stated twice is compared once. Settings of the charger where its rated current is stated, else each is a charger of that rating. Not stated: 6, 8, 10, 12, 16, 20, 24, 28, 32, 36, 40, 48, 56, 64, 72, 80 (common practice, no source).
    """
    night_h: NotRequired[float | None]
    """
    Hours of charging in a night. Not stated: no energy of a night is computed.
    """
