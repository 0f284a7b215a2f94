"""The search for the stall onset, at the corners of its range and against a disc integration."""

import math
from dataclasses import asdict, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from calc.rotor.examples import PLOVER
from calc.rotor.level_flight import rotor_force
from calc.rotor.onset_search import NEARLY_ONE, airspeeds_at, searched_airspeeds
from calc.rotor.retreating_tip import PITCH_FAILS
from calc.rotor.rotorcraft import Flight
from calc.rotor.stall_onset import stall_onset_airspeed, stall_onsets
from calc.rotor.stall_state import stall_state
from tests.rotor import disc
from tests.rotor.onsets import CRAFT, FLIGHTS, LIMIT, LOADED, STATIONS, onset


def test_failing_pitch_is_no_onset() -> None:
    """Where the angle jumps through infinity at an advance ratio of 0.853, that is not an onset.

    Just below it the angle falls without bound, just above it comes down from infinity.
    """
    flight = Flight(wing_lift_share=0.95, propeller_thrust_share=1.0)
    pole = PITCH_FAILS * PLOVER.radius * PLOVER.rotor_speed
    below, above = (disc.retreating_blade(PLOVER, flight, pole * s) for s in (0.9999, 1.0001))

    assert below.tip < LIMIT < above.tip
    assert stall_onsets(PLOVER, flight) is None


def test_rise_just_before_pitch_fails_is_an_onset() -> None:
    """An angle that truly climbs through the limit in the last half per cent is found."""
    flight = Flight(wing_lift_share=0.886, propeller_thrust_share=1.0)
    pole = PITCH_FAILS * LOADED.radius * LOADED.rotor_speed
    expected = brentq(
        lambda v: disc.retreating_blade(LOADED, flight, v).tip - LIMIT,
        0.99 * pole,
        (1.0 - 1e-7) * pole,
        rtol=1e-13,
    )

    assert expected > 0.997 * pole
    assert onset(LOADED, flight, "tip").airspeed == pytest.approx(expected, rel=1e-9)


def test_short_rise_in_slow_flight_is_found() -> None:
    """An angle that climbs through the limit in slow flight and falls again meets it there."""
    craft = replace(PLOVER, twist=math.radians(0.8), drag_area=4.0)
    flight = Flight(2200.0, 0.0, 0.6, 0.0, 2.5)
    highest = max(disc.retreating_blade(craft, flight, 0.5 * step).tip for step in range(100))
    limit = highest - math.radians(0.02)
    expected = disc.onset(craft, flight, "tip", limit)

    assert expected is not None
    assert 0.0 < expected < 25.0
    assert disc.retreating_blade(craft, flight, 30.0).tip < limit
    assert onset(craft, flight, "tip", limit).airspeed == pytest.approx(expected, rel=1e-9)


def test_disc_tilted_far_back_ends_the_search() -> None:
    """Where the disc would lean back so far that the inflow is ambiguous, the search has ended."""
    craft = replace(PLOVER, drag_area=20.0)
    flight = Flight(wing_lift_share=0.95, propeller_thrust_share=1.5)
    tip = craft.radius * craft.rotor_speed

    with pytest.raises(ValueError, match="Disc incidence, nose down must be above"):
        stall_state(craft, flight, 0.99 * tip)
    last = searched_airspeeds(craft, flight)[-1]
    assert stall_state(craft, flight, last).disc_incidence < math.radians(-65.0)
    assert stall_onsets(craft, flight) is None


@pytest.mark.parametrize("flight", FLIGHTS)
@pytest.mark.parametrize("craft", CRAFT)
def test_search_looks_at_both_sides_of_where_pitch_fails(craft: str, flight: str) -> None:
    """Two airspeeds next to each other have the pole between them: the tip angle changes sign."""
    airspeeds = searched_airspeeds(CRAFT[craft], FLIGHTS[flight])
    angles = [stall_state(CRAFT[craft], FLIGHTS[flight], v).tip_angle for v in airspeeds]
    jumps = [
        (after - before) / after
        for before, after, a, b in zip(airspeeds, airspeeds[1:], angles, angles[1:], strict=False)
        if a * b < 0.0 and min(abs(a), abs(b)) > 1000.0
    ]
    ratios = [stall_state(CRAFT[craft], FLIGHTS[flight], v).advance_ratio for v in airspeeds]

    assert jumps == [pytest.approx(2e-9, rel=1e-3)] or max(ratios) < PITCH_FAILS


@given(st.floats(0.05, NEARLY_ONE), st.floats(0.0, 20.0), st.floats(0.0, 1.8))
def test_airspeeds_at_an_advance_ratio_have_it(
    ratio: float, drag_area: float, on_propellers: float
) -> None:
    """The airspeeds of a level-flight advance ratio give it back through the balance of forces."""
    tip = PLOVER.radius * PLOVER.rotor_speed

    def incidence(airspeed: float) -> float:
        force = rotor_force(PLOVER.mass, airspeed, 1.2, drag_area, 1.0, 0.0, on_propellers)
        return force.disc_incidence

    for airspeed in airspeeds_at(ratio, tip, math.tan(incidence(tip))):
        if airspeed < 1e6 * tip:
            assert airspeed * math.cos(incidence(airspeed)) / tip == pytest.approx(ratio, rel=1e-6)


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(STATIONS),
    st.floats(0.3, 3.0),
    st.floats(0.0, 5000.0),
    st.floats(0.0, 0.95),
    st.floats(0.0, 1.5),
    st.floats(0.0, 20.0),
)
def test_search_ends_with_an_answer(
    station: str,
    load_factor: float,
    altitude: float,
    on_wing: float,
    on_propellers: float,
    drag_area: float,
) -> None:
    """Whatever the flight, the limit is met to rounding, or hover is past it, or there is None."""
    flight = Flight(altitude, 0.0, load_factor, on_wing, on_propellers)
    craft = replace(PLOVER, drag_area=drag_area)
    found = stall_onset_airspeed(**asdict(craft), **asdict(flight), station=station)

    if found is not None:
        angle = found.tip_angle if station == "tip" else found.inboard_angle
        assert angle == pytest.approx(LIMIT, abs=1e-6) or (found.airspeed == 0.0 and angle > LIMIT)
        assert found.advance_ratio < 1.0
