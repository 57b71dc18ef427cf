"""What holds of every answer to a comparison: steps that replay, sums that agree, finite numbers."""

import hashlib
from decimal import Decimal
from itertools import pairwise
from typing import Any

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.charging_cost.charging_comparison.comparisons import (
    WEEK,
    Json,
    by_clock,
    charging,
    compared,
    comparison,
    flat,
    separate_meter,
)
from tests.checks.charging_cost.strategies import drawn_tariffs
from tests.checks.effort import examples
from tests.checks.replay import replay
from tests.checks.test_every_answer import is_in_schema

from branchwright.checks.charging_cost.charging_comparison import ChargingComparisonRequest
from branchwright.codebook import revision

SCHEMA = ChargingComparisonRequest.model_json_schema(by_alias=True)

CLOCK = st.builds("{:02}:{:02}".format, st.integers(0, 23), st.integers(0, 59))
MONEY = st.sampled_from(["0", "0.5", "1200", "999999.99999999"])
HOURS = st.lists(st.sampled_from([0, 0.5, 3]), min_size=24, max_size=24)
PROFILES = st.fixed_dictionaries(
    {"hours": HOURS},
    optional={
        "weekend_hours": HOURS,
        "months": st.lists(st.sampled_from([0, 1, 2.5]), min_size=12, max_size=12),
    },
)
AMOUNTS = st.dictionaries(st.sampled_from(WEEK), st.sampled_from([0, 1e-9, 6, 45, 3000]))
NEED_OPTIONS = {
    "charging_efficiency": st.sampled_from([0.5, 0.9, 1]),
    "winter_factor_by_month": st.lists(st.sampled_from([0.1, 1, 1.3, 5]), min_size=12, max_size=12),
    "worst_day_factor": st.sampled_from([0.1, 1.6, 5]),
}
NEEDS = st.fixed_dictionaries(
    {
        "kind": st.just("energy"),
        "basis": st.sampled_from(["wall", "battery"]),
        "kwh_by_weekday": AMOUNTS,
    },
    optional=NEED_OPTIONS,
) | st.fixed_dictionaries(
    {
        "kind": st.just("distance"),
        "basis": st.sampled_from(["wall", "battery"]),
        "distance_by_weekday": AMOUNTS,
        "distance_unit": st.sampled_from(["mi", "km"]),
        "consumption": st.fixed_dictionaries(
            {
                "value": st.sampled_from([0.01, 0.3, 18, 1000]),
                "unit": st.sampled_from(["kWh/100 km", "kWh/100 mi", "kWh/km", "kWh/mi", "km/kWh", "mi/kWh"]),
            }
        ),
    },
    optional=NEED_OPTIONS,
)
WINDOWS = st.lists(st.fixed_dictionaries({"from": CLOCK, "to": CLOCK}), min_size=1, max_size=3)
SCHEDULES = st.lists(
    st.sampled_from([{"kind": "on-arrival"}, {"kind": "least-cost"}, {"kind": "solar-surplus-first"}])
    | st.fixed_dictionaries({"kind": st.just("timer"), "windows": WINDOWS}),
    min_size=1,
    max_size=3,
)
ARRANGEMENTS = st.lists(
    st.sampled_from(["whole-house", "own-meter", "submeter"]), min_size=1, max_size=3, unique=True
)
CHARGING = st.fixed_dictionaries(
    {
        "energy_need": NEEDS,
        "charger": st.fixed_dictionaries(
            {
                "charging_current_a": st.sampled_from([6, 24, 80]),
                "voltage_v": st.sampled_from([50, 240, 1000]),
            },
            optional={"phases": st.sampled_from([1, 3])},
        ),
        "arrival": CLOCK,
        "departure": CLOCK,
    },
    optional={
        "vehicle": st.fixed_dictionaries(
            {},
            optional={
                "battery_kwh": st.sampled_from([1e-6, 40, 2000]),
                "onboard_limit_a": st.sampled_from([6, 32, 1000]),
            },
        )
    },
)
OPTIONAL = {
    "generation": st.builds(
        lambda kwh, profile: {"kind": "annual-energy", "kwh_per_year": kwh, "profile": profile},
        st.sampled_from([0, 4000, 1e6]),
        PROFILES,
    ),
    "arrangements": ARRANGEMENTS,
    "house_tariff": st.sampled_from(["tariff 0", "tariff 1", "another"]),
    "separate_meter": st.fixed_dictionaries(
        {
            "installed_cost": MONEY,
            "monthly_charge": MONEY,
            "discount_rate_percent": st.sampled_from([0, 1e-300, 4.5, 100]),
        },
        optional={"years": st.sampled_from([1, 50])},
    ),
    "submeter": st.fixed_dictionaries({"installed_cost": MONEY, "monthly_charge": MONEY}),
    "worked_bill": st.fixed_dictionaries(
        {
            "tariff": st.sampled_from(["tariff 0", "tariff 1"]),
            "arrangement": st.sampled_from(["whole-house", "own-meter", "submeter"]),
            "schedule": st.sampled_from([0, 0, 1, 3]),
            "month": st.integers(1, 12),
        }
    ),
}
METER = {"installed_cost": "40", "monthly_charge": "0.5", "discount_rate_percent": 4.5, "years": 15}
HOUSES = st.just({"kind": "none"}) | st.builds(
    lambda kwh, profile: {"kind": "annual-energy", "kwh_per_year": kwh, "profile": profile},
    st.sampled_from([0, 9000, 1e6]),
    st.none() | PROFILES,
)


