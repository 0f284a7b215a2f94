"""Inflow: Glauert's equation against a quartic, closed forms and limits."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.rotor.inflow import ONE_SOLUTION, induced_inflow, inflow_state

THRUSTS = st.floats(1e-6, 0.05)
RATIOS = st.floats(0.0, 1.5)
INCIDENCES = st.floats(-0.98 * ONE_SOLUTION, 1.5)


@given(THRUSTS, RATIOS, INCIDENCES)
def test_solution_satisfies_the_equation(
    coefficient: float, ratio: float, incidence: float
) -> None:
    """The thrust is twice the induced velocity times the resultant one, for any tilt."""
    induced = induced_inflow(coefficient, ratio, incidence)
    resultant = math.hypot(ratio, ratio * math.tan(incidence) + induced)

    assert 2.0 * induced * resultant == pytest.approx(coefficient, rel=1e-12)


@given(THRUSTS, st.floats(0.01, 1.5), INCIDENCES)
def test_solution_is_the_only_one(coefficient: float, ratio: float, incidence: float) -> None:
    """The squared equation is a quartic; numpy finds one positive root, and it is the same."""
    normal = ratio * math.tan(incidence)
    quartic = [1.0, 2.0 * normal, ratio**2 + normal**2, 0.0, -(coefficient**2) / 4.0]
    positive = [z.real for z in np.roots(quartic) if z.real > 0.0 and abs(z.imag) < 1e-9]

    assert len(positive) == 1
    assert induced_inflow(coefficient, ratio, incidence) == pytest.approx(positive[0], rel=1e-6)


@given(THRUSTS)
def test_hover_is_the_closed_form(coefficient: float) -> None:
    """Without airspeed the induced inflow is the square root of half the thrust coefficient."""
    expected = math.sqrt(coefficient / 2.0)

    assert induced_inflow(coefficient, 0.0) == pytest.approx(expected, rel=1e-15)


def test_fast_flight_is_the_lifting_wing() -> None:
    """Far above hover the induced inflow tends to C_T / (2 mu)."""
    assert induced_inflow(0.006, 1.0) == pytest.approx(0.006 / 2.0, rel=1e-5)


def test_no_thrust_no_induced_inflow() -> None:
    """An unloaded disc induces nothing, in hover and in flight."""
    assert induced_inflow(0.0, 0.0) == 0.0
    assert induced_inflow(0.0, 0.3, -0.2) == 0.0


def test_hover_in_metres_per_second() -> None:
    """Momentum theory: 50 kN at sea level on a radius of 7.5 m need sqrt(T / (2 rho A))."""
    state = inflow_state(50000.0, 1.225, 7.5, 220.0, 0.0)

    expected = math.sqrt(50000.0 / (2.0 * 1.225 * math.pi * 7.5**2))
    assert state.induced_speed == pytest.approx(expected, rel=1e-14)
    assert state.inflow == state.induced_inflow


@given(st.floats(0.05, 0.5), st.floats(0.01, 0.3))
def test_nose_down_lowers_the_induced_part(ratio: float, incidence: float) -> None:
    """A disc tilted into the wind meets more air and induces less."""
    assert induced_inflow(0.006, ratio, incidence) < induced_inflow(0.006, ratio)


def test_near_vertical_descent_is_refused() -> None:
    """Beyond arctan(sqrt 8) nose up the equation has several solutions, and none is offered."""
    with pytest.raises(ValueError, match=r"Disc incidence, nose down must be above -70\.5288 deg"):
        induced_inflow(0.006, 0.05, math.radians(-75.0))
