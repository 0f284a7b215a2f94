"""Linear algebra: the one module whose engine differs between CPython and a browser.

CPython uses numpy.  In a browser, where numpy would cost more than everything else together, the
same functions call a vendored JavaScript library.  Both are tested against each other.  Matrices
are sequences of rows, results are lists, so that callers need neither engine.
"""

import importlib
import math
import sys
from collections.abc import Sequence
from itertools import chain
from typing import Any

from calc.numeric.collocation import POINTS, double_weights, weights
from calc.numeric.matrix import Matrix, real_rows, signed_columns, symmetric_rows


def eigenvalues(matrix: Matrix) -> list[complex]:
    r"""Return the eigenvalues of a real matrix.

    $$ A x = \lambda x $$

    Args:
        matrix: Any real square matrix $A$; shape (n, n).

    Returns:
        The eigenvalues $\lambda$ in ascending order of imaginary part, then of real part;
        shape (n,).  A repeated one is listed as often as it occurs.

    Raises:
        ValueError: If the matrix is not square, is empty or has an element that is not finite.

    Source:
        Golub and Van Loan (2013), Matrix Computations, 4th ed., chapter 7; from memory.

    Examples:
        >>> eigenvalues([[2.0, 0.0], [0.0, 1.0]])
        [(1+0j), (2+0j)]
    """
    rows = real_rows(matrix)
    if sys.platform == "emscripten":
        pairs: list[complex] = list(map(complex, *_in_javascript("eigenvalues", rows)))
        return sorted(pairs, key=_order)
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    return sorted(map(complex, np.linalg.eigvals(np.array(rows))), key=_order)


class Sums:
    """Matrices that are sums of the same few, whose eigenvalues are found many at once.

    One call for all matrices of a sweep costs far less than a call for each.
    """

    def __init__(self, parts: Sequence[Matrix]) -> None:
        """Take the parts.

        Args:
            parts: Real square matrices of one size; shape (p, n, n).

        Raises:
            ValueError: If they are not square and of one size, or an element is not finite.
        """
        self._count, self._size = len(parts), len(parts[0])
        flat = [float(element) for part in parts for row in part for element in row]
        is_square = all(len(row) == self._size for part in parts for row in part)
        if not self._size or not is_square or len(flat) != self._count * self._size**2:
            raise ValueError("The matrices must be square and of one size")
        if not all(map(math.isfinite, flat)):
            raise ValueError("The elements of the matrices must be finite")
        if sys.platform == "emscripten":
            self._parts: Any = importlib.import_module("pyodide.ffi").to_js(flat)
        else:
            import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

            self._parts = np.array(flat).reshape(self._count, -1)

    def eigenvalues(self, shares: Sequence[Sequence[float]]) -> list[list[complex]]:
        """Return what `eigenvalues_of_sums` returns."""
        weights = [float(share) for row in shares for share in row]
        if any(len(row) != self._count for row in shares) or not weights:
            raise ValueError("There must be a share of every matrix")
        if not all(map(math.isfinite, weights)):
            raise ValueError("The shares must be finite")
        size = self._size
        if sys.platform == "emscripten":
            values = list(
                map(complex, *_in_javascript("eigenvaluesOfSums", self._parts, weights, size))
            )
            starts = range(0, len(values), size)
            return [sorted(values[start : start + size], key=_order) for start in starts]
        import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

        sums = np.array(weights).reshape(-1, self._count) @ self._parts
        found = np.linalg.eigvals(sums.reshape(-1, size, size)).astype(complex)
        order = np.lexsort((found.real, found.imag))
        ordered: list[list[complex]] = np.take_along_axis(found, order, axis=1).tolist()
        return ordered


def eigenvalues_of_sums(
    parts: Sequence[Matrix], shares: Sequence[Sequence[float]]
) -> list[list[complex]]:
    r"""Return the eigenvalues of many matrices that are sums of the same few.

    $$ A_k = \sum_j w_{kj} P_j, \qquad A_k x = \lambda x $$

    Args:
        parts: Real square matrices $P_j$ of one size; shape (p, n, n).
        shares: How much of each part is in each matrix, $w_{kj}$; shape (m, p).

    Returns:
        The eigenvalues of each matrix, in the order of `eigenvalues`; shape (m, n).

    Raises:
        ValueError: If the parts are not square and of one size, the shares do not fit them, or a
            number is not finite.

    Source:
        Golub and Van Loan (2013), Matrix Computations, 4th ed., chapter 7; from memory.

    Examples:
        >>> eigenvalues_of_sums([[[1.0]], [[2.0]]], [[1.0, 0.0], [1.0, 3.0]])
        [[(1+0j)], [(7+0j)]]
    """
    return Sums(parts).eigenvalues(shares)


