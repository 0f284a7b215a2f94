"""Spectra against SciPy, records of known content, random noise and closed forms."""

import math

import numpy as np
import pytest
from scipy import optimize, signal

from calc.measurement import lines, peaks, resolution, spectrum
from calc.measurement.quantities import WINDOWS
from calc.measurement.synthetic import noise
from tests.measurement.test_windows import SCIPY

RATE = 200.0


def tone(
    frequency: float, amplitude: float = 1.0, phase: float = 0.0, samples: int = 1000
) -> list[float]:
    """Return a sampled cosine."""
    turn = 2.0 * math.pi * frequency / RATE
    return [amplitude * math.cos(turn * n + phase) for n in range(samples)]


@pytest.mark.parametrize("window", WINDOWS)
@pytest.mark.parametrize("samples", [300, 301])
def test_lines_are_those_of_scipy(window: str, samples: int) -> None:
    """SciPy, signal.periodogram with its spectrum scale, which is in squared rms values."""
    record = np.random.default_rng(samples).normal(0.3, 1.0, samples)
    frequencies, squares = signal.periodogram(
        record, RATE, SCIPY[window], detrend=False, scaling="spectrum"
    )
    peak = np.sqrt(2.0 * squares)
    peak[0] /= math.sqrt(2.0)
    if samples % 2 == 0:
        peak[-1] /= math.sqrt(2.0)
    found = spectrum.amplitude_spectrum(record.tolist(), RATE, window)

    assert found.frequencies == pytest.approx(frequencies)
    assert found.amplitudes == pytest.approx(peak, rel=1e-9, abs=1e-12)


def test_line_of_a_tone_between_lines() -> None:
    """Shared reference, own calculation: 1.0 at 17.1 Hz between lines 85 and 86 of 1000 samples."""
    read = {
        "rectangular": (0.6349, 0.6384),
        "hann": (0.8488, 0.8488),
        "flat_top": (0.9989, 0.9989),
    }
    for window, expected in read.items():
        found = spectrum.amplitude_spectrum(tone(17.1, phase=0.5), RATE, window)
        assert found.amplitudes[85:87] == pytest.approx(expected, abs=5e-5)


def test_phase_is_a_lead_of_the_cosine_at_the_first_sample() -> None:
    """A sine lags a cosine by a quarter of a turn; a line is counted from its peak, not its rms."""
    record = [2.0 * math.sin(2.0 * math.pi * 20.0 * n / RATE) for n in range(1000)]
    found = spectrum.amplitude_spectrum(record, RATE)

    assert found.amplitudes[100] == pytest.approx(2.0, rel=1e-12)
    assert found.phases[100] == pytest.approx(-0.5 * math.pi, abs=1e-12)


def test_mean_and_highest_line_have_no_twin() -> None:
    """A mean of 3 and an alternation of 2 read 3 and 2, not twice as much."""
    found = spectrum.amplitude_spectrum([3.0 + 2.0 * (-1) ** n for n in range(64)], RATE, "hann")

    assert (found.amplitudes[0], found.amplitudes[-1]) == pytest.approx((3.0, 2.0), rel=1e-12)


@pytest.mark.parametrize("window", WINDOWS)
@pytest.mark.parametrize(("block", "overlap"), [(128, 0.5), (125, 0.75), (100, 0.0)])
def test_density_is_that_of_scipy(window: str, block: int, overlap: float) -> None:
    """SciPy, signal.welch without detrending, over whole blocks."""
    record = np.random.default_rng(block).normal(0.3, 1.0, 1700)
    step = round(block * (1.0 - overlap))
    _, density = signal.welch(
        record, RATE, SCIPY[window], block, block - step, detrend=False, scaling="density"
    )
    found = spectrum.power_density(record.tolist(), RATE, block, window, overlap)

    assert found.densities == pytest.approx(density, rel=1e-9)
    assert found.blocks == (1700 - block) // step + 1


