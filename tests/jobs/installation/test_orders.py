"""What an order, a default or a unit does to an estimate, by hand."""

from decimal import Decimal
from typing import Any

import pytest
from scipy import stats
from tests.checks.circuits import Json
from tests.checks.replay import demo
from tests.jobs.installation.estimates import by_key, estimated, findings, quantities, request, segment
from tests.jobs.installation.test_spread import BREAKER, book, table

MARKED = {"temperature_rating_c": 75, "materials": ["copper"]}


def charged(current: float, rated: float, **more: Any) -> Json:
    """An estimate of a charger that is set to a current of its rated one."""
    asked = request(segment(40), **more)
    asked["circuit"]["charger"] |= {
        "charging_current_a": current,
        "rated_current_a": rated,
        "setting_access": "restricted",
    }
    return asked


@pytest.mark.source("NFPA 70:2023, 625.43: a disconnecting means for chargers of more than 60 A")
def test_a_disconnect_that_is_asked_for_is_counted_once() -> None:
    asked = charged(80, 80)
    assert quantities(estimated(asked))["disconnect/100 A/2-pole"] == 1
    asked["circuit"]["points"] = [
        {"after_segment": 0, "kind": "disconnect", "rating_a": 200, "terminals": MARKED}
    ]
    found = [key for key in quantities(estimated(asked)) if key and key.startswith("disconnect/")]
    assert found == ["disconnect/200 A/2-pole"]


def test_a_charger_is_bought_by_its_rating_and_not_by_its_setting() -> None:
    found = quantities(estimated(charged(48, 80, supplies={"charger": "by-contractor"})))
    assert found["charger/80 A/hardwired"] == 1


def test_a_sleeve_is_a_raceway() -> None:
    sleeve = segment(20, wiring_method="nm-b", sleeve_method="emt", raceway_trade_size="1-1/4")
    sleeve["cable"] = {"outside_diameter": {"value": 0.7, "unit": "in"}, "grounding_size": "8 AWG"}
    found = quantities(estimated(request(sleeve)))
    assert found["raceway/emt/1-1/4"] == 2
    assert found["cable/nm-b/copper/4 AWG/2-conductor"] == 20


@pytest.mark.source(
    "the middle of what is usual: 5 to 10 % of cable and raceway, 2 to 3 m of ends, 10 to 20 %, 2 to 5 %"
)
def test_what_is_not_stated_is_the_middle_of_what_is_usual() -> None:
    stated = {
        "cable_percent": 7.5,
        "cable_ends": {"value": 2.5, "unit": "m"},
        "raceway_percent": 7.5,
        "fittings_percent": 15,
        "consumables_percent": 3.5,
    }
    usual = request(segment(137))
    del usual["waste"], usual["site"]
    assert estimated(usual)["lines"] != estimated(request(segment(137)))["lines"]
    amounts = [
        [(line["key"], line["quantity"], line["hours"], line["amount"]) for line in estimated(body)["lines"]]
        for body in (usual, request(segment(137), waste=stated))
    ]
    assert amounts[0] == amounts[1]


def test_small_parts_are_reckoned_on_material_save_the_charger() -> None:
    waste = {**request()["waste"], "consumables_percent": 10}
    answer = estimated(request(segment(40), waste=waste, supplies={"charger": "by-contractor"}))
    lines = by_key(answer)
    bearing = [line for key, line in lines.items() if key and not key.startswith("charger/")]
    material = sum((Decimal(line["amount"]["likely"]) for line in bearing), Decimal(0))
    assert abs(Decimal(lines[None]["amount"]["likely"]) - material / 10) <= Decimal("0.005")
    assert lines[None]["quantity"] == 10


@pytest.mark.source("the international mile is 1.609344 km exactly (NIST SP 811)")
@pytest.mark.parametrize(
    ("stated", "unit", "quantity"), [("mi", "km", 32.1869), ("km", "mi", 12.4274), ("km", "km", 20)]
)
def test_the_way_is_converted_exactly(stated: str, unit: str, quantity: float) -> None:
    prices = book()
    prices["prices"]["travel"]["unit"] = unit
    site = {
        "segments": [{"segment": 0, "condition": "open"}],
        "travel": {"distance": {"value": 10, "unit": stated}, "trips": 2},
    }
    answer = estimated(request(segment(40), site=site, price_book=prices))
    assert quantities(answer, "fee")["travel"] == quantity


@pytest.mark.source("scipy.stats.triang")
def test_small_parts_and_the_rate_are_drawn_too() -> None:
    waste = {**request()["waste"], "consumables_percent": 50}
    prices = book(**{BREAKER: ("0", "100", "200")})
    answer = estimated(
        request(segment(40), waste=waste, price_book=prices, labour_table=table(), risk={"draws": 20_000})
    )
    shape = stats.triang(0.5, loc=float(answer["totals"]["total"]["low"]), scale=300)
    for name, share in (("p10", 0.1), ("p90", 0.9)):
        assert float(answer["risk"][name]) == pytest.approx(shape.ppf(share), abs=4)
    rate = table() | {"hourly_rate": {"low": "50", "likely": "100", "high": "150"}}
    answer = estimated(request(segment(40), price_book=book(), labour_table=rate, risk={"draws": 20_000}))
    hours = answer["hours"]["likely"]
    low = float(answer["totals"]["total"]["low"])
    shape = stats.triang(0.5, loc=low, scale=100 * hours)
    for name, share in (("p10", 0.1), ("p90", 0.9)):
        assert float(answer["risk"][name]) == pytest.approx(shape.ppf(share), abs=1.5 * hours)


def test_a_currency_that_the_table_does_not_state_leaves_the_total_without_one() -> None:
    without = {name: value for name, value in demo("labour-table").items() if name != "currency"}
    answer = estimated(request(segment(40), labour_table=without))
    assert answer["totals"]["currency"] is None
    assert findings(answer)["estimate-currency"]["pointer"] == "/labour_table/currency"


def test_what_is_missing_is_named_once() -> None:
    """Every task of the estimate lacks the same hourly rate."""
    finding = findings(estimated(request(segment(40), price_book={**book(), "currency": "EUR"})))
    assert finding["estimate-priced"]["message"] == "There is no price, or no hours, for hourly_rate."


def test_a_run_under_a_building_has_no_trench_and_excludes_the_floor() -> None:
    floor = "opening floors and slabs above a run under a building"
    under = segment(20, wiring_method="pvc-40", location="wet", underground={"under": "building"})
    answer = estimated(request(under))
    assert floor in answer["exclusions"]
    assert findings(answer)["estimate-trench"]["outcome"] == "not-applicable"
    soil = segment(20, wiring_method="pvc-40", location="wet", underground={"under": "soil"})
    assert floor not in estimated(request(soil))["exclusions"]


def test_another_reading_has_the_verdict_of_the_whole_estimate() -> None:
    """What the estimate itself lacks stays lacking under every reading of the code."""
    asked = request(segment(40), price_book={**book(), "prices": {}})
    asked["circuit"]["charger"] |= {"charging_current_a": 40, "rated_current_a": 40}
    asked["circuit"]["premises"]["charger_location"] = "garage"
    answer = estimated(asked)
    assert answer["verdict"] == "undetermined"
    others = [other for item in answer["interpretations"] for other in item["other_readings"]]
    assert others
    assert all(other["verdict"] != "no-failure-found" for other in others)
