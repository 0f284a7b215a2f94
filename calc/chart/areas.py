"""Areas of a figure: ranges and regions, limits, and labels in the plot."""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.chart.lettering import LEADING, Lettering, shifted
from calc.chart.marks import Column, curve
from calc.chart.plot import WARNING, Plot, Point, colour
from calc.chart.scale import Axis

_ROWS = 10
_NEAR = 0, -1, 1, -2, 2, -3, 3


@dataclass(frozen=True, slots=True)
class Band:
    """A range of x or y, tinted; hatched in the warning colour where it is one to avoid."""

    low: float
    high: float
    axis: str = "x"
    label: str = ""
    hatched: bool = False
    style: int = 1

    def draw(self, plot: Plot) -> None:
        """Draw the range under all lines."""
        if self.axis == "x":
            left, right = sorted((plot.across(self.low), plot.across(self.high)))
            top, bottom = plot.top, plot.bottom
            first = Lettering((left + right) / 2.0, top + LEADING, (self.label,), "middle")
            places = shifted(first, range(_ROWS))
        else:
            left, right = plot.left, plot.right
            top, bottom = sorted((plot.down(self.low), plot.down(self.high)))
            places = _across(plot, (top + bottom) / 2.0, self.label)
        box = f'x="{left:.2f}" y="{top:.2f}" width="{right - left:.2f}" height="{bottom - top:.2f}"'
        plot.inside.append(_filled(plot, f"rect {box}", self.style, hatched=self.hatched))
        _want(plot, self.label, places)

    def columns(self, x: Axis, y: Axis) -> list[Column]:
        """Return the two limits."""
        axis = x if self.axis == "x" else y
        name = self.label or "range"
        return [
            (f"{name}: {axis.title} from", axis, [self.low]),
            (f"{name}: {axis.title} to", axis, [self.high]),
        ]


@dataclass(frozen=True, slots=True)
class Region:
    """The inside of a polygon, tinted; hatched in the warning colour where it is one to avoid."""

    points: Sequence[Point]
    label: str = ""
    hatched: bool = False
    style: int = 1

    def draw(self, plot: Plot) -> None:
        """Draw the region under all lines."""
        outline = f'path d="{plot.path(self.points)}z"'
        plot.inside.append(_filled(plot, outline, self.style, hatched=self.hatched))
        across = [plot.across(x) for x, _ in self.points]
        down = [plot.down(y) for _, y in self.points]
        middle = (min(across) + max(across)) / 2.0, (min(down) + max(down)) / 2.0
        places = shifted(Lettering(*middle, (self.label,), "middle"), _NEAR)
        _want(plot, self.label, places)

    def columns(self, x: Axis, y: Axis) -> list[Column]:
        """Return the corners."""
        name = self.label or "region"
        return [
            (f"{name}: {x.title}", x, [point[0] for point in self.points]),
            (f"{name}: {y.title}", y, [point[1] for point in self.points]),
        ]


@dataclass(frozen=True, slots=True)
class Rule:
    """A straight line across the plot area at a value of x or y, such as a limit."""

    value: float
    axis: str = "y"
    label: str = ""

    def draw(self, plot: Plot) -> None:
        """Draw the line and its label, beside its top or above its left end."""
        if self.axis == "x":
            x = plot.across(self.value)
            read = ""
            run = f"M{x:.2f} {plot.top:.2f}V{plot.bottom:.2f}"
            right = Lettering(x + 6.0, plot.top + LEADING / 2.0, (self.label,))
            left = Lettering(x - 6.0, plot.top + LEADING / 2.0, (self.label,), "end")
            rows = range(_ROWS)
            pairs = zip(shifted(right, rows), shifted(left, rows), strict=True)
            places = [place for pair in pairs for place in pair]
        else:
            y = plot.down(self.value)
            read = curve(plot, self.label) if self.label else ""
            run = f"M{plot.left:.2f} {y:.3f}L{plot.right:.2f} {y:.3f}"
            above, below = y - LEADING * 0.6, y + LEADING * 0.6
            places = _across(plot, above, self.label) + _across(plot, below, self.label)
        plot.inside.append(
            f'<path d="{run}" stroke="currentColor" stroke-width="1.25"'
            f' stroke-dasharray="6 3"{read}/>'
        )
        _want(plot, self.label, places)

    def columns(self, x: Axis, y: Axis) -> list[Column]:
        """Return the value."""
        axis = x if self.axis == "x" else y
        return [(f"{self.label or 'limit'}: {axis.title}", axis, [self.value])]


@dataclass(frozen=True, slots=True)
class Label:
    """A text centred at a place in the plot area."""

    x: float
    y: float
    label: str

    def draw(self, plot: Plot) -> None:
        """Write the text over all lines."""
        place = Lettering(plot.across(self.x), plot.down(self.y), (self.label,), "middle")
        _want(plot, self.label, [place])

    def columns(self, _x: Axis, _y: Axis) -> list[Column]:
        """Return nothing: a text is no data."""
        return []


def _filled(plot: Plot, shape: str, style: int, *, hatched: bool) -> str:
    """Return a shape with its tint, or with hatching and an outline in the warning colour."""
    if hatched:
        return f'<{shape} fill="{plot.hatch(WARNING)}" stroke="{WARNING}" stroke-width="1"/>'
    return f'<{shape} fill="{colour(style)}" fill-opacity="0.12"/>'


def _across(plot: Plot, y: float, label: str) -> list[Lettering]:
    """Return where a label can stand in a row: left, right, middle."""
    lines = (label,)
    return [
        Lettering(plot.left + 8.0, y, lines),
        Lettering(plot.right - 8.0, y, lines, "end"),
        Lettering((plot.left + plot.right) / 2.0, y, lines, "middle"),
    ]


def _want(plot: Plot, label: str, places: list[Lettering]) -> None:
    """Ask for a label, if there is one, in the best of some places."""
    if label:
        plot.wanted.append(places)
