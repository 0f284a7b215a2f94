"""History: rotor speed marched in time through stages in which torque, thrust and lift change.

The topic with a page is `transition`; here stand its records and the march.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar, NamedTuple

from calc.declaration import Table, check
from calc.flight.craft import Condition, Rotor, Wing
from calc.flight.decay import ROTOR_INERTIA
from calc.flight.limits import BLADE_LOADING_LIMIT, HIGHEST_SPEED, LOWEST_SPEED
from calc.flight.quantities import AIRSPEED, DENSITY, DRAG_AREA, MASS, WING_ANGLE
from calc.flight.rotor_power import RotorPower, power_of_rotor
from calc.flight.wing import AT_MAXIMUM, WingState, wing_at_airspeed
from calc.harmonics.meetings import MARGIN
from calc.harmonics.run_up import SECOND_END, STAGE_NAME
from calc.numeric.runge_kutta import along, stepped
from calc.quantity import Quantity
from calc.rotor.blade_loading import solidity
from calc.rotor.retreating_tip import RetreatingTip, retreating_tip
from calc.rotor.stall_onset import ANGLE_LIMIT
from calc.units import ANGLE, FORCE, MOMENT, RPM, TIME

STEPS = 24
"""Steps in time of one stage."""
HALVINGS = 12
"""Of the step in which the history stops."""

DURATION = Quantity("T", "Duration", TIME, above=0.0, at_most=120.0, example=10.0)
SHAFT_TORQUE = Quantity("Q_s", "Shaft torque in the stage", MOMENT, at_least=0.0, example=0.0)
OTHER_DRAG_AREA = replace(DRAG_AREA, symbol="f_D", label="Drag area of all but rotor and wing")
AIRSPEED_END = replace(AIRSPEED, symbol="V_e", label="Airspeed at its end", example=60.0)
THRUST_END = Quantity("T_e", "Thrust of all propellers at its end", FORCE, example=12000.0)
ANGLE_END = replace(WING_ANGLE, symbol=r"\alpha_e", label="Wing angle at its end")
AIRSPEED_START = replace(AIRSPEED, symbol="V_0", label="Airspeed at the start", example=41.0)
THRUST_START = Quantity("T_0", "Thrust of all propellers at the start", FORCE, example=5000.0)
ANGLE_START = replace(
    WING_ANGLE, symbol=r"\alpha_0", label="Wing angle at the start", example=math.radians(3.0)
)
PROPELLER_START = Quantity(
    "n_0", "Propeller speed at the start", SECOND_END.units, at_least=0.0, example=RPM.si(1035.0)
)
STALL_ANGLE = Quantity(
    r"\alpha_s",
    "Angle at which the history stops",
    ANGLE,
    above=0.0,
    below=math.pi / 2,
    example=math.radians(16.0),
)

TOO_SLOW = "rotor speed below the lowest allowed"
TOO_FAST = "rotor speed above the highest allowed"
STALLED = "rotor stalled: {} at the angle that stops the history"
NO_LIFT = "no flight: the wing lifts all the weight"
NO_BALANCE = "no flight: no tilt of the disc balances the forces below an advance ratio of 1"
TIP, INBOARD = "retreating tip", "inboard station"


@dataclass(frozen=True, slots=True)
class Stage:
    """A stretch of flight: the torque holds, all else changes evenly to what it ends at."""

    name: Annotated[str, STAGE_NAME]
    duration: Annotated[float, DURATION]
    shaft_torque: Annotated[float, SHAFT_TORQUE]
    airspeed: Annotated[float, AIRSPEED_END]
    thrust: Annotated[float, THRUST_END]
    wing_angle: Annotated[float, ANGLE_END]
    propeller_speed: Annotated[float, SECOND_END]


def example_stage(
    name: str, duration: float, torque: float, ends: tuple[float, float, float, float]
) -> Stage:
    """Return a stage of the example; it ends at an airspeed, a thrust, an angle and rpm."""
    airspeed, thrust, degrees, rpm = ends
    return Stage(name, duration, torque, airspeed, thrust, math.radians(degrees), RPM.si(rpm))


STAGES = Table(
    "Stages of the transition",
    Stage,
    (
        example_stage("propellers up", 10.0, 24000.0, (43.0, 6000.0, 3.5, 1100.0)),
        example_stage("first drives off", 8.0, 18000.0, (45.5, 11500.0, 4.0, 1150.0)),
        example_stage("second drives off", 8.0, 12000.0, (48.0, 13500.0, 4.5, 1150.0)),
        example_stage("third drives off", 8.0, 6000.0, (50.5, 17000.0, 5.0, 1150.0)),
        example_stage("all drives off", 20.0, 0.0, (55.5, 16400.0, 5.0, 1150.0)),
    ),
    at_least=1,
    at_most=10,
)


@dataclass(frozen=True, slots=True)
class Begin:
    """A rotorcraft and the flight in which the history begins.

    Attributes:
        mass: Mass of the rotorcraft; scalar, kg.
        drag_area: Drag of all but the rotor and the wing over the dynamic pressure; scalar, m².
        inertia: Of the rotor and what stays geared to it, at rotor speed; scalar, kg·m².
        density: Density of the air; scalar, kg/m³.
        airspeed: True airspeed at the start; scalar, m/s.
        thrust: Thrust of all propellers at the start; scalar, N.
        wing_angle: Zero-lift line of the wing to the flight path, at the start; scalar, rad.
        propeller_speed: Angular speed of the propellers at the start; scalar, rad/s.
    """

    heading: ClassVar[str] = "Rotorcraft and start"

    mass: Annotated[float, MASS]
    drag_area: Annotated[float, OTHER_DRAG_AREA]
    inertia: Annotated[float, ROTOR_INERTIA]
    density: Annotated[float, DENSITY]
    airspeed: Annotated[float, AIRSPEED_START]
    thrust: Annotated[float, THRUST_START]
    wing_angle: Annotated[float, ANGLE_START]
    propeller_speed: Annotated[float, PROPELLER_START]

    def __post_init__(self) -> None:
        """Refuse a start that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class TransitionLimits:
    """What a history is watched for.

    Attributes:
        lowest_rotor_speed: Lowest rotor speed allowed; scalar, rad/s.
        highest_rotor_speed: Highest rotor speed allowed; scalar, rad/s.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.
        stall_angle: Angle at which the rotor is taken for stalled; scalar, rad.
        blade_loading_limit: Largest thrust coefficient over solidity; scalar.
        margin: Difference of two frequencies over their mean that is near; scalar.
    """

    heading: ClassVar[str] = "Watched for"

    lowest_rotor_speed: Annotated[float, LOWEST_SPEED] = RPM.si(225.0)
    highest_rotor_speed: Annotated[float, HIGHEST_SPEED] = RPM.si(265.0)
    angle_limit: Annotated[float, ANGLE_LIMIT] = math.radians(12.0)
    stall_angle: Annotated[float, STALL_ANGLE] = math.radians(16.0)
    blade_loading_limit: Annotated[float, BLADE_LOADING_LIMIT] = 0.12
    margin: Annotated[float, MARGIN] = 0.05

    def __post_init__(self) -> None:
        """Refuse limits that cannot exist, or a range of rotor speed that is none."""
        check(self)
        if self.lowest_rotor_speed >= self.highest_rotor_speed:
            raise ValueError("The highest rotor speed allowed must be above the lowest")


