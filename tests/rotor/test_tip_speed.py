"""Tip speed and tip Mach number: identities, limits and errors."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.declaration import outputs
from calc.examples import CURLEW
from calc.quantity import Quantity
from calc.rotor.tip_speed import (
    advancing_tip_mach,
    helical_tip_mach,
    mach_limited_airspeed,
    tip_speed,
    tip_state,
)
from calc.units import RPM

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


def test_helical_speed_is_the_length_of_the_helix() -> None:
    """In one revolution the tip of the Curlew's propeller covers its turn of the helix.

    The turn is summed over ten thousand short chords in space.
    """
    propeller = CURLEW.propellers[0]
    speed, pieces = 90.0, 10_000
    period = 2.0 * math.pi / propeller.propeller_speed
    radius, step = 0.5 * propeller.diameter, 2.0 * math.pi / pieces
    chord = math.dist(
        (radius, 0.0, 0.0),
        (radius * math.cos(step), radius * math.sin(step), speed * period / pieces),
    )
    found = helical_tip_mach(propeller.diameter, propeller.propeller_speed, speed, 340.0)

    assert found * 340.0 == pytest.approx(pieces * chord / period, rel=1e-7)


def test_hover_tip_mach_of_a_test_rotor() -> None:
    """Caradonna and Tung (1981), NASA TM 81232: Mach 0.612, 0.794, 0.877 at three rotor speeds.

    Read at second hand; the radius of 1.143 m is 6 chords of 0.1905 m.  The air of each run is not
    given there, so only this is held: one speed of sound of ordinary room air fits all three
    within one per cent.  The Mach number is not rotor speed times a constant: the air differs.
    """
    runs = {1750.0: 0.612, 2250.0: 0.794, 2500.0: 0.877}
    for rpm, printed in runs.items():
        found = advancing_tip_mach(tip_speed(1.143, RPM.si(rpm)), 0.0, 341.0)
        assert found == pytest.approx(printed, rel=0.01)


def test_supersonic_advancing_tip_is_warned_of() -> None:
    """Past Mach 1 the result says that the tip is supersonic, and at Mach 1 it does not yet."""
    declared = outputs(advancing_tip_mach)[0].declaration

    assert isinstance(declared, Quantity)
    assert declared.warning(1.0, declared.si) == ""
    assert "supersonic" in declared.warning(1.0001, declared.si)


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
