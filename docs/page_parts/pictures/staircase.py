"""What each charging current asks for: the staircase of breaker, conductors and raceway."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import groupby
from typing import Any

from branchwright.jobs.current_comparison import CurrentComparisonRequest, compare
from branchwright.jobs.current_comparison.answers import ComparedCurrent
from page_parts.markdown import blocks, bullets, table
from page_parts.pictures.drawing import Drawing, Scale

EDITION = "nec-2023"
CURRENTS_A = range(6, 81)
MOST_A_REQUEST = 40
"""How many currents one comparison takes."""
LUGS = {"temperature_rating_c": 75, "materials": ["copper"]}
ROWS: tuple[tuple[str, Callable[["Stair"], str]], ...] = (
    ("conductors, AWG", lambda at: at.ungrounded.removesuffix(" AWG")),
    ("grounding, AWG", lambda at: at.grounding.removesuffix(" AWG")),
    ("EMT, trade size", lambda at: at.trade_size),
    ("disconnect", lambda at: "asked for" if at.disconnect else "not asked for"),
)


@dataclass(frozen=True)
class Stair:
    """What one charging current asks for. Currents in A."""

    current_a: int
    breaker_a: float
    ungrounded: str
    grounding: str
    trade_size: str
    disconnect: bool


def request(currents_a: Sequence[int]) -> dict[str, Any]:
    """Return the question: a charger in a garage, 50 ft of tubing, every terminal marked 75 degC."""
    return {
        "edition": EDITION,
        "premises": {"occupancy": "one-family", "charger_location": "garage"},
        "supply": {"system": "split-phase-120-240"},
        "charger": {"connection": {"kind": "hardwired"}, "terminals": LUGS},
        "breaker": {"terminals": LUGS, "listed_for_panel": True},
        "conductors": {"material": "copper", "insulation": "THWN-2"},
        "run": [
            {
                "wiring_method": "emt",
                "length": {"value": 50, "unit": "ft"},
                "location": "dry",
                "ambient_c": 30,
            }
        ],
        "currents_a": list(currents_a),
    }


@cache
def _compared() -> tuple[ComparedCurrent, ...]:
    """Return the engine's comparison of all currents; one request takes a part of them, the next goes on from it."""
    rows: list[ComparedCurrent] = []
    for start in range(0, len(CURRENTS_A), MOST_A_REQUEST - 1):
        part = CURRENTS_A[start : start + MOST_A_REQUEST]
        answer = compare(CurrentComparisonRequest.model_validate(request(part)))
        # What the next request takes up again is marked there, where the step after it is seen.
        rows = [*rows[:-1], *answer.rows]
    return tuple(rows)


@cache
def numbers() -> tuple[Stair, ...]:
    """Return what each current asks for, as the engine compares them."""
    return tuple(_stair(row) for row in _compared())


def _stair(row: ComparedCurrent) -> Stair:
    if row.breaker_rating_a is None or row.ungrounded_size is None or row.grounding_size is None:
        raise ValueError(f"No circuit was designed for {row.charging_current_a:g} A.")
    return Stair(
        int(row.charging_current_a),
        row.breaker_rating_a,
        row.ungrounded_size,
        row.grounding_size,
        row.raceways[0].trade_size,
        bool(row.disconnect_required),
    )


def marks() -> dict[int, str]:
    """Return the currents in A at which the engine says to stop, with its reason in words."""
    return {int(row.charging_current_a): row.mark for row in _compared() if row.mark is not None}


def _spans(value: Callable[[Stair], str]) -> list[tuple[str, int, int]]:
    """Return each value with the first and the last current that has it."""
    found = []
    for text, stairs in groupby(numbers(), key=value):
        currents = [item.current_a for item in stairs]
        found.append((text, currents[0], currents[-1]))
    return found


def picture() -> str:
    """Return the picture, and its steps as a table."""
    stops = marks()
    left, right, top, bottom = 136, 672, 72, 340
    bands = bottom + 58
    drawing = Drawing(
        "staircase",
        680,
        bands + 30 * len(ROWS),
        "Breaker, conductors and raceway by charging current",
        "A staircase of breaker ratings rises from 15 A to 100 A over charging currents from 6 A to 80 A. Bands below "
        "it show the sizes of conductors, grounding conductor and raceway, and where a disconnect is asked for. "
        + ". ".join(_in_words()),
    )
    across = Scale(CURRENTS_A[0] - 0.5, CURRENTS_A[-1] + 0.5, left, right)
    up = Scale(0, 110, bottom, top)
    drawing.upwards(up, left, right, range(0, 101, 20), "breaker, A")
    drawing.across(across, bottom, (6, *range(10, 81, 10)), "charging current, A")
    drawing.words(left - 8, top - 54, "stop at, A", "end", "axis-title")
    for current_a in stops:
        edge = across(current_a + 0.5)
        drawing.line(edge, top - 44, edge, bottom, "dear")
        drawing.words(edge, top - 54, f"{current_a}", "middle", "words dear-name")
    stairs: list[tuple[float, float]] = []
    for rating, first, last in _spans(lambda at: f"{at.breaker_a:g}"):
        y = up(float(rating))
        stairs += [(across(first - 0.5), y), (across(last + 0.5), y)]
        drawing.words(across(first - 0.5) + 4, y - 10, rating)
    drawing.path(stairs, "series series-1")
    for row, (title, value) in enumerate(ROWS):
        y = bands + 30 * row
        drawing.words(left - 8, y + 11, title, "end")
        for number, (text, first, last) in enumerate(_spans(value)):
            start, end = across(first - 0.5), across(last + 0.5)
            drawing.box(start, y, end - start, 22, f"band band-{number % 2}")
            drawing.words((start + end) / 2, y + 11, text, "middle")
    return blocks(
        drawing.svg(),
        bullets(_in_words()),
        table(
            ("charging current", "breaker", "conductors", "grounding conductor", "raceway", "disconnect"),
            [
                (
                    f"{first.current_a} A" if first == last else f"{first.current_a} to {last.current_a} A",
                    f"{first.breaker_a:g} A",
                    first.ungrounded,
                    first.grounding,
                    f"EMT {first.trade_size}",
                    "asked for" if first.disconnect else "",
                )
                for first, last in _alike()
            ],
        ),
    )


def _in_words() -> list[str]:
    return [f"{current_a} A: {reason}" for current_a, reason in marks().items()]


def _alike() -> list[tuple[Stair, Stair]]:
    """Return the first and the last of the currents that ask for the same circuit."""
    found = []
    for _, stairs in groupby(
        numbers(), key=lambda at: (at.breaker_a, at.ungrounded, at.grounding, at.trade_size, at.disconnect)
    ):
        same = list(stairs)
        found.append((same[0], same[-1]))
    return found
