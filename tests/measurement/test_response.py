"""Damping from responses: exact responses of one mode, random records and SciPy's optimiser."""

import cmath
import math

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.signal import get_window

from calc.measurement.damping import (
    apparent_bandwidth_ratio,
    circle_fit,
    half_power_damping,
    half_power_frequency,
    window_damping,
)
from calc.measurement.response import (
    GOOD_CIRCLE,
    ResponsePoint,
    circle_mode,
    circle_of_points,
    half_power,
)

TWO_PI = 2.0 * math.pi


def receptance(frequency: float, natural: float, ratio: float, mass: float = 1.0) -> complex:
    """Return displacement over force of one viscous mode."""
    w, wn = TWO_PI * frequency, TWO_PI * natural
    return 1.0 / (mass * complex(wn**2 - w**2, 2.0 * ratio * wn * w))


@pytest.mark.parametrize(("natural", "ratio"), [(20.0, 0.03), (10.0, 0.1), (3.0, 0.25)])
def test_half_power_points_found_by_search(natural: float, ratio: float) -> None:
    """SciPy finds where the response is 0.707 of its peak; both give the mode back exactly."""
    peak = natural * math.sqrt(1.0 - 2.0 * ratio**2)
    level = abs(receptance(peak, natural, ratio)) / math.sqrt(2.0)

    def above(frequency: float) -> float:
        return abs(receptance(frequency, natural, ratio)) - level

    lower = brentq(above, 0.3 * natural, peak, xtol=1e-13)
    upper = brentq(above, peak, 2.0 * natural, xtol=1e-13)

    assert half_power_damping(lower, upper) == pytest.approx(ratio, rel=1e-10)
    assert half_power_frequency(lower, upper) == pytest.approx(natural, rel=1e-11)
    assert (upper - lower) / (2.0 * peak) > ratio * (1.0 + 0.4 * ratio**2)


@pytest.mark.parametrize(
    ("lines", "hann", "rectangular"),
    [
        (1, 2.012, 1.506),
        (2, 1.367, 1.203),
        (3, 1.187, 1.125),
        (5, 1.074, 1.070),
        (10, 1.020, 1.033),
    ],
)
def test_apparent_bandwidth_worked_elsewhere(lines: int, hann: float, rectangular: float) -> None:
    """Mean spectra worked by another program, to the digits that it gave."""
    assert apparent_bandwidth_ratio(lines) == pytest.approx(hann, abs=6e-4)
    assert apparent_bandwidth_ratio(lines, "rectangular") == pytest.approx(rectangular, abs=6e-4)


@pytest.mark.parametrize("window", ["hann", "boxcar"])
def test_apparent_bandwidth_of_a_mean_spectrum_by_numpy(window: str) -> None:
    """Lines of a dense grid through a window's transform, summed with the shape of the mode."""
    samples, lines, wide = 256, 2.5, 400
    weights = get_window(window, samples, fftbins=True)
    places = np.linspace(-wide, wide, 80001)
    turns = np.exp(-2j * np.pi * np.outer(np.arange(64), np.arange(samples)) / (64 * samples))
    fine = np.fft.fft(weights, 64 * samples)
    assert abs(turns @ weights - fine[:64]).max() < 1e-9
    power = np.abs(np.interp(places % samples, np.arange(64 * samples) / 64, np.abs(fine))) ** 2
    power[np.abs(places) > samples / 2] = 0.0

    def seen(line: float) -> float:
        shape = 1.0 / (1.0 + ((places - line) / (0.5 * lines)) ** 2)
        return float(np.sum(shape * power))

    half = brentq(lambda line: seen(line) - 0.5 * seen(0.0), 0.1, 10.0)
    name = {"hann": "hann", "boxcar": "rectangular"}[window]

    assert apparent_bandwidth_ratio(lines, name) == pytest.approx(2.0 * half / lines, rel=2e-3)


def test_width_of_the_window_is_taken_off() -> None:
    """A mode of 3 Hz and 2 % as blocks of 25 s show it comes back; a narrower one does not.

    The points lie evenly about 3 Hz here, which the exact formula takes for another mode by 0.15 %.
    """
    width = 2.0 * 0.02 * 3.0
    seen = width * apparent_bandwidth_ratio(width * 25.0)
    found = half_power(3.0 - 0.5 * seen, 3.0 + 0.5 * seen, 25.0)

    assert found.damping_ratio > 0.0235
    assert found.resolved_ratio == pytest.approx(0.02, rel=2e-3)
    assert half_power(2.99, 3.01, 25.0).resolved_ratio is None


