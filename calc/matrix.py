"""Matrices as rows of numbers: what is accepted, and how eigenvectors are signed."""

import cmath
import math
from collections.abc import Sequence

Matrix = Sequence[Sequence[float]]


def check_square(rows: Sequence[Sequence[complex]]) -> None:
    """Refuse what is not a finite square matrix.

    Args:
        rows: Real or complex numbers; shape (n, n).

    Raises:
        ValueError: If it is not square, is empty or has an element that is not finite.
    """
    if not rows or any(len(row) != len(rows) for row in rows):
        raise ValueError("The matrix must be square")
    if not all(cmath.isfinite(element) for row in rows for element in row):
        raise ValueError("The elements of the matrix must be finite")


def real_rows(matrix: Matrix) -> list[list[float]]:
    """Return the rows of a square matrix as lists.

    Args:
        matrix: Real square matrix; shape (n, n).

    Returns:
        The same numbers; shape (n, n).

    Raises:
        ValueError: As `check_square`.
    """
    rows = [[float(element) for element in row] for row in matrix]
    check_square(rows)
    return rows


def symmetric_rows(matrix: Matrix) -> list[list[float]]:
    """Return the rows of a symmetric matrix, freed from rounding in its symmetry.

    Args:
        matrix: Real matrix, symmetric to 1e-9 of its largest element; shape (n, n).

    Returns:
        The mean of the matrix and its transpose; shape (n, n).

    Raises:
        ValueError: As `check_square`, and if the matrix is not symmetric.

    Examples:
        >>> symmetric_rows([[1.0, 2.0], [2.0, 1.0]])
        [[1.0, 2.0], [2.0, 1.0]]
    """
    rows = real_rows(matrix)
    size = range(len(rows))
    largest = max(abs(element) for row in rows for element in row)
    if any(abs(rows[i][j] - rows[j][i]) > 1e-9 * largest for i in size for j in range(i)):
        raise ValueError("The matrix must be symmetric")
    return [[0.5 * (rows[i][j] + rows[j][i]) for j in size] for i in size]


def signed_columns(vectors: Matrix) -> list[list[float]]:
    """Return columns with signs chosen so that the largest element of each is positive.

    Where several are largest to within rounding, the first of them counts.

    Args:
        vectors: Columns side by side; shape (m, n).

    Returns:
        Each column or its negative; shape (m, n).

    Examples:
        >>> signed_columns([[1.0, 2.0], [-3.0, -2.0]])
        [[-1.0, 2.0], [3.0, -2.0]]
    """
    signs = []
    for column in zip(*vectors, strict=True):
        largest = max(map(abs, column))
        first = next(element for element in column if abs(element) >= (1.0 - 1e-6) * largest)
        signs.append(math.copysign(1.0, first))
    return [[sign * element for sign, element in zip(signs, row, strict=True)] for row in vectors]
