"""Frames of a motion in a figure."""

import re

from calc.chart import Axis, Chart, Frames, Line, Points, Region
from calc.units import METRE

AXES = Axis("Aside", METRE, -1.0, 1.0), Axis("Up", METRE, -1.0, 1.0)
PICTURES: list[list[Line | Points | Region]] = [
    [Line([(0.0, 0.0), (x, 1.0)]), Points([(x, 1.0)])] for x in (-0.5, 0.0, 0.5)
]


def test_one_frame_is_visible() -> None:
    """Of three frames the still is shown and the others are hidden."""
    chart = Chart("Swing", "A bar swings.", *AXES, [Frames(PICTURES, seconds=2.0, still=1)])
    groups = re.findall(r'<g class="frame"[^>]*>', chart.svg("swing"))
    assert [("hidden" in group) for group in groups] == [True, False, True]
    assert 'data-seconds="2"' in groups[0]


def test_table_holds_the_still() -> None:
    """The data of the figure are those of the frame that is printed."""
    chart = Chart("Swing", "A bar swings.", *AXES, [Frames(PICTURES, seconds=2.0, still=2)])
    assert ["0.5", "1"] in [row[:2] for row in chart.table()]
