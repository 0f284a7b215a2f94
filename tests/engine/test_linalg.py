"""Linear algebra against closed forms, in CPython.

Sources, both from memory:
    The eigenvalues of the fixed-fixed chain of n equal masses and springs,
    4 (k/m) sin^2(i pi / (2 (n + 1))); standard result for the second-difference matrix.
    The companion matrix of a polynomial has its roots as eigenvalues.
"""

import math
from collections.abc import Callable

import pytest

from calc import linalg


def chain(size: int) -> list[list[float]]:
    """Return the second-difference matrix."""
    offsets = range(size)
    return [[2.0 if i == j else -1.0 if abs(i - j) == 1 else 0.0 for j in offsets] for i in offsets]


def times(matrix: list[list[float]], column: list[float]) -> list[float]:
    """Return the product of a matrix and a column."""
    return [math.fsum(map(float.__mul__, row, column)) for row in matrix]


@pytest.mark.parametrize("size", [1, 2, 7])
def test_chain_has_its_closed_form_eigenvalues(size: int) -> None:
    """Second-difference matrix: 4 sin^2(i pi / (2 (n + 1))), and A x = lambda x with unit x."""
    values, vectors = linalg.symmetric_eigen(chain(size))
    expected = [4.0 * math.sin(0.5 * math.pi * i / (size + 1)) ** 2 for i in range(1, size + 1)]
    assert values == pytest.approx(expected, rel=1e-13)
    for value, column in zip(values, map(list, zip(*vectors, strict=True)), strict=True):
        assert times(chain(size), column) == pytest.approx([value * x for x in column], abs=1e-14)
        assert math.hypot(*column) == pytest.approx(1.0, rel=1e-14)
        assert max(column, key=abs) > 0.0


def test_mode_shapes_have_unit_generalised_mass() -> None:
    """K x = lambda M x, and x' M x = 1, for a mass matrix with coupling."""
    mass = [[4.0, 1.0, 0.0], [1.0, 3.0, 0.5], [0.0, 0.5, 2.0]]
    values, shapes = linalg.generalized_symmetric_eigen(chain(3), mass)
    assert values == sorted(values)
    for value, shape in zip(values, map(list, zip(*shapes, strict=True)), strict=True):
        inertia = times(mass, shape)
        assert times(chain(3), shape) == pytest.approx([value * x for x in inertia], abs=1e-14)
        assert math.fsum(map(float.__mul__, shape, inertia)) == pytest.approx(1.0, rel=1e-14)
        assert max(shape, key=abs) > 0.0


def test_equal_masses_scale_the_symmetric_problem() -> None:
    """With M = 4 I the eigenvalues are a quarter of those of K."""
    alone, _ = linalg.symmetric_eigen(chain(3))
    mass = [[4.0 if i == j else 0.0 for j in range(3)] for i in range(3)]
    values, _ = linalg.generalized_symmetric_eigen(chain(3), mass)
    assert values == pytest.approx([value / 4.0 for value in alone], rel=1e-14)


def test_damped_oscillator_has_its_closed_form_roots() -> None:
    """s^2 + 2 z w s + w^2 = 0: a pair below critical damping, two real roots above, in order."""
    frequency = 3.0
    for damping in (0.05, 2.0):
        state = [[0.0, 1.0], [-(frequency**2), -2.0 * damping * frequency]]
        root = frequency * complex(damping**2 - 1.0) ** 0.5
        expected = [-damping * frequency - root, -damping * frequency + root]
        assert linalg.eigenvalues(state) == pytest.approx(expected, rel=1e-14)


def test_triangular_complex_matrix_has_its_diagonal() -> None:
    """Eigenvalues of a triangular matrix: the diagonal, conjugate pairs and repeats included."""
    diagonal = [1.0 - 2.0j, 1.0 + 2.0j, 0.0j, -3.0 + 0.5j, 4.0 + 2.5j]
    matrix = [
        [diagonal[i] if i == j else 1j * (i + j) if j > i else 0.0j for j in range(5)]
        for i in range(5)
    ]
    expected = sorted(diagonal, key=lambda value: (value.imag, value.real))
    assert linalg.complex_eigenvalues(matrix) == pytest.approx(expected, abs=1e-12)


def test_complex_eigenvalues_of_nothing_but_zeros() -> None:
    """The zero matrix has no norm to shift by, and still two eigenvalues."""
    assert linalg.complex_eigenvalues([[0.0, 0.0], [0.0, 0.0]]) == pytest.approx([0.0, 0.0])


def test_rounding_in_symmetry_is_forgiven() -> None:
    """A product that is symmetric but for rounding counts as symmetric."""
    values, _ = linalg.symmetric_eigen([[2.0, 1.0], [1.0 + 1e-15, 2.0]])
    assert values == pytest.approx([1.0, 3.0], rel=1e-14)


def test_solution_fits_the_equations() -> None:
    """A x = b for a system that needs row exchanges."""
    matrix = [[0.0, 2.0, 1.0], [1.0, 0.0, 0.0], [3.0, 1.0, 0.0]]
    assert linalg.solve(matrix, [7.0, 1.0, 5.0]) == pytest.approx([1.0, 2.0, 3.0], rel=1e-15)


SQUARE = "The matrix must be square"
FINITE = "The elements of the matrix must be finite"
INDEFINITE = "The mass matrix must be positive definite"


@pytest.mark.parametrize(
    ("function", "arguments", "message"),
    [
        (linalg.eigenvalues, ([],), SQUARE),
        (linalg.eigenvalues, ([[1.0, 2.0]],), SQUARE),
        (linalg.eigenvalues, ([[math.nan]],), FINITE),
        (linalg.complex_eigenvalues, ([],), SQUARE),
        (linalg.complex_eigenvalues, ([[1j, 2.0], [1.0]],), SQUARE),
        (linalg.complex_eigenvalues, ([[1.0], [2.0]],), SQUARE),
        (linalg.complex_eigenvalues, ([[complex(0.0, math.inf)]],), FINITE),
        (linalg.symmetric_eigen, ([[1.0, 2.0], [2.1, 1.0]],), "The matrix must be symmetric"),
        (linalg.generalized_symmetric_eigen, ([[1.0]], [[0.0]]), INDEFINITE),
        (linalg.generalized_symmetric_eigen, (chain(2), [[1.0, 2.0], [2.0, 1.0]]), INDEFINITE),
        (linalg.generalized_symmetric_eigen, (chain(2), [[1.0]]), "must have the same shape"),
        (linalg.solve, ([[1.0, 2.0], [2.0, 4.0]], [1.0, 1.0]), "The matrix must not be singular"),
        (linalg.solve, ([[1.0]], [1.0, 2.0]), "The right side must be finite and as long"),
        (linalg.solve, ([[1.0]], [math.inf]), "The right side must be finite and as long"),
    ],
)
def test_unusable_matrix_is_refused(
    function: Callable[..., object], arguments: tuple[object, ...], message: str
) -> None:
    """What cannot be computed is refused in words."""
    with pytest.raises(ValueError, match=message):
        function(*arguments)
