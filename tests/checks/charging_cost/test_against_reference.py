"""Bills of random tariffs against a second pricing in plain Python, interval by interval.

A quantity of ours has six digits after the point, so that an amount which is not rounded may differ by what lies below
them. What both leave open is settled as the descriptions of the request say: an amount for a month, an allowance and a
demand of a season that splits a month count by its days.
"""

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.charging_cost.asked_bills import Asked
from tests.checks.charging_cost.reference_pricing import Bill, Reference
from tests.checks.charging_cost.strategies import FLOWS, Drawn, Flows, drawn_tariffs
from tests.checks.effort import examples

REFERENCE = pytest.mark.source("a second implementation, written from the description of a tariff alone")

UNNAMED = ("energy", "export", "critical-peak", "minimum-bill")
"""Kinds of lines whose name is the engine's to give."""

Key = tuple[str, str | None, str | None, str | None, int | None]
Sums = dict[Key, tuple[Fraction, Fraction]]
"""Quantity and amount by what a line is for."""


def key_of(kind: str, name: str, season: str | None, period: str | None, tier: int | None) -> Key:
    if kind in ("critical-peak", "minimum-bill"):
        return kind, None, None, None, None
    return kind, None if kind in UNNAMED else name, season, period, tier


def our_sums(bill: Any) -> Sums:
    quantities: Counter[Key] = Counter()
    amounts: Counter[Key] = Counter()
    for line in bill.lines:
        key = key_of(line.kind, line.name, line.season, line.period, line.tier)
        quantities[key] += Fraction(line.quantity)
        amounts[key] += Fraction(line.amount)
    return {key: (quantities[key], amounts[key]) for key in quantities}


def their_sums(bill: Bill) -> Sums:
    quantities: Counter[Key] = Counter()
    amounts: Counter[Key] = Counter()
    for named, line in bill.lines.items():
        key = key_of(*named)
        quantities[key] += line.quantity
        amounts[key] += line.amount
    return {key: (quantities[key], amounts[key]) for key in quantities}


NEAR_QUANTITY = Fraction(1, 10**4)
NEAR_AMOUNT = Fraction(1, 10**4)


@REFERENCE
@examples(20)
@given(drawn_tariffs(), FLOWS, st.sampled_from(["whole-house", "own-meter", "submeter"]))
def test_every_line_of_every_month(drawn: Drawn, flows: Flows, arrangement: str) -> None:
    plain = Reference(drawn.tariff, drawn.year, drawn.step_minutes, drawn.first_month)
    net = flows.kwh(len(plain.intervals))
    ours = Asked(drawn.tariff, drawn.year, drawn.step_minutes, drawn.first_month).bill(net, arrangement)
    for month, theirs in zip(ours.months, plain.bills(net, arrangement), strict=True):
        assert month.month == theirs.month
        found, expected = our_sums(month), their_sums(theirs)
        assert set(found) == set(expected)
        for key, (quantity, amount) in expected.items():
            assert abs(found[key][0] - quantity) <= NEAR_QUANTITY, key
            assert abs(found[key][1] - amount) <= NEAR_AMOUNT, key
        assert abs(Fraction(month.total) - theirs.total) <= NEAR_AMOUNT
