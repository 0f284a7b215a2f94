"""Rotor power: tilt, forces and power against a solution by SciPy."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calc.flight.craft import Condition, Rotor
from calc.flight.examples import CURLEW_ROTOR
from calc.flight.rotor_power import power_of_rotor, rotor_power, rotor_power_chart
from tests.flight import wind

ROTORS = st.builds(
    Rotor,
    radius=st.floats(3.0, 10.0),
    chord=st.floats(0.2, 0.6),
    blades=st.integers(2, 7),
    rotor_speed=st.floats(20.0, 40.0),
    twist=st.just(-0.1),
    lift_slope=st.just(5.7),
    profile_drag_coefficient=st.floats(0.006, 0.02),
    induced_factor=st.floats(1.0, 1.3),
)


@settings(max_examples=40, deadline=None)
@given(
    ROTORS, st.floats(20.0, 60.0), st.floats(0.8, 1.3), st.floats(0.3, 1.5), st.floats(-0.2, 0.3)
)
def test_power_is_torque_times_rotor_speed(
    rotor: Rotor, airspeed: float, density: float, load: float, tilt: float
) -> None:
    """Energy by parts and torque from the blades are two forms of one equation."""
    assume(airspeed < 0.6 * rotor.rotor_speed * rotor.radius)
    lift = load * 300.0 * math.pi * rotor.radius**2
    state = power_of_rotor(rotor, Condition(airspeed, density), lift, tilt * lift)
    other = wind.state(rotor, airspeed, density, lift, tilt * lift)

    assert state.disc_incidence == pytest.approx(other.incidence, abs=1e-6)
    parts = state.induced_power + state.profile_power
    assert state.shaft_power == pytest.approx(other.power, abs=1e-6 * parts)
    assert state.shaft_torque * rotor.rotor_speed == pytest.approx(state.shaft_power, rel=1e-12)


@settings(max_examples=40, deadline=None)
@given(ROTORS, st.floats(20.0, 60.0), st.floats(-0.2, 0.3))
def test_forces_add_up(rotor: Rotor, airspeed: float, tilt: float) -> None:
    """Thrust and in-plane drag, turned by the incidence, give lift and propulsive force."""
    lift = 250.0 * math.pi * rotor.radius**2
    assume(airspeed < 0.6 * rotor.rotor_speed * rotor.radius)
    state = power_of_rotor(rotor, Condition(airspeed, 1.225), lift, tilt * lift)

    sine, cosine = math.sin(state.disc_incidence), math.cos(state.disc_incidence)
    up = state.thrust * cosine + state.in_plane_force * sine
    forward = state.thrust * sine - state.in_plane_force * cosine
    assert up == pytest.approx(lift, rel=1e-9)
    assert forward == pytest.approx(tilt * lift, abs=1e-9 * lift)


def test_flat_names_are_the_record() -> None:
    """The function without records answers the same."""
    rotor = CURLEW_ROTOR
    flat = rotor_power(
        60.0,
        1.1,
        50000.0,
        -4000.0,
        rotor.radius,
        rotor.chord,
        rotor.blades,
        rotor.rotor_speed,
        rotor.profile_drag_coefficient,
        rotor.induced_factor,
    )
    assert flat == power_of_rotor(rotor, Condition(60.0, 1.1), 50000.0, -4000.0)


def test_drag_beyond_all_tilt_is_refused() -> None:
    """A pull of fifty times the lift cannot be had from any disc."""
    with pytest.raises(ValueError, match="No tilt of the disc"):
        power_of_rotor(CURLEW_ROTOR, Condition(60.0, 1.2), 1000.0, -50000.0)


def test_too_fast_for_the_rotor_is_refused() -> None:
    """At an advance ratio of 1 the theory ends, and the form says so."""
    with pytest.raises(ValueError, match="Advance ratio must be at least 0 and below 1"):
        power_of_rotor(CURLEW_ROTOR, Condition(230.0, 1.2), 50000.0, 0.0)


def test_figure_has_the_point_on_the_line() -> None:
    """The state asked for lies on the line of shaft power."""
    flight = Condition(60.0, 1.225)
    found = power_of_rotor(CURLEW_ROTOR, flight, 60000.0, 0.0)
    drawn = rotor_power_chart(CURLEW_ROTOR, flight, 60000.0, 0.0, found)

    assert (0.0, found.shaft_power) in drawn.marks[0].points  # type: ignore[union-attr]
