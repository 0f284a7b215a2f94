"""Maps of a figure: cells of a grid in classes, drawn in few large rectangles."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from calc.chart.marks import Column
from calc.chart.plot import WARNING, Plot, colour
from calc.chart.scale import Axis

Rectangle = tuple[float, float, float, float, int]
"""The two edges in x, the two edges in y, and the class."""


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
