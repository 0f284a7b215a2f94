"""Transition: rotor speed over time, against a march of its own, and lines against samples."""

import itertools
import math
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad_vec, solve_ivp
from scipy.optimize import brentq

from calc.chart import Panels
from calc.flight.craft import Rotor, Wing
from calc.flight.curlew_flight import (
    AUTOROTATION_SPEED,
    BACK,
    OUT,
    RETURN,
    THRUST_FIRST,
    curlew_transition,
    return_given_up,
    return_of_the_curlew,
    return_without_drives,
)
from calc.flight.examples import CURLEW_ROTOR, CURLEW_WING
from calc.flight.history import INBOARD, TIP, Flyer, past
from calc.flight.line_crossings import MOST, PASSES, Speeds, line_crossings
from calc.flight.stages import STAGES, Begin, Stage, TransitionLimits
from calc.flight.transition import LINES, flown, transition, transition_chart
from calc.harmonics.meetings import MODES, Mode, Source
from calc.units import RPM
from tests.flight import wind

GRAVITY = 9.80665
ROTOR = Rotor(7.2, 0.42, 5, 27.5, math.radians(-7.0), 5.6, 0.011, 1.13)
WING = Wing(15.0, 6.8, 0.0, 4.4, 0.82, 0.011, 1.4)
BEGIN = Begin(6400.0, 1.6, 9800.0, 1.15, 45.0, 4000.0, 0.05, 118.0)
ROWS = (
    Stage("up", 7.0, 17500.0, 50.0, 8500.0, 0.06, 140.0),
    Stage("half", 9.0, 9000.0, 55.0, 12500.0, 0.08, 150.0),
    Stage("none", 12.0, 0.0, 62.0, 14000.0, 0.09, 150.0),
)
OPEN = TransitionLimits(5.0, 60.0, math.radians(12.0), math.radians(80.0), 0.5)


def profile(mu: float) -> tuple[float, float]:
    """Return the factors of profile torque and in-plane drag, by adaptive quadrature."""

    def along(psi: float) -> Any:
        def element(x: float) -> Any:
            across, along_wind = x + mu * math.sin(psi), mu * math.cos(psi)
            speed = math.hypot(across, along_wind)
            drag = across * math.sin(psi) + along_wind * math.cos(psi)
            return 4.0 * speed * np.array([across * x, drag])

        return quad_vec(element, 0.0, 1.0, epsrel=1e-9)[0]

    # both halves of the turn, left and right of the flight path, are alike
    return tuple(quad_vec(along, -0.5 * math.pi, 0.5 * math.pi, epsrel=1e-8)[0] / math.pi)


RATIOS = np.linspace(0.1, 0.6, 26)


@cache
def table() -> Any:
    """Return the two factors at the ratios, which take a second and are needed here alone."""
    return np.array([profile(ratio) for ratio in RATIOS])


def torque(
    speed: float, airspeed: float, thrust: float, angle: float, acceleration: float
) -> float:
    """Return the torque that a rotor takes, put together from forces once more."""
    pressure = 0.5 * BEGIN.density * airspeed**2
    coefficient = WING.wing_lift_slope * angle
    lift = pressure * WING.wing_area * coefficient
    wing_drag = pressure * WING.wing_area * (0.011 + coefficient**2 / (math.pi * 0.82 * 6.8))
    drag = pressure * BEGIN.drag_area + wing_drag
    ahead = drag + BEGIN.mass * acceleration - thrust
    up = BEGIN.mass * GRAVITY - lift
    tip, area = speed * ROTOR.radius, math.pi * ROTOR.radius**2
    solidity = ROTOR.blades * ROTOR.chord * ROTOR.radius / area
    scale = solidity * ROTOR.profile_drag_coefficient / 8.0 * BEGIN.density * area * tip**2

    def factors(tilt: float) -> Any:
        mu = airspeed * math.cos(tilt) / tip
        low = np.clip(np.searchsorted(RATIOS, mu) - 2, 0, len(RATIOS) - 4)
        near = slice(low, low + 4)
        return [np.polyval(np.polyfit(RATIOS[near] - mu, table()[near, k], 3), 0.0) for k in (0, 1)]

    tilt = brentq(
        lambda a: up * math.sin(a) - ahead * math.cos(a) - scale * factors(a)[1], -0.9, 0.9
    )
    force = up * math.cos(tilt) + ahead * math.sin(tilt)
    through, across = airspeed * math.sin(tilt), airspeed * math.cos(tilt)
    induced = brentq(
        lambda v: 2.0 * BEGIN.density * area * v * math.hypot(across, through + v) - force,
        0.0,
        60.0,
    )
    # torque of thrust tilted into the wind, and of profile drag
    power = force * (through + ROTOR.induced_factor * induced) + scale * tip * factors(tilt)[0]
    return float(power / speed)


