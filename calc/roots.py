"""Roots of a function of one variable, found by bracketing: slow, and sure to end."""

from collections.abc import Callable, Iterable


def first_root(function: Callable[[float], float], points: Iterable[float]) -> float | None:
    """Return where a function first reaches zero from below, or None if it never does.

    The points rise; a rise and fall through zero between two neighbours goes unseen.  If the
    first point is at or above zero already, it is the answer.  A jump through infinity is no root.
    """
    low, *others = points
    value = function(low)
    if value >= 0.0:
        return low
    for high in others:
        was_below, value = value < 0.0, function(high)
        if was_below and value >= 0.0:
            root = _bisect(function, low, high)
            if function(root) <= value:
                return root
        low = high
    return None


def _bisect(function: Callable[[float], float], low: float, high: float) -> float:
    """Return the root between a point below zero and one at or above it, to the last bit."""
    while low < (middle := 0.5 * (low + high)) < high:
        if function(middle) >= 0.0:
            high = middle
        else:
            low = middle
    return high
