"""Beats against hand calculation, sampled signals and closed forms."""

import math

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


def test_chart_spans_the_record_that_separates() -> None:
    """The figure ends where two lines become two."""
    table = beat_chart(19.83, 20.0).table()

    assert float(table[-1][0]) == pytest.approx(2.0 / 0.17, rel=1e-3)


def test_impossible_frequencies_are_named() -> None:
    """A frequency of zero is refused by its label."""
    with pytest.raises(ValueError, match="First frequency must be above 0 Hz, not 0 Hz"):
        beat_frequency(0.0, 1.0)
    with pytest.raises(ValueError, match="Line width of the window, in bins must be at least 1"):
        beat(1.0, 2.0, line_width=0.5)
