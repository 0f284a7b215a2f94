"""Linear algebra against closed forms, in CPython.

Sources, both from memory:
    The eigenvalues of the fixed-fixed chain of n equal masses and springs,
    4 (k/m) sin^2(i pi / (2 (n + 1))); standard result for the second-difference matrix.
    The companion matrix of a polynomial has its roots as eigenvalues.
"""

import cmath
import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import fft, signal
from scipy.integrate import solve_ivp

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


def test_oscillators_of_any_damping_have_their_closed_form_roots() -> None:
    """Of x'' + c x' + k x = 0 the roots are -c/2 ± √(c²/4 - k), whatever the shares of c and k."""
    rest, dampers, springs = [[0.0, 1.0], [0.0, 0.0]], [[0.0, 0.0], [0.0, -1.0]], [[0, 0], [-1, 0]]
    shares = [(1.0, c, k) for c in (0.0, 0.3, 8.0) for k in (1.0, 9.0)]
    found = linalg.eigenvalues_of_sums([rest, dampers, springs], shares)

    for (_, c, k), values in zip(shares, found, strict=True):
        root = cmath.sqrt(0.25 * c * c - k)
        expected = sorted((-0.5 * c + root, -0.5 * c - root), key=lambda s: (s.imag, s.real))
        assert values == pytest.approx(expected, rel=1e-14, abs=1e-14)


def test_rounding_in_symmetry_is_forgiven() -> None:
    """A product that is symmetric but for rounding counts as symmetric."""
    values, _ = linalg.symmetric_eigen([[2.0, 1.0], [1.0 + 1e-15, 2.0]])
    assert values == pytest.approx([1.0, 3.0], rel=1e-14)


def test_solution_fits_the_equations() -> None:
    """A x = b for a system that needs row exchanges."""
    matrix = [[0.0, 2.0, 1.0], [1.0, 0.0, 0.0], [3.0, 1.0, 0.0]]
    assert linalg.solve(matrix, [7.0, 1.0, 5.0]) == pytest.approx([1.0, 2.0, 3.0], rel=1e-15)


NONE = [[0.0, 0.0], [0.0, 0.0]]
ONE = [[1.0, 0.0], [0.0, 1.0]]


def test_transition_of_oscillators_is_that_of_sine_and_cosine() -> None:
    """Constant coefficients: two oscillators of 2 rad/s move by the cosine and sine of 1.4."""
    coefficients = ((ONE, NONE, NONE), (NONE, NONE, NONE), ([[4.0, 0.0], [0.0, 4.0]], NONE, NONE))
    moved = linalg.transition(coefficients, 1.0, (0.3, 1.0), 12)
    c, s = math.cos(1.4), math.sin(1.4)

    expected = [[c, 0, s / 2, 0], [0, c, 0, s / 2], [-2 * s, 0, c, 0], [0, -2 * s, 0, c]]
    for row, other in zip(moved, expected, strict=True):
        assert row == pytest.approx(other, abs=1e-9)


@pytest.mark.parametrize("span", [(0.0, 4.0), (1.3, 2.0)])
def test_transition_of_periodic_coefficients_agrees_with_scipy(span: tuple[float, float]) -> None:
    """Scipy, solve_ivp, with mass, damping and stiffness that all change with time."""
    draw = np.random.default_rng(7)
    small = 0.3 * draw.uniform(-1.0, 1.0, (3, 3, 2, 2))
    small[:, 0] = (np.eye(2), 0.4 * np.eye(2), 5.0 * np.eye(2))
    rate = 1.7

    def velocity(time: float, state: NDArray[Any]) -> NDArray[Any]:
        waves = np.array([1.0, math.cos(rate * time), math.sin(rate * time)])
        mass, damping, stiffness = np.einsum("h,mhij->mij", waves, small)
        place, speed = np.split(state.reshape(4, 4), 2)
        pull = np.linalg.solve(mass, damping @ speed + stiffness @ place)
        return np.concatenate([speed, -pull]).ravel()

    end = solve_ivp(velocity, span, np.eye(4).ravel(), "DOP853", rtol=1e-12, atol=1e-12).y[:, -1]
    moved = linalg.transition(small.tolist(), rate, span, 48)
    assert np.array(moved) == pytest.approx(end.reshape(4, 4), abs=1e-8)


