"""Broken rules: where steps of a ground run, planned here or by a reader, break a rule of it."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from calc.declaration import Name
from calc.ground.plan.outlook import Outlook
from calc.ground.plan.run_rules import FINE
from calc.ground.plan.speed_steps import Mark, SpeedStep, is_transit

ORDER_VERDICT = Name("Check of the order")


@dataclass(frozen=True, slots=True)
class BrokenRule:
    """A way between two steps that breaks a rule of the run."""

    before: SpeedStep
    after: SpeedStep
    reason: str


def broken_rules(seen: Outlook, steps: Sequence[SpeedStep]) -> list[BrokenRule]:
    """Return where steps, in the order in which they are run, break a rule of a ground run.

    The one judge of generated plans and of a reader's own steps.  The way counts, not only its
    ends: from the start of the state to the first step, between steps, and back.  A step marked
    as not to be run is not run.

    Args:
        seen: What is predicted in the state.
        steps: Steps in the order in which they are run, up or down.

    Returns:
        Each way that breaks a rule, with the gravest reason.

    Source:
        Devised here; the rules are common practice without a source.
    """
    edge = SpeedStep(seen.start, Mark.HOLD)
    run = [edge, *(step for step in steps if step.mark is not Mark.STOP), edge]
    ways = list(itertools.pairwise(run))
    found = [
        BrokenRule(before, after, reason)
        for number, (before, after) in enumerate(ways)
        if (reason := _shut(seen, before, after) or _unmeasured(seen, run, number))
    ]
    return found if len(run) > len((edge, edge)) else []


def order_verdict(broken: int) -> str:
    """Return what a number of broken rules means, as a sentence."""
    if broken == 1:
        return "1 step breaks a rule of the run"
    if broken:
        return f"{broken} steps break a rule of the run"
    return "Every step keeps the rules of the run"


def _shut(seen: Outlook, before: SpeedStep, after: SpeedStep) -> str:
    """Return why a way may not be gone at all, or nothing."""
    low, high = sorted((before.rotor_speed, after.rotor_speed))
    if seen.touches_band(low, high):
        return "crosses a predicted unstable band"
    if seen.in_stand_off(low, high):
        return "comes within the stand-off of a predicted unstable band"
    passed = [speed for speed in (*seen.speeds, after.rotor_speed) if low <= speed <= high]
    if any(seen.is_too_lightly_damped(speed) for speed in passed if speed >= seen.speeds[0]):
        return "predicted damping is below the least at which to excite"
    return ""


def _unmeasured(seen: Outlook, run: Sequence[SpeedStep], number: int) -> str:
    """Return what is left out on the way to a step, or nothing."""
    before, after = run[number], run[number + 1]
    if after.mark is Mark.TRANSIT and not is_transit(seen, after.rotor_speed):
        return "passes without measuring where no resonance of imbalance is"
    if after.rotor_speed <= before.rotor_speed:
        return ""
    fine = 1.000001 * seen.step / FINE
    measured = [step.rotor_speed for step in run[1:-1] if step.mark.is_measured]
    for place in seen.least_damped_speeds:
        if before.rotor_speed < place <= after.rotor_speed and not any(
            abs(speed - place) <= fine for speed in measured
        ):
            return "passes the least damping expected without measuring it"
    gap = after.rotor_speed - before.rotor_speed
    if number and gap > 1.000001 * seen.step:
        return "longer than the largest step"
    if number and gap > fine and seen.falls_by_much(before.rotor_speed, after.rotor_speed):
        return "predicted damping falls by more than a quarter over more than a fine step"
    return ""
