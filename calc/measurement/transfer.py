"""Transfer: response of one channel to another, averaged over blocks, and its half-power points."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from calc import linalg
from calc.measurement.lines import BLOCK
from calc.measurement.quantities import OVERLAP, SAMPLE_RATE
from calc.measurement.windows import weights

MOST_LINES = 4_000_000
"""Lines of all blocks together; more would take long."""
LOOKED_AT = 20
"""So many blocks of a stimulus are looked at, evenly over the stretch."""
SLOWEST, REACH = 4, 2
"""A stimulus is looked at from this line on, since slower ones hold its mean; lines to each side of
the largest that count as near it: the width of a window."""
FEWEST_JUDGED = 20
"""Lines of a block below which five of them are no small part."""
NARROW = 0.8
"""Share of a block's power near one line, from which a stimulus is at one frequency; our choice."""
DRIVEN = 0.01
"""Share of the power of its largest line from which a stimulus drives a line: a tenth of the
amplitude.  Below it leakage and noise count as much as what was meant; our choice."""


@dataclass(frozen=True, slots=True)
class FrequencyResponse:
    """Response over stimulus from 0 to half the sample rate: Hz, complex, coherence; blocks.

    `driven` says of each line whether the stimulus has a share of its largest power there.
    """

    frequencies: list[float]
    responses: list[complex]
    coherences: list[float]
    averages: int
    driven: list[bool]


def frequency_response(
    stimulus: Sequence[float],
    response: Sequence[float],
    sample_rate: float,
    block: int,
    window: str = "hann",
    overlap: float = 0.5,
) -> FrequencyResponse:
    r"""Return the response over the stimulus, averaged over whole blocks, and its coherence.

    $$ H_j = \frac{\overline{X_j^* Y_j}}{\overline{|X_j|^2}}, \qquad
    \gamma_j^2 = \frac{|\overline{X_j^* Y_j}|^2}{\overline{|X_j|^2}\,\overline{|Y_j|^2}} $$

    Noise in the response alone averages out of $H$; noise in the stimulus makes it too small.
    The mean is left in.  What is left at the end of the record after the last block is not used.

    Args:
        stimulus: Samples $x_n$ at equal intervals; shape (n,).
        response: Samples $y_n$ of the same times; shape (n,).
        sample_rate: Sample rate; scalar, Hz.
        block: Number of samples of a block; scalar.
        window: One of `quantities.WINDOWS`; word.
        overlap: Share of a block that the next one shares with it; scalar.

    Returns:
        Frequencies in Hz, responses in the unit of the response over that of the stimulus, a plus
        angle where it leads, coherences, whether the stimulus drives the line, shape
        (block // 2 + 1,) each; and the number of blocks.
        Response and coherence are zero at a line that the stimulus has not.

    Raises:
        ValueError: If the records differ in length, hold fewer than two blocks or too many, the
            stimulus is zero, a number breaks its limits, or there is no such window.

    Source:
        Bendat and Piersol, Random Data, the estimate with the stimulus below; from memory.

    Examples:
        >>> kick = [1.0, 0.0, 0.0, 0.0, 2.0, 0.0, 0.0, 0.0]
        >>> late = [0.0, 3.0, 0.0, 0.0, 0.0, 6.0, 0.0, 0.0]
        >>> found = frequency_response(kick, late, 4.0, 4, "rectangular", 0.0)
        >>> [complex(round(h.real, 9), round(h.imag, 9)) for h in found.responses[:2]]
        [(3+0j), -3j]
    """
    SAMPLE_RATE.check(sample_rate)
    OVERLAP.check(overlap)
    BLOCK.check(block)
    if len(stimulus) != len(response):
        raise ValueError("Stimulus and response must have as many samples as one another")
    step = max(1, round(block * (1.0 - overlap)))
    starts = range(0, len(stimulus) - block + 1, step)
    if len(starts) < 2:
        raise ValueError(
            "The stretch must hold two blocks or more: the coherence of one block is 1 and says "
            "nothing. Choose a shorter block or a longer stretch"
        )
    count = block // 2 + 1
    if len(starts) * count > MOST_LINES:
        raise ValueError("These are too many blocks: choose a shorter stretch or less overlap")
    factors = weights(window, block)
    crosses, powers, answers = linalg.mean_cross_powers(stimulus, response, factors, step)
    if not any(powers):
        raise ValueError("The stimulus is zero throughout")
    return FrequencyResponse(
        frequencies=[line * sample_rate / block for line in range(count)],
        responses=[z / p if p else 0j for z, p in zip(crosses, powers, strict=True)],
        coherences=[
            min(1.0, abs(z) ** 2 / (p * q)) if p * q else 0.0
            for z, p, q in zip(crosses, powers, answers, strict=True)
        ],
        averages=len(starts),
        driven=_driven(powers),
    )


