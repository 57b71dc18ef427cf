"""The cost of each current is the installation estimate of the same facts; without prices there is none."""

from decimal import Decimal
from typing import Any

from hypothesis import given
from tests.checks.circuits import Json
from tests.checks.effort import examples
from tests.checks.replay import demo
from tests.checks.strategies import some
from tests.jobs.comparisons import compared, comparisons
from tests.jobs.installation.estimates import estimated, price_books, sites, supplies, trenches, wastes
from tests.jobs.test_published_steps import request, tubing

from branchwright.jobs.current_comparison.costs import SHOWN_ELSEWHERE

JOB: Json = {
    "site": {"segments": [{"segment": 0, "condition": "attic"}]},
    "supplies": {"charger": "by-contractor", "permit": True},
    "markup_percent": 15,
    "tax": {"percent": 8, "on": ["material"]},
}
COST_FIELDS = ("price_book", "labour_table", "demo_prices", "job")


def estimate_at(asked: Json, current_a: float) -> Json:
    """The estimate of one row: the same facts with the charging current stated."""
    apart = ("currents_a", "night_h", *COST_FIELDS)
    circuit = {name: value for name, value in asked.items() if name not in apart}
    circuit["charger"] = {**asked["charger"], "charging_current_a": current_a}
    prices = {name: asked.get(name) for name in ("price_book", "labour_table")}
    return estimated({"circuit": circuit, "risk": {"draws": 100}, **prices, **(asked.get("job") or {})})


def holds_row_by_row(asked: Json) -> None:
    answer = compared(asked)
    lower: Decimal | None = None
    for row in answer["rows"]:
        of = estimate_at(asked, row["charging_current_a"])
        if of["totals"] is None:
            assert row["cost"] is None
            continue
        cost, likely = row["cost"], Decimal(of["totals"]["total"]["likely"])
        assert cost["total"] == of["totals"]["total"]
        assert cost["is_complete"] == of["totals"]["is_complete"] == (not cost["unpriced"])
        assert cost["currency"] == of["totals"]["currency"]
        more = cost["more_than_lower_current"]
        assert more is None if lower is None else Decimal(more) == likely - lower
        lower = likely
        for name in ("price_book", "labour_table"):
            assert answer[name] == of[name]


@examples(12)
@given(comparisons(usual=True), price_books(sound=True), some({}, {"site": sites(3), "supplies": supplies}))
def test_costs_of_usual_requests_are_estimates(asked: Json, book: Json, job: Json) -> None:
    holds_row_by_row({**asked, "price_book": book, "job": job})


@examples(12)
@given(
    comparisons(usual=False),
    price_books(),
    some({}, {"site": sites(3), "supplies": supplies, "waste": wastes, "trench": trenches}),
)
def test_costs_of_any_requests_are_estimates(asked: Json, book: Json, job: Json) -> None:
    holds_row_by_row({**asked, "price_book": book, "job": job})


def asked(**more: Any) -> Json:
    return request(tubing(40), currents_a=[16, 32, 48, 80], **more)


def test_without_prices_nothing_is_added() -> None:
    answer = compared(asked(job=JOB, labour_table=demo("labour-table")))
    plain = compared(asked())
    assert all(row["cost"] is None for row in answer["rows"])
    assert (answer["price_book"], answer["labour_table"], answer["exclusions"]) == (None, None, [])
    for name in ("rows", "cautions", "to_verify", "not_examined", "steps"):
        assert answer[name] == plain[name]


def test_the_demo_book_is_used_only_where_it_is_asked_for() -> None:
    answer = compared(asked(demo_prices=True, job=JOB))
    assert answer["price_book"]["is_demo"] is True
    assert any("invented" in caution for caution in answer["cautions"])
    assert all(row["cost"]["is_complete"] for row in answer["rows"])
    refused = compared(asked(demo_prices=False, job=JOB))
    assert all(row["cost"] is None for row in refused["rows"])


def test_larger_currents_of_the_same_run_cost_more() -> None:
    answer = compared(asked(demo_prices=True))
    likely = [Decimal(row["cost"]["total"]["likely"]) for row in answer["rows"]]
    assert likely == sorted(likely)
    assert answer["rows"][0]["cost"]["more_than_lower_current"] is None


def test_what_an_estimate_would_find_is_a_caution() -> None:
    site = {"segments": [{"segment": 7, "condition": "open"}]}
    answer = compared(asked(demo_prices=True, job={"site": site}))
    assert "estimate-site: The run has no segment 7; its last is 0." in answer["cautions"]
    assert not any(caution.startswith(tuple(SHOWN_ELSEWHERE)) for caution in answer["cautions"])
    assert "/job/site/segments" in {item["pointer"] for item in answer["to_verify"]}


def test_prices_that_are_missing_are_named_in_the_row() -> None:
    book = {"name": "Few", "currency": "USD", "dated": "2026-01-31", "prices": {}}
    row = compared(asked(price_book=book))["rows"][0]
    assert row["cost"]["is_complete"] is False
    assert "breaker/20 A/2-pole" in row["cost"]["unpriced"]
