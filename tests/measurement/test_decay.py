"""Damping from peaks: an oscillator in time, NumPy's line, and the scatter of many decays."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from calc.measurement.decay import Peak, damping_from_growth, peaks_decay
from calc.measurement.decrement import (
    damping_from_decrement,
    decrement_fit,
    decrement_standard_error,
    log_decrement,
)

TWO_PI = 2.0 * math.pi


def test_decrement_over_many_cycles_is_divided_by_them() -> None:
    """13 % is left after 100 cycles: by hand, the logarithm of 100/13 over 100."""
    decrement = log_decrement(100.0, 13.0, 100)

    assert decrement == pytest.approx(math.log(100.0 / 13.0) / 100.0)
    assert damping_from_decrement(decrement) == pytest.approx(0.0032471, abs=5e-8)


def test_peaks_of_an_oscillator_in_time() -> None:
    """SciPy releases an oscillator of 7 % damping; all ways from its peaks give that back."""

    def slope(_: float, state: list[float]) -> list[float]:
        return [state[1], -2.0 * 0.07 * 18.0 * state[1] - 18.0**2 * state[0]]

    def peak(_: float, state: list[float]) -> float:
        return state[1]

    peak.direction = -1.0  # type: ignore[attr-defined]
    run = solve_ivp(slope, (0.0, 6.0), [0.0, 0.3], "DOP853", events=peak, rtol=1e-11, atol=1e-14)
    heights = [float(height) for height in run.y_events[0][:8, 0]]
    growth = -0.07 * 18.0
    damped = 18.0 * math.sqrt(1.0 - 0.07**2) / TWO_PI

    assert decrement_fit(heights).damping_ratio == pytest.approx(0.07, rel=1e-6)
    assert damping_from_growth(growth, damped) == pytest.approx(0.07, rel=1e-12)
    found = peaks_decay(tuple(map(Peak, heights)), 0.0, 0.0)
    assert found.damping_ratio == pytest.approx(0.07, rel=1e-6)
    assert found.ends_only == pytest.approx(found.decrement, rel=1e-6)


def test_line_through_peaks_by_numpy() -> None:
    """NumPy's straight line and its covariance, on six amplitudes."""
    heights = [10.0, 8.2, 6.7, 5.6, 4.5, 3.7]
    shares, covariance = np.polyfit(range(6), np.log(heights), 1, cov=True)
    found = decrement_fit(heights)

    assert found.decrement == pytest.approx(-shares[0], rel=1e-10)
    assert found.standard_error == pytest.approx(math.sqrt(covariance[0, 0]), rel=1e-8)
    assert found.damping_ratio == pytest.approx(0.031591, abs=5e-7)


def test_standard_error_is_the_scatter_of_many_decays() -> None:
    """Peaks with 5 % of scatter, 4000 decays: the spread of the fitted decrements."""
    generator = np.random.default_rng(7)
    exact = -0.2 * np.arange(10)
    slopes = [
        decrement_fit(list(np.exp(exact + generator.normal(0.0, 0.05, 10)))).decrement
        for _ in range(4000)
    ]

    assert np.std(slopes) == pytest.approx(decrement_standard_error(0.05, 10), rel=0.04)
    assert np.mean(slopes) == pytest.approx(0.2, abs=3e-4)


def test_peaks_in_the_noise_are_left_out() -> None:
    """Peaks that end in a floor read too little damping; those above six times it do not."""
    floor = 0.2
    heights = [10.0 * math.exp(-0.3 * n) for n in range(16)]
    peaks = tuple(Peak(math.hypot(height, floor)) for height in heights)
    bent, clear = peaks_decay(peaks, 0.03, 0.0), peaks_decay(peaks, 0.03, floor)

    assert bent.decrement < 0.95 * 0.3
    assert bent.remark.startswith("Bent: less damping at small amplitudes")
    assert clear.used == 8
    assert clear.decrement == pytest.approx(0.3, rel=0.01)
    assert clear.remark.startswith("Straight")
    with pytest.raises(ValueError, match="Fewer than 3 peaks"):
        peaks_decay(peaks, 0.03, 2.0)


def test_growth_is_negative_damping() -> None:
    """Peaks that grow have a damping ratio below zero."""
    assert decrement_fit([1.0, 1.1, 1.21]).damping_ratio < 0.0
    assert damping_from_growth(0.5, 3.0) == -damping_from_growth(-0.5, 3.0)
