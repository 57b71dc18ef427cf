"""Fill of a raceway by conductors."""

from math import floor, pi

from branchwright.calculations.calculation import calculation


def conductors_area_in2(
    count: float,
    ungrounded_in2: float,
    neutral_count: float,
    neutral_in2: float,
    grounding_in2: float,
    other_in2: float,
) -> float:
    """Return the area in square inches that conductors take in a raceway, grounding conductor included.

    Source: NEC chapter 9, notes 3 and 6 to the tables.

    >>> round(conductors_area_in2(2.0, 0.0507, 0.0, 0.0, 0.0211, 0.0), 4)
    0.1225
    """
    return count * ungrounded_in2 + neutral_count * neutral_in2 + grounding_in2 + other_in2


@calculation("area of a cable", "3.141592653589793 / 4 * diameter_in ^ 2", "in2")
def circle_area_in2(diameter_in: float) -> float:
    """Return the area in square inches of a circle; of a flat cable the larger diameter counts.

    Source: NEC chapter 9, note 9 to the tables.

    >>> round(circle_area_in2(0.254), 4)
    0.0507
    """
    return pi / 4 * diameter_in**2


@calculation("raceway fill", "round(area_in2 / raceway_in2 * 100, 6)", "%")
def fill_percent(area_in2: float, raceway_in2: float) -> float:
    """Return the fill of a raceway in percent of its area. Source: NEC chapter 9, tables 1 and 4.

    Rounded to a millionth of a percent, so that binary fractions do not move an exact fill across its limit.

    >>> round(fill_percent(0.0532, 0.533), 2)
    9.98
    """
    return round(area_in2 / raceway_in2 * 100, 6)


@calculation(
    "conductors of one size permitted",
    "floor(limit_percent / 100 * raceway_in2 / conductor_in2 + 0.2)",
    "count",
)
def same_size_count(limit_percent: float, raceway_in2: float, conductor_in2: float) -> float:
    """Return how many conductors of one size a raceway takes; a decimal of 0.8 or more counts as one.

    Source: NEC chapter 9, note 7 to the tables.

    >>> same_size_count(40.0, 1.986, 0.0824)
    9.0
    """
    return float(floor(limit_percent / 100 * raceway_in2 / conductor_in2 + 0.2))
