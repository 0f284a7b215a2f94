"""Charts: figures as SVG text, drawn alike while the site is built and in the browser."""

from calc.chart.areas import Band, Label, Region, Rule
from calc.chart.cells import Cells
from calc.chart.figure import Chart, Mark
from calc.chart.frames import Frames
from calc.chart.marks import Bars, Line, Points, Stems
from calc.chart.panels import Panels
from calc.chart.polar import Arrows, Polar
from calc.chart.scale import Axis

__all__ = [
    "Arrows",
    "Axis",
    "Band",
    "Bars",
    "Cells",
    "Chart",
    "Frames",
    "Label",
    "Line",
    "Mark",
    "Panels",
    "Points",
    "Polar",
    "Region",
    "Rule",
    "Stems",
]