@st.composite
def any_comparison(draw: st.DrawFn) -> Json:
    """Any comparison of one or two drawn tariffs, which may serve some meters alone."""
    drawn = draw(drawn_tariffs())
    tariffs = []
    for place in range(draw(st.integers(1, 2))):
        tariff = {**(drawn.tariff if place == 0 else draw(drawn_tariffs()).tariff), "name": f"tariff {place}"}
        tariff |= {name: drawn.tariff[name] for name in ("currency", "time_zone", "country", "subdivision")}
        tariff["arrangements"] = draw(st.sampled_from([None, None, ["whole-house"]]) | ARRANGEMENTS)
        if tariff["arrangements"] is not None:
            tariff["fixed_charges"] = [{**each, "arrangements": None} for each in tariff["fixed_charges"]]
        if tariff["country"] is None:
            # What looks at holidays needs to know where they come from.
            tariff["observed_holidays"] = None
            tariff["day_types"] = [{**each, "holidays": "ignored"} for each in tariff["day_types"]]
        # Two events of one price are one group; dates of another year fail the tariff.
        tariff["critical_peak_events"] = [
            {**event, "date": event["date"].replace(event["date"][:4], str(drawn.year))}
            for event in tariff["critical_peak_events"]
        ]
        tariffs.append(tariff)
    asked: Json = {
        "tariffs": tariffs,
        "year": drawn.year,
        "house_load": draw(HOUSES),
        "charging": draw(CHARGING),
        "schedules": draw(SCHEDULES),
    }
    asked |= draw(st.fixed_dictionaries({}, optional=OPTIONAL))
    if draw(st.booleans()):
        asked |= {"arrangements": ["whole-house", "own-meter", "submeter"], "separate_meter": METER}
    if draw(st.booleans()):
        asked.pop("house_tariff", None)
    return asked


@examples(60)
@given(any_comparison())
def test_any_comparison_is_answered_in_full(asked: Json) -> None:
    answer = compared(asked)
    replay(answer, asked)
    agrees_with_its_findings(answer)
    agrees_with_itself(answer)
    assert answer["provenance"]["input_sha256"] == hashlib.sha256(rfc8785.dumps(asked)).hexdigest()
    assert answer["provenance"]["codebook_revision"] == revision()


def agrees_with_its_findings(answer: Json) -> None:
    required = [each["outcome"] for each in answer["findings"] if each["force"] == "requirement"]
    expected = (
        "fail" if "fail" in required else "undetermined" if "undetermined" in required else "no-failure-found"
    )
    assert answer["verdict"] == expected
    for each in answer["findings"]:
        assert each["message"].endswith((".", ")"))
        assert each["citation"] is None
        if each["pointer"] is not None:
            assert is_in_schema(each["pointer"], SCHEMA), each["pointer"]
    for each in answer["to_verify"]:
        assert is_in_schema(each["pointer"], SCHEMA), each["pointer"]


