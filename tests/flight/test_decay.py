"""Decay: rotor speed and energy after a loss of power, against time marching and by hand."""

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from calc.flight.decay import (
    CONSTANT_POWER,
    CONSTANT_TORQUE,
    SQUARE,
    rotor_decay_chart,
    rotor_decay_time,
    rotor_energy,
)
from calc.units import CUBIC_FOOT_PER_POUND

TORQUE: dict[str, Callable[[Any], Any]] = {
    SQUARE: lambda x: x**2,
    CONSTANT_TORQUE: np.ones_like,
    CONSTANT_POWER: lambda x: 1.0 / x,
}


@pytest.mark.parametrize("law", TORQUE)
def test_time_is_that_of_a_march_in_time(law: str) -> None:
    """SciPy's eighth-order method on the equation of motion reaches the same speed at that time."""
    inertia, speed, power, ratio = 5200.0, 34.0, 640_000.0, 0.72
    at_once = power / speed
    reached = solve_ivp(
        lambda _, state: -at_once * TORQUE[law](state / speed) / inertia,
        (0.0, 60.0),
        [speed],
        method="DOP853",
        rtol=1e-11,
        atol=1e-11,
        events=lambda _, state: state[0] - ratio * speed,
    )
    found = rotor_decay_time(inertia, speed, power, ratio, law)

    assert found.decay_time == pytest.approx(reached.t_events[0][0], rel=1e-9)
    assert found.deceleration == pytest.approx(at_once / inertia, rel=1e-12)


def test_laws_are_in_the_order_of_their_torque() -> None:
    """Torque that falls leaves most time, torque that rises least, and little is lost alike."""
    times = [
        rotor_decay_time(9000.0, 28.0, 9e5, 0.8, law).decay_time
        for law in (SQUARE, CONSTANT_TORQUE, CONSTANT_POWER)
    ]
    near = [rotor_decay_time(9000.0, 28.0, 9e5, 1.0 - 1e-6, law).decay_time for law in TORQUE]

    assert times[0] > times[1] > times[2]
    assert near == pytest.approx([near[0]] * 3, rel=2e-6)


def test_energy_by_hand() -> None:
    """A rotor of 2000 kg m² at 30 rad/s holds 900 kJ, worked out by hand.

    It weighs 1000 x 9.80665 N on a disc of 100 m²: height 91.7744 m, over 98.0665 Pa.
    """
    found = rotor_energy(2000.0, 30.0, 1000.0, math.sqrt(100.0 / math.pi), 300_000.0, 0.8)

    assert found.energy == 900_000.0
    assert found.energy_height == pytest.approx(900_000.0 / 9806.65)
    assert found.autorotation_index == pytest.approx(900_000.0 / 9806.65 / 98.0665)
    assert found.hover_time == pytest.approx(900_000.0 * 0.36 / 300_000.0)


def test_hover_time_is_that_of_constant_power() -> None:
    """Energy that is spent at constant power lasts as long as the decay at constant power."""
    energy = rotor_energy(7000.0, 31.0, 5000.0, 7.0, 8e5, 0.85)
    decay = rotor_decay_time(7000.0, 31.0, 8e5, 0.85, CONSTANT_POWER)

    assert energy.hover_time == pytest.approx(decay.decay_time, rel=1e-12)


def test_index_in_cubic_feet_per_pound() -> None:
    """International foot and pound: 0.3048³ m³ over 0.45359237 x 9.80665 N."""
    assert CUBIC_FOOT_PER_POUND.size == pytest.approx(0.3048**3 / (0.45359237 * 9.80665), rel=1e-15)


def test_figure_passes_the_least_rotor_speed_in_time() -> None:
    """Each of the three lines is at the least rotor speed at the time that its law gives."""
    chart = rotor_decay_chart(9000.0, 28.0, 9e5, 0.8, SQUARE)
    lines = [mark.points for mark in chart.marks if type(mark).__name__ == "Line"]  # type: ignore[union-attr]

    for law, points in zip((SQUARE, CONSTANT_TORQUE, CONSTANT_POWER), lines, strict=True):
        time = rotor_decay_time(9000.0, 28.0, 9e5, 0.8, law).decay_time
        at = np.interp(time, [x for x, _ in points], [y for _, y in points])
        assert at == pytest.approx(0.8 * 28.0, rel=1e-4)  # straight pieces between forty points
