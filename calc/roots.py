"""Roots of a function of one variable, found by bracketing: slow, and sure to end."""

from collections.abc import Callable, Iterable
from itertools import pairwise


def first_root(function: Callable[[float], float], points: Iterable[float]) -> float | None:
    """Return where a function first reaches zero from below, or None if it never does.

    The points rise; a rise and fall through zero between two neighbours goes unseen.
    If the first point is at or above zero already, it is the answer.
    """
    first, *others = points
    if function(first) >= 0.0:
        return first
    for low, high in pairwise([first, *others]):
        if function(high) >= 0.0:
            return _bisect(function, low, high)
    return None


def _bisect(function: Callable[[float], float], low: float, high: float) -> float:
    """Return the root between a point below zero and one at or above it, to the last bit."""
    while low < (middle := 0.5 * (low + high)) < high:
        if function(middle) >= 0.0:
            high = middle
        else:
            low = middle
    return high
