"""Radau IIA points and weights, and the small matrices they are used with."""

import pytest

from calc.ground.collocation import POINTS, inverse, product, weights


def test_collocation_integrates_polynomials() -> None:
    """Radau IIA: the last row is exact to the sixth degree, each row to the third."""
    for degree in range(7):
        whole = sum(w * point**degree for w, point in zip(weights()[-1], POINTS, strict=True))
        assert whole == pytest.approx(1.0 / (degree + 1), rel=1e-13)
    for row, end in zip(weights(), POINTS, strict=True):
        part = sum(w * point**3 for w, point in zip(row, POINTS, strict=True))
        assert part == pytest.approx(end**4 / 4.0, rel=1e-12)


def test_inverse_of_a_small_matrix() -> None:
    """A matrix times its inverse is one, with a zero on the diagonal."""
    matrix = [[0.0, 2.0, 1.0], [1.0, 1.0, 0.0], [3.0, 0.0, 1.0]]

    for i, row in enumerate(product(matrix, inverse(matrix))):
        assert row == pytest.approx([float(i == j) for j in range(3)], abs=1e-15)
