r"""Correction: weights and blade adjustments by influence coefficients.

Vibration and weights are complex numbers, amplitude or mass times $e^{i \varphi}$, whose angles
are counted in one sense: leads with angles in the direction of rotation, or lags with angles
against it.
"""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.numeric.least_squares import LeastSquares, least_squares

MOST = 200
"""Readings, planes or adjustments in one solution."""

Vectors = Sequence[complex]


@dataclass(frozen=True, slots=True)
class PlaneCorrections:
    """The weight to add in each plane, and what is left of each reading."""

    corrections: tuple[complex, ...]
    residuals: tuple[complex, ...]
    rank: int
    condition: float


@dataclass(frozen=True, slots=True)
class BladeAdjustments:
    """The amount of each adjustment, what is left of each reading, and how many are fixed."""

    amounts: tuple[float, ...]
    residuals: tuple[complex, ...]
    rank: int
    condition: float


def influence_coefficient(before: complex, after: complex, trial: complex) -> complex:
    r"""Return what one unit of weight at angle zero adds to a reading.

    $$ \alpha = \frac{V_1 - V_0}{W_t} $$

    The rotor answers in proportion; speed, sensor and state are those of both readings.

    Args:
        before: Reading without the trial weight; complex scalar.
        after: Reading with it; complex scalar.
        trial: The trial weight; complex scalar.

    Returns:
        Reading per weight; complex scalar.

    Raises:
        ValueError: If a number is not finite or the trial weight is zero.

    Source:
        Definition; the method in Goodman (1964).

    Examples:
        >>> influence_coefficient(2.0, 2.0 + 1.0j, 0.5)
        2j
    """
    _finite(before, after, trial)
    if trial == 0.0:
        raise ValueError("The trial weight must not be zero")
    return (after - before) / trial


def single_plane_correction(
    before: complex,
    after: complex,
    trial: complex,
    trial_left: bool = False,  # noqa: FBT001, FBT002  a name of the interface, kept
) -> complex:
    r"""Return the weight to add in the plane of the trial weight so that nothing is left.

    $$ W_c = - \frac{V_0 W_t}{V_1 - V_0}, \qquad
       W_c = - \frac{V_1 W_t}{V_1 - V_0} \text{ with the trial weight left in} $$

    It is the weight to *add*, opposite to the unbalance.

    Args:
        before: Reading without the trial weight; complex scalar.
        after: Reading with it; complex scalar.
        trial: The trial weight; complex scalar.
        trial_left: Whether the trial weight stays where it is; truth value.

    Returns:
        The weight to add; complex scalar.

    Raises:
        ValueError: If a number is not finite, the trial weight is zero or changed nothing.

    Source:
        Influence coefficients; Goodman (1964) has the method.

    Examples:
        >>> single_plane_correction(2.0, 1.0, 0.1)
        (0.2+0j)
    """
    change = influence_coefficient(before, after, trial)
    if change == 0.0:
        raise ValueError("The trial weight must change the reading")
    return -complex(after if trial_left else before) / change


def several_plane_correction(
    before: Vectors, influences: Sequence[Vectors], weights: Sequence[float] | None = None
) -> PlaneCorrections:
    r"""Return the weights to add in several planes for readings of several sensors and speeds.

    $$ \min_W \sum_r d_r \left| V_r + \sum_p \alpha_{rp} W_p \right|^2, \qquad
       W = -(A^H D A)^{-1} A^H D V $$

    Of weights that the readings do not tell apart, the smallest are returned.

    Args:
        before: Reading of each sensor at each speed; shape (m,), complex.
        influences: `influences[reading][plane]`, reading per weight; shape (m, n), complex.
        weights: What each squared residual is multiplied by, one if left out; shape (m,).

    Returns:
        The weights to add, shape (n,), and the residual of each reading, shape (m,), as forecast.

    Raises:
        ValueError: If the shapes do not fit, a number is not finite or a weight is negative.

    Source:
        Goodman (1964), the method; its numbers were not read.

    Examples:
        >>> several_plane_correction([2.0, 1.0], [[1.0, 0.0], [0.0, 0.5]]).corrections
        ((-2+0j), (-2+0j))
    """
    rows = _checked(before, influences)
    factors = _factors(len(before), weights)
    matrix = [
        [
            part * factor
            for alpha in row
            for part in ((alpha.real, -alpha.imag) if real else (alpha.imag, alpha.real))
        ]
        for row, factor in zip(rows, factors, strict=True)
        for real in (True, False)
    ]
    found = least_squares(matrix, _sides(before, factors))
    corrections = tuple(
        complex(real, imaginary)
        for real, imaginary in zip(found.values[::2], found.values[1::2], strict=True)
    )
    return PlaneCorrections(
        corrections, _left(before, rows, corrections), found.rank, found.condition
    )


