"""Radau IIA points and weights."""

import pytest

from calc.numeric.collocation import POINTS, double_weights, weights


def test_collocation_integrates_polynomials() -> None:
    """Radau IIA: the last row is exact to the sixth degree, each row to the third."""
    for degree in range(7):
        whole = sum(w * point**degree for w, point in zip(weights()[-1], POINTS, strict=True))
        assert whole == pytest.approx(1.0 / (degree + 1), rel=1e-13)
    for row, end in zip(weights(), POINTS, strict=True):
        part = sum(w * point**3 for w, point in zip(row, POINTS, strict=True))
        assert part == pytest.approx(end**4 / 4.0, rel=1e-12)


def test_double_weights_integrate_twice() -> None:
    """The square of the weights takes x to the cube of the end over six, exactly."""
    for row, end in zip(double_weights(), POINTS, strict=True):
        part = sum(w * point for w, point in zip(row, POINTS, strict=True))
        assert part == pytest.approx(end**3 / 6.0, rel=1e-12)
