"""Power in level flight by parts, and the crossing of the two modes."""

import math
import re
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from calc.flight import examples as curlew
from calc.flight.craft import Airframe, Condition, Drive, Propellers, Rotor, Wing
from calc.flight.level_power import (
    NEVER,
    PARTS,
    PAST_ONSET,
    STALLED,
    TOO_SLOW,
    UNSTALLED,
    level_flight_power,
    level_power,
    level_power_chart,
    mode_crossover,
    mode_crossover_airspeed,
    mode_crossover_chart,
)
from calc.form.calculation import calculate, start
from tests.flight import wind

ROTOR = Rotor(6.5, 0.42, 5, 30.0, -0.12, 5.8, 0.0095, 1.12)
WING = Wing(16.0, 7.5, math.radians(6.5), 4.7, 0.85, 0.011, 1.3)
AIRFRAME = Airframe(5200.0, 1.3)
PROPELLERS = Propellers(2, 2.7, 0.9)
DRIVE = Drive(0.95, 0.08)
CRAFT = (ROTOR, WING, AIRFRAME, PROPELLERS, DRIVE)


def by_hand(mode: str, airspeed: float, rotor: Rotor = ROTOR, share: float = 0.0) -> float:
    """Return the power of the craft above at sea level, from forces alone."""
    density, gravity = 1.225, 9.80665
    pressure = 0.5 * density * airspeed**2
    lift_coefficient = 4.7 * math.radians(6.5)
    carried = pressure * 16.0 * lift_coefficient
    drag = pressure * (1.3 + 16.0 * (0.011 + lift_coefficient**2 / (math.pi * 0.85 * 7.5)))
    lift = 5200.0 * gravity - carried
    if mode == "helicopter":
        thrust = share * drag
        shaft = wind.state(rotor, airspeed, density, lift, drag - thrust).power
    else:
        thrust = drag + wind.free(rotor, airspeed, density, lift)[0]
        shaft = 0.0
    disc = 2.0 * density * 2 * math.pi * 1.35**2
    induced = -airspeed / 2 + math.sqrt(airspeed**2 / 4 + thrust / disc)
    return 1.08 * shaft / 0.95 + thrust * (airspeed + induced) / 0.9


@pytest.mark.parametrize("airspeed", [35.0, 55.0, 75.0])
def test_power_of_both_modes_by_hand(airspeed: float) -> None:
    """Both modes, and propellers that help in helicopter mode, from forces summed by SciPy."""
    flight = Condition(airspeed, 1.225)
    for mode, share in (("helicopter", 0.0), ("helicopter", 0.6), ("autorotation", 0.0)):
        drive = replace(DRIVE, propeller_thrust_share=share)
        found = level_power(mode, ROTOR, WING, AIRFRAME, PROPELLERS, drive, flight)
        assert found is not None
        assert found.total == pytest.approx(by_hand(mode, airspeed, ROTOR, share), rel=2e-6)


@pytest.mark.parametrize("airspeed", [35.0, 55.0])
def test_helicopter_has_no_wing_and_no_propellers(airspeed: float) -> None:
    """Shaft power of the rotor against all drag of the airframe, by SciPy; nothing else is paid."""
    helicopter = replace(WING, wing_area=0.0), AIRFRAME, replace(PROPELLERS, propellers=0)
    flight = Condition(airspeed, 1.225)
    found = level_power("helicopter", ROTOR, *helicopter, DRIVE, flight)
    drag = 0.5 * 1.225 * airspeed**2 * 1.3
    shaft = wind.state(ROTOR, airspeed, 1.225, 5200.0 * 9.80665, drag).power

    assert found is not None
    assert found.total == pytest.approx(1.08 * shaft / 0.95, rel=2e-6)
    assert found.lift_share == found.wing_induced == found.wing_profile == 0.0
    assert found.propeller_power == found.propeller_loss == found.propeller_thrust == 0.0
    with pytest.raises(ValueError, match="helicopter mode only"):
        level_power("autorotation", ROTOR, *helicopter, DRIVE, flight)
    with pytest.raises(ValueError, match="helicopter mode only"):
        level_power(
            "helicopter", ROTOR, *helicopter, replace(DRIVE, propeller_thrust_share=0.2), flight
        )
    with pytest.raises(ValueError, match="propellers must be at least 1 and at most 100, not 0"):
        mode_crossover(ROTOR, *helicopter, DRIVE, flight, 0.08)


