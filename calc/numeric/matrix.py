"""Matrices as rows of numbers: what is accepted, how eigenvectors are signed, small products."""

import cmath
import itertools
import math
from collections.abc import Sequence
from operator import mul

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
    if not all(all(map(cmath.isfinite, row)) for row in rows):
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
    rows = [list(map(float, row)) for row in matrix]
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
    largest = max(max(map(abs, row)) for row in rows)
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


def product(left: Matrix, right: Matrix) -> list[list[float]]:
    """Return the product of two small matrices.

    Args:
        left: Any matrix; shape (n, m).
        right: Any matrix with as many rows as the other has columns; shape (m, k).

    Returns:
        The product; shape (n, k).

    Examples:
        >>> product([[1.0, 2.0]], [[3.0], [4.0]])
        [[11.0]]
    """
    columns = list(zip(*right, strict=True))
    return [[sum(map(mul, row, column)) for column in columns] for row in left]


def inverse(matrix: Matrix) -> list[list[float]]:
    """Return the inverse of a small matrix, by elimination with the largest pivot first.

    Args:
        matrix: Square matrix that is not singular; shape (n, n).

    Returns:
        The inverse; shape (n, n).

    Examples:
        >>> inverse([[0.0, 2.0], [4.0, 0.0]])
        [[0.0, 0.25], [0.5, 0.0]]
    """
    size = len(matrix)
    rows = [
        [*row, *(1.0 if column == number else 0.0 for column in range(size))]
        for number, row in enumerate(matrix)
    ]
    for number in range(size):
        best = max(range(number, size), key=lambda candidate: abs(rows[candidate][number]))
        rows[number], rows[best] = rows[best], rows[number]
        pivot = rows[number][number]
        rows[number] = [element / pivot for element in rows[number]]
        for other in range(size):
            if other != number and (factor := rows[other][number]):
                rows[other] = [
                    element - factor * above
                    for element, above in zip(rows[other], rows[number], strict=True)
                ]
    return [row[size:] for row in rows]


def null_vector(matrix: Sequence[Sequence[complex]]) -> list[complex]:
    """Return the vector that a singular matrix turns to zero, by elimination with full pivots.

    Args:
        matrix: Square matrix that is singular to rounding; shape (n, n).

    Returns:
        The vector, one of whose elements is 1; shape (n,).

    Examples:
        >>> null_vector([[1.0, 2.0], [2.0, 4.0]])
        [1.0, -0.5]
    """
    rows = [list(row) for row in matrix]
    size = len(rows)
    order = list(range(size))
    for step in range(size - 1):
        row, column = max(
            itertools.product(range(step, size), repeat=2), key=lambda at: abs(rows[at[0]][at[1]])
        )
        rows[step], rows[row] = rows[row], rows[step]
        order[step], order[column] = order[column], order[step]
        for line in rows:
            line[step], line[column] = line[column], line[step]
        for line in rows[step + 1 :]:
            factor = line[step] / rows[step][step] if rows[step][step] else 0.0
            line[step:] = [
                a - factor * b for a, b in zip(line[step:], rows[step][step:], strict=True)
            ]
    found: list[complex] = [0.0] * size
    found[-1] = 1.0
    for step in range(size - 2, -1, -1):
        known = sum(rows[step][j] * found[j] for j in range(step + 1, size))
        found[step] = -known / rows[step][step]
    return [part for _, part in sorted(zip(order, found, strict=True), key=lambda pair: pair[0])]
