"""The questions about money over HTTP: shown examples work, a year is that of a pencil, and money is text."""

from typing import Any, Final

import pytest

from branchwright.http_api.v1 import cost_examples

SHOWN = [
    pytest.param(path, value["value"], id=name)
    for path, shown in (
        ("/v1/tariff-reviews", cost_examples.TARIFF_REVIEWS),
        ("/v1/charging-cost-comparisons", cost_examples.CHARGING_COMPARISONS),
        ("/v1/installation-estimates", cost_examples.ESTIMATES),
    )
    for name, value in shown.items()
]
VERDICTS = {
    # An hour without a price, and a book of a few prices that leaves the other lines unpriced.
    id(cost_examples.GAP): "fail",
    id(cost_examples.OWN_PRICES): "undetermined",
}
PRICE: Final[dict[str, Any]] = {
    "name": "one price",
    "currency": "USD",
    "time_zone": "America/Denver",
    "energy_rates": [
        {"period": "all", "from": "00:00", "to": "00:00", "tiers": [{"up_to_kwh": None, "per_kwh": "0.15"}]}
    ],
}
MONDAYS: Final[dict[str, Any]] = {
    "tariffs": [PRICE],
    "year": 2027,
    "house_load": {"kind": "none"},
    "charging": {
        "energy_need": {"kind": "energy", "basis": "wall", "kwh_by_weekday": {"mon": 10}},
        "charger": {"charging_current_a": 32, "voltage_v": 240},
        "arrival": "18:00",
        "departure": "07:00",
    },
    "schedules": [{"kind": "on-arrival"}, {"kind": "least-cost"}],
}


@pytest.mark.parametrize(("path", "body"), SHOWN)
def test_every_shown_example_is_answered(client, path, body):
    answer = client.post(path, json=body)
    assert answer.status_code == 200, answer.text
    assert answer.json()["verdict"] == VERDICTS.get(id(body), "no-failure-found")


@pytest.mark.source("worked by hand: 52 Mondays of 2027 x 10 kWh x 0.15")
def test_one_price_costs_the_same_by_every_schedule(client):
    options = client.post("/v1/charging-cost-comparisons", json=MONDAYS).json()["options"]
    assert [each["annual"]["charging"] for each in options] == ["78.00", "78.00"]
    assert [each["charged_kwh"] for each in options] == [520.0, 520.0]


@pytest.mark.parametrize("amount", [0.15, 15, "1e-1", "0,15", "", "NaN", "-0.15.1", "9" * 60])
def test_money_that_is_no_decimal_text_is_refused_by_its_place(client, amount):
    rate = {**PRICE["energy_rates"][0], "tiers": [{"up_to_kwh": None, "per_kwh": amount}]}
    answer = client.post(
        "/v1/tariff-reviews", json={"tariff": {**PRICE, "energy_rates": [rate]}, "year": 2027}
    )
    assert answer.status_code == 422
    assert [each["pointer"] for each in answer.json()["errors"]] == ["/tariff/energy_rates/0/tiers/0/per_kwh"]


def test_too_many_bills_are_a_finding_and_soon_said(client):
    asked = {**MONDAYS, "tariffs": [{**PRICE, "name": f"tariff {at}"} for at in range(20)]}
    asked["schedules"] = [{"kind": "on-arrival", "name": f"schedule {at}"} for at in range(10)]
    answer = client.post("/v1/charging-cost-comparisons", json=asked)
    assert answer.status_code == 200
    failed = {each["rule"] for each in answer.json()["findings"] if each["outcome"] == "fail"}
    assert failed == {"charging-comparison-size"}
    assert answer.json()["options"] == []
