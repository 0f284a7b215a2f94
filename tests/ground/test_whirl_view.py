"""The view from above: the pull of the blades leads the hub where it feeds the whirl."""

import math
from dataclasses import replace

import pytest

from calc.ground.time_history import history
from calc.ground.whirl_view import FRAMES_A_REVOLUTION, bunching, whirl_chart
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
