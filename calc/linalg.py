"""Linear algebra: the one module whose engine differs between CPython and a browser.

CPython uses numpy.  In a browser, where numpy would cost more than everything else together, the
same functions call JavaScript, most of it a vendored library.  Both are tested against each other.
Matrices are sequences of rows, results are lists, so that callers need neither engine.

Spectra of records are taken by numpy's transform and, in a browser, by fft.js with a chirp
transform around it for lengths that are no power of two.  Samples travel as arrays of doubles,
which JavaScript reads and fills where they lie.  numpy in the browser was weighed: of the 7 MB that
the runtime may take 0.1 MB are left, a small part of what numpy is; the transforms take 7 kB.
"""

import importlib
import math
import sys
from array import array
from collections.abc import Iterator, Sequence
from itertools import chain
from typing import Any

from calc.numeric.collocation import POINTS, double_weights, weights
from calc.numeric.matrix import Matrix, real_rows, signed_columns, symmetric_rows

MOST_STEPS = 300
"""So many steps of systems are taken at once, so that they need little memory."""

MOST_SAMPLES_AT_ONCE = 1 << 20
"""So many samples are transformed at once, for the same reason."""

READINGS_AT_ONCE = 1 << 16
"""So many values between samples are read at once, for the same reason."""

READ_REACH = 16
"""Samples on either side of a place that a value between samples is read from."""


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
        found: Any = _in_javascript("transition", flat, [size, rate, *span, steps], _method())
    else:
        import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

        given = np.array(flat).reshape(1, 3, 3, size, size)
        whole = _moved(given, [(rate, *span, steps)])
        found = None if whole is None else whole[0].tolist()
    if found is None or not all(all(map(math.isfinite, row)) for row in found):
        raise ValueError("The mass matrix must not be singular")
    return [[*row] for row in found]


class Turning:
    """A linear system with periodic coefficients, asked at many rates at once."""

    def __init__(self, coefficients: Sequence[Sequence[Sequence[Matrix]]]) -> None:
        """Take the coefficients.

        Args:
            coefficients: For the zeroth, first and second power of the rate the mass, damping
                and stiffness, each as `transition` has them; shape (3, 3, 3, n, n).

        Raises:
            ValueError: If the matrices are not square and of one size, or not finite.
        """
        self._size = size = len(coefficients[0][0][0])
        matrices = chain.from_iterable(chain.from_iterable(coefficients))
        flat = list(map(float, chain.from_iterable(chain.from_iterable(matrices))))
        if len(flat) != 27 * size**2 or not size:
            raise ValueError("The matrices must be square and of one size")
        if not all(map(math.isfinite, flat)):
            raise ValueError("The elements of the matrices must be finite")
        if sys.platform == "emscripten":
            self._parts: Any = importlib.import_module("pyodide.ffi").to_js(flat)
        else:
            import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

            self._parts = np.array(flat).reshape(3, 9 * size**2)

    def multipliers(self, turns: Sequence[tuple[float, float, int]]) -> list[list[complex]]:
        """Return the eigenvalues of the `transition` of each turn: rate, time and steps."""
        if not all(math.isfinite(rate) and math.isfinite(time) for rate, time, _ in turns):
            raise ValueError("The rates and the times must be finite")
        size = self._size
        found: list[list[complex]] = []
        if sys.platform == "emscripten":
            asked = [[float(number) for number in turn] for turn in turns]
            for answer in _in_javascript("multipliers", self._parts, size, asked, _method()):
                if answer is None:
                    raise ValueError("The mass matrix must not be singular")
                found.append(sorted(map(complex, *answer), key=_order))
            return found
        import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

        for some in _in_lots(turns, MOST_STEPS):
            rates = np.array([rate for rate, _, _ in some])
            powers = np.stack([np.ones_like(rates), rates, rates**2], axis=1)
            given = (powers @ self._parts).reshape(-1, 3, 3, size, size)
            whole = _moved(given, [(rate, 0.0, time, steps) for rate, time, steps in some])
            if whole is None or not np.isfinite(whole).all():
                raise ValueError("The mass matrix must not be singular")
            values = np.linalg.eigvals(whole).astype(complex)
            order = np.lexsort((values.real, values.imag))
            found += np.take_along_axis(values, order, axis=1).tolist()
        return found


