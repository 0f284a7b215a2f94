"""The Runge-Kutta step against series and closed forms."""

import cmath
import math

import pytest

from calc.numeric.runge_kutta import all_along, along, stepped


@pytest.mark.parametrize("rate", [0.7, -1.3, 0.4 + 2.0j])
def test_step_of_a_linear_equation_is_its_series_to_the_fourth_power(rate: complex) -> None:
    """A method of the fourth order turns y' = a y into the Taylor series of exp(a h)."""
    step = 0.3
    found = stepped(lambda _, state: rate * state, along, 0.0, 1.0 + 0.0j, step)

    series = sum((rate * step) ** power / math.factorial(power) for power in range(5))
    assert cmath.isclose(found, series, rel_tol=1e-14)


def test_rate_that_depends_on_time_alone_is_integrated_by_simpsons_rule() -> None:
    """It is exact for a cubic, from any time."""
    found = stepped(lambda time, _: 4.0 * time**3, along, 1.5, 0.0j, 2.0)

    assert cmath.isclose(found, 3.5**4 - 1.5**4, rel_tol=1e-14)


def test_several_numbers_feel_one_another() -> None:
    """A swing of small size returns after a period; halving the step divides the error by 16."""

    def error(steps: int) -> float:
        state: tuple[float, ...] = (1.0, 0.0)
        step = 2.0 * math.pi / steps
        for number in range(steps):
            state = stepped(
                lambda _, state: (state[1], -state[0]), all_along, number * step, state, step
            )
        return math.dist(state, (1.0, 0.0))

    assert error(50) < 1e-4
    assert error(50) / error(100) == pytest.approx(16.0, rel=0.1)
