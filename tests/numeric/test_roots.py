"""Roots by bracketing: functions whose roots are known."""

import math
from collections.abc import Callable

import pytest

from calc.numeric.roots import crossing, first_root, rising_root


def test_first_of_several_roots() -> None:
    """The first rise of a sine through zero past pi is at 2 pi; a fall is no root."""
    points = [3.0 + 0.5 * step for step in range(40)]

    assert first_root(math.sin, points[1:]) == pytest.approx(2.0 * math.pi)


def test_root_is_found_to_the_last_bit() -> None:
    """The root of x^2 - 2 is the square root of 2, or its neighbour."""
    root = first_root(lambda x: x * x - 2.0, [0.0, 1.0, 2.0])

    assert root == pytest.approx(math.sqrt(2.0), rel=2e-16)


@pytest.mark.parametrize("steep", [1.0, 1e-6, 1e6])
def test_last_bit_takes_few_evaluations(steep: float) -> None:
    """Halving alone asks for the curve more than fifty times; a straight line needs far fewer."""
    asked = []

    def curve(x: float) -> float:
        asked.append(x)
        return steep * (math.exp(x) - 3.0)

    assert first_root(curve, [0.0, 2.0]) == pytest.approx(math.log(3.0), rel=2e-16)
    assert len(asked) < 20


def test_first_point_may_be_the_answer() -> None:
    """A function at or above zero from the start is met at the first point."""
    assert first_root(lambda x: x + 1.0, [0.0, 1.0]) == 0.0


def test_no_root() -> None:
    """A function that stays below zero has none."""
    assert first_root(lambda x: -1.0 - x * x, [0.0, 1.0, 2.0]) is None


def test_jump_through_infinity_is_no_root() -> None:
    """The pole of 1 / (x - 1) is passed over; the root behind it is found."""

    def pole(x: float) -> float:
        return math.inf if x == 1.0 else 1.0 / (x - 1.0)

    def pole_and_root(x: float) -> float:
        return pole(x) if x < 2.0 else x - 2.75

    assert first_root(pole, [0.0, 0.8, 1.3]) is None
    assert first_root(pole_and_root, [0.0, 0.8, 1.3, 2.0, 3.0]) == 2.75


def test_root_on_a_point_is_not_lost() -> None:
    """A function that is zero, or a rounding error above it, at a point is met there."""
    assert first_root(lambda x: (x - 0.3) * 3.0, [0.0, 0.1, 0.2, 0.3, 0.4]) == pytest.approx(0.3)


@pytest.mark.parametrize("height", [1e-2, 1e-5, 1e-8])
def test_peak_between_points_is_found(height: float) -> None:
    """The parabola h - (x - pi)^2 rises above zero between points that all lie below."""
    root = first_root(lambda x: height - (x - math.pi) ** 2, [0.5 * step for step in range(20)])

    assert root == pytest.approx(math.pi - math.sqrt(height), rel=1e-9)


def test_peak_below_zero_is_no_root() -> None:
    """The same parabola that stays below zero has none."""
    points = [0.5 * step for step in range(20)]
    assert first_root(lambda x: -1e-6 - (x - math.pi) ** 2, points) is None


@pytest.mark.parametrize(("edge", "power"), [(2.0, 1), (3.7, 3), (5.5, 7)])
def test_crossing_of_steep_and_flat_curves(edge: float, power: int) -> None:
    """False position alone crawls on flat curves; bisection bounds the number of steps."""
    calls = []

    def curve(place: float) -> float:
        calls.append(place)
        return math.copysign(abs(place - edge) ** power, place - edge)

    assert crossing(curve, 0.0, 10.0) == pytest.approx(edge, rel=1e-9)
    assert len(calls) < 90


@pytest.mark.parametrize(
    ("curve", "low", "high", "root"),
    [
        (lambda x: (x * x - 2.0, 2.0 * x), 0.0, 50.0, math.sqrt(2.0)),
        (lambda x: (math.atan(x - 3.0), 1.0 / (1.0 + (x - 3.0) ** 2)), -40.0, 90.0, 3.0),
        (lambda x: ((x - 1.0) ** 3, 3.0 * (x - 1.0) ** 2), 0.5, 2.0, 1.0),
        (lambda x: (math.copysign(1.0, x - 0.3), 0.0), 0.0, 1.0, 0.3),
    ],
    ids=["square", "Newton would leave the range", "flat at the root", "a step without slope"],
)
def test_root_of_a_rising_curve(
    curve: Callable[[float], tuple[float, float]], low: float, high: float, root: float
) -> None:
    """Curves whose root is known, among them those at which Newton's method alone fails.

    A curve without slope at its root is zero to rounding within 1e-5 of it.
    """
    tolerance = 1e-5 if curve(root)[1] == 0.0 else 1e-14
    assert rising_root(curve, low, high) == pytest.approx(root, rel=tolerance)
