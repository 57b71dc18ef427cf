"""The spread of the total against the triangular distribution of another library and against closed formulas."""

from decimal import Decimal
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from tests.checks.circuits import Json
from tests.checks.effort import examples
from tests.checks.replay import demo
from tests.jobs.installation.estimates import by_key, estimated, money, request, segment

from branchwright.calculations.triangular import triangular_mean, triangular_quantiles

SCIPY = "scipy.stats.triang"
TEXTBOOK = "mean (a+b+c)/3, variance (a2+b2+c2-ab-ac-bc)/18 of a triangle; any textbook of statistics"

figures = st.lists(st.floats(0, 1e6), min_size=3, max_size=3).map(sorted)


@pytest.mark.source(SCIPY)
@examples(300)
@given(figures, st.lists(st.floats(0, 1), min_size=1, max_size=5))
def test_quantiles_are_those_of_scipy(ends: list[float], ranks: list[float]) -> None:
    low, likely, high = ends
    found = triangular_quantiles(low, likely, high, np.array(ranks))
    if high - low > 1e-6 * max(high, 1):
        expected = stats.triang.ppf(ranks, (likely - low) / (high - low), loc=low, scale=high - low)
        assert found == pytest.approx(expected, rel=1e-7, abs=1e-6 * (high - low))
    assert ((found >= low) & (found <= high)).all()


@pytest.mark.source(TEXTBOOK)
@pytest.mark.parametrize("ends", [(0, 1, 2), (10, 10, 40), (3, 9, 9), (5, 5, 5), (100, 120, 300)])
def test_mean_and_variance_of_many_draws(ends: tuple[float, float, float]) -> None:
    low, likely, high = ends
    drawn = triangular_quantiles(low, likely, high, np.random.default_rng(7).random(400_000))
    variance = (low * low + likely * likely + high * high - low * likely - low * high - likely * high) / 18
    assert triangular_mean(low, likely, high) == pytest.approx((low + likely + high) / 3)
    # Five standard errors of the mean, and as much room for the variance.
    assert drawn.mean() == pytest.approx(
        (low + likely + high) / 3, abs=5 * (variance / 400_000) ** 0.5 + 1e-12
    )
    assert drawn.var() == pytest.approx(variance, rel=0.01, abs=1e-12)


def fixed(entry: Json) -> Json:
    """The same entry without a spread."""
    names = ("low", "likely", "high") if "low" in entry else ("hours_low", "hours_likely", "hours_high")
    return {**entry, **dict.fromkeys(names, entry[names[1]])}


def book(**spread: tuple[str, str, str]) -> Json:
    """The demo book without a spread, save for the entries that are stated."""
    prices = {key: fixed(price) for key, price in demo("price-book")["prices"].items()}
    for key, ends in spread.items():
        prices[key] |= dict(zip(("low", "likely", "high"), ends, strict=True))
    return {"name": "One", "currency": "USD", "dated": "2026-01-31", "prices": prices}


def table() -> Json:
    """The demo table without a spread."""
    of = demo("labour-table")
    return {
        **of,
        "hourly_rate": fixed(of["hourly_rate"]),
        "tasks": {key: fixed(task) for key, task in of["tasks"].items()},
        "condition_factors": {name: fixed(one) for name, one in of["condition_factors"].items()},
    }


BREAKER = "breaker/60 A/2-pole"


def asked(risk: Json, **more: Any) -> Json:
    return estimated(request(segment(40), labour_table=table(), risk=risk, **more))


@pytest.mark.source(SCIPY)
def test_the_spread_of_a_single_line() -> None:
    """Only the breaker's price is spread, so the total is as it is, moved by all the rest."""
    ends = ("100", "140", "400")
    answer = asked({"seed": 20261101, "draws": 20_000}, price_book=book(**{BREAKER: ends}))
    low, likely, high = (float(end) for end in ends)
    rest = float(answer["totals"]["total"]["likely"]) - likely
    shape = stats.triang((likely - low) / (high - low), loc=low + rest, scale=high - low)
    for name, share in (("p10", 0.1), ("p50", 0.5), ("p90", 0.9)):
        # Standard error of a quantile: root of p (1 - p) / n over the density there; five of them.
        quantile = shape.ppf(share)
        error = (share * (1 - share) / 20_000) ** 0.5 / shape.pdf(quantile)
        assert float(answer["risk"][name]) == pytest.approx(quantile, abs=5 * error + 0.01)
    assert float(answer["risk"]["mean"]) == pytest.approx(shape.mean(), abs=0.01)


