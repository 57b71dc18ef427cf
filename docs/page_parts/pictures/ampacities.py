"""Ampacity by size and temperature column, with the circuits that chargers need."""

from dataclasses import dataclass
from functools import cache

from branchwright.codebook import at
from branchwright.codebook.editions import EditionBook
from branchwright.quantities.conductor_sizes import SIZES
from page_parts.markdown import blocks, table
from page_parts.pictures.drawing import Drawing, Scale

EDITION = "nec-2023"
MATERIAL = "copper"
COLUMNS = (60, 75, 90)
LARGEST = "1/0 AWG"
CURRENTS_A = (16, 24, 32, 40, 48, 64, 80)
"""Charging currents that are often met with."""


@dataclass(frozen=True)
class ChargingCircuit:
    """A charging current, 125 percent of it, and the smallest size by the column of the terminals. Currents in A."""

    current_a: float
    least_a: float
    breaker_a: float
    smallest: dict[int, str]


@dataclass(frozen=True)
class Ampacities:
    """The numbers of the picture: ampacities in A by column, one for each size, and the circuits on them."""

    sizes: tuple[str, ...]
    columns: dict[int, tuple[float, ...]]
    circuits: tuple[ChargingCircuit, ...]


@cache
def numbers() -> Ampacities:
    """Return the numbers of the picture from the codebook."""
    edition = at(EDITION).edition
    sizes = tuple(SIZES[: SIZES.index(LARGEST) + 1])
    factor = edition.provision("continuous-load").number("factor")
    circuits = []
    for current_a in CURRENTS_A:
        least_a = factor * current_a
        breaker = edition.standard_rating_at_least(least_a)
        if breaker is None:
            raise ValueError(f"{EDITION} has no breaker for {least_a:g} A.")
        smallest = {column: _smallest(edition, column, least_a, breaker.number) for column in (60, 75)}
        circuits.append(ChargingCircuit(current_a, least_a, breaker.number, smallest))
    return Ampacities(
        sizes,
        {column: tuple(edition.ampacities_a[size, MATERIAL, column] for size in sizes) for column in COLUMNS},
        tuple(circuits),
    )


def _smallest(edition: EditionBook, column: int, least_a: float, breaker_a: float) -> str:
    """Return the smallest size that carries the current and that the breaker may protect by 240.4(D)."""
    for size in SIZES:
        limit = edition.small_conductor_limit(MATERIAL, size)
        if edition.ampacities_a.get((size, MATERIAL, column), 0.0) >= least_a and (
            limit is None or limit.number >= breaker_a
        ):
            return size
    raise ValueError(f"No size has {least_a:g} A in the {column} degC column.")


def picture() -> str:
    """Return the picture, and its numbers as a table."""
    shown = numbers()
    drawing = Drawing(
        "ampacities",
        680,
        510,
        "Ampacity of copper conductors by size, and the circuits that chargers need",
        "Three lines rise from 14 AWG to 1/0 AWG: the 60, 75 and 90 degC columns of the ampacity table. Level lines "
        "show 125 percent of seven charging currents, from 20 A to 100 A; each begins at the smallest conductor that "
        "serves it with terminals of 75 degC. The table below has the same numbers.",
    )
    left, right, top, bottom = 44, 506, 44, 440
    across = Scale(0, len(shown.sizes) - 1, left + 20, right - 20)
    up = Scale(0, 180, bottom, top)
    drawing.upwards(up, left, right, range(0, 181, 20), "ampacity, A")
    drawing.line(left, bottom, right, bottom, "axis")
    for place, size in enumerate(shown.sizes):
        drawing.line(across(place), bottom, across(place), bottom + 5, "axis")
        drawing.words(across(place), bottom + 16, size.removesuffix(" AWG"), "middle")
    drawing.words((left + right) / 2, bottom + 38, "conductor size, AWG", "middle", "axis-title")
    for circuit in shown.circuits:
        place = shown.sizes.index(circuit.smallest[75])
        y = up(circuit.least_a)
        drawing.line(across(place), up(shown.columns[75][place]), across(place), y, "demand")
        drawing.line(across(place), y, right + 6, y, "demand")
        drawing.words(right + 10, y, f"{circuit.current_a:g} A charging: {circuit.least_a:g} A", kind="words")
    for number, (column, ampacities) in enumerate(shown.columns.items(), start=1):
        points = [(across(place), up(ampacity)) for place, ampacity in enumerate(ampacities)]
        drawing.path(points, f"series series-{number}")
        for x, y in points:
            drawing.dot(x, y, f"mark mark-{number}")
        drawing.words(right + 10, points[-1][1], f"{column} degC column", kind=f"words name-{number}")
    return blocks(
        drawing.svg(),
        table(
            (
                "charging current",
                "times 125 percent",
                "breaker",
                "smallest, 60 degC terminals",
                "smallest, 75 degC terminals",
            ),
            [
                (
                    f"{circuit.current_a:g} A",
                    f"{circuit.least_a:g} A",
                    f"{circuit.breaker_a:g} A",
                    circuit.smallest[60],
                    circuit.smallest[75],
                )
                for circuit in shown.circuits
            ],
        ),
    )
