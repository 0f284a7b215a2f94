"""Collocation: the Radau IIA points and weights, which integrate stiff equations of motion."""

from functools import cache

POINTS = (0.0885879595127039474, 0.409466864440734711, 0.787659461760847056, 1.0)
"""Zeros of P4(2 x - 1) - P3(2 x - 1), Legendre polynomials, as shares of a step."""


@cache
def weights() -> tuple[tuple[float, ...], ...]:
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
    return tuple(tuple(_integral(_basis(j), end) for j in range(len(POINTS))) for end in POINTS)


@cache
def double_weights() -> tuple[tuple[float, ...], ...]:
    """Return the square of the matrix of weights, which integrates twice; shape (4, 4)."""
    once = weights()
    columns = list(zip(*once, strict=True))
    return tuple(
        tuple(sum(a * b for a, b in zip(row, column, strict=True)) for column in columns)
        for row in once
    )


def _basis(number: int) -> list[float]:
    """Return the polynomial that is one at a point and zero at the others, lowest power first."""
    polynomial = [1.0]
    for other, point in enumerate(POINTS):
        if other != number:
            scale = POINTS[number] - point
            raised = [0.0, *polynomial]
            lowered = [*(point * factor for factor in polynomial), 0.0]
            polynomial = [(a - b) / scale for a, b in zip(raised, lowered, strict=True)]
    return polynomial


def _integral(polynomial: list[float], end: float) -> float:
    """Return the integral of a polynomial from zero."""
    return sum(factor * end ** (power + 1) / (power + 1) for power, factor in enumerate(polynomial))
