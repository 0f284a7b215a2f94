"""Areas of a figure: ranges and regions, limits, maps, and labels in the plot."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from calc.lettering import LEADING, Lettering, apart, width
from calc.marks import Column
from calc.plot import WARNING, Plot, Point, colour
from calc.scale import Axis

Rectangle = tuple[float, float, float, float, int]
"""The two edges in x, the two edges in y, and the class."""


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
            lettering = Lettering((left + right) / 2.0, top + LEADING, (self.label,), "middle")
        else:
            left, right = plot.left, plot.right
            top, bottom = sorted((plot.down(self.low), plot.down(self.high)))
            lettering = Lettering(left + 8.0, (top + bottom) / 2.0, (self.label,))
        box = f'x="{left:.2f}" y="{top:.2f}" width="{right - left:.2f}" height="{bottom - top:.2f}"'
        plot.inside.append(_filled(plot, f"rect {box}", self.style, hatched=self.hatched))
        _inside(plot, lettering)

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
        _inside(plot, Lettering(*middle, (self.label,), "middle"))

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
            run = f"M{x:.2f} {plot.top:.2f}V{plot.bottom:.2f}"
            fits = x + 6.0 + width(self.label) <= plot.right
            lettering = Lettering(
                x + 6.0 if fits else x - 6.0,
                plot.top + LEADING / 2.0,
                (self.label,),
                "start" if fits else "end",
            )
        else:
            y = plot.down(self.value)
            run = f"M{plot.left:.2f} {y:.2f}H{plot.right:.2f}"
            lettering = Lettering(plot.left + 8.0, y - LEADING * 0.6, (self.label,))
        plot.inside.append(
            f'<path d="{run}" stroke="currentColor" stroke-width="1.25" stroke-dasharray="6 3"/>'
        )
        _inside(plot, lettering)

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
        _inside(plot, Lettering(plot.across(self.x), plot.down(self.y), (self.label,), "middle"))

    def columns(self, _x: Axis, _y: Axis) -> list[Column]:
        """Return nothing: a text is no data."""
        return []


@dataclass(frozen=True, slots=True)
class Cells:
    """A map: row j, column i holds the class of the cell between edges j, j + 1 and i, i + 1.

    Class 0 stays blank; the others darken in order, and those in `hatched` are ones to avoid.
    """

    x_edges: Sequence[float]
    y_edges: Sequence[float]
    rows: Sequence[Sequence[int]]
    classes: Sequence[str]
    hatched: Sequence[int] = ()
    style: int = 3

    def draw(self, plot: Plot) -> None:
        """Draw one path for each class, in few large rectangles."""
        across = {edge: f"{plot.across(edge):.2f}" for edge in self.x_edges}
        down = {edge: f"{plot.down(edge):.2f}" for edge in self.y_edges}
        boxes: dict[int, list[str]] = {}
        for left, right, low, high, kind in self.rectangles():
            boxes.setdefault(kind, []).append(
                f"M{across[left]} {down[low]}V{down[high]}H{across[right]}V{down[low]}z"
            )
        for kind, name in enumerate(self.classes[1:], 1):
            shade = 0.7 * kind / (len(self.classes) - 1)
            if kind in self.hatched:
                look = f'fill="{plot.hatch(WARNING)}"'
            else:
                look = f'fill="{colour(self.style)}" fill-opacity="{shade:.2f}"'
            if kind in boxes:
                path = "".join(boxes[kind])
                plot.inside.append(f'<path d="{path}" {look} shape-rendering="crispEdges"/>')
            key = f'<rect width="20" height="12" stroke="currentColor" stroke-width="0.75" {look}/>'
            plot.keys.append((key, name))

    def rectangles(self) -> Iterator[Rectangle]:
        """Return the cells that are not of class 0, neighbours of one class taken together."""
        growing: dict[tuple[int, int, int], int] = {}
        for j, row in enumerate([*self.rows, ()]):
            runs = dict.fromkeys(_runs(row))
            for run in [run for run in growing if run not in runs]:
                first, stop, kind = run
                bottom = growing.pop(run)
                edges = self.x_edges[first], self.x_edges[stop]
                yield (*edges, self.y_edges[bottom], self.y_edges[j], kind)
            for run in runs:
                growing.setdefault(run, j)

    def columns(self, x: Axis, y: Axis) -> list[Column]:
        """Return the rectangles that the map is made of, from the first edges up."""
        boxes = sorted(self.rectangles(), key=lambda box: (box[2], box[0]))
        return [
            (f"{x.title} from", x, [box[0] for box in boxes]),
            (f"{x.title} to", x, [box[1] for box in boxes]),
            (f"{y.title} from", y, [box[2] for box in boxes]),
            (f"{y.title} to", y, [box[3] for box in boxes]),
            ("Class", None, [self.classes[box[4]] for box in boxes]),
        ]


def _runs(row: Sequence[int]) -> Iterator[tuple[int, int, int]]:
    """Return the runs of equal classes in a row, but class 0: first, one past the last, class."""
    first = 0
    for i in range(1, len(row) + 1):
        if i == len(row) or row[i] != row[first]:
            if row[first]:
                yield first, i, row[first]
            first = i


def _filled(plot: Plot, shape: str, style: int, *, hatched: bool) -> str:
    """Return a shape with its tint, or with hatching and an outline in the warning colour."""
    if hatched:
        return f'<{shape} fill="{plot.hatch(WARNING)}" stroke="{WARNING}" stroke-width="1"/>'
    return f'<{shape} fill="{colour(style)}" fill-opacity="0.12"/>'


def _inside(plot: Plot, lettering: Lettering) -> None:
    """Add a label to the plot area, clear of the others there."""
    if any(lettering.lines):
        plot.labels.append(apart(lettering, plot.labels, plot.top, plot.bottom))
