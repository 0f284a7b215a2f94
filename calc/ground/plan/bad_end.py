"""Bad end: damping and unstable bands of an aircraft at the bad end of what is not known of it."""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import lru_cache

from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.model.multiblade import matrix_parts
from calc.ground.plan.run_rules import RunRules
from calc.ground.plan.seen_modes import least_damping_of, least_ratio
from calc.ground.search import sweep
from calc.linalg import Sums

Case = tuple[Rotor, Support]
Factors = tuple[float, ...]
"""Factors on the frequency in x and in y, the damping in x and in y, and the lag damping."""
GIVEN: Factors = (1.0, 1.0, 1.0, 1.0, 1.0)
FREQUENCIES = 2  # the first factors are on frequencies
SEARCHED = 5.0
"""The bad end is searched where its damping is below this multiple of the least to excite."""
STARTS, PASSES = 2, 2  # from so many corners, and so many times over the uncertainties


def varied(rotor: Rotor, support: Support, factors: Factors) -> Case:
    """Return an aircraft with its frequencies and dampings changed by factors.

    A stiffness changes by the square of its frequency.
    """
    x, y, damping_x, damping_y, lag = factors
    return (
        replace(rotor, lag_damping=lag * rotor.lag_damping),
        replace(
            support,
            stiffness_x=x**2 * support.stiffness_x,
            stiffness_y=y**2 * support.stiffness_y,
            damping_x=damping_x * support.damping_x,
            damping_y=damping_y * support.damping_y,
        ),
    )


def corners(rules: RunRules) -> tuple[Factors, ...]:
    """Return the factors of the bad ends: frequencies as given and off, lag damping low and high.

    Both airframe frequencies as given, both low, both high, and one low with the other high, each
    with the airframe damping low and with the lag damping low or high.

    Args:
        rules: Uncertainty of the frequencies and of the damping.

    Returns:
        The factors, each once.

    Source:
        Devised here.
    """
    low, high = 1.0 - rules.frequency_uncertainty, 1.0 + rules.frequency_uncertainty
    less, more = 1.0 - rules.damping_uncertainty, 1.0 + rules.damping_uncertainty
    frequencies = [(1.0, 1.0), *itertools.product((low, high), repeat=2)]
    return tuple(
        dict.fromkeys((x, y, less, less, lag) for x, y in frequencies for lag in (less, more))
    )


@lru_cache(maxsize=64)
def cases(rotor: Rotor, support: Support, rules: RunRules) -> tuple[Case, ...]:
    """Return the aircraft as given, and at the corners of its uncertainties; each once."""
    found = dict.fromkeys([GIVEN, *corners(rules)])
    return tuple(varied(rotor, support, factors) for factors in found)


def least_damping(found: Iterable[Case], rotor_speed: float) -> float:
    """Return the least damping ratio of all cases at a rotor speed."""
    return min(least_damping_of(*case).at(rotor_speed) for case in found)


def least_dampings(found: Iterable[Case], rotor_speeds: Iterable[float]) -> list[float]:
    """Return the least damping ratio of all cases at each of many rotor speeds."""
    speeds = list(rotor_speeds)
    dampings = [least_damping_of(*case).along(speeds) for case in found]
    return [min(own) for own in zip(*dampings, strict=True)]


@lru_cache(maxsize=4096)
def damping_within(rotor: Rotor, support: Support, rules: RunRules, rotor_speed: float) -> float:
    """Return the least damping ratio that is found within the uncertainties at a rotor speed.

    Where the worst corner has less than a few times the least damping at which to excite, the
    search goes on from the two worst corners: each frequency, each airframe damping and the lag
    damping is moved in turn to where the damping ratio is least, a frequency over its range in
    five places, until nothing moves, twice at most.

    Args:
        rotor: Blades and lag hinges.
        support: Hub mass without blades, stiffness and damping in two directions.
        rules: Uncertainty of the frequencies and of the damping.
        rotor_speed: Constant speed of rotation; scalar, rad/s.

    Returns:
        The damping ratio.

    Source:
        Devised here.
    """
    known = {
        factors: least_damping_of(*case).at(rotor_speed)
        for factors, case in zip(
            dict.fromkeys([GIVEN, *corners(rules)]), cases(rotor, support, rules), strict=True
        )
    }
    worst = sorted(known, key=known.__getitem__)[:STARTS]
    if known[worst[0]] > SEARCHED * rules.least_damping:
        return known[worst[0]]
    off, wide = rules.frequency_uncertainty, rules.damping_uncertainty
    frequencies = tuple(1.0 + part * off for part in (-1.0, -0.5, 0.0, 0.5, 1.0))
    levels = (*(frequencies,) * 2, *((1.0 - wide, 1.0 + wide),) * 3)
    near = Neighbours(rotor, support, rotor_speed, known)
    return min(near.descended(start, levels) for start in worst)


