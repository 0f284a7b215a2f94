"""Coleman diagram: what the form lists and the chart marks."""

import math
from dataclasses import replace

import pytest

from calc.ground.coleman_diagram import coleman_chart, coleman_diagram, unjoined
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.model.mode_tracks import mode_tracks
from tests.ground.benchmark import HAMMOND_ROTOR, HAMMOND_SUPPORT
from tests.ground.example import HUB, ROTOR, SWEEP


def test_form_lists_coalescence_and_modes() -> None:
    """The modes of the example, with the frequencies of the tracks."""
    found = coleman_diagram(ROTOR, HUB, 28.0, 0.1, 45.0)

    assert [mode.label for mode in found.modes] == [
        "regressing lag",
        "progressing lag",
        "support x",
        "support y",
    ]
    assert found.coalescence_y == pytest.approx(28.03, abs=0.005)
    assert all(abs(mode.frequency) < 28.0 / math.pi for mode in found.modes)


def test_chart_marks_coalescence() -> None:
    """Four lines and two coalescence speeds."""
    chart = coleman_chart(ROTOR, HUB, 28.0, 0.1, SWEEP[1])
    headings = " ".join(chart.table()[0])

    assert "regressing lag" in headings
    assert "progressing lag" in headings
    assert chart.svg("coleman").count("coalescence") >= len(
        coalescence_speeds(HAMMOND_ROTOR, HAMMOND_SUPPORT)
    )


def test_a_line_is_broken_where_a_mode_takes_another_shape() -> None:
    """A jump within one step is no line; a slope that a mode can have is one."""
    (points,) = mode_tracks(ROTOR, HUB.support(ROTOR), [28.0])
    steady = points[0]
    jumping = [replace(steady, eigenvalue=1j * f) for f in (10.0, 10.5, 19.0, 19.4)]
    line = unjoined([2.0, 4.0, 6.0, 8.0], jumping)

    assert [speed for speed, _ in line] == [2.0, 4.0, 5.0, 6.0, 8.0]
    drawn = [2.0 * math.pi * frequency for _, frequency in line]
    assert drawn[:2] + drawn[3:] == pytest.approx([10.0, 10.5, 19.0, 19.4])
    assert math.isnan(drawn[2])
