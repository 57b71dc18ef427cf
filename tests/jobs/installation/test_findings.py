"""What is wrong with a request that fits the schema is a finding that names place and values; nothing is patched."""

import json
from typing import Any

import pytest
from pydantic import ValidationError
from tests.checks.circuits import Json, designed
from tests.checks.replay import at_pointer, demo
from tests.jobs.installation.estimates import by_key, estimated, findings, request, segment

from branchwright.jobs.installation import RULES, InstallationEstimateRequest

WIRE = "conductor/copper/THWN-2/6 AWG"
BREAKER = "breaker/60 A/2-pole"


def book(currency: str | None = "USD", **prices: Json) -> Json:
    return {
        "name": "A book",
        "currency": currency,
        "dated": "2026-01-31",
        "prices": {**demo("price-book")["prices"], **prices},
    }


def price(low: str = "1", likely: str = "2", high: str = "3", unit: str = "each") -> Json:
    return {"unit": unit, "low": low, "likely": likely, "high": high}


def judged(rule: str, **more: Any) -> Json:
    return findings(estimated(request(segment(40), **more)))[rule]


def test_a_sound_request_has_no_failure() -> None:
    answer = estimated(request(segment(40)))
    assert answer["verdict"] == "no-failure-found"
    assert list(findings(answer)) == [rule.name for rule in RULES]
    assert {item["outcome"] for item in findings(answer).values()} == {"pass", "not-applicable"}
    assert answer["totals"]["is_complete"] is True
    assert answer["price_book"]["is_demo"] and answer["labour_table"]["is_demo"]
    assert any("invented" in caution for caution in answer["cautions"])


def test_a_circuit_without_a_design() -> None:
    asked = request(segment(40))
    asked["circuit"]["charger"] |= {"charging_current_a": 900, "rated_current_a": 900}
    answer = estimated(asked)
    finding = findings(answer)["estimate-circuit"]
    assert (answer["verdict"], finding["outcome"], finding["pointer"]) == ("fail", "fail", "/circuit")
    failing = {item["rule"] for item in designed(asked["circuit"])["findings"] if item["outcome"] == "fail"}
    assert failing
    assert failing <= {item["rule"] for item in answer["findings"] if item["outcome"] == "fail"}
    assert any(rule in finding["message"] for rule in failing)
    assert (answer["design"], answer["lines"], answer["totals"], answer["hours"]) == (None, [], None, None)


def test_the_circuits_findings_stand_under_its_place() -> None:
    asked = request(segment(40))
    del asked["circuit"]["breaker"]["listed_for_panel"]
    answer = estimated(asked)
    finding = next(item for item in answer["findings"] if item["rule"] == "breaker-listed-for-panel")
    assert (finding["outcome"], finding["pointer"]) == ("undetermined", "/circuit/breaker/listed_for_panel")
    assert findings(answer)["estimate-circuit"]["outcome"] == "undetermined"
    assert answer["verdict"] == "undetermined"
    assert answer["totals"] is not None


@pytest.mark.parametrize(
    ("places", "pointer", "provided"),
    [
        ([{"segment": 1, "condition": "open"}], "/site/segments/0/segment", 1),
        ([{"segment": 0}, {"segment": 0}], "/site/segments/1/segment", "segment 0 twice"),
    ],
)
def test_a_site_that_does_not_fit_the_run(places: list[Json], pointer: str, provided: object) -> None:
    finding = judged("estimate-site", site={"segments": places})
    assert (finding["outcome"], finding["pointer"]) == ("fail", pointer)
    assert finding["provided"]["value"] == provided


def test_a_cable_has_no_elbows() -> None:
    cable = segment(40, wiring_method="nm-b")
    site = {"segments": [{"segment": 0, "condition": "open", "elbows": 2}]}
    answer = estimated(request(cable, site=site))
    finding = findings(answer)["estimate-site"]
    assert (finding["outcome"], finding["pointer"]) == ("fail", "/site/segments/0/elbows")
    assert not [key for key in by_key(answer) if key and key.startswith("elbow")]


