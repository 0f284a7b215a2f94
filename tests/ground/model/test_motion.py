"""Large motion in time: energy, the linear growth it starts with, and scipy."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from calc.ground.dissimilar import growth_rate as growth_of_different_blades
from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.motion import accelerations, motion, power
from calc.ground.stability import growth_rate

ROTOR = Rotor(4, 50.0, 115.0, 350.0, 0.25, 2000.0, 900.0)
SUPPORT = Support(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
SPEED = 27.0  # rad/s, unstable
START = (0.2, -0.1, 0.05, 0.15, 0.01, -0.02, 0.3, 0.0, -0.2, 0.1, 0.05, -0.1)


def test_energy_grows_by_what_the_drive_adds_and_the_dampers_take() -> None:
    """Energy balance of the integration, lag angles up to a quarter of a radian and more."""
    step, steps = 1e-3, 800
    states = motion(ROTOR, SUPPORT, SPEED, START, step, steps)
    found = [power(ROTOR, SUPPORT, SPEED, n * step, state) for n, state in enumerate(states)]
    net = [p.from_drive - p.to_dampers for p in found]
    added = step / 3.0 * (net[0] + 4.0 * sum(net[1:-1:2]) + 2.0 * sum(net[2:-1:2]) + net[-1])

    change = found[-1].energy - found[0].energy
    size = max(abs(p.energy - found[0].energy) for p in found)
    assert added == pytest.approx(change, abs=1e-6 * size)


def test_the_drive_feeds_the_growth() -> None:
    """In an unstable state the drive adds more than the dampers take, over whole revolutions."""
    step = 2.0 * math.pi / SPEED / 120
    states = motion(ROTOR, SUPPORT, SPEED, (0.01, *(0.0,) * 11), step, 120 * 30)
    found = [power(ROTOR, SUPPORT, SPEED, n * step, state) for n, state in enumerate(states)]
    drive = sum(p.from_drive for p in found[120 * 10 :])
    dampers = sum(p.to_dampers for p in found[120 * 10 :])

    assert drive > dampers > 0.0


def test_integration_agrees_with_scipy() -> None:
    """Scipy, DOP853 with tight tolerances, over two seconds of large motion."""
    dampings = (ROTOR.lag_damping,) * 4

    def rate(time: float, state: np.ndarray) -> np.ndarray:
        moving = accelerations(ROTOR, SUPPORT, SPEED, time, tuple(state), dampings)
        return np.array([*state[6:], *moving])

    expected = solve_ivp(rate, (0.0, 2.0), START, "DOP853", rtol=1e-9, atol=1e-11).y[:, -1]
    found = motion(ROTOR, SUPPORT, SPEED, START, 5e-4, 4000)[-1]
    assert found == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("dampings", [(), (0.0, 900.0, 900.0, 900.0)])
def test_small_motion_grows_as_the_eigenvalues_say(dampings: tuple[float, ...]) -> None:
    """Over whole revolutions, long after the start, a small motion grows at the growth rate."""
    revolution = 2.0 * math.pi / SPEED
    start = tuple(1e-9 * value for value in START)
    states = motion(ROTOR, SUPPORT, SPEED, start, revolution / 200, 200 * 50, dampings)
    largest = [
        max(math.hypot(*state[4:6]) for state in states[200 * n : 200 * (n + 5)]) for n in range(45)
    ]
    slope = np.polyfit(np.arange(20, 45) * revolution, np.log(largest[20:]), 1)[0]

    expected = (
        growth_of_different_blades(ROTOR, SUPPORT, SPEED, dampings)
        if dampings
        else growth_rate(ROTOR, SUPPORT, SPEED)
    )
    assert slope == pytest.approx(expected, rel=0.02)


def test_mirrored_start_gives_mirrored_motion() -> None:
    """With the directions alike, a start turned by a quarter moves as before, a quarter on."""
    support = Support(1400.0, 1400.0, 640e3, 640e3, 4000.0, 4000.0)
    turned: tuple[float, ...] = (*START[3:4], *START[0:3], -START[5], START[4])
    turned += (*START[9:10], *START[6:9], -START[11], START[10])
    first = motion(ROTOR, support, SPEED, START, 1e-3, 300)[-1]
    second = motion(ROTOR, support, SPEED, turned, 1e-3, 300)[-1]

    assert (second[4], second[5]) == pytest.approx((-first[5], first[4]), abs=1e-12)
    assert second[1:4] == pytest.approx(first[0:3], abs=1e-12)
