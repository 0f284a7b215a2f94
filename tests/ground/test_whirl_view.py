"""The view from above: the pull of the blades leads the hub where it feeds the whirl."""

import cmath
import math
from dataclasses import replace

import pytest

from calc.chart import Frames, Line
from calc.ground.time_history import history
from calc.ground.whirl_view import (
    FRAMES_A_REVOLUTION,
    LAG_DRAWN,
    SHIFT_DRAWN,
    bunching,
    whirl_chart,
)
from tests.ground.example import HUB, ROTOR


def test_pull_leads_the_hub_while_the_motion_grows() -> None:
    """Unstable: the centre of mass leads the hub, so that the blades do work on it."""
    found = bunching(ROTOR, HUB, 28.3, 0.02, 30)

    assert 0.0 < found.lead < math.pi
    assert found.offset > 0.0


def test_drawing_has_frames() -> None:
    """Twelve frames a revolution and one more, all but the last hidden."""
    states = history(ROTOR, HUB.support(ROTOR), 28.3, 0.02, 5)
    svg = whirl_chart(ROTOR, states).svg("whirl")

    assert svg.count('class="frame"') == 5 * FRAMES_A_REVOLUTION + 1
    assert svg.count('visibility="hidden"') == 5 * FRAMES_A_REVOLUTION


def test_a_blade_without_mass_has_no_centre() -> None:
    """The centre of mass needs a mass."""
    weightless = replace(ROTOR, blade_mass=0.0)
    with pytest.raises(ValueError, match="Mass of one blade outboard of the lag hinge"):
        bunching(weightless, HUB, 28.3, 0.02, 5)


def test_blades_point_where_they_are() -> None:
    """One picture: hinges round the hub, each blade turned by its lag angle, drawn larger."""
    lags, hub = (0.1, -0.05, 0.02, 0.0), (0.003, 0.004)
    state = (*lags, *hub, *(0.0,) * 6)
    (frames,) = whirl_chart(ROTOR, [state]).marks
    assert isinstance(frames, Frames)
    blades = [mark for mark in frames.frames[0] if isinstance(mark, Line)]
    centre = SHIFT_DRAWN * complex(0.6, 0.8)

    assert len(blades) == 4
    for number, (blade, lag) in enumerate(zip(blades, lags, strict=True)):
        hinge, tip = (complex(*point) for point in blade.points)
        azimuth = 0.5 * math.pi * number
        assert hinge == pytest.approx(centre + 0.08 * cmath.exp(1j * azimuth))
        turned = cmath.exp(1j * (azimuth + lag / 0.1 * LAG_DRAWN))
        assert tip - hinge == pytest.approx(turned)