def marched() -> list[float]:
    """Return rotor speed at the end of each stage, by an adaptive method of SciPy."""
    ends, speed = [], ROTOR.rotor_speed
    airspeed, thrust, angle = BEGIN.airspeed, BEGIN.thrust, BEGIN.wing_angle
    for row in ROWS:
        acceleration = (row.airspeed - airspeed) / row.duration

        def rate(
            time: float,
            state: Any,
            row: Stage = row,
            first: tuple[float, float, float] = (airspeed, thrust, angle),
            acceleration: float = acceleration,
        ) -> Any:
            share = time / row.duration
            last = row.airspeed, row.thrust, row.wing_angle
            here = [a + share * (b - a) for a, b in zip(first, last, strict=True)]
            needed = torque(float(state[0]), here[0], here[1], here[2], acceleration)
            return [(row.shaft_torque - needed) / BEGIN.inertia]

        found = solve_ivp(rate, (0.0, row.duration), [speed], method="RK45", rtol=1e-7)
        speed = float(found.y[0, -1])
        ends.append(speed)
        airspeed, thrust, angle = row.airspeed, row.thrust, row.wing_angle
    return ends


def test_rotor_speed_is_that_of_a_march_of_its_own() -> None:
    """Forces, inflow and profile drag put together again, and an adaptive method of SciPy.

    Cubic interpolation of the profile factors and its tolerance leave a few parts in 1e6.
    """
    found = past(Flyer(ROTOR, WING, BEGIN), ROWS, OPEN).instants
    ends = [[at.rotor_speed for at in found if at.stage is row][-1] for row in ROWS]

    assert ends == pytest.approx(marched(), rel=1e-5)


def test_torque_that_is_taken_holds_rotor_speed() -> None:
    """A stage in which nothing changes, at the torque that the rotor takes, keeps its speed."""
    flyer = Flyer(ROTOR, WING, BEGIN)
    same = Stage("same", 5.0, 0.0, 45.0, 4000.0, 0.05, 118.0)
    taken = past(flyer, (same,), OPEN).instants[0].rotor.shaft_torque
    held = past(flyer, (replace(same, shaft_torque=taken),), OPEN).instants

    assert [at.rotor_speed for at in held] == pytest.approx([27.5] * len(held), rel=1e-12)


def test_acceleration_needs_its_force() -> None:
    """Half a metre per second squared on 6400 kg takes 3200 N more from the rotor."""
    stages = [Stage("level", 10.0, 17000.0, speed, 4000.0, 0.05, 118.0) for speed in (45.0, 50.0)]
    held, faster = (
        past(Flyer(ROTOR, WING, BEGIN), (stage,), OPEN).instants[0].forward_force
        for stage in stages
    )

    assert faster - held == pytest.approx(3200.0)


def example(limits: TransitionLimits, thrust_delay: float = 0.0) -> Any:
    """Return the transition of the Curlew, with the thrust of each stage reduced."""
    stages = tuple(
        replace(stage, thrust=(1.0 - thrust_delay) * stage.thrust) for stage in STAGES.example
    )
    return (
        CURLEW_ROTOR,
        CURLEW_WING,
        OUT,
        limits,
        stages,
        LINES.example,
        MODES.example,
    )


def test_late_thrust_stops_the_history_and_names_why() -> None:
    """With the torque off before the thrust is there the rotor slows out of its range or stalls."""
    good = transition(*example(TransitionLimits()))
    slow = transition(*example(TransitionLimits(), 0.5))
    stalled = transition(*example(TransitionLimits(lowest_rotor_speed=RPM.si(60.0)), 0.5))

    assert good.verdict == "flown to its end; no limit passed"
    assert good.ends == pytest.approx(54.0)
    assert "rotor speed below the lowest allowed" in slow.verdict
    assert slow.lowest == pytest.approx(RPM.si(225.0), rel=1e-4)
    assert "rotor stalled" in stalled.verdict
    assert "past the onset of stall from" in stalled.verdict
    assert stalled.largest_angle == pytest.approx(math.radians(16.0), rel=1e-3)
    assert stalled.ends > slow.ends