class Instant(NamedTuple):
    """A flight at one time: what is given there, and what rotor and wing do."""

    time: float
    stage: Stage
    airspeed: float
    propeller_speed: float
    rotor_speed: float
    forward_force: float
    wing: WingState
    rotor: RotorPower
    blade: RetreatingTip

    @property
    def station(self) -> str:
        """The station that stalls first: the tip while the rotor takes torque."""
        return TIP if self.rotor.shaft_power > 0.0 else INBOARD

    @property
    def angle(self) -> float:
        """The angle of attack at that station."""
        return self.blade.tip_angle if self.station == TIP else self.blade.inboard_angle


class Past(NamedTuple):
    """A history as far as it goes, and why it stops before its end, or nothing."""

    instants: list[Instant]
    stopped: str


class NoFlightError(ValueError):
    """There is no level flight with these numbers."""


class _Course(NamedTuple):
    """A stage that begins at a time with a flight, as a function of time."""

    begins: float
    first: Stage
    last: Stage

    def at(self, time: float) -> tuple[float, float, float, float]:
        """Return airspeed, thrust, wing angle and propeller speed at a time."""
        share = (time - self.begins) / self.last.duration
        pairs = (
            (self.first.airspeed, self.last.airspeed),
            (self.first.thrust, self.last.thrust),
            (self.first.wing_angle, self.last.wing_angle),
            (self.first.propeller_speed, self.last.propeller_speed),
        )
        airspeed, thrust, angle, speed = (start + (end - start) * share for start, end in pairs)
        return airspeed, thrust, angle, speed

    @property
    def acceleration(self) -> float:
        """Change of airspeed in a second."""
        return (self.last.airspeed - self.first.airspeed) / self.last.duration


