"""Tariffs written twice: as a request of ours, and as the inputs of a utility-rate module; and loads to price by both.

The calendar of both is a year of 8760 hours that begins on a Monday, without holidays and without a change of the
clock. Periods of the module are rows of hours by month. Its tiers count the energy of the whole month whatever the
period, so that tiers inside a period are asked of it once for each period, with nothing drawn in the others.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from random import Random
from typing import Any

from PySAM import Utilityrate5

Json = dict[str, Any]
Rows = list[list[float]]

HOURS = 8760
YEAR = 2018
"""A common year whose first day is a Monday."""
ZONE = "Etc/GMT+7"
"""A zone that never changes its clock."""
ENDLESS = 1e38
KWH, KWH_PER_DAY = 0, 2
"""The module's units of a tier's end."""
NET_METERING, NET_BILLING = 0, 2


def hours(first: int, **periods: Sequence[range]) -> list[int]:
    """Return the period of each hour of a day: the first, but where ranges of hours say another (`p2`, `p3`)."""
    found = [first] * 24
    for name, ranges in periods.items():
        for each in ranges:
            for hour in each:
                found[hour] = int(name[1:])
    return found


def every_month(day: list[int]) -> list[list[int]]:
    return [day] * 12


def by_season(summer: list[int], winter: list[int]) -> list[list[int]]:
    """Return days of a summer from June to September, and of a winter."""
    return [summer if 5 <= month <= 8 else winter for month in range(12)]


def tiers(*steps: tuple[float | None, str]) -> list[Json]:
    return [{"up_to_kwh": end, "per_kwh": price} for end, price in steps]


def rate(period: str, starts: str, ends: str, *steps: tuple[float | None, str] | str, **more: Any) -> Json:
    """Return one energy rate of ours; a single price stands for one open tier."""
    listed = [(None, each) if isinstance(each, str) else each for each in steps]
    return {"period": period, "from": starts, "to": ends, "tiers": tiers(*listed), **more}


def all_day(*steps: tuple[float | None, str] | str, **more: Any) -> Json:
    return rate("any-time", "00:00", "00:00", *steps, **more)


SEASONS = [
    {"name": "summer", "from": "06-01", "to": "09-30"},
    {"name": "winter", "from": "10-01", "to": "05-31"},
]
DAY_TYPES = [
    {"name": "workday", "weekdays": ["mon", "tue", "wed", "thu", "fri"], "holidays": "ignored"},
    {"name": "weekend", "weekdays": ["sat", "sun"], "holidays": "ignored"},
]
ALWAYS = every_month([1] * 24)
NIGHT = hours(2, p1=[range(7), range(22, 24)])
"""Off-peak from 22:00 to 07:00 is the first period, the day the second."""


@dataclass(frozen=True)
class Case:
    """One tariff both ways."""

    name: str
    ours: Json
    prices: Rows
    """Period, tier, end of the tier, its unit, price of what is drawn, and of what is fed in."""
    weekday: list[list[int]] = field(default_factory=lambda: ALWAYS)
    weekend: list[list[int]] = field(default_factory=lambda: ALWAYS)
    more: Json = field(default_factory=dict)
    """Further inputs of the module."""
    tiers_in_periods: bool = False

    def tariff(self) -> Json:
        """Return the tariff as our request writes it."""
        return {"name": self.name, "currency": "USD", "time_zone": ZONE, **self.ours}


def monthly_demand(prices: Sequence[float]) -> Rows:
    return [[month, 1, ENDLESS, price] for month, price in enumerate(prices)]


NO_MONTHLY_DEMAND = monthly_demand([0.0] * 12)
NO_PERIOD_DEMAND = [[1, 1, ENDLESS, 0.0]]


def demand(
    monthly: Rows = NO_MONTHLY_DEMAND,
    periods: Rows = NO_PERIOD_DEMAND,
    weekday: list[list[int]] = ALWAYS,
    weekend: list[list[int]] = ALWAYS,
) -> Json:
    return {
        "ur_dc_enable": 1,
        "ur_dc_flat_mat": monthly,
        "ur_dc_tou_mat": periods,
        "ur_dc_sched_weekday": weekday,
        "ur_dc_sched_weekend": weekend,
    }


def fixed(amount: str, per: str = "month") -> Json:
    return {"fixed_charges": [{"name": "customer charge", "amount": amount, "per": per}]}


def demand_charge(per_kw: str, **more: Any) -> Json:
    return {"name": "demand", "per_kw": per_kw, "averaging_minutes": 60, **more}


CASES = [
    Case("flat", {"energy_rates": [all_day("0.1432")]}, [[1, 1, ENDLESS, KWH, 0.1432, 0]]),
    Case(
        "flat with a fixed charge",
        {"energy_rates": [all_day("0.0987")], **fixed("11.35")},
        [[1, 1, ENDLESS, KWH, 0.0987, 0]],
        more={"ur_monthly_fixed_charge": 11.35},
    ),
    Case(
        "two periods, every day",
        {"energy_rates": [rate("night", "22:00", "07:00", "0.072"), rate("day", "07:00", "22:00", "0.184")]},
        [[1, 1, ENDLESS, KWH, 0.072, 0], [2, 1, ENDLESS, KWH, 0.184, 0]],
        every_month(NIGHT),
        every_month(NIGHT),
    ),
    Case(
        "two periods, on workdays",
        {
            "day_types": DAY_TYPES,
            "energy_rates": [
                rate("off-peak", "00:00", "14:00", "0.09", day_type="workday"),
                rate("on-peak", "14:00", "19:00", "0.31", day_type="workday"),
                rate("off-peak", "19:00", "00:00", "0.09", day_type="workday"),
                rate("off-peak", "00:00", "00:00", "0.09", day_type="weekend"),
            ],
        },
        [[1, 1, ENDLESS, KWH, 0.09, 0], [2, 1, ENDLESS, KWH, 0.31, 0]],
        every_month(hours(1, p2=[range(14, 19)])),
    ),
    Case(
        "three periods, two seasons",
        {
            "seasons": SEASONS,
            "day_types": DAY_TYPES,
            "energy_rates": [
                rate("off-peak", "21:00", "09:00", "0.081", season="summer", day_type="workday"),
                rate("shoulder", "09:00", "15:00", "0.137", season="summer", day_type="workday"),
                rate("on-peak", "15:00", "21:00", "0.352", season="summer", day_type="workday"),
                rate("off-peak", "00:00", "00:00", "0.081", season="summer", day_type="weekend"),
                rate("off-peak", "20:00", "06:00", "0.069", season="winter", day_type="workday"),
                rate("shoulder", "06:00", "10:00", "0.121", season="winter", day_type="workday"),
                rate("off-peak", "10:00", "17:00", "0.069", season="winter", day_type="workday"),
                rate("on-peak", "17:00", "20:00", "0.217", season="winter", day_type="workday"),
                rate("off-peak", "00:00", "00:00", "0.069", season="winter", day_type="weekend"),
            ],
        },
        [
            [period, 1, ENDLESS, KWH, price, 0]
            for period, price in enumerate([0.081, 0.137, 0.352, 0.069, 0.121, 0.217], start=1)
        ],
        by_season(
            hours(1, p2=[range(9, 15)], p3=[range(15, 21)]), hours(4, p5=[range(6, 10)], p6=[range(17, 20)])
        ),
        by_season([1] * 24, [4] * 24),
    ),
    Case(
        "rising tiers",
        {"energy_rates": [all_day((500, "0.0811"), (900, "0.1274"), (None, "0.2019"))]},
        [
            [1, 1, 500, KWH, 0.0811, 0],
            [1, 2, 900, KWH, 0.1274, 0],
            [1, 3, ENDLESS, KWH, 0.2019, 0],
        ],
    ),
    Case(
        "falling tiers",
        {"energy_rates": [all_day((250, "0.149"), (700, "0.134"), (None, "0.1296"))], **fixed("7.50")},
        [[1, 1, 250, KWH, 0.149, 0], [1, 2, 700, KWH, 0.134, 0], [1, 3, ENDLESS, KWH, 0.1296, 0]],
        more={"ur_monthly_fixed_charge": 7.5},
    ),
    Case(
        "tiers of a daily allowance",
        {"energy_rates": [all_day((16.5, "0.093"), (None, "0.1885"), allowance_per="day")]},
        [[1, 1, 16.5, KWH_PER_DAY, 0.093, 0], [1, 2, ENDLESS, KWH_PER_DAY, 0.1885, 0]],
    ),
    Case(
        "tiers by season, with a fixed charge",
        {
            "seasons": SEASONS,
            "energy_rates": [
                all_day((600, "0.0851"), (None, "0.1499"), season="summer"),
                all_day((1000, "0.0722"), (None, "0.0611"), season="winter"),
            ],
            **fixed("14.00"),
        },
        [
            [1, 1, 600, KWH, 0.0851, 0],
            [1, 2, ENDLESS, KWH, 0.1499, 0],
            [2, 1, 1000, KWH, 0.0722, 0],
            [2, 2, ENDLESS, KWH, 0.0611, 0],
        ],
        by_season([1] * 24, [2] * 24),
        by_season([1] * 24, [2] * 24),
        more={"ur_monthly_fixed_charge": 14.0},
    ),
    Case(
        "tiers inside periods",
        {
            "energy_rates": [
                rate("night", "22:00", "07:00", (150, "0.05"), (None, "0.08")),
                rate("day", "07:00", "22:00", (300, "0.16"), (600, "0.21"), (None, "0.34")),
            ]
        },
        [
            [1, 1, 150, KWH, 0.05, 0],
            [1, 2, ENDLESS, KWH, 0.08, 0],
            [2, 1, 300, KWH, 0.16, 0],
            [2, 2, 600, KWH, 0.21, 0],
            [2, 3, ENDLESS, KWH, 0.34, 0],
        ],
        every_month(NIGHT),
        every_month(NIGHT),
        tiers_in_periods=True,
    ),
    Case(
        "two periods and tiers on all energy",
        {
            "energy_rates": [rate("night", "22:00", "07:00", "0.06"), rate("day", "07:00", "22:00", "0.17")],
            "tiers_on_all_energy": [
                {"name": "above the baseline", "tiers": tiers((400, "0.00"), (800, "0.03"), (None, "0.075"))}
            ],
        },
        [
            [period, tier, end, KWH, price + step, 0]
            for period, price in [(1, 0.06), (2, 0.17)]
            for tier, end, step in [(1, 400, 0.0), (2, 800, 0.03), (3, ENDLESS, 0.075)]
        ],
        every_month(NIGHT),
        every_month(NIGHT),
    ),
    Case(
        "demand by month",
        {"energy_rates": [all_day("0.0512")], "demand_charges": [demand_charge("6.85")]},
        [[1, 1, ENDLESS, KWH, 0.0512, 0]],
        more=demand(monthly_demand([6.85] * 12)),
    ),
    Case(
        "demand by period",
        {
            "day_types": DAY_TYPES,
            "energy_rates": [
                rate("off-peak", "19:00", "15:00", "0.04", day_type="workday"),
                rate("on-peak", "15:00", "19:00", "0.11", day_type="workday"),
                rate("off-peak", "00:00", "00:00", "0.04", day_type="weekend"),
            ],
            "demand_charges": [
                demand_charge("9.40", name="on-peak demand", period="on-peak"),
                demand_charge("1.15", name="off-peak demand", period="off-peak"),
            ],
        },
        [[1, 1, ENDLESS, KWH, 0.04, 0], [2, 1, ENDLESS, KWH, 0.11, 0]],
        every_month(hours(1, p2=[range(15, 19)])),
        more=demand(
            periods=[[1, 1, ENDLESS, 1.15], [2, 1, ENDLESS, 9.40]],
            weekday=every_month(hours(1, p2=[range(15, 19)])),
        ),
    ),
    Case(
        "demand by season, with a fixed charge",
        {
            "seasons": SEASONS,
            "energy_rates": [all_day("0.045", season="summer"), all_day("0.038", season="winter")],
            "demand_charges": [
                demand_charge("8.10", name="summer demand", season="summer"),
                demand_charge("5.25", name="winter demand", season="winter"),
            ],
            **fixed("21.00"),
        },
        [[1, 1, ENDLESS, KWH, 0.045, 0], [2, 1, ENDLESS, KWH, 0.038, 0]],
        by_season([1] * 24, [2] * 24),
        by_season([1] * 24, [2] * 24),
        more={
            **demand(monthly_demand([8.10 if 5 <= month <= 8 else 5.25 for month in range(12)])),
            "ur_monthly_fixed_charge": 21.0,
        },
    ),
    Case(
        "minimum bill",
        {
            "energy_rates": [all_day("0.085")],
            **fixed("9.00"),
            "minimum_bill": {"amount": "86.00", "per": "month", "counts": ["energy", "fixed"]},
        },
        [[1, 1, ENDLESS, KWH, 0.085, 0]],
        more={"ur_monthly_fixed_charge": 9.0, "ur_monthly_min_charge": 86.0},
    ),
    Case(
        "all at once",
        {
            "seasons": SEASONS,
            "day_types": DAY_TYPES,
            "energy_rates": [
                rate("off-peak", "19:00", "14:00", "0.052", season="summer", day_type="workday"),
                rate("on-peak", "14:00", "19:00", "0.193", season="summer", day_type="workday"),
                rate("off-peak", "00:00", "00:00", "0.052", season="summer", day_type="weekend"),
                rate("off-peak", "00:00", "00:00", "0.058", season="winter"),
            ],
            "tiers_on_all_energy": [
                {"name": "first block", "season": "summer", "tiers": tiers((500, "0.00"), (None, "0.021"))},
            ],
            "demand_charges": [
                demand_charge("2.75"),
                demand_charge("7.35", name="on-peak demand", season="summer", period="on-peak"),
            ],
            **fixed("13.20"),
            "minimum_bill": {"amount": "95.00", "per": "month", "counts": ["energy", "demand", "fixed"]},
        },
        [
            [1, 1, 500, KWH, 0.052, 0],
            [1, 2, ENDLESS, KWH, 0.073, 0],
            [2, 1, 500, KWH, 0.193, 0],
            [2, 2, ENDLESS, KWH, 0.214, 0],
            [3, 1, 500, KWH, 0.058, 0],
            [3, 2, ENDLESS, KWH, 0.058, 0],
        ],
        by_season(hours(1, p2=[range(14, 19)]), [3] * 24),
        by_season([1] * 24, [3] * 24),
        more={
            **demand(
                monthly_demand([2.75] * 12),
                [[1, 1, ENDLESS, 0.0], [2, 1, ENDLESS, 7.35]],
                by_season(hours(1, p2=[range(14, 19)]), [1] * 24),
            ),
            "ur_monthly_fixed_charge": 13.2,
            "ur_monthly_min_charge": 95.0,
        },
    ),
]


def even(_: Random, __: int) -> float:
    return 0.92


def house(random: Random, hour: int) -> float:
    """A house with a peak in the evening, more in the cold months and in July."""
    clock, month = hour % 24, hour * 12 // HOURS
    shape = 0.35 + 1.9 * max(0.0, 1 - abs(clock - 19) / 4) + 0.5 * max(0.0, 1 - abs(clock - 7) / 2)
    return shape * (1.35 if month in (0, 1, 6, 11) else 0.85) * random.uniform(0.6, 1.5)


def house_and_charging(random: Random, hour: int) -> float:
    """The same with a vehicle on most nights, from 22:00 on."""
    clock, night = hour % 24, (hour - 22) // 24
    charges = night % 7 != 5 and (clock >= 22 or clock < 2)
    return house(random, hour) + (7.2 if charges else 0.0)


SHAPES: dict[str, Callable[[Random, int], float]] = {
    "even": even,
    "evening peak": house,
    "evening peak and charging by night": house_and_charging,
}


def load_kwh(shape: str) -> list[float]:
    """Return the energy of each hour of the year."""
    random = Random(f"{shape}, hour by hour")  # noqa: S311 - a load to price, no secret
    return [round(SHAPES[shape](random, hour), 3) for hour in range(HOURS)]


def generation_kwh() -> list[float]:
    """Return what panels on a roof give in each hour, more in the summer."""
    random = Random("panels")  # noqa: S311 - a series to price, no secret
    found = []
    for hour in range(HOURS):
        clock, day = hour % 24 + 0.5, hour // 24
        height = max(0.0, 1 - abs(clock - 12.5) / (4.5 + 2 * (1 - abs(day - 172) / 183)))
        found.append(round(4.2 * height * random.uniform(0.2, 1.0), 3))
    return found


@dataclass(frozen=True)
class Priced:
    """What the module charges in each month."""

    energy: list[float]
    demand: list[float]
    fixed: list[float]
    minimum: list[float]
    total: list[float]


def module_of(
    case: Case, load: Sequence[float], generation: Sequence[float] | None = None, metering: int = NET_METERING
) -> Any:
    """Return the module with all that it needs to price a year."""
    module = Utilityrate5.new()
    module.ElectricityRates.assign(
        {
            "en_electricity_rates": 1,
            "rate_escalation": [0.0],
            "ur_metering_option": metering,
            "ur_ec_tou_mat": case.prices,
            "ur_ec_sched_weekday": case.weekday,
            "ur_ec_sched_weekend": case.weekend,
            "ur_monthly_fixed_charge": 0.0,
            "ur_monthly_min_charge": 0.0,
            **case.more,
        }
    )
    module.Lifetime.assign({"analysis_period": 1, "inflation_rate": 0.0, "system_use_lifetime_output": 0})
    module.SystemOutput.assign({"degradation": [0.0], "gen": list(generation or [0.0] * len(load))})
    module.Load.assign({"load": list(load), "load_escalation": [0.0]})
    return module


def alone(case: Case, period: float, load: Sequence[float]) -> tuple[Case, list[float]]:
    """Return one period as a tariff of its own, and what is drawn in it."""
    prices = [[1, *row[1:]] for row in case.prices if row[0] == period]
    drawn = [kwh if period_of(case, hour) == period else 0.0 for hour, kwh in enumerate(load)]
    return Case(case.name, case.ours, prices), drawn


def period_of(case: Case, hour: int) -> int:
    """Return the module's period of an hour of its year."""
    month = next(month for month, end in enumerate(MONTH_ENDS) if hour < end)
    is_weekend = hour // 24 % 7 >= 5
    return (case.weekend if is_weekend else case.weekday)[month][hour % 24]


MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
MONTH_ENDS = tuple(24 * sum(MONTH_DAYS[: month + 1]) for month in range(12))


def priced_by_module(case: Case, load: Sequence[float]) -> Priced:
    """Price the load of a year, hour by hour."""
    if case.tiers_in_periods:
        parts = [
            module_priced(*alone(case, period, load)) for period in sorted({row[0] for row in case.prices})
        ]
        energy = [sum(month) for month in zip(*(part.energy for part in parts), strict=True)]
        nothing = [0.0] * 12
        return Priced(energy, nothing, nothing, nothing, energy)
    return module_priced(case, load)


def module_priced(case: Case, load: Sequence[float]) -> Priced:
    module = module_of(case, load)
    module.execute(0)
    out = module.Outputs
    by_month = out.year1_monthly_dc_fixed_without_system, out.year1_monthly_dc_tou_without_system
    return Priced(
        list(out.year1_monthly_ec_charge_without_system),
        [monthly + in_period for monthly, in_period in zip(*by_month, strict=True)],
        list(out.year1_monthly_fixed_without_system),
        list(out.year1_monthly_minimum_without_system),
        list(out.year1_monthly_utility_bill_wo_sys),
    )
