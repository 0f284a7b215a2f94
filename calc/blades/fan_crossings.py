"""Fan crossings: where blade modes meet multiples of rotor speed, and how near they come.

The squared frequency of a mode is nearly a straight line over the squared speed, so that a crossing
found on a chord needs few steps along it.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated

from calc.blades.beam_modes import Beam, frequencies
from calc.declaration import Name
from calc.quantity import Quantity
from calc.units import FREQUENCY, ONE, PER_REV, PERCENT, ROTATION

HARMONIC = Quantity("n", "Harmonic", (PER_REV,), whole=True)
CROSSING = Quantity(r"\Omega_x", "Rotor speed", ROTATION)
CROSSING_FREQUENCY = Quantity("f_x", "Frequency", FREQUENCY)
APART = Quantity("d", "Least separation", (PER_REV,))
APART_IN_PERCENT = Quantity("d/n", "Over the harmonic", (PERCENT, ONE))
NEAR = "within the margin"
STEPS = 6  # at most, along the chord


@dataclass(frozen=True, slots=True)
class FanCrossing:
    """Where a mode has the frequency of a harmonic."""

    mode: Annotated[str, Name("Mode")]
    harmonic: Annotated[int, HARMONIC]
    rotor_speed: Annotated[float, CROSSING]
    frequency: Annotated[float, CROSSING_FREQUENCY]


@dataclass(frozen=True, slots=True)
class Separation:
    """How near a mode comes to a harmonic within the operating range."""

    mode: Annotated[str, Name("Mode")]
    harmonic: Annotated[int, HARMONIC]
    rotor_speed: Annotated[float, CROSSING]
    per_rev: Annotated[float, APART]
    per_cent: Annotated[float, APART_IN_PERCENT]
    verdict: Annotated[str, Name("Verdict")]


def crossings(
    blade: Beam,
    plane: str,
    number: int,
    line: tuple[Sequence[float], Sequence[float]],
    highest: int,
) -> Iterator[FanCrossing]:
    """Yield the crossings of one mode, given as speeds and frequencies, up to a harmonic."""
    speeds, found = line
    for n in range(1, highest + 1):
        gaps = [f**2 - (n * speed) ** 2 for speed, f in zip(speeds, found, strict=True)]
        for (slow, fast), (before, after) in zip(pairwise(speeds), pairwise(gaps), strict=True):
            if before > 0.0 >= after:
                slope = (after - before) / (fast**2 - slow**2)
                speed = _along(blade, plane, number, n, (slow**2 - before / slope, slope))
                yield FanCrossing(f"{plane} {number}", n, speed, n * speed / (2.0 * math.pi))


def _along(
    blade: Beam, plane: str, number: int, harmonic: int, chord: tuple[float, float]
) -> float:
    """Return the speed of a crossing from where the chord has it, with the slope of the chord."""
    square, slope = chord
    for _ in range(STEPS):
        frequency = frequencies(blade, math.sqrt(square), plane, number)[-1]
        step = (frequency**2 - harmonic**2 * square) / slope
        square -= step
        if abs(step) < 1e-12 * square:
            break
    return math.sqrt(square)


def separations(
    name: str,
    ratios: tuple[float, float],
    operating: tuple[float, float],
    crossed: dict[int, float],
    limits: tuple[int, float],
) -> Iterator[Separation]:
    """Yield how near a mode comes to the harmonics around and within its range of ratios.

    The limits are the highest harmonic and the margin; speeds of crossings are known by harmonic.
    """
    highest, margin = limits
    high, low = max(ratios), min(ratios)
    for n in range(max(math.floor(low), 1), min(math.ceil(high), highest) + 1):
        if low <= n <= high:
            ratio, speed = float(n), crossed.get(n, operating[0])
        else:
            ratio = high if n > high else low
            speed = operating[ratios.index(ratio)]
        apart = ratio - n
        verdict = "clear" if abs(apart) > margin else NEAR
        if name == "flap 1" and n == 1:
            verdict = "first flap mode, always near 1/rev"
        yield Separation(name, n, speed, apart, apart / n, verdict)
