"""Least squares: the smallest solution of too many or too few linear equations."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul

from calc.numeric.matrix import Matrix

SMALLEST = 1e-10
"""A singular value below this share of the largest is none."""

SWEEPS = 60
"""Rounds over all pairs of columns; well under twenty are needed."""


@dataclass(frozen=True, slots=True)
class LeastSquares:
    """A solution, how many of its parts the equations fix, and their singular values.

    `condition` is the largest singular value over the smallest that counts.
    """

    values: tuple[float, ...]
    rank: int
    condition: float


def least_squares(matrix: Matrix, right_side: Sequence[float]) -> LeastSquares:
    r"""Return the shortest of the vectors that leave the least sum of squares.

    $$ \min_x \|A x - b\|^2, \qquad x = \sum_j v_j \frac{u_j \cdot b}{\sigma_j} $$

    The columns are turned in pairs until all are at right angles (one-sided Jacobi), which gives
    the singular values $\sigma_j$ to full precision.

    Args:
        matrix: The coefficients $A$; shape (m, n).
        right_side: The column $b$; shape (m,).

    Returns:
        The solution, shape (n,), with rank and condition; a matrix of zeros has rank 0.

    Raises:
        ValueError: If the shapes do not fit, there is nothing to solve, or a number is not finite.

    Source:
        Golub and Van Loan (2013), Matrix Computations, 4th ed., sections 5.5 and 8.6; from memory.

    Examples:
        >>> least_squares([[1.0, 1.0]], [2.0]).values
        (1.0, 1.0)
    """
    rows = [list(map(float, row)) for row in matrix]
    sides = list(map(float, right_side))
    if not rows or not rows[0] or any(len(row) != len(rows[0]) for row in rows):
        raise ValueError("The equations must have as many coefficients each")
    if len(sides) != len(rows):
        raise ValueError("There must be as many right sides as equations")
    if not all(map(math.isfinite, (*sides, *(part for row in rows for part in row)))):
        raise ValueError("The numbers of the equations must be finite")
    scale = max(abs(part) for row in rows for part in row)
    size = len(rows[0])
    if not scale:
        return LeastSquares((0.0,) * size, 0, math.inf)
    columns = [[part / scale for part in column] for column in zip(*rows, strict=True)]
    turns = [[1.0 if i == j else 0.0 for i in range(size)] for j in range(size)]
    for _ in range(SWEEPS):
        if not _sweep(columns, turns):
            break
    found = [math.sqrt(_dot(column, column)) for column in columns]
    counted = [j for j, value in enumerate(found) if value > SMALLEST * max(found)]
    shares = {j: _dot(columns[j], sides) / found[j] / found[j] / scale for j in counted}
    values = tuple(math.fsum(turns[j][i] * shares[j] for j in counted) for i in range(size))
    smallest = min(found[j] for j in counted)
    return LeastSquares(values, len(counted), max(found) / smallest)


def _sweep(columns: list[list[float]], turns: list[list[float]]) -> bool:
    """Turn every pair of columns once; return whether any was not yet at right angles."""
    turned = False
    least = 1e-30 * max(_dot(column, column) for column in columns)
    for second in range(1, len(columns)):
        for first in range(second):
            one, other = columns[first], columns[second]
            lengths = _dot(one, one), _dot(other, other)
            shared = _dot(one, other)
            if abs(shared) <= max(1e-15 * math.sqrt(lengths[0] * lengths[1]), least):
                continue
            turned = True
            slope = (lengths[1] - lengths[0]) / (2.0 * shared)
            tangent = math.copysign(1.0, slope) / (abs(slope) + math.hypot(1.0, slope))
            cosine = 1.0 / math.hypot(1.0, tangent)
            for vectors in (columns, turns):
                a, b = vectors[first], vectors[second]
                sine = cosine * tangent
                vectors[first] = [cosine * x - sine * y for x, y in zip(a, b, strict=True)]
                vectors[second] = [sine * x + cosine * y for x, y in zip(a, b, strict=True)]
    return turned


def _dot(one: Sequence[float], other: Sequence[float]) -> float:
    return float(sum(map(mul, one, other)))
