"""Small matrices against numpy."""

import numpy as np
import pytest

from calc.numeric.matrix import inverse, null_vector, product

DRAW = np.random.default_rng(5)


def test_product_and_inverse() -> None:
    """Numpy, random matrices; one that needs its rows exchanged."""
    left, right = DRAW.uniform(-1.0, 1.0, (3, 5)), DRAW.uniform(-1.0, 1.0, (5, 2))
    assert np.array(product(left.tolist(), right.tolist())) == pytest.approx(left @ right)
    square = DRAW.uniform(-1.0, 1.0, (6, 6))
    assert np.array(inverse(square.tolist())) == pytest.approx(np.linalg.inv(square), rel=1e-10)
    exchanged = [[0.0, 2.0, 1.0], [1.0, 1.0, 0.0], [3.0, 0.0, 1.0]]
    assert np.array(inverse(exchanged)) @ exchanged == pytest.approx(np.eye(3), abs=1e-15)


@pytest.mark.parametrize("size", [2, 5, 9])
def test_null_vector_of_a_singular_matrix(size: int) -> None:
    """A complex matrix less one of its eigenvalues turns the eigenvector of numpy to zero."""
    matrix = DRAW.uniform(-1.0, 1.0, (size, size)) + 1j * DRAW.uniform(-1.0, 1.0, (size, size))
    values, vectors = np.linalg.eig(matrix)
    found = np.array(null_vector((matrix - values[0] * np.eye(size)).tolist()))

    likeness = abs(np.vdot(found, vectors[:, 0])) / np.linalg.norm(found)
    assert likeness == pytest.approx(1.0, abs=1e-9)
