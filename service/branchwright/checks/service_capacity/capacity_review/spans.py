"""A figure as the facts tell it: as answers give it, and with every unknown fact at its best and at its worst."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import fsum


@dataclass(slots=True, frozen=True)
class Span:
    """The least and the greatest that a load may be, and what is reported; all alike where nothing is unknown."""

    least: float
    reported: float
    greatest: float

    @property
    def is_known(self) -> bool:
        """Whether no unknown fact moves it."""
        return self.least == self.greatest


def known(value: float) -> Span:
    """Return the span of a figure that is known."""
    return Span(value, value, value)


def each(figure: Callable[[float], float], span: Span) -> Span:
    """Return what a rising figure of a load comes to: at its least, as reported, at its greatest."""
    return Span(figure(span.least), figure(span.reported), figure(span.greatest))


def both(figure: Callable[[float, float], float], one: Span, other: Span) -> Span:
    """Return what a rising figure of two loads comes to: both at their least, as reported, at their greatest."""
    return Span(
        figure(one.least, other.least),
        figure(one.reported, other.reported),
        figure(one.greatest, other.greatest),
    )


def total(spans: Sequence[Span]) -> Span:
    """Return the sum of loads; their order does not matter."""
    return Span(
        fsum(span.least for span in spans),
        fsum(span.reported for span in spans),
        fsum(span.greatest for span in spans),
    )
