"""Filtering: whether a record holds what a filter before sampling would have taken away."""

from itertools import repeat
from operator import sub
from statistics import median

from calc.measurement.reading.samples import Samples, array
from calc.measurement.spectrum import power_density

USUAL = 2.56
"""Samples a cycle of the highest frequency that a usual filter passes; common practice."""
BLOCK, MOST = 2048, 1 << 18
"""Samples of a block, and of a record that are looked at."""
FEWEST = 64
STANDS_OUT = 30.0
"""A line is so many times as powerful as the middle one of what is looked at."""
SHARE = 0.05
"""From this share of the power of a record what should be filtered is named."""


def unfiltered(samples: Samples, sample_rate: float) -> str:
    """Return in words what a record holds up to half its sample rate, or nothing.

    Args:
        samples: A channel without gaps; shape (n,).
        sample_rate: Scalar, Hz.
    """
    some = samples[:MOST]
    if len(some) < FEWEST:
        return ""
    mean = sum(some) / len(some)
    varies = array("d", map(sub, some, repeat(mean)))
    found = power_density(varies, sample_rate, min(BLOCK, len(some)), "hann", 0.5)
    first = next(row for row, value in enumerate(found.frequencies) if value > sample_rate / USUAL)
    high = found.densities[first:]
    largest = max(range(len(high)), key=high.__getitem__)
    told = f"above {sample_rate / USUAL:.4g} Hz, where a usual filter leaves nothing"
    beside = "They may be aliases of what is faster than half the sample rate."
    stands = high[largest] > STANDS_OUT * median(high)
    if stands and high[largest] > 1e-4 * max(found.densities):
        return f"a line at {found.frequencies[first + largest]:.4g} Hz stands {told}. {beside}"
    share = sum(high) / (sum(found.densities) or 1.0)
    if share > SHARE:
        return f"{100.0 * share:.2g} % of its power lies {told}. {beside}"
    return ""
