"""Whole requests about circuits, as an electrician may state them and as nobody would.

Requests are plain JSON objects, so that what is tested starts where a caller starts.
"""

from typing import Any

from hypothesis import strategies as st

Request = dict[str, Any]

SIZES = (
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
)
"""ASTM B258 and the trade's order; smallest first."""

TRADE_SIZES = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2")
RATINGS_A = (10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300)
"""Standard ratings up to 300 A, table 240.6(A) of 2023."""

EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")
RACEWAYS = ("emt", "imc", "rmc", "pvc-40", "pvc-80", "fmc", "lfmc", "lfnc-b")
CABLES = ("nm-b", "uf-b", "se", "mc", "ac")
METHODS = (*RACEWAYS, *CABLES)
PLACES = {
    method: ("dry",) if method in ("nm-b", "ac", "fmc") else ("dry", "damp", "wet") for method in METHODS
}
"""Where a method may be without a doubt: NEC 334.12(B), 320.12, 348.12 keep these three out of the wet."""
BURIED = ("imc", "rmc", "pvc-40", "pvc-80", "uf-b")
"""Methods that may be buried without a marking for it."""
GROUNDS = ("soil", "dwelling-driveway", "street", "building", "concrete")
CONFIGURATIONS = ("14-50", "6-50", "14-30", "6-30", "6-20", "14-60", "10-30", "10-50")
INSULATIONS = ("THWN-2", "XHHW-2", "THW", "THW-2", "RHW-2", "THHN", "THWN")
MATERIALS = ("copper", "aluminum")
LOCATIONS = ("dry", "damp", "wet")
READINGS = {
    "liquidtight-temperature": ("operating-temperature", "sixty-degree-column"),
    "grounding-near-miss": ("strict", "within-rounding"),
    "hardwired-outlet": ("outlet", "not-an-outlet"),
    "rooftop-clearance": ("seven-eighths-inch", "three-quarters-inch"),
    "setting-as-rating": ("nameplate", "setting"),
    "grounding-growth": ("counts-correction", "exempts-correction"),
    "permanently-wired-protection": ("required", "not-enacted"),
    "sixty-ampere-receptacle": ("printed", "not-printed"),
    "charger-in-optional-method": ("full-value", "in-the-pool"),
    "existing-heating-and-cooling": ("in-the-pool", "left-out"),
    "added-heating-and-cooling": ("at-full-value", "in-the-pool"),
    "omitted-motor": ("compared", "added"),
    "measured-with-generation": ("refused", "measured-gross"),
    "measured-demand-interval": ("fifteen-minutes", "as-metered"),
    "charger-on-service": ("at-125-percent", "at-its-load"),
}
KINDS = ("disconnect", "meter-socket", "submeter", "splice")

any_currents_a = st.one_of(
    st.sampled_from((6, 8, 12, 16, 20, 24, 32, 40, 48, 56, 64, 72, 80, 96)),
    st.floats(1, 160).map(lambda value: round(value, 1)),
    st.floats(0.001, 1000, exclude_min=True),
)
usual_currents_a = st.one_of(
    st.sampled_from((12, 16, 24, 32, 40, 48, 64, 80)), st.floats(6, 120).map(lambda value: round(value, 1))
)
any_lengths = st.one_of(
    st.floats(0.5, 400).map(lambda value: {"value": round(value, 1), "unit": "ft"}),
    st.floats(0.01, 120).map(lambda value: {"value": round(value, 2), "unit": "m"}),
    st.sampled_from(
        (
            {"value": 24, "unit": "in"},
            {"value": 2, "unit": "ft"},
            {"value": 610, "unit": "mm"},
            {"value": 1_000_000, "unit": "ft"},
        )
    ),
)
usual_lengths = st.floats(0.5, 250).map(lambda value: {"value": round(value, 1), "unit": "ft"})
lengths_in = st.builds(
    lambda value, unit: {"value": value, "unit": unit},
    st.sampled_from((0.5, 0.75, 1, 12, 18, 24)),
    st.sampled_from(("in", "mm")),
)
torques = st.builds(
    lambda value, unit: {"value": value, "unit": unit},
    st.sampled_from((20, 36, 45, 50, 75, 110)),
    st.sampled_from(("lbf-in", "lbf-ft", "N-m")),
)


