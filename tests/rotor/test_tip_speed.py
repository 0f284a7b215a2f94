"""Tip speed and tip Mach number: identities, limits and errors."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.examples import HEAVY_COMPOUND
from calc.rotor.tip_speed import (
    advancing_tip_mach,
    helical_tip_mach,
    mach_limited_airspeed,
    tip_speed,
    tip_state,
)
from calc.units import KNOT, RPM

SPEEDS = st.floats(1.0, 400.0)


def test_tip_travels_one_circumference_a_turn() -> None:
    """At 60 rpm a tip covers 2 pi R in a second."""
    assert tip_speed(5.0, RPM.si(60.0)) == pytest.approx(10.0 * math.pi, rel=1e-15)


@given(SPEEDS, SPEEDS, st.floats(0.5, 1.5))
def test_limited_airspeed_gives_the_limit(tip: float, sound: float, limit: float) -> None:
    """At the Mach-limited airspeed the advancing tip has the limiting Mach number."""
    airspeed = mach_limited_airspeed(tip, sound, limit)

    if airspeed >= 0.0:
        assert advancing_tip_mach(tip, airspeed, sound) == pytest.approx(limit, rel=1e-12)
    else:
        assert tip / sound > limit


@given(SPEEDS, SPEEDS, SPEEDS, st.floats(0.01, 1.5))
def test_tilted_disc_sees_less_speed(
    tip: float, airspeed: float, sound: float, incidence: float
) -> None:
    """The tilt of the disc lowers the advancing-tip Mach number, the same both ways."""
    tilted = advancing_tip_mach(tip, airspeed, sound, incidence)

    assert tilted < advancing_tip_mach(tip, airspeed, sound)
    assert tilted == advancing_tip_mach(tip, airspeed, sound, -incidence)


def test_helical_mach_is_a_right_triangle() -> None:
    """Rotation at 300 m/s and flight at 400 m/s make 500 m/s."""
    assert helical_tip_mach(2.0, 300.0, 400.0, 340.0) == pytest.approx(500.0 / 340.0, rel=1e-15)


def test_cold_day_lowers_the_mach_limited_airspeed() -> None:
    """The speed of sound falls with the temperature, and the limit with it."""
    cold, hot = (tip_state(7.0, 31.4, 70.0, 2000.0, offset) for offset in (-40.0, 30.0))

    assert cold.mach_limited_airspeed < hot.mach_limited_airspeed
    assert cold.advancing_tip_mach > hot.advancing_tip_mach
    assert cold.margin == pytest.approx(cold.mach_limited_airspeed - 70.0, rel=1e-15)


def test_slow_rotor_leaves_its_tips_subsonic_at_175_knots() -> None:
    """A large compound's rotor at about 125 rpm keeps its advancing tip below Mach 0.85.

    Common practice: such a rotor turns slowly and its propellers drive.
    """
    state = tip_state(HEAVY_COMPOUND.radius, HEAVY_COMPOUND.rotor_speed, KNOT.si(175.0))
    propeller = HEAVY_COMPOUND.propellers[0]
    helical = helical_tip_mach(
        propeller.diameter, propeller.propeller_speed, KNOT.si(175.0), state.speed_of_sound
    )

    assert state.advancing_tip_mach < 0.85
    assert helical < 0.85


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((0.0, 30.0), "Rotor radius must be above 0 m, not 0 m"),
        ((7.0, -1.0), "Rotor speed must be above 0 rpm"),
        ((math.inf, 30.0), "Rotor radius must be a finite number"),
    ],
)
def test_impossible_inputs_are_named(arguments: tuple[float, float], message: str) -> None:
    """An input that cannot exist is refused by its label, in the reader's unit."""
    with pytest.raises(ValueError, match=message):
        tip_speed(*arguments)