def test_a_condition_that_is_not_stated() -> None:
    answer = estimated(request(segment(40), segment(20), site={"segments": [{"segment": 0}]}))
    finding = findings(answer)["estimate-conditions"]
    assert finding["outcome"] == "undetermined"
    assert "0, 1" in finding["message"]
    stated = {item["pointer"] for item in answer["to_verify"]}
    assert {"/site/segments/0/condition", "/site/segments"} <= stated


def test_prices_that_do_not_rise_are_not_used() -> None:
    prices = book(**{BREAKER: price("3", "2", "4"), WIRE: price("1", "2", "1.5", "ft")})
    answer = estimated(request(segment(40), price_book=prices))
    finding = findings(answer)["estimate-ranges"]
    assert finding["outcome"] == "fail"
    assert at_pointer({"price_book": prices}, finding["pointer"]) in (
        prices["prices"][BREAKER],
        prices["prices"][WIRE],
    )
    assert by_key(answer)[BREAKER]["amount"] is None and by_key(answer)[WIRE]["amount"] is None
    priced = findings(answer)["estimate-priced"]
    assert priced["outcome"] == "undetermined"
    assert BREAKER in priced["message"] and WIRE in priced["message"]
    assert answer["totals"]["is_complete"] is False


@pytest.mark.parametrize(
    ("changed", "pointer"),
    [
        ({"hourly_rate": {"low": "9", "likely": "8", "high": "10"}}, "/labour_table/hourly_rate"),
        (
            {"condition_factors": {"open": {"low": 2, "likely": 1, "high": 1}}},
            "/labour_table/condition_factors/open",
        ),
        (
            {"tasks": {"breaker": {"unit": "each", "hours_low": 2, "hours_likely": 1, "hours_high": 3}}},
            "/labour_table/tasks/breaker",
        ),
    ],
)
def test_hours_that_do_not_rise_are_not_used(changed: Json, pointer: str) -> None:
    answer = estimated(request(segment(40), labour_table={**demo("labour-table"), **changed}))
    finding = findings(answer)["estimate-ranges"]
    assert (finding["outcome"], finding["pointer"]) == ("fail", pointer)
    assert answer["totals"]["is_complete"] is False


def test_a_unit_that_does_not_fit() -> None:
    prices = book(**{WIRE: price(unit="each")})
    answer = estimated(request(segment(40), price_book=prices))
    finding = findings(answer)["estimate-units"]
    assert finding["outcome"] == "fail"
    assert at_pointer({"price_book": prices}, finding["pointer"]) == "each"
    assert "ft" in finding["required"]["value"]
    assert by_key(answer)[WIRE]["amount"] is None


def test_a_key_that_no_estimate_asks_for() -> None:
    finding = judged("estimate-keys", price_book=book(**{"conductor/copper/THWN2/6 AWG": price()}))
    assert (finding["outcome"], finding["force"]) == ("fail", "recommendation")
    assert f"did you mean {WIRE}?" in finding["message"]
    assert finding["pointer"] == "/price_book/prices/conductor~1copper~1THWN2~16 AWG"


def test_a_missing_price_is_named_and_nothing_stands_in_for_it() -> None:
    prices = book()
    del prices["prices"][WIRE]
    answer = estimated(request(segment(40), price_book=prices))
    finding = findings(answer)["estimate-priced"]
    assert (finding["outcome"], finding["pointer"]) == ("undetermined", "/price_book/prices")
    assert WIRE in finding["message"]
    line = by_key(answer)[WIRE]
    assert (line["unit_price"], line["amount"], line["quantity"]) == (None, None, 80)
    assert answer["verdict"] == "undetermined"


def test_a_factor_that_is_missing_leaves_its_hours_open() -> None:
    table = {**demo("labour-table"), "condition_factors": {"attic": {"low": 1, "likely": 1, "high": 1}}}
    answer = estimated(request(segment(40), labour_table=table))
    line = by_key(answer, "labour")["raceway/emt/3/4"]
    assert (line["hours"], line["amount"]) == (None, None)
    assert "condition_factors/open" in findings(answer)["estimate-priced"]["message"]


def test_no_factors_at_all_are_to_be_verified() -> None:
    table = {name: value for name, value in demo("labour-table").items() if name != "condition_factors"}
    answer = estimated(request(segment(40), labour_table=table))
    assert by_key(answer, "labour")["raceway/emt/3/4"]["hours"]["likely"] == 2.2
    assert "/labour_table/condition_factors" in {item["pointer"] for item in answer["to_verify"]}


