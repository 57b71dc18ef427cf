"""Lines, marks and words of a picture as SVG, which takes its colours and its face from the page around it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from html import escape
from typing import Literal

Anchor = Literal["start", "middle", "end"]

FONT_SIZE = 13
"""Of all words in a picture, in its own units; it is never shown smaller than at one unit a pixel."""


@dataclass(frozen=True)
class Scale:
    """Numbers between two limits as places along an axis."""

    low: float
    high: float
    start: float
    end: float

    def __call__(self, number: float) -> float:
        """Return the place of a number."""
        return self.start + (number - self.low) / (self.high - self.low) * (self.end - self.start)


@dataclass
class Drawing:
    """A picture of a width and height, with a title and a description for those who do not see it."""

    name: str
    width: int
    height: int
    title: str
    description: str
    _parts: list[str] = field(default_factory=list)

    def line(self, from_x: float, from_y: float, to_x: float, to_y: float, kind: str) -> None:
        """Draw a straight line; `kind` names its style."""
        self._parts.append(
            f'<line class="{kind}" x1="{from_x:.1f}" y1="{from_y:.1f}" x2="{to_x:.1f}" y2="{to_y:.1f}"/>'
        )

    def path(self, points: Iterable[tuple[float, float]], kind: str) -> None:
        """Draw a line through points."""
        written = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
        self._parts.append(f'<polyline class="{kind}" points="{written}"/>')

    def area(self, points: Iterable[tuple[float, float]], kind: str) -> None:
        """Fill what points enclose."""
        written = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
        self._parts.append(f'<polygon class="{kind}" points="{written}"/>')

    def dot(self, x: float, y: float, kind: str, radius: float = 3.5) -> None:
        """Draw a dot."""
        self._parts.append(f'<circle class="{kind}" cx="{x:.1f}" cy="{y:.1f}" r="{radius}"/>')

    def box(self, x: float, y: float, width: float, height: float, kind: str) -> None:
        """Draw a box."""
        self._parts.append(
            f'<rect class="{kind}" x="{x:.1f}" y="{y:.1f}" width="{width:.1f}" height="{height:.1f}"/>'
        )

    def words(self, x: float, y: float, text: str, anchor: Anchor = "start", kind: str = "words") -> None:
        """Write words on a line whose middle is at y."""
        self._parts.append(
            f'<text class="{kind}" x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" dominant-baseline="central">'
            f"{escape(text)}</text>"
        )

    def across(self, scale: Scale, y: float, marks: Sequence[float], title: str) -> None:
        """Draw an axis from left to right with its marks below, and its title below them."""
        self.line(scale.start, y, scale.end, y, "axis")
        for mark in marks:
            self.line(scale(mark), y, scale(mark), y + 5, "axis")
            self.words(scale(mark), y + 15, f"{mark:g}", "middle")
        self.words((scale.start + scale.end) / 2, y + 36, title, "middle", "axis-title")

    def upwards(self, scale: Scale, x: float, right: float, marks: Sequence[float], title: str) -> None:
        """Draw an axis from bottom to top with its marks, a line across to `right` for each, and its title on top."""
        for mark in marks:
            self.line(x, scale(mark), right, scale(mark), "grid")
            self.words(x - 8, scale(mark), f"{mark:g}", "end")
        self.line(x, scale.start, x, scale.end, "axis")
        self.words(4, scale.end - 18, title, "start", "axis-title")

    def svg(self) -> str:
        """Return the picture as a figure for a page."""
        return "\n".join(
            (
                '<figure class="picture">',
                f'<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 {self.width} {self.height}" '
                f'width="{self.width}" height="{self.height}" font-size="{FONT_SIZE}" '
                f'aria-labelledby="{self.name}-title {self.name}-description">',
                f'<title id="{self.name}-title">{escape(self.title)}</title>',
                f'<desc id="{self.name}-description">{escape(self.description)}</desc>',
                *self._parts,
                "</svg>",
                "</figure>",
            )
        )
