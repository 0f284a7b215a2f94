"""Frames: what moves in a figure, drawn one on top of another with one of them visible."""

from collections.abc import Sequence
from dataclasses import dataclass

from calc.chart.areas import Region
from calc.chart.marks import Column, Line, Points
from calc.chart.plot import Plot
from calc.chart.scale import Axis


@dataclass(frozen=True, slots=True)
class Frames:
    """Pictures of a motion, each made of marks without labels; `still` is the one in print.

    The page shows the still until the reader plays the motion, `seconds` long from end to end.
    """

    frames: Sequence[Sequence[Line | Points | Region]]
    seconds: float
    still: int = 0

    def draw(self, plot: Plot) -> None:
        """Draw every frame in a group of its own and hide all but the still."""
        for number, marks in enumerate(self.frames):
            hidden = "" if number == self.still else ' visibility="hidden"'
            length = f' data-seconds="{self.seconds:.6g}"' if number == 0 else ""
            plot.inside.append(f'<g class="frame"{length}{hidden}>')
            for mark in marks:
                mark.draw(plot)
            plot.inside.append("</g>")

    def columns(self, x: Axis, y: Axis) -> list[Column]:
        """Return the still as columns."""
        return [column for mark in self.frames[self.still] for column in mark.columns(x, y)]