@pytest.mark.parametrize("window", WINDOWS)
def test_band_holds_the_rms_of_its_tone(window: str) -> None:
    """A tone of 2 has an rms of the root of 2, wherever between lines it lies; others are out."""
    record = [a + b for a, b in zip(tone(17.13, 2.0), tone(60.0, 5.0), strict=True)]
    widest = 0.02 if window == "rectangular" else 1e-3

    found = spectrum.band_rms(record, RATE, 15.0, 20.0, window)
    assert found == pytest.approx(math.sqrt(2.0), rel=widest)
    whole = spectrum.band_rms(record, RATE, 0.0, 100.0, window)
    assert whole == pytest.approx(math.sqrt(2.0 + 12.5), rel=1e-2 if window == "hann" else 0.05)


@pytest.mark.parametrize("window", WINDOWS)
@pytest.mark.parametrize("samples", [200, 1000, 1001])
def test_tone_between_lines_is_found_to_rounding(window: str, samples: int) -> None:
    """Frequency, amplitude and phase, all along the lines and near the ends of the spectrum."""
    spacing = RATE / samples
    for step in range(40):
        place = 6.0 + step * (0.5 * samples - 12.0) / 39.0
        record = tone(place * spacing, 2.0, 0.1 * step - 2.0, samples)
        found = spectrum.peak_near(record, RATE, place * spacing + 0.9 * spacing, window)

        assert found.frequency == pytest.approx(place * spacing, abs=1e-6 * spacing)
        assert found.amplitude == pytest.approx(2.0, rel=1e-6)
        assert found.phase == pytest.approx(0.1 * step - 2.0, abs=1e-6)


@pytest.mark.parametrize("window", WINDOWS)
def test_tone_in_noise_is_found_as_least_squares_finds_it(window: str) -> None:
    """SciPy, optimize.least_squares, fits the cosine to the samples; noise of 0.1 rms."""
    record = np.array(tone(17.134, 1.5, 0.7)) + np.array(noise(1000, 0.1))
    time = np.arange(1000) / RATE
    fitted = optimize.least_squares(
        lambda p: p[1] * np.cos(2.0 * np.pi * p[0] * time + p[2]) - record, [17.13, 1.4, 0.6]
    ).x
    found = spectrum.peak_near(record.tolist(), RATE, 17.0, window)

    assert found.frequency == pytest.approx(fitted[0], abs=0.005)
    assert found.amplitude == pytest.approx(fitted[1], abs=0.03)
    assert found.phase == pytest.approx(fitted[2], abs=0.06)


def test_peaks_of_a_record() -> None:
    """Three tones in noise and no fourth, by frequency; one midway between lines is not missed."""
    tones = ((6.0, 0.35), (24.1, 1.6), (31.3, 0.5))
    record = np.array(noise(1000, 0.05)) + sum(np.array(tone(*pair)) for pair in tones)
    for window in ("hann", "flat_top", "blackman_harris"):
        found = spectrum.pick_peaks(record.tolist(), RATE, 0.3, window)

        assert [peak.frequency for peak in found] == pytest.approx([6.0, 24.1, 31.3], abs=0.02)
        assert [peak.amplitude for peak in found] == pytest.approx([0.35, 1.6, 0.5], abs=0.02)
    midway = spectrum.pick_peaks(tone(17.1, 1.0), RATE, 0.99)
    assert [peak.amplitude for peak in midway] == pytest.approx([1.0], rel=1e-6)


@pytest.mark.parametrize("window", WINDOWS)
def test_mean_is_no_tone(window: str) -> None:
    """A mean of 10 that the window spreads over the first lines hides no tone and makes none."""
    for place in (3.3, 7.5, 20.0):
        record = [10.0 + x for x in tone(place * RATE / 1000.0, 1.0, 0.4)]
        (found,) = spectrum.pick_peaks(record, RATE, 0.9, window)

        assert found.frequency == pytest.approx(place * RATE / 1000.0, abs=1e-6)
        assert (found.amplitude, found.phase) == pytest.approx((1.0, 0.4), rel=1e-4)


def test_tone_at_half_the_sample_rate() -> None:
    """The last line is what it reads."""
    found = spectrum.pick_peaks([3.0 + 2.0 * (-1) ** n for n in range(64)], RATE, 1.9)

    assert [peak.frequency for peak in found] == [100.0]
    assert [peak.amplitude for peak in found] == pytest.approx([2.0])


