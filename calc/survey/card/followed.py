"""Followed modes: the modes of a ground run, each under one letter through all steps of a state."""

import itertools
import math
import string
from collections.abc import Sequence
from typing import NamedTuple

from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.mode_tracks import ModePoint, mode_tracks
from calc.ground.plan.plan_step import PlanStep
from calc.ground.plan.run_rules import RunRules
from calc.ground.plan.speed_steps import Mark
from calc.ground.search.least_damped import ratio
from calc.units import TURN_PER_SECOND

BETWEEN = 90
"""Rotor speeds between the first step and the last over which modes are followed, besides these."""

HEAVY = 0.15
"""Damping ratio above which a decay is gone in a cycle or two; common practice, no source."""

MUCH = 0.3
"""Share of the kinetic energy from which a motion gives its name to a mode: one has a third."""


class Followed(NamedTuple):
    """A mode of a run as predicted at a step; None to stop at where its damping cannot be read.

    `motion` names the motions that have much of its kinetic energy at this step.
    """

    letter: str
    motion: str
    frequency: float
    damping_ratio: float
    stop_damping_ratio: float | None

    @property
    def words(self) -> str:
        """The mode in a sentence."""
        return f"mode {self.letter}"


def followed(
    rotor: Rotor, support: Support, rules: RunRules, steps: Sequence[PlanStep]
) -> list[tuple[Followed, ...]]:
    """Return the modes that are followed at each step, the same ones in the same order.

    They are the modes that are the least damped, or near to it, at any step that is not only
    passed.  A mode is followed by its exponent, which changes without a jump over rotor speed, and
    keeps its letter where its motion changes.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions, in this state.
        rules: Margins of the run.
        steps: Steps of the state in ascending order of rotor speed.

    Returns:
        The modes of each step, by frequency at the first step: Hz, damping ratios of critical.

    Source:
        Devised here.
    """
    runs = _followed_points(rotor, support, [step.rotor_speed for step in steps])
    near = [
        [_is_asked(point, step) for point in run] for step, run in zip(steps, runs, strict=True)
    ]
    kept = [
        place
        for place in range(len(runs[0]) if runs else 0)
        if any(
            asked[place]
            for asked, step in zip(near, steps, strict=True)
            if step.instruction != Mark.TRANSIT.value
        )
    ]
    return [
        tuple(
            _mode(letter, rules, run[place], asked=asked[place])
            for letter, place in zip(string.ascii_uppercase, kept, strict=False)
        )
        for step, run, asked in zip(steps, runs, near, strict=True)
    ]


def _followed_points(
    rotor: Rotor, support: Support, steps: Sequence[float]
) -> list[list[ModePoint]]:
    """Return the modes at each of some rotor speeds, in one order through all of them."""
    if not steps:
        return []
    apart = (steps[-1] - steps[0]) / BETWEEN
    speeds, places = [steps[0]], [0]
    for low, high in itertools.pairwise(steps):
        count = max(1, math.ceil((high - low) / apart))
        speeds += [low + (high - low) * part / count for part in range(1, count)]
        places.append(len(speeds))
        speeds.append(high)
    found = mode_tracks(rotor, support, speeds)
    runs = [sorted(found[0], key=lambda point: point.eigenvalue.imag)]
    for number in range(1, len(speeds)):
        runs.append(_next(runs[-2:], speeds[max(0, number - 2) : number + 1], found[number]))
    return [runs[place] for place in places]


def _next(
    before: Sequence[Sequence[ModePoint]], speeds: Sequence[float], found: Sequence[ModePoint]
) -> list[ModePoint]:
    """Return modes in the order of those before them, whose exponents they continue."""
    expected = [point.eigenvalue for point in before[-1]]
    if len(before) > 1:
        further = (speeds[-1] - speeds[-2]) / (speeds[-2] - speeds[-3])
        expected = [
            last + further * (last - point.eigenvalue)
            for point, last in zip(before[0], expected, strict=True)
        ]
    return list(
        min(
            itertools.permutations(found),
            key=lambda order: math.fsum(
                abs(point.eigenvalue - complex(value.real, abs(value.imag)))
                for point, value in zip(order, expected, strict=True)
            ),
        )
    )


def _is_asked(point: ModePoint, step: PlanStep) -> bool:
    """Return whether the plan asks for a mode at a step."""
    asked = (
        (step.frequency, step.damping_ratio),
        (step.next_frequency, step.next_damping_ratio),
    )
    hertz, damping = TURN_PER_SECOND.reading(point.eigenvalue.imag), ratio(point.eigenvalue)
    return any(
        frequency is not None
        and own is not None
        and math.isclose(frequency, hertz, abs_tol=1e-9)
        and math.isclose(own, damping, abs_tol=1e-9)
        for frequency, own in asked
    )


def _mode(letter: str, rules: RunRules, point: ModePoint, *, asked: bool) -> Followed:
    damping = ratio(point.eigenvalue)
    return Followed(
        letter,
        _motion(point),
        TURN_PER_SECOND.reading(point.eigenvalue.imag),
        damping,
        rules.stop_below(damping) if asked or damping <= HEAVY else None,
    )


def _motion(point: ModePoint) -> str:
    """Return where the kinetic energy of a mode is; x is the longitudinal direction of the hub."""
    shares = {
        "longitudinal": abs(point.shape[2]) ** 2,
        "lateral": abs(point.shape[3]) ** 2,
        "lag": point.lag_share,
    }
    return ", ".join(motion for motion, share in shares.items() if share >= MUCH)
