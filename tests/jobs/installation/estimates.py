"""Asks for estimates as a caller does, and draws the jobs that they are asked of."""

import json
from decimal import Decimal
from typing import Any

import numpy as np
from hypothesis import strategies as st
from tests.checks.circuits import Json, body_of
from tests.checks.replay import demo
from tests.checks.strategies import any_designs, some, usual_designs

from branchwright.jobs.installation import InstallationEstimateRequest, estimate_installation

ENDS = ("low", "likely", "high")
GROUPS = {"material": "material", "labour": "labour", "fee": "fees"}


def estimated(request: Json) -> Json:
    """Return the answer to an estimate; the request is parsed from JSON as the service does it."""
    answer = estimate_installation(InstallationEstimateRequest.model_validate_json(body_of(request)))
    return dict(json.loads(answer.model_dump_json(by_alias=True)))


def by_key(answer: Json, group: str = "material") -> dict[str | None, Json]:
    """The lines of a group by their key; a key with two lines would hide one."""
    lines = [line for line in answer["lines"] if line["group"] == group]
    found = {line["key"]: line for line in lines}
    assert len(found) == len(lines)
    return found


def quantities(answer: Json, group: str = "material") -> dict[str | None, float]:
    """The quantity of each line of a group by its key."""
    return {key: line["quantity"] for key, line in by_key(answer, group).items()}


def findings(answer: Json) -> dict[str, Json]:
    """The estimate's own findings by their rule."""
    return {item["rule"]: item for item in answer["findings"] if item["rule"].startswith("estimate-")}


def money(amounts: Json) -> list[Decimal]:
    """Low, likely and high as decimals."""
    return [Decimal(amounts[end]) for end in ENDS]


def segment(feet: float = 40, **more: Any) -> Json:
    """A segment of EMT in a dry place, every fact stated."""
    return {
        "wiring_method": "emt",
        "length": {"value": feet, "unit": "ft"},
        "location": "dry",
        "ambient_c": 30,
        "other_current_carrying_conductors": 0,
        **more,
    }


def circuit(*run: Json, **more: Any) -> Json:
    """A hardwired charger of 48 A in a house, every terminal marked 75 degC."""
    lugs = {"temperature_rating_c": 75, "materials": ["copper", "aluminum"]}
    return {
        "edition": "nec-2023",
        "premises": {"occupancy": "one-family", "charger_location": "indoors"},
        "supply": {"system": "split-phase-120-240"},
        "charger": {
            "charging_current_a": 48,
            "rated_current_a": 48,
            "connection": {"kind": "hardwired"},
            "terminals": lugs,
        },
        "breaker": {"terminals": lugs, "listed_for_panel": True},
        "conductors": {"material": "copper", "insulation": "THWN-2"},
        "run": list(run) or [segment()],
        **more,
    }


NO_WASTE: Json = {
    "cable_percent": 0,
    "cable_ends": {"value": 0, "unit": "ft"},
    "raceway_percent": 0,
    "fittings_percent": 0,
    "consumables_percent": 0,
}


def request(*run: Json, **more: Any) -> Json:
    """An estimate of that circuit in the open, without waste."""
    places = [{"segment": index, "condition": "open"} for index in range(len(run) or 1)]
    return {"circuit": circuit(*run), "site": {"segments": places}, "waste": NO_WASTE, **more}


conditions = st.sampled_from(("open", "finished-walls", "crawl-space", "attic", "masonry"))
percents = st.one_of(st.sampled_from((0, 5, 7.25, 100)), st.floats(0, 100).map(lambda value: round(value, 3)))


@st.composite
def sites(draw: st.DrawFn, segments: int) -> Json:
    """What a caller may state of a site; one segment beyond the run too."""
    places = draw(st.lists(st.integers(0, segments), max_size=4, unique=draw(st.booleans())))
    of_segment = some(
        {}, {"condition": conditions, "elbows": st.integers(0, 9), "pull_points": st.integers(0, 4)}
    )
    travel = st.fixed_dictionaries(
        {
            "distance": st.fixed_dictionaries(
                {
                    "value": st.floats(0.1, 500).map(lambda value: round(value, 1)),
                    "unit": st.sampled_from(("mi", "km")),
                }
            ),
            "trips": st.integers(1, 9),
        }
    )
    site: Json = {"segments": [{"segment": place, **draw(of_segment)} for place in places]}
    return {**site, **draw(some({}, {"travel": travel, "wall_patches": st.integers(0, 5)}))}