def test_both_stations_are_watched_while_torque_is_taken() -> None:
    """Disc back, torque on the shaft: the inboard station has the larger angle and is named.

    Both angles of each instant by blade elements summed over the disc (`wind.state`).
    """
    flown = past(Flyer(CURLEW_ROTOR, CURLEW_WING, OUT), STAGES.example, TransitionLimits())
    back = [at for at in flown.instants if at.rotor.shaft_power > 0.0 and at.time > 20.0][::12]
    assert len(back) >= 4
    for at in back:
        rotor = replace(CURLEW_ROTOR, rotor_speed=at.rotor_speed)
        blade = wind.state(rotor, at.airspeed, OUT.density, at.wing.rotor_lift, at.forward_force)
        assert blade.incidence < 0.0 < blade.torque
        assert blade.inboard > blade.tip
        assert at.station == INBOARD
        assert at.angle == pytest.approx(blade.inboard, rel=1e-6)

    marked = transition(*example(TransitionLimits(angle_limit=math.radians(9.05))))
    assert f"{INBOARD} past the onset of stall from" in marked.verdict
    assert TIP not in marked.verdict
    assert marked.largest_at == INBOARD
    stopped = transition(*example(TransitionLimits(stall_angle=math.radians(9.05))))
    assert f"rotor stalled: {INBOARD} at the angle" in stopped.verdict


def test_tip_is_named_where_its_angle_is_the_larger() -> None:
    """A disc tilted forward at high airspeed loads the tip more than the inboard station."""
    fast = Begin(8600.0, 4.5, 8500.0, 1.225, 68.0, 0.0, math.radians(2.0), 108.0)
    stage = Stage("fast", 1.0, 30_000.0, 68.0, 0.0, math.radians(2.0), 108.0)
    at = past(Flyer(CURLEW_ROTOR, CURLEW_WING, fast), (stage,), OPEN).instants[0]
    blade = wind.state(CURLEW_ROTOR, 68.0, fast.density, at.wing.rotor_lift, at.forward_force)

    assert blade.tip > blade.inboard
    assert at.station == TIP
    assert at.angle == pytest.approx(blade.tip, rel=1e-6)


def test_way_back_puts_each_drive_on_before_its_thrust_is_off() -> None:
    """From autorotation to power: torque rises stage by stage while thrust is held or falls."""
    found = return_of_the_curlew()

    assert found.verdict == "flown to its end; no limit passed"
    assert found.moments[0].torque == pytest.approx(0.0, abs=100.0)
    assert found.moments[-1].torque > 20_000.0
    thrust, torque = BACK.thrust, 0.0
    for drives_on, thrust_off in zip(RETURN[:6:2], RETURN[1:6:2], strict=True):
        assert drives_on.shaft_torque > torque
        assert thrust - drives_on.thrust < 0.2 * (thrust - thrust_off.thrust)
        thrust, torque = thrust_off.thrust, thrust_off.shaft_torque


def test_failed_drive_costs_nothing_only_while_thrust_is_held() -> None:
    """Thrust taken off first leaves the range as the drive is due; thrust held keeps rotor speed.

    `test_rotor_speed_is_that_of_a_march_of_its_own` holds the march against SciPy.
    """
    thrust_first = return_without_drives(THRUST_FIRST)
    held = return_without_drives(RETURN[:1])
    late, soon = (return_given_up(unnoticed) for unnoticed in (2.0, 0.5))

    assert "rotor speed below the lowest allowed" in thrust_first.verdict
    assert thrust_first.ends - THRUST_FIRST[0].duration < 0.5
    assert held.verdict == "flown to its end; no limit passed"
    assert held.lowest == pytest.approx(AUTOROTATION_SPEED, rel=1e-3)
    assert "rotor speed below the lowest allowed" in late.verdict
    assert soon.verdict == "flown to its end; no limit passed"
    again = curlew_transition(BACK, AUTOROTATION_SPEED, RETURN[:2])
    assert soon.lowest < again.lowest


def test_overspeed_stops_the_history() -> None:
    """Torque that stays on while the disc leans back drives the rotor out of its range."""
    case = [*example(TransitionLimits())]
    case[4] = tuple(replace(stage, shaft_torque=24000.0) for stage in case[4])
    found = transition(*case)

    assert "rotor speed above the highest allowed" in found.verdict
    assert found.highest == pytest.approx(RPM.si(265.0), rel=1e-4)


def test_start_without_a_flight_is_refused() -> None:
    """Where the wing lifts more than the weight there is nothing left for the rotor."""
    begin = replace(BEGIN, airspeed=150.0, wing_angle=0.2)
    with pytest.raises(ValueError, match="the wing lifts all the weight"):
        past(Flyer(ROTOR, WING, begin), ROWS, OPEN)