def test_multipliers_are_the_eigenvalues_of_the_transition() -> None:
    """Of systems at several rates at once, with steps of their own, each is that of one alone."""
    constant, waves = ([[2.0, 0.3], [0.3, 1.0]], NONE, NONE), (NONE, ONE, [[0.0, 0.2], [0.1, 0.0]])
    powers = [
        (constant, waves, ([[9.0, 1.0], [1.0, 7.0]], NONE, NONE)),
        ((NONE, NONE, NONE), ([[0.0, 0.4], [-0.4, 0.1]], NONE, NONE), 3 * (NONE,)),
        (3 * (NONE,), 3 * (NONE,), ([[0.2, 0.0], [0.0, 0.3]], NONE, [[0.1, 0.0], [0.0, 0.0]])),
    ]
    turns = [(0.0, 0.7, 3), (1.5, 2.0, 17), (4.0, 1.6, 9)]
    found = linalg.multipliers(powers, turns)

    for (rate, time, steps), values in zip(turns, found, strict=True):
        mixed = np.tensordot([1.0, rate, rate**2], np.array(powers), 1).tolist()
        moved = linalg.transition(mixed, rate, (0.0, time), steps)
        assert values == pytest.approx(linalg.eigenvalues(moved), rel=1e-12)


def test_transition_of_a_very_stiff_system_needs_no_shorter_steps() -> None:
    """A damper of a million stops at once; a spring beside it swings on."""
    damping = ([[1e6, 0.0], [0.0, 0.0]], NONE, NONE)
    moved = linalg.transition(((ONE, NONE, NONE), damping, (ONE, NONE, NONE)), 0.0, (0.0, 1.0), 4)

    assert moved[0][0] == pytest.approx(1.0, abs=1e-5)
    assert moved[2] == pytest.approx([0.0] * 4, abs=1e-5)
    assert moved[1] == pytest.approx([0.0, math.cos(1.0), 0.0, math.sin(1.0)], abs=1e-7)


@pytest.mark.parametrize("count", [1, 2, 7, 60, 97, 256])
def test_lines_of_any_length_agree_with_scipy(count: int) -> None:
    """Scipy, fft.rfft: real and imaginary parts, and sizes and phases of weighted samples."""
    draw = np.random.default_rng(count)
    samples, weights = draw.normal(size=count), draw.uniform(0.5, 1.0, count)
    real, imaginary = linalg.spectrum_of(samples.tolist())
    sizes, phases = linalg.weighted_lines(samples.tolist(), weights.tolist())

    assert np.array(real) + 1j * np.array(imaginary) == pytest.approx(fft.rfft(samples), abs=1e-12)
    lines = np.array(sizes) * np.exp(1j * np.array(phases))
    assert lines == pytest.approx(fft.rfft(samples * weights), abs=1e-12)