supplies = some(
    {},
    {
        "charger": st.sampled_from(("by-customer", "by-contractor")),
        "energy_management": st.booleans(),
        "meter_socket": st.booleans(),
        "submeter": st.booleans(),
        "panel": st.fixed_dictionaries({"rating_a": st.sampled_from((100, 200, 6000))}),
        "permit": st.booleans(),
        "paperwork": st.booleans(),
        "load_calculation": st.booleans(),
    },
)
wastes = some(
    {},
    {
        "cable_percent": percents,
        "cable_ends": st.sampled_from(({"value": 2, "unit": "m"}, {"value": 0, "unit": "ft"})),
        "raceway_percent": percents,
        "fittings_percent": percents,
        "consumables_percent": percents,
    },
)
trenches = some(
    {}, {"surface": st.sampled_from(("soil", "paving")), "by": st.sampled_from(("hand", "machine"))}
)
taxes = st.fixed_dictionaries(
    {
        "percent": percents,
        "on": st.lists(st.sampled_from(("material", "labour", "fee", "markup")), min_size=1, max_size=4),
    }
)
LENGTH_UNITS = ("ft", "10 ft", "100 ft", "1000 ft", "m", "3 m", "10 m", "100 m")


@st.composite
def price_books(draw: st.DrawFn, digits: int = 4, *, sound: bool = False) -> Json:
    """The demo book with other figures and units: some entries left out, and some that are no range."""
    # A thousand figures of one seed: drawing each would be more than an example holds.
    random = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    prices = {}
    for key, price in demo("price-book")["prices"].items():
        lot = random.random(3) if not sound else np.ones(3)
        if lot[0] < 0.02:
            continue
        figures = sorted(int(figure) for figure in random.integers(10 ** (digits + 3), size=3))
        if lot[1] < 0.02:
            figures.reverse()
        units = {"each": ("each",), "mi": ("mi", "km")}.get(price["unit"], LENGTH_UNITS)
        unit = units[random.integers(len(units))] if lot[2] >= 0.01 else "km"
        shown = [f"{figure // 10**digits}.{figure % 10**digits:0{digits}d}" for figure in figures]
        prices[key] = {"unit": unit, **dict(zip(ENDS, shown, strict=True))}
    # A labour table of the demo is in USD.
    currency = "USD" if sound else draw(st.sampled_from(("USD", "USD", "EUR", "JPY", "KWD", "XYZ", None)))
    return {"name": "A book", "currency": currency, "dated": "2026-01-31", "prices": prices}


@st.composite
def labour_tables(draw: st.DrawFn, *, sound: bool = False) -> Json:
    """The demo table with other hours, units, rate and factors: some left out, and some that are no range."""
    random = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))

    def three(greatest: float) -> list[float]:
        figures = sorted(round(float(figure), 3) for figure in random.random(3) * greatest + 0.01)
        return figures if sound or random.random() >= 0.03 else figures[::-1]

    tasks = {}
    for key, task in demo("labour-table")["tasks"].items():
        if not sound and random.random() < 0.02:
            continue
        units = {"each": ("each",), "mi": ("mi", "km")}.get(task["unit"], LENGTH_UNITS)
        unit = units[random.integers(len(units))]
        tasks[key] = {"unit": unit, **dict(zip((f"hours_{end}" for end in ENDS), three(20), strict=True))}
    factors = {
        name: dict(zip(ENDS, three(3), strict=True))
        for name in ("open", "finished-walls", "crawl-space", "attic", "masonry")
        if sound or random.random() >= 0.1
    }
    return {
        "name": "A table",
        "dated": "2026-01-31",
        "currency": "USD" if sound else draw(st.sampled_from(("USD", "EUR", "JPY", None))),
        "hourly_rate": {end: f"{figure:.3f}" for end, figure in zip(ENDS, three(200), strict=True)},
        "tasks": tasks,
        "condition_factors": draw(st.sampled_from((factors, factors, None))),
    }


@st.composite
def estimates(draw: st.DrawFn, *, usual: bool) -> Json:
    """Requests for estimates: of usual circuits with sound prices, or any that fit the schema."""
    of: Json = draw(usual_designs() if usual else st.one_of(usual_designs(), any_designs()))
    body = draw(
        some(
            {"circuit": st.just(of)},
            {
                "site": sites(len(of["run"])),
                "supplies": supplies,
                "trench": trenches,
                "waste": wastes,
                "tax": taxes,
                "markup_percent": st.one_of(st.sampled_from((0, 10, 1000)), percents),
            },
        )
    )
    if draw(st.sampled_from((True, True, False))):
        body["price_book"] = draw(price_books(sound=usual))
    if draw(st.booleans()):
        body["labour_table"] = draw(labour_tables(sound=usual))
    return {**body, "risk": {"seed": draw(st.integers(0, 2**32 - 1)), "draws": 100}}