def symmetric_eigen(matrix: Matrix) -> tuple[list[float], list[list[float]]]:
    r"""Return the eigenvalues and the eigenvectors of a real symmetric matrix.

    $$ A x = \lambda x, \qquad x^\mathsf{T} x = 1 $$

    Args:
        matrix: Real symmetric matrix $A$; shape (n, n).

    Returns:
        The eigenvalues in ascending order, shape (n,), and the eigenvectors as columns in the
        same order, shape (n, n).  The largest element of each is positive.  Of a repeated
        eigenvalue the eigenvectors are any orthonormal set.

    Raises:
        ValueError: If the matrix is not square and symmetric, is empty or has an element that is
            not finite.

    Source:
        Golub and Van Loan (2013), Matrix Computations, 4th ed., chapter 8; from memory.

    Examples:
        >>> values, vectors = symmetric_eigen([[2.0, 0.0], [0.0, 1.0]])
        >>> values
        [1.0, 2.0]
        >>> vectors
        [[0.0, 1.0], [1.0, 0.0]]
    """
    rows = symmetric_rows(matrix)
    if sys.platform == "emscripten":
        values, vectors = _in_javascript("symmetricEigen", rows)
        return values, signed_columns(vectors)
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    found = np.linalg.eigh(np.array(rows))
    return found.eigenvalues.tolist(), signed_columns(found.eigenvectors.tolist())


def generalized_symmetric_eigen(
    stiffness: Matrix, mass: Matrix
) -> tuple[list[float], list[list[float]]]:
    r"""Return the eigenvalues and the mode shapes of an undamped structure.

    $$ K x = \lambda M x, \qquad x^\mathsf{T} M x = 1 $$

    With the Cholesky factor $M = L L^\mathsf{T}$ it becomes the symmetric problem of
    $L^{-1} K L^{-\mathsf{T}}$.

    Args:
        stiffness: Real symmetric matrix $K$; shape (n, n).
        mass: Real symmetric positive definite matrix $M$; shape (n, n).

    Returns:
        The eigenvalues in ascending order, shape (n,), and the mode shapes as columns in the
        same order, shape (n, n), each with a generalised mass of one and its largest element
        positive.

    Raises:
        ValueError: If a matrix is not square and symmetric, is empty or has an element that is
            not finite; if the shapes differ; if the mass matrix is not positive definite.

    Source:
        Golub and Van Loan (2013), Matrix Computations, 4th ed., section 8.7; from memory.

    Examples:
        >>> generalized_symmetric_eigen([[8.0]], [[4.0]])
        ([2.0], [[0.5]])
    """
    spring_rows, mass_rows = symmetric_rows(stiffness), symmetric_rows(mass)
    if len(spring_rows) != len(mass_rows):
        raise ValueError("The stiffness matrix and the mass matrix must have the same shape")
    if sys.platform == "emscripten":
        answer = _in_javascript("generalizedSymmetricEigen", spring_rows, mass_rows)
        if answer is None:
            raise ValueError("The mass matrix must be positive definite")
        return answer[0], signed_columns(answer[1])
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    try:
        factor = np.linalg.cholesky(np.array(mass_rows))
    except np.linalg.LinAlgError as error:
        raise ValueError("The mass matrix must be positive definite") from error
    half = np.linalg.solve(factor, np.array(spring_rows))
    found = np.linalg.eigh(np.linalg.solve(factor, half.T))
    shapes = np.linalg.solve(factor.T, found.eigenvectors)
    return found.eigenvalues.tolist(), signed_columns(shapes.tolist())


def solve(matrix: Matrix, right_side: Sequence[float]) -> list[float]:
    """Return the solution of a set of linear equations.

    $$ A x = b $$

    Args:
        matrix: Real square matrix $A$; shape (n, n).
        right_side: The column $b$; shape (n,).

    Returns:
        The column $x$; shape (n,).

    Raises:
        ValueError: If the matrix is not square, is empty, is singular or has an element that is
            not finite; if the right side does not fit it.

    Source:
        Golub and Van Loan (2013), Matrix Computations, 4th ed., chapter 3; from memory.

    Examples:
        >>> solve([[2.0, 0.0], [0.0, 4.0]], [2.0, 2.0])
        [1.0, 0.5]
    """
    rows = real_rows(matrix)
    column = [float(element) for element in right_side]
    if len(column) != len(rows) or not all(map(math.isfinite, column)):
        raise ValueError("The right side must be finite and as long as the matrix")
    if sys.platform == "emscripten":
        solution: list[float] | None = _in_javascript("solve", rows, column)
        if solution is None:
            raise ValueError("The matrix must not be singular")
        return solution
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    try:
        answer: list[float] = np.linalg.solve(np.array(rows), np.array(column)).tolist()
    except np.linalg.LinAlgError as error:
        raise ValueError("The matrix must not be singular") from error
    return answer