class Flyer(NamedTuple):
    """What flies through a history."""

    rotor: Rotor
    wing: Wing
    begin: Begin

    def instant(self, course: _Course, time: float, rotor_speed: float) -> Instant:
        """Return the flight at a time of a stage, at a rotor speed.

        Raises:
            NoFlightError: If there is no such flight.
        """
        wing, forward, power = self._balance(course, time, rotor_speed)
        airspeed, _, _, speed = course.at(time)
        rotor = self.rotor
        try:
            blade = retreating_tip(
                power.advance_ratio,
                power.blade_loading,
                solidity(rotor.blades, rotor.chord, rotor.radius),
                power.disc_incidence,
                rotor.twist,
                rotor.lift_slope,
            )
        except (ValueError, ZeroDivisionError):
            raise NoFlightError(NO_BALANCE) from None
        return Instant(time, course.last, airspeed, speed, rotor_speed, forward, wing, power, blade)

    def _balance(
        self, course: _Course, time: float, rotor_speed: float
    ) -> tuple[WingState, float, RotorPower]:
        """Return the wing, the forward force of the rotor and its power."""
        airspeed, thrust, angle, _ = course.at(time)
        flight = Condition(airspeed, self.begin.density)
        wing = wing_at_airspeed(replace(self.wing, wing_angle=angle), flight, self.begin.mass)
        if wing.rotor_lift <= 0.0:
            raise NoFlightError(NO_LIFT)
        pressure = 0.5 * self.begin.density * airspeed**2
        drag = pressure * self.begin.drag_area + wing.induced_drag + wing.profile_drag
        forward = drag + self.begin.mass * course.acceleration - thrust
        rotor = replace(self.rotor, rotor_speed=rotor_speed)
        try:
            return wing, forward, power_of_rotor(rotor, flight, wing.rotor_lift, forward)
        except ValueError:
            raise NoFlightError(NO_BALANCE) from None

    def march(self, course: _Course, time: float, rotor_speed: float, step: float) -> float:
        """Return the rotor speed one step later."""

        def rate(at: float, speed: complex) -> complex:
            _, _, power = self._balance(course, at, speed.real)
            torque = power.shaft_torque
            return (course.last.shaft_torque - torque) / self.begin.inertia

        return stepped(rate, along, time, complex(rotor_speed), step).real


def past(flyer: Flyer, stages: Sequence[Stage], limits: TransitionLimits) -> Past:
    """Return the history of a flight through stages, until it ends or has to stop.

    Raises:
        ValueError: If a stage breaks its limits or there is no flight at the start.
    """
    STAGES.check(tuple(stages))
    instants: list[Instant] = []
    for course in _courses(flyer.begin, stages):
        speed = instants[-1].rotor_speed if instants else flyer.rotor.rotor_speed
        try:
            instants.append(flyer.instant(course, course.begins, speed))
        except NoFlightError as error:
            if not instants:
                raise
            return Past(instants, str(error))
        step = course.last.duration / STEPS
        for number in range(STEPS):
            time = course.begins + number * step
            reason, found = _next(flyer, course, (time, instants[-1].rotor_speed, step), limits)
            if found:
                instants.append(found)
            if reason:
                return Past(instants, reason)
    return Past(instants, "")


def flags(at: Instant, limits: TransitionLimits) -> list[str]:
    """Return which limits are passed at an instant, without those that stop the history."""
    found = {
        f"{at.station} past the onset of stall": at.angle > limits.angle_limit,
        "blade loading": at.rotor.blade_loading > limits.blade_loading_limit,
        "wing stalled": at.wing.state == AT_MAXIMUM,
    }
    return [name for name, passed in found.items() if passed]


def _courses(begin: Begin, stages: Sequence[Stage]) -> Iterator[_Course]:
    """Yield the stages as they follow one another from the start."""
    time = 0.0
    last = Stage(
        "start", 1.0, 0.0, begin.airspeed, begin.thrust, begin.wing_angle, begin.propeller_speed
    )
    for stage in stages:
        yield _Course(time, last, stage)
        time += stage.duration
        last = stage


def _next(
    flyer: Flyer,
    course: _Course,
    here: tuple[float, float, float],
    limits: TransitionLimits,
) -> tuple[str, Instant | None]:
    """Return why the history stops in a step, if it does, and the last instant of the step.

    `here` is the time, the rotor speed and the length of the step.  A step in which it stops is
    halved until the time is known to a fraction of it.
    """
    time, rotor_speed, step = here

    def ahead(share: float) -> tuple[str, Instant | None]:
        try:
            speed = flyer.march(course, time, rotor_speed, share * step)
            found = flyer.instant(course, time + share * step, speed)
        except NoFlightError as error:
            return str(error), None
        return _stop(found, limits), found

    reason, found = ahead(1.0)
    low, high = 0.0, 1.0
    for _ in range(HALVINGS if reason else 0):
        middle = 0.5 * (low + high)
        here_reason, here_found = ahead(middle)
        if here_reason:
            high, reason, found = middle, here_reason, here_found
        else:
            low = middle
    if found is None and low > 0.0:
        found = ahead(low)[1]
    return reason, found


def _stop(at: Instant, limits: TransitionLimits) -> str:
    """Return why a history stops at an instant, or nothing."""
    if at.rotor_speed < limits.lowest_rotor_speed:
        return TOO_SLOW
    if at.rotor_speed > limits.highest_rotor_speed:
        return TOO_FAST
    if at.angle >= limits.stall_angle:
        return STALLED.format(at.station)
    return ""
