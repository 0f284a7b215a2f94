"""Lines of a record: amplitude spectrum, power density by blocks, and rms of a band."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc import linalg
from calc.measurement import cosine_sum
from calc.measurement.quantities import OVERLAP, SAMPLE_RATE
from calc.measurement.windows import COEFFICIENTS, total, weights
from calc.quantity import Quantity

MOST_SAMPLES = 1 << 22
RECORD = Quantity(
    "N", "Number of samples of the record", at_least=2, at_most=MOST_SAMPLES, whole=True
)
BLOCK = Quantity("N", "Number of samples of a block", at_least=2, at_most=MOST_SAMPLES, whole=True)


@dataclass(frozen=True, slots=True)
class AmplitudeSpectrum:
    """The lines of a record from 0 to half its sample rate: Hz, peak amplitude, and lead in rad."""

    frequencies: list[float]
    amplitudes: list[float]
    phases: list[float]


@dataclass(frozen=True, slots=True)
class PowerDensity:
    """One-sided power density of a record: Hz, unit squared per Hz, and the number of blocks."""

    frequencies: list[float]
    densities: list[float]
    blocks: int


def amplitude_spectrum(
    record: Sequence[float], sample_rate: float, window: str = "hann"
) -> AmplitudeSpectrum:
    r"""Return the one-sided amplitude spectrum of a whole record.

    $$ A_j e^{i \varphi_j} = \frac{2}{\sum_n w_n} \sum_n w_n x_n e^{-2 \pi i j n / N} $$

    without the 2 at 0 Hz and, where the number of samples is even, at half the sample rate.  The
    mean is left in.

    Args:
        record: Samples $x_n$ at equal intervals; shape (N,).
        sample_rate: Sample rate; scalar, Hz.
        window: One of `quantities.WINDOWS`; word.

    Returns:
        Frequencies in Hz, peak amplitudes in the unit of the record, phases in rad, of a cosine
        at the first sample; shape (N // 2 + 1,) each.

    Raises:
        ValueError: If there are too few or too many samples, one is not finite, the sample rate is
            not above zero, or there is no such window.

    Source:
        Heinzel, Rüdiger and Schilling (2002), section 9, in peak values.

    Examples:
        >>> found = amplitude_spectrum([1.0, -1.0] * 4, 8.0, "rectangular")
        >>> found.frequencies[-1], found.amplitudes[-1]
        (4.0, 1.0)
    """
    SAMPLE_RATE.check(sample_rate)
    RECORD.check(len(record))
    amplitudes, phases = linalg.weighted_lines(record, weights(window, len(record)))
    scale = 2.0 / total(window, len(record))
    found = [scale * size for size in amplitudes]
    found[0] *= 0.5
    if len(record) % 2 == 0:
        found[-1] *= 0.5
    return AmplitudeSpectrum(_frequencies(len(record), sample_rate), found, phases.tolist())


def power_density(
    record: Sequence[float],
    sample_rate: float,
    block: int,
    window: str = "hann",
    overlap: float = 0.5,
) -> PowerDensity:
    r"""Return the one-sided power density of a record, the mean over its whole blocks.

    $$ G_j = \frac{2}{f_s \sum_n w_n^2} \, \overline{
       \left| \sum_n w_n x_n e^{-2 \pi i j n / N} \right|^2 } $$

    without the 2 at 0 Hz and, in a block of an even number, at half the sample rate.  The mean is
    left in.  Blocks begin a rounded (1 - overlap) of their length apart; what is left at the end
    of the record is not used.

    Args:
        record: Samples $x_n$ at equal intervals; shape (n,).
        sample_rate: Sample rate $f_s$; scalar, Hz.
        block: Number of samples $N$ of a block; scalar.
        window: One of `quantities.WINDOWS`; word.
        overlap: Share of a block that the next one shares with it; scalar.

    Returns:
        Frequencies in Hz, densities in the unit of the record squared per Hz, shape (N // 2 + 1,)
        each, and the number of blocks.

    Raises:
        ValueError: If the record is shorter than a block, a number breaks its limits or is not
            finite, or there is no such window.

    Source:
        Heinzel, Rüdiger and Schilling (2002), sections 9 and 10; Welch (1967), from memory.

    Examples:
        >>> found = power_density([1.0, -1.0] * 8, 2.0, 4, "rectangular", 0.0)
        >>> found.blocks, found.densities
        (4, [0.0, 0.0, 2.0])
    """
    SAMPLE_RATE.check(sample_rate)
    OVERLAP.check(overlap)
    BLOCK.check(block)
    if len(record) < block:
        raise ValueError(f"The record must hold a block of {block} samples, and has {len(record)}")
    factors = weights(window, block)
    step = max(1, round(block * (1.0 - overlap)))
    scale = 2.0 / (sample_rate * math.fsum(factor * factor for factor in factors))
    found = [scale * power for power in linalg.mean_powers(record, factors, step)]
    found[0] *= 0.5
    if block % 2 == 0:
        found[-1] *= 0.5
    blocks = (len(record) - block) // step + 1
    return PowerDensity(_frequencies(block, sample_rate), found, blocks)


def band_rms(
    record: Sequence[float], sample_rate: float, low: float, high: float, window: str = "hann"
) -> float:
    r"""Return the rms of what a record holds between two frequencies.

    $$ x_{rms} = \sqrt{\frac{1}{B_n} \sum_j \frac{A_j^2}{2}} $$

    over the lines from the low to the high frequency; 0 Hz and half the sample rate count with
    the whole of their square.  A band must hold the whole skirt of a line in it: with a Hann
    window three lines on either side.

    Args:
        record: Samples at equal intervals; shape (N,).
        sample_rate: Sample rate; scalar, Hz.
        low: Lowest frequency of the band; scalar, Hz.
        high: Highest frequency of the band; scalar, Hz.
        window: One of `quantities.WINDOWS`; word.

    Returns:
        The rms in the unit of the record; scalar.

    Raises:
        ValueError: As `amplitude_spectrum`; if the band does not lie between 0 and half the
            sample rate or holds no line.

    Source:
        The sum of the power density over its lines.

    Examples:
        >>> round(band_rms([1.0, -1.0] * 8, 2.0, 0.0, 1.0), 6)
        1.0
    """
    lines = amplitude_spectrum(record, sample_rate, window)
    if not 0.0 <= low <= high <= 0.5 * sample_rate:
        raise ValueError("A band must rise from 0 Hz or more to half the sample rate at most")
    whole = {0, len(record) // 2} if len(record) % 2 == 0 else {0}
    squares = [
        amplitude**2 * (1.0 if place in whole else 0.5)
        for place, (frequency, amplitude) in enumerate(
            zip(lines.frequencies, lines.amplitudes, strict=True)
        )
        if low <= frequency <= high
    ]
    if not squares:
        raise ValueError("No line of the spectrum lies in the band: it is narrower than a line")
    return math.sqrt(math.fsum(squares) / cosine_sum.noise_bandwidth(COEFFICIENTS[window]))


def _frequencies(samples: int, sample_rate: float) -> list[float]:
    """Return the frequencies of the lines of so many samples."""
    return [line * sample_rate / samples for line in range(samples // 2 + 1)]
