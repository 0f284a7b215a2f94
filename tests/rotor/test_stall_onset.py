"""Stall onset: the search against scipy, the trends of the trade, and a large compound."""

import math
from dataclasses import asdict, replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from calc.examples import HEAVY_COMPOUND, LIGHT, MEDIUM, Rotorcraft
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.blade_loading import blade_loading, solidity
from calc.rotor.stall_onset import StallOnset, retreating_tip, stall_onset_airspeed, stall_state
from calc.rotor.tip_speed import advancing_tip_mach
from calc.units import KNOT

CRAFT = [LIGHT, MEDIUM, HEAVY_COMPOUND]
LIMIT = math.radians(12.0)


def inputs(craft: Rotorcraft) -> dict[str, Any]:
    """Return the inputs that describe a rotorcraft."""
    unused = {"name", "flap_inertia", "propellers"}
    return {key: value for key, value in asdict(craft).items() if key not in unused}


def onset(craft: Rotorcraft, **flight: float) -> StallOnset:
    """Return the onset of stall, which there must be."""
    found = stall_onset_airspeed(**(inputs(craft) | flight))
    assert found is not None
    return found


def larger_angle(craft: Rotorcraft, airspeed: float, load_factor: float, altitude: float) -> float:
    """Return the larger of the two angles in level flight, put together here once more."""
    density = standard_atmosphere(altitude).density
    lift = load_factor * craft.mass * 9.80665
    drag = 0.5 * density * airspeed**2 * craft.drag_area
    incidence = math.atan(drag / lift)
    tip = craft.rotor_speed * craft.radius
    thrust = math.hypot(lift, drag)
    loading = blade_loading(thrust, density, craft.blades, craft.chord, craft.radius, tip)
    blade = retreating_tip(
        airspeed * math.cos(incidence) / tip,
        loading,
        solidity(craft.blades, craft.chord, craft.radius),
        incidence,
        craft.twist,
        craft.lift_slope,
    )
    return max(blade.tip_angle, blade.inboard_angle)


@pytest.mark.parametrize("craft", CRAFT, ids=lambda craft: craft.name)
@pytest.mark.parametrize(("load_factor", "altitude"), [(1.0, 0.0), (1.0, 3000.0), (1.3, 1000.0)])
def test_airspeed_by_another_root_finder(
    craft: Rotorcraft, load_factor: float, altitude: float
) -> None:
    """Scipy's bracketing finder gives the same airspeed from the same level-flight forces."""
    found = onset(craft, load_factor=load_factor, pressure_altitude=altitude)
    expected = brentq(
        lambda v: larger_angle(craft, v, load_factor, altitude) - LIMIT, 5.0, 110.0, rtol=1e-14
    )

    assert found.airspeed == pytest.approx(expected, rel=1e-10)


@pytest.mark.parametrize("craft", CRAFT, ids=lambda craft: craft.name)
def test_limit_is_met_there_and_not_before(craft: Rotorcraft) -> None:
    """The larger angle is the limit at the onset, and below it at a thousand lower airspeeds."""
    found = onset(craft)

    assert max(found.tip_angle, found.inboard_angle) == pytest.approx(LIMIT, rel=1e-12)
    for step in range(1000):
        assert larger_angle(craft, found.airspeed * step / 1000, 1.0, 0.0) < LIMIT


def test_station_that_governs_is_named() -> None:
    """The tip in level flight; the inboard station in a turn, where a test of the tip sees less."""
    level, turn = onset(MEDIUM), onset(MEDIUM, load_factor=1.5)

    assert level.governing == "tip"
    assert level.tip_angle > level.inboard_angle
    assert turn.governing == "inboard station"
    assert turn.tip_angle < turn.inboard_angle


def test_state_at_the_onset_is_the_onset() -> None:
    """The result is the state of the rotor at its airspeed, consistent with single formulas."""
    found = onset(MEDIUM)
    tip = MEDIUM.rotor_speed * MEDIUM.radius
    sound = standard_atmosphere(0.0).speed_of_sound

    assert stall_state(found.airspeed, **inputs(MEDIUM)) == found
    assert found.advance_ratio == pytest.approx(
        found.airspeed * math.cos(found.disc_incidence) / tip, rel=1e-15
    )
    assert found.advancing_tip_mach == advancing_tip_mach(
        tip, found.airspeed, sound, found.disc_incidence
    )


