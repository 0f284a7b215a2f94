"""What a figure is made of: lines, points, ranges, regions, labels and maps."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from calc.chart.lettering import around
from calc.chart.palette import DASHES
from calc.chart.plot import PAPER, Plot, Point, colour
from calc.chart.scale import Axis

Column = tuple[str, Axis | None, Sequence[float | str]]
"""A heading, the axis its numbers belong to (none for words), and what stands under it."""

_CIRCLE = "m-4 0a4 4 0 1 0 8 0a4 4 0 1 0 -8 0z"
_SHAPES = {
    "circle": _CIRCLE,
    "square": "m-3.5 -3.5h7v7h-7z",
    "triangle": "m0 -4.5l4.3 7.5h-8.6z",
    "diamond": "m0 -5l4.5 5l-4.5 5l-4.5 -5z",
    "cross": "m-3.5 -3.5l7 7m0 -7l-7 7",
    "plus": "m-4.5 0h9m-4.5 -4.5v9",
}
"""Outlines about a point; those that close are filled."""

_HEADS = tuple(_SHAPES.values())


@dataclass(frozen=True, slots=True)
class Line:
    """A line through points, labelled where it ends.

    A style from 1 to 6 sets colour and dashes together; style 0 is a thin line for reference.
    """

    points: Sequence[Point]
    label: str = ""
    style: int = 1
    dash: str | None = None

    @property
    def look(self) -> str:
        """Colour, width and dashes."""
        own = DASHES[self.style - 1] if self.style else ()
        dash = " ".join(map(str, own)) if self.dash is None else self.dash
        dashes = f' stroke-dasharray="{dash}"' if dash else ""
        thick = 2 if self.style else 1
        return f'fill="none" stroke="{colour(self.style)}" stroke-width="{thick}"{dashes}'

    def draw(self, plot: Plot) -> None:
        """Draw the line; its label is placed by the chart."""
        line = plot.path(self.points, covers=True)
        seen = (self.style or self.label) and self.end(plot.x, plot.y)
        read = curve(plot, self.label) if seen else ""
        plot.inside.append(f'<path d="{line}" {self.look} stroke-linejoin="round"{read}/>')

    def end(self, x: Axis, y: Axis) -> Point | None:
        """Return where the visible line ends, each from 0 to 1 across the plot area, or None."""
        last: Point | None = None
        for value_x, value_y in reversed(self.points):
            point = x.at(value_x), y.at(value_y)
            if not math.isfinite(point[0] + point[1]):
                last = None
                continue
            if all(-1e-9 <= place <= 1.0 + 1e-9 for place in point):
                return _leaving(point, last) if last else point
            if last and (crossing := _leaving(point, last)):
                return crossing
            last = point
        return None

    def columns(self, x: Axis, y: Axis) -> list[Column]:
        """Return the points as columns."""
        heading = f"{self.label}: {y.title}" if self.label else y.title
        return [
            (x.title, x, [point[0] for point in self.points]),
            (heading, y, [point[1] for point in self.points]),
        ]


@dataclass(frozen=True, slots=True)
class Points:
    """Separate points, such as measurements, labelled beside the last one."""

    points: Sequence[Point]
    label: str = ""
    style: int = 1
    shape: str = "circle"

    def draw(self, plot: Plot) -> None:
        """Draw the points over the lines."""
        outline = _SHAPES[self.shape]
        places = [(plot.across(x), plot.down(y)) for x, y in self.points]
        places = [place for place in places if math.isfinite(sum(place))]
        for place in places:
            plot.cover(place, place)
        drawn = "".join(f"M{x:.3f} {y:.3f}{outline}" for x, y in places)
        fill = PAPER if outline.endswith("z") else "none"
        look = f'fill="{fill}" stroke="{colour(self.style)}" stroke-width="1.75"'
        plot.inside.append(f'<path d="{drawn}" {look}{dots(plot, self.label)}/>')
        if self.label and places:
            plot.wanted.append(around(*places[-1], 10.0, self.label))

    def columns(self, x: Axis, y: Axis) -> list[Column]:
        """Return the points as columns."""
        return Line(self.points, self.label).columns(x, y)


@dataclass(frozen=True, slots=True)
class Stems:
    """Lines from zero up to points: a spectrum."""

    points: Sequence[Point]
    label: str = ""
    style: int = 1

    def draw(self, plot: Plot) -> None:
        """Draw a stem with a dot for each point."""
        floor = _floor(plot)
        head = _HEADS[self.style - 1]
        ink = colour(self.style)
        look = f'fill="{ink}" stroke="{ink}" stroke-width="1.75"'
        places = [(plot.across(x), plot.down(y)) for x, y in self.points]
        drawn = "".join(
            f"M{x:.3f} {floor:.2f}V{y:.3f}{head}" for x, y in places if math.isfinite(x + y)
        )
        plot.inside.append(f'<path d="{drawn}" {look}{dots(plot, self.label)}/>')
        if self.label:
            plot.keys.append((f'<path d="M0 6H14{head}" {look}/>', self.label))

    def columns(self, x: Axis, y: Axis) -> list[Column]:
        """Return the points as columns."""
        return Line(self.points, self.label).columns(x, y)


@dataclass(frozen=True, slots=True)
class Bars:
    """Bars from zero up to points, of one width in units of x."""

    points: Sequence[Point]
    width: float
    label: str = ""
    style: int = 1

    def draw(self, plot: Plot) -> None:
        """Draw the bars: solid in styles 1, 3 and 5, hatched in 2, 4 and 6."""
        floor = _floor(plot)
        ink = colour(self.style)
        fill = ink if self.style % 2 else plot.hatch(ink, 45 if self.style % 4 else -45)
        half = self.width / 2.0
        boxes = "".join(
            f"M{plot.across(x - half):.3f} {floor:.2f}V{plot.down(y):.3f}"
            f"H{plot.across(x + half):.3f}V{floor:.2f}z"
            for x, y in self.points
            if math.isfinite(x + y)
        )
        look = f'fill="{fill}" stroke="{ink}" stroke-width="1"'
        plot.inside.append(f'<path d="{boxes}" {look}{dots(plot, self.label)}/>')
        if self.label:
            plot.keys.append((f'<rect width="20" height="10" {look}/>', self.label))

    def columns(self, x: Axis, y: Axis) -> list[Column]:
        """Return the points as columns."""
        return Line(self.points, self.label).columns(x, y)


def curve(plot: Plot, label: str) -> str:
    """Return the attribute that makes a line one to read values from, under its label."""
    return f' data-curve="{escape(label or plot.y.label)}"'


def dots(plot: Plot, label: str) -> str:
    """Return the attribute that makes separate points ones to read values from."""
    return f' data-dots="{escape(label or plot.y.label)}"'


def _floor(plot: Plot) -> float:
    """Return where zero lies, or the bottom where it is out of sight or cannot be shown."""
    zero = plot.down(0.0)
    return min(max(zero, plot.top), plot.bottom) if math.isfinite(zero) else plot.bottom


def _leaving(inner: Point, outer: Point) -> Point | None:
    """Return where the piece from one point to another leaves the plot area (0 to 1), or None."""
    first, last = 0.0, 1.0
    for start, stop in zip(inner, outer, strict=True):
        run = stop - start
        if run == 0.0:
            if not 0.0 <= start <= 1.0:
                return None
            continue
        into, out = sorted((-start / run, (1.0 - start) / run))
        first, last = max(first, into), min(last, out)
    if first > last:
        return None
    return inner[0] + last * (outer[0] - inner[0]), inner[1] + last * (outer[1] - inner[1])