def multipliers(
    coefficients: Sequence[Sequence[Sequence[Matrix]]], turns: Sequence[tuple[float, float, int]]
) -> list[list[complex]]:
    r"""Return what the motions of a linear system with periodic coefficients are multiplied by.

    $$ M(t) \ddot{x} + C(t) \dot{x} + K(t) x = 0, \qquad x(T) = \lambda x(0) $$

    They are the eigenvalues of `transition`, whose coefficients here depend on the rate as well.

    Args:
        coefficients: For the zeroth, first and second power of the rate the mass, damping and
            stiffness, each as `transition` has them; shape (3, 3, 3, n, n).
        turns: Rate, time $T$ and number of steps of each turn; shape (m, 3).

    Returns:
        The multipliers $\lambda$ of each turn, in the order of `eigenvalues`; shape (m, 2 n).

    Raises:
        ValueError: As `transition`.

    Source:
        Hairer and Wanner (1996), section IV.5, the method, from memory.

    Examples:
        >>> zero, one = ([[0.0]], [[0.0]], [[0.0]]), ([[1.0]], [[0.0]], [[0.0]])
        >>> (values,) = multipliers([(one, zero, one), 3 * [zero], 3 * [zero]], [(0.0, 1.0, 8)])
        >>> [complex(round(v.real, 6), round(v.imag, 6)) for v in values]
        [(0.540302-0.841471j), (0.540302+0.841471j)]
    """
    return Turning(coefficients).multipliers(turns)