def some(required: dict[str, st.SearchStrategy[Any]], optional: dict[str, st.SearchStrategy[Any]]) -> Any:
    """Objects with the required fields and any of the optional ones, which may also be null."""
    return st.fixed_dictionaries(
        required, optional={name: st.one_of(st.none(), field) for name, field in optional.items()}
    )


@st.composite
def ranges(draw: st.DrawFn) -> dict[str, str]:
    """The sizes that terminals take."""
    low = draw(st.integers(0, 6))
    high = draw(st.integers(low, len(SIZES) - 1))
    found = {}
    if draw(st.booleans()):
        found["smallest"] = SIZES[low]
    if draw(st.booleans()):
        found["largest"] = SIZES[high]
    return found


def terminals(*, marked: bool) -> st.SearchStrategy[Request]:
    """Markings at terminals; `marked` ones state temperature and both metals, and no range of sizes."""
    if marked:
        return st.fixed_dictionaries(
            {
                "temperature_rating_c": st.sampled_from((60, 75, 90)),
                "materials": st.just(["copper", "aluminum"]),
            },
            optional={"torque": torques},
        )
    base = some(
        {},
        {
            "temperature_rating_c": st.sampled_from((60, 75, 90)),
            "materials": st.sampled_from((["copper"], ["aluminum"], ["copper", "aluminum"])),
            "torque": torques,
            "strip_length": lengths_in,
        },
    )
    return st.builds(lambda one, other: {**one, **other}, base, ranges())


def any_segments() -> st.SearchStrategy[Request]:
    return some(
        {"wiring_method": st.sampled_from(METHODS), "length": any_lengths},
        {
            "location": st.sampled_from(LOCATIONS),
            "ambient_c": st.one_of(
                st.integers(20, 50), st.floats(-60, 120), st.sampled_from((-60, 30, 35.5, 120))
            ),
            "rooftop_clearance": st.builds(
                lambda value: {"value": value, "unit": "in"}, st.sampled_from((0.5, 0.75, 0.8, 0.875, 3))
            ),
            "other_current_carrying_conductors": st.one_of(st.integers(0, 12), st.sampled_from((0, 500))),
            "other_conductors_area_in2": st.one_of(st.just(0), st.floats(0, 0.6), st.just(100)),
            "raceway_trade_size": st.sampled_from(TRADE_SIZES),
            "raceway_temperature_rating_c": st.one_of(st.sampled_from((60, 75, 80, 90)), st.floats(40, 250)),
            "cable": some(
                {},
                {
                    "grounding_size": st.sampled_from(SIZES),
                    "neutral_size": st.sampled_from(SIZES),
                    "outside_diameter": lengths_in,
                    "conductor_temperature_rating_c": st.sampled_from((60, 75, 90)),
                    "listed_for_wet": st.booleans(),
                },
            ),
            "bundled_cables": st.one_of(st.integers(1, 6), st.just(100)),
            "in_thermal_insulation": st.booleans(),
            "underground": some({"under": st.sampled_from(GROUNDS)}, {"cover": lengths_in}),
            "listed_for_direct_burial": st.booleans(),
            "sleeve_method": st.sampled_from(RACEWAYS),
        },
    )


@st.composite
def usual_segments(draw: st.DrawFn) -> Request:
    """A segment that may be where it is, with every fact that rules ask for."""
    method = draw(st.sampled_from(METHODS))
    segment: Request = {
        "wiring_method": method,
        "length": draw(usual_lengths),
        "location": draw(st.sampled_from(PLACES[method])),
        "ambient_c": draw(st.integers(20, 45)),
    }
    if method in CABLES:
        segment["in_thermal_insulation"] = draw(st.booleans())
        segment["bundled_cables"] = draw(st.sampled_from((1, 1, 1, 2, 3, 5)))
        segment["cable"] = {"listed_for_wet": True}
        if method in ("se", "mc", "ac") and draw(st.booleans()):
            segment["cable"]["conductor_temperature_rating_c"] = draw(st.sampled_from((75, 90)))
        return segment
    if method in BURIED and draw(st.booleans()):
        segment["location"] = "wet"
        segment["underground"] = {"under": draw(st.sampled_from(GROUNDS))}
    others = draw(st.sampled_from((0, 0, 0, 1, 2, 4, 8)))
    if others:
        segment["other_current_carrying_conductors"] = others
        segment["other_conductors_area_in2"] = round(0.0211 * others, 4)
    return segment


