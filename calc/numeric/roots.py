"""Roots of a function of one variable, found by bracketing: slow, and sure to end."""

import math
from collections.abc import Callable, Iterable

from calc.numeric.peaks import Sample, highest

Function = Callable[[float], float]

_ROUNDING = 1e-9
"""How far above zero rounding may leave a function at its root; a jump leaves it far higher."""

_LAST_BITS = 4e-16
"""Width of a bracket of a few neighbouring numbers, as a share of them."""

_MOST_STEPS = 200
"""Halvings of any two numbers until none lies between them, with some to spare."""


def first_root(function: Function, points: Iterable[float]) -> float | None:
    """Return where a function first reaches zero from below, or None if it never does.

    The points rise.  If the first is at or above zero already, it is the answer.  A peak between
    three neighbours is searched for a rise above zero that none of them shows.  A jump through
    infinity is no root; for it to be seen, a point must stand on either side.
    """
    seen: list[Sample] = []
    for point in points:
        value = function(point)
        if not seen and value >= 0.0:
            return point
        if seen and seen[-1][1] < 0.0 <= value:
            root = _rise(function, seen[-1], (point, value))
            if function(root) <= value + _ROUNDING:
                return root
        seen = [*seen[-2:], (point, value)]
        if len(seen) == 3 and (top := _top(function, *seen)) is not None:
            return _rise(function, seen[0], top)
    return None


def crossing(curve: Function, low: float, high: float, tolerance: float = 1e-10) -> float:
    """Return where a curve changes sign between two points of which it is above zero at one.

    Chandrupatla's method: inverse quadratic interpolation where the last three points allow it,
    bisection where they do not.
    """
    ends = _narrowed(curve, (low, curve(low)), (high, curve(high)), tolerance)
    return min(ends, key=lambda sample: abs(sample[1]))[0]


def _narrowed(
    curve: Function, newest: Sample, other: Sample, tolerance: float
) -> tuple[Sample, Sample]:
    """Return what is left of a range in which a curve changes sign, as its ends."""
    share = 0.5
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
            break
        xi = (newest[0] - other[0]) / (left[0] - other[0])
        phi = (newest[1] - other[1]) / (left[1] - other[1]) if left[1] != other[1] else 2.0
        share = 0.5
        if phi * phi < xi and (1.0 - phi) * (1.0 - phi) < 1.0 - xi and newest[1] != left[1]:
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
    return newest, other


def rising_root(curve: Callable[[float], tuple[float, float]], low: float, high: float) -> float:
    """Return where a curve that rises from below zero to above it is zero.

    Newton's method from the upper end, halving where it would leave what is left of the range.

    Args:
        curve: The value and the slope at a place.
        low: A place at which the curve is below zero.
        high: A place at which it is not.

    Returns:
        The place, to a few parts in 1e15.

    Examples:
        >>> round(rising_root(lambda x: (x**3 - 8.0, 3.0 * x**2), 0.0, 9.0), 12)
        2.0
    """
    before, place = low, high
    for _ in range(_MOST_STEPS):
        if math.isclose(place, before, rel_tol=1e-15):
            break
        value, slope = curve(place)
        low, high = (low, place) if value > 0.0 else (place, high)
        newton = place - value / slope if slope else math.nan
        before, place = place, newton if low <= newton <= high else 0.5 * (low + high)
    return place


def _top(
    function: Function,
    left: Sample,
    middle: Sample,
    right: Sample,
) -> Sample | None:
    """Return a place near a peak of three points where the function is not below zero, if any.

    A smooth peak rises above the middle point by less than that stands above the lower neighbour.
    """
    drop = middle[1] - min(left[1], right[1])
    if not left[1] < middle[1] >= right[1] or middle[1] >= 0.0 or middle[1] + drop < 0.0:
        return None
    below = math.nextafter(0.0, -math.inf)
    place, value = highest(function, left[0], right[0], 1e-9 * abs(right[0]), below)
    return (place, value) if value >= 0.0 else None


def _rise(function: Function, below: Sample, above: Sample) -> float:
    """Return the root between a point below zero and one at or above it, to the last bit."""
    (low, value), (high, _) = sorted(_narrowed(function, below, above, _LAST_BITS))
    if value == 0.0:
        return low
    while low < (middle := 0.5 * (low + high)) < high:
        if function(middle) >= 0.0:
            high = middle
        else:
            low = middle
    return high
