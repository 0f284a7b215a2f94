"""Collocation: the Radau IIA points and weights, which integrate stiff equations of motion."""

from collections.abc import Sequence
from functools import cache
from operator import mul
from typing import Any

from calc import linalg

POINTS = (0.0885879595127039474, 0.409466864440734711, 0.787659461760847056, 1.0)
"""Zeros of P4(2 x - 1) - P3(2 x - 1), Legendre polynomials, as shares of a step."""


Matrix = list[list[float]]
IDENTITY: Matrix = [[float(i == j) for j in range(len(POINTS))] for i in range(len(POINTS))]


@cache
def weights() -> Matrix:
    r"""Return the matrix $a$ with $\int_0^{c_i} p(x) dx = \sum_j a_{ij} p(c_j)$.

    It holds for every polynomial $p$ of a degree below the number of points $c_j$; the last row
    integrates over the whole step, there with an error of the seventh order.

    Returns:
        The weights; shape (4, 4).

    Source:
        Hairer and Wanner (1996), section IV.5, from memory; weights solved anew.

    Examples:
        >>> round(sum(weights()[-1]), 12)
        1.0
    """
    degrees = range(len(POINTS))
    powers = [[point**degree for point in POINTS] for degree in degrees]
    return [
        linalg.solve(powers, [end ** (degree + 1) / (degree + 1) for degree in degrees])
        for end in POINTS
    ]


@cache
def double_weights() -> Matrix:
    """Return the square of the matrix of weights, which integrates twice; shape (4, 4)."""
    return product(weights(), weights())


class Blade:
    """What a blade does within a step, over the collocation points.

    It obeys `z'' + d z' + k z = u`, where u is the pull of the hub.  What turns with it and acts
    on the hub is `z'' - Omega^2 z`, along the blade, and `2 Omega z'`, across it.
    """

    def __init__(self, damping: float, spring: float, rotor_speed: float, step: float) -> None:
        """Set up the matrices of a blade for steps of one length."""
        once, twice = weights(), double_weights()
        response = inverse(
            _combined((1.0, IDENTITY), (step * damping, once), (step**2 * spring, twice))
        )
        rate_response, lag_response = product(once, response), product(twice, response)
        angle = rotor_speed * step
        self.along = _combined((1.0, response), (-(angle**2), lag_response))
        self.across = _combined((2.0 * angle, rate_response))
        self.lag_end = [step**2 * element for element in lag_response[-1]]
        self.rate_end = [step * element for element in rate_response[-1]]
        # a lag angle of one or a rate of one at the start acts as a pull of -k or of this
        pull = [-damping - spring * step * point for point in POINTS]
        self.along_start = [
            (-spring * sum(row) - rotor_speed**2, dot(row, pull) - rotor_speed * angle * point)
            for row, point in zip(self.along, POINTS, strict=True)
        ]
        self.across_start = [
            (-spring * sum(row), dot(row, pull) + 2.0 * rotor_speed) for row in self.across
        ]
        self.lag_start = (1.0 - spring * sum(self.lag_end), step + dot(self.lag_end, pull))
        self.rate_start = (-spring * sum(self.rate_end), 1.0 + dot(self.rate_end, pull))


class Hub:
    """What the hub does within a step in one direction, without the blades."""

    def __init__(self, mass: float, damping: float, stiffness: float, step: float) -> None:
        """Set up the matrices of the hub for steps of one length."""
        once, twice = weights(), double_weights()
        self.matrix = _combined(
            (mass, IDENTITY), (step * damping, once), (step**2 * stiffness, twice)
        )
        self.start = [(-stiffness, -damping - stiffness * step * point) for point in POINTS]
        self.end = ([step**2 * element for element in twice[-1]], [step * e for e in once[-1]])


def _combined(*terms: tuple[float, Matrix]) -> Matrix:
    """Return a sum of matrices with factors."""
    rows = range(len(POINTS))
    return [[sum(factor * matrix[i][j] for factor, matrix in terms) for j in rows] for i in rows]


def dot(row: Sequence[float], column: Sequence[Any]) -> Any:
    """Return the sum of the products, as far as the shorter of the two goes."""
    return sum(map(mul, row, column))


def product(left: Matrix, right: Matrix) -> Matrix:
    """Return the product of two small matrices."""
    columns = list(zip(*right, strict=True))
    return [
        [sum(a * b for a, b in zip(row, column, strict=True)) for column in columns] for row in left
    ]


def inverse(matrix: Matrix) -> Matrix:
    """Return the inverse of a small matrix, by elimination with the largest pivot first."""
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
