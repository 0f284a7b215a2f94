"""The plot area of a figure: where things lie on the drawing, in which colours and patterns."""

import json
import math
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from html import escape

from calc.chart.lettering import GRID, Cell, Lettering, appears, best
from calc.chart.palette import named
from calc.chart.scale import Axis
from calc.digits import plain

PAPER, RULE, WARNING = named("paper"), named("rule"), named("warning")

_FAR = 1e4

Point = tuple[float, float]


def colour(style: int) -> str:
    """Return the colour of a style from 1 to 6; style 0 is that of the text."""
    return named(f"data-{style}") if style else "currentColor"


@dataclass(slots=True)
class Plot:
    """A plot area under construction.

    Marks draw into `inside`, which is clipped, and `outside`.  Of each label they want in the
    plot area they give the places it can take; `drawn` holds the cells that lines and points cover.
    """

    identity: str
    x: Axis
    y: Axis
    left: float
    top: float
    right: float
    bottom: float
    inside: list[str] = field(default_factory=list)
    outside: list[str] = field(default_factory=list)
    labels: list[Lettering] = field(default_factory=list)
    wanted: list[list[Lettering]] = field(default_factory=list)
    drawn: set[Cell] = field(default_factory=set)
    keys: list[tuple[str, str]] = field(default_factory=list)
    patterns: dict[tuple[str, int], str] = field(default_factory=dict)

    def across(self, x: float) -> float:
        """Return where a value of x lies on the drawing."""
        return self._near(self.left + (self.right - self.left) * self.x.at(x))

    def down(self, y: float) -> float:
        """Return where a value of y lies on the drawing."""
        return self._near(self.bottom - (self.bottom - self.top) * self.y.at(y))

    @property
    def area(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom."""
        return self.left, self.top, self.right, self.bottom

    @contextmanager
    def step(self, number: int) -> Iterator[None]:
        """Let what is drawn in the plot area meanwhile appear in a step of the figure."""
        drawn, wanted = len(self.inside), len(self.wanted)
        yield
        if number:
            group = f"<g{appears(number)}>"
            self.inside[drawn:] = [group, *self.inside[drawn:], "</g>"]
            self.wanted[wanted:] = [
                [replace(place, step=number) for place in places] for places in self.wanted[wanted:]
            ]

    def place_labels(self) -> None:
        """Place each wanted label where it covers least."""
        for choices in self.wanted:
            self.labels.append(best(choices, self.labels, self.drawn, self.area))

    def path(self, points: Sequence[Point], *, covers: bool = False) -> str:
        """Return the path through points; a value that is not finite breaks it."""
        across, down = self.across, self.down
        pieces = []
        last: Point | None = None
        for x, y in points:
            place = across(x), down(y)
            if math.isfinite(place[0] + place[1]):
                pieces.append(f"{'L' if last else 'M'}{place[0]:.3f} {place[1]:.3f}")
                if covers:
                    self.cover(last or place, place)
                last = place
            else:
                last = None
        return "".join(pieces)

    def cover(self, start: Point, end: Point) -> None:
        """Note that a line is drawn from one place to another, so that labels keep clear of it."""
        (x, y), (to_x, to_y) = start, end
        steps = int(min(abs(to_x - x) + abs(to_y - y), 1000.0) // GRID)
        for step in range(steps):
            share = step / steps
            column, row = x + share * (to_x - x), y + share * (to_y - y)
            self.drawn.add((int(column // GRID), int(row // GRID)))
        self.drawn.add((int(to_x // GRID), int(to_y // GRID)))

    def hatch(self, ink: str, angle: int = 45) -> str:
        """Return a fill of thin lines in a colour."""
        name = self.patterns.setdefault(
            (ink, angle), f"{self.identity}-hatch-{len(self.patterns) + 1}"
        )
        return f"url(#{name})"

    def readable(self) -> str:
        """Return the attribute from which a page reads places on the drawing as values.

        For either axis: both ends on the drawing, the values there in the unit of the axis, label,
        unit, and whether it is logarithmic.  Rounded, so that every engine writes the same.
        """
        ends = (self.x, self.left, self.right), (self.y, self.bottom, self.top)
        axes = [
            [
                round(first, 3),
                round(last, 3),
                float(plain(axis.unit.reading(axis.low), 9)),
                float(plain(axis.unit.reading(axis.high), 9)),
                axis.label,
                axis.unit.name,
                axis.log,
            ]
            for axis, first, last in ends
        ]
        return f' data-axes="{escape(json.dumps(axes, ensure_ascii=False))}"'

    def definitions(self) -> str:
        """Return the clip path and the patterns that the marks use."""
        clip = (
            f'<clipPath id="{self.identity}-plot"><rect x="{self.left:.2f}" y="{self.top:.2f}"'
            f' width="{self.right - self.left:.2f}" height="{self.bottom - self.top:.2f}"/>'
            "</clipPath>"
        )
        hatches = "".join(
            f'<pattern id="{name}" width="7" height="7" patternUnits="userSpaceOnUse"'
            f' patternTransform="rotate({angle})">'
            f'<path d="M0 0V7" stroke="{ink}" stroke-width="2"/></pattern>'
            for (ink, angle), name in self.patterns.items()
        )
        return f"<defs>{clip}{hatches}</defs>"

    @staticmethod
    def _near(place: float) -> float:
        """Return a place that any renderer can draw; far beyond the figure all are alike."""
        return min(max(place, -_FAR), _FAR) if math.isfinite(place) else math.nan
