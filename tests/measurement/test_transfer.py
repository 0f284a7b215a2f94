"""Transfer: SciPy's averages as a second opinion, and a simulated oscillator stirred by a stick."""

import math
from functools import lru_cache

import numpy as np
import pytest
import scipy.signal
from numpy.typing import NDArray

from calc.measurement.apparent_bandwidth import (
    response_bandwidth_ratio,
    true_bandwidth_time,
    true_circle_bandwidth,
)
from calc.measurement.circle import circle_fit
from calc.measurement.transfer import frequency_response, half_power_points

RATE = 50.0
MODES = ((2.8, 0.04, 1.0), (7.5, 0.02, 0.6))
"""Natural frequency in Hz, damping ratio and modal gain of an invented airframe of two modes."""


def exact(frequency: float, power: int) -> complex:
    """Return the response of both modes; power 0 is a receptance, 2 an accelerance."""
    s = 2j * math.pi * frequency
    return sum(
        s**power * gain / (s**2 + 4.0 * math.pi * ratio * natural * s + (math.tau * natural) ** 2)
        for natural, ratio, gain in MODES
    )


@lru_cache
def stirred(seconds: float, seed: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return a random stick and the acceleration that SciPy simulates, at RATE.

    The stick is simulated five times as fast and has next to nothing above 12 Hz.
    """
    random = np.random.default_rng(seed)
    fast = 5.0 * RATE
    low = scipy.signal.butter(6, 12.0, fs=fast, output="sos")
    stick = scipy.signal.sosfilt(low, random.standard_normal(round(seconds * fast)))
    return _answered(stick, fast)


@lru_cache
def shaken(seconds: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return a sine of 2.4 Hz that rises by 0.05 Hz every 25 s, and the acceleration, at RATE."""
    fast = 5.0 * RATE
    times = np.arange(round(seconds * fast)) / fast
    frequencies = 2.4 + 0.05 * np.floor(times / 25.0)
    return _answered(np.sin(np.cumsum(math.tau * frequencies / fast)), fast)


def _answered(
    stick: NDArray[np.float64], fast: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return every fifth sample of a stick and of the acceleration that SciPy simulates."""
    times = np.arange(len(stick)) / fast
    answer = np.zeros(len(stick))
    for natural, ratio, gain in MODES:
        wn = math.tau * natural
        system = ([gain, 0.0, 0.0], [1.0, 2.0 * ratio * wn, wn**2])
        answer += scipy.signal.lsim(system, stick, times)[1]
    return stick[::5], answer[::5]


@pytest.mark.parametrize(
    ("window", "block", "overlap"), [("hann", 256, 0.5), ("hamming", 175, 0.2)]
)
def test_average_is_that_of_scipy(window: str, block: int, overlap: float) -> None:
    """H1, coherence and blocks as SciPy's csd, welch and coherence give them, at every line."""
    stick, answer = stirred(60.0, 1)
    answer = answer + np.random.default_rng(2).normal(0.0, 0.3 * answer.std(), len(answer))
    found = frequency_response(stick.tolist(), answer.tolist(), RATE, block, window, overlap)
    step = round(block * (1.0 - overlap))
    taken = {
        "fs": RATE,
        "window": window,
        "nperseg": block,
        "noverlap": block - step,
        "detrend": False,
    }
    frequencies, cross = scipy.signal.csd(stick, answer, **taken)
    wanted = cross / scipy.signal.welch(stick, **taken)[1]
    coherences = scipy.signal.coherence(stick, answer, **taken)[1]

    assert found.frequencies == pytest.approx(frequencies.tolist())
    assert np.allclose(found.responses, wanted, rtol=1e-7, atol=1e-9 * abs(wanted).max())
    assert found.coherences == pytest.approx(coherences.tolist(), abs=1e-9)
    starts = range(0, len(stick) - block + 1, step)
    assert found.averages == len(starts)


def test_stick_stir_with_noise_gives_the_accelerance() -> None:
    """Noise in the response alone scatters by the random error and lowers no amplitude.

    The mean of the ratio to the exact response over the lines stays within four of its errors,
    counted as if only every fourth line were independent.
    """
    stick, answer = stirred(400.0, 3)
    noisy = answer + np.random.default_rng(4).normal(0.0, answer.std(), len(answer))
    found = frequency_response(stick.tolist(), noisy.tolist(), RATE, 2000)
    inside = [n for n, f in enumerate(found.frequencies) if 2.0 <= f <= 10.0]
    ratios = [found.responses[n] / exact(found.frequencies[n], 2) for n in inside]
    errors = [
        math.sqrt((1.0 - c) / (2.0 * c * found.averages)) for c in np.take(found.coherences, inside)
    ]
    weights = np.array(errors) ** -2
    mean = np.average(ratios, weights=weights)
    error = 2.0 / math.sqrt(weights.sum())

    assert min(np.take(found.coherences, inside)) < 0.8
    assert abs(mean - 1.0) < 4.0 * error < 0.06


def test_half_power_points_are_those_of_the_mode() -> None:
    """Between coarse lines of an exact receptance: f² = fn² (1 - 2ζ² ∓ 2ζ sqrt(1 - ζ²))."""
    ratio = 0.04
    lines = [2.0 + 0.093 * n for n in range(20)]
    found = half_power_points(
        lines, [1.0 / complex(2.8**2 - f * f, 2.0 * ratio * 2.8 * f) for f in lines]
    )
    middle, half = 1.0 - 2.0 * ratio**2, 2.0 * ratio * math.sqrt(1.0 - ratio**2)

    assert found == pytest.approx(
        (2.8 * math.sqrt(middle - half), 2.8 * math.sqrt(middle + half)), rel=1e-9
    )


@pytest.mark.parametrize(("lines", "window"), [(3.0, "hann"), (6.0, "hann"), (3.0, "boxcar")])
def test_width_of_the_window_is_that_of_the_mean_cross_spectrum(lines: float, window: str) -> None:
    """The mean is the impulse response times the window's autocorrelation, here by SciPy's FFT.

    The modulated impulse response of a mode about its own frequency, 4096 samples a block.
    """
    size = 4096
    weights = scipy.signal.get_window(window, size)
    lags = scipy.signal.correlate(weights, weights, method="fft")[size - 1 :]
    memory = np.exp(-math.pi * lines * np.arange(size) / size)
    kernel = memory * lags
    kernel[0] *= 0.5
    spectrum = abs(np.fft.rfft(kernel, 256 * size))
    edge = np.argmax(spectrum < spectrum[0] / math.sqrt(2.0)) / 256.0
    name = {"boxcar": "rectangular"}.get(window, window)

    assert response_bandwidth_ratio(lines, name) == pytest.approx(2.0 * edge / lines, abs=0.004)
    freed = true_bandwidth_time(2.0 * edge, name, response_bandwidth_ratio)
    assert freed == pytest.approx(lines, rel=0.005)


@pytest.mark.parametrize(("lines", "window"), [(3.0, "hann"), (6.0, "hann"), (3.0, "boxcar")])
def test_width_of_the_window_is_taken_off_a_circle(lines: float, window: str) -> None:
    """A response widened by SciPy's autocorrelation reads wide by its circle; freed, it is right.

    Impulse response of a mode of 60 cycles a block, 4096 samples, read at the lines about it.
    """
    size, middle = 4096, 60.0
    weights = scipy.signal.get_window(window, size)
    lags = scipy.signal.correlate(weights, weights, method="fft")[size - 1 :]
    times = np.arange(size) / size
    kernel = np.exp(-math.pi * lines * times) * np.cos(math.tau * middle * times) * lags
    kernel[0] *= 0.5
    places = [float(line) for line in range(50, 71)]
    response = [complex(np.exp(-2j * math.pi * line * times) @ kernel) for line in places]
    fit = circle_fit(places, response)
    seen = 2.0 * fit.damping_ratio * fit.frequency
    name = {"boxcar": "rectangular"}.get(window, window)
    freed = true_circle_bandwidth(seen, name, fit.frequency, places)

    assert seen > 1.03 * lines
    assert freed == pytest.approx(lines, rel=0.01)
    assert true_circle_bandwidth(0.3, name, fit.frequency, places) is None


def test_refusals() -> None:
    """One block has no coherence; records of other lengths, a still stick, no peak in the band."""
    flat = [0.0] * 100
    moved = [math.sin(n) for n in range(100)]
    with pytest.raises(ValueError, match="coherence of one block is 1"):
        frequency_response(moved, moved, RATE, 80)
    with pytest.raises(ValueError, match="as many samples"):
        frequency_response(moved, moved[1:], RATE, 20)
    with pytest.raises(ValueError, match="zero throughout"):
        frequency_response(flat, moved, RATE, 20)
    with pytest.raises(ValueError, match="too many blocks"):
        frequency_response(moved * 1000, moved * 1000, RATE, 400, "hann", 0.99)
    with pytest.raises(ValueError, match="no peak"):
        half_power_points([1.0, 2.0, 3.0], [1.0, 2.0, 3.0])
    with pytest.raises(ValueError, match=r"0\.707"):
        half_power_points([1.0, 2.0, 3.0], [1.9, 2.0, 1.9])
