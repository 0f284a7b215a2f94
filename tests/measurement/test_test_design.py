"""Test design: averages, blocks and lines, against chi-square variables and an oscillator."""

import math

import pytest
from scipy import optimize, stats

from calc.measurement import test_design as design
from calc.measurement.test_design import dwell_time, lines_in_half_power_band, required_averages


@pytest.mark.parametrize("error", [0.01, 0.1, 0.13, 0.2, 1.0, *(n**-0.5 for n in range(2, 40))])
def test_averages_are_the_fewest_with_that_spread(error: float) -> None:
    """SciPy: a density of n blocks is a chi-square variable with 2 n degrees of freedom."""

    def spread(blocks: int) -> float:
        return float(stats.chi2.std(2 * blocks) / stats.chi2.mean(2 * blocks))

    found = required_averages(error)
    assert spread(found) <= error * (1.0 + 1e-9)
    assert found == 1 or spread(found - 1) > error * (1.0 + 1e-9)


@pytest.mark.parametrize(
    ("blocks", "length", "overlap"), [(1, 200, 0.5), (9, 200, 0.5), (7, 400, 0.75)]
)
def test_time_is_that_of_blocks_laid_one_by_one(blocks: int, length: int, overlap: float) -> None:
    """In samples: each block begins where the last left off, less what they share."""
    start = 0
    for _ in range(blocks - 1):
        start += length - round(overlap * length)

    assert dwell_time(blocks, length / 100.0, overlap) == pytest.approx((start + length) / 100.0)


@pytest.mark.parametrize("damping", [0.001, 0.005, 0.02])
def test_lines_fill_the_half_power_width(damping: float) -> None:
    """SciPy's root finder on an oscillator; light damping leaves out two squares of its ratio."""
    frequency, length = 3.4, 120.0

    def over_half(ratio: float) -> float:
        size = 1.0 / math.hypot(1.0 - ratio**2, 2.0 * damping * ratio)
        highest = 1.0 / (2.0 * damping * math.sqrt(1.0 - damping**2))
        return size - highest / math.sqrt(2.0)

    peak = math.sqrt(1.0 - 2.0 * damping**2)
    low = optimize.brentq(over_half, 0.5, peak)
    high = optimize.brentq(over_half, peak, 1.5)
    lines = (high - low) * frequency * length

    found = lines_in_half_power_band(frequency, damping, length)
    assert found == pytest.approx(lines, rel=4.0 * damping**2)


def test_names_of_the_chapter_stand_in_one_module() -> None:
    """What a script imports from here is there, wherever the work stands."""
    assert all(callable(getattr(design, name)) for name in design.__all__)