def spectrum_of(samples: Sequence[float]) -> "tuple[array[float], array[float]]":
    r"""Return the Fourier transform of real samples, from 0 to half the sample rate.

    $$ X_j = \sum_{n=0}^{N-1} x_n e^{-2 \pi i j n / N}, \qquad j = 0 \ldots \lfloor N/2 \rfloor $$

    Args:
        samples: Any number of samples $x_n$; shape (N,).

    Returns:
        The real parts and the imaginary parts of $X_j$; shape (N // 2 + 1,) each.

    Raises:
        ValueError: If there is no sample, or one is not finite.

    Source:
        The definition of the discrete Fourier transform.

    Examples:
        >>> real, imaginary = spectrum_of([1.0, 0.0, 0.0])
        >>> [*real], [*imaginary]
        ([1.0, 1.0], [0.0, 0.0])
    """
    values = samples_of(samples)
    if sys.platform == "emscripten":
        real, imaginary = (_zeros(len(values) // 2 + 1) for _ in range(2))
        _fill("spectrum", values, real, imaginary)
        return real, imaginary
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    found = np.fft.rfft(np.frombuffer(values))
    return array("d", found.real.tobytes()), array("d", found.imag.tobytes())


def weighted_lines(
    samples: Sequence[float], weights: Sequence[float]
) -> "tuple[array[float], array[float]]":
    r"""Return sizes and phases of the Fourier transform of weighted samples.

    $$ |X_j| e^{i \varphi_j} = \sum_{n=0}^{N-1} w_n x_n e^{-2 \pi i j n / N} $$

    Args:
        samples: Any number of samples $x_n$; shape (N,).
        weights: What each is multiplied by, $w_n$; shape (N,).

    Returns:
        The sizes and the phases in rad, from 0 to half the sample rate; shape (N // 2 + 1,) each.

    Raises:
        ValueError: If there is no sample, one is not finite, or the weights are more or fewer.

    Source:
        The definition of the discrete Fourier transform.

    Examples:
        >>> sizes, phases = weighted_lines([2.0, 0.0, 0.0, 0.0], [0.5] * 4)
        >>> [*sizes], [*phases]
        ([1.0, 1.0, 1.0], [0.0, 0.0, 0.0])
    """
    values, factors = samples_of(samples), samples_of(weights)
    if len(values) != len(factors):
        raise ValueError("There must be as many weights as samples")
    if sys.platform == "emscripten":
        sizes, phases = (_zeros(len(values) // 2 + 1) for _ in range(2))
        _fill("lines", values, factors, sizes, phases)
        return sizes, phases
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    found = np.fft.rfft(np.frombuffer(values) * np.frombuffer(factors))
    return array("d", np.abs(found).tobytes()), array("d", np.angle(found).tobytes())


def mean_powers(samples: Sequence[float], weights: Sequence[float], step: int) -> "array[float]":
    r"""Return the mean over blocks of the squared Fourier transform of weighted samples.

    $$ P_j = \frac{1}{K} \sum_{b=0}^{K-1} \left| \sum_{n=0}^{N-1}
       w_n x_{n + b s} e^{-2 \pi i j n / N} \right|^2 $$

    Args:
        samples: The record $x_n$; shape (n,).
        weights: The weights $w_n$ of a block, as many as it has samples; shape (N,).
        step: Samples $s$ from the start of a block to that of the next.

    Returns:
        The means over the $K$ blocks that the record holds whole; shape (N // 2 + 1,).

    Raises:
        ValueError: If the record holds no whole block, the step is not above zero, or a number is
            not finite.

    Source:
        Welch (1967), the method, from memory.

    Examples:
        >>> [*mean_powers([1.0, 1.0, 3.0, 3.0], [1.0, 1.0], 2)]
        [20.0, 0.0]
    """
    values, factors = samples_of(samples), samples_of(weights)
    if len(values) < len(factors) or step < 1:
        raise ValueError("The record must hold a whole block, and blocks must move on")
    if sys.platform == "emscripten":
        powers = _zeros(len(factors) // 2 + 1)
        _fill("meanPowers", step, values, factors, powers)
        return powers
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    record, window = np.frombuffer(values), np.frombuffer(factors)
    blocks = np.lib.stride_tricks.sliding_window_view(record, len(window))[::step]
    lot = max(1, MOST_SAMPLES_AT_ONCE // len(window))
    total = np.zeros(len(window) // 2 + 1)
    for first in range(0, len(blocks), lot):
        lines = np.fft.rfft(blocks[first : first + lot] * window)
        total += (lines.real**2 + lines.imag**2).sum(axis=0)
    return array("d", (total / len(blocks)).tobytes())


def mean_cross_powers(
    first: Sequence[float], second: Sequence[float], weights: Sequence[float], step: int
) -> "tuple[list[complex], array[float], array[float]]":
    r"""Return the mean products of the lines of two records, and their own mean powers.

    $$ C_j = \frac{1}{K} \sum_{b=0}^{K-1} X_{bj}^* Y_{bj} $$

    with the lines $X$ and $Y$ of block $b$ as in `mean_powers`; each block is transformed once.

    Args:
        first: The record of $X$; shape (n,).
        second: The record of $Y$, of the same times; shape (n,).
        weights: The weights of a block, as many as it has samples; shape (N,).
        step: Samples from the start of a block to that of the next.

    Returns:
        The means over the $K$ blocks that the records hold whole: of the products, of $|X|^2$ and
        of $|Y|^2$; shape (N // 2 + 1,) each.

    Raises:
        ValueError: As `mean_powers`, or if the records are not as long as one another.

    Source:
        Welch (1967), the method, from memory.

    Examples:
        >>> crosses, powers, others = mean_cross_powers([1.0, 2.0], [3.0, 0.0], [1.0, 1.0], 2)
        >>> crosses, [*powers], [*others]
        ([(9+0j), (-3+0j)], [9.0, 1.0], [9.0, 9.0])
    """
    one, other, factors = samples_of(first), samples_of(second), samples_of(weights)
    if len(one) != len(other):
        raise ValueError("Both records must have as many samples as one another")
    if len(one) < len(factors) or step < 1:
        raise ValueError("The record must hold a whole block, and blocks must move on")
    count = len(factors) // 2 + 1
    if sys.platform == "emscripten":
        real, imaginary, powers, others = (_zeros(count) for _ in range(4))
        _fill("meanCrossPowers", step, one, other, factors, real, imaginary, powers, others)
        return list(map(complex, real, imaginary)), powers, others
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    window = np.frombuffer(factors)
    blocks = [
        np.lib.stride_tricks.sliding_window_view(np.frombuffer(values), len(window))[::step]
        for values in (one, other)
    ]
    number, lot = len(blocks[0]), max(1, MOST_SAMPLES_AT_ONCE // len(window))
    cross, totals = np.zeros(count, complex), [np.zeros(count), np.zeros(count)]
    for begin in range(0, number, lot):
        x, y = (np.fft.rfft(some[begin : begin + lot] * window) for some in blocks)
        cross += (x.conj() * y).sum(axis=0)
        totals = [
            total + (lines.real**2 + lines.imag**2).sum(axis=0)
            for total, lines in zip(totals, (x, y), strict=True)
        ]
    own = [array("d", (total / number).tobytes()) for total in totals]
    return (cross / number).tolist(), own[0], own[1]


def cosine_series(coefficients: Sequence[float], count: int) -> "array[float]":
    r"""Return one period of a sum of cosines.

    $$ w_n = \sum_k c_k \cos(2 \pi k n / N), \qquad n = 0 \ldots N - 1 $$

    Args:
        coefficients: The mean $c_0$ and the size of each cosine; shape (k,).
        count: Number of samples $N$ in the period, at least one.

    Returns:
        The sum; shape (N,).

    Raises:
        ValueError: If there is no coefficient, one is not finite, or no sample is asked for.

    Source:
        The definition of a sum of cosines.

    Examples:
        >>> [round(weight, 9) for weight in cosine_series([0.5, -0.5], 4)]
        [0.0, 0.5, 1.0, 0.5]
    """
    terms = samples_of(coefficients)
    if count < 1:
        raise ValueError("There must be samples")
    if sys.platform == "emscripten":
        found = _zeros(count)
        _fill("cosineSeries", terms, found)
        return found
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    places = np.arange(count // 2 + 1)
    total = np.zeros(len(places))
    for number, size in enumerate(terms):
        total += size * np.cos(2.0 * math.pi * (number * places % count) / count)
    return array("d", np.concatenate([total, total[1 : (count + 1) // 2][::-1]]).tobytes())


def resampled(samples: Sequence[float], pieces: Sequence[float], count: int) -> "array[float]":
    r"""Return a record read between its samples, at places that cubics give piece by piece.

    $$ x(p) = \frac{\sum_j x_j w(p - j)}{\sum_j w(p - j)}, \qquad
    w(u) = \left(0.42 + 0.5 \cos\frac{\pi u}{16} + 0.08 \cos\frac{\pi u}{8}\right)
    \frac{\sin \pi u}{\pi u}, \quad |u| < 16 $$

    A tone up to 0.4 of the sample rate is read to one part in a thousand.  Before its first and
    after its last sample a record goes on as its own reflection through that point.

    Args:
        samples: The record, of seventeen samples or more; shape (n,).
        pieces: Four coefficients of each piece, of rising powers of how far into the piece, 0 to 1;
            the value is the place in samples from the first; shape (4 m,).
        count: Readings over all pieces, equally far apart, the first at the start of the first.

    Returns:
        The readings; shape (count,).  A place beyond either end is read at that end.

    Raises:
        ValueError: If the record is too short, the pieces are no fours, no reading is asked for, or
            a number is not finite.

    Source:
        Sampling theorem under a Blackman window.

    Examples:
        >>> [round(x, 6) for x in resampled(range(40), [10.0, 4.0, 0.0, 0.0], 4)]
        [10.0, 11.0, 12.0, 13.0]
    """
    record, cubics = samples_of(samples), samples_of(pieces)
    if len(record) <= READ_REACH or len(cubics) % 4 or count < 1:
        raise ValueError(
            f"There must be more than {READ_REACH} samples, four numbers a piece, and readings"
        )
    if sys.platform == "emscripten":
        readings = _zeros(count)
        _fill("resampled", READ_REACH, record, cubics, readings)
        return readings
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    last = len(record) - 1
    padded = np.pad(np.frombuffer(record), READ_REACH, mode="reflect", reflect_type="odd")
    powers = np.frombuffer(cubics).reshape(-1, 4)
    found = np.empty(count)
    for first in range(0, count, READINGS_AT_ONCE):
        number = np.arange(first, min(first + READINGS_AT_ONCE, count)) * len(powers) / count
        piece = np.minimum(number.astype(int), len(powers) - 1)
        into = number - piece
        zero, one, two, three = powers[piece].T
        places = np.clip(zero + into * (one + into * (two + into * three)), 0.0, last)
        before = np.minimum(places.astype(int), last - 1)
        beside = np.clip(places - before, 1e-9, 1.0 - 1e-9)
        wave, angle = np.sin(math.pi * beside) / math.pi, math.pi * beside / READ_REACH
        cosine, sine = np.cos(angle), np.sin(angle)
        total, weights = np.zeros(len(number)), np.zeros(len(number))
        for tap in range(1 - READ_REACH, READ_REACH + 1):
            turn = math.pi * tap / READ_REACH
            slow = cosine * math.cos(turn) + sine * math.sin(turn)
            weight = (0.34 + 0.5 * slow + 0.16 * slow**2) * wave / (beside - tap)
            weight = weight if tap % 2 == 0 else -weight
            weights += weight
            total += weight * padded[before + (tap + READ_REACH)]
        found[first : first + len(number)] = total / weights
    return array("d", found.tobytes())


def samples_of(numbers: Sequence[float]) -> "array[float]":
    """Return numbers as an array of doubles; one that is such an array already is not copied.

    Raises:
        ValueError: If there is none, or one is not finite.
    """
    is_array = isinstance(numbers, array) and numbers.typecode == "d"
    values: array[float] = numbers if is_array else array("d", numbers)  # type: ignore[assignment]
    if not values:
        raise ValueError("There must be samples")
    if not math.isfinite(sum(values)):
        raise ValueError("The samples must be finite")
    return values


def _in_lots(
    turns: Sequence[tuple[float, float, int]], most: int
) -> Iterator[list[tuple[float, float, int]]]:
    """Yield turns in lots of no more steps together than `most`, or one turn alone."""
    lot: list[tuple[float, float, int]] = []
    for turn in turns:
        if lot and (len(lot) + 1) * max(steps for *_, steps in (*lot, turn)) > most:
            yield lot
            lot = []
        lot.append(turn)
    if lot:
        yield lot


def _method() -> list[Any]:
    """Return the collocation method for the browser."""
    return [[*POINTS], [*map(list, weights())], [*map(list, double_weights())]]


def _moved(given: Any, spans: Sequence[tuple[float, float, float, int]]) -> Any:
    """Return by numpy what `transition` returns, for systems with a span each, or None.

    Shorter spans are followed by steps that change nothing, so that all have as many.
    """
    import numpy as np  # noqa: PLC0415 - numpy exists in CPython only

    systems, size = len(spans), given.shape[-1]
    rates, starts, ends, counts = (np.array(column) for column in zip(*spans, strict=True))
    points, once, twice = np.array(POINTS), np.array(weights()), np.array(double_weights())
    count, most = len(points), int(counts.max())
    lengths = ((ends - starts) / counts)[:, None, None, None, None, None]
    mass, damping, stiffness = given[:, 0], given[:, 1], given[:, 2]

    # by system, point, wave, row: columns of accelerations at all points, then of the state before
    left = lengths * once[:, None, None, :, None] * damping[:, None, :, :, None]
    left = left + lengths**2 * twice[:, None, None, :, None] * stiffness[:, None, :, :, None]
    left += np.eye(count)[:, None, None, :, None] * mass[:, None, :, :, None]
    later = damping[:, None] + lengths[..., 0] * points[:, None, None, None] * stiffness[:, None]
    before = np.concatenate([np.broadcast_to(stiffness[:, None], later.shape), later], axis=4)
    shape = (systems, count, 3, size)
    parts = np.concatenate([left.reshape(*shape, -1), -before], axis=4)

    own, number = np.nonzero(np.arange(most) < counts[:, None])
    length = lengths[own, 0, 0, 0, 0]
    angles = rates[own, None] * (starts[own, None] + length * (number[:, None] + points))
    waves = np.stack([np.ones_like(angles), np.cos(angles), np.sin(angles)], axis=2)
    flat = parts.reshape(systems, count, 3, -1)
    summed = (waves[:, :, None] @ flat[own]).reshape(len(own), count * size, -1)
    rows = count * size
    try:
        solved = np.linalg.solve(summed[:, :, :rows], summed[:, :, rows:])
    except np.linalg.LinAlgError:
        return None
    gained = np.stack([length**2 * twice[-1], length * once[-1]], axis=1)
    steps = (gained @ solved.reshape(len(own), count, -1)).reshape(len(own), 2 * size, 2 * size)
    steps += np.eye(2 * size) + np.eye(2 * size, k=size) * length[:, :, None]
    moves = np.zeros((systems, most, 2 * size, 2 * size)) + np.eye(2 * size)
    moves[own, number] = steps
    while moves.shape[1] > 1:
        pairs = moves.shape[1] // 2 * 2
        whole = moves[:, 1::2] @ moves[:, :pairs:2]
        moves = np.concatenate([whole, moves[:, pairs:]], axis=1)
    return moves[:, 0]


def _order(value: complex) -> tuple[float, float]:
    """Return the key that sorts eigenvalues."""
    return value.imag, value.real


def _in_javascript(function: str, *arguments: Any) -> Any:
    """Return what a function of `scripts/linalg.js` returns, as Python lists, or None."""
    linalg = importlib.import_module("js").linalg
    to_js = importlib.import_module("pyodide.ffi").to_js
    answer = getattr(linalg, function)(*map(to_js, arguments))
    return None if answer is None else answer.to_py()


def _zeros(count: int) -> "array[float]":
    """Return an array of zeros."""
    return array("d", bytes(8 * count))


def _fill(function: str, *arguments: Any) -> None:
    """Let a function of `scripts/fourier.js` or `reading.js` fill arrays where they lie."""
    getattr(importlib.import_module("js").linalg, function)(*arguments)
