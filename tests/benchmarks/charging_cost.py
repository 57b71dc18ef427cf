"""How long it takes to price a year, to compare tariffs and schedules, and to find the cheapest hours of a year.

Run from the root of the repository, on an otherwise idle machine: python tests/benchmarks/charging_cost.py

Prints medians of the processor time of one core. A year of hourly data is priced by us and by the utility-rate module
of nrel-pysam (compiled C++) in turn, in the same run and to the same cents: no slower than that is wanted. Warm, the
year's calendar is laid out already, as with the second of several tariffs; cold, it is laid out anew. Ours prices one
load where the module prices two, without a system and with one: half its time is printed too.

The comparison is of ten tariffs, three schedules and a year of quarter hours: less than a second is wanted for it. The
least-cost schedule of a year of quarter hours is wanted in less than 100 ms: it is what a comparison of one tariff
takes with that schedule more than with charging on arrival. The whole answer adds reading and validating JSON, the hash
of the request, and writing JSON.
"""

import argparse
import json
import os
import statistics
import sys
from collections.abc import Callable, Iterable
from datetime import date
from pathlib import Path
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
from design_rate import seconds
from pydantic import TypeAdapter

from branchwright.checks.charging_cost.charging_comparison import (
    ChargingComparisonAnswer,
    ChargingComparisonRequest,
    compare_charging,
)
from branchwright.checks.charging_cost.tariffs import TariffReviewAnswer, TariffReviewRequest, review_tariff
from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.local_year import LocalYear, local_year
from branchwright.checks.charging_cost.tariffs.priced import PricedTariff
from branchwright.http_api import strict_json

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.checks.charging_cost import pysam_cases

Json = dict[str, Any]

MOST_COMPARISON_S = 1.0
MOST_LEAST_COST_MS = 100.0
INTERVALS = 35_040
EVERY_DAY = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def median_ms(works: dict[str, Callable[[], object]], rounds: int) -> dict[str, float]:
    """The median processor time of each of some works, ms; they take turns, so that all meet the same machine."""
    times: dict[str, list[float]] = {name: [] for name in works}
    for _ in range(rounds):
        for name, work in works.items():
            times[name].append(seconds(work))
    return {name: 1000 * statistics.median(each) for name, each in times.items()}


def priced_years(rounds: int) -> dict[str, float]:
    """Price each tariff over a year of hours by both, and return the ratios of the medians."""
    load = pysam_cases.load_kwh("evening peak and charging by night")
    net = np.array(load)
    zone, first = ZoneInfo(pysam_cases.ZONE), date(pysam_cases.YEAR, 1, 1)
    ratios = {}
    for case in pysam_cases.CASES:
        if case.tiers_in_periods:
            continue
        tariff = Tariff.model_validate({**case.tariff(), "rounding": {"line": False}})
        module = pysam_cases.module_of(case, load)
        calendar = local_year(zone, first, 60)
        priced = PricedTariff(tariff, calendar)

        def warm(asked: Tariff = tariff, year: LocalYear = calendar) -> object:
            return PricedTariff(asked, year).bill(net, "whole-house")

        def cold(asked: Tariff = tariff) -> object:
            return PricedTariff(asked, LocalYear(zone, first, 60)).bill(net, "whole-house")

        def again(asked: PricedTariff = priced) -> object:
            return asked.bill(net, "whole-house")

        def execute(asked: Any = module) -> None:
            asked.execute(0)

        found = median_ms({"module": execute, "warm": warm, "cold": cold, "again": again}, rounds)
        ours = [float(month.total) for month in priced.bill(net, "whole-house").months]
        theirs = list(module.Outputs.year1_monthly_utility_bill_wo_sys)
        if any(abs(one - other) > 0.00501 for one, other in zip(ours, theirs, strict=True)):
            raise SystemExit(f"{case.name}: the bills differ.")
        ratios[case.name] = found["warm"] / found["module"]
        print(
            f"{case.name:38} module {found['module']:6.2f} ms (half {found['module'] / 2:5.2f}); ours warm "
            f"{found['warm']:6.2f}, a further load {found['again']:6.2f}, cold {found['cold']:6.2f}; "
            f"warm / module {ratios[case.name]:5.2f}, cold / module {found['cold'] / found['module']:5.2f}"
        )
    return ratios


