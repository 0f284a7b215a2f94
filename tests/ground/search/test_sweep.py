"""Sweep over rotor speed on curves whose answers are known."""

import math

import pytest

from calc.ground.search import sweep


def test_bands_of_a_sine() -> None:
    """Above a half the sine lies between 30 and 150 degrees."""
    found = sweep.unstable_bands(math.sin, sweep.samples(math.sin, 0.0, 8.0), 0.5)

    assert found[0] == pytest.approx((math.pi / 6.0, 5.0 * math.pi / 6.0), rel=1e-9)
    assert found[1] == pytest.approx((13.0 * math.pi / 6.0, 8.0), rel=1e-9)


def test_a_peak_between_samples_is_found() -> None:
    """A band a hundredth as wide as the spacing of the samples, on a curve that bends to it."""

    def curve(speed: float) -> float:
        return 1e-3 - abs(speed - 5.0123)

    ((low, high),) = sweep.unstable_bands(curve, sweep.samples(curve, 0.0, 10.0, points=11), 0.0)
    assert (low, high) == pytest.approx((5.0113, 5.0133), abs=1e-8)


def test_a_gap_between_samples_is_found() -> None:
    """A stable gap between two bands, much narrower than the spacing of the samples."""

    def curve(speed: float) -> float:
        return abs(speed - 5.0123) - 1e-3

    found = sweep.unstable_bands(curve, sweep.samples(curve, 0.0, 10.0, points=11), 0.0)
    assert [round(edge, 4) for band in found for edge in band] == [0.0, 5.0113, 5.0133, 10.0]


def test_noise_is_not_a_band() -> None:
    """Growth that rounding makes is not reported."""

    def curve(speed: float) -> float:
        return 1e-12 * math.sin(1e3 * speed)

    assert sweep.unstable_bands(curve, sweep.samples(curve, 1.0, 10.0), sweep.NOISE) == ()
    assert sweep.unstable_bands(curve, sweep.samples(curve, 1.0, 10.0), 0.0) == ()


def test_peak_of_a_parabola() -> None:
    """The highest point, between samples and at an end."""

    def curve(speed: float) -> float:
        return 2.0 - (speed - 3.3) ** 2

    assert sweep.peak(curve, sweep.samples(curve, 0.0, 10.0, points=11)) == pytest.approx((3.3, 2))
    assert sweep.peak(curve, sweep.samples(curve, 4.0, 9.0)) == pytest.approx((4.0, curve(4.0)))
