"""Every step of a month's bill replayed from what the answer shows of it, and its end held against the bill."""

from dataclasses import asdict
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from tests.checks.charging_cost.asked_bills import Asked
from tests.checks.charging_cost.strategies import FLOWS, Drawn, Flows, drawn_tariffs
from tests.checks.charging_cost.tariffs.plain_tariffs import DAY, HALVES, NIGHT, always, asked, load
from tests.checks.effort import examples
from tests.checks.replay import replay

from branchwright.checks.charging_cost.tariffs.bill_steps import BillSteps, rounded_expression
from branchwright.checks.charging_cost.tariffs.quantity_steps import BillPlaces
from branchwright.checks.charging_cost.tariffs.worked_month import worked_month
from branchwright.questions.ledger import StepLedger

Json = dict[str, Any]

REPLAYED = pytest.mark.source("the steps' own expressions, evaluated by tests/checks/replay.py")


def as_shown(of: Asked, net_kwh: NDArray[np.float64], month: int, arrangement: str) -> tuple[Json, Any]:
    """Return the part of an answer that shows a month, as JSON, and the bill."""
    priced = of.priced()
    bill = priced.bill(net_kwh, arrangement).months[month]
    worked = worked_month(priced, net_kwh, month)
    ledger = StepLedger()
    BillSteps(
        ledger, priced, worked, bill, BillPlaces("house-", "/tariffs/0", "/no/meter", [0] * 31, 0)
    ).write()
    days = [
        {"date": date, "kwh_by_period": [asdict(each) for each in energies]}
        for date, energies in zip(worked.dates, worked.energies, strict=True)
    ]
    demands = [
        {"months": [{"month": name, "kw": kw} for name, kw in zip(each.months, each.kw, strict=True)]}
        for each in worked.demands
    ]
    steps = [asdict(step) for step in ledger.steps]
    for step in steps:
        for stated in step["inputs"].values():
            stated["from"] = stated.pop("origin")
    return {"worked_bill": {"days": days, "demands": demands}, "steps": steps}, bill


def amounts(answer: Json) -> dict[str, float]:
    return {step["id"]: step["value"] for step in answer["steps"]}


@REPLAYED
@examples(60)
@given(drawn_tariffs(), FLOWS, st.integers(0, 11), st.sampled_from(["whole-house", "own-meter"]))
def test_a_months_bill_replays_to_the_cent(drawn: Drawn, flows: Flows, month: int, arrangement: str) -> None:
    of = Asked(drawn.tariff, drawn.year, drawn.step_minutes, drawn.first_month)
    net_kwh = np.array(flows.kwh(of.priced().year.count))
    answer, bill = as_shown(of, net_kwh, month, arrangement)
    replay(answer, {"tariffs": [drawn.tariff]})
    found = amounts(answer)
    assert found["house-total"] == float(bill.total)
    for number, line in enumerate(bill.lines):
        assert found[f"house-line-{number + 1}"] == float(line.amount)


@pytest.mark.source("worked by hand")
def test_a_month_that_a_season_splits_shows_where_its_tier_ends() -> None:
    # Half of June: half of 300 kWh. 360 kWh are 150 at 0.10 and 210 at 0.20.
    tiers = [{"up_to_kwh": 300, "per_kwh": "0.10"}, {"up_to_kwh": None, "per_kwh": "0.20"}]
    late = {"period": "all-hours", "from": "00:00", "to": "00:00", "season": "second", "tiers": tiers}
    of = asked({**late, "season": "first", "tiers": tiers[1:]}, late, seasons=HALVES)
    answer, _ = as_shown(of, load(of, always(1.0)), 5, "whole-house")
    replay(answer, {"tariffs": [of.tariff]})
    steps = {step["id"]: step for step in answer["steps"]}
    assert steps["house-line-2-end-1"]["expression"] == "round(stated * 15 / 30, 6)"
    assert steps["house-line-2-end-1"]["value"] == 150.0
    assert steps["house-line-3-tier"]["value"] == 210.0
    assert steps["house-line-3"]["value"] == 42.0
    assert steps["house-total"]["value"] == 129.0


