"""Panels: several figures over one axis, one below the other."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from html import escape
from itertools import zip_longest

from calc.chart.figure import Chart, on_paper
from calc.chart.frame import WIDTH, Frame
from calc.chart.scale import Axis
from calc.quantity import Quantity
from calc.spreadsheet import rows_of
from calc.units import Unit

HEIGHT = 190.0
"""How tall a panel is, of a figure that is 640 wide."""


@dataclass(frozen=True, slots=True)
class Panels:
    """A figure of several panels with the same axis across, whose plot areas stand in line."""

    title: str
    description: str
    charts: Sequence[Chart]
    last_height: float = HEIGHT
    """How tall the last panel is."""

    @property
    def axes(self) -> tuple[Axis, ...]:
        """The axes of all panels."""
        return tuple(axis for chart in self.charts for axis in chart.axes)

    def svg(self, identity: str) -> str:
        """Return the figure as SVG; `identity` begins the ids in it and is unique on its page."""
        name = escape(identity)
        rooms = [chart.room() for chart in self.charts]
        frame = Frame(HEIGHT, max(left for left, _ in rooms), min(right for _, right in rooms))
        heights = [HEIGHT] * (len(self.charts) - 1) + [self.last_height]
        drawn = "".join(
            chart.svg(
                f"{identity}-{number + 1}",
                frame._replace(height=height),
                f' y="{HEIGHT * number:.0f}" width="{WIDTH:.0f}" height="{height:.0f}"',
            )
            for number, (chart, height) in enumerate(zip(self.charts, heights, strict=True))
        )
        tall = sum(heights)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {tall:.0f}"'
            f' role="group" aria-labelledby="{name}-title" aria-describedby="{name}-desc"'
            f' fill="currentColor"><title id="{name}-title">{escape(self.title)}</title>'
            f'<desc id="{name}-desc">{escape(self.description)}</desc>{drawn}</svg>'
        )

    def file(self) -> str:
        """Return the figure as an SVG file: dark on light paper, with all colours in it."""
        return on_paper(self.svg("figure"))

    def read_in(self, units: Iterable[tuple[Quantity, Unit]]) -> "Panels":
        """Return the figure with the units chosen for quantities on the axes that follow them."""
        chosen = list(units)
        return replace(self, charts=[chart.read_in(chosen) for chart in self.charts])

    def table(self, digits: int = 6) -> list[list[str]]:
        """Return the data of the panels beside one another: headings, then rows."""
        tables = [chart.table(digits) for chart in self.charts]
        blank = [[""] * len(table[0]) for table in tables]
        rows = zip_longest(*tables)
        return [
            [cell for part, empty in zip(row, blank, strict=True) for cell in (part or empty)]
            for row in rows
        ]

    def csv(self) -> str:
        """Return the data of the figure as comma-separated values, to twelve digits."""
        return rows_of(self.table(12))