@pytest.mark.parametrize("window", WINDOWS)
def test_two_equal_lines_are_told_apart_at_the_sure_length(window: str) -> None:
    """At 1.5 widths every phase shows a dip between two peaks; at one width some do not."""

    def dips(widths: float, phase: float) -> bool:
        distance = widths * spectrum.told_apart(10.0, 11.0, 5.0, window).half_amplitude_width  # type: ignore[union-attr]
        chart = spectrum.told_apart_chart(10.0, 10.0 + distance, 1.0, window)
        curve = chart.marks[2 + round(phase / math.pi * 2.0)].points  # type: ignore[union-attr]
        middle = min(curve, key=lambda point: abs(point[0] - 10.0 - 0.5 * distance))[1]
        return bool(middle < 0.95 * max(value for _, value in curve))

    assert all(dips(1.5, phase) for phase in (0.0, 0.5 * math.pi, math.pi))
    assert not dips(0.9, 0.0)


@pytest.mark.parametrize(
    ("record_length", "verdict"),
    [(19.9, resolution.NOT_APART), (20.1, resolution.AT_SOME_PHASES), (30.1, resolution.APART)],
)
def test_verdict_on_two_lines(record_length: float, verdict: str) -> None:
    """By hand: with a Hann window lines 0.1 Hz apart take 2 lines, 20 s, and 30 s to be sure."""
    found = spectrum.told_apart(24.0, 24.1, record_length)

    assert found is not None
    assert found.verdict == verdict
    assert found.lines_between == pytest.approx(0.1 * record_length)
    assert (found.least_length, found.sure_length) == pytest.approx((20.0, 30.0))
    assert spectrum.told_apart(24.0, 24.0, record_length) is None


def test_speeds_two_rpm_apart() -> None:
    """By hand: 1/rev of 258 and 260 rpm lie 1/30 Hz apart: 60 s, and 15 s at 4/rev."""
    assert spectrum.record_length_to_separate(2.0 / 60.0) == pytest.approx(60.0)
    two_rpm = 2.0 * math.pi * 2.0 / 60.0
    assert spectrum.smallest_speed_difference(60.0, 1.0) == pytest.approx(two_rpm)
    assert spectrum.smallest_speed_difference(15.0, 4.0) == pytest.approx(two_rpm)


@pytest.mark.parametrize(("window", "overlap"), [("hann", 0.5), ("hann", 0.75), ("flat_top", 0.5)])
def test_averages_are_what_random_records_show(window: str, overlap: float) -> None:
    """Many records of noise: the scatter of their density is that of so many averages."""
    draw = np.random.default_rng(3)
    block, step = 64, round(64 * (1.0 - overlap))
    samples = block + 15 * step
    found = [
        spectrum.power_density(draw.normal(size=samples).tolist(), 1.0, block, window, overlap)
        for _ in range(400)
    ]
    inner = np.array([one.densities[8:-8] for one in found])
    scatter = inner.std(axis=0) / inner.mean(axis=0)
    expected = spectrum.random_error(spectrum.equivalent_averages(16, overlap, window))

    assert scatter.mean() == pytest.approx(expected, rel=0.03)


def test_more_overlap_of_one_record_buys_little() -> None:
    """By hand: half-overlapped Hann blocks lose 1/36 of two neighbours; 75 % buys under a tenth."""
    assert spectrum.equivalent_averages(10, 0.5) == pytest.approx(10.0 / (1.0 + 1.8 / 36.0))
    half, three_quarters = (
        spectrum.averaged_blocks(blocks, overlap, "hann")
        for blocks, overlap in ((31, 0.5), (61, 0.75))
    )
    assert half.record_in_blocks == three_quarters.record_in_blocks == 16.0
    assert 1.05 < three_quarters.equivalent_averages / half.equivalent_averages < 1.1
    assert half.density_error == pytest.approx(half.equivalent_averages**-0.5)


