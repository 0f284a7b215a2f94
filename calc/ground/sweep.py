"""Sweep: where a growth rate is highest over rotor speed, and where it is above zero."""

import itertools
import math
from collections.abc import Callable, Iterable

Curve = Callable[[float], float]
Sample = tuple[float, float]
"""A speed and the value of the curve there."""

NOISE = 1e-6  # 1/s: growth that rounding can make of a motion that neither grows nor decays
POINTS = 100  # evenly spaced rotor speeds of a sweep
_MOST_STEPS = 200
"""Halvings of any two numbers until none lies between them, with some to spare."""

_STEEP = 3.0  # how much farther than to its neighbours a curve may rise between samples
_SHRINK = 0.3819660112501051  # golden section


def samples(
    curve: Curve, lowest: float, highest: float, extra: Iterable[float] = (), points: int = POINTS
) -> list[Sample]:
    """Return a curve at evenly spaced speeds and at extra ones that lie between them.

    Raises:
        ValueError: If the highest speed is not above the lowest.
    """
    if not lowest < highest:
        raise ValueError("The highest rotor speed must be above the lowest rotor speed")
    step = (highest - lowest) / (points - 1)
    even = [lowest + step * number for number in range(points - 1)]
    inside = [speed for speed in extra if lowest < speed < highest]
    return [(speed, curve(speed)) for speed in sorted({*even, highest, *inside})]


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
    return max(found[best], _climb(curve, low, high, width), key=lambda sample: sample[1])


def lowest(curve: Curve, low: float, high: float) -> Sample:
    """Return the lowest point of a curve between two speeds."""
    speed, value = _climb(lambda speed: -curve(speed), low, high, 1e-6 * (high - low))
    return speed, -value


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


def crossing(curve: Curve, low: float, high: float, tolerance: float = 1e-10) -> float:
    """Return where a curve changes sign between two points of which it is above zero at one.

    Chandrupatla's method: inverse quadratic interpolation where the last three points allow it,
    bisection where they do not.
    """
    newest, other = (low, curve(low)), (high, curve(high))
    nearest, share = low, 0.5
    for _ in range(_MOST_STEPS):
        step = newest[0] + share * (other[0] - newest[0])
        point = (step, curve(step))
        if (point[1] > 0.0) == (newest[1] > 0.0):
            newest, left = point, newest
        else:
            newest, other, left = point, newest, other
        nearest = min(newest, other, key=lambda sample: abs(sample[1]))[0]
        least = tolerance * abs(nearest) / max(abs(other[0] - newest[0]), 1e-300)
        if least > 0.5 or newest[1] == 0.0:
            return nearest
        xi = (newest[0] - other[0]) / (left[0] - other[0])
        phi = (newest[1] - other[1]) / (left[1] - other[1]) if left[1] != other[1] else 2.0
        share = 0.5
        if phi**2 < xi and (1.0 - phi) ** 2 < 1.0 - xi and newest[1] != left[1]:
            share = newest[1] / (other[1] - newest[1]) * left[1] / (other[1] - left[1])
            share += (
                (left[0] - newest[0])
                / (other[0] - newest[0])
                * newest[1]
                / (left[1] - newest[1])
                * other[1]
                / (left[1] - other[1])
            )
        share = min(1.0 - least, max(least, share))
    return nearest


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
            hidden.append(_climb(curve, left[0], right[0], width, level))
        elif values[1] == min(values) and all(above):
            speed, value = _climb(lambda speed: -curve(speed), left[0], right[0], width, -level)
            hidden.append((speed, -value))
    return hidden


def _climb(curve: Curve, low: float, high: float, width: float, enough: float = math.inf) -> Sample:
    """Return the highest point between two speeds to within a width, or one above enough.

    Brent's method: the top of the parabola through the three best points where that lies well
    inside, golden section where it does not.
    """
    speed = low + _SHRINK * (high - low)
    best = second = third = (speed, curve(speed))
    step = before = math.inf
    while best[1] <= enough:
        middle, least = 0.5 * (low + high), 0.25 * width
        if abs(best[0] - middle) <= 2.0 * least - 0.5 * (high - low):
            break
        before, (step, is_inside) = step, _to_top(best, second, third)
        speed = best[0] + step
        if not (is_inside and low + least < speed < high - least and abs(step) < 0.5 * abs(before)):
            before = (low if best[0] >= middle else high) - best[0]
            step = _SHRINK * before
        speed = best[0] + math.copysign(max(abs(step), least), step)
        point = (speed, curve(speed))
        if point[1] >= best[1]:
            low, high = (best[0], high) if speed > best[0] else (low, best[0])
            best, second, third = point, best, second
        else:
            low, high = (low, speed) if speed > best[0] else (speed, high)
            if point[1] >= second[1] or second[0] == best[0]:
                second, third = point, second
            elif point[1] >= third[1] or third[0] in {best[0], second[0]}:
                third = point
    return best


def _to_top(best: Sample, second: Sample, third: Sample) -> tuple[float, bool]:
    """Return the way from the best of three points to the top of their parabola, if it has one."""
    one, other = best[0] - second[0], best[0] - third[0]
    rise, fall = one * (best[1] - third[1]), other * (best[1] - second[1])
    bend = 2.0 * (rise - fall)
    if not bend:
        return 0.0, False
    return (other * fall - one * rise) / bend, True
