"""How many nights are met at each control setting, by the rule of sharing."""

from dataclasses import dataclass
from functools import cache

from page_parts.markdown import blocks, table
from page_parts.pictures import managed_house
from page_parts.pictures.drawing import Drawing, Scale

GREATEST_A = 85
SHOWN_A = (30, 35, 40, 45, 50, 55)
"""Settings of the table."""


@dataclass(frozen=True)
class Curve:
    """Share of the nights that are met, in percent, by control setting in A; and the smallest that meets all."""

    sharing: str
    share_percent: dict[float, float]
    smallest_a: float


@dataclass(frozen=True)
class Curves:
    """One curve for each rule of sharing, and what the house alone draws at most, A."""

    by_sharing: tuple[Curve, ...]
    house_alone_a: float


@cache
def numbers() -> Curves:
    """Return the curves as the engine finds them."""
    found = []
    house_alone_a = 0.0
    for sharing in managed_house.SHARING:
        answer = managed_house.answer(sharing)
        if answer.smallest is None or answer.smallest.control_setting_a is None:
            raise ValueError(f"No setting meets every night with {sharing}.")
        points = {point.control_setting_a: point.share_met_percent for point in answer.by_control_setting}
        found.append(Curve(sharing, points, answer.smallest.control_setting_a))
        house_alone_a = answer.smallest.house_alone_a
    return Curves(tuple(found), house_alone_a)


def picture() -> str:
    """Return the picture, and its numbers as a table."""
    shown = numbers()
    drawing = Drawing(
        "nights-met",
        680,
        420,
        "Share of the nights on which every vehicle is full, by control setting and rule of sharing",
        "Three lines rise from no night at about 25 A to every night: "
        + ", ".join(f"at {curve.smallest_a:g} A with {curve.sharing}" for curve in shown.by_sharing)
        + f". An upright line at {shown.house_alone_a:.0f} A is what the house alone draws at most: a lower setting "
        "cannot be held. The table below has numbers of the lines.",
    )
    left, right, top, bottom = 44, 640, 52, 340
    across = Scale(0, GREATEST_A, left, right)
    up = Scale(0, 105, bottom, top)
    drawing.upwards(up, left, right, range(0, 101, 20), "nights met, %")
    drawing.across(across, bottom, range(0, GREATEST_A, 10), "control setting, A")
    x = across(shown.house_alone_a)
    drawing.line(x, top - 8, x, bottom, "dear")
    drawing.words(x, top - 18, "the house alone", "middle", "words dear-name")
    for number, curve in enumerate(shown.by_sharing, start=1):
        points = [(a, share) for a, share in sorted(curve.share_percent.items()) if a <= GREATEST_A]
        drawing.path([(across(a), up(share)) for a, share in points], f"series series-{number}")
        drawing.dot(across(curve.smallest_a), up(100), f"mark mark-{number}")
        drawing.words(across(3), up(92 - 9 * number), curve.sharing, kind=f"words name-{number}")
    return blocks(
        drawing.svg(),
        table(
            ("sharing", "every night from", *(f"at {a} A" for a in SHOWN_A)),
            [
                (
                    curve.sharing,
                    f"{curve.smallest_a:g} A",
                    *(_share(curve, a) for a in SHOWN_A),
                )
                for curve in shown.by_sharing
            ],
        ),
    )


def _share(curve: Curve, setting_a: float) -> str:
    """Return a point of the line: as simulated, or between the two settings that were."""
    if setting_a in curve.share_percent:
        return f"{curve.share_percent[setting_a]:.1f} %"
    below = max(a for a in curve.share_percent if a < setting_a)
    above = min(a for a in curve.share_percent if a > setting_a)
    return f"{curve.share_percent[below]:.1f} to {curve.share_percent[above]:.1f} %"
