"""Sweep: where a growth rate is highest over rotor speed, and where it is above zero."""

import itertools
import math
from collections.abc import Callable, Iterable

from calc.numeric.peaks import Curve, Sample, highest
from calc.numeric.roots import crossing
from calc.quantity import InputsError

NOISE = 1e-6  # 1/s: growth that rounding can make of a motion that neither grows nor decays
POINTS = 100  # evenly spaced rotor speeds of a sweep
_STEEP = 3.0  # how much farther than to its neighbours a curve may rise between samples


def without_noise(growth: float) -> float:
    """Return a growth rate, or zero where it is no more than rounding can make."""
    return growth if abs(growth) > NOISE else 0.0


def speeds_of(
    low: float, high: float, extra: Iterable[float] = (), points: int = POINTS
) -> list[float]:
    """Return evenly spaced speeds and the extra ones that lie between them.

    Raises:
        ValueError: If the highest speed is not above the lowest.
    """
    if not low < high:
        raise InputsError(
            "The highest rotor speed must be above the lowest rotor speed",
            "lowest_speed",
            "highest_speed",
        )
    step = (high - low) / (points - 1)
    even = [low + step * number for number in range(points - 1)]
    inside = [speed for speed in extra if low < speed < high]
    return sorted({*even, high, *inside})


def samples(
    curve: Curve,
    low: float,
    high: float,
    extra: Iterable[float] = (),
    points: int = POINTS,
    ahead: Callable[[list[float]], object] | None = None,
) -> list[Sample]:
    """Return a curve at evenly spaced speeds and at extra ones that lie between them.

    Args:
        curve: What is sampled.
        low: Lowest speed.
        high: Highest speed.
        extra: Speeds that are sampled too where they lie between.
        points: Number of evenly spaced speeds.
        ahead: What is told all the speeds first, where the curve is found faster all at once.

    Returns:
        Speeds in ascending order, with the curve at each.

    Raises:
        ValueError: If the highest speed is not above the lowest.
    """
    speeds = speeds_of(low, high, extra, points)
    if ahead is not None:
        ahead(speeds)
    return [(speed, curve(speed)) for speed in speeds]


def peak(curve: Curve, found: list[Sample], tolerance: float = 1e-7) -> Sample:
    """Return the highest point of a curve, searched between the neighbours of its best sample."""
    best = max(range(len(found)), key=lambda number: found[number][1])
    low = found[max(best - 1, 0)][0]
    high = found[min(best + 1, len(found) - 1)][0]
    width = tolerance * max(abs(low), abs(high))
    if best in {0, len(found) - 1}:  # at an end, unless the curve rises into the sweep
        inward = found[best][0] + math.copysign(0.5 * width, low + high - 2.0 * found[best][0])
        if curve(inward) <= found[best][1]:
            return found[best]
    return max(found[best], highest(curve, low, high, width), key=lambda sample: sample[1])


def unstable_bands(
    growth: Curve, found: list[Sample], level: float, tolerance: float = 1e-10
) -> tuple[tuple[float, float], ...]:
    """Return the ranges of speed in which a growth rate is above a level.

    Peaks and dips between the samples are searched, so that a band or a gap narrower than their
    spacing is found where the curve bends towards it.

    Args:
        growth: Growth rate as a function of speed, 1/s.
        found: Samples of it in ascending order of speed.
        level: Growth rate that counts as neither growing nor decaying, 1/s.
        tolerance: Width of the last bracket of an edge as a share of its speed.

    Returns:
        Lowest and highest speed of each band that grows by more than rounding can; one that
        reaches an end of the sweep ends there.
    """
    known = sorted({*found, *_hidden(growth, found, level)})
    edges = [known[0][0]] if known[0][1] > level else []
    for before, after in itertools.pairwise(known):
        if (before[1] > level) != (after[1] > level):
            low, high = before[0], after[0]
            edges.append(crossing(lambda speed: growth(speed) - level, low, high, tolerance))
    if known[-1][1] > level:
        edges.append(known[-1][0])
    return tuple(
        (low, high)
        for low, high in zip(edges[::2], edges[1::2], strict=True)
        if max(value for speed, value in known if low <= speed <= high) > NOISE
    )


def _hidden(curve: Curve, found: list[Sample], level: float) -> list[Sample]:
    """Return peaks above the level and dips below it that no sample shows."""
    hidden = []
    for left, middle, right in zip(found, found[1:], found[2:], strict=False):
        values = (left[1], middle[1], right[1])
        above = [value > level for value in values]
        width = 1e-3 * (right[0] - left[0])
        bend = max(abs(values[1] - values[0]), abs(values[1] - values[2]))
        if bend < 1e-9 or len(set(above)) > 1 or abs(values[1] - level) > _STEEP * bend:
            continue  # noise, or seen already, or too far from the level for what the curve bends
        if values[1] == max(values) and not any(above):
            hidden.append(highest(curve, left[0], right[0], width, level))
        elif values[1] == min(values) and all(above):
            speed, value = highest(lambda speed: -curve(speed), left[0], right[0], width, -level)
            hidden.append((speed, -value))
    return hidden
