"""Decay fit: frequency and growth rate of one mode from the samples of its free motion."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc import linalg
from calc.measurement.decay import damping_from_growth
from calc.measurement.quantities import SAMPLE_RATE
from calc.numeric.matrix import inverse
from calc.quantity import Quantity
from calc.units import FREQUENCY, TIME

FEWEST, MOST = 16, 200000
MOST_TURNS = 60
CLOSE = 1e-12
BLOCK = Quantity("T_b", "Length of a block", TIME, above=0.0, example=60.0)
LINE = Quantity("f", "Frequency of the mode", FREQUENCY, above=0.0)
MOST_GROWTH = 300.0  # logarithm of the growth over a record that can be computed
PLACES = 64  # blocks along the record
CYCLES = 2.0  # fewest in a block: a Hann window then leaves nothing of the negative frequency


@dataclass(frozen=True, slots=True)
class DecayFit:
    """The free motion of one mode, and the share of the rms of the motion that is not it."""

    frequency: float
    growth_rate: float
    damping_ratio: float
    left: float


def decay_fit(record: Sequence[float], sample_rate: float) -> DecayFit:
    r"""Return frequency, growth rate and damping of one mode by least squares on a whole record.

    $$ x(t) = e^{\sigma t} (a \cos 2 \pi f_d t + b \sin 2 \pi f_d t) + c $$

    One mode and a constant.  The search starts at the largest line of the spectrum and the growth
    between the halves of the record, by Gauss and Newton with a, b and c solved for at each turn.
    Two modes in the record give neither: separate them first.

    Args:
        record: Samples from the release of the mode on, any unit; shape (n,).
        sample_rate: Samples in a second; scalar, Hz.

    Returns:
        Frequency of the free motion, Hz; growth rate, 1/s; damping ratio; what the fit leaves, over
        the rms of the motion about its mean.

    Raises:
        ValueError: If there are too few or too many samples, one is not finite, or nothing moves.

    Source:
        Golub and Pereyra (1973), variable projection; from memory.

    Examples:
        >>> times = [n / 50.0 for n in range(200)]
        >>> found = decay_fit([math.exp(-0.4 * t) * math.cos(15.0 * t) for t in times], 50.0)
        >>> round(found.growth_rate, 9)
        -0.4
    """
    SAMPLE_RATE.check(sample_rate)
    samples = list(map(float, record))
    if not FEWEST <= len(samples) <= MOST:
        raise ValueError(f"A decay must have {FEWEST} to {MOST} samples, not {len(samples)}")
    if not all(map(math.isfinite, samples)):
        raise ValueError("The samples of a decay must be finite numbers")
    exponent = _start(samples)
    error, shares = _solved(samples, exponent)
    for _ in range(MOST_TURNS):
        step = _step(samples, exponent, shares)
        for _ in range(MOST_TURNS):
            tried = exponent + step
            found = _solved(samples, tried)
            if found[0] <= error:
                break
            step *= 0.5
        else:
            break
        done = abs(step) <= CLOSE * abs(exponent)
        exponent, (error, shares) = tried, found
        if done:
            break
    growth, frequency = exponent.real * sample_rate, exponent.imag * sample_rate / (2.0 * math.pi)
    mean = math.fsum(samples) / len(samples)
    left = math.sqrt(error / math.fsum((sample - mean) ** 2 for sample in samples))
    return DecayFit(frequency, growth, damping_from_growth(growth, frequency), left)


def moving_block(
    record: Sequence[float], sample_rate: float, frequency: float, block_length: float
) -> float:
    r"""Return the growth rate of a mode from the size of its line in a block that moves.

    $$ \sigma = \frac{\mathrm{d}}{\mathrm{d} t} \ln \left| \sum_n w_n x(t + t_n)
    e^{-2 \pi \mathrm{i} f t_n} \right| $$

    The slope is that of a straight line by least squares.  The block has a Hann window, which
    keeps other modes out that are two lines or more away; a mode nearer than that beats in the
    slope.

    Args:
        record: Samples of a free motion, any unit; shape (n,).
        sample_rate: Samples in a second; scalar, Hz.
        frequency: Frequency of the mode; scalar, Hz.
        block_length: Length of the block, two cycles or more; scalar, s.

    Returns:
        The growth rate; scalar, 1/s.

    Raises:
        ValueError: If the block has fewer than two cycles or is longer than half of the record.

    Source:
        Hammond and Doggett (1975), the method; from memory.

    Examples:
        >>> times = [n / 50.0 for n in range(400)]
        >>> record = [math.exp(-0.4 * t) * math.cos(15.0 * t) for t in times]
        >>> round(moving_block(record, 50.0, 15.0 / (2.0 * math.pi), 1.5), 2)
        -0.4
    """
    SAMPLE_RATE.check(sample_rate)
    LINE.check(frequency)
    BLOCK.check(block_length)
    size = round(block_length * sample_rate)
    if block_length * frequency < CYCLES:
        raise ValueError("A block must be at least two cycles long")
    if 2 * size > len(record):
        raise ValueError("A block must be no longer than half of the record")
    turn = -2.0j * math.pi * frequency / sample_rate
    window = [
        (0.5 - 0.5 * math.cos(2.0 * math.pi * n / size)) * cmath.exp(turn * n) for n in range(size)
    ]
    hop = max(1, (len(record) - size) // PLACES)
    starts = range(0, len(record) - size + 1, hop)
    sizes = [
        abs(sum(w * x for w, x in zip(window, record[start : start + size], strict=True)))
        for start in starts
    ]
    if not all(sizes):
        raise ValueError("There must be motion in every block")
    return _slope([start / sample_rate for start in starts], list(map(math.log, sizes)))


def _slope(times: Sequence[float], logs: Sequence[float]) -> float:
    middle, mean = math.fsum(times) / len(times), math.fsum(logs) / len(logs)
    return math.fsum(
        (time - middle) * (log - mean) for time, log in zip(times, logs, strict=True)
    ) / math.fsum((time - middle) ** 2 for time in times)


def _start(samples: list[float]) -> complex:
    """Return growth and turn a sample: the largest line, and the growth from half to half."""
    count = len(samples)
    mean = math.fsum(samples) / count
    moving = [sample - mean for sample in samples]
    real, imaginary = linalg.spectrum_of(moving)
    powers = [real[n] ** 2 + imaginary[n] ** 2 for n in range(1, count // 2)]
    if not max(powers):
        raise ValueError("Nothing moves in the record")
    line = 1 + max(range(len(powers)), key=powers.__getitem__)
    half = count // 2
    first = math.fsum(sample**2 for sample in moving[:half])
    second = math.fsum(sample**2 for sample in moving[half : 2 * half])
    growth = math.log(second / first) / (2 * half) if first and second else 0.0
    return complex(growth, 2.0 * math.pi * line / count)


def _solved(samples: list[float], exponent: complex) -> tuple[float, list[float]]:
    """Return the sum of squares left by the best a, b and c at an exponent, and these."""
    if exponent.real * len(samples) > MOST_GROWTH:
        return math.inf, []
    rows = _columns(len(samples), exponent)
    shares = _least_squares(rows, samples)
    left = (
        (x - shares[0] * p - shares[1] * q - shares[2] * r) ** 2
        for x, p, q, r in zip(samples, *rows, strict=True)
    )
    return math.fsum(left), shares


def _step(samples: list[float], exponent: complex, shares: list[float]) -> complex:
    """Return the change of the exponent that the linear problem about it asks for."""
    cosine, sine, constant = _columns(len(samples), exponent)
    a, b, c = shares
    growth = [n * (a * p + b * q) for n, (p, q) in enumerate(zip(cosine, sine, strict=True))]
    turn = [n * (b * p - a * q) for n, (p, q) in enumerate(zip(cosine, sine, strict=True))]
    left = [x - a * p - b * q - c for x, p, q in zip(samples, cosine, sine, strict=True)]
    change = _least_squares([cosine, sine, constant, growth, turn], left)
    return complex(change[3], change[4])


def _columns(count: int, exponent: complex) -> list[list[float]]:
    turning = [cmath.exp(exponent * n) for n in range(count)]
    return [[z.real for z in turning], [z.imag for z in turning], [1.0] * count]


def _least_squares(columns: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """Return the shares of columns that come nearest to a right side, scaled to columns of one."""
    sizes = [math.sqrt(math.fsum(x * x for x in column)) or 1.0 for column in columns]
    gram = [
        [
            math.fsum(x * y for x, y in zip(one, other, strict=True)) / (size * own)
            for other, own in zip(columns, sizes, strict=True)
        ]
        for one, size in zip(columns, sizes, strict=True)
    ]
    sides = [
        math.fsum(x * y for x, y in zip(column, right, strict=True)) / size
        for column, size in zip(columns, sizes, strict=True)
    ]
    return [
        math.fsum(a * b for a, b in zip(row, sides, strict=True)) / size
        for row, size in zip(inverse(gram), sizes, strict=True)
    ]
