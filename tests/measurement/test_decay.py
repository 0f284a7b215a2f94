"""Damping from decays: records of known modes, SciPy's least squares, and an oscillator in time."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import least_squares

from calc.measurement.damping import (
    damping_from_decrement,
    damping_from_growth,
    decay_fit,
    decrement_fit,
    decrement_standard_error,
    log_decrement,
    moving_block,
)
from calc.measurement.decay import Peak, peaks_decay

TWO_PI = 2.0 * math.pi


def decaying(
    frequency: float, growth: float, length: float, rate: float, phase: float = 0.0
) -> list[float]:
    """Return the samples of one mode from its release on."""
    times = np.arange(round(length * rate)) / rate
    return list(np.exp(growth * times) * np.cos(TWO_PI * frequency * times + phase))


def noise(count: int, rms: float) -> list[float]:
    """Return sums of twelve numbers of a generator that anyone can make again; seed 1."""
    state, found = 1, []
    for _ in range(count):
        total = 0.0
        for _ in range(12):
            state = (1664525 * state + 1013904223) % 2**32
            total += (state + 0.5) / 2**32
        found.append(rms * (total - 6.0))
    return found


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


@pytest.mark.parametrize(("growth", "offset"), [(-0.5, 0.0), (-2.0, 0.3), (0.2, -1.0)])
def test_decay_fit_gives_a_clean_mode_back(growth: float, offset: float) -> None:
    """Frequency and growth rate of one mode with a constant, to many digits."""
    record = [x + offset for x in decaying(3.0, growth, 6.0, 100.0, 1.1)]
    found = decay_fit(record, 100.0)

    assert found.frequency == pytest.approx(3.0, rel=1e-8)
    assert found.growth_rate == pytest.approx(growth, rel=1e-7)
    assert found.damping_ratio == pytest.approx(
        -growth / math.hypot(growth, TWO_PI * 3.0), rel=1e-7
    )


def test_decay_fit_in_noise_by_scipy() -> None:
    """The same least squares by SciPy, from the true values, on a record with 5 % of noise."""
    clean = decaying(2.9, -0.35, 8.0, 50.0)
    record = [x + y for x, y in zip(clean, noise(len(clean), 0.05), strict=True)]
    times = np.arange(len(record)) / 50.0

    def left(p: list[float]) -> np.ndarray:
        turn = TWO_PI * p[1] * times
        return np.exp(p[0] * times) * (p[2] * np.cos(turn) + p[3] * np.sin(turn)) + p[4] - record

    best = least_squares(left, [-0.35, 2.9, 1.0, 0.0, 0.0], xtol=1e-14, ftol=1e-14, gtol=1e-14).x
    found = decay_fit(record, 50.0)

    assert found.growth_rate == pytest.approx(best[0], rel=1e-5)
    assert found.frequency == pytest.approx(best[1], rel=1e-7)
    assert found.growth_rate == pytest.approx(-0.35, rel=0.05)


def test_two_modes_mislead_a_fit_of_one() -> None:
    """2.90 Hz with -0.3 1/s beside 3.15 Hz: one fit reads a third too much, a block does not."""
    one, other = decaying(2.90, -0.3, 8.0, 100.0), decaying(3.15, -1.2, 8.0, 100.0)
    record = [x + 0.5 * y for x, y in zip(one, other, strict=True)]

    assert decay_fit(record, 100.0).growth_rate == pytest.approx(-0.389, abs=1e-3)
    assert moving_block(record, 100.0, 2.90, 1.5) == pytest.approx(-0.296, abs=2e-3)


@pytest.mark.parametrize("growth", [-0.4, 0.1])
def test_moving_block_of_one_mode(growth: float) -> None:
    """The slope of the line's logarithm is the growth rate, also a little off its frequency."""
    record = decaying(2.4, growth, 12.0, 60.0)

    assert moving_block(record, 60.0, 2.4, 2.0) == pytest.approx(growth, abs=1e-3)
    assert moving_block(record, 60.0, 2.43, 2.0) == pytest.approx(growth, abs=2e-3)


def test_records_that_cannot_be_fitted_are_named() -> None:
    """Too short, still, not finite; blocks that are too short or too long."""
    record = decaying(2.4, -0.4, 4.0, 60.0)
    with pytest.raises(ValueError, match="16 to 200000 samples"):
        decay_fit(record[:5], 60.0)
    with pytest.raises(ValueError, match="Nothing moves"):
        decay_fit([1.0] * 50, 60.0)
    with pytest.raises(ValueError, match="finite"):
        decay_fit([*record, math.nan], 60.0)
    with pytest.raises(ValueError, match="two cycles"):
        moving_block(record, 60.0, 2.4, 0.5)
    with pytest.raises(ValueError, match="half of the record"):
        moving_block(record, 60.0, 2.4, 2.5)
