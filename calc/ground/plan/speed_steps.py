"""Speed steps: the rotor speeds of a run-up, and what is done at each."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from calc.ground.plan.outlook import Outlook
from calc.ground.plan.run_rules import FINE


class Mark(Enum):
    """What is done at a step."""

    HOLD = "hold, excite, measure"
    CREEP = "creep: fine step, excite gently, measure"
    VIEW = "creep: fine step, another mode comes into view: excite gently, measure"
    LEAST = "least damping expected: excite gently, measure twice"
    TRANSIT = "1/rev of imbalance at an airframe mode: do not dwell"
    STOP = "do not run"

    @property
    def is_measured(self) -> bool:
        """Whether the damping is measured at the step."""
        return self not in {Mark.TRANSIT, Mark.STOP}


class End(Enum):
    """Why a run-up goes no further."""

    RANGE = "end of the range"
    BAND = "stand-off from an unstable band"
    DAMPING = "predicted damping too low"
    NOMINAL = "nominal state not measured above"
    FAILURE = "no deliberate failure before the nominal state is measured"
    LIFT = "more weight on the rotor than the limit"


@dataclass(frozen=True, slots=True)
class SpeedStep:
    """A rotor speed of a run-up and what is done there."""

    rotor_speed: float
    mark: Mark


def run_up(seen: Outlook, highest: float) -> tuple[list[SpeedStep], End]:
    """Return the steps of a run-up that keep the rules, and why it ends where it does.

    Args:
        seen: What is predicted in the state.
        highest: Highest rotor speed that may be run, measured in the nominal state; rad/s.

    Returns:
        The steps in ascending order of rotor speed, none where the first may not be run.

    Source:
        Devised here; the rules are common practice without a source.
    """
    speeds, end = _open_speeds(seen, highest)
    if not speeds:
        return [], end
    at, last, stride = 0, len(speeds) - 1, FINE
    places = [n for n, speed in enumerate(speeds) if speed in seen.least_damped_speeds]
    if end in {End.BAND, End.DAMPING}:
        places.append(last)
    steps = [SpeedStep(speeds[0], Mark.HOLD)]
    while at < last:
        stride = _stride(seen, speeds[at:], [place - at for place in places], stride)
        at += stride
        steps.append(SpeedStep(speeds[at], _mark(seen, speeds[at - stride], speeds[at], stride)))
    return _with_transits(seen, steps), end


def _open_speeds(seen: Outlook, highest: float) -> tuple[list[float], End]:
    """Return the speeds of the range up to the first that is shut, and what shuts it."""
    found: list[float] = []
    before = seen.start
    for speed in seen.speeds:
        if speed > highest * (1.0 + 1e-9):
            return found, End.NOMINAL
        if seen.in_stand_off(before, speed):
            return found, End.BAND
        if seen.is_too_lightly_damped(speed):
            return found, End.DAMPING
        found.append(speed)
        before = speed
    return found, End.RANGE


def _stride(seen: Outlook, ahead: Sequence[float], places: Sequence[int], before: int) -> int:
    """Return how many fine steps to go on from the first of the speeds ahead.

    One up to a place of least damping or a shut end, one where damping falls by much, and one over
    what is left of a range after a fine step.
    """
    room = len(ahead) - 1
    if any(0 <= place <= FINE for place in places) or (before == 1 and room <= FINE):
        return 1
    stride = min(_full_stride(room), *(place - FINE for place in places if place > FINE), FINE)
    return 1 if seen.falls_by_much(ahead[0], ahead[stride]) else stride


def _mark(seen: Outlook, before: float, speed: float, stride: int) -> Mark:
    """Return what is done at a speed that is reached by so many fine steps."""
    if speed in seen.least_damped_speeds:
        return Mark.LEAST
    if seen.falls_by_much(before, speed) and seen.comes_into_view(before, speed):
        return Mark.VIEW
    return Mark.CREEP if stride == 1 else Mark.HOLD


def _full_stride(room: int) -> int:
    """Return the fine steps of a full step, or fewer where only a small step would be left."""
    return min(FINE, (room + 1) // 2) if FINE < room < 2 * FINE else min(FINE, room)


def _with_transits(seen: Outlook, steps: list[SpeedStep]) -> list[SpeedStep]:
    """Return the steps, those at a resonance of imbalance passed where damping is ample.

    Only a full step leads to one that is passed, and damping does not fall by much past it.
    """
    found = list(steps)
    for place in seen.imbalance_speeds:
        nearest = min(range(len(found)), key=lambda n: abs(found[n].rotor_speed - place))
        step = found[nearest]
        if not (0 < nearest < len(found) - 1 and step.mark is Mark.HOLD):
            continue
        before, after = found[nearest - 1].rotor_speed, found[nearest + 1].rotor_speed
        is_full = step.rotor_speed - before > 0.999 * seen.step
        if is_full and is_transit(seen, step.rotor_speed) and not seen.falls_by_much(before, after):
            found[nearest] = SpeedStep(step.rotor_speed, Mark.TRANSIT)
    return found


def is_transit(seen: Outlook, speed: float) -> bool:
    """Return whether a speed is at a resonance of imbalance and far from an instability."""
    near = any(abs(speed - place) <= 0.5 * seen.step for place in seen.imbalance_speeds)
    creeping = any(abs(speed - place) <= seen.step for place in seen.least_damped_speeds)
    return near and not creeping and seen.damping(speed) >= 2.0 * seen.rules.least_damping
