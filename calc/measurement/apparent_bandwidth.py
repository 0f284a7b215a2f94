"""Apparent bandwidth: how much wider a resonance looks through blocks of a window than it is."""

import cmath
import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Annotated

from calc.declaration import Method
from calc.measurement.circle import circle_fit
from calc.measurement.quantities import WINDOW
from calc.measurement.windows import window as samples_of
from calc.numeric.roots import crossing
from calc.quantity import Quantity

BANDWIDTH_TIME = Quantity(
    "B T_b",
    "Lines inside the half-power bandwidth",
    at_least=0.01,
    at_most=1000.0,
    covered=(5.0, 1000.0),
    covered_by="with fewer lines the window, not the mode, makes the width",
    example=10.0,
)
APPARENT_RATIO = Quantity("R", "Bandwidth as seen over bandwidth as it is", at_least=1.0)
FEWEST = 256  # samples of a window
DENSE = 8.0  # of them in a line of the bandwidth
TURNS = 30  # of a search that comes nearer each time
SETTLED = 1e-6  # relative
DEEP = 27.0  # exponent at which the memory of a mode is forgotten


def apparent_bandwidth_ratio(bandwidth_time: float, window: str = "hann") -> float:
    r"""Return the half-power bandwidth of a mode in a mean spectrum over the one that it has.

    $$ S(f) = \int_{-T_b}^{T_b} e^{-\pi B |u|} r_w(u) \cos(2 \pi f u)\, \mathrm{d} u, \qquad
    R = \frac{2 f_{1/2}}{B}, \quad S(f_{1/2}) = \tfrac{1}{2} S(0) $$

    A lightly damped mode in broad-band noise, spectra of many blocks averaged; $r_w$ is the
    autocorrelation of the window.  The mode always looks more damped than it is.

    Args:
        bandwidth_time: True half-power bandwidth times the length of a block; scalar.
        window: Name of the window; word.

    Returns:
        The ratio, above one; scalar.

    Raises:
        ValueError: If an argument breaks its limits or no window has the name.

    Source:
        Bendat and Piersol, Random Data, the mean of a spectrum as a transform; from memory.

    Examples:
        >>> round(apparent_bandwidth_ratio(10.0), 2)
        1.02
    """
    BANDWIDTH_TIME.check(bandwidth_time)
    WINDOW.check(window)
    seen = _seen(bandwidth_time, window)

    def power(line: float) -> float:
        return seen(line).real

    half = 0.5 * power(0.0)
    line = crossing(lambda place: power(place) - half, 0.0, bandwidth_time + 4.0)
    return 2.0 * line / bandwidth_time


def response_bandwidth_ratio(bandwidth_time: float, window: str = "hann") -> float:
    r"""Return the half-power bandwidth of a mode in a frequency response over the one it has.

    $$ H(f) = \int_0^{T_b} e^{-\pi B u} r_w(u) e^{-2 \pi i f u}\, \mathrm{d} u, \qquad
    R = \frac{2 f_{1/2}}{B}, \quad |H(f_{1/2})| = |H(0)| / \sqrt{2} $$

    A lightly damped mode and a broad-band stimulus, the response over the stimulus averaged over
    many blocks; $r_w$ is the autocorrelation of the window.

    Args:
        bandwidth_time: True half-power bandwidth times the length of a block; scalar.
        window: Name of the window; word.

    Returns:
        The ratio, above one; scalar.

    Raises:
        ValueError: If an argument breaks its limits or no window has the name.

    Source:
        The mean of a cross spectrum as a transform, solved here.

    Examples:
        >>> response_bandwidth_ratio(3.0) > response_bandwidth_ratio(10.0) > 1.0
        True
    """
    BANDWIDTH_TIME.check(bandwidth_time)
    WINDOW.check(window)
    seen = _seen(bandwidth_time, window)

    def size(line: float) -> float:
        return abs(seen(line))

    half = math.sqrt(0.5) * size(0.0)
    line = crossing(lambda place: size(place) - half, 0.0, bandwidth_time + 4.0)
    return 2.0 * line / bandwidth_time


def true_bandwidth_time(
    seen: float, window: str, ratio: Callable[[float, str], float] = apparent_bandwidth_ratio
) -> Annotated[float | None, Method("the bandwidth that looks as wide as the one read")]:
    """Return the true bandwidth times block length of one that was seen, None if it is too narrow.

    Args:
        seen: Bandwidth as read, times the length of a block; scalar.
        window: Name of the window; word.
        ratio: How much wider it looks, of its product and the window; function.

    Returns:
        The product; scalar.  None where the window alone is as wide as what was read.
    """
    least, most = BANDWIDTH_TIME.at_least, BANDWIDTH_TIME.at_most

    def excess(product: float) -> float:
        return product * ratio(product, window) - seen

    if excess(least) >= 0.0:
        return None
    if seen >= most:
        return seen
    return crossing(excess, least, seen, 1e-9)


def true_circle_bandwidth(
    seen: float, window: str, middle: float, lines: Sequence[float]
) -> float | None:
    """Return the true bandwidth times block length of a mode whose circle was read.

    Args:
        seen: Bandwidth that the circle gives, times the length of a block; scalar.
        window: Name of the window; word.
        middle: Natural frequency times the length of a block; scalar.
        lines: Frequencies of the points times the length of a block; shape (n,).

    Returns:
        The product; scalar.  None where the window makes so much of the circle that none is found.

    Source:
        The mean of a cross spectrum as a transform, and the circle through it at the same lines.
    """
    true = seen
    for _ in range(TURNS):
        try:
            BANDWIDTH_TIME.check(true)
            response = _seen(true, window)
            fit = circle_fit(lines, [response(line - middle) for line in lines])
        except ValueError:  # so narrow a mode makes no circle
            return None
        wide = 2.0 * fit.damping_ratio * fit.frequency
        if abs(wide - seen) < SETTLED * seen:
            return true
        true *= seen / wide
    return None


def _seen(bandwidth_time: float, window: str) -> Callable[[float], complex]:
    """Return the mean cross spectrum of a mode, over lines from its frequency, in any one unit.

    Its real part is the mean power spectrum.  The integral is a sum over lags with the correction
    of Euler and Maclaurin for its sharp beginning.
    """
    count = max(FEWEST, math.ceil(DENSE * bandwidth_time))
    forget = math.pi * bandwidth_time / count
    lags = _autocorrelation(window, count, min(count, math.ceil(DEEP / forget)))
    terms = [math.exp(-forget * lag) * value for lag, value in enumerate(lags)]
    edge = samples_of(window, count)[0] ** 2 / count

    def seen(line: float) -> complex:
        turn = 2j * math.pi * line / count
        step, inside = cmath.exp(-turn), 0j
        for term in reversed(terms[1:]):
            inside = (inside + term) * step
        return 0.5 * terms[0] + inside - ((forget + turn) * lags[0] + edge) / 12.0

    return seen


@lru_cache(maxsize=64)
def _autocorrelation(window: str, count: int, lags: int) -> list[float]:
    """Return the sums of products of a window with itself at each lag, a mean over its samples."""
    values = samples_of(window, count)
    return [
        math.fsum(values[n] * values[n + lag] for n in range(count - lag)) / count
        for lag in range(lags)
    ]
