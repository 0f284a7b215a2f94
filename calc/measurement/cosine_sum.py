r"""Windows that are sums of cosines: what follows from their coefficients alone.

The coefficients are those of $w_n = \sum_k (-1)^k a_k \cos(2 \pi k n / N)$, the mean first.
"""

import cmath
import math
from collections.abc import Sequence

from calc.numeric.peaks import highest
from calc.numeric.roots import crossing

Coefficients = Sequence[float]

_STEP = 0.05
_FARTHEST = 30.0
"""Side lobes are looked for up to so many lines away, in so small steps."""


def response(coefficients: Coefficients, offset: float) -> float:
    """Return what a line shows of a tone some lines away, of one for a tone on the line.

    It is negative in every other side lobe.
    """
    mean, *others = coefficients
    total = mean * _sinc(offset)
    for number, size in enumerate(others, 1):
        total += 0.5 * size * (_sinc(offset - number) + _sinc(offset + number))
    return total / mean


def kernel(coefficients: Coefficients, offset: float, samples: int) -> complex:
    """Return the same for a window of a number of samples, with its phase at the first sample."""
    total = coefficients[0] * _dirichlet(offset, samples)
    sign = -0.5
    for number, size in enumerate(coefficients[1:], 1):
        pair = _dirichlet(offset - number, samples) + _dirichlet(offset + number, samples)
        total += sign * size * pair
        sign = -sign
    return total / coefficients[0]


def noise_bandwidth(coefficients: Coefficients) -> float:
    """Return the equivalent noise bandwidth in lines."""
    return _energy(coefficients) / coefficients[0] ** 2


def width(coefficients: Coefficients, level: float) -> float:
    """Return in lines how wide the main lobe is at a level, of one at its top."""
    return 2.0 * crossing(
        lambda offset: response(coefficients, offset) - level, 0.0, edge(coefficients)
    )


def edge(coefficients: Coefficients) -> float:
    """Return how many lines from its middle the main lobe ends: the first zero."""
    offset = _STEP
    while response(coefficients, offset + _STEP) > 0.0:
        offset += _STEP
    return crossing(lambda place: response(coefficients, place), offset, offset + 2.0 * _STEP)


def side_lobe(coefficients: Coefficients) -> float:
    """Return the size of the highest side lobe, of one at the top of the main lobe."""
    first = edge(coefficients)
    places = [first + _STEP * step for step in range(int((_FARTHEST - first) / _STEP))]
    best = max(places, key=lambda place: abs(response(coefficients, place)))
    _, found = highest(
        lambda place: abs(response(coefficients, place)), best - _STEP, best + _STEP, 1e-7
    )
    return found


def correlation(coefficients: Coefficients, overlap: float) -> float:
    """Return the correlation of two blocks of noise that overlap by a share of their length."""
    signed = [size * (-1.0) ** number for number, size in enumerate(coefficients)]
    total = 0.0
    for j, one in enumerate(signed):
        for k, other in enumerate(signed):
            shift = -k * overlap
            total += 0.5 * one * other * _mean_cosine(j + k, shift, overlap)
            total += 0.5 * one * other * _mean_cosine(j - k, -shift, overlap)
    return total / _energy(coefficients)


def _energy(coefficients: Coefficients) -> float:
    """Return the mean square of the window."""
    return coefficients[0] ** 2 + 0.5 * math.fsum(size**2 for size in coefficients[1:])


def _mean_cosine(number: int, shift: float, end: float) -> float:
    """Return the integral of cos(2 pi (number t + shift)) from 0 to the end."""
    turn = 2.0 * math.pi
    if number == 0:
        return end * math.cos(turn * shift)
    rise = math.sin(turn * (number * end + shift)) - math.sin(turn * shift)
    return rise / (turn * number)


def _sinc(x: float) -> float:
    return math.sin(math.pi * x) / (math.pi * x) if x else 1.0


def _dirichlet(offset: float, samples: int) -> complex:
    """Return the mean of a turning vector that makes some turns in a number of samples."""
    below = samples * math.sin(math.pi * offset / samples)
    if abs(below) < 1e-9:
        return 1.0 + 0.0j
    size = math.sin(math.pi * offset) / below
    return size * cmath.exp(1j * math.pi * offset * (samples - 1) / samples)