@pytest.mark.parametrize(
    ("mode", "mass", "said"),
    [
        ("helicopter", "8600 kg", ""),
        ("helicopter", "16000 kg", "Blade loading .*0 to 0.12.*too low"),
        ("helicopter", "16000 kg", "limiting station.*−30 deg to 12 deg.*stall.*too low"),
        ("autorotation", "16000 kg", "limiting station.*−30 deg to 12 deg.*stall.*too low"),
    ],
)
def test_power_past_stall_carries_a_warning(mode: str, mass: str, said: str) -> None:
    """In both modes, past 0.12 of blade loading (common practice) and past 12 deg (from memory).

    The tip is the limiting station under power, the inboard station in autorotation.
    """
    given = start("flight.level_power.level_flight_power")
    found = calculate(
        "flight.level_power.level_flight_power",
        given | {"mode": mode, "mass": mass, "airspeed": "50 m/s"},
    )
    assert not found.problems
    station = {"helicopter": "tip_angle", "autorotation": "inboard_angle"}[mode]
    assert found.result.limiting_angle == getattr(found.result, station)
    stalled = [one for one in found.warnings if "stall" in one]
    assert any(re.search(said, one) for one in stalled) if said else not stalled


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(["helicopter", "autorotation"]),
    st.floats(35.0, 85.0),
    st.floats(0.8, 1.25),
    st.floats(2500.0, 9000.0),
    st.floats(0.5, 3.0),
    st.floats(0.7, 1.0),
    st.floats(0.0, 0.9),
)
def test_parts_add_up(
    mode: str,
    airspeed: float,
    density: float,
    mass: float,
    area: float,
    quality: float,
    share: float,
) -> None:
    """The losses of both modes, propellers and drive included, are the power of the engines."""
    wing = replace(WING, wing_area=mass / 500.0)
    assume(0.5 * density * airspeed**2 * wing.wing_area * 0.533 < 0.9 * mass * 9.80665)
    found = level_power(
        mode,
        ROTOR,
        wing,
        Airframe(mass, area),
        replace(PROPELLERS, propeller_quality=quality),
        replace(DRIVE, propeller_thrust_share=share),
        Condition(airspeed, density),
    )
    assume(found is not None)
    assert found is not None

    assert math.fsum(getattr(found, name) for name in PARTS) == pytest.approx(found.total, rel=1e-8)
    drag = (found.parasite + found.wing_induced + found.wing_profile) / airspeed
    assert found.thrust_share == pytest.approx(found.propeller_thrust / drag, rel=1e-9)
    if mode == "autorotation":
        losses = found.rotor_induced + found.rotor_profile
        assert found.propeller_thrust * airspeed == pytest.approx(drag * airspeed + losses)


@settings(max_examples=25, deadline=None)
@given(st.floats(35.0, 80.0), st.floats(0.7, 1.0), st.floats(0.8, 1.0), st.floats(0.0, 0.1))
def test_equal_rotor_speed_decides_by_the_losses(
    airspeed: float, quality: float, efficiency: float, antitorque: float
) -> None:
    """At equal rotor speed autorotation takes more if propellers lose more than the drive."""
    flight = Condition(airspeed, 1.225)
    propellers = replace(PROPELLERS, propeller_quality=quality)
    drive = Drive(efficiency, antitorque)
    powered, free = (
        level_power(mode, ROTOR, WING, AIRFRAME, propellers, drive, flight)
        for mode in ("helicopter", "autorotation")
    )
    assert powered is not None
    assert free is not None
    propeller = free.propeller_thrust * airspeed / free.propeller_power

    if propeller < 0.99 * efficiency / (1.0 + antitorque):
        assert free.total > powered.total


def test_crossing_is_where_scipy_finds_it() -> None:
    """Held blade loading 0.085: the crossing by SciPy, with both powers from forces alone."""

    def gain(airspeed: float) -> float:
        pressure = 0.5 * 1.225 * airspeed**2
        lift = 5200.0 * 9.80665 - pressure * 16.0 * 4.7 * math.radians(6.5)
        tip = math.sqrt(lift / (1.225 * 5 * 0.42 * 6.5 * 0.085))
        slowed = replace(ROTOR, rotor_speed=min(30.0, tip / 6.5))
        return by_hand("helicopter", airspeed) - by_hand("autorotation", airspeed, slowed)

    found = mode_crossover(*CRAFT, Condition(1.0, 1.225), 0.085)
    assert found.airspeed is not None
    assert gain(found.airspeed - 5.0) < 0.0 < gain(found.airspeed + 2.0)
    expected = brentq(gain, found.airspeed - 5.0, found.airspeed + 2.0)
    assert found.airspeed == pytest.approx(expected, rel=1e-4)