def test_two_currencies_are_not_added() -> None:
    answer = estimated(request(segment(40), price_book=book("EUR")))
    finding = findings(answer)["estimate-currency"]
    assert (finding["outcome"], finding["pointer"]) == ("fail", "/labour_table")
    assert (finding["required"]["value"], finding["provided"]["value"]) == (["EUR"], "USD")
    assert answer["totals"]["labour"] == {"low": "0.00", "likely": "0.00", "high": "0.00"}
    assert answer["totals"]["is_complete"] is False
    assert answer["hours"] is not None


def test_a_currency_that_is_missing_or_unknown() -> None:
    missing = estimated(request(segment(40), price_book=book(None)))
    assert findings(missing)["estimate-currency"]["outcome"] == "undetermined"
    assert missing["totals"]["currency"] is None
    assert judged("estimate-currency", price_book=book("XYZ"))["outcome"] == "fail"


@pytest.mark.source("ISO 4217: the yen has no smaller unit, the dinar of Kuwait a thousandth")
@pytest.mark.parametrize(("currency", "digits"), [("JPY", 0), ("KWD", 3)])
def test_amounts_have_the_digits_of_their_currency(currency: str, digits: int) -> None:
    table = {**demo("labour-table"), "currency": currency}
    answer = estimated(request(segment(40), price_book=book(currency), labour_table=table))
    for line in answer["lines"]:
        assert len(line["amount"]["likely"].partition(".")[2]) == digits


def test_a_date_of_no_calendar() -> None:
    finding = judged("estimate-dates", price_book={**book(), "dated": "2026-02-30"})
    assert (finding["outcome"], finding["pointer"]) == ("fail", "/price_book/dated")


def test_a_depth_and_a_charger_that_have_no_price() -> None:
    deep = segment(
        30,
        wiring_method="pvc-40",
        location="wet",
        underground={"under": "soil", "cover": {"value": 9, "unit": "ft"}},
    )
    trench = {"surface": "soil", "by": "hand"}
    answer = estimated(request(deep, trench=trench))
    finding = findings(answer)["estimate-trench"]
    assert (finding["outcome"], finding["provided"]["value"]) == ("fail", 108)
    assert finding["pointer"] == "/circuit/run/0/underground/cover"


def test_exclusions_name_what_was_not_ordered() -> None:
    nothing = estimated(request(segment(40)))["exclusions"]
    ordered = estimated(
        request(
            segment(40),
            supplies={"charger": "by-contractor", "permit": True},
            tax={"percent": 8, "on": ["material"]},
        )
    )["exclusions"]
    gone = set(nothing) - set(ordered)
    assert gone == {
        "the charger itself, which the customer brings",
        "the permit and its inspection",
        "taxes",
    }


def test_every_rule_explains_itself() -> None:
    for rule in RULES:
        assert rule.name.startswith("estimate-")
        for part in ("Applies:", "Rests on:", "Missing facts:"):
            assert part in rule.prose


@pytest.mark.parametrize(
    "changed",
    [
        {"markup_percent": -1},
        {"tax": {"percent": "8", "on": ["material"]}},
        {"tax": {"percent": 8, "on": []}},
        {"risk": {"seed": -1}},
        {"risk": {"draws": 20_001}},
        {"price_book": {**book(), "prices": {BREAKER: {**price(), "low": 1}}}},
        {"price_book": {**book(), "prices": {BREAKER: price(low="-1")}}},
        {"price_book": {**book(), "prices": {BREAKER: price(low="1e3")}}},
        {"price_book": {**book(), "prices": {BREAKER: price(unit="yard")}}},
        {"price_book": {**book(), "dated": "yesterday"}},
        {"site": {"segments": [{"segment": 0, "condition": "underwater"}]}},
    ],
)
def test_what_breaks_the_schema_is_refused(changed: Json) -> None:
    with pytest.raises(ValidationError):
        InstallationEstimateRequest.model_validate_json(json.dumps({**request(segment(40)), **changed}))
