"""Outlook: what is predicted of a ground run in one landing-gear state, and what is shut."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.ground.model.aircraft import Rotor, Support, support_frequencies
from calc.ground.plan.bad_end import (
    bad_end_bands,
    cases,
    damping_within,
    least_dampings,
)
from calc.ground.plan.run_rules import FALL, FINE, RunRules
from calc.ground.plan.seen_modes import SeenMode, least_damping_of, seen_modes
from calc.ground.plan.variation import Case
from calc.quantity import InputsError

MOST_SPEEDS = 1000
"""More rotor speeds than this are not looked at."""
NEXT_WITHIN = 2.0
"""The next mode is named while its damping ratio is within this factor of the least damped one."""


@dataclass(frozen=True, slots=True)
class Outlook:
    """What is predicted in one state of an aircraft, at the bad end of its uncertainties.

    Attributes:
        cases: The aircraft as given and at the corners of its uncertainties.
        rules: Margins and steps.
        step: Largest step; scalar, rad/s.
        start: Rotor speed at which the state is entered, zero for a run-up from rest; rad/s.
        speeds: Rotor speeds of the range of the state, a fine step apart or less; rad/s.
        least_damped_speeds: Speeds within the range at which the damping is least, as given or
            at the bad end; rad/s.
        bands: Unstable bands of any of the cases; rad/s.
        bands_as_given: Unstable bands of the aircraft as given; rad/s.
    """

    cases: tuple[Case, ...]
    rules: RunRules
    step: float
    start: float
    speeds: tuple[float, ...]
    least_damped_speeds: tuple[float, ...]
    bands: tuple[tuple[float, float], ...]
    bands_as_given: tuple[tuple[float, float], ...]

    def damping(self, speed: float) -> float:
        """Return the least damping ratio that is found within the uncertainties."""
        return damping_within(*self.cases[0], self.rules, speed)

    def as_given(self, speed: float) -> SeenMode:
        """Return the least damped mode as given."""
        return seen_modes(*self.cases[0], speed)[0]

    def next_mode(self, speed: float) -> SeenMode | None:
        """Return the mode as given that is damped next, or None where it has far more damping."""
        least, *others = seen_modes(*self.cases[0], speed)
        near = (m for m in others if m.damping_ratio <= NEXT_WITHIN * least.damping_ratio)
        return next(near, None)

    def bands_ahead(self, bands: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
        """Return the bands that a run in this state could reach."""
        return [band for band in bands if band[1] > self.start]

    def touches_band(self, low: float, high: float) -> bool:
        """Return whether a way between two speeds touches an unstable band."""
        return any(low <= last and high >= first for first, last in self.bands)

    @property
    def shut(self) -> list[tuple[float, float]]:
        """Unstable bands with their stand-off on both sides, those that overlap as one."""
        found: list[tuple[float, float]] = []
        for first, last in (self.rules.closed(*band) for band in self.bands):
            if found and first <= found[-1][1]:
                found[-1] = (min(first, found[-1][0]), max(last, found[-1][1]))
            else:
                found.append((first, last))
        return found

    def in_stand_off(self, low: float, high: float) -> bool:
        """Return whether a way between two speeds comes within the stand-off of a band."""
        return any(low < last and high > first for first, last in self.shut)

    def is_too_lightly_damped(self, speed: float) -> bool:
        """Return whether nothing may be excited at a speed."""
        return self.damping(speed) < self.rules.least_damping

    def falls_by_much(self, low: float, high: float) -> bool:
        """Return whether the damping, as given or at the bad end, falls by much on a way up.

        It counts from the start of the way to the least on it, for whatever reason it falls.
        """
        way = [low, *(speed for speed in self.speeds if low < speed < high), high]
        given = [self.as_given(speed).damping_ratio for speed in way]
        worst = [self.damping(speed) for speed in way]
        return min(given) < FALL * given[0] or min(worst) < FALL * worst[0]

    def comes_into_view(self, before: float, speed: float) -> bool:
        """Return whether the least damped mode, as given or at the bad end, was creep before."""
        return any(_comes_into_view(those, before, speed) for those in (self.cases[:1], self.cases))

    @property
    def imbalance_speeds(self) -> tuple[float, ...]:
        """Speeds at which once per revolution of imbalance is at an airframe frequency."""
        return support_frequencies(*self.cases[0])


def outlook(
    rotor: Rotor,
    support: Support,
    speeds: tuple[float, float],
    rules: RunRules,
    nominal_speed: float,
    start: float = 0.0,
) -> Outlook:
    """Return what is predicted of a ground run over a range of rotor speed.

    The prediction reaches from rest to beyond the range by the stand-off, so that a band just
    outside the range counts.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        speeds: Lowest and highest rotor speed of the range; rad/s.
        rules: Margins and steps.
        nominal_speed: Nominal rotor speed; scalar, rad/s.
        start: Rotor speed at which the state is entered, zero for a run-up from rest; rad/s.

    Returns:
        The outlook.

    Raises:
        ValueError: If an input cannot exist, or the step is too small for the range.

    Source:
        Devised here.
    """
    step = rules.step(nominal_speed)
    fine = step / FINE
    low, high = max(speeds[0], fine), speeds[1]
    beyond = rules.closed(high, high)[1]
    if not low < high:
        raise InputsError(
            "The highest rotor speed must be above the lowest rotor speed",
            "lowest_speed",
            "highest_speed",
        )
    if beyond > MOST_SPEEDS * fine:
        raise ValueError(f"The step is too small: it makes more than {MOST_SPEEDS} rotor speeds")
    even = [fine * number for number in range(1, math.ceil(beyond / fine) + 1)]
    found = cases(rotor, support, rules)
    own = _own_speeds(even, low, high)
    least = {speed for those in (found, found[:1]) for speed in _minima(those, own)}
    return Outlook(
        cases=found,
        rules=rules,
        step=step,
        start=start,
        speeds=own,
        least_damped_speeds=tuple(sorted(least)),
        bands=bad_end_bands(found, itertools.chain(even, (low, high))),
        bands_as_given=bad_end_bands(found[:1], itertools.chain(even, (low, high))),
    )


def _own_speeds(even: Sequence[float], low: float, high: float) -> tuple[float, ...]:
    """Return the even speeds inside a range with its ends, no two of them needlessly near.

    The speed next to an end moves half-way to the one beyond it where it is nearer than that.
    """
    fine = even[0]
    inside = (speed for speed in even if low + 1e-9 * fine < speed < high - 1e-9 * fine)
    found = [low, *inside, high]
    for end, near, beyond in (0, 1, 2), (-1, -2, -3):
        if len(found) > 3 and abs(found[near] - found[end]) < 0.5 * fine:
            found[near] = 0.5 * (found[end] + found[beyond])
    return tuple(found)


def _minima(those: Sequence[Case], speeds: Sequence[float]) -> tuple[float, ...]:
    """Return the speeds inside a range at which the damping is the least within a full step."""
    damping = least_dampings(those, speeds)
    return tuple(
        speeds[n]
        for n in range(1, len(speeds) - 1)
        if damping[n] <= min(damping[max(n - FINE, 0) : n + FINE + 1])
        and damping[n] < damping[n - 1]
        and not _comes_into_view(those, speeds[n - 1], speeds[n])
    )


def _comes_into_view(those: Sequence[Case], before: float, speed: float) -> bool:
    """Return whether the least damped mode at a speed was creep of the blades at the one before."""
    worst = min(those, key=lambda case: least_damping_of(*case).at(speed))
    return len(seen_modes(*worst, before)) < len(seen_modes(*worst, speed))
