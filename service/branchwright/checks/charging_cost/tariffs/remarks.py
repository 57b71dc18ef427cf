"""What a review says beside its findings: what to verify, what was not examined, and the cautions."""

from collections.abc import Iterator
from typing import Final

from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.price_hours import looks_at_holidays
from branchwright.questions.answers import ToVerify
from branchwright.questions.remarks import CAUTIONS

SHEET: Final = "the tariff sheet in force, and its date"
PRICES: Final = (
    "Prices are those that were stated; the utility's tariff sheet and its bills govern, and both change."
)
NOT_EXAMINED: Final = [
    "whether a utility charges these prices, and to whom",
    "demand charges, fixed charges, a minimum bill and tiers beyond the first in the price of an hour",
    "what a house or a vehicle pays in a year: POST /v1/charging-cost-comparisons asks",
    "changes of the prices within the year, unless they are stated as seasons",
]


def cautions() -> list[str]:
    """Return the cautions of every review."""
    return [PRICES, *CAUTIONS]


def to_verify(tariff: Tariff, prefix: str) -> list[ToVerify]:
    """Return what was merely declared of a tariff, or assumed where nothing was stated.

    Args:
        tariff: the tariff.
        prefix: JSON pointer of the tariff in the request.
    """
    found = [ToVerify(prefix, tariff.name, SHEET)]
    found += [
        ToVerify(prefix + place, f"not stated, taken as {taken}", evidence)
        for place, taken, evidence in (
            *_of_holidays(tariff),
            *_of_tiers(tariff),
            *_of_riders_and_credits(tariff),
            *_of_rounding(tariff),
        )
    ]
    return found


Assumed = tuple[str, str, str]
"""The place within the tariff, what was assumed there, and where it can be seen."""


def _of_holidays(tariff: Tariff) -> Iterator[Assumed]:
    clause = "what the tariff sheet says of holidays"
    if looks_at_holidays(tariff) and tariff.country is not None:
        if tariff.observed_holidays is None:
            yield "/observed_holidays", "both the holiday and the day on which it is observed", clause
        if tariff.holiday_names is None:
            yield "/holiday_names", "every public holiday of the place", clause
    for at, day_type in enumerate(tariff.day_types):
        if day_type.holidays is None:
            yield f"/day_types/{at}/holidays", "ignored", clause


def _of_tiers(tariff: Tariff) -> Iterator[Assumed]:
    rows = [
        (f"/energy_rates/{at}", rate.tiers, rate.allowance_per) for at, rate in enumerate(tariff.energy_rates)
    ]
    rows += [
        (f"/tiers_on_all_energy/{at}", adder.tiers, adder.allowance_per)
        for at, adder in enumerate(tariff.tiers_on_all_energy)
    ]
    places = [f"{place}/allowance_per" for place, tiers, per in rows if len(tiers) > 1 and per is None]
    if places:
        others = f", and so in {len(places) - 1} more rows" if len(places) > 1 else ""
        yield places[0], f"month{others}", "whether the tariff sheet states its steps by month or by day"


def _of_riders_and_credits(tariff: Tariff) -> Iterator[Assumed]:
    clause = "what the tariff sheet takes the percentage of"
    for at, rider in enumerate(tariff.riders):
        if rider.percent is not None and rider.applies_to is None:
            everything = (
                "the whole bill" if rider.is_tax else "energy, critical peak, demand and fixed charges"
            )
            yield f"/riders/{at}/applies_to", everything, clause
    for at, credit in enumerate(tariff.credits):
        if credit.amount is not None and credit.per is None:
            yield f"/credits/{at}/per", "month", "how often the tariff sheet grants it"


def _of_rounding(tariff: Tariff) -> Iterator[Assumed]:
    rounding = tariff.rounding
    if rounding is None or rounding.line is None:
        yield "/rounding/line", "true: each line is rounded", "a bill, added up again"
    if rounding is None or rounding.half is None:
        yield "/rounding/half", "up: a half goes away from zero", "a bill, added up again"
