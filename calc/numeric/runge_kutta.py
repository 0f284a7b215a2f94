"""Runge-Kutta: one step in time of a state whose rate of change is known."""

from collections.abc import Callable
from typing import TypeVar

State = TypeVar("State")


def stepped(
    rate: Callable[[float, State], State],
    moved: Callable[[State, float, State], State],
    time: float,
    state: State,
    step: float,
) -> State:
    r"""Return a state one step later, by the classical fourth-order Runge-Kutta method.

    $$ k_1 = f(t, y), \quad k_2 = f(t + h/2, y + h k_1 / 2), \quad
    k_3 = f(t + h/2, y + h k_2 / 2), \quad k_4 = f(t + h, y + h k_3) $$
    $$ y(t + h) = y + \tfrac{h}{6} (k_1 + 2 k_2 + 2 k_3 + k_4) $$

    A state is one number or several; only `moved` need know which.

    Args:
        rate: The rate of change at a time and a state.
        moved: The state that a time and a rate of change lead to from another: `along`, for a
            number, or `all_along`, for several.
        time: Time at the start of the step; scalar, s.
        state: State at that time.
        step: Length of the step; scalar, s.

    Returns:
        The state at the end of the step.

    Source:
        Kutta (1901), the classical method, from memory.

    Examples:
        >>> round(stepped(lambda time, state: time**3, along, 0.0, 0.0, 2.0), 12)
        4.0
    """
    half, sixth = 0.5 * step, step / 6.0
    first = rate(time, state)
    second = rate(time + half, moved(state, half, first))
    third = rate(time + half, moved(state, half, second))
    fourth = rate(time + step, moved(state, step, third))
    outer = moved(moved(state, sixth, first), sixth, fourth)
    return moved(moved(outer, 2.0 * sixth, second), 2.0 * sixth, third)


def along(state: complex, step: float, rate: complex) -> complex:
    """Return the number that another becomes in a time at a rate of change."""
    return state + step * rate


def all_along(state: tuple[float, ...], step: float, rates: tuple[float, ...]) -> tuple[float, ...]:
    """Return the numbers that others become in a time at their rates of change."""
    return tuple([value + step * rate for value, rate in zip(state, rates, strict=True)])
