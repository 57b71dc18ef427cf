"""The temperature of conductors in a wet raceway against what the raceway is listed for."""

from dataclasses import dataclass
from functools import cache

from branchwright.calculations.conductor_temperature import operating_temperature_c
from branchwright.codebook import at
from page_parts.markdown import blocks, table
from page_parts.pictures.drawing import Drawing, Scale

EDITION = "nec-2023"
MATERIAL = "copper"
COLUMN_C = 75
AMBIENTS_C = (10, 15, 20, 25, 30, 35, 40, 45, 50)
LOADS = (("10 AWG", 24.0), ("8 AWG", 40.0), ("6 AWG", 48.0), ("4 AWG", 48.0))
"""Conductor and charging current in A, each a pair that a design chooses or a little better."""
LISTINGS = (
    (60.0, "60 degC: not marked, wet or damp"),
    (75.0, "75 degC: marked so"),
    (80.0, "80 degC: not marked, dry"),
)
"""What liquidtight flexible conduit may be listed for: usual listings of unmarked LFNC-B, and a common marking."""


@dataclass(frozen=True)
class Heated:
    """A conductor at a current in A: its ampacity in A, and what it reaches, in degC."""

    size: str
    current_a: float
    ampacity_a: float
    temperatures_c: tuple[float, ...]
    greatest_ambient_c: dict[float, float]

    @property
    def name(self) -> str:
        """Return conductor and current in words."""
        return f"{self.size} at {self.current_a:g} A"


@cache
def numbers() -> tuple[Heated, ...]:
    """Return the temperature of each conductor at each ambient, by the engine's own equation."""
    book = at(EDITION).edition
    base_c = book.provision("base-ambient").number("ambient_c")
    found = []
    for size, current_a in LOADS:
        ampacity_a = book.ampacities_a[size, MATERIAL, COLUMN_C]
        temperatures = tuple(
            operating_temperature_c.value(ambient_c, COLUMN_C, base_c, current_a, ampacity_a, 100)
            for ambient_c in AMBIENTS_C
        )
        rise = temperatures[0] - AMBIENTS_C[0]
        found.append(
            Heated(
                size,
                current_a,
                ampacity_a,
                temperatures,
                {listed_c: listed_c - rise for listed_c, _ in LISTINGS},
            )
        )
    return tuple(found)


def picture() -> str:
    """Return the picture, and its numbers as a table."""
    shown = numbers()
    drawing = Drawing(
        "temperatures",
        680,
        480,
        "Conductor temperature in a raceway against the ambient temperature",
        "Four parallel lines rise with the ambient temperature, one for each conductor and current. Level lines at "
        "60, 75 and 80 degC are what a liquidtight raceway may be listed for. Where a line crosses a level, the "
        "conductor reaches the listing: the table below says at which ambient.",
    )
    left, right, top, bottom = 44, 546, 44, 414
    across = Scale(AMBIENTS_C[0], AMBIENTS_C[-1], left, right)
    up = Scale(20, 90, bottom, top)
    drawing.upwards(up, left, right, range(20, 91, 10), "conductor temperature, degC")
    drawing.across(across, bottom, AMBIENTS_C, "ambient temperature, degC")
    for listed_c, meaning in LISTINGS:
        drawing.line(left, up(listed_c), right, up(listed_c), "limit")
        drawing.words(left + 8, up(listed_c) - 10, meaning, kind="words limit-name")
    for number, item in enumerate(shown, start=1):
        points = [
            (across(ambient_c), up(temperature_c))
            for ambient_c, temperature_c in zip(AMBIENTS_C, item.temperatures_c, strict=True)
        ]
        drawing.path(points, f"series series-{number}")
        drawing.words(right + 8, points[-1][1], item.name, kind=f"words name-{number}")
        for listed_c, ambient_c in item.greatest_ambient_c.items():
            if AMBIENTS_C[0] <= ambient_c <= AMBIENTS_C[-1]:
                drawing.dot(across(ambient_c), up(listed_c), f"mark mark-{number}")
    return blocks(
        drawing.svg(),
        table(
            (
                "conductor",
                "75 degC ampacity",
                "at 30 degC",
                "at 40 degC",
                *(f"reaches {listed_c:g} degC at" for listed_c, _ in LISTINGS),
            ),
            [
                (
                    item.name,
                    f"{item.ampacity_a:g} A",
                    *(
                        f"{item.temperatures_c[AMBIENTS_C.index(ambient_c)]:.1f} degC"
                        for ambient_c in (30, 40)
                    ),
                    *(f"{ambient_c:.1f} degC" for ambient_c in item.greatest_ambient_c.values()),
                )
                for item in shown
            ],
        ),
    )