@st.composite
def points_between(draw: st.DrawFn, segments: int, *, marked: bool) -> list[Request]:
    """Up to two devices or splices on a run; `marked` ones follow a segment that there is."""
    found = []
    for _ in range(draw(st.integers(0, 2))):
        kind = draw(st.sampled_from(KINDS))
        point: Request = {
            "after_segment": draw(st.integers(0, segments - 1 if marked else 100)),
            "kind": kind,
        }
        if marked or draw(st.booleans()):
            point["terminals"] = draw(terminals(marked=marked))
        if kind != "splice" and (marked or draw(st.booleans())):
            point["rating_a"] = draw(st.sampled_from((30, 60, 100, 200) if not marked else (200, 400)))
        found.append(point)
    return found


chosen_readings = st.fixed_dictionaries(
    {}, optional={name: st.sampled_from(readings) for name, readings in READINGS.items()}
)


@st.composite
def usual_designs(draw: st.DrawFn, points: bool = True) -> Request:
    """Requests in which every fact is stated and most of which have a design."""
    edition = draw(st.sampled_from(EDITIONS))
    run = draw(st.lists(usual_segments(), min_size=1, max_size=4))
    current = draw(usual_currents_a)
    charger: Request = {
        "charging_current_a": current,
        "rated_current_a": draw(st.sampled_from((current, max(current, 48)))),
        "setting_access": draw(st.sampled_from(("restricted", "unrestricted"))),
    }
    if current <= 40 and draw(st.booleans()):
        charger["rated_current_a"] = current
        charger["connection"] = {
            "kind": "receptacle",
            "configuration": draw(st.sampled_from(("14-50", "6-50") if current > 24 else CONFIGURATIONS[:5])),
            "terminals": draw(terminals(marked=True)),
            "listed_for_ev_charging": True,
        }
    else:
        charger["connection"] = {"kind": "hardwired"}
        charger["terminals"] = draw(terminals(marked=True))
        charger["uses_neutral"] = draw(st.booleans())
    system = draw(st.sampled_from(("split-phase-120-240", "wye-208y-120")))
    three = system == "wye-208y-120" and charger["connection"]["kind"] == "hardwired" and draw(st.booleans())
    if edition == "nec-2017":
        # This edition has no words on the label of an adjusted setting, which leaves one undetermined.
        charger["rated_current_a"] = current
    request: Request = {
        "edition": edition,
        "premises": {
            "occupancy": draw(st.sampled_from(("one-family", "two-family", "multifamily", "other"))),
            "charger_location": draw(
                st.sampled_from(("outdoors", "garage", "accessory-building", "indoors"))
            ),
        },
        "supply": {"system": system, "phases": 3 if three else 1},
        "charger": charger,
        "breaker": {"terminals": draw(terminals(marked=True)), "listed_for_panel": True},
        "conductors": {
            "material": draw(st.sampled_from(MATERIALS)),
            # Good in every location; THHN, which is not, is left to the requests of any kind.
            "insulation": draw(st.sampled_from([name for name in INSULATIONS if name != "THHN"])),
        },
        "run": run,
    }
    if points:
        request["points"] = draw(points_between(len(run), marked=True))
    if draw(st.booleans()):
        request["targets"] = {"voltage_drop_percent": draw(st.sampled_from((1, 2, 3, 5)))}
    if draw(st.booleans()):
        request["readings"] = draw(chosen_readings)
    return request