@pytest.mark.parametrize("craft", CRAFT, ids=lambda craft: craft.name)
def test_trends_of_the_trade(craft: Rotorcraft) -> None:
    """Wing, rotor speed and propellers raise the onset; load, altitude and heat lower it."""
    base = onset(craft).airspeed
    faster = replace(craft, rotor_speed=1.05 * craft.rotor_speed)

    assert onset(craft, wing_lift_share=0.2).airspeed > base
    assert onset(faster).airspeed > base
    assert onset(craft, propeller_thrust_share=0.5).airspeed > base
    assert onset(craft, angle_limit=math.radians(16.0)).airspeed > base
    assert onset(craft, load_factor=1.2).airspeed < base
    assert onset(craft, pressure_altitude=2000.0).airspeed < base
    assert onset(craft, temperature_offset=25.0).airspeed < base


def test_wing_and_propellers_take_a_large_compound_past_its_rotor() -> None:
    """A large compound with half of its lift on the wing flies 175 kt clear of stall.

    The same rotor carrying all of the lift meets its limit before that, whether it has to propel
    or not.  That such an aircraft flew so fast is common knowledge of the trade.
    """
    speed = KNOT.si(175.0)

    assert onset(HEAVY_COMPOUND).airspeed < speed
    assert onset(HEAVY_COMPOUND, propeller_thrust_share=1.0).airspeed < speed
    assert (
        onset(HEAVY_COMPOUND, wing_lift_share=0.5, propeller_thrust_share=1.0).airspeed
        > 1.2 * speed
    )
    unloaded = stall_state(
        speed, **inputs(HEAVY_COMPOUND), wing_lift_share=0.5, propeller_thrust_share=1.0
    )
    assert max(unloaded.tip_angle, unloaded.inboard_angle) < math.radians(8.0)


def test_shaft_power_off_moves_stall_inboard() -> None:
    """Without propulsive force the tip angle falls, and the inboard angle passes it."""
    powered = stall_state(80.0, **inputs(MEDIUM))
    autorotating = stall_state(80.0, **inputs(MEDIUM), propeller_thrust_share=1.5)

    assert autorotating.tip_angle < powered.tip_angle
    assert autorotating.governing == "inboard station"


def test_stall_in_hover_is_an_airspeed_of_zero() -> None:
    """A rotor that is overloaded in hover meets its limit at once."""
    assert onset(MEDIUM, load_factor=3.0).airspeed == 0.0


def test_no_airspeed_meets_the_limit() -> None:
    """A rotor that carries a twentieth of the weight and no drag is never stalled."""
    assert (
        stall_onset_airspeed(**inputs(MEDIUM), wing_lift_share=0.95, propeller_thrust_share=1.0)
        is None
    )


@settings(max_examples=60, deadline=None)
@given(
    st.floats(0.3, 3.0),
    st.floats(0.0, 5000.0),
    st.floats(0.0, 0.95),
    st.floats(0.0, 1.5),
    st.floats(0.0, 20.0),
)
def test_search_ends_with_an_answer(
    load_factor: float, altitude: float, on_wing: float, on_propellers: float, drag_area: float
) -> None:
    """Whatever the flight, the limit is met to rounding, or hover is past it, or there is None."""
    craft = replace(MEDIUM, drag_area=drag_area)
    found = stall_onset_airspeed(
        **inputs(craft),
        pressure_altitude=altitude,
        load_factor=load_factor,
        wing_lift_share=on_wing,
        propeller_thrust_share=on_propellers,
    )

    if found is not None:
        angle = max(found.tip_angle, found.inboard_angle)
        assert angle == pytest.approx(LIMIT, abs=1e-6) or (found.airspeed == 0.0 and angle > LIMIT)
        assert found.advance_ratio < 1.0


def test_impossible_limit_is_named() -> None:
    """An angle limit of zero is refused by its label."""
    with pytest.raises(ValueError, match="Limit of the angle of attack must be above 0 deg"):
        stall_onset_airspeed(**inputs(MEDIUM), angle_limit=0.0)