def test_response_error_is_what_random_records_show() -> None:
    """Many measured responses with a coherence of 0.8 scatter so much in amplitude and phase."""
    draw = np.random.default_rng(5)
    shape = (4000, 75)
    force = draw.normal(size=shape) + 1j * draw.normal(size=shape)
    dirt = draw.normal(size=shape) + 1j * draw.normal(size=shape)
    response = force + 0.5 * dirt  # a coherence of 1 / (1 + 0.25)
    measured = (force.conj() * response).sum(axis=1) / (abs(force) ** 2).sum(axis=1)
    expected = spectrum.frf_random_error(0.8, 75.0)

    assert abs(measured).std() == pytest.approx(expected, rel=0.05)
    assert np.angle(measured).std() == pytest.approx(expected, rel=0.05)


@pytest.mark.parametrize("frequency", [27.0, 73.0, 127.0, 227.0, 412.5, 1033.0])
def test_sampled_tone_stands_where_its_alias_is_said_to(frequency: float) -> None:
    """A sampled cosine peaks at its alias, and stands among the candidates behind that line."""
    seen = spectrum.aliased_frequency(frequency, RATE)
    found = spectrum.peak_near(tone(frequency, samples=2000), RATE, seen)

    assert found.frequency == pytest.approx(seen, abs=1e-6)
    assert found.amplitude == pytest.approx(1.0, rel=1e-6)
    assert any(
        candidate == pytest.approx(frequency)
        for candidate in spectrum.alias_candidates(seen, RATE, 1100.0)
    )


def test_candidates_behind_a_line() -> None:
    """By hand: 27 Hz at 200 Hz; at both ends two candidates are one; odd folds turn round."""
    assert spectrum.alias_candidates(27.0, 200.0, 430.0) == [27.0, 173.0, 227.0, 373.0, 427.0]
    assert spectrum.alias_candidates(0.0, 200.0, 450.0) == [0.0, 200.0, 400.0]
    assert spectrum.alias_candidates(100.0, 200.0, 350.0) == [100.0, 300.0]
    assert spectrum.alias_candidates(0.15, 0.3, 1.1) == pytest.approx([0.15, 0.45, 0.75, 1.05])
    for seen in (0.0, 27.0, 100.0):
        for row in spectrum.candidates(seen, 200.0, 430.0):
            rise = spectrum.aliased_frequency(row.frequency + 1.0, 200.0) - seen
            assert rise == (1.0 if row.move == "same" else -1.0)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: spectrum.amplitude_spectrum([1.0], RATE), "Number of samples of the record"),
        (lambda: spectrum.amplitude_spectrum([1.0, math.nan], RATE), "samples must be finite"),
        (lambda: spectrum.amplitude_spectrum([1.0] * 4, 0.0), "Sample rate must be above 0 Hz"),
        (lambda: spectrum.amplitude_spectrum([1.0] * 4, RATE, "none"), "Window must be one of"),
        (lambda: spectrum.power_density([1.0] * 4, RATE, 8), "must hold a block of 8 samples"),
        (lambda: spectrum.band_rms([1.0] * 4, RATE, 20.0, 10.0), "A band must rise"),
        (lambda: spectrum.band_rms([1.0] * 4, RATE, 10.0, 20.0), "narrower than a line"),
        (lambda: spectrum.peak_near([1.0] * 4, RATE, 900.0), "No line of the spectrum"),
        (lambda: spectrum.pick_peaks([1.0] * 4, RATE, 0.0), "threshold must be above zero"),
        (lambda: spectrum.alias_candidates(150.0, 200.0, 900.0), "at most half the sample rate"),
        (lambda: spectrum.alias_candidates(50.0, 1.0, 900.0), "at most half the sample rate"),
        (lambda: spectrum.alias_candidates(0.5, 1.0, 900.0), "at most 100 times the sample rate"),
    ],
)
def test_impossible_requests_are_named(call: object, message: str) -> None:
    """What cannot be computed is refused in words."""
    with pytest.raises(ValueError, match=message):
        call()  # type: ignore[operator]


def test_threshold_in_the_noise_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where more peaks than are looked at reach the threshold, it is said to be too low."""
    monkeypatch.setattr(peaks, "MOST_PEAKS", 50)
    with pytest.raises(ValueError, match="More than 50 peaks reach the threshold: raise it"):
        spectrum.pick_peaks(list(noise(2000, 1.0)), RATE, 1e-6)
    assert lines.MOST_SAMPLES == 4_194_304