def blade_adjustments(
    before: Vectors, influences: Sequence[Vectors], weights: Sequence[float] | None = None
) -> BladeAdjustments:
    r"""Return real amounts of adjustments at fixed blades for readings once per revolution.

    $$ \min_x \sum_r d_r \left| V_r + \sum_j \alpha_{rj} x_j \right|^2, \qquad x_j
       \text{ real} $$

    One reading is two numbers, and so fixes two amounts, whatever the number of blades.  Where
    the readings leave a choice, the amounts with the least sum of squares are returned: one
    answer of many.

    Args:
        before: Reading of each sensor in each condition; shape (m,), complex.
        influences: `influences[reading][adjustment]`, reading per unit; shape (m, n), complex.
        weights: What each squared residual is multiplied by, one if left out; shape (m,).

    Returns:
        The amounts, shape (n,), and the residual of each reading, shape (m,), as forecast.

    Raises:
        ValueError: If the shapes do not fit, a number is not finite or a weight is negative.

    Source:
        Least squares with real unknowns; derived here.

    Examples:
        >>> found = blade_adjustments([1.0], [[1.0, 1.0j, -1.0]])
        >>> [round(amount, 9) + 0.0 for amount in found.amounts]
        [-0.5, 0.0, 0.5]
    """
    rows = _checked(before, influences)
    factors = _factors(len(before), weights)
    matrix = [
        [(alpha.real if real else alpha.imag) * factor for alpha in row]
        for row, factor in zip(rows, factors, strict=True)
        for real in (True, False)
    ]
    found: LeastSquares = least_squares(matrix, _sides(before, factors))
    return BladeAdjustments(
        found.values, _left(before, rows, found.values), found.rank, found.condition
    )


def _checked(before: Vectors, influences: Sequence[Vectors]) -> list[list[complex]]:
    """Return the rows of influence coefficients; refuse what does not fit the readings."""
    rows = [[complex(alpha) for alpha in row] for row in influences]
    if not len(rows) == len(before) > 0:
        raise ValueError("There must be a row of influence coefficients for each reading")
    if not rows[0] or any(len(row) != len(rows[0]) for row in rows):
        raise ValueError("Each reading must have an influence coefficient for each weight")
    if max(len(rows), len(rows[0])) > MOST:
        raise ValueError(f"There must be at most {MOST} readings and weights")
    _finite(*before, *(alpha for row in rows for alpha in row))
    return rows


def _factors(readings: int, weights: Sequence[float] | None) -> list[float]:
    """Return the square roots of the weights of the readings."""
    if weights is None:
        return [1.0] * readings
    if len(weights) != readings or not all(0.0 <= weight < math.inf for weight in weights):
        raise ValueError("There must be a weight of at least 0 for each reading")
    return [math.sqrt(weight) for weight in weights]


def _sides(before: Vectors, factors: Sequence[float]) -> list[float]:
    """Return the readings to cancel, in real and imaginary parts."""
    return [
        -factor * part
        for reading, factor in zip(before, factors, strict=True)
        for part in (complex(reading).real, complex(reading).imag)
    ]


def _left(
    before: Vectors, rows: Sequence[Vectors], added: Sequence[complex] | Sequence[float]
) -> tuple[complex, ...]:
    """Return what is left of each reading, without residues of rounding."""
    left = []
    for reading, row in zip(before, rows, strict=True):
        parts = [alpha * amount for alpha, amount in zip(row, added, strict=True)]
        rest = reading + sum(parts)
        most = abs(reading) + sum(map(abs, parts))
        left.append(rest if abs(rest) > 1e-12 * most else 0j)
    return tuple(left)


def _finite(*numbers: complex) -> None:
    if not all(map(cmath.isfinite, numbers)):
        raise ValueError("Readings and weights must be finite numbers")
