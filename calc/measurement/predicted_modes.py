"""Predicted modes: the modes of a rotor on its support that measured ones stand beside."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.creep import swinging
from calc.ground.model.spectrum import spectrum
from calc.ground.plan.seen_modes import least_damping_of
from calc.ground.search.least_damped import ratio
from calc.measurement.run_readings import History
from calc.numeric.roots import crossing

STEPS = 160
REACH = 1.3  # how far beyond the last reading a mode is followed, of its rotor speed
JUMP = 0.05  # share of its size by which a mode followed in these steps may miss its straight way


@dataclass(frozen=True, slots=True)
class PredictedMode:
    """A mode of the model, followed over rotor speed from the one nearest to a measured mode."""

    points: tuple[tuple[float, complex], ...]

    @property
    def ratios(self) -> list[tuple[float, float]]:
        """Damping ratio over rotor speed, rad/s."""
        return [(speed, ratio(value)) for speed, value in self.points]

    def at(self, speed: float) -> complex | None:
        """Return the exponent at a rotor speed of a reading, or None where it was not followed."""
        return dict(self.points).get(speed)


def predicted_modes(
    rotor: Rotor, support: Support, histories: Sequence[History]
) -> tuple[PredictedMode | None, ...]:
    """Return the predicted mode for each measured one, None where the model has none left.

    It is the one nearest to the last reading of the measured mode in growth rate and frequency;
    no two measured modes share one.  From there it is followed both ways without a jump.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        histories: Measured modes.

    Returns:
        A mode or None for each history.

    Source:
        Devised here.
    """
    speeds = grid(histories)
    known = spectrum(rotor, support)
    known.along(speeds)

    def seen(speed: float) -> list[complex]:
        values = swinging(rotor, speed, known.at(speed))
        return [value for value in values if value.imag > 0.0]

    pairs = sorted(
        (abs(value - reading.exponent), number, place, reading.rotor_speed, value)
        for number, history in enumerate(histories)
        for reading in (history.lowest(0.0),)
        for place, value in enumerate(seen(reading.rotor_speed))
    )
    found: dict[int, PredictedMode] = {}
    taken: set[tuple[float, int]] = set()
    for _, number, place, speed, value in pairs:
        if number in found or (speed, place) in taken:
            continue
        taken.add((speed, place))
        above = [other for other in speeds if other > speed]
        below = [other for other in reversed(speeds) if other < speed]
        up = _followed((speed, value), [(other, seen(other)) for other in above])
        down = _followed((speed, value), [(other, seen(other)) for other in below])
        found[number] = PredictedMode((*reversed(down), (speed, value), *up))
    return tuple(found.get(number) for number in range(len(histories)))


def unread_mode(
    rotor: Rotor, speed: float, known: Sequence[PredictedMode | None], values: Sequence[complex]
) -> complex | None:
    """Return the least damped predicted mode at a rotor speed that stands beside no reading.

    Args:
        rotor: Three or more identical blades.
        speed: The last rotor speed; scalar, rad/s.
        known: The predicted modes beside the measured ones.
        values: Eigenvalues in the fixed frame at that speed.

    Returns:
        Growth rate, 1/s, and angular frequency, rad/s; None where every mode was read.
    """
    read = {mode.at(speed) for mode in known if mode}
    left = [s for s in swinging(rotor, speed, values) if s.imag > 0.0 and s not in read]
    return min(left, key=ratio, default=None)


def predicted_floor(
    rotor: Rotor, support: Support, histories: Sequence[History], floor: float
) -> float | None:
    """Return the first speed from the last reading on where a predicted mode is at a floor.

    It is any mode of the model, measured or not; None if none is within the reach.
    """
    known = least_damping_of(rotor, support)
    last = max(history.speeds[-1] for history in histories)
    speeds = [speed for speed in grid(histories) if speed >= last]
    below = last
    for speed, least in zip(speeds, known.along(speeds), strict=True):
        if least <= floor:
            if speed == last:
                return last
            return crossing(lambda place: known.at(place) - floor, below, speed)
        below = speed
    return None


def grid(histories: Sequence[History]) -> list[float]:
    """Return even rotor speeds from the first reading to the reach, and those of the readings."""
    own = {speed for history in histories for speed in history.speeds}
    low, high = min(own), REACH * max(own)
    step = (high - low) / STEPS
    return sorted(own | {low + step * number for number in range(STEPS + 1)})


def _followed(
    start: tuple[float, complex], along: Iterable[tuple[float, list[complex]]]
) -> list[tuple[float, complex]]:
    """Return a mode followed over rotor speed, ended where it would have to jump."""
    points = [start]
    for speed, values in along:
        here, value = points[-1]
        guess = value
        if len(points) > 1:
            there, before = points[-2]
            guess += (value - before) * (speed - here) / (here - there)
        nearest = min(values, key=lambda other: abs(other - guess), default=math.inf)
        if not abs(nearest - guess) <= JUMP * abs(value) + abs(guess - value):
            break
        points.append((speed, complex(nearest)))
    return points[1:]
