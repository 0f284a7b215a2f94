"""Decrement: damping from the peaks of a free motion, by two of them or by all."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from calc.declaration import Method
from calc.ground.damper_test import DECREMENT as DECAYING
from calc.quantity import Quantity
from calc.units import SHARE
from calc.vocabulary import DAMPING_RATIO

DECREMENT = replace(DECAYING, above=-math.inf, example=0.2)
RATIO = replace(DAMPING_RATIO, at_least=-math.inf, below=math.inf)
PEAK = Quantity("A_n", "Peak amplitude", above=0.0, example=10.0)
FIRST = replace(PEAK, symbol="A_0", label="Earlier peak amplitude")
LAST = replace(PEAK, label="Later peak amplitude")
PEAKS = Quantity("n", "Number of peaks", at_least=2, at_most=10000, whole=True, example=10)
CYCLES = Quantity("n", "Cycles between them", at_least=1, at_most=1000000, whole=True, example=5)
PEAK_ERROR = Quantity(
    "s",
    "Standard uncertainty of a peak, fraction of it",
    SHARE,
    at_least=0.0,
    below=1.0,
    example=0.03,
)
STANDARD_ERROR = Quantity(r"u_\delta", "Standard error of the decrement", at_least=0.0)


@dataclass(frozen=True, slots=True)
class DecrementFit:
    """A straight line through the logarithms of peaks."""

    decrement: float
    damping_ratio: float
    standard_error: float


def log_decrement(
    first: Annotated[float, FIRST],
    last: Annotated[float, LAST],
    cycles: Annotated[int, CYCLES],
) -> Annotated[float, DECREMENT]:
    r"""Return the logarithmic decrement from two peaks of one sign.

    $$ \delta = \frac{1}{n} \ln \frac{A_0}{A_n} $$

    Args:
        first: Amplitude of the earlier peak, any unit; scalar.
        last: Amplitude of the later peak, the same unit; scalar.
        cycles: Full cycles between the two; scalar.

    Returns:
        The decrement, below zero where the motion grows; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Thomson, Theory of Vibration with Applications, section 2.7.

    Examples:
        >>> round(log_decrement(100.0, 13.0, 100), 6)
        0.020402
    """
    FIRST.check(first)
    LAST.check(last)
    CYCLES.check(cycles)
    return math.log(first / last) / cycles


def damping_from_decrement(
    decrement: Annotated[float, DECREMENT],
) -> Annotated[float, RATIO]:
    r"""Return the damping ratio of a logarithmic decrement.

    $$ \zeta = \frac{\delta}{\sqrt{4 \pi^2 + \delta^2}} $$

    Args:
        decrement: Logarithm of the ratio of successive peaks; scalar.

    Returns:
        The damping ratio; scalar.

    Raises:
        ValueError: If the decrement is not finite.

    Source:
        Thomson, Theory of Vibration with Applications, section 2.7.

    Examples:
        >>> round(damping_from_decrement(0.020402), 7)
        0.0032471
    """
    DECREMENT.check(decrement)
    return decrement / math.hypot(2.0 * math.pi, decrement)


def decrement_fit(
    amplitudes: Sequence[float],
) -> Annotated[DecrementFit, Method("a straight line through logarithms by least squares")]:
    r"""Return the decrement by least squares through the logarithms of successive peaks.

    $$ \ln A_n = c - n\, \delta, \qquad
    u_\delta = s \sqrt{\frac{12}{n (n^2 - 1)}} $$

    $s$ is the standard deviation about the line with n - 2 degrees of freedom, zero for two peaks.

    Args:
        amplitudes: Peaks of one sign, one a cycle, any unit; shape (n,).

    Returns:
        Decrement, damping ratio and the standard error of the decrement.

    Raises:
        ValueError: If there are fewer than two peaks or one is not above zero.

    Source:
        Draper and Smith, Applied Regression Analysis; from memory.

    Examples:
        >>> round(decrement_fit([8.0, 4.0, 2.0]).decrement, 9)
        0.693147181
    """
    count = len(amplitudes)
    PEAKS.check(count)
    for amplitude in amplitudes:
        PEAK.check(amplitude)
    logs = [math.log(amplitude) for amplitude in amplitudes]
    middle, mean = 0.5 * (count - 1), math.fsum(logs) / count
    spread = count * (count**2 - 1) / 12.0
    slope = math.fsum((n - middle) * log for n, log in enumerate(logs)) / spread
    squares = math.fsum((log - mean - slope * (n - middle)) ** 2 for n, log in enumerate(logs))
    scatter = math.sqrt(squares / (count - 2)) if count > 2 else 0.0
    return DecrementFit(-slope, damping_from_decrement(-slope), scatter / math.sqrt(spread))


def decrement_standard_error(
    noise: Annotated[float, PEAK_ERROR],
    amplitudes: Annotated[int, PEAKS],
) -> Annotated[float, STANDARD_ERROR]:
    r"""Return the standard error of a decrement that is fitted to equally uncertain peaks.

    $$ u_\delta = s \sqrt{\frac{12}{n (n^2 - 1)}} $$

    Args:
        noise: Standard uncertainty of each peak, a fraction of it; scalar.
        amplitudes: Number of peaks; scalar.

    Returns:
        The standard error of the decrement; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Draper and Smith, Applied Regression Analysis; from memory.

    Examples:
        >>> round(decrement_standard_error(0.05, 10), 6)
        0.005505
    """
    PEAK_ERROR.check(noise)
    PEAKS.check(amplitudes)
    return noise * math.sqrt(12.0 / (amplitudes * (amplitudes**2 - 1)))
