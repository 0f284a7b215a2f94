"""Stall onset: both stations against an integration over the disc, and the trends of the trade."""

import math
from dataclasses import asdict, astuple, fields, replace

import pytest

from calc.form.calculation import calculate, start
from calc.rotor.examples import CURLEW, PLOVER
from calc.rotor.rotorcraft import Flight
from calc.rotor.stall_onset import (
    INBOARD_PAST_LIMIT,
    INBOARD_WITHOUT_ONSET,
    TIP_PAST_LIMIT,
    TIP_WITHOUT_ONSET,
    StallOnset,
    stall_onset_airspeed,
    stall_onset_chart,
    stall_onsets,
)
from calc.rotor.stall_state import PERHAPS_AUTOROTATIVE, POWERED, limiting_station, stall_state
from tests.rotor import disc
from tests.rotor.onsets import CRAFT, FLIGHTS, LIMIT, LOADED, STATIONS, onset, onsets

FORM = "rotor.stall_onset.stall_onset_airspeed"


@pytest.mark.parametrize("station", STATIONS)
@pytest.mark.parametrize("flight", FLIGHTS)
@pytest.mark.parametrize("craft", CRAFT)
def test_onset_by_integration_over_the_disc(craft: str, flight: str, station: str) -> None:
    """A fine sweep of blade elements summed over the disc meets the limit at the same airspeed.

    The rotor, the air, the inflow and the trim are those of `disc`, which uses nothing of `calc`.
    """
    expected = disc.onset(CRAFT[craft], FLIGHTS[flight], station, LIMIT)
    found = stall_onset_airspeed(**asdict(CRAFT[craft]), **asdict(FLIGHTS[flight]), station=station)

    if expected is None:
        assert found is None
    else:
        assert found is not None
        assert found.airspeed == pytest.approx(expected, rel=1e-10)


@pytest.mark.parametrize("craft", CRAFT)
@pytest.mark.parametrize("flight", FLIGHTS)
@pytest.mark.parametrize("fraction", [0.05, 0.25, 0.45, 0.7])
def test_state_by_integration_over_the_disc(craft: str, flight: str, fraction: float) -> None:
    """Every number of the state agrees with the sum over the disc, well past the onset too."""
    airspeed = fraction * CRAFT[craft].radius * CRAFT[craft].rotor_speed
    found = stall_state(CRAFT[craft], FLIGHTS[flight], airspeed)
    expected = disc.retreating_blade(CRAFT[craft], FLIGHTS[flight], airspeed)

    for ours, theirs in (
        (found.tip_angle, expected.tip),
        (found.inboard_angle, expected.inboard),
        (found.advance_ratio, expected.advance_ratio),
        (found.blade_loading, expected.blade_loading),
        (found.disc_incidence, expected.incidence),
        (found.advancing_tip_mach, expected.mach),
        (found.inflow, expected.inflow),
    ):
        # the library gives its pressures to about nine digits
        assert ours == pytest.approx(theirs, rel=1e-8, abs=1e-10)


def test_flat_names_give_the_result_that_the_records_give() -> None:
    """The keyword function returns the six numbers of the row of its station, in their order."""
    both = onsets(PLOVER, Flight(1000.0, -10.0, 1.1, 0.1, 0.2))
    assert [row.station for row in both.onsets] == ["tip", "inboard station"]
    for station, row in zip(STATIONS, both.onsets, strict=True):
        placed = *astuple(PLOVER), 1000.0, -10.0, 1.1, 0.1, 0.2, LIMIT, station
        found = stall_onset_airspeed(*placed)
        assert found is not None
        assert asdict(found).items() <= asdict(row).items()
    assert [f.name for f in fields(StallOnset)] == [
        "airspeed",
        "advance_ratio",
        "blade_loading",
        "tip_angle",
        "inboard_angle",
        "advancing_tip_mach",
    ]
    assert both.tip_airspeed == both.onsets[0].airspeed
    assert both.inboard_airspeed == both.onsets[1].airspeed


