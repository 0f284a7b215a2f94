"""Limits: used shares, edges and windows, against definitions and a disc quadrature."""

import math
from dataclasses import replace

import pytest
from ambiance import Atmosphere
from hypothesis import example, given, settings
from hypothesis import strategies as st

from calc.flight.examples import CURLEW_WING
from calc.flight.limit_shares import (
    INBOARD,
    LOADING,
    MACH,
    PROPELLER,
    RATIO,
    SLOW,
    TIP,
    UNLOADED,
    Case,
    Day,
    RotorLimits,
    used_shares,
)
from calc.flight.limits import (
    flight_limits,
    flight_limits_chart,
    propeller_mach_limited_airspeed,
    rotor_speed_window,
)
from calc.rotor.examples import CURLEW
from calc.rotor.rotorcraft import Flight
from calc.units import RPM
from tests.rotor.disc import retreating_blade

PROPELLERS = 2.9, RPM.si(1150.0)
GRAVITY = 9.80665


@pytest.mark.parametrize("share", [0.0, 1.0, 1.9])
@pytest.mark.parametrize(("airspeed", "rpm"), [(30.0, 250.0), (70.0, 235.0), (85.0, 260.0)])
def test_used_shares_are_those_of_the_definitions(
    share: float, airspeed: float, rpm: float
) -> None:
    """Air by `ambiance`, wing by hand, blade by the disc quadrature of the rotor tests."""
    altitude, limits = 1500.0, RotorLimits()
    day = Day(altitude, 0.0, 1.2, share)
    speed = RPM.si(rpm)
    got = used_shares(Case(CURLEW, CURLEW_WING, limits, day, *PROPELLERS), airspeed, speed)

    air = Atmosphere(altitude * 6356766.0 / (6356766.0 - altitude))
    sound, density = float(air.speed_of_sound[0]), float(air.density[0])
    pressure = 0.5 * density * airspeed**2
    lift = pressure * 22.0 * 4.5 * math.radians(5.0)
    coefficient = 4.5 * math.radians(5.0)
    drag = 22.0 * (0.012 + coefficient**2 / (math.pi * 0.8 * 6.5))
    weight = 1.2 * CURLEW.mass * GRAVITY
    craft = replace(CURLEW, rotor_speed=speed, drag_area=CURLEW.drag_area + drag)
    blade = retreating_blade(craft, Flight(altitude, 0.0, 1.2, lift / weight, share), airspeed)
    tip = speed * CURLEW.radius

    assert got[MACH] == pytest.approx((tip + airspeed) / sound / 0.9, rel=1e-6)
    assert got[PROPELLER] == pytest.approx(
        math.hypot(airspeed, 1.45 * PROPELLERS[1]) / sound / 0.85, rel=1e-6
    )
    assert got[RATIO] == pytest.approx(airspeed / tip / 0.5, rel=1e-12)
    assert got[LOADING] == pytest.approx(blade.blade_loading / 0.12, rel=1e-6)
    assert got[UNLOADED] == pytest.approx(0.3 * weight / (weight - lift), rel=1e-6)
    name, angle = (TIP, blade.tip) if blade.inflow >= 0.0 else (INBOARD, blade.inboard)
    assert got[name] == pytest.approx(angle / math.radians(12.0), rel=1e-6)
    assert ({TIP, INBOARD} - {name}).isdisjoint(got)


@settings(max_examples=25, deadline=None)
@example(0.0, 0.0, 6482.0, 260.0, 0.375)  # two limits a hundredth of a metre per second apart
@given(
    st.floats(0.0, 3000.0),
    st.floats(-40.0, 30.0),
    st.floats(5000.0, 11000.0),
    st.floats(226.0, 264.0),
    st.floats(0.3, 1.0),
)
def test_a_limit_is_used_in_full_at_the_edges(
    altitude: float, offset: float, mass: float, rpm: float, share: float
) -> None:
    """At the edges of the free airspeeds the governing share is 1, and in between below it."""
    craft = replace(CURLEW, mass=mass, rotor_speed=RPM.si(rpm))
    case = Case(craft, CURLEW_WING, RotorLimits(), Day(altitude, offset, 1.0, share), *PROPELLERS)
    found = flight_limits(craft, CURLEW_WING, RotorLimits(), case.day, *PROPELLERS, 60.0)
    row = found.rows[0]
    if row.largest_airspeed is None:
        assert max(used_shares(case, 30.0, craft.rotor_speed).values()) >= 1.0
        return
    assert row.smallest_airspeed is not None
    edge = used_shares(case, row.largest_airspeed, craft.rotor_speed)
    middle = 0.5 * (row.smallest_airspeed + row.largest_airspeed)

    assert max(edge.values()) == pytest.approx(1.0, abs=1e-6)
    assert edge[row.first_met] == max(edge.values())
    assert max(used_shares(case, middle, craft.rotor_speed).values()) < 1.0
    # 14 CFR 29.1505(a)(2)(iii): the factor belongs to the Mach number of the advancing tip
    if row.first_met == MACH:
        assert row.never_exceed_bound == pytest.approx(0.9 * row.largest_airspeed, rel=1e-15)
    else:
        assert row.never_exceed_bound is None