@pytest.mark.source("the pencil's reading of the answer: 12 hours of 1 kWh on each of 31 days")
def test_the_energy_of_each_date_is_shown_by_period() -> None:
    of = asked(DAY, NIGHT)
    answer, _ = as_shown(of, load(of, always(1.0)), 0, "whole-house")
    days = answer["worked_bill"]["days"]
    assert [day["date"] for day in days] == [f"2027-01-{day:02}" for day in range(1, 32)]
    for day in days:
        assert {each["period"]: each["taken_kwh"] for each in day["kwh_by_period"]} == {
            "day": 12.0,
            "night": 12.0,
        }


@pytest.mark.source("worked by hand")
def test_the_energy_of_events_is_shown_apart() -> None:
    # On the 6th 4 h at another price; on the 7th two events on top, one from 14 to 18 and one from 16 to 20, that
    # share two hours: 2 h of the first alone, 2 h of both, 2 h of the second alone. The rest of each day is plain.
    events = [
        {"date": "2027-01-06", "from": "14:00", "to": "18:00", "per_kwh": "1.00", "how": "instead"},
        {"date": "2027-01-07", "from": "14:00", "to": "18:00", "per_kwh": "0.50", "how": "added"},
        {"date": "2027-01-07", "from": "16:00", "to": "20:00", "per_kwh": "0.25", "how": "added"},
    ]
    of = asked(critical_peak_events=events)
    answer, bill = as_shown(of, load(of, always(1.0)), 0, "whole-house")
    replay(answer, {"tariffs": [of.tariff]})
    days = [
        sorted((str(each["critical_peak"]), each["taken_kwh"]) for each in day["kwh_by_period"])
        for day in answer["worked_bill"]["days"]
    ]
    assert days[4] == [("None", 24.0)]
    assert days[5] == [("None", 20.0), ("instead", 4.0)]
    assert days[6] == [("None", 18.0), ("added", 2.0), ("added", 2.0), ("added", 2.0)]
    assert [(line.kind, str(line.amount)) for line in bill.lines] == [
        ("energy", "74.00"),
        ("critical-peak", "4.00"),
        ("critical-peak", "2.00"),
        ("critical-peak", "1.00"),
    ]


@pytest.mark.source("worked by hand")
def test_a_demand_is_stated_in_kilowatts_with_those_before_it() -> None:
    # 10 kW in December hold January's 4 kW at 80 %: 8 kW at 2.00.
    charge = {
        "name": "demand",
        "per_kw": "2.00",
        "averaging_minutes": 60,
        "ratchet": {"percent": 80, "months": 1},
    }
    of = asked(demand_charges=[charge])
    at_noon = {1: 4.0, 12: 10.0}
    answer, _ = as_shown(
        of, load(of, lambda clock: at_noon.get(clock.month, 0.0) if clock.hour == 12 else 0.0), 0, "own-meter"
    )
    replay(answer, {"tariffs": [of.tariff]})
    step = next(step for step in answer["steps"] if step["id"] == "house-line-2-kw")
    assert {name: (each["value"], each["unit"]) for name, each in step["inputs"].items()} == {
        "measured": (4.0, "kW"),
        "before_1": (10.0, "kW"),
        "percent": (80.0, "%"),
    }
    assert (step["value"], step["unit"]) == (8.0, "kW")
    assert answer["worked_bill"]["demands"][0]["months"][1]["month"] == "2027-12"


@pytest.mark.source("worked by hand")
@pytest.mark.parametrize(
    ("digits", "half", "is_negative", "expected"),
    [
        (2, "up", False, "floor(round(a * 100, 9) + 0.5) / 100"),
        (0, "up", True, "-floor(round(a, 9) + 0.5)"),
        (3, "even", True, "-round(round(a * 1000, 9), 0) / 1000"),
    ],
)
def test_rounding_is_written_out(digits: int, half: Any, is_negative: bool, expected: str) -> None:
    assert rounded_expression("a", digits, half, is_negative=is_negative) == expected