def row(period: str, starts: str, ends: str, *prices: str, **more: Any) -> Json:
    """One energy rate; of several prices each but the last is for 400 kWh."""
    ends_kwh = [*(400 * (place + 1) for place in range(len(prices) - 1)), None]
    tiers = [{"up_to_kwh": end, "per_kwh": price} for end, price in zip(ends_kwh, prices, strict=True)]
    return {"period": period, "from": starts, "to": ends, "tiers": tiers, **more}


def tariff_of(number: int) -> Json:
    """One of ten tariffs: by time of use and season, some with tiers, some with a demand charge."""
    dear = f"0.{31 + number}"
    tiers = [dear, f"0.{36 + number}"] if number % 3 == 1 else [dear]
    demand = [{"name": "demand", "per_kw": "2.50", "averaging_minutes": 15}] if number % 5 == 2 else []
    return {
        "name": f"tariff {number}",
        "currency": "USD",
        "time_zone": "America/Denver",
        "country": "US",
        "subdivision": "CO",
        "observed_holidays": "observed-day",
        "seasons": [
            {"name": "summer", "from": "06-01", "to": "09-30"},
            {"name": "winter", "from": "10-01", "to": "05-31"},
        ],
        "day_types": [
            {"name": "workday", "weekdays": list(EVERY_DAY[:5]), "holidays": "excluded"},
            {"name": "rest-day", "weekdays": list(EVERY_DAY[5:]), "holidays": "included"},
        ],
        "energy_rates": [
            row("off-peak", "19:00", "14:00", "0.09", season="summer", day_type="workday"),
            row("on-peak", "14:00", "19:00", *tiers, season="summer", day_type="workday"),
            row("off-peak", "00:00", "00:00", "0.09", season="summer", day_type="rest-day"),
            row("off-peak", "21:00", "06:00", "0.08", season="winter"),
            row("shoulder", "06:00", "21:00", "0.14", season="winter"),
        ],
        "fixed_charges": [{"name": "customer charge", "amount": "9.50", "per": "month"}],
        "demand_charges": demand,
        "riders": [
            {"name": "fuel", "per_kwh": "0.004"},
            {"name": "city tax", "percent": "3.1", "is_tax": True},
        ],
    }


def house_kwh() -> list[float]:
    """The energy of a house in each quarter hour of a year, kWh."""
    random = Random(2027)  # noqa: S311 - a load to measure with, no secret
    found = []
    for interval in range(INTERVALS):
        hour = interval / 4 % 24
        power = 0.25 + random.gammavariate(1.2, 0.3)
        power += 0.9 * max(0.0, 1 - abs(hour - 19) / 3) + 0.5 * max(0.0, 1 - abs(hour - 7) / 2)
        found.append(round(power / 4, 4))
    return found


ON_ARRIVAL = {"kind": "on-arrival"}
TIMER = {"kind": "timer", "windows": [{"from": "22:00", "to": "06:00"}]}
LEAST_COST = {"kind": "least-cost"}


def question(numbers: Iterable[int], schedules: list[Json], **more: Any) -> Json:
    """A comparison of some tariffs over a year of quarter hours."""
    load = {
        "kind": "intervals",
        "start": "2027-01-01T00:00:00-07:00",
        "interval_minutes": 15,
        "energy_kwh": house_kwh(),
    }
    return {
        "tariffs": [tariff_of(number) for number in numbers],
        "year": 2027,
        "house_load": load,
        "charging": {
            "energy_need": {
                "kind": "energy",
                "basis": "wall",
                "kwh_by_weekday": dict.fromkeys(EVERY_DAY, 11.5),
            },
            "charger": {"charging_current_a": 32, "voltage_v": 240},
            "arrival": "17:40",
            "departure": "07:05",
        },
        "arrangements": ["whole-house"],
        "schedules": schedules,
        **more,
    }


