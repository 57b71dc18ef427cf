"""What an hour hides: the greatest quarter of an hour of a year, among the hours of its day."""

from dataclasses import dataclass
from functools import cache

from branchwright.checks.service_capacity.interval_data import IntervalDataRequest, read_json
from page_parts import invented_house
from page_parts.markdown import blocks, table
from page_parts.pictures.drawing import Drawing, Scale

MINUTES = (15, 30, 60)
"""Lengths of the intervals at which the same year is read."""


@dataclass(frozen=True)
class Read:
    """What the engine finds in the year at one length of interval: powers in W, the bound over the greatest."""

    minutes: int
    greatest_w: float
    at: str
    bound_w: float
    factor: float


@dataclass(frozen=True)
class Day:
    """The day of the greatest quarter of an hour: its date, and the mean power of each quarter and each hour in W."""

    date: str
    first_hour: int
    quarters_w: tuple[float, ...]
    hours_w: tuple[float, ...]


def series(minutes: int) -> list[int]:
    """Return the energy of the year in intervals of this length, Wh."""
    energies = invented_house.energy_wh()
    step = minutes // invented_house.INTERVAL_MINUTES
    return [sum(energies[at : at + step]) for at in range(0, len(energies), step)]


@cache
def numbers() -> tuple[Read, ...]:
    """Return the greatest demand and its bound at each length, as the engine reads them."""
    found = []
    for minutes in MINUTES:
        answer = read_json(
            IntervalDataRequest.model_validate(
                {
                    "time_zone": invented_house.TIME_ZONE,
                    "series": {
                        "kind": "regular",
                        "start": invented_house.START,
                        "interval_minutes": minutes,
                        "energy_wh": series(minutes),
                    },
                }
            )
        )
        demand = answer.measured_demand
        if demand is None or demand.bound_15_minute_w is None or demand.bound_factor is None:
            raise ValueError(f"No demand was found at {minutes} minutes.")
        found.append(
            Read(minutes, demand.greatest_w, demand.at, demand.bound_15_minute_w, demand.bound_factor)
        )
    return tuple(found)


@cache
def day() -> Day:
    """Return the second half of the local day of the greatest quarter, in which it lies."""
    energies = invented_house.energy_wh()
    at = numbers()[0].at
    # The readings of a day stand in standard time; in summer the clock is an hour ahead of them.
    ahead = 0 if at.endswith(invented_house.START[-6:]) else 1
    per_hour, first_hour = invented_house.PER_HOUR, 12
    place = energies.index(max(energies))
    midnight = place - place % invented_house.PER_DAY
    begin = midnight + (first_hour - ahead) * per_hour
    quarters = energies[begin : begin + 12 * per_hour]
    return Day(
        at[:10],
        first_hour,
        tuple(float(per_hour * energy) for energy in quarters),
        tuple(float(sum(quarters[each : each + per_hour])) for each in range(0, len(quarters), per_hour)),
    )


def picture() -> str:
    """Return the picture, and what is read at each length of interval as a table."""
    shown, quarter, hour = day(), numbers()[0], numbers()[-1]
    drawing = Drawing(
        "hidden-peak",
        680,
        400,
        "Mean power of the quarters of an hour and of the hours of one day",
        f"The quarters of an hour reach {quarter.greatest_w / 1000:.1f} kW in the evening, the hours of the same day "
        f"{max(shown.hours_w) / 1000:.1f} kW. The table below has what the whole year shows at each length of "
        "interval, and the bound on its 15-minute demand.",
    )
    left, right, top, bottom = 44, 560, 44, 330
    across = Scale(shown.first_hour, shown.first_hour + len(shown.hours_w), left, right)
    up = Scale(0, 20, bottom, top)
    drawing.upwards(up, left, right, range(0, 21, 5), "mean power, kW")
    drawing.across(across, bottom, range(shown.first_hour, 25, 2), f"local time on {shown.date}, h")
    for values, number in ((shown.quarters_w, 2), (shown.hours_w, 1)):
        width = len(shown.hours_w) / len(values)
        drawing.path(
            [
                (across(shown.first_hour + (place + side) * width), up(value / 1000))
                for place, value in enumerate(values)
                for side in (0, 1)
            ],
            f"series series-{number}",
        )
    greatest = max(shown.quarters_w)
    x = across(shown.first_hour + (shown.quarters_w.index(greatest) + 1) / invented_house.PER_HOUR)
    drawing.words(x + 6, up(greatest / 1000), "15 minutes", kind="words name-2")
    drawing.words(right + 8, up(shown.hours_w[-1] / 1000), "60 minutes", kind="words name-1")
    return blocks(
        drawing.svg(),
        table(
            ("readings of", "greatest demand", "begins at", "no 15 minutes exceed", "times the greatest"),
            [
                (
                    f"{read.minutes} minutes",
                    f"{read.greatest_w:.0f} W",
                    f"{read.at[:10]} {read.at[11:16]}",
                    f"{read.bound_w:.0f} W",
                    f"{read.factor:.2f}",
                )
                for read in numbers()
            ],
        ),
        f"Read by the hour, this year has a greatest demand of {hour.greatest_w:.0f} W; its greatest quarter of an "
        f"hour is {quarter.greatest_w / hour.greatest_w:.2f} times as much.",
    )
