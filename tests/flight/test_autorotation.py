"""Autorotation: drag, tilt, pitch and rotor speed against blade elements and time marching."""

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from calc.flight.autorotation import (
    autorotation,
    autorotation_chart,
    autorotation_of_rotor,
    autorotative_rotor_speed,
    rotor_speed_chart,
    speed_of_autorotation,
    vertical_descent_speed,
)
from calc.flight.craft import Condition, Rotor
from calc.flight.examples import CURLEW_ROTOR
from calc.flight.rotor_power import power_of_rotor
from tests.flight import wind

ROTORS = st.builds(
    Rotor,
    radius=st.floats(3.0, 10.0),
    chord=st.floats(0.2, 0.6),
    blades=st.integers(2, 7),
    rotor_speed=st.just(1.0),
    twist=st.floats(-0.2, 0.0),
    lift_slope=st.floats(5.0, 6.2),
    profile_drag_coefficient=st.floats(0.007, 0.015),
    induced_factor=st.floats(1.0, 1.3),
)


def turning(rotor: Rotor, airspeed: float, ratio: float) -> Rotor:
    """Return a rotor that turns so that airspeed over tip speed is a ratio."""
    return replace(rotor, rotor_speed=airspeed / (ratio * rotor.radius))


@settings(max_examples=12, deadline=None)
@given(
    ROTORS, st.floats(35.0, 80.0), st.floats(0.8, 1.25), st.floats(0.15, 0.6), st.floats(0.02, 0.12)
)
def test_autorotation_by_blade_elements(
    rotor: Rotor, airspeed: float, density: float, ratio: float, loading: float
) -> None:
    """Drag, tilt, pitch and both angles are those of a rotor summed over its blades by SciPy.

    Sums of 16 points across the edge of the reverse flow, where the wind turns, are good to 1e-6.
    """
    rotor = turning(rotor, airspeed, ratio)
    area = rotor.blades * rotor.chord * rotor.radius
    lift = loading * density * area * (rotor.rotor_speed * rotor.radius) ** 2
    found = autorotation_of_rotor(rotor, Condition(airspeed, density), lift)
    assume(found is not None)
    assert found is not None
    assume(found.disc_incidence > -0.35)
    assume(found.rotor_drag < 0.35 * lift)
    drag, other = wind.free(rotor, airspeed, density, lift)

    assert found.rotor_drag == pytest.approx(drag, rel=2e-6)
    assert found.disc_incidence == pytest.approx(other.incidence, abs=1e-6)
    assert found.collective == pytest.approx(other.collective, abs=1e-5)
    assert found.tip_angle == pytest.approx(other.tip, abs=1e-5)
    assert found.inboard_angle == pytest.approx(other.inboard, abs=1e-5)
    assert found.profile_power == pytest.approx(other.profile_power, rel=2e-6)
    assert found.induced_power == pytest.approx(other.induced_power, rel=2e-6)


@settings(max_examples=60, deadline=None)
@given(ROTORS, st.floats(35.0, 80.0), st.floats(0.15, 0.7), st.floats(0.02, 0.12))
def test_drag_pays_the_losses_and_no_torque_is_left(
    rotor: Rotor, airspeed: float, ratio: float, loading: float
) -> None:
    """Drag times airspeed is induced and profile power; the same pull leaves no shaft power."""
    rotor = turning(rotor, airspeed, ratio)
    area = rotor.blades * rotor.chord * rotor.radius
    lift = loading * 1.225 * area * (rotor.rotor_speed * rotor.radius) ** 2
    flight = Condition(airspeed, 1.225)
    found = autorotation_of_rotor(rotor, flight, lift)
    assume(found is not None)
    assert found is not None
    losses = found.induced_power + found.profile_power

    assert found.rotor_drag * airspeed == pytest.approx(losses, rel=1e-8)
    pulled = power_of_rotor(rotor, flight, lift, -found.rotor_drag)
    assert pulled.shaft_power == pytest.approx(0.0, abs=1e-6 * losses)


def test_rotor_speed_by_marching_in_time() -> None:
    """A rotor with its pitch held drifts to the rotor speed found, from above and from below.

    At each instant the disc leans so that lift and pitch are held; the torque left over by blade
    elements changes the rotor speed.  SciPy's adaptive integrator, 250 s, inertia 7000 kg m².
    """
    airspeed, density, lift, collective = 70.0, 1.225, 50000.0, math.radians(6.0)

    def change(_: float, speeds: list[float]) -> list[float]:
        rotor = replace(CURLEW_ROTOR, rotor_speed=float(speeds[0]))

        def excess(forward: float) -> float:
            return wind.state(rotor, airspeed, density, lift, forward).collective - collective

        forward = brentq(excess, -0.35 * lift, 0.35 * lift, rtol=1e-8)
        return [-wind.state(rotor, airspeed, density, lift, forward).torque / 7000.0]

    speed = autorotative_rotor_speed(
        collective,
        airspeed,
        density,
        lift,
        CURLEW_ROTOR.radius,
        CURLEW_ROTOR.chord,
        CURLEW_ROTOR.blades,
        CURLEW_ROTOR.twist,
        CURLEW_ROTOR.lift_slope,
        CURLEW_ROTOR.profile_drag_coefficient,
        CURLEW_ROTOR.induced_factor,
    )
    assert speed is not None
    for start in 0.95 * speed, 1.05 * speed:
        settled = solve_ivp(change, (0.0, 250.0), [start], method="LSODA", rtol=1e-5)
        assert settled.y[0, -1] == pytest.approx(speed, rel=1e-4)