def test_tip_is_asked_for_by_default() -> None:
    """Without a station the function answers for the tip."""
    assert stall_onset_airspeed(**asdict(CURLEW)) == onset(CURLEW, Flight(), "tip")


@pytest.mark.parametrize("station", STATIONS)
@pytest.mark.parametrize("craft", CRAFT)
def test_limit_is_met_there_and_not_before(craft: str, station: str) -> None:
    """The angle at the station is the limit at its onset, and below it at lower airspeeds."""
    found = onset(CRAFT[craft], Flight(), station)

    assert getattr(found, f"{station}_angle") == pytest.approx(LIMIT, rel=1e-12)
    for step in range(500):
        state = stall_state(CRAFT[craft], Flight(), found.airspeed * step / 500)
        assert getattr(state, f"{station}_angle") < LIMIT


def test_tip_is_limiting_while_shaft_power_drives_the_rotor() -> None:
    """A rotor that lifts and propels draws air down through its disc: the tip is limiting."""
    found = onsets(PLOVER, Flight())

    assert found.limiting == POWERED
    assert stall_state(PLOVER, Flight(), 0.0).limiting == POWERED


def test_both_stations_are_named_where_profile_drag_decides() -> None:
    """Air that comes up through the disc may drive it: neither station alone is named."""
    flight = Flight(propeller_thrust_share=2.0)
    found = onsets(PLOVER, flight)

    assert stall_state(PLOVER, flight, 60.0).inflow < 0.0
    assert found.limiting.startswith("tip while shaft power drives the rotor, inboard station in")


def test_inflow_through_the_disc_decides() -> None:
    """Uniform inflow down through the disc takes power, thrust times inflow; up through it gives.

    Only there can an unpowered rotor pay the profile drag of its blades.
    """
    assert limiting_station(1e-6) == limiting_station(0.0) == POWERED
    assert limiting_station(-1e-6) == PERHAPS_AUTOROTATIVE


def test_results_outside_the_covered_range_say_so() -> None:
    """A supersonic advancing tip and an advance ratio above 0.5 are warned of, row by row."""
    fast = {"wing_lift_share": "0.6", "propeller_thrust_share": "1", "rotor_speed": "420_rpm"}
    found = calculate(FORM, start(FORM) | fast)
    machs = [row.advancing_tip_mach for row in found.result.onsets]

    assert min(machs) > 1.0
    assert sum("Advancing-tip Mach number 1." in text for text in found.warnings) == 2
    assert sum("supersonic" in text for text in found.warnings) == 2
    assert sum("is outside the covered range, 0 to 0.5" in text for text in found.warnings) == 2
    inside = calculate(FORM, start(FORM))
    assert max(row.advancing_tip_mach for row in inside.result.onsets) < 1.0
    assert inside.warnings == []


def test_other_station_past_its_limit_is_said() -> None:
    """With the propellers pushing the inboard angle is past 12 deg when the tip reaches it."""
    pushed = onsets(PLOVER, Flight(propeller_thrust_share=1.0))
    level = onsets(PLOVER, Flight())

    assert pushed.onsets[0].inboard_angle > LIMIT
    assert pushed.other == INBOARD_PAST_LIMIT
    assert level.onsets[0].inboard_angle < LIMIT
    assert level.other == ""


def test_station_without_onset_is_said() -> None:
    """Where a station does not reach the limit its airspeed is None, and words say so."""
    back = onsets(PLOVER, Flight(propeller_thrust_share=2.0))
    wing = onsets(PLOVER, Flight(wing_lift_share=0.8))

    assert back.tip_airspeed is None
    assert back.other == TIP_WITHOUT_ONSET
    assert wing.inboard_airspeed is None
    assert wing.other == INBOARD_WITHOUT_ONSET
    assert len(back.onsets) == len(wing.onsets) == 1


def test_tip_past_its_limit_at_the_inboard_onset_is_said() -> None:
    """Blades twisted up can have the tip past the limit first, though the disc leans back."""
    craft = replace(LOADED, twist=math.radians(3.0))
    found = onsets(craft, Flight(0.0, 0.0, 1.13, 0.29, 1.32))

    assert found.tip_airspeed is not None
    assert found.inboard_airspeed is not None
    assert found.tip_airspeed < found.inboard_airspeed
    assert found.onsets[1].tip_angle > LIMIT
    assert found.other == TIP_PAST_LIMIT


