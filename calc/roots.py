"""Roots of a function of one variable, found by bracketing: slow, and sure to end."""

import math
from collections.abc import Callable, Iterable

Function = Callable[[float], float]

_ROUNDING = 1e-9
"""How far above zero rounding may leave a function at its root; a jump leaves it far higher."""

_GOLDEN = (math.sqrt(5.0) - 1.0) / 2.0


def first_root(function: Function, points: Iterable[float]) -> float | None:
    """Return where a function first reaches zero from below, or None if it never does.

    The points rise.  If the first is at or above zero already, it is the answer.  A peak between
    three neighbours is searched for a rise above zero that none of them shows.  A jump through
    infinity is no root; for it to be seen, a point must stand on either side.
    """
    seen: list[tuple[float, float]] = []
    for point in points:
        value = function(point)
        if not seen and value >= 0.0:
            return point
        if seen and seen[-1][1] < 0.0 <= value:
            root = _bisect(function, seen[-1][0], point)
            if function(root) <= value + _ROUNDING:
                return root
        seen = [*seen[-2:], (point, value)]
        if len(seen) == 3 and (top := _top(function, *seen)) is not None:
            return _bisect(function, seen[0][0], top)
    return None


def _top(
    function: Function,
    left: tuple[float, float],
    middle: tuple[float, float],
    right: tuple[float, float],
) -> float | None:
    """Return a place near a peak of three points where the function is not below zero, if any.

    A smooth peak rises above the middle point by less than that stands above the lower neighbour.
    """
    drop = middle[1] - min(left[1], right[1])
    if not left[1] < middle[1] >= right[1] or middle[1] >= 0.0 or middle[1] + drop < 0.0:
        return None
    low, high = left[0], right[0]
    while (width := high - low) > 1e-9 * abs(high):
        nearer, farther = high - _GOLDEN * width, low + _GOLDEN * width
        at_nearer, at_farther = function(nearer), function(farther)
        if max(at_nearer, at_farther) >= 0.0:
            return nearer if at_nearer >= 0.0 else farther
        low, high = (low, farther) if at_nearer >= at_farther else (nearer, high)
    return None


def _bisect(function: Function, low: float, high: float) -> float:
    """Return the root between a point below zero and one at or above it, to the last bit."""
    while low < (middle := 0.5 * (low + high)) < high:
        if function(middle) >= 0.0:
            high = middle
        else:
            low = middle
    return high
