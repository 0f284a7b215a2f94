"""Level flight: the balance of forces."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.rotor.level_flight import rotor_force


@given(st.floats(0.0, 120.0), st.floats(0.5, 3.0), st.floats(0.0, 0.9), st.floats(0.0, 1.5))
def test_thrust_holds_the_aircraft(
    airspeed: float, load_factor: float, on_wing: float, on_propellers: float
) -> None:
    """Rotor, wing and propellers together carry the weight and overcome the drag."""
    force = rotor_force(5500.0, airspeed, 1.2, 1.8, load_factor, on_wing, on_propellers)
    weight = load_factor * 5500.0 * 9.80665

    up = force.thrust * math.cos(force.disc_incidence)
    forward = force.thrust * math.sin(force.disc_incidence)
    assert up + on_wing * weight == pytest.approx(weight, rel=1e-12)
    assert forward + on_propellers * force.drag == pytest.approx(force.drag, abs=1e-6)


def test_rotor_of_an_autogyro_tilts_back() -> None:
    """Propellers that overcome more than the airframe's drag leave the rotor a drag of its own."""
    assert rotor_force(5500.0, 50.0, 1.2, 1.8, 1.0, 0.0, 1.3).disc_incidence < 0.0


def test_hover_is_upright() -> None:
    """Without airspeed the thrust is the weight."""
    force = rotor_force(1000.0, 0.0, 1.2, 1.8)

    assert force.disc_incidence == 0.0
    assert force.thrust == 9806.65


def test_wing_cannot_carry_everything() -> None:
    """A rotor without load has no tip-path plane to tilt."""
    with pytest.raises(ValueError, match="Wing lift share must be at least 0 and be"):
        rotor_force(1000.0, 50.0, 1.2, 1.8, 1.0, 1.0)
