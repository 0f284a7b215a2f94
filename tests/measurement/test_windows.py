"""Windows against SciPy, sums over samples, and the windows of Heinzel and others.

Source:
    G. Heinzel, A. Rüdiger and R. Schilling (2002), Spectrum and spectral density estimation by the
    DFT: coefficients and properties of flat-top windows, as the table of the first author's own
    program prints them (read on 2026-11-26); overlap correlations as a work that quotes the report.
"""

import math

import numpy as np
import pytest
from scipy import signal

from calc.measurement import cosine_sum, windows
from calc.measurement.quantities import WINDOWS
from tests.measurement.printed import published

SCIPY = {
    "hann": "hann",
    "rectangular": "boxcar",
    "hamming": "hamming",
    "blackman": "blackman",
    "blackman_harris": "blackmanharris",
    "flat_top": "flattop",
}

HEINZEL = [
    ((1.0, 1.90796, 1.07349, 0.18199), "3.4129", "-70.4", 0.722, "0.041"),
    ((1.0, 1.942604, 1.340318, 0.440811, 0.043097), "3.8832", "-90.2", 0.760, "0.054"),
    ((1.0, 1.9383379, 1.3045202, 0.4028270, 0.0350665), "3.8112", "-95.0", 0.756, "0.056"),
]
"""Coefficients, noise bandwidth, highest side lobe in dB, overlap and its correlation."""

HEINZEL_WIDTHS = {
    "rectangular": "0.8845",
    "hann": "1.4382",
    "hamming": "1.3008",
    "blackman_harris": "1.8962",
}
"""Width of the main lobe in lines 3 dB down, which is a little less than the half-power width."""


@pytest.mark.parametrize("name", WINDOWS)
@pytest.mark.parametrize("samples", [8, 15, 1000])
def test_weights_are_those_of_scipy(name: str, samples: int) -> None:
    """SciPy, signal.get_window, which is periodic; a symmetric window would differ."""
    expected = signal.get_window(SCIPY[name], samples)

    assert windows.window(name, samples) == pytest.approx(expected, abs=1e-15)


@pytest.mark.parametrize("name", WINDOWS)
def test_properties_are_those_of_many_samples(name: str) -> None:
    """Gain, noise bandwidth and readings from sums over 4096 weights."""
    found, weights = windows.window_properties(name), signal.get_window(SCIPY[name], 4096)
    turns = np.exp(2j * np.pi * np.outer([0.5, 1.5, 4.5], np.arange(4096)) / 4096)
    readings = abs(turns @ weights) / weights.sum()

    assert found.coherent_gain == pytest.approx(weights.mean(), rel=1e-9)
    bandwidth = 4096 * (weights**2).sum() / weights.sum() ** 2
    assert found.noise_bandwidth == pytest.approx(bandwidth, rel=1e-9)
    assert found.lowest_reading == pytest.approx(readings[0], rel=1e-5)
    assert found.scalloping_loss == pytest.approx(-20.0 * math.log10(readings[0]), abs=1e-4)
    ours = [windows.leakage(name, bins) for bins in (0.5, 1.5, -4.5)]
    assert ours == pytest.approx(readings, rel=1e-5, abs=1e-6)


@pytest.mark.parametrize("name", WINDOWS)
def test_reading_at_the_widths(name: str) -> None:
    """Half a width away a line reads the root of a half, or a half."""
    found = windows.window_properties(name)

    half_power = windows.leakage(name, 0.5 * found.half_power_width)
    assert half_power == pytest.approx(math.sqrt(0.5), rel=1e-9)
    assert windows.leakage(name, 0.5 * found.half_amplitude_width) == pytest.approx(0.5, rel=1e-9)


@pytest.mark.parametrize(("name", "printed"), HEINZEL_WIDTHS.items())
def test_printed_widths(name: str, printed: str) -> None:
    """Heinzel and others: the width where the reading is 3 dB down, to every digit."""
    assert cosine_sum.width(windows.COEFFICIENTS[name], 10.0**-0.15) == published(printed)


@pytest.mark.parametrize(("terms", "bandwidth", "side_lobe", "overlap", "printed"), HEINZEL)
def test_printed_flat_top_windows(
    terms: tuple[float, ...], bandwidth: str, side_lobe: str, overlap: float, printed: str
) -> None:
    """Heinzel and others: three more flat-top windows, from their coefficients alone."""
    assert cosine_sum.noise_bandwidth(terms) == published(bandwidth)
    assert 20.0 * math.log10(cosine_sum.side_lobe(terms)) == published(side_lobe)
    assert cosine_sum.correlation(terms, overlap) == published(printed)


@pytest.mark.parametrize("name", WINDOWS)
@pytest.mark.parametrize("overlap", [0.25, 0.5, 0.75])
def test_correlation_is_the_sum_over_samples(name: str, overlap: float) -> None:
    """The definition summed over 4096 weights; a rectangular window has it equal to the overlap."""
    weights = signal.get_window(SCIPY[name], 4096)
    shift = round((1.0 - overlap) * 4096)
    expected = (weights[: 4096 - shift] * weights[shift:]).sum() / (weights**2).sum()

    found = windows.overlap_correlation(name, overlap)
    assert found == pytest.approx(expected, abs=1e-4)
    assert name != "rectangular" or found == pytest.approx(overlap, rel=1e-12)


def test_figures_hold_the_window() -> None:
    """Both figures go through the numbers that the forms give."""
    leakage = windows.window_chart("hann").marks[1].points  # type: ignore[union-attr]
    assert dict(leakage)[0.5] == pytest.approx(-windows.window_properties("hann").scalloping_loss)
    points = windows.correlation_chart("hann", 0.5).marks[1].points  # type: ignore[union-attr]
    assert points == [(0.5, pytest.approx(1.0 / 6.0))]


def test_unknown_window_is_refused() -> None:
    """A window that is not listed is named."""
    with pytest.raises(ValueError, match=r"Window must be one of .*, not kaiser"):
        windows.window("kaiser", 8)
    with pytest.raises(ValueError, match="Number of samples must be at least 1"):
        windows.window("hann", 0)
