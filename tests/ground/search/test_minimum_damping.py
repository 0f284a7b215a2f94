"""The least damping of curves whose stable window is known."""

import math
from collections.abc import Callable

import pytest

from calc.ground.search.minimum_damping import least_damping


def test_least_damping_is_the_lower_end_of_a_stable_window() -> None:
    """Stable between 3 and 40, unstable below and above."""

    def growth(damping: float) -> float:
        return (3.0 - damping) * (40.0 - damping) / 100.0

    for first in (0.1, 2.0, 10.0, 60.0, 900.0):
        assert least_damping(growth, first) == pytest.approx(3.0, rel=1e-9)
    assert least_damping(lambda _: 1.0, 1.0) is None
    assert least_damping(lambda _: -1.0, 1.0) == 0.0


def test_a_narrow_stable_window_is_found() -> None:
    """A window of dampings narrower than the step between trials."""

    def growth(damping: float) -> float:
        return abs(math.log(damping / 7.13)) - 0.01 if damping else 1.0

    assert least_damping(growth, 1.0) == pytest.approx(7.13 * math.exp(-0.01), rel=1e-8)


@pytest.mark.parametrize("first", [1e-3, 1.0, 1e3])
def test_a_damping_that_is_next_to_nothing_counts_as_none(first: float) -> None:
    """An edge below a thousand-millionth of the first trial is not looked for; one above is."""

    def edge_at(edge: float) -> Callable[[float], float]:
        return lambda damping: 1.0 if damping <= edge else -1.0

    assert least_damping(edge_at(1e-11 * first), first) == 0.0
    assert least_damping(edge_at(1e-8 * first), first) == pytest.approx(1e-8 * first, rel=1e-6)
