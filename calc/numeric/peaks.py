"""Peaks of a function of one variable, found between two places."""

import math
from collections.abc import Callable

Curve = Callable[[float], float]
Sample = tuple[float, float]
"""A place and the value of the curve there."""

_SHRINK = 0.3819660112501051  # golden section
_MOST_STEPS = 200  # more than golden section needs between any two numbers


def highest(
    curve: Curve, low: float, high: float, width: float, enough: float = math.inf
) -> Sample:
    """Return the highest point between two places to within a width, or one above enough.

    Brent's method: the top of the parabola through the three best points where that lies well
    inside, golden section where it does not.
    """
    place = low + _SHRINK * (high - low)
    best = second = third = (place, curve(place))
    step = before = math.inf
    for _ in range(_MOST_STEPS):
        middle, least = 0.5 * (low + high), 0.25 * width
        if best[1] > enough or abs(best[0] - middle) <= 2.0 * least - 0.5 * (high - low):
            break
        before, (step, is_inside) = step, _to_top(best, second, third)
        place = best[0] + step
        if not (is_inside and low + least < place < high - least and abs(step) < 0.5 * abs(before)):
            before = (low if best[0] >= middle else high) - best[0]
            step = _SHRINK * before
        place = best[0] + math.copysign(max(abs(step), least), step)
        point = (place, curve(place))
        if point[1] >= best[1]:
            low, high = (best[0], high) if place > best[0] else (low, best[0])
            best, second, third = point, best, second
        else:
            low, high = (low, place) if place > best[0] else (place, high)
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


def lowest(curve: Curve, low: float, high: float) -> Sample:
    """Return the lowest point of a curve between two places."""
    place, value = highest(lambda place: -curve(place), low, high, 1e-5 * (high - low))
    return place, -value
