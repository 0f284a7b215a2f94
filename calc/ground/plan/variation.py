"""Variation: an aircraft with factors on its frequencies and dampings, and its damping then."""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.multiblade import matrix_parts
from calc.ground.plan.seen_modes import least_ratio
from calc.linalg import Sums

Case = tuple[Rotor, Support]
Factors = tuple[float, ...]
"""Factors on the frequency in x and in y, the damping in x and in y, and the lag damping."""
GIVEN: Factors = (1.0, 1.0, 1.0, 1.0, 1.0)
FREQUENCIES = 2  # the first factors are on frequencies
PASSES = 2  # so many times the search goes over the factors


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