@settings(max_examples=15, deadline=None)
@given(st.floats(0.06, 0.16), st.floats(50.0, 85.0), st.floats(3e4, 7e4))
def test_rotor_speed_and_pitch_are_one_relation(
    collective: float, airspeed: float, lift: float
) -> None:
    """The pitch of the rotor speed of a pitch is that pitch; less pitch turns faster."""
    flight = Condition(airspeed, 1.225)
    found = speed_of_autorotation(CURLEW_ROTOR, flight, lift, collective)
    assume(found is not None)
    assert found is not None
    rotor = replace(CURLEW_ROTOR, rotor_speed=found.rotor_speed)
    state = autorotation_of_rotor(rotor, flight, lift)
    assert state is not None
    assert state.collective == pytest.approx(collective, abs=1e-7)

    faster = speed_of_autorotation(CURLEW_ROTOR, flight, lift, collective - 0.01)
    assert faster is None or faster.rotor_speed > found.rotor_speed


@pytest.mark.parametrize("solidity", [0.1, 0.2])
def test_best_lift_to_drag_of_an_autogyro(solidity: float) -> None:
    """Glauert, R. & M. 1111 (1926), summary: L/D is of the order of 6 or 8 at most.

    Untwisted blades at a pitch of 2 deg, four of them, with a drag coefficient of 0.012 and a
    lift slope of 6, as autogyros of that time had (from memory).
    """
    radius, airspeed, pitch = 6.86, 30.0, math.radians(2.0)
    rotor = Rotor(radius, solidity * math.pi * radius / 4, 4, 1.0, 0.0, 6.0, 0.012, 1.0)
    ratios = []
    for step in range(20, 70, 5):
        here = turning(rotor, airspeed, step / 100)

        def excess(lift: float, here: Rotor = here) -> float:
            state = autorotation_of_rotor(here, Condition(airspeed, 1.225), lift)
            return 1.0 if state is None else state.collective - pitch

        area = 4 * here.chord * radius * 1.225 * (here.rotor_speed * radius) ** 2
        if excess(0.01 * area) < 0.0 < excess(0.15 * area):
            lift = brentq(excess, 0.01 * area, 0.15 * area)
            state = autorotation_of_rotor(here, Condition(airspeed, 1.225), lift)
            assert state is not None
            ratios.append(state.lift_to_drag)

    assert 6.0 <= max(ratios) <= 8.0


def test_vertical_descent() -> None:
    """A textbook chapter on autogiros, after Harris (2003): 1.79 times the hover induced speed."""
    hover = math.sqrt(1500.0 * 9.80665 / (2.0 * 1.1 * math.pi * 6.0**2))

    assert vertical_descent_speed(1500.0, 6.0, 1.1) / hover == pytest.approx(1.79, abs=0.005)


def test_no_autorotation_at_low_airspeed() -> None:
    """At walking pace no tilt within 60 deg drives the rotor, and None says so."""
    assert autorotation_of_rotor(CURLEW_ROTOR, Condition(10.0, 1.225), 80000.0) is None
    slow = autorotation(10.0, 1.225, 80000.0, 26.0, 7.9, 0.4, 6, -0.1, 5.7)
    assert slow is None


def test_pitch_that_no_rotor_speed_has() -> None:
    """A pitch below all that autorotate has no rotor speed."""
    assert speed_of_autorotation(CURLEW_ROTOR, Condition(70.0, 1.2), 50000.0, -0.3) is None


def test_figures_show_what_was_asked_for() -> None:
    """The point of each figure is the state of its form."""
    flight = Condition(70.0, 1.225)
    state = autorotation_of_rotor(CURLEW_ROTOR, flight, 50000.0)
    assert state is not None
    drawn = autorotation_chart(CURLEW_ROTOR, flight, 50000.0, state)
    point = drawn.marks[-1].points[0]  # type: ignore[union-attr]
    assert point == (CURLEW_ROTOR.rotor_speed, state.collective)

    found = speed_of_autorotation(CURLEW_ROTOR, flight, 50000.0, state.collective)
    assert found is not None
    drawn = rotor_speed_chart(CURLEW_ROTOR, flight, 50000.0, state.collective, found)
    point = drawn.marks[-1].points[0]  # type: ignore[union-attr]
    assert point[0] == pytest.approx(CURLEW_ROTOR.rotor_speed, rel=1e-8)
