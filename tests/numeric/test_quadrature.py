"""Quadrature: Gauss's points and weights against NumPy."""

import numpy as np
import pytest

from calc.numeric.quadrature import gauss


@pytest.mark.parametrize("count", [1, 2, 7, 24])
def test_points_and_weights_are_those_of_numpy(count: int) -> None:
    """NumPy finds the same rule by the eigenvalues of a matrix."""
    points, weights = zip(*gauss(count), strict=True)
    expected_points, expected_weights = np.polynomial.legendre.leggauss(count)

    assert points == pytest.approx(expected_points, abs=1e-14)
    assert weights == pytest.approx(expected_weights, rel=1e-12)
