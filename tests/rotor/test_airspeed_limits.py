"""Airspeed limits: the table agrees with the formulas that it puts together."""

import math
from dataclasses import asdict, replace

import pytest

from calc.rotor.airspeed_limits import (
    INBOARD_STALL,
    MACH,
    POWERED,
    TIP_STALL,
    airspeed_limits,
    airspeed_limits_chart,
)
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.examples import CURLEW, PLOVER
from calc.rotor.rotorcraft import Flight
from calc.rotor.stall_onset import stall_onset_airspeed
from calc.rotor.tip_speed import mach_limited_airspeed

COLD = Flight(temperature_offset=-30.0)


def test_rows_are_the_single_formulas() -> None:
    """Each row repeats the airspeeds of the single formulas and the names of the lower ones."""
    flight = Flight(500.0, -30.0, 1.1, 0.2, 0.5)
    rows = airspeed_limits(CURLEW, flight, highest_altitude=4000.0).rows
    tip = CURLEW.rotor_speed * CURLEW.radius

    assert [rows[0].pressure_altitude, rows[-1].pressure_altitude] == [500.0, 4000.0]
    for row in rows:
        sound = standard_atmosphere(row.pressure_altitude, -30.0).speed_of_sound
        conditions = asdict(flight) | {"pressure_altitude": row.pressure_altitude}
        at_tip, inboard = (
            stall_onset_airspeed(**asdict(CURLEW), **conditions, station=station)
            for station in ("tip", "inboard")
        )
        assert at_tip is not None
        assert inboard is not None
        assert row.mach_limited_airspeed == mach_limited_airspeed(tip, sound, 0.9)
        assert row.tip_onset == at_tip.airspeed
        assert row.inboard_onset == inboard.airspeed
        by_mach = row.mach_limited_airspeed
        assert row.power_on == (TIP_STALL if row.tip_onset < by_mach else MACH)
        assert row.autorotation == POWERED


def test_never_exceed_speed_is_at_most_nine_tenths() -> None:
    """14 CFR 29.1505(a)(2): V_NE is at most 0.9 of the speed shown for tip Mach number."""
    for row in airspeed_limits(PLOVER, COLD).rows:
        assert row.never_exceed_bound / row.mach_limited_airspeed == pytest.approx(0.9, rel=1e-15)


def test_cold_low_flight_is_limited_by_mach_and_high_flight_by_stall() -> None:
    """On a cold day the limiting line of the Curlew, half on its wing, changes on the way up."""
    flight = Flight(0.0, -40.0, 1.0, 0.3, 1.0)
    rows = airspeed_limits(CURLEW, flight, highest_altitude=9000.0).rows
    names = [row.power_on for row in rows]

    assert names[0] == MACH
    assert names[-1] == TIP_STALL
    assert names == sorted(names, key=[MACH, TIP_STALL].index)


def test_condition_decides_which_stall_is_limiting() -> None:
    """Power on names the tip; a disc that leans back names the inboard station, which is lower."""
    cold = Flight(3000.0, -40.0)
    driven, leaning = (
        airspeed_limits(CURLEW, replace(cold, propeller_thrust_share=share)).rows[0]
        for share in (1.0, 2.5)
    )

    assert driven.power_on == TIP_STALL
    assert leaning.autorotation == INBOARD_STALL
    assert leaning.inboard_onset < driven.inboard_onset < leaning.mach_limited_airspeed


def test_inboard_station_that_stalls_first_with_power_on_is_named() -> None:
    """The tip is limiting by condition; an onset inboard below it stands beside it."""
    flight = Flight(wing_lift_share=0.3, propeller_thrust_share=0.9)
    for craft in (CURLEW, PLOVER):
        for row in airspeed_limits(craft, flight).rows:
            first = row.inboard_onset < min(row.tip_onset, row.mach_limited_airspeed)
            assert row.before == ("stall at the inboard station" if first else "")
            assert "inboard" not in row.power_on
    assert {row.before for row in airspeed_limits(CURLEW, flight).rows} == {
        "",
        "stall at the inboard station",
    }


@pytest.mark.parametrize("share", [0.0, 1.0])
def test_a_flight_that_takes_power_names_no_limit_of_autorotation(share: float) -> None:
    """Momentum theory: thrust without a tilt back draws air down, which takes shaft power.

    A rotor without shaft power leans back, and its inboard station stalls at another airspeed.
    """
    rows = airspeed_limits(PLOVER, Flight(propeller_thrust_share=share)).rows

    assert {row.autorotation for row in rows} == {POWERED}


def test_rotor_without_stall_is_limited_by_mach() -> None:
    """Where no airspeed meets the stall limit, it is infinite and the Mach limit is met first."""
    found = airspeed_limits(PLOVER, Flight(wing_lift_share=0.95, propeller_thrust_share=1.0))

    assert found.rows[0].tip_onset == found.rows[0].inboard_onset == math.inf
    assert {(row.power_on, row.autorotation) for row in found.rows} == {(MACH, MACH)}
    assert found.largest_advance_ratio is found.largest_advancing_tip_mach is None


def test_fast_tips_pass_the_limit_in_hover() -> None:
    """A rotor whose tips pass the Mach limit in hover has a negative airspeed limit."""
    fast = replace(CURLEW, rotor_speed=1.6 * CURLEW.rotor_speed)

    assert airspeed_limits(fast, Flight()).rows[0].mach_limited_airspeed < 0.0


def test_how_far_the_onsets_reach_is_given() -> None:
    """The largest advance ratio and tip Mach number are those of the fastest onset of the table."""
    flight = Flight(wing_lift_share=0.5, propeller_thrust_share=1.0)
    found = airspeed_limits(CURLEW, flight, highest_altitude=3000.0)
    fastest = stall_onset_airspeed(**asdict(CURLEW), **asdict(flight))

    assert fastest is not None
    assert found.largest_advance_ratio == fastest.advance_ratio > 0.5
    assert found.largest_advancing_tip_mach == fastest.advancing_tip_mach


def test_figure_has_a_line_for_each_limit_and_no_envelope() -> None:
    """Mach limit, 0.9 of it, tip and inboard stall are drawn; no area is shaded as free."""
    chart = airspeed_limits_chart(airspeed_limits(PLOVER, COLD))

    assert {type(mark).__name__ for mark in chart.marks} == {"Line"}
    assert len(chart.marks) == 4


def test_top_below_the_first_altitude_is_refused() -> None:
    """A table must rise."""
    with pytest.raises(ValueError, match="highest pressure altitude must be above the first"):
        airspeed_limits(PLOVER, Flight(2000.0), highest_altitude=2000.0)
