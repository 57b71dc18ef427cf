"""Load against limit over the day of the worst night: what the house draws, and what charging adds to it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import groupby

from page_parts.markdown import blocks, table
from page_parts.pictures import managed_house
from page_parts.pictures.drawing import Drawing, Scale

SHARING = "equal"


@dataclass(frozen=True)
class Interval:
    """A quarter of an hour: local time, what the house draws, what is left of the setting, what charges. A."""

    clock: str
    house_a: float
    left_a: float
    charging_a: float
    vehicles: int

    @property
    def total_a(self) -> float:
        """Return house and charging together."""
        return self.house_a + self.charging_a

    @property
    def is_waiting(self) -> bool:
        """Return whether a vehicle needs energy and none is charging."""
        return self.vehicles > 0 and self.charging_a == 0


@cache
def numbers() -> tuple[Interval, ...]:
    """Return the worst day as the engine simulates it."""
    worst = managed_house.answer(SHARING).worst_day
    if worst is None:
        raise ValueError("No night was simulated.")
    found = []
    for each in worst.intervals:
        if each.house_a is None:
            raise ValueError(f"The house has no reading at {each.at}.")
        found.append(Interval(each.at[11:16], each.house_a, each.available_a, each.charging_a, each.vehicles))
    return tuple(found)


def date() -> str:
    """Return the local date of the worst night."""
    worst = managed_house.answer(SHARING).worst_day
    return "" if worst is None else worst.date


def picture() -> str:
    """Return the picture, and its numbers hour by hour as a table."""
    shown = numbers()
    setting, service = managed_house.CONTROL_SETTING_A, managed_house.SERVICE_A
    drawing = Drawing(
        "worst-day",
        680,
        420,
        "Current on the service over the day of the worst night, against the control setting",
        f"The house's current rises to {max(each.house_a for each in shown):.0f} A in the evening. Charging fills what "
        f"is left below the control setting of {setting} A, in whole amperes, waits where less than 6 A are left, and "
        "resumes a quarter of an hour after there is enough again. The sum never passes the setting. The table below "
        "has the numbers of each hour.",
    )
    left, right, top, bottom = 44, 500, 44, 350
    across = Scale(0, len(shown), left, right)
    up = Scale(0, 110, bottom, top)
    drawing.upwards(up, left, right, range(0, 101, 20), "current on the larger leg, A")
    _clock(drawing, across, bottom, [each.clock for each in shown])
    house = _stairs([each.house_a for each in shown], across, up)
    total = _stairs([each.total_a for each in shown], across, up)
    drawing.area([*total, *reversed(house)], "area area-2")
    drawing.area([(left, bottom), *house, (right, bottom)], "area area-1")
    drawing.path(total, "series series-2")
    drawing.path(house, "series series-1")
    drawing.line(left, up(setting), right, up(setting), "limit")
    drawing.line(left, up(service), right, up(service), "demand")
    drawing.words(right + 8, up(setting), f"control setting, {setting} A", kind="words limit-name")
    drawing.words(right + 8, up(service), f"service rating, {service} A")
    for first, last in _stretches(shown, lambda each: each.is_waiting):
        drawing.box(across(first), top + 6, across(last) - across(first), 12, "band band-1")
        drawing.words(across(first) - 6, top + 12, "waiting", "end")
    drawing.words(right + 8, up(shown[-1].house_a), "house", kind="words name-1")
    begins = next(place for place, each in enumerate(shown) if each.charging_a and each.clock > "12:00")
    drawing.words(across(begins) - 6, up(shown[begins].total_a), "with charging", "end", "words name-2")
    return blocks(drawing.svg(), _table(shown))


def _stairs(values: Sequence[float], across: Scale, up: Scale) -> list[tuple[float, float]]:
    """Return a line that stands level over each interval."""
    return [(across(place + side), up(value)) for place, value in enumerate(values) for side in (0, 1)]


def _clock(drawing: Drawing, across: Scale, y: float, clocks: Sequence[str]) -> None:
    """Draw the axis of time with a mark every three hours."""
    drawing.line(across.start, y, across.end, y, "axis")
    for place, clock in enumerate(clocks):
        if clock.endswith(":00") and int(clock[:2]) % 3 == 0:
            drawing.line(across(place), y, across(place), y + 5, "axis")
            drawing.words(across(place), y + 16, clock, "middle")
    drawing.words((across.start + across.end) / 2, y + 40, "local time", "middle", "axis-title")


def _stretches(shown: Sequence[Interval], holds: Callable[[Interval], bool]) -> list[tuple[int, int]]:
    """Return the first and the next place after each stretch of intervals for which something holds."""
    found = []
    for is_held, group in groupby(enumerate(shown), key=lambda each: holds(each[1])):
        places = [place for place, _ in group]
        if is_held:
            found.append((places[0], places[-1] + 1))
    return found


def hours(shown: Sequence[Interval]) -> list[tuple[str, list[Interval]]]:
    """Return the intervals of each hour after its beginning by the clock."""
    return [(clock, list(group)) for clock, group in groupby(shown, key=lambda each: each.clock[:2] + ":00")]


def _table(shown: Sequence[Interval]) -> str:
    return table(
        (
            "hour from",
            "house, A",
            "left for charging, A",
            "charging, A",
            "house and charging at most, A",
            "waiting",
        ),
        [
            (
                clock,
                _span([each.house_a for each in group]),
                _span([each.left_a for each in group]),
                _span([each.charging_a for each in group]),
                f"{max(each.total_a for each in group):.1f}",
                f"{15 * sum(each.is_waiting for each in group)} min" if any(map(_waits, group)) else "",
            )
            for clock, group in hours(shown)
        ],
    )


def _waits(interval: Interval) -> bool:
    return interval.is_waiting


def _span(values: Sequence[float]) -> str:
    least, most = (f"{number:.1f}".removesuffix(".0") for number in (min(values), max(values)))
    return least if least == most else f"{least} to {most}"
