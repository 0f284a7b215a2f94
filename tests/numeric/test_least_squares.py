"""Least squares against NumPy's, on equations of every shape."""

import math

import numpy as np
import pytest

from calc.numeric.least_squares import least_squares


@pytest.mark.parametrize(("rows", "columns"), [(5, 5), (9, 4), (4, 9), (1, 3), (40, 16), (2, 1)])
def test_solution_is_that_of_numpy(rows: int, columns: int) -> None:
    """The solution, the rank and the condition are those of `numpy.linalg.lstsq` and `cond`."""
    dice = np.random.default_rng(rows * 100 + columns)
    matrix = dice.normal(size=(rows, columns))
    sides = dice.normal(size=rows)
    found = least_squares(matrix.tolist(), sides.tolist())
    expected, _, rank, _ = np.linalg.lstsq(matrix, sides)

    assert found.values == pytest.approx(expected, rel=1e-9, abs=1e-12)
    assert found.rank == rank
    assert found.condition == pytest.approx(np.linalg.cond(matrix), rel=1e-9)


def test_dependent_columns_get_the_shortest_solution() -> None:
    """Columns that are sums of others leave a choice; the pseudoinverse of NumPy chooses alike."""
    dice = np.random.default_rng(7)
    matrix = dice.normal(size=(6, 2)) @ dice.normal(size=(2, 5))
    sides = dice.normal(size=6)
    found = least_squares(matrix.tolist(), sides.tolist())

    assert found.rank == 2
    assert found.values == pytest.approx(np.linalg.pinv(matrix, rcond=1e-10) @ sides, rel=1e-8)


def test_equations_of_unlike_size_are_solved() -> None:
    """Singular values eight powers of ten apart count; what the squares would lose is kept."""
    found = least_squares([[1.0, 0.0], [0.0, 1e-8]], [3.0, 2e-8])

    assert found.values == pytest.approx((3.0, 2.0), rel=1e-12)
    assert found.condition == pytest.approx(1e8, rel=1e-12)


def test_nothing_to_solve_with() -> None:
    """A matrix of zeros fixes nothing, and zero is the shortest of all answers."""
    found = least_squares([[0.0, 0.0]], [1.0])

    assert (found.values, found.rank, found.condition) == ((0.0, 0.0), 0, math.inf)


@pytest.mark.parametrize(
    ("matrix", "sides", "message"),
    [
        ([], [], "as many coefficients"),
        ([[1.0], [1.0, 2.0]], [1.0, 1.0], "as many coefficients"),
        ([[1.0]], [1.0, 2.0], "as many right sides"),
        ([[math.nan]], [1.0], "finite"),
        ([[1.0]], [math.inf], "finite"),
    ],
)
def test_what_is_no_set_of_equations_is_refused(
    matrix: list[list[float]], sides: list[float], message: str
) -> None:
    """Shapes and numbers that cannot be are named."""
    with pytest.raises(ValueError, match=message):
        least_squares(matrix, sides)