@pytest.mark.source(TEXTBOOK)
def test_the_spread_of_two_materials_is_that_of_independent_ones() -> None:
    """Markup and tax are percentages of what is drawn; two triangles alike have half the variance in common."""
    spread = {BREAKER: ("0", "100", "200"), "raceway/emt/3/4": ("0", "25", "50")}
    answer = asked({"draws": 20_000}, price_book=book(**spread), markup_percent=50)
    # Four sticks: 0, 100, 200 too. The sum of two like symmetric triangles is a bell with variance 2 * 200^2 / 24.
    rest = float(answer["totals"]["total"]["low"])
    deviation = 1.5 * (2 * 200**2 / 24) ** 0.5
    assert float(answer["risk"]["p50"]) == pytest.approx(rest + 1.5 * 200, abs=3)
    wide = float(answer["risk"]["p90"]) - float(answer["risk"]["p10"])
    assert wide == pytest.approx(2 * 1.2816 * deviation, rel=0.03)


@pytest.mark.source("what moves together has the sum of the deviations; by hand")
def test_hours_of_all_tasks_move_together() -> None:
    """Two tasks of 0 to 10 h at one rate: their total is spread as one task of 0 to 20 h."""
    of = table()
    for task in ("breaker", "charger/hardwired"):
        of["tasks"][task] |= {"hours_low": 0.0, "hours_likely": 5.0, "hours_high": 10.0}
    of["hourly_rate"] = {"low": "100.00", "likely": "100.00", "high": "100.00"}
    answer = estimated(
        request(segment(40), price_book=book(), labour_table=of, risk={"seed": 3, "draws": 20_000})
    )
    low = float(answer["totals"]["total"]["low"])
    shape = stats.triang(0.5, loc=low, scale=2000)
    for name, share in (("p10", 0.1), ("p50", 0.5), ("p90", 0.9)):
        assert float(answer["risk"][name]) == pytest.approx(shape.ppf(share), abs=15)


@pytest.mark.source(TEXTBOOK)
def test_the_mean_of_a_whole_estimate() -> None:
    """A third of low, likely and high for material and fees; means of hours and rate, independent, multiply."""
    tax: Json = {"percent": 8, "on": ["material", "markup"]}
    answer = estimated(request(segment(40), supplies={"permit": True}, markup_percent=20, tax=tax))

    def third(amounts: list[Decimal]) -> Decimal:
        return sum(amounts, Decimal(0)) / 3

    material = third(money(answer["totals"]["material"]))
    fees = third(money(answer["totals"]["fees"]))
    hours = third([Decimal(repr(answer["hours"][end])) for end in ("low", "likely", "high")])
    labour = hours * third(money(answer["labour_table"]["hourly_rate"]))
    markup = (material + fees + labour) / 5
    expected = material + fees + labour + markup + (material + markup) * Decimal("0.08")
    assert Decimal(answer["risk"]["mean"]) == pytest.approx(expected, abs=Decimal("0.006"))


def test_a_seed_repeats_its_figures_and_is_stated() -> None:
    first, again = asked({"seed": 5, "draws": 1000}), asked({"seed": 5, "draws": 1000})
    assert first["risk"] == again["risk"]
    assert (first["risk"]["seed"], first["risk"]["draws"]) == (5, 1000)
    assert asked({"seed": 6, "draws": 1000})["risk"]["p50"] != first["risk"]["p50"]
    usual = estimated(request(segment(40)))
    assert (usual["risk"]["seed"], usual["risk"]["draws"]) == (1, 10_000)
    assert usual["risk"] == estimated(request(segment(40), risk={"seed": 1, "draws": 10_000}))["risk"]


def test_ranks_belong_to_keys_and_not_to_places() -> None:
    """One line more does not draw the others afresh: the totals move by its fixed price alone."""
    prices = book(**{BREAKER: ("100", "140", "400")})
    less = asked({"draws": 2000}, price_book=prices)
    more = asked({"draws": 2000}, price_book=prices, supplies={"charger": "by-contractor"})
    charger = Decimal(by_key(more)["charger/48 A/hardwired"]["amount"]["likely"])
    for name in ("p10", "p50", "p90", "mean"):
        assert Decimal(more["risk"][name]) - Decimal(less["risk"][name]) == charger


@examples(30)
@given(st.integers(0, 2**32 - 1))
def test_percentiles_rise_within_the_totals(seed: int) -> None:
    answer = estimated(request(segment(40), risk={"seed": seed, "draws": 100}))
    total = answer["totals"]["total"]
    found = [total["low"], *(answer["risk"][name] for name in ("p10", "p50", "p90")), total["high"]]
    assert all(Decimal(one) <= Decimal(other) for one, other in pairwise(found))
