"""Airspeed limits: the table agrees with the formulas that it puts together."""

import math
from dataclasses import replace

import pytest

from calc.examples import MEDIUM, Rotorcraft
from calc.rotor.airspeed_limits import MACH, STALL, AirspeedLimit, airspeed_limits
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.stall_onset import stall_onset_airspeed
from calc.rotor.tip_speed import mach_limited_airspeed


def limits(craft: Rotorcraft, **flight: float) -> tuple[AirspeedLimit, ...]:
    """Return the limits of a rotorcraft."""
    return airspeed_limits(
        craft.mass,
        craft.radius,
        craft.chord,
        craft.blades,
        craft.rotor_speed,
        craft.twist,
        craft.lift_slope,
        craft.drag_area,
        **flight,
    )


def test_rows_are_the_single_formulas() -> None:
    """Each row repeats both airspeeds, their lower one and its name."""
    rows = limits(MEDIUM, highest_altitude=4000.0, temperature_offset=-30.0)
    tip = MEDIUM.rotor_speed * MEDIUM.radius

    assert [rows[0].pressure_altitude, rows[-1].pressure_altitude] == [0.0, 4000.0]
    for row in rows:
        sound = standard_atmosphere(row.pressure_altitude, -30.0).speed_of_sound
        onset = stall_onset_airspeed(
            MEDIUM.mass,
            MEDIUM.radius,
            MEDIUM.chord,
            MEDIUM.blades,
            MEDIUM.rotor_speed,
            MEDIUM.twist,
            MEDIUM.lift_slope,
            MEDIUM.drag_area,
            row.pressure_altitude,
            -30.0,
        )
        assert onset is not None
        assert row.mach_limited_airspeed == mach_limited_airspeed(tip, sound, 0.9)
        assert row.stall_onset_airspeed == onset.airspeed
        assert row.airspeed_limit == min(row.mach_limited_airspeed, onset.airspeed)
        expected = STALL if onset.airspeed < row.mach_limited_airspeed else MACH
        assert row.governing == expected


def test_cold_low_flight_is_limited_by_mach_and_high_flight_by_stall() -> None:
    """On a cold day the medium helicopter changes its governing limit on the way up."""
    rows = limits(MEDIUM, temperature_offset=-25.0)
    names = [row.governing for row in rows]

    assert names[0] == MACH
    assert names[-1] == STALL
    assert names == sorted(names, key=[MACH, STALL].index)


def test_rotor_without_stall_is_limited_by_mach() -> None:
    """Where no airspeed meets the stall limit, it is infinite and the Mach limit governs."""
    rows = limits(MEDIUM, wing_lift_share=0.95, propeller_thrust_share=1.0)

    assert rows[0].stall_onset_airspeed == math.inf
    assert {row.governing for row in rows} == {MACH}


def test_fast_tips_pass_the_limit_in_hover() -> None:
    """A rotor whose tips pass the Mach limit in hover has a negative airspeed limit."""
    row = limits(replace(MEDIUM, rotor_speed=1.5 * MEDIUM.rotor_speed))[0]

    assert row.airspeed_limit == row.mach_limited_airspeed < 0.0


def test_lowest_top_is_named() -> None:
    """A table that ends at sea level is refused."""
    with pytest.raises(ValueError, match="Highest pressure altitude must be at least 100 m"):
        limits(MEDIUM, highest_altitude=0.0)