def transition(
    coefficients: Sequence[Sequence[Matrix]],
    rate: float,
    span: tuple[float, float],
    steps: int,
) -> list[list[float]]:
    r"""Return how the state of a linear system with periodic coefficients moves on in time.

    $$ M(t) \ddot{x} + C(t) \dot{x} + K(t) x = 0, \qquad
    M(t) = M_0 + M_c \cos\omega t + M_s \sin\omega t $$

    and $C$ and $K$ likewise.  Each step solves for the accelerations at the four collocation
    points of the Radau IIA method, so that a very stiff system needs no shorter steps.

    Args:
        coefficients: Mass, damping and stiffness, each as the constant matrix and those of the
            cosine and the sine; shape (3, 3, n, n).
        rate: Angular frequency $\omega$ of the coefficients; scalar.
        span: Time at the start and at the end.
        steps: Number of steps of equal length, at least one.

    Returns:
        The states (x and its rate) at the end from each unit state at the start, as columns;
        shape (2 n, 2 n).

    Raises:
        ValueError: If the matrices are not square and of one size, a mass matrix is singular, or
            a number is not finite.

    Source:
        Hairer and Wanner (1996), section IV.5, the method, from memory.

    Examples:
        >>> import math
        >>> one, none = ([[1.0]], [[0.0]], [[0.0]]), 3 * ([[0.0]],)
        >>> moved = transition((one, none, one), 0.0, (0.0, math.pi), 8)
        >>> [round(element, 6) + 0.0 for row in moved for element in row]
        [-1.0, 0.0, 0.0, -1.0]
    """
    size = len(coefficients[0][0])
    matrices = chain.from_iterable(coefficients)
    flat = list(map(float, chain.from_iterable(chain.from_iterable(matrices))))
    if len(flat) != 9 * size**2 or not size:
        raise ValueError("The matrices must be square and of one size")
    if not (all(map(math.isfinite, flat)) and all(map(math.isfinite, (rate, *span)))) or steps < 1:
        raise ValueError("The elements of the matrices, the rate and the times must be finite")
    if sys.platform == "emscripten":
        method = [[*POINTS], [*map(list, weights())], [*map(list, double_weights())]]
        found: Any = _in_javascript("transition", flat, [size, rate, *span, steps], method)
    else:
        found = _transition(flat, (size, rate, *span, steps))
    if found is None or not all(all(map(math.isfinite, row)) for row in found):
        raise ValueError("The mass matrix must not be singular")
    return [[*row] for row in found]


def _transition(flat: list[float], sizes: tuple[int, float, float, float, int]) -> Any:
    """Return what `transition` returns by numpy, all steps at once, or None."""
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    size, rate, start, end, steps = sizes
    points, once, twice = np.array(POINTS), np.array(weights()), np.array(double_weights())
    count, length = len(points), (end - start) / steps
    angles = rate * (start + length * (np.arange(steps) + points[:, None]))
    waves = np.stack([np.ones_like(angles), np.cos(angles), np.sin(angles)], axis=2)
    mass, damping, stiffness = np.array(flat).reshape(3, 3, size, size)

    # by point, wave, row: columns of the accelerations at all points, then of the state before
    shape = (count, 3, size, count, size)
    left = length * once[:, None, None, :, None] * damping[:, :, None]
    left = left + length**2 * twice[:, None, None, :, None] * stiffness[:, :, None]
    left += np.eye(count)[:, None, None, :, None] * mass[:, :, None]
    later = damping + length * points[:, None, None, None] * stiffness
    before = np.concatenate([np.broadcast_to(stiffness, later.shape), later], axis=3)
    parts = np.concatenate([left.reshape(*shape[:3], -1), -before], axis=3)
    summed = (waves @ parts.reshape(count, 3, -1)).reshape(count, steps, size, -1)
    rows = count * size
    table = summed.transpose(1, 0, 2, 3).reshape(steps, rows, rows + 2 * size)
    try:
        solved = np.linalg.solve(table[:, :, :rows], table[:, :, rows:])
    except np.linalg.LinAlgError:
        return None
    gained = np.stack([length**2 * twice[-1], length * once[-1]])
    moves = (gained @ solved.reshape(steps, count, -1)).reshape(steps, 2 * size, 2 * size)
    moves += np.eye(2 * size) + np.eye(2 * size, k=size) * length
    while len(moves) > 1:
        whole = moves[1::2] @ moves[: len(moves) // 2 * 2 : 2]
        moves = np.concatenate([whole, moves[-1:]]) if len(moves) % 2 else whole
    return moves[0].tolist()


def _order(value: complex) -> tuple[float, float]:
    """Return the key that sorts eigenvalues."""
    return value.imag, value.real


def _in_javascript(function: str, *arguments: Any) -> Any:
    """Return what a function of `scripts/linalg.js` returns, as Python lists, or None."""
    linalg = importlib.import_module("js").linalg
    to_js = importlib.import_module("pyodide.ffi").to_js
    answer = getattr(linalg, function)(*map(to_js, arguments))
    return None if answer is None else answer.to_py()
