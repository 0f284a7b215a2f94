"""Propeller loads: oblique inflow, against blade elements in space."""

import math

import numpy as np
import pytest

from calc.flight.nacelle import RigidPropeller
from calc.flight.propeller_loads import propeller_loads, propeller_loads_chart
from tests.flight.blade_in_space import Screw

DENSITY, SPEED, THRUST = 1.1, 130.0, 7000.0


def made(blades: int) -> RigidPropeller:
    """Return a propeller of 2.6 m diameter."""
    return RigidPropeller(blades, 2.6, 0.2, 5.2, 20.0, 0.7)


@pytest.mark.parametrize("airspeed", [25.0, 90.0])
@pytest.mark.parametrize("blades", [3, 5])
def test_loads_are_those_of_blade_elements_in_space(blades: int, airspeed: float) -> None:
    """The shaft is turned by a tenth of a degree; what changes is compared to one in a thousand.

    Rings of finite width and the second order in the angle leave that much.
    """
    angle = math.radians(0.1)
    found = propeller_loads(made(blades), SPEED, THRUST, airspeed, angle, DENSITY)
    area = math.pi * 1.3**2
    axial = 0.5 * airspeed + math.sqrt(0.25 * airspeed**2 + THRUST / (2.0 * DENSITY * area))
    screw = Screw(blades, 1.3, 0.2, 5.2, SPEED, found.mean_lift_coefficient)
    straight, _, _ = screw.loads(DENSITY, axial)
    force, moment, (thrusts, bendings) = screw.loads(
        DENSITY, axial, (0.0, 0.0, airspeed * math.sin(angle))
    )

    def once(samples: np.ndarray) -> float:
        return float(2.0 * abs(np.fft.rfft(samples)[1]) / len(samples))

    assert straight[0] == pytest.approx(THRUST, rel=1e-4)
    assert found.blade_thrust == pytest.approx(once(thrusts), rel=1e-3)
    assert found.blade_moment == pytest.approx(once(bendings), rel=1e-3)
    assert found.normal_force == pytest.approx(np.hypot(force[1], force[2]), rel=1e-3)
    assert found.shaft_moment == pytest.approx(np.hypot(moment[1], moment[2]), rel=1e-3)
    assert force[2] < 0.0  # against the speed across the shaft


def test_straight_inflow_has_no_oblique_loads() -> None:
    """Without incidence nothing is added; without thrust there is no share of it."""
    found = propeller_loads(made(4), SPEED, 0.0, 60.0, 0.0)

    assert found.blade_thrust == found.normal_force == found.shaft_moment == 0.0
    assert found.blade_thrust_share is None


def test_frequency_is_once_per_revolution() -> None:
    """1200 rpm is 20 Hz."""
    found = propeller_loads(made(4), 40.0 * math.pi, THRUST, 60.0, 0.1)

    assert found.once_per_revolution == pytest.approx(20.0)


def test_figure_shows_the_loads_of_the_form() -> None:
    """The points of the figure are the loads of the form."""
    case = made(5), SPEED, THRUST, 80.0, math.radians(4.0), DENSITY
    found = propeller_loads(*case)
    points = propeller_loads_chart(*case, found).marks[-1].points  # type: ignore[union-attr]

    assert [value for _, value in points] == [found.blade_thrust, found.normal_force]
