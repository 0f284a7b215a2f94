"""History: rotor speed marched in time through stages in which torque, thrust and lift change.

The topic with a page is `transition`; here stands the march.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from calc.flight.craft import Condition, Rotor, Wing
from calc.flight.rotor_power import RotorPower, power_of_rotor
from calc.flight.stages import STAGES, Begin, Stage, TransitionLimits
from calc.flight.wing import AT_MAXIMUM, WingState, wing_at_airspeed
from calc.numeric.runge_kutta import along, stepped
from calc.rotor.blade_loading import solidity
from calc.rotor.retreating_tip import RetreatingTip, retreating_tip

STEPS = 24
"""Steps in time of one stage."""
HALVINGS = 12
"""Of the step in which the history stops."""
TOO_SLOW = "rotor speed below the lowest allowed"
TOO_FAST = "rotor speed above the highest allowed"
STALLED = "rotor stalled: {} at the angle that stops the history"
NO_LIFT = "no flight: the wing lifts all the weight"
NO_BALANCE = "no flight: no tilt of the disc balances the forces below an advance ratio of 1"
TIP, INBOARD = "retreating tip", "inboard station"


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
    def angles(self) -> dict[str, float]:
        """The angles of attack of the retreating blade; both stations are watched all the way."""
        return {TIP: self.blade.tip_angle, INBOARD: self.blade.inboard_angle}

    @property
    def station(self) -> str:
        """The station with the larger angle of attack."""
        return max(self.angles, key=self.angles.__getitem__)

    @property
    def angle(self) -> float:
        """The larger angle of attack."""
        return max(self.angles.values())


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
        f"{station} past the onset of stall": angle > limits.angle_limit
        for station, angle in at.angles.items()
    }
    found |= {
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
