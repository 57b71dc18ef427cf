"""Random tariffs, drawn for Hypothesis as the JSON of a request, and random flows to price by them.

Every one is sound: each hour of each kind of day has one price. What a bill leaves open is not drawn: a demand is
averaged over no more than the steps in which a period may begin.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from random import Random
from typing import Any

from hypothesis import strategies as st

Json = dict[str, Any]

WORKDAYS = ["mon", "tue", "wed", "thu", "fri"]
REST_DAYS = ["sat", "sun"]
EVERY_DAY = WORKDAYS + REST_DAYS

PLACES = st.sampled_from(
    [
        ("America/New_York", "US", "NY"),
        ("America/Phoenix", "US", "AZ"),
        ("Europe/Berlin", "DE", "BE"),
        ("Australia/Lord_Howe", "AU", "NSW"),
        ("Asia/Kolkata", None, None),
        ("Africa/Casablanca", None, None),
    ]
)
"""Zones, and where the holidays of a tariff come from."""


def amount(least: int, most: int, digits: int) -> st.SearchStrategy[str]:
    """Return amounts as decimal text, between two numbers of their smallest digit."""
    return st.integers(least, most).map(lambda whole: f"{whole // 10**digits}.{whole % 10**digits:0{digits}}")


PRICE = amount(1, 600_00, 5)
"""Up to 6 dollars for ten kilowatt-hours, with digits that have to be rounded."""

SMALL_PRICE = amount(1, 30_00, 5)


@dataclass(frozen=True)
class Flows:
    """What flows through a meter in each interval, drawn by a number."""

    number: int
    exports: bool

    def kwh(self, count: int) -> list[float]:
        """Return whole watt-hours for so many intervals; below zero, where energy flows out."""
        random = Random(self.number)  # noqa: S311 - flows to price, no secret
        least = -2500 if self.exports else 0
        return [random.randint(least, 4000) / 1000 for _ in range(count)]


FLOWS = st.builds(Flows, st.integers(0, 10**6), st.booleans())


@st.composite
def seasons(draw: st.DrawFn) -> list[Json]:
    """Draw the seasons of a year: none, or two or three that come in turn, some of which split a month."""
    count = draw(st.sampled_from([0, 2, 3]))
    if not count:
        return []
    months = sorted(draw(st.lists(st.integers(1, 12), min_size=count, max_size=count, unique=True)))
    day = draw(st.sampled_from([1, 1, 16]))
    names = ["spring", "summer", "winter"][-count:]
    return [
        {
            "name": name,
            "from": f"{month:02}-{day:02}",
            "to": f"{after:02}-15" if day > 1 else last_of_month_before(after),
        }
        for name, month, after in zip(names, months, [*months[1:], months[0]], strict=True)
    ]


def last_of_month_before(month: int) -> str:
    before = (month - 2) % 12 + 1
    return f"{before:02}-{(31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)[before - 1]:02}"


@st.composite
def day_types(draw: st.DrawFn) -> list[Json]:
    """Draw the kinds of day: none, or workdays and days of rest with holidays on one side or neither."""
    kind = draw(st.sampled_from([None, "ignored", "rest", "workday"]))
    if kind is None:
        return []
    treated = {
        "ignored": ("ignored", "ignored"),
        "rest": ("excluded", "included"),
        "workday": ("included", "excluded"),
    }
    workday, rest = treated[kind]
    return [
        {"name": "workday", "weekdays": WORKDAYS, "holidays": workday},
        {"name": "rest-day", "weekdays": REST_DAYS, "holidays": rest},
    ]


@st.composite
def tiers(draw: st.DrawFn, most: int = 3, price: st.SearchStrategy[str] = PRICE) -> list[Json]:
    """Draw tiers, the last of them open."""
    ends = sorted(draw(st.lists(st.integers(1, 900), max_size=most - 1, unique=True)))
    return [{"up_to_kwh": end, "per_kwh": draw(price)} for end in [*ends, None]]


def clock(minute: int) -> str:
    return f"{minute // 60 % 24:02}:{minute % 60:02}"


@st.composite
def energy_rates(
    draw: st.DrawFn, names: Sequence[str | None], kinds: Sequence[str | None], step: int, most_tiers: int
) -> list[Json]:
    """Draw the rates of every season and kind of day: a day in one to four parts, each a period with its price."""
    found = []
    for season in names:
        prices = {
            period: {
                "tiers": draw(tiers(most_tiers)),
                "allowance_per": draw(st.sampled_from(["month", "day"])),
                "export_per_kwh": draw(st.none() | SMALL_PRICE),
            }
            for period in ("off-peak", "shoulder", "on-peak")
        }
        for kind in kinds:
            places = st.integers(0, 1440 // step - 1).map(lambda place: place * step)
            cuts = sorted(draw(st.lists(places, min_size=1, max_size=4, unique=True)))
            for begin, end in zip(cuts, [*cuts[1:], cuts[0]], strict=True):
                period = draw(st.sampled_from(sorted(prices)))
                found.append(
                    {
                        "period": period,
                        "season": season,
                        "day_type": kind,
                        "from": clock(begin),
                        "to": clock(end),
                        **prices[period],
                    }
                )
    return found


@st.composite
def events(draw: st.DrawFn, year: int, step: int) -> list[Json]:
    """Draw critical-peak events on different dates."""
    dates = draw(st.lists(st.tuples(st.integers(1, 12), st.integers(1, 28)), max_size=3, unique=True))
    found = []
    for month, day in dates:
        begin = draw(st.integers(0, 1440 // step - 2)) * step
        end = draw(st.integers(begin // step + 1, 1440 // step)) * step
        found.append(
            {
                "date": f"{year}-{month:02}-{day:02}",
                "from": clock(begin),
                "to": clock(end),
                "per_kwh": draw(PRICE),
                "how": draw(st.sampled_from(["added", "instead"])),
            }
        )
    return found


@st.composite
def riders(draw: st.DrawFn, names: Sequence[str | None]) -> list[Json]:
    """Draw riders and taxes for each kWh and in percent."""
    found = []
    for number in range(draw(st.integers(0, 3))):
        is_tax = draw(st.booleans())
        rider: Json = {"name": f"rider {number}", "is_tax": is_tax, "season": draw(st.sampled_from(names))}
        if draw(st.booleans()):
            is_credit = draw(st.booleans())
            price = draw(SMALL_PRICE)
            rider |= {"per_kwh": f"-{price}" if is_credit else price, "is_credit": is_credit}
        else:
            rider["percent"] = draw(amount(1, 2000, 2))
            kinds = st.lists(
                st.sampled_from(["energy", "demand", "fixed", "critical-peak"]),
                min_size=1,
                max_size=4,
                unique=True,
            )
            rider["applies_to"] = draw(st.none() | kinds)
        found.append(rider)
    return found


@st.composite
def credits(draw: st.DrawFn, names: Sequence[str | None], periods: Sequence[str | None]) -> list[Json]:
    """Draw credits for each kWh and in one sum."""
    found = []
    for number in range(draw(st.integers(0, 2))):
        credit: Json = {"name": f"credit {number}", "season": draw(st.sampled_from(names))}
        if draw(st.booleans()):
            credit |= {
                "per_kwh": draw(SMALL_PRICE),
                "period": draw(st.sampled_from(periods)),
                "up_to_kwh": draw(st.none() | st.integers(1, 900)),
            }
        else:
            credit |= {"amount": draw(amount(1, 2000, 2)), "per": draw(st.sampled_from(["month", "day"]))}
        found.append(credit)
    return found


@st.composite
def demand_charges(
    draw: st.DrawFn, names: Sequence[str | None], periods: Sequence[str | None], step: int
) -> list[Json]:
    """Draw demand charges; a ratchet only where all months have the charge."""
    found = []
    for number in range(draw(st.integers(0, 2))):
        season = draw(st.sampled_from(names))
        ratchet = st.fixed_dictionaries({"percent": st.integers(10, 100), "months": st.integers(1, 11)})
        found.append(
            {
                "name": f"demand {number}",
                "season": season,
                "period": draw(st.sampled_from(periods)),
                "per_kw": draw(amount(1, 2000, 2)),
                "averaging_minutes": draw(st.sampled_from([each for each in (15, 30, 60) if each <= step])),
                "least_kw": draw(st.none() | st.integers(0, 6)),
                "ratchet": None if season else draw(st.none() | ratchet),
            }
        )
    return found


@st.composite
def fixed_charges(draw: st.DrawFn, names: Sequence[str | None]) -> list[Json]:
    """Draw fixed charges, some of which only some meters bear."""
    return [
        {
            "name": f"charge {number}",
            "amount": draw(amount(1, 3000, 2)),
            "per": draw(st.sampled_from(["month", "day"])),
            "season": draw(st.sampled_from(names)),
            "arrangements": draw(st.sampled_from([None, ["whole-house"], ["own-meter", "submeter"]])),
        }
        for number in range(draw(st.integers(0, 2)))
    ]


@dataclass(frozen=True)
class Drawn:
    """A tariff, and the year and the steps that it is priced in."""

    tariff: Json
    year: int
    first_month: int
    step_minutes: int


MINIMUM = st.fixed_dictionaries(
    {
        "amount": amount(100, 40000, 2),
        "per": st.sampled_from(["month", "day"]),
        "counts": st.lists(
            st.sampled_from(["energy", "demand", "fixed", "credits", "riders"]),
            min_size=1,
            max_size=5,
            unique=True,
        ),
    }
)


OBSERVED = st.sampled_from([None, "observed-day", "actual-day", "both"])


@st.composite
def drawn_tariffs(draw: st.DrawFn) -> Drawn:
    """Draw a sound tariff with whatever a tariff may have."""
    zone, country, subdivision = draw(PLACES)
    step = 30 if zone == "Australia/Lord_Howe" else draw(st.sampled_from([60, 60, 60, 30]))
    year = draw(st.sampled_from([2027, 2028]))
    parts, kinds = draw(seasons()), draw(day_types())
    names: list[str | None] = [each["name"] for each in parts] or [None]
    rates = draw(energy_rates(names, [each["name"] for each in kinds] or [None], step, 3))
    periods = [None, *sorted({rate["period"] for rate in rates})]
    any_season = [None, *[each for each in names if each is not None]]
    with_holidays = country is not None and draw(st.booleans())
    dates = st.lists(st.integers(1, 28).map(lambda day: f"{year}-05-{day:02}"), max_size=3, unique=True)
    stepped = [
        {
            "name": f"steps {number}",
            "season": draw(st.sampled_from(any_season)),
            "allowance_per": draw(st.sampled_from(["month", "day"])),
            "tiers": draw(tiers(price=SMALL_PRICE)),
        }
        for number in range(draw(st.integers(0, 2)))
    ]
    tariff = {
        "name": "drawn",
        "currency": draw(st.sampled_from(["USD", "JPY", "KWD"])),
        "time_zone": zone,
        "country": country if with_holidays else None,
        "subdivision": subdivision if with_holidays else None,
        "observed_holidays": draw(OBSERVED) if with_holidays else None,
        "holiday_dates": draw(dates),
        "seasons": parts,
        "day_types": kinds,
        "energy_rates": rates,
        "tiers_on_all_energy": stepped,
        "fixed_charges": draw(fixed_charges(any_season)),
        "demand_charges": draw(demand_charges(any_season, periods, step)),
        "minimum_bill": draw(st.none() | MINIMUM),
        "riders": draw(riders(any_season)),
        "credits": draw(credits(any_season, periods)),
        "critical_peak_events": draw(events(year, step)),
        "rounding": draw(
            st.none()
            | st.fixed_dictionaries({"line": st.booleans(), "half": st.sampled_from(["up", "even"])})
        ),
    }
    return Drawn(tariff, year, draw(st.sampled_from([1, 1, 10])), step)


@st.composite
def linear_tariffs(draw: st.DrawFn, *, exports: bool = False) -> Drawn:
    """Draw a sound tariff under which a kWh of a period always costs the same, and no export brings more."""
    zone, _, _ = draw(PLACES)
    step = 30 if zone == "Australia/Lord_Howe" else draw(st.sampled_from([60, 60, 30]))
    parts, kinds = draw(seasons()), draw(day_types())
    names: list[str | None] = [each["name"] for each in parts] or [None]
    rates = draw(energy_rates(names, [each["name"] for each in kinds] or [None], step, 1))
    special = draw(events(2027, step))
    for rate in rates:
        most = rate["tiers"][0]["per_kwh"]
        credited = rate["export_per_kwh"] if exports else None
        rate["export_per_kwh"] = None if credited is None else min(credited, most, key=Decimal)
    for event in special:
        event["how"] = "added" if exports else event["how"]
    percent = None if exports else draw(st.none() | amount(1, 2000, 2))
    taxes = [] if percent is None else [{"name": "tax", "percent": percent, "is_tax": True}]
    tariff = {
        "name": "drawn",
        "currency": "USD",
        "time_zone": zone,
        "seasons": parts,
        "day_types": kinds,
        "energy_rates": rates,
        "fixed_charges": [{"name": "charge", "amount": draw(amount(1, 3000, 2)), "per": "month"}],
        "riders": taxes,
        "critical_peak_events": special,
        "rounding": {"line": False},
    }
    return Drawn(tariff, 2027, 1, step)


@dataclass(frozen=True)
class Stay:
    """When a vehicle is there and what it needs."""

    arrival: str
    departure: str
    kwh_by_weekday: Json
    current_a: float
    battery_kwh: float | None
    windows: list[Json]


@st.composite
def stays(draw: st.DrawFn) -> Stay:
    """Draw a vehicle that comes in the afternoon or the evening, at any minute, on some weekdays."""
    arrival, departure = draw(st.integers(720, 1439)), draw(st.integers(240, 660))
    opens, closes = draw(st.integers(20 * 60, 23 * 60 + 45)), draw(st.integers(180, 360))
    weekdays = draw(st.lists(st.sampled_from(EVERY_DAY), min_size=1, max_size=7, unique=True))
    return Stay(
        clock(arrival),
        clock(departure),
        {day: draw(st.integers(1, 300)) / 10 for day in weekdays},
        draw(st.sampled_from([8, 16, 24, 32, 40])),
        draw(st.none() | st.sampled_from([40, 60, 82])),
        [
            {"from": clock(opens), "to": clock(closes)},
            *draw(st.sampled_from([[], [{"from": "13:10", "to": "16:25"}]])),
        ],
    )
