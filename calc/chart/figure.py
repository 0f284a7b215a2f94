"""Figures as SVG text, drawn alike while the site is built and in the reader's browser."""

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from html import escape
from itertools import repeat, zip_longest

from calc.chart.areas import Band, Label, Region, Rule
from calc.chart.cells import Cells
from calc.chart.frame import WHOLE, WIDTH, End, Frame, axes, keys, label_ends, plot_area
from calc.chart.frames import Frames
from calc.chart.lettering import SIZE
from calc.chart.marks import Bars, Column, Line, Points, Stems
from calc.chart.palette import COLOURS
from calc.chart.plot import PAPER, Plot
from calc.chart.scale import Axis
from calc.digits import plain
from calc.quantity import Quantity
from calc.spreadsheet import rows_of
from calc.units import Unit

_LAST = Line | Points
"""What is drawn over all else."""

Mark = Band | Bars | Cells | Frames | Label | Line | Points | Region | Rule | Stems


@dataclass(frozen=True, slots=True)
class Chart:
    """A figure; its title and description are for those who do not see it."""

    title: str
    description: str
    x: Axis
    y: Axis
    marks: Sequence[Mark]
    steps: Sequence[int] = ()
    """In which step each mark appears, where the figure is shown step by step."""

    @property
    def axes(self) -> tuple[Axis, ...]:
        """Both axes."""
        return self.x, self.y

    def svg(self, identity: str, frame: Frame = WHOLE, place: str = "") -> str:
        """Return the figure as SVG; `identity` begins the ids in it and is unique on its page.

        A panel of a figure has a frame of its own, and attributes that say its place.
        """
        plot, ends = self._plot(identity, frame)
        for mark, step in sorted(self._in_steps(), key=lambda one: isinstance(one[0], _LAST)):
            with plot.step(step):
                mark.draw(plot)
        label_ends(plot, ends)
        plot.place_labels()
        name = plot.identity
        changes = any(self.steps) or any(isinstance(mark, Frames) for mark in self.marks)
        labels = "".join(lettering.svg(PAPER) for lettering in plot.labels)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {frame.height:.0f}"'
            f'{place} role="img" aria-labelledby="{name}-title" aria-describedby="{name}-desc"'
            f' font-family="var(--figure-font, system-ui, sans-serif)" font-size="{SIZE:.0f}"'
            f' fill="currentColor"{"" if changes else plot.readable()}>'
            f'<title id="{name}-title">{escape(self.title)}</title>'
            f'<desc id="{name}-desc">{escape(self.description)}</desc>{plot.definitions()}'
            f'{axes(plot)}<g clip-path="url(#{name}-plot)">{"".join(plot.inside)}</g>'
            f"{''.join(plot.outside)}{keys(plot)}{labels}</svg>"
        )

    def room(self) -> tuple[float, float]:
        """Return between which places across the plot area lies when the figure stands alone."""
        plot, _ = self._plot("", WHOLE)
        return plot.left, plot.right

    def _plot(self, identity: str, frame: Frame) -> tuple[Plot, list[End]]:
        """Return the empty plot area and the ends of the lines."""
        lines = [(mark, step) for mark, step in self._in_steps() if isinstance(mark, Line)]
        keyed = any(map(_keyed, self.marks))
        x, y = self._fitted()
        return plot_area(escape(identity), x, y, lines, keyed=keyed, frame=frame)

    def _in_steps(self) -> Iterator[tuple[Mark, int]]:
        """Yield the marks with the step in which each appears, 0 where it is always there."""
        yield from zip(self.marks, self.steps or repeat(0), strict=bool(self.steps))

    def file(self) -> str:
        """Return the figure as an SVG file: dark on light paper, with all colours in it."""
        return on_paper(self.svg("figure"))

    def read_in(self, units: Iterable[tuple[Quantity, Unit]]) -> "Chart":
        """Return the figure with the units chosen for quantities on the axes that follow them.

        A form may declare a quantity more narrowly than the chart does: its label identifies it.
        """
        chosen = {quantity.label: unit for quantity, unit in units}
        x, y = (
            replace(axis, unit=chosen.get(axis.follows.label, axis.unit)) if axis.follows else axis
            for axis in (self.x, self.y)
        )
        return replace(self, x=x, y=y)

    def table(self, digits: int = 6) -> list[list[str]]:
        """Return the data of the figure: headings, then rows; columns of equal x are shared."""
        columns: list[Column] = []
        for mark in self.marks:
            block = mark.columns(self.x, self.y)
            shared = block[:1] and block[0] in columns and len(block) == 2
            columns += block[1:] if shared else block
        cells = [[_cell(axis, value, digits) for value in values] for _, axis, values in columns]
        rows = zip_longest(*cells, fillvalue="")
        return [[heading for heading, _, _ in columns], *(list(row) for row in rows)]

    def csv(self) -> str:
        """Return the data of the figure as comma-separated values, to twelve digits."""
        return rows_of(self.table(12))

    def _fitted(self) -> tuple[Axis, Axis]:
        """Return the axes with limits about all that is drawn."""
        columns = [column for mark in self.marks for column in mark.columns(self.x, self.y)]
        across, up = (
            [
                v
                for _, axis, values in columns
                if axis is own
                for v in values
                if not isinstance(v, str)
            ]
            for own in (self.x, self.y)
        )
        if any(isinstance(mark, Bars | Stems) for mark in self.marks):
            up.append(0.0)
        return self.x.fitted(across), self.y.fitted(up)


def on_paper(drawing: str) -> str:
    """Return a drawing as a file: dark on light paper, with all colours in it."""
    sheet = f'</desc><rect width="100%" height="100%" fill="{PAPER}"/>'
    drawing = drawing.replace("</desc>", sheet, 1)
    drawing = re.sub(r'="var\(--[\w-]+, ([^()"]*)\)"', r'="\1"', drawing)
    return drawing.replace('="currentColor"', f'="{COLOURS["ink"]}"')


def _keyed(mark: Mark) -> bool:
    """Return whether a mark is explained by keys below the figure."""
    return isinstance(mark, Cells) or (isinstance(mark, Bars | Stems) and mark.label != "")


def _cell(axis: Axis | None, value: float | str, digits: int) -> str:
    """Return a number in the unit of its axis, a word as it is, or nothing for no value."""
    if axis is None or isinstance(value, str):
        return str(value)
    return plain(axis.unit.reading(value), digits) if math.isfinite(value) else ""
