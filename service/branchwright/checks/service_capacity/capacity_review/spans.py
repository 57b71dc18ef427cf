"""A figure as the facts tell it: as answers give it, and with every unknown fact at its best and at its worst."""

from collections.abc import Callable
from dataclasses import dataclass


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


def together(figure: Callable[..., float], *spans: Span) -> Span:
    """Return what a rising figure of several loads comes to: all at their least, as reported, at their greatest."""
    return Span(
        figure(*(span.least for span in spans)),
        figure(*(span.reported for span in spans)),
        figure(*(span.greatest for span in spans)),
    )