class Neighbours:
    """The damping ratio of an aircraft at one rotor speed, whatever its factors."""

    def __init__(
        self, rotor: Rotor, support: Support, rotor_speed: float, known: dict[Factors, float]
    ) -> None:
        """Begin with the factors whose damping ratio is known."""
        self._rotor, self._support, self._speed = rotor, support, rotor_speed
        self._known = known

    def damping(self, found: Sequence[Factors]) -> list[float]:
        """Return the least damping ratio with each of the factors, all found at once."""
        known, speed = self._known, self._speed
        missing = [factors for factors in dict.fromkeys(found) if factors not in known]
        if missing:
            matrices, powers = _matrices(self._rotor, self._support)
            spectra = matrices.eigenvalues([_shares(factors, powers, speed) for factors in missing])
            for factors, values in zip(missing, spectra, strict=True):
                rotor = _lag_damped(self._rotor, factors[-1])
                known[factors] = least_ratio(rotor, speed, values)
        return [known[factors] for factors in found]

    def descended(self, start: Factors, levels: Sequence[Sequence[float]]) -> float:
        """Return the least damping ratio that is found by moving one factor after another."""
        worst = start
        for _ in range(PASSES):
            before = worst
            for place, own in enumerate(levels):
                moved = [worst, *((*worst[:place], level, *worst[place + 1 :]) for level in own)]
                dampings = self.damping(moved)
                worst = moved[dampings.index(min(dampings))]
            if worst == before:
                break
        return self._known[worst]


@lru_cache(maxsize=64)
def _matrices(rotor: Rotor, support: Support) -> tuple[Sums, list[tuple[int, int]]]:
    """Return the matrices with any factors as sums of a few, and what each of these goes with.

    The matrix of the equations of motion is linear in each stiffness and each damping.  What a
    part goes with is a factor, or -1 for the aircraft as given, and a power of the rotor speed.
    """
    given = matrix_parts(rotor, support)
    parts, powers = list(given), [(-1, 0), (-1, 1), (-1, 2)]
    for place in range(len(GIVEN)):
        factors = tuple(2.0 if n == place else 1.0 for n in range(len(GIVEN)))
        more = _growth(factors[place], place)
        for power, (own, twice) in enumerate(
            zip(given, matrix_parts(*varied(rotor, support, factors)), strict=True)
        ):
            part = [
                [(b - a) / more for a, b in zip(*rows, strict=True)]
                for rows in zip(own, twice, strict=True)
            ]
            if any(map(any, part)):
                parts.append(part)
                powers.append((place, power))
    return Sums(parts), powers


def _shares(factors: Factors, powers: Sequence[tuple[int, int]], rotor_speed: float) -> list[float]:
    return [
        rotor_speed**power * (1.0 if place < 0 else _growth(factors[place], place))
        for place, power in powers
    ]


def _growth(factor: float, place: int) -> float:
    """Return by how much of itself a stiffness or a damping grows with a factor."""
    return (factor**2 if place < FREQUENCIES else factor) - 1.0


@lru_cache(maxsize=64)
def _lag_damped(rotor: Rotor, factor: float) -> Rotor:
    return replace(rotor, lag_damping=factor * rotor.lag_damping)


def bad_end_bands(
    found: Sequence[Case], rotor_speeds: Iterable[float]
) -> tuple[tuple[float, float], ...]:
    """Return the bands of rotor speed in which a disturbance grows in any of the cases.

    Args:
        found: Cases of one aircraft.
        rotor_speeds: Speeds that sample the sweep, its ends among them; rad/s.

    Returns:
        Lowest and highest rotor speed of each band in ascending order, rad/s.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.
    """

    def badness(speed: float) -> float:
        return -least_damping(found, speed)

    given = sorted(rotor_speeds)
    meeting = {speed for case in found for speed in coalescence_speeds(*case)}
    inside = {speed for speed in meeting if given[0] < speed < given[-1]}
    speeds = sorted({*given, *inside})
    dampings = least_dampings(found, speeds)
    samples = [(speed, -damping) for speed, damping in zip(speeds, dampings, strict=True)]
    return sweep.unstable_bands(badness, samples, 0.0)