@pytest.mark.parametrize("station", STATIONS)
@pytest.mark.parametrize("craft", CRAFT)
def test_trends_of_the_trade(craft: str, station: str) -> None:
    """Wing and rotor speed raise the onset; load, altitude and heat lower it, at either station."""
    rotorcraft = CRAFT[craft]
    base = onset(rotorcraft, Flight(), station).airspeed
    faster = replace(rotorcraft, rotor_speed=1.05 * rotorcraft.rotor_speed)

    assert onset(rotorcraft, Flight(wing_lift_share=0.2), station).airspeed > base
    assert onset(faster, Flight(), station).airspeed > base
    assert onset(rotorcraft, Flight(), station, math.radians(16.0)).airspeed > base
    assert onset(rotorcraft, Flight(load_factor=1.2), station).airspeed < base
    assert onset(rotorcraft, Flight(2000.0), station).airspeed < base
    assert onset(rotorcraft, Flight(0.0, 25.0), station).airspeed < base


@pytest.mark.parametrize("craft", CRAFT)
def test_propulsion_divides_the_stations(craft: str) -> None:
    """Propellers that push unload the tip; the inboard angle does not fall with it."""
    level, pushed = Flight(), Flight(propeller_thrust_share=1.0)
    at_tip, here = onset(CRAFT[craft], level, "tip"), CRAFT[craft]

    assert onset(here, pushed, "tip").airspeed > at_tip.airspeed
    before, after = (stall_state(here, flight, at_tip.airspeed) for flight in (level, pushed))
    assert after.tip_angle < before.tip_angle
    assert after.inboard_angle > before.inboard_angle


def test_stall_in_hover_is_an_airspeed_of_zero() -> None:
    """A rotor that is overloaded in hover meets its limit at once."""
    for station in STATIONS:
        assert onset(LOADED, Flight(load_factor=3.0), station).airspeed == 0.0


def test_no_airspeed_meets_the_limit() -> None:
    """A rotor that carries a twentieth of the weight and no drag is never stalled."""
    flight = Flight(wing_lift_share=0.95, propeller_thrust_share=1.0)

    assert stall_onsets(PLOVER, flight) is None
    for station in STATIONS:
        assert stall_onset_airspeed(**asdict(PLOVER), **asdict(flight), station=station) is None


def test_limiting_station_is_that_of_the_onset_at_the_tip() -> None:
    """Where the air turns to come up through the disc between the onsets, both are named."""
    flight = Flight(propeller_thrust_share=1.3)
    found = onsets(CURLEW, flight)

    assert found.tip_airspeed is not None
    assert found.inboard_airspeed is not None
    assert stall_state(CURLEW, flight, found.inboard_airspeed).limiting == POWERED
    assert stall_state(CURLEW, flight, found.tip_airspeed).limiting == PERHAPS_AUTOROTATIVE
    assert found.limiting == PERHAPS_AUTOROTATIVE


def test_chart_draws_both_lines_and_both_onsets() -> None:
    """The lines of both stations cross the limit where the points stand."""
    found = onsets(PLOVER, Flight())
    rows = stall_onset_chart(PLOVER, Flight(), LIMIT, found).table()

    assert [head.partition(":")[0] for head in rows[0][1:3]] == ["tip", "inboard station"]
    points = [float(row[4]) for row in rows[1:3]]
    assert points == pytest.approx([found.tip_airspeed, found.inboard_airspeed], rel=1e-5)


def test_impossible_inputs_are_named() -> None:
    """An angle limit of zero and an unknown station are refused by their labels."""
    with pytest.raises(ValueError, match="Limit of the angle of attack must be above 0 deg"):
        stall_onset_airspeed(**asdict(PLOVER), angle_limit=0.0)
    with pytest.raises(ValueError, match="Station must be one of tip, inboard, not root"):
        stall_onset_airspeed(**asdict(PLOVER), station="root")