@settings(max_examples=30, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(0.5, 9.0), st.floats(10.0, 40.0), st.floats(60.0, 140.0)),
        min_size=2,
        max_size=6,
    ),
    st.floats(0.0, 0.2),
    st.floats(0.0, 0.05),
)
def test_times_in_a_band_are_those_of_samples(
    steps: list[tuple[float, float, float]], margin: float, tolerance: float
) -> None:
    """A fine grid of samples finds each pair within its band when, and only when, a row does."""
    times = list(itertools.accumulate(step[0] for step in steps))
    speeds = [Speeds(time, step[1], step[2]) for time, step in zip(times, steps, strict=True)]
    sources = (Source("4/rev", "rotor", 4.0), Source("1/prop", "second", 1.0))
    modes = (Mode("mode", 15.0, tolerance),)
    rows = line_crossings(speeds, sources, modes, margin)

    grid = np.linspace(times[0], times[-1], 4001)
    rotor, propeller = (
        np.interp(grid, times, [getattr(at, name) for at in speeds])
        for name in ("rotor", "propeller")
    )
    lines = {"4/rev": 4.0 * rotor, "1/prop": propeller, "mode": 0.0 * grid + 30.0 * math.pi}
    for (one, other), spread in (
        (("4/rev", "mode"), tolerance),
        (("1/prop", "mode"), tolerance),
        (("4/rev", "1/prop"), 0.0),
    ):
        ratio = lines[one] / lines[other]
        q = (1.0 + margin / 2.0) / (1.0 - margin / 2.0)
        inside = (ratio >= (1.0 - spread) / q) & (ratio <= (1.0 + spread) * q)
        said = [row for row in rows if row.what == f"{one} and {other}"]
        told = np.zeros(len(grid), dtype=bool)
        for row in said:
            told |= (grid >= row.entered) & (grid <= row.left)
            assert row.entered <= row.time <= row.left
            assert row.near == pytest.approx(row.left - row.entered)
        assert (told != inside).sum() <= 2 * len(said) + 2  # a sample at each edge
        for row in said:
            within = (grid >= row.entered) & (grid <= row.left)
            signs = np.sign(ratio[within] - 1.0)
            passes = bool(signs.min(initial=1) < 0 < signs.max(initial=-1))
            assert row.how.startswith(PASSES) or not passes


def test_a_line_that_goes_there_and_back_crosses_twice() -> None:
    """1/rev from 4.9 to 5.1 Hz and back within a wide band: one visit, two crossings."""
    turns = [
        Speeds(time, 2.0 * math.pi * hertz, 0.0) for time, hertz in ((0, 4.9), (4, 5.1), (8, 4.9))
    ]
    [row] = line_crossings(turns, (Source("1/rev", "rotor", 1.0),), (Mode("m", 5.0),), 0.1)

    assert row.how == f"{PASSES} 2 times, first then"
    assert [row.entered, row.time, row.left] == pytest.approx([0.0, 2.0, 8.0])
    assert row.frequency == pytest.approx(5.0)


def chart_of_example() -> Panels:
    """Return the figure of the example."""
    rotor, wing, begin, limits, stages, *rows = example(TransitionLimits())
    found = transition(rotor, wing, begin, limits, stages, *rows)
    course = flown(rotor, wing, begin, limits, stages)
    return transition_chart(course, found.crossings, limits, *rows)


def test_figure_has_the_panels_over_one_time() -> None:
    """Rotor speed, share, disc, angles and lines share an axis from zero to the end."""
    chart = chart_of_example()

    assert len(chart.charts) == 5
    assert {(panel.x.low, round(panel.x.high, 9)) for panel in chart.charts} == {(0.0, 54.0)}


def test_each_mode_has_its_name_in_the_figure() -> None:
    """A dashed line without a name could be any of the modes."""
    drawn = chart_of_example().svg("f")
    names = [mode.name for mode in MODES.example]

    assert len(names) > 1
    for name in names:
        assert f'data-curve="{name}"' in drawn


def test_a_list_that_is_cut_says_how_long_it_is() -> None:
    """Ten lines that pass thirty modes: all are counted, the first are listed."""
    lines = tuple(Source(f"line {n}", "rotor", 4.0) for n in range(10))
    modes = tuple(Mode(f"mode {n}", 4.0 * ROTOR.rotor_speed / (2.0 * math.pi)) for n in range(30))
    found = transition(ROTOR, WING, BEGIN, OPEN, ROWS, lines, modes)
    assert found.count >= 300
    assert len(found.crossings) == MOST
    assert found.crossings[-1].order == MOST
