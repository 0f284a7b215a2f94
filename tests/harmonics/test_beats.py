"""Beats against hand calculation, sampled signals and closed forms."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.harmonics.beats import beat, beat_chart, beat_envelope, beat_frequency

PERIODS = {(17.2, 17.9): "1.4286", (19.83, 20.0): "5.882", (4.30, 4.25): "20.0"}


@pytest.mark.parametrize(("frequencies", "period"), PERIODS.items())
def test_beat_period(frequencies: tuple[float, float], period: str) -> None:
    """By hand, one over the difference."""
    found = beat(*frequencies)

    assert found is not None
    assert f"{found.beat_period:.{len(period.partition('.')[2])}f}" == period


def test_identical_rotors_at_different_speeds() -> None:
    """Blade passage of two alike rotors beats at the blade count times the speed difference."""
    assert beat_frequency(3 * 225 / 60, 3 * 224 / 60) == pytest.approx(3 * 1 / 60)


def test_the_envelope_holds_the_sampled_sum() -> None:
    """No sample of the two lines leaves the envelope, and one in every cycle comes near it."""
    first, second = 19.83, 20.0
    nearest = []
    for cycle in range(200):
        times = [(cycle + step / 40) / second for step in range(40)]
        rooms = [
            beat_envelope(1.0, 0.6, second - first, t)
            - (math.cos(2 * math.pi * first * t) + 0.6 * math.cos(2 * math.pi * second * t))
            for t in times
        ]
        nearest.append(min(rooms))

    assert min(nearest) > -1e-9
    assert max(nearest) < 0.02


def test_equal_frequencies_do_not_beat() -> None:
    """Two lines of one frequency have no beat, and a beat frequency of zero."""
    assert beat_frequency(20.0, 20.0) == 0.0
    assert beat(20.0, 20.0) is None


@given(st.floats(0.1, 1e4), st.floats(0.1, 1e4))
def test_order_does_not_matter(first: float, second: float) -> None:
    """Either line may be named first."""
    assert beat_frequency(first, second) == beat_frequency(second, first)


@given(st.floats(0.0, 1e3), st.floats(0.0, 1e3), st.floats(0.01, 10.0), st.floats(0.0, 100.0))
def test_envelope_stays_between_difference_and_sum(
    first: float, second: float, frequency: float, time: float
) -> None:
    """The amplitude lies between the difference and the sum of the two."""
    found = beat_envelope(first, second, frequency, time)

    assert abs(first - second) - 1e-4 <= found <= first + second + 1e-4


def _peaks(bins: float, ratio: float, phase: float, offset: float) -> list[float]:
    """Return where the spectrum of two lines under a Hann window peaks, in bins from the first.

    Zero padding to an eighth of a bin draws the spectrum between its bins.
    """
    samples, padding, first = 512, 8, 60.0 + offset
    time = np.arange(samples) / samples
    signal = np.cos(2 * np.pi * first * time)
    signal += ratio * np.cos(2 * np.pi * (first + bins) * time + phase)
    window = 0.5 - 0.5 * np.cos(2 * np.pi * time)
    heights = np.abs(np.fft.rfft(signal * window, padding * samples))
    is_peak = (heights[1:-1] > heights[:-2]) & (heights[1:-1] >= heights[2:])
    is_high = heights[1:-1] > 0.5 * ratio * heights.max()
    places = (np.flatnonzero(is_peak & is_high) + 1) / padding - first
    return [float(place) for place in places if -bins < place < 2.0 * bins]


PHASES = [2.0 * math.pi * step / 24 for step in range(24)]


@pytest.mark.parametrize("ratio", [1.0, 0.75, 0.5, 0.25])
@pytest.mark.parametrize("offset", [0.0, 0.3, 0.5])
def test_three_bins_show_two_lines_at_every_phase(ratio: float, offset: float) -> None:
    """With the record of the form, a Hann window shows two peaks, each within half a bin."""
    found = beat(20.0, 20.0 + 1.0 / 6.0)
    assert found is not None
    bins = found.record_length * found.beat_frequency

    for phase in PHASES:
        first, second = _peaks(bins, ratio, phase, offset)
        assert first == pytest.approx(0.0, abs=0.5)
        assert second == pytest.approx(bins, abs=0.5)


def test_two_bins_do_not() -> None:
    """With 2/3 of that record a quarter of the phases of lines of 0.12 and 0.09 show one peak."""
    single = [phase for phase in PHASES if len(_peaks(2.0, 0.75, phase, 0.0)) == 1]

    assert len(single) >= len(PHASES) // 6


def test_chart_spans_the_record_that_separates() -> None:
    """The figure ends where two lines become two."""
    table = beat_chart(19.83, 20.0).table()

    assert float(table[-1][0]) == pytest.approx(3.0 / 0.17, rel=1e-3)


def test_impossible_frequencies_are_named() -> None:
    """A frequency of zero is refused by its label."""
    with pytest.raises(ValueError, match="First frequency must be above 0 Hz, not 0 Hz"):
        beat_frequency(0.0, 1.0)
    with pytest.raises(
        ValueError, match="Spacing of the two lines, in bins of the spectrum must be at least 1"
    ):
        beat(1.0, 2.0, line_width=0.5)