def agrees_with_itself(answer: Json) -> None:
    for place, each in enumerate(answer["options"], 1):
        annual = {name: Decimal(amount) for name, amount in each["annual"].items()}
        assert each["rank"] == place
        assert annual["charging"] == annual["with_charging"] - annual["without_charging"]
        assert sum(Decimal(month["total"]) for month in each["months"]) == annual["with_charging"]
        assert len(each["months"]) == 12
    keys = [(each["unmet_kwh"] > 0, Decimal(each["annual"]["with_charging"])) for each in answer["options"]]
    assert all(one <= other for one, other in pairwise(keys))
    worked = answer["worked_bill"]
    if worked is not None:
        option = answer["options"][worked["option"] - 1]
        (month,) = [each for each in option["months"] if each["month"] == worked["month"]]
        assert (month["lines"], month["total"]) == (worked["lines"], worked["total"])
        (total,) = [step for step in answer["steps"] if step["id"] == "total-of-month"]
        assert total["value"] == pytest.approx(float(worked["total"]))


@pytest.mark.source(
    "worked by hand: 31 nights of 10 kWh at 5 cents, a charge of 4 dollars, 10 percent of both in tax"
)
def test_the_worked_month_comes_out_to_the_cent() -> None:
    tariff = by_clock(
        fixed_charges=[{"name": "customer charge", "amount": "4", "per": "month"}],
        riders=[{"name": "tax", "percent": "10", "is_tax": True}],
        rounding=None,
    )
    wanted = {"tariff": "by clock", "arrangement": "whole-house", "schedule": 0, "month": 7}
    asked = comparison(tariff, schedules=[{"kind": "least-cost"}], worked_bill=wanted)
    answer = compared(asked)
    replay(answer, asked)
    worked = answer["worked_bill"]
    assert (worked["month"], worked["total"]) == ("2027-07", "21.45")
    assert [line["amount"] for line in worked["lines"]] == ["15.50", "4.00", "1.95"]
    assert [day["kwh_by_period"][0]["taken_kwh"] for day in worked["days"]] == pytest.approx([10] * 31)


@pytest.mark.source("the definition of a flat rate: every hour costs the same")
@examples(25)
@given(CHARGING)
def test_with_one_flat_rate_every_schedule_costs_the_same(drawn: Json) -> None:
    schedules = [
        {"kind": "on-arrival"},
        {"kind": "least-cost"},
        {"kind": "timer", "windows": [{"from": "00:00", "to": "00:00"}]},
    ]
    answer = compared(comparison(charging=drawn, schedules=schedules))
    costs = {float(each["annual"]["charging"]) for each in answer["options"]}
    # Nights over the end of a month may lie a little otherwise in its two bills, each of which is rounded.
    assert not costs or max(costs) - min(costs) <= 0.12


@pytest.mark.source("the definition of least cost")
@examples(25)
@given(any_comparison())
def test_least_cost_costs_no_more_than_charging_on_arrival(asked: Json) -> None:
    asked["schedules"] = [{"kind": "on-arrival"}, {"kind": "least-cost"}]
    for tariff in asked["tariffs"]:
        tariff["rounding"] = {"line": False}
    found: dict[tuple[str, str], dict[str, float]] = {}
    for each in compared(asked)["options"]:
        of = found.setdefault((each["tariff"], each["arrangement"]), {})
        of[each["schedule"]["kind"]] = float(each["annual"]["with_charging"])
    coin = {"USD": 0.01, "JPY": 1, "KWD": 0.001}[asked["tariffs"][0]["currency"]]
    for costs in found.values():
        assert costs["least-cost"] <= costs["on-arrival"] + 12 * coin


@pytest.mark.source("worked by hand: a kilowatt-hour costs what it costs, whoever asks")
@pytest.mark.parametrize("schedule", ["on-arrival", "least-cost"])
def test_a_dearer_rate_never_lowers_a_bill(schedule: str) -> None:
    costs = []
    for night in ("0.05", "0.08", "0.11", "0.21", "0.30"):
        answer = compared(comparison(by_clock(night=night), schedules=[{"kind": schedule}]))
        costs.append(float(answer["options"][0]["annual"]["with_charging"]))
    assert costs == sorted(costs)


def test_a_hundred_options_are_answered_at_once() -> None:
    tariffs: list[Any] = [flat(f"tariff {number}", f"0.{10 + number}") for number in range(10)]
    asked = comparison(
        *tariffs,
        schedules=[{"kind": "on-arrival"}, {"kind": "least-cost"}] * 2 + [{"kind": "on-arrival"}],
        arrangements=["whole-house", "own-meter"],
        separate_meter=separate_meter(),
        charging=charging(),
    )
    answer = compared(asked)
    assert len(answer["options"]) == 100
    replay(answer, asked)
