"""Transition: rotor speed, load and lines while a compound goes from one flight mode to another."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Band, Chart, Line, Panels, Points, Rule
from calc.declaration import Method, Name, Table
from calc.flight.craft import Rotor, Wing
from calc.flight.history import Flyer, Instant, Past, flags, past
from calc.flight.line_crossings import (
    COUNT,
    LINE_CROSSINGS,
    MOST,
    LineCrossing,
    Speeds,
    line_crossings,
)
from calc.flight.quantities import AIRSPEED, BELOW_ONE, ROTOR_SPEED, WING_LIFT_SHARE
from calc.flight.rotor_power import PROPULSIVE_FORCE, SHAFT_TORQUE
from calc.flight.stages import STAGES, Begin, Stage, TransitionLimits
from calc.harmonics.meetings import MODES, ROTOR, SECOND, SOURCES, Mode, Source, source_line
from calc.harmonics.run_up import STAGE_NAME
from calc.quantity import Quantity
from calc.rotor.quantities import BLADE_LOADING
from calc.rotor.retreating_tip import (
    COLLECTIVE,
    INBOARD_ANGLE,
    SMALL_INCIDENCE,
    TIP_ANGLE,
)
from calc.units import DEGREE, HERTZ, TIME
from calc.units import SECOND as SECONDS

EVERY = 4
"""Each so many steps of the march are a row."""

WHEN = Quantity("t_m", "Time of the moment", TIME)
ROW_SPEED = replace(ROTOR_SPEED, above=-math.inf)
VERDICT = Name("Course of the transition")
MODE = Name("Rotor")
PASSED = Name("Past a limit")
LOWEST = Quantity(r"\Omega_a", "Lowest rotor speed in it", ROTOR_SPEED.units)
HIGHEST = Quantity(r"\Omega_b", "Highest rotor speed in it", ROTOR_SPEED.units)
ENDS = Quantity("t_e", "Time at which it ends", TIME)
LARGEST_ANGLE = Quantity(
    r"\alpha_m", "Largest angle of attack of the retreating blade", TIP_ANGLE.units
)
LARGEST_AT = Name("Station of the largest angle")
FLOWN = "flown to its end"
DRIVEN, IDLE = "takes torque", "driven by the air"


@dataclass(frozen=True, slots=True)
class Moment:
    """The flight at one time of a transition."""

    time: Annotated[float, WHEN]
    stage: Annotated[str, STAGE_NAME]
    airspeed: Annotated[float, AIRSPEED]
    rotor_speed: Annotated[float, ROW_SPEED]
    lift_share: Annotated[float, WING_LIFT_SHARE]
    forward_force: Annotated[float, PROPULSIVE_FORCE]
    disc_incidence: Annotated[float, SMALL_INCIDENCE]
    advance_ratio: Annotated[float, BELOW_ONE]
    blade_loading: Annotated[float, BLADE_LOADING]
    torque: Annotated[float, SHAFT_TORQUE]
    collective: Annotated[float, COLLECTIVE]
    tip_angle: Annotated[float, TIP_ANGLE]
    inboard_angle: Annotated[float, INBOARD_ANGLE]
    rotor: Annotated[str, MODE]
    passed: Annotated[str, PASSED]


LINES = replace(
    SOURCES, example=(*SOURCES.example, Source("rotor 2/rev, blades that differ", ROTOR, 2.0))
)
MOMENTS = Table("Moments", Moment)


@dataclass(frozen=True, slots=True)
class Transition:
    """How a transition goes: whether it reaches its end, its rows, and what its lines pass."""

    verdict: Annotated[str, VERDICT]
    ends: Annotated[float, ENDS]
    lowest: Annotated[float, LOWEST]
    highest: Annotated[float, HIGHEST]
    largest_angle: Annotated[float, LARGEST_ANGLE]
    largest_at: Annotated[str, LARGEST_AT]
    count: Annotated[int, COUNT]
    moments: Annotated[tuple[Moment, ...], MOMENTS]
    crossings: Annotated[tuple[LineCrossing, ...], LINE_CROSSINGS]


def transition(
    rotor: Rotor,
    wing: Annotated[Wing, {"wing_angle": 0.0}],
    begin: Begin,
    limits: TransitionLimits,
    stages: Annotated[tuple[Stage, ...], STAGES],
    sources: Annotated[tuple[Source, ...], LINES],
    modes: Annotated[tuple[Mode, ...], MODES],
) -> Transition:
    r"""Return the history of a flight from one mode to another, and what its lines pass.

    $$ J \dot\Omega = Q_s(t) - Q(\Omega, t), \qquad X = D + m \dot{V} - T_e, \qquad
    Z = m g - L_w $$

    In a stage the shaft torque holds, and airspeed, propeller thrust, wing angle and propeller
    speed change evenly to what the stage ends at.  At each time the torque $Q$ that the rotor
    takes is that of `power_of_rotor`, pitch and angles of the blades those of `retreating_tip`.
    The history stops where rotor speed leaves its range, either station of the retreating blade
    reaches the angle given for it, or no level flight is left.

    Quasi-steady: inflow and flapping follow at once, pitch is whatever holds the height.  No
    governor, no pilot, no engine.

    Args:
        rotor: The rotor, at the rotor speed of the start; record.
        wing: The wing; record.
        begin: The rotorcraft and the flight in which it begins; record.
        limits: What is watched for; record.
        stages: Torque in each stage, and what it ends at; rows.
        sources: Excitations, and the shaft whose orders they are; rows.
        modes: What can resonate; rows.

    Returns:
        The course in words, the range of rotor speed, the largest angle of attack and its station,
        the moments with the limits that are passed, and the lines that come within the margin,
        with the times.

    Raises:
        ValueError: If an argument breaks its limits, or there is no level flight at the start.

    Source:
        Angular momentum of the rotor, balance of forces; integrated numerically.

    Examples:
        >>> from calc.flight.examples import CURLEW_ROTOR, CURLEW_WING
        >>> begin = Begin(8600.0, 2.2, 8500.0, 1.225, 41.2, 5000.0, 0.05, 108.0)
        >>> rows = STAGES.example, LINES.example, MODES.example
        >>> found = transition(CURLEW_ROTOR, CURLEW_WING, begin, TransitionLimits(), *rows)
        >>> found.verdict
        'flown to its end; no limit passed'
    """
    LINES.check(sources)
    MODES.check(modes)
    course = flown(rotor, wing, begin, limits, stages)
    speeds = [Speeds(at.time, at.rotor_speed, at.propeller_speed) for at in course.instants]
    crossings = line_crossings(speeds, sources, modes, limits.margin)
    worst = max(course.instants, key=lambda at: at.angle)
    return Transition(
        verdict=_verdict(course, limits),
        ends=course.instants[-1].time,
        lowest=min(at.rotor_speed for at in course.instants),
        highest=max(at.rotor_speed for at in course.instants),
        largest_angle=worst.angle,
        largest_at=worst.station,
        count=len(crossings),
        moments=tuple(_moment(at, limits) for at in _shown(course.instants)),
        crossings=crossings[:MOST],
    )


def flown(
    rotor: Rotor, wing: Wing, begin: Begin, limits: TransitionLimits, stages: tuple[Stage, ...]
) -> Annotated[Past, Method("marched in time by the classical Runge-Kutta method")]:
    """Return the history, which the figure draws."""
    return past(Flyer(rotor, wing, begin), stages, limits)


def _verdict(course: Past, limits: TransitionLimits) -> str:
    """Return in words how far the transition goes, and since when a limit is passed."""
    last = course.instants[-1].time
    words = f"stopped at {last:.1f} s: {course.stopped}" if course.stopped else FLOWN
    first: dict[str, float] = {}
    for at in course.instants:
        for name in flags(at, limits):
            first.setdefault(name, at.time)
    said = [f"{name} from {time:.1f} s" for name, time in first.items()]
    if not said and not course.stopped:
        said = ["no limit passed"]
    return "; ".join([words, *said])


def _shown(instants: list[Instant]) -> list[Instant]:
    """Return the instants that become rows: some of each stage, its two ends and the last one."""
    kept: list[Instant] = []
    since = 0
    for number, at in enumerate(instants):
        begins = number == 0 or instants[number - 1].stage is not at.stage
        since = 0 if begins else since + 1
        if since % EVERY == 0 or number == len(instants) - 1:
            kept.append(at)
    return kept


def _moment(at: Instant, limits: TransitionLimits) -> Moment:
    """Return the row of an instant."""
    return Moment(
        time=at.time,
        stage=at.stage.name,
        airspeed=at.airspeed,
        rotor_speed=at.rotor_speed,
        lift_share=at.wing.lift_share,
        forward_force=at.forward_force,
        disc_incidence=at.rotor.disc_incidence,
        advance_ratio=at.rotor.advance_ratio,
        blade_loading=at.rotor.blade_loading,
        torque=at.rotor.shaft_torque,
        collective=at.blade.collective,
        tip_angle=at.blade.tip_angle,
        inboard_angle=at.blade.inboard_angle,
        rotor=DRIVEN if at.rotor.shaft_power > 0.0 else IDLE,
        passed=", ".join(flags(at, limits)) or "–",
    )


def transition_chart(
    course: Past,
    crossings: Sequence[LineCrossing],
    limits: TransitionLimits,
    sources: tuple[Source, ...],
    modes: tuple[Mode, ...],
) -> Panels:
    """Return rotor speed, lift share, disc incidence, blade angles and lines over one time."""
    instants = course.instants
    time = Axis("Time", SECONDS, 0.0, max(instants[-1].time, 1e-6))

    def line(values: list[float], label: str = "", style: int = 1) -> Line:
        pairs = zip((at.time for at in instants), values, strict=True)
        return Line(list(pairs), label, style)

    def level(value: float, label: str) -> Line:
        return Line([(0.0, value), (instants[-1].time, value)], label, 0, "6 3")

    def panel(title: str, words: str, axis: Axis, *marks: Band | Line | Points | Rule) -> Chart:
        return Chart(title, words, time, axis, marks)

    highest = 1.15 * max((mode.frequency for mode in modes), default=50.0)
    shafts = {ROTOR: [at.rotor_speed for at in instants]}
    shafts[SECOND] = [at.propeller_speed for at in instants]
    orders = [
        line([source_line(s).rate * v for v in shafts[s.follows]], s.name, 1 + n % 6)
        for n, s in enumerate(sources)
        if s.follows in shafts
    ]
    low, high = limits.lowest_rotor_speed, limits.highest_rotor_speed
    return Panels(
        title="The transition over time",
        description="Five panels over one time: rotor speed between its limits, share of the lift "
        "on the wing, tilt of the disc, angles of attack of the retreating blade with the onset "
        "of stall, and lines of rotor and propellers across the modes.",
        charts=(
            panel(
                "Rotor speed",
                "Rotor speed between its lowest and highest.",
                Axis.of(ROTOR_SPEED, 0.97 * low, 1.03 * high),
                Rule(low, "y", "lowest"),
                Rule(high, "y", "highest"),
                line([at.rotor_speed for at in instants]),
            ),
            panel(
                "Share of the lift on the wing",
                "The share of the wing.",
                Axis.of(WING_LIFT_SHARE),
                line([at.wing.lift_share for at in instants]),
            ),
            panel(
                "Disc incidence",
                "The tilt of the disc, nose down positive.",
                Axis.of(SMALL_INCIDENCE),
                Rule(0.0, "y"),
                line([at.rotor.disc_incidence for at in instants]),
            ),
            panel(
                "Angle of attack of the retreating blade",
                "Angles at the tip and at the inboard station, and the onset of stall.",
                Axis("Angle of attack", DEGREE, 0.0, 1.1 * limits.angle_limit),
                Rule(limits.angle_limit, "y", "onset"),
                line([at.blade.tip_angle for at in instants], "tip"),
                line([at.blade.inboard_angle for at in instants], "inboard", 2),
            ),
            panel(
                "Lines and modes",
                "Lines of rotor and propellers; thin dashed lines are modes, circles crossings.",
                Axis("Frequency", HERTZ, 0.0, highest),
                *(level(mode.frequency, mode.name) for mode in modes),
                *orders,
                Points([(row.time, row.frequency) for row in crossings[:MOST]], "", 0),
            ),
        ),
        last_height=340.0,
    )