@st.composite
def any_designs(draw: st.DrawFn) -> Request:
    """Any request that fits the schema, extreme and contradictory ones among them."""
    segments = draw(st.one_of(st.integers(1, 4), st.integers(1, 4), st.just(50)))
    if segments == 50:
        # Fifty times the same few: drawing each afresh takes long and shows nothing more.
        few = draw(st.lists(any_segments(), min_size=1, max_size=3))
        run = [few[place % len(few)] for place in range(50)]
    else:
        run = draw(st.lists(any_segments(), min_size=segments, max_size=segments))
    connection = draw(
        st.one_of(
            st.just({"kind": "hardwired"}),
            some(
                {
                    "kind": st.just("receptacle"),
                    "configuration": st.sampled_from(CONFIGURATIONS),
                },
                {"listed_for_ev_charging": st.booleans(), "terminals": terminals(marked=False)},
            ),
        )
    )
    charger = draw(
        some(
            {"charging_current_a": any_currents_a, "connection": st.just(connection)},
            {
                "rated_current_a": any_currents_a,
                "setting_access": st.sampled_from(("restricted", "unrestricted")),
                "uses_neutral": st.booleans(),
                "terminals": terminals(marked=False),
                "power_factor": st.one_of(st.sampled_from((0.9, 1)), st.floats(0.01, 1)),
                "markings": some(
                    {},
                    {
                        "greatest_overcurrent_device_a": st.sampled_from((40, 60, 100)),
                        "forbids_gfci_breaker": st.booleans(),
                    },
                ),
            },
        )
    )
    request = draw(
        some(
            {
                "edition": st.sampled_from(EDITIONS),
                "supply": some(
                    {"system": st.sampled_from(("split-phase-120-240", "wye-208y-120"))},
                    {"phases": st.sampled_from((1, 1.0, 3))},
                ),
                "charger": st.just(charger),
                "conductors": some(
                    {"material": st.sampled_from(MATERIALS)},
                    {
                        "insulation": st.sampled_from(INSULATIONS),
                        "grounding_material": st.sampled_from(MATERIALS),
                    },
                ),
                "run": st.just(run),
            },
            {
                "jurisdiction": st.text(st.characters(exclude_categories=("Cs",)), min_size=1, max_size=20),
                "premises": some(
                    {},
                    {
                        "occupancy": st.sampled_from(("one-family", "two-family", "multifamily", "other")),
                        "charger_location": st.sampled_from(
                            ("outdoors", "garage", "accessory-building", "indoors")
                        ),
                    },
                ),
                "breaker": some(
                    {}, {"terminals": terminals(marked=False), "listed_for_panel": st.booleans()}
                ),
                "points": points_between(len(run), marked=False),
                "targets": some(
                    {}, {"voltage_drop_percent": st.one_of(st.sampled_from((1, 3, 5)), st.floats(0.01, 100))}
                ),
                "readings": chosen_readings,
            },
        )
    )
    return dict(request)


installed = some(
    {},
    {
        "breaker_rating_a": st.one_of(
            st.sampled_from(RATINGS_A), st.sampled_from((0.5, 55, 6000)), st.floats(1, 6000)
        ),
        "ungrounded_size": st.sampled_from(SIZES),
        "neutral_size": st.sampled_from(SIZES),
        "grounding_size": st.sampled_from(SIZES),
        "grounding_material": st.sampled_from(MATERIALS),
        "ground_fault_protection": st.sampled_from(("breaker", "receptacle", "charger", "none")),
        "disconnect": some(
            {"present": st.booleans()}, {"readily_accessible": st.booleans(), "lockable_open": st.booleans()}
        ),
        "emergency_shutoff": st.booleans(),
        "setting_label": st.booleans(),
        "torque_records": st.lists(
            st.fixed_dictionaries(
                {
                    "at": st.sampled_from(("breaker", "charger", "receptacle", "points/0", "points/19")),
                    "torque": torques,
                }
            ),
            max_size=4,
        ),
    },
)


@st.composite
def any_reviews(draw: st.DrawFn) -> Request:
    """Any review request that fits the schema."""
    return {**draw(any_designs()), "installed": draw(installed)}


@st.composite
def usual_reviews(draw: st.DrawFn) -> Request:
    """Circuits near those that hold: usual facts, sizes of the right order."""
    request = draw(usual_designs())
    load = request["charger"]["charging_current_a"]
    ratings = [rating for rating in RATINGS_A if 0.9 * load <= rating <= 2 * load + 15] or [15]
    run = [
        segment
        if segment["wiring_method"] in CABLES
        else {**segment, "raceway_trade_size": draw(st.sampled_from(TRADE_SIZES[1:]))}
        for segment in request["run"]
    ]
    return {
        **request,
        "run": run,
        "installed": {
            "breaker_rating_a": draw(st.sampled_from(ratings)),
            "ungrounded_size": draw(st.sampled_from(SIZES)),
            "neutral_size": draw(st.sampled_from(SIZES)),
            "grounding_size": draw(st.sampled_from(SIZES)),
            "ground_fault_protection": draw(st.sampled_from(("breaker", "charger", "none"))),
            "disconnect": draw(
                st.sampled_from(
                    (
                        {"present": False},
                        {"present": True, "readily_accessible": True, "lockable_open": True},
                    )
                )
            ),
            "emergency_shutoff": draw(st.booleans()),
            "setting_label": draw(st.booleans()),
            "torque_records": [],
        },
    }
