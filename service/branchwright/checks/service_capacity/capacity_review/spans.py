"""A figure between two bounds: with every unknown fact at its best, and at its worst."""

from dataclasses import dataclass


@dataclass(slots=True, frozen=True)
class Span:
    """The least and the greatest that a load may be, as far as the facts tell; equal where they tell it."""

    least: float
    greatest: float

    @property
    def is_known(self) -> bool:
        """Whether both are the same."""
        return self.least == self.greatest


def known(value: float) -> Span:
    """Return the span of a figure that is known."""
    return Span(value, value)
