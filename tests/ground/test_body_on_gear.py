"""A rigid body on its gear against closed forms and scipy."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy import linalg

from calc.ground.body_on_gear import Body, Gear, body_on_gear, lateral_support

BODY = Body(5200.0, 6000.0, 1.5, 3.6)
GEAR = Gear(2.6, 700e3, 16e3, 900e3, 16e3)


def test_a_gear_that_is_stiff_sideways_rolls_about_the_ground() -> None:
    """One mode, about an axis on the ground: inertia, stiffness and damping over height squared."""
    found = body_on_gear(BODY, replace(GEAR, lateral_stiffness=1e13, lateral_damping=0.0))
    roll = found.modes[0]

    assert roll.axis_height == pytest.approx(0.0, abs=1e-6)
    assert roll.hub_mass == pytest.approx((6000.0 + 5200.0 * 1.5**2) / 3.6**2)
    stiffness = 0.5 * 700e3 * 2.6**2 - 5200.0 * 9.80665 * 1.5
    assert roll.hub_stiffness == pytest.approx(stiffness / 3.6**2, rel=1e-6)
    assert roll.hub_damping == pytest.approx(0.5 * 16e3 * 2.6**2 / 3.6**2, rel=1e-6)
    assert found.ground_axis_mass == pytest.approx(roll.hub_mass)
    assert found.ground_axis_stiffness == pytest.approx(roll.hub_stiffness)
    assert found.ground_axis_damping == pytest.approx(roll.hub_damping)


def test_modes_are_those_of_the_matrices() -> None:
    """Scipy: frequencies, and damping ratios as in light damping."""
    found = body_on_gear(BODY, replace(GEAR, lateral_damping=160.0))
    roll = 0.5 * 700e3 * 2.6**2 - 5200.0 * 9.80665 * 1.5
    stiffness = [[900e3, -900e3 * 1.5], [-900e3 * 1.5, 900e3 * 1.5**2 + roll]]
    squares = linalg.eigh(stiffness, np.diag([5200.0, 6000.0]), eigvals_only=True)

    rates = [2.0 * math.pi * mode.frequency for mode in found.modes]
    assert rates == pytest.approx(np.sqrt(squares), rel=1e-12)


def test_point_force_at_the_hub_finds_both_modes() -> None:
    """Scipy: the static yield of the hub is the sum over modes of one over hub stiffness."""
    found = body_on_gear(BODY, GEAR)
    support = lateral_support(BODY, GEAR)
    yielding = np.array(support.y) @ linalg.solve(np.array(support.stiffness), support.y)
    inertia = np.array(support.y) @ linalg.solve(np.array(support.mass), support.y)

    assert sum(1.0 / mode.hub_stiffness for mode in found.modes) == pytest.approx(yielding)
    assert sum(1.0 / mode.hub_mass for mode in found.modes) == pytest.approx(inertia)


def test_proportional_damping_does_not_couple() -> None:
    """Damping in proportion to stiffness: the modes are damped one by one.

    Gravity takes away 4 % of the roll stiffness, so that it is left out by a light body here.
    """
    found = body_on_gear(Body(1e-3, 1e-3, 1.5, 3.6), Gear(2.6, 700e3, 14e3, 900e3, 18e3))

    assert found.damping_coupling == pytest.approx(0.0, abs=1e-7)


def test_a_body_that_topples_is_refused() -> None:
    """A gear softer in roll than gravity is strong cannot hold the body upright."""
    with pytest.raises(ValueError, match="Roll stiffness of the gear less that of gravity"):
        body_on_gear(BODY, replace(GEAR, vertical_stiffness=20e3))