def test_no_crossing_is_an_answer() -> None:
    """A rotor that is hardly slowed never wins, and the form says so."""
    found = mode_crossover(
        curlew.CURLEW_ROTOR,
        curlew.CURLEW_WING,
        curlew.CURLEW_AIRFRAME,
        curlew.CURLEW_PROPELLERS,
        curlew.CURLEW_DRIVE,
        Condition(1.0, 1.225),
        0.05,
    )

    assert found.airspeed is None
    assert found.less == NEVER
    assert found.flag == "no crossing"
    assert math.isinf(found.rows[0].slowed)


def test_stall_of_the_slowed_rotor_is_said() -> None:
    """Each row says how far the inboard station of the slowed rotor is from stall."""
    found = mode_crossover(*CRAFT, Condition(1.0, 1.225), 0.12)
    flags = [row.flag for row in found.rows]

    assert STALLED in flags
    assert TOO_SLOW in flags
    assert flags.index(STALLED) < flags.index(TOO_SLOW)
    for row in found.rows:
        if row.flag in {PAST_ONSET, STALLED}:
            slowed = replace(ROTOR, rotor_speed=row.rotor_speed)
            lift = (1.0 - row.lift_share) * 5200.0 * 9.80665
            angle = wind.free(slowed, row.airspeed, 1.225, lift)[1].inboard
            assert (row.flag == STALLED) == (angle >= math.radians(16.0))
            assert angle >= math.radians(12.0)
    gentle = mode_crossover(*CRAFT, Condition(1.0, 1.225), 0.05)
    assert UNSTALLED in [row.flag for row in gentle.rows]


def test_rotor_is_slowed_and_never_sped_up() -> None:
    """A low blade loading held leaves the rotor at its helicopter speed until the wing lifts."""
    low = mode_crossover(*CRAFT, Condition(1.0, 1.225), 0.03)
    high = mode_crossover(*CRAFT, Condition(1.0, 1.225), 0.12)

    assert low.rows[0].rotor_speed == ROTOR.rotor_speed
    assert all(row.rotor_speed <= ROTOR.rotor_speed for row in low.rows)
    assert high.rows[0].rotor_speed < ROTOR.rotor_speed


def test_flat_names_are_the_records() -> None:
    """The functions without records answer the same."""
    angle, twist = math.radians(6.5), -0.12
    rest = (
        angle, 5200.0, 1.3, 6.5, 0.42, 5, twist, 5.8, 16.0, 7.5, 4.7, 0.85, 0.011,
        2, 2.7, 0.9, 0.95, 0.08, 0.0095, 1.12, 1.0, 0.0, 1.3,
    )  # fmt: skip
    flight = Condition(60.0, 1.1)
    for mode in "helicopter", "autorotation":
        flat = level_flight_power(mode, 60.0, 1.1, 30.0, *rest)
        assert flat == level_power(mode, *CRAFT, flight)
    flat_airspeed = mode_crossover_airspeed(1.225, 30.0, 0.085, *rest)
    assert flat_airspeed == mode_crossover(*CRAFT, Condition(1.0, 1.225), 0.085).airspeed


def test_wing_that_lifts_all_is_refused() -> None:
    """Above the weight on the wing there is no level flight with a rotor."""
    with pytest.raises(ValueError, match="The wing lifts the whole weight"):
        level_power("helicopter", *CRAFT, Condition(130.0, 1.225))


def test_air_that_drives_the_rotor_gives_no_power_back() -> None:
    """Propellers that push too hard turn the rotor; the engines of the rotor give nothing."""
    drive = replace(DRIVE, propeller_thrust_share=3.0)
    found = level_power(
        "helicopter", ROTOR, WING, AIRFRAME, PROPELLERS, drive, Condition(60.0, 1.225)
    )

    assert found is not None
    assert found.rotor_shaft < 0.0
    assert found.total == found.propeller_power


def test_figures_show_the_numbers_of_the_form() -> None:
    """Bars are the parts, lines the columns of the table."""
    found = level_power("helicopter", *CRAFT, Condition(60.0, 1.225))
    assert found is not None
    bars = level_power_chart("helicopter", found).marks[0].points  # type: ignore[union-attr]
    assert [power for _, power in bars] == [getattr(found, name) for name in PARTS]

    crossover = mode_crossover(*CRAFT, Condition(1.0, 1.225), 0.085)
    drawn = mode_crossover_chart(crossover)
    line = drawn.marks[2].points  # type: ignore[union-attr]
    assert line == [(row.airspeed, row.slowed) for row in crossover.rows]
    assert drawn.marks[-1].value == crossover.airspeed  # type: ignore[union-attr]
