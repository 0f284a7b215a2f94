"""Linear algebra: the one module whose engine differs between CPython and a browser.

CPython uses numpy.  In a browser, where numpy would cost more than everything else together, the
same functions call a vendored JavaScript library.  Both are tested against each other.  Matrices
are sequences of rows, results are lists, so that callers need neither engine.
"""

import importlib
import math
import sys
from collections.abc import Sequence
from typing import Any

from calc.matrix import Matrix, check_square, real_rows, signed_columns, symmetric_rows


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


def complex_eigenvalues(matrix: Sequence[Sequence[complex]]) -> list[complex]:
    r"""Return the eigenvalues of a complex matrix.

    The real matrix below has the eigenvalues of $A = B + \mathrm{i} C$ and their conjugates.
    $A$ is shifted along the imaginary axis first, by more than its norm, so that its own
    eigenvalues are those with a positive imaginary part.

    $$ \begin{bmatrix} B & -C \\ C & B \end{bmatrix} $$

    Args:
        matrix: Any complex square matrix $A$; shape (n, n).

    Returns:
        The eigenvalues in ascending order of imaginary part, then of real part; shape (n,).
        They are as exact as the norm of $A$ allows: a small one beside a large one is less so.

    Raises:
        ValueError: If the matrix is not square, is empty or has an element that is not finite.

    Source:
        The real form is common knowledge; the shift is our own device, tested against numpy.

    Examples:
        >>> complex_eigenvalues([[3j]])
        [3j]
    """
    rows = [[complex(element) for element in row] for row in matrix]
    check_square(rows)
    shift = 2.0 * max(math.fsum(map(abs, row)) for row in rows) or 1.0
    for number, row in enumerate(rows):
        row[number] += 1j * shift
    upper = [[z.real for z in row] + [-z.imag for z in row] for row in rows]
    lower = [[z.imag for z in row] + [z.real for z in row] for row in rows]
    own = (value for value in eigenvalues(upper + lower) if value.imag > 0.0)
    return sorted((value - 1j * shift for value in own), key=_order)


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


def _order(value: complex) -> tuple[float, float]:
    """Return the key that sorts eigenvalues."""
    return value.imag, value.real


def _in_javascript(function: str, *arguments: list[Any]) -> Any:
    """Return what a function of `scripts/linalg.js` returns, as Python lists, or None."""
    linalg = importlib.import_module("js").linalg
    to_js = importlib.import_module("pyodide.ffi").to_js
    answer = getattr(linalg, function)(*map(to_js, arguments))
    return None if answer is None else answer.to_py()