@pytest.mark.parametrize("kind", ["mobility", "receptance", "accelerance"])
@pytest.mark.parametrize("residual", [0.0, 0.002 - 0.0015j])
def test_circle_gives_a_mode_back(kind: str, residual: complex) -> None:
    """100 kg, 10 Hz, 2 %: exact in each kind, with a constant of other modes beside it."""
    frequencies = [9.0 + 0.1 * step for step in range(21)]
    turns = [1j * TWO_PI * f for f in frequencies]
    power = {"mobility": 0, "receptance": -1, "accelerance": 1}[kind]
    mobilities = [
        turn * receptance(f, 10.0, 0.02, 100.0) + residual
        for f, turn in zip(frequencies, turns, strict=True)
    ]
    found = circle_fit(
        frequencies, [y * turn**power for y, turn in zip(mobilities, turns, strict=True)], kind
    )

    assert found.frequency == pytest.approx(10.0, rel=1e-9)
    assert found.damping_ratio == pytest.approx(0.02, rel=1e-8)
    assert found.diameter == pytest.approx(1.0 / (2.0 * 0.02 * TWO_PI * 10.0 * 100.0), rel=1e-8)


def test_circle_of_a_sensor_the_other_way_round() -> None:
    """A response of the other sign has its circle on the other side and the same mode."""
    frequencies = [2.8 + 0.02 * step for step in range(21)]
    there = [-receptance(f, 3.0, 0.03) for f in frequencies]
    found = circle_fit(frequencies, there, "receptance")

    assert found.frequency == pytest.approx(3.0, rel=1e-9)
    assert found.damping_ratio == pytest.approx(0.03, rel=1e-8)


@pytest.mark.parametrize("fault", ["none", "velocity", "frequency", "second mode", "phase"])
def test_points_of_a_circle_lie_at_the_frequencies_of_one_mode(fault: str) -> None:
    """A receptance taken for a mobility is as round, and damped more than twice too much.

    So are one frequency typed wrongly by 0.1 Hz, a mode at 3.15 Hz beside that at 3.0 Hz, and a
    phase that a servo has turned by 20 deg; no such mode is offered to a data sheet.
    """
    frequencies = [2.82 + 0.03 * step for step in range(13)]
    values = [receptance(f, 3.0, 0.03) for f in frequencies]
    if fault == "second mode":
        others = (receptance(f, 3.15, 0.03) for f in frequencies)
        values = [one + 0.3 * other for one, other in zip(values, others, strict=True)]
    if fault == "phase":
        values = [one * cmath.exp(1j * math.radians(20.0)) for one in values]
    if fault == "frequency":
        frequencies[9] += 0.1
    found = circle_of_points(
        tuple(ResponsePoint(f, v.real, v.imag) for f, v in zip(frequencies, values, strict=True)),
        "mobility" if fault == "velocity" else "receptance",
    )

    if fault == "none":
        assert found.remark == GOOD_CIRCLE
        assert found.damping_ratio == pytest.approx(0.03, rel=1e-6)
        assert circle_mode(found) == (found,)
    else:
        assert "not lie at the frequencies of one mode" in found.remark
        assert circle_mode(found) == ()
    if fault == "velocity":
        assert found.damping_ratio > 2.0 * 0.03


def test_circle_says_what_it_is_made_of() -> None:
    """A short arc and points of two modes are said; points beside resonance are refused."""

    def points(frequencies: list[float], other: float = 0.0) -> tuple[ResponsePoint, ...]:
        values = [receptance(f, 3.0, 0.03) + other * receptance(f, 3.15, 0.02) for f in frequencies]
        return tuple(
            ResponsePoint(f, v.real, v.imag) for f, v in zip(frequencies, values, strict=True)
        )

    assert "less than half" in circle_of_points(points([2.95 + 0.02 * n for n in range(6)])).remark
    two = circle_of_points(points([2.8 + 0.02 * n for n in range(25)], 0.8))
    assert "no circle" in two.remark
    with pytest.raises(ValueError, match="through a resonance"):
        circle_of_points(points([3.2 + 0.02 * n for n in range(6)]))
    with pytest.raises(ValueError, match="make no circle"):
        circle_fit([1.0, 2.0, 3.0, 4.0, 5.0], [complex(n) for n in range(5)])
    with pytest.raises(ValueError, match="5 points"):
        circle_fit([1.0, 2.0], [1.0, 2.0])


def test_exponential_window_adds_its_own_decay() -> None:
    """A mode times the window decays by the sum of both rates."""
    growth, natural, constant = -0.4, 3.0, 8.0
    both = -growth + 1.0 / constant

    assert window_damping(natural, constant) == pytest.approx((both + growth) / (TWO_PI * natural))


def test_half_power_frequencies_must_rise() -> None:
    """Two equal ones, or the upper one first, are refused."""
    with pytest.raises(ValueError, match="must be above the lower one"):
        half_power(3.0, 3.0)
    with pytest.raises(ValueError, match="must be above the lower one"):
        half_power_frequency(3.1, 3.0)
