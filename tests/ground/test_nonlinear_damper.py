"""Equivalent damping against the energy of a cycle found by quadrature."""

import math
from collections.abc import Callable

import pytest
from scipy.integrate import quad

from calc.chart import Line
from calc.ground.nonlinear_damper import (
    friction_chart,
    friction_damper,
    orifice_chart,
    orifice_damper,
)

FREQUENCY, AMPLITUDE = 1.35, math.radians(1.5)
RATE = 2.0 * math.pi * FREQUENCY * AMPLITUDE  # rad/s, largest


def energy(moment: Callable[[float], float]) -> float:
    """Return the energy that a moment of the rate takes in a cycle, by scipy."""
    quarter = quad(lambda phase: moment(RATE * math.cos(phase)) * math.cos(phase), 0, math.pi / 2)
    return float(4.0 * AMPLITUDE * quarter[0])


def test_friction_takes_the_same_energy() -> None:
    """Scipy quadrature over a cycle."""
    damping = friction_damper(400.0, FREQUENCY, AMPLITUDE)

    assert energy(lambda rate: damping * rate) == pytest.approx(energy(lambda _: 400.0))


def test_orifice_takes_the_same_energy() -> None:
    """Scipy quadrature over a cycle."""
    damping = orifice_damper(300.0, 0.2, FREQUENCY, AMPLITUDE)

    square = energy(lambda rate: 300.0 * (rate / 0.2) ** 2)
    assert energy(lambda rate: damping * rate) == pytest.approx(square)


def test_amplitude_works_in_opposite_directions() -> None:
    """Twice the amplitude halves the damping of friction and doubles that of an orifice."""
    friction = [friction_damper(400.0, 1.0, amplitude) for amplitude in (0.01, 0.02)]
    orifice = [orifice_damper(300.0, 0.2, 1.0, amplitude) for amplitude in (0.01, 0.02)]

    assert friction[0] == pytest.approx(2.0 * friction[1])
    assert orifice[1] == pytest.approx(2.0 * orifice[0])


def test_figures_reach_four_times_the_amplitude_given() -> None:
    """The axis of both ends where their lines end."""
    for chart in (
        friction_chart(400.0, FREQUENCY, AMPLITUDE),
        orifice_chart(300.0, 0.2, FREQUENCY, AMPLITUDE),
    ):
        line = next(mark for mark in chart.marks if isinstance(mark, Line))
        assert (chart.x.low, chart.x.high) == pytest.approx((0.0, 4.0 * AMPLITUDE))
        assert line.points[-1][0] == pytest.approx(4.0 * AMPLITUDE)
