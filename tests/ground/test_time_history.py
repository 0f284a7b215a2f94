"""Time history of the example against its growth rate, and the view from above."""

import math

import pytest

from calc.ground.model.motion import motion
from calc.ground.stability import growth_rate
from calc.ground.time_history import (
    STEPS_A_REVOLUTION,
    centre_of_mass,
    history,
    time_history,
    time_history_chart,
)
from tests.ground.example import HUB, ROTOR, SUPPORT

INPUTS = (ROTOR, HUB)
SPEED = 28.3  # rad/s, unstable


def test_amplitudes_grow_at_the_growth_rate() -> None:
    """Between the tenth and the fiftieth revolution, within a twentieth of the rate."""
    early = time_history(*INPUTS, SPEED, 1e-4, 30)
    late = time_history(*INPUTS, SPEED, 1e-4, 50)
    time = 20 * 2.0 * math.pi / SPEED

    rate = math.log(late.hub_amplitude / early.hub_amplitude) / time
    assert rate == pytest.approx(growth_rate(ROTOR, SUPPORT, SPEED), rel=0.05)
    assert late.growth_rate == growth_rate(ROTOR, SUPPORT, SPEED)


def test_steps_are_short_enough() -> None:
    """Steps half as long change the hub displacement by less than a thousandth of the largest."""
    states = history(ROTOR, SUPPORT, SPEED, 0.02, 10)
    start = (0.02, *(0.0,) * 11)
    step = math.pi / SPEED / STEPS_A_REVOLUTION
    fine = motion(ROTOR, SUPPORT, SPEED, start, step, 20 * STEPS_A_REVOLUTION)[::2]
    largest = max(abs(state[5]) for state in fine)

    difference = max(abs(a[5] - b[5]) for a, b in zip(states, fine, strict=True))
    assert difference < 1e-3 * largest


def test_equal_lag_angles_keep_the_centre_of_mass_on_the_shaft() -> None:
    """Collective lag does not move the hub; one blade alone moves it across its azimuth."""
    together = (0.1, 0.1, 0.1, 0.1)
    assert math.hypot(*centre_of_mass(ROTOR, 0.3, together)) < 1e-15

    x, y = centre_of_mass(ROTOR, 0.0, (0.01, 0.0, 0.0, 0.0))
    arm = ROTOR.first_moment / (4 * ROTOR.blade_mass)
    assert y == pytest.approx(arm * math.sin(0.01))
    assert abs(x) < 0.01 * y


def test_chart_has_both_directions() -> None:
    """The table has the hub in both directions and the centre of mass of the blades."""
    states = history(ROTOR, HUB.support(ROTOR), SPEED, 0.02, 4)
    headings = " ".join(time_history_chart(ROTOR, SPEED, states).table()[0])

    assert "lateral" in headings
    assert "longitudinal" in headings


def test_standstill_has_no_revolutions() -> None:
    """A rotor that does not turn is refused."""
    with pytest.raises(ValueError, match="Rotor speed must be above 0"):
        time_history(*INPUTS, 0.0, 0.01, 5)