@pytest.mark.parametrize(("block", "step", "at_once"), [(16, 8, 1 << 20), (15, 4, 40), (50, 50, 1)])
def test_mean_powers_agree_with_scipy(
    block: int, step: int, at_once: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Scipy, signal.welch without its scale, whole blocks alone, however many are taken at once."""
    monkeypatch.setattr(linalg, "MOST_SAMPLES_AT_ONCE", at_once)
    samples = np.random.default_rng(block).normal(size=101)
    weights = signal.get_window("hann", block)
    _, density = signal.welch(
        samples, 1.0, weights, noverlap=block - step, detrend=False, return_onesided=True
    )
    powers = np.array(linalg.mean_powers(samples.tolist(), weights.tolist(), step))
    doubled = np.full(len(density), 2.0)
    doubled[0] = 1.0
    if block % 2 == 0:
        doubled[-1] = 1.0

    assert powers * doubled / (weights**2).sum() == pytest.approx(density, rel=1e-11)


@pytest.mark.parametrize(("block", "step", "at_once"), [(16, 8, 1 << 20), (15, 4, 40)])
def test_mean_cross_powers_agree_with_scipy(
    block: int, step: int, at_once: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Scipy, signal.csd without its scale; the powers of both records are those of each alone."""
    monkeypatch.setattr(linalg, "MOST_SAMPLES_AT_ONCE", at_once)
    one, other = np.random.default_rng(block).normal(size=(2, 101))
    weights = signal.get_window("hann", block)
    taken = {"noverlap": block - step, "detrend": False, "return_onesided": False}
    _, wanted = signal.csd(one, other, 1.0, weights, **taken)
    crosses, *powers = linalg.mean_cross_powers(
        one.tolist(), other.tolist(), weights.tolist(), step
    )

    scaled = np.array(crosses) / (weights**2).sum()
    assert scaled == pytest.approx(wanted[: block // 2 + 1], abs=1e-11)
    for found, record in zip(powers, (one, other), strict=True):
        alone = linalg.mean_powers(record.tolist(), weights.tolist(), step)
        assert list(found) == pytest.approx(list(alone), rel=1e-12)


def test_sum_of_cosines_is_a_window_of_scipy() -> None:
    """Scipy, signal.get_window: a periodic Blackman window, whose cosines have signs in turn."""
    for count in (8, 9):
        found = linalg.cosine_series([0.42, -0.5, 0.08], count)
        assert found.tolist() == pytest.approx(signal.get_window("blackman", count), abs=1e-15)


SINGULAR = ((NONE, NONE, NONE), (NONE, NONE, NONE), (NONE, NONE, NONE))
SQUARE = "The matrix must be square"
FINITE = "The elements of the matrix must be finite"
INDEFINITE = "The mass matrix must be positive definite"


@pytest.mark.parametrize(
    ("function", "arguments", "message"),
    [
        (linalg.eigenvalues, ([],), SQUARE),
        (linalg.eigenvalues, ([[1.0, 2.0]],), SQUARE),
        (linalg.eigenvalues, ([[math.nan]],), FINITE),
        (linalg.eigenvalues_of_sums, ([[[1.0]], [[1.0, 2.0]]], [[1.0, 1.0]]), "of one size"),
        (linalg.eigenvalues_of_sums, ([[[math.inf]]], [[1.0]]), "matrices must be finite"),
        (linalg.eigenvalues_of_sums, ([[[1.0]]], [[math.nan]]), "shares must be finite"),
        (linalg.eigenvalues_of_sums, ([[[1.0]]], [[1.0, 2.0]]), "a share of every matrix"),
        (linalg.symmetric_eigen, ([[1.0, 2.0], [2.1, 1.0]],), "The matrix must be symmetric"),
        (linalg.generalized_symmetric_eigen, ([[1.0]], [[0.0]]), INDEFINITE),
        (linalg.generalized_symmetric_eigen, (chain(2), [[1.0, 2.0], [2.0, 1.0]]), INDEFINITE),
        (linalg.generalized_symmetric_eigen, (chain(2), [[1.0]]), "must have the same shape"),
        (linalg.solve, ([[1.0, 2.0], [2.0, 4.0]], [1.0, 1.0]), "The matrix must not be singular"),
        (linalg.solve, ([[1.0]], [1.0, 2.0]), "The right side must be finite and as long"),
        (linalg.transition, (SINGULAR, 1.0, (0.0, 1.0), 2), "mass matrix must not be singular"),
        (linalg.multipliers, (3 * [SINGULAR], [(1.0, 1.0, 2)]), "must not be singular"),
        (linalg.multipliers, (3 * [SINGULAR[:2]], [(1.0, 1.0, 2)]), "square and of one size"),
        (linalg.multipliers, (3 * [SINGULAR], [(math.inf, 1.0, 2)]), "rates and the times"),
        (linalg.transition, (SINGULAR[:2], 1.0, (0.0, 1.0), 2), "square and of one size"),
        (linalg.transition, (SINGULAR, math.inf, (0.0, 1.0), 2), "must be finite"),
        (linalg.solve, ([[1.0]], [math.inf]), "The right side must be finite and as long"),
        (linalg.spectrum_of, ([],), "There must be samples"),
        (linalg.spectrum_of, ([1.0, math.nan],), "The samples must be finite"),
        (linalg.weighted_lines, ([1.0], [1.0, 2.0]), "as many weights as samples"),
        (linalg.mean_powers, ([1.0], [1.0, 1.0], 1), "must hold a whole block"),
        (linalg.mean_powers, ([1.0, 1.0], [1.0], 0), "blocks must move on"),
        (linalg.mean_cross_powers, ([1.0, 1.0], [1.0], [1.0], 1), "as many samples as one"),
        (linalg.mean_cross_powers, ([1.0], [1.0], [1.0, 1.0], 1), "must hold a whole block"),
        (linalg.cosine_series, ([1.0], 0), "There must be samples"),
        (linalg.resampled, ([1.0] * 16, [0.0] * 4, 1), "more than 16 samples"),
        (linalg.resampled, ([1.0] * 20, [0.0] * 5, 1), "four numbers a piece"),
        (linalg.resampled, ([1.0] * 20, [math.nan] * 4, 1), "must be finite"),
    ],
)
def test_unusable_matrix_is_refused(
    function: Callable[..., object], arguments: tuple[object, ...], message: str
) -> None:
    """What cannot be computed is refused in words."""
    with pytest.raises(ValueError, match=message):
        function(*arguments)