def test_window_by_hand() -> None:
    """Mach 0.88 at 340 m/s leaves 219.2 m/s of tip speed at 80 m/s; by hand for round numbers.

    Z = 40 kN on 13.5 m² of blades at 1.2 kg/m³ and 0.1: V_t² = 40000 / 1.62; 80 / 0.4 = 200 m/s.
    """
    found = rotor_speed_window(80.0, 1.2, 340.0, 40_000.0, 7.5, 0.45, 4, 0.88, 0.1, 0.4)

    assert found.highest == pytest.approx(219.2 / 7.5)
    assert found.lowest_by_loading == pytest.approx(math.sqrt(40_000.0 / 1.62) / 7.5)
    assert found.lowest_by_advance_ratio == pytest.approx(200.0 / 7.5)
    assert found.lowest == found.lowest_by_advance_ratio
    shut = rotor_speed_window(100.0, 1.2, 340.0, 40_000.0, 7.5, 0.45, 4, 0.88, 0.1, 0.4)
    assert shut.window == "none: shut by advance ratio and tip Mach"


def test_propeller_at_its_mach_limit() -> None:
    """The helical tip speed at the airspeed is the limit; fast tips leave no airspeed."""
    airspeed = propeller_mach_limited_airspeed(2.9, 120.0, 330.0, 0.8)
    assert airspeed is not None

    assert math.hypot(airspeed, 1.45 * 120.0) == pytest.approx(0.8 * 330.0, rel=1e-14)
    assert propeller_mach_limited_airspeed(2.9, 200.0, 330.0, 0.8) is None


def test_cold_is_limited_by_mach_and_height_by_load() -> None:
    """Common practice: cold air lowers the Mach limit, thin air the load on the blades."""
    cold, high = (
        flight_limits(CURLEW, CURLEW_WING, RotorLimits(), day, *PROPELLERS, 60.0)
        for day in (Day(temperature_offset=-40.0), Day(5000.0))
    )
    mild = flight_limits(CURLEW, CURLEW_WING, RotorLimits(), Day(), *PROPELLERS, 60.0)

    assert cold.first_met == MACH
    assert cold.largest_airspeed is not None
    assert mild.largest_airspeed is not None
    assert cold.largest_airspeed < mild.largest_airspeed
    assert high.governing in {TIP, LOADING}


def test_limit_with_the_largest_share_need_not_be_met_first() -> None:
    """At 235 rpm that of 225 rpm is 225/235 at any airspeed; μ of 0.5 is met at half tip speed."""
    craft = replace(CURLEW, rotor_speed=RPM.si(235.0))
    day = Day(propeller_thrust_share=2.0)
    found = flight_limits(craft, CURLEW_WING, RotorLimits(), day, *PROPELLERS, 60.0)

    assert (found.governing, found.first_met) == (SLOW, RATIO)
    assert found.utilisation == pytest.approx(225.0 / 235.0, rel=1e-12)
    assert found.largest_airspeed == pytest.approx(0.5 * CURLEW.radius * RPM.si(235.0), rel=1e-6)
    assert found.never_exceed_bound is None


def test_window_ends_at_the_speeds_that_were_given() -> None:
    """Where nothing but the range of 225 to 265 rpm limits, the window is that range."""
    limits = RotorLimits(lowest_rotor_speed=RPM.si(225.0), highest_rotor_speed=RPM.si(265.0))
    found = flight_limits(CURLEW, CURLEW_WING, limits, Day(), *PROPELLERS, 77.0)

    assert found.window == "225 (lowest rotor speed) to 265 rpm (highest rotor speed)"


def test_fast_flight_shuts_the_window() -> None:
    """At 110 m/s Mach number and advance ratio or the wing's lift leave no rotor speed."""
    found = flight_limits(CURLEW, CURLEW_WING, RotorLimits(), Day(), *PROPELLERS, 110.0)

    assert found.window.startswith("none: shut by ")
    assert found.utilisation > 1.0


def test_map_names_every_area_and_hatches_what_is_past() -> None:
    """Each area has a label; a cell is hatched where and only where its largest share is past 1."""
    case = CURLEW, CURLEW_WING, RotorLimits(), Day(), *PROPELLERS, 70.0
    chart = flight_limits_chart(*case)
    cells = chart.marks[0]
    labels = [mark.label for mark in chart.marks if type(mark).__name__ == "Label"]  # type: ignore[union-attr]

    for j, row in enumerate(cells.rows[::7]):  # type: ignore[union-attr]
        for i, kind in enumerate(row):
            across, up = cells.x_edges, cells.y_edges  # type: ignore[union-attr]
            at = 0.5 * (across[i] + across[i + 1]), 0.5 * (up[7 * j] + up[7 * j + 1])
            used = used_shares(Case(*case[:-1]), *at)
            assert kind == (max(used.values()) >= 1.0)
            assert max(used, key=lambda name: used[name]) in labels


def test_range_that_is_none_is_refused() -> None:
    """The highest rotor speed must be above the lowest."""
    with pytest.raises(ValueError, match="highest rotor speed allowed must be above the lowest"):
        RotorLimits(lowest_rotor_speed=26.0, highest_rotor_speed=25.0)


def test_no_limit_is_met_first_where_no_airspeed_is_free() -> None:
    """Three times the weight stalls the rotor at every airspeed: the sentence says so."""
    craft = replace(CURLEW, mass=3.0 * CURLEW.mass)
    found = flight_limits(craft, CURLEW_WING, RotorLimits(), Day(), *PROPELLERS, 60.0)

    assert found.largest_airspeed is None
    assert found.first_met.startswith("no airspeed is free; at the lowest: ")