def compared(asked: Json, rounds: int) -> tuple[float, float, Json]:
    """The medians of comparing and of the whole answer, ms; and the answer."""
    validate = TypeAdapter(ChargingComparisonRequest).validator.validate_python
    serialise = TypeAdapter(ChargingComparisonAnswer).serializer.to_json
    body = json.dumps(asked).encode()
    checked = validate(strict_json.parse(body))

    def whole() -> bytes:
        return serialise(compare_charging(validate(strict_json.parse(body))), by_alias=True)

    found = median_ms({"computed": lambda: compare_charging(checked), "whole": whole}, rounds)
    return found["computed"], found["whole"], json.loads(whole())


def reviewed(rounds: int) -> float:
    """The median of a whole tariff review, ms."""
    validate = TypeAdapter(TariffReviewRequest).validator.validate_python
    serialise = TypeAdapter(TariffReviewAnswer).serializer.to_json
    body = json.dumps({"tariff": tariff_of(2), "year": 2027}).encode()

    def whole() -> bytes:
        return serialise(review_tariff(validate(strict_json.parse(body))), by_alias=True)

    return median_ms({"whole": whole}, rounds)["whole"]


def main() -> None:
    """Time all of it and print what the docstring of this module says."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--rounds", type=int, default=31, help="rounds of one tariff and one year")
    parser.add_argument("--comparisons", type=int, default=7, help="rounds of each comparison")
    options = parser.parse_args()
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {min(os.sched_getaffinity(0))})
    ratios = priced_years(options.rounds)
    worst = max(ratios, key=ratios.__getitem__)
    print(
        f"one tariff, 8760 h: median of ours / module {statistics.median(ratios.values()):.2f}, greatest "
        f"{ratios[worst]:.2f} ({worst}): {'no slower' if ratios[worst] <= 1 else 'SLOWER'}"
    )
    schedules = [ON_ARRIVAL, TIMER, LEAST_COST]
    computed, whole, answer = compared(question(range(10), schedules), options.comparisons)
    if len(answer["options"]) != 30:
        raise SystemExit("The comparison did not price thirty options.")
    print(
        f"10 tariffs x 3 schedules x {INTERVALS} intervals: {computed:.0f} ms, whole answer {whole:.0f} ms, "
        f"{'within' if whole <= 1000 * MOST_COMPARISON_S else 'MORE THAN'} {MOST_COMPARISON_S:g} s"
    )
    every = ["whole-house", "own-meter", "submeter"]
    meter = {"installed_cost": "1400", "monthly_charge": "6.00", "discount_rate_percent": 5}
    separate, separate_whole, _ = compared(
        question(range(10), schedules, arrangements=every, separate_meter=meter), options.comparisons
    )
    print(
        f"the same with separate meters and their pay-back: {separate:.0f} ms, whole answer {separate_whole:.0f} ms"
    )
    least_cost: dict[str, float] = {}
    for name, number in (("linear", 0), ("with tiers", 1), ("with a demand charge", 2)):
        plain, _, _ = compared(question([number], [ON_ARRIVAL]), options.comparisons)
        with_least, _, _ = compared(question([number], [ON_ARRIVAL, LEAST_COST]), options.comparisons)
        least_cost[name] = with_least - plain
        verdict = "within" if least_cost[name] <= MOST_LEAST_COST_MS else "MORE THAN"
        print(
            f"least-cost year of quarter hours, {name}: {least_cost[name]:.0f} ms ({verdict} {MOST_LEAST_COST_MS:g} ms)"
        )
    review = reviewed(options.comparisons)
    print(f"tariff review, whole answer: {review:.0f} ms")
    figures = {
        "year_to_module": round(statistics.median(ratios.values()), 2),
        "comparison_ms": round(whole),
        "least_cost_ms": {name: round(each) for name, each in least_cost.items()},
        "review_ms": round(review),
    }
    print(json.dumps({"charging_cost": figures}))


if __name__ == "__main__":
    main()
