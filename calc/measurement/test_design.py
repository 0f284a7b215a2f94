"""Test design: averages, lines inside a resonance, and the time on condition that they take."""

import math
from dataclasses import replace
from typing import Annotated

from calc.measurement.hub_whirl import whirl_components
from calc.measurement.quantities import OVERLAP, RECORD_LENGTH
from calc.measurement.sensor_errors import (
    high_pass_gain,
    high_pass_phase,
    loaded_frequency,
    quantisation_rms,
    sensor_amplitude_error,
)
from calc.measurement.uncertainty import combined_uncertainty
from calc.quantity import Constant, Quantity
from calc.units import FREQUENCY, SHARE, TIME
from calc.vocabulary import DAMPING_RATIO

__all__ = [
    "combined_uncertainty",
    "dwell_time",
    "high_pass_gain",
    "high_pass_phase",
    "lines_in_half_power_band",
    "loaded_frequency",
    "quantisation_rms",
    "required_averages",
    "sensor_amplitude_error",
    "whirl_components",
]

RANDOM_ERROR = Quantity(
    r"\varepsilon",
    "Random error of the spectral density",
    SHARE,
    at_least=0.01,
    at_most=1.0,
    example=0.1,
)
AVERAGES = Quantity("n", "Independent averages, at least", whole=True)
BLOCKS = Quantity("K", "Blocks", at_least=1, at_most=1e6, whole=True, example=100)
BLOCK_LENGTH = Quantity("T_b", "Length of a block", TIME, above=0.0, example=20.0)
TIME_OF_BLOCKS = Quantity("T_K", "Time that the blocks take", TIME)
MODE_FREQUENCY = Quantity("f", "Frequency of the mode", FREQUENCY, above=0.0, example=3.4)
MODE_RECORD = replace(RECORD_LENGTH, example=100.0)
LINES_IN_BAND = Quantity("", "Lines inside the half-power width", covered=(5.0, math.inf))
ALMOST = Constant(1e-9, Quantity(r"\epsilon", "Allowance for rounding"))
"""Rounding of a whole number of averages, as a share of it."""


def required_averages(
    error: Annotated[float, RANDOM_ERROR],
) -> Annotated[int, AVERAGES]:
    r"""Return how many independent averages bring the random error of a density down.

    $$ n = \left\lceil \frac{1}{\varepsilon^2} \right\rceil $$

    The vibration is random and steady.  The line of a steady tone has no such error, and no
    number of averages mends its scalloping, smear or leakage.

    Args:
        error: Standard deviation of the density over its mean; scalar.

    Returns:
        The number of averages; scalar.

    Raises:
        ValueError: If the error breaks its limits.

    Source:
        The spread of a chi-square variable with two degrees of freedom a block; Bendat and Piersol,
        from memory.

    Examples:
        >>> required_averages(0.1)
        100
    """
    RANDOM_ERROR.check(error)
    return math.ceil((1.0 - ALMOST) / error**2)


def dwell_time(
    blocks: Annotated[int, BLOCKS],
    block_length: Annotated[float, BLOCK_LENGTH],
    overlap: Annotated[float, OVERLAP],
) -> Annotated[float, TIME_OF_BLOCKS]:
    r"""Return how long blocks that overlap take.

    $$ T_K = T_b \left[1 + (K - 1)(1 - o)\right] $$

    The time for a transient to die out comes before it.

    Args:
        blocks: Number of blocks; scalar.
        block_length: Length of each; scalar, s.
        overlap: What each shares with the next, as a fraction; scalar.

    Returns:
        The time from the start of the first to the end of the last; scalar, s.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Counting.

    Examples:
        >>> dwell_time(10, 4.0, 0.5)
        22.0
    """
    BLOCKS.check(blocks)
    BLOCK_LENGTH.check(block_length)
    OVERLAP.check(overlap)
    return block_length * (1.0 + (blocks - 1) * (1.0 - overlap))


def lines_in_half_power_band(
    frequency: Annotated[float, MODE_FREQUENCY],
    damping_ratio: Annotated[float, DAMPING_RATIO],
    record_length: Annotated[float, MODE_RECORD],
) -> Annotated[float, LINES_IN_BAND]:
    r"""Return how many lines lie inside the half-power width of a mode.

    $$ B T = 2 \zeta f T $$

    Light damping.  With few lines the mode reads wider, and so more damped, than it is.

    Args:
        frequency: Natural frequency of the mode; scalar, Hz.
        damping_ratio: Its damping over critical damping; scalar.
        record_length: Length of a block; scalar, s.

    Returns:
        The width over the line spacing; scalar.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        The half-power width of a lightly damped mode; common knowledge.

    Examples:
        >>> lines_in_half_power_band(5.0, 0.02, 50.0)
        10.0
    """
    MODE_FREQUENCY.check(frequency)
    DAMPING_RATIO.check(damping_ratio)
    MODE_RECORD.check(record_length)
    return 2.0 * damping_ratio * frequency * record_length