def _driven(powers: Sequence[float]) -> list[bool]:
    """Return of each line whether a stimulus of these powers drives it; its mean is no measure."""
    least = DRIVEN * max(powers[SLOWEST:] or powers)
    return [power > 0.0 and power >= least for power in powers]


def dwells(samples: Sequence[float], block: int, window: str) -> bool:
    """Return whether a stimulus stays near one frequency through most of its blocks.

    So does a stir that is stepped, or swept slowly; one that is broad in each block does not.
    """
    starts = range(0, len(samples) - block + 1, max(1, (len(samples) - block) // (LOOKED_AT - 1)))
    factors = weights(window, block)
    shares = []
    for first in starts:
        sizes, _ = linalg.weighted_lines(samples[first : first + block], factors)
        powers = [size * size for size in sizes[SLOWEST:]]
        total = math.fsum(powers)
        if total and len(powers) >= FEWEST_JUDGED:
            top = max(range(len(powers)), key=powers.__getitem__)
            near = powers[max(0, top - REACH) : top + REACH + 1]
            shares.append(math.fsum(near) / total)
    return bool(shares) and median(shares) > NARROW


def half_power_points(
    frequencies: Sequence[float], receptances: Sequence[complex]
) -> tuple[float, float]:
    r"""Return the half-power frequencies about the largest line, read between the lines.

    $$ \frac{1}{|H|^2} = q_0 + a \left(f^2 - f_0^2\right)^2, \qquad
    \frac{1}{|H|^2} = 2 q_0 \ \text{at} \ f_1, f_2 $$

    One viscous mode has this form exactly; $q_0$ and $f_0$ are those of the largest line and its
    neighbours.

    Args:
        frequencies: Of the lines, rising; shape (n,), Hz.
        receptances: Displacement over force at each; shape (n,).

    Returns:
        The lower and the upper half-power frequency, Hz.

    Raises:
        ValueError: If the largest line is at an end, or a half-power point is not between the ends.

    Source:
        Receptance of one mode, solved here.

    Examples:
        >>> lines = [0.5 + 0.05 * n for n in range(21)]
        >>> one = [1.0 / complex(1.0 - f * f, 0.1 * f) for f in lines]
        >>> [round(f * f, 6) for f in half_power_points(lines, one)]
        [0.895125, 1.094875]
    """
    sizes = [abs(value) for value in receptances]
    top = sizes.index(max(sizes))
    if not 0 < top < len(sizes) - 1:
        raise ValueError("The largest line of the band is at its end: no peak stands in the band")
    squares = [frequency**2 for frequency in frequencies]
    heights = [(sizes[top] / size) ** 2 if size else math.inf for size in sizes]
    (x, y, z), (a, b, c) = squares[top - 1 : top + 2], heights[top - 1 : top + 2]
    rise, fall = (b - a) / (y - x), (c - b) / (z - y)
    bend = (fall - rise) / (z - x)
    peak = 0.5 * (x + y) - 0.5 * rise / bend if bend else y
    least = b - bend * (y - peak) ** 2
    if not (math.isfinite(least) and least > 0.0):
        raise ValueError("Too few lines lie in the peak for its half-power points")

    def side(lines: Sequence[int]) -> float:
        places = [
            (squares[n], math.copysign(math.sqrt(max(heights[n] - least, 0.0)), squares[n] - peak))
            for n in lines
        ]
        for (one, inner), (other, outer) in pairwise(places):
            if abs(outer) >= math.sqrt(least) and inner != outer:
                wanted = math.copysign(math.sqrt(least), outer)
                return math.sqrt(one + (wanted - inner) / (outer - inner) * (other - one))
        raise ValueError("The band must reach below 0.707 of the peak on both sides of it")

    return side(range(top, -1, -1)), side(range(top, len(sizes)))
