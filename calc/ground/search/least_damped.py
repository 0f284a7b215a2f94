"""Least damped: the lowest damping ratio over a sweep of rotor speed, and which motion has it."""

import math
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Annotated, NamedTuple

from calc.declaration import Method
from calc.ground.model.aircraft import Rotor
from calc.ground.model.creep import swinging
from calc.ground.quantities import ROTOR_SPEED
from calc.ground.search import sweep
from calc.quantity import Quantity
from calc.units import FREQUENCY, ONE, PERCENT
from calc.vocabulary import DAMPING_RATIO

LEAST_DAMPING_RATIO = replace(
    DAMPING_RATIO,
    symbol=r"\zeta_{min}",
    label="Least damping ratio",
    units=(PERCENT, ONE),
    at_least=-math.inf,
    below=math.inf,
)
LEAST_DAMPED_SPEED = replace(
    ROTOR_SPEED, symbol=r"\Omega_\zeta", label="Rotor speed of the least damping"
)
LEAST_DAMPED_FREQUENCY = Quantity(r"f_\zeta", "Frequency of the least damped motion", FREQUENCY)
PERCENT_CRITICAL = replace(DAMPING_RATIO, units=(PERCENT, ONE), at_least=-math.inf, below=math.inf)
LEAST_STABLE_FREQUENCY = Quantity("f", "Frequency", FREQUENCY)


class LeastDamped(NamedTuple):
    """The least damped motion of a sweep: rotor speed in rad/s, damping ratio, frequency in Hz."""

    rotor_speed: float
    damping_ratio: float
    frequency: float


def least_damped(
    rotor: Rotor, eigenvalues: Callable[[float], Iterable[complex]], speeds: Iterable[float]
) -> Annotated[LeastDamped, Method("the lowest damping ratio of all motions in the fixed frame")]:
    """Return the least damped motion of a sweep, searched between its speeds too.

    Args:
        rotor: Blades alike.
        eigenvalues: What gives the eigenvalues in the fixed frame at a rotor speed in rad/s.
        speeds: Rotor speeds of the sweep in ascending order, at least two.

    Returns:
        The motion with the lowest damping ratio.
    """

    def lowest(speed: float) -> complex:
        return min(swinging(rotor, speed, eigenvalues(speed)), key=ratio)

    def damping(speed: float) -> float:
        return -ratio(lowest(speed))

    speed, _ = sweep.peak(damping, [(speed, damping(speed)) for speed in speeds], 1e-5)
    found = lowest(speed)
    return LeastDamped(speed, ratio(found), abs(found.imag) / (2.0 * math.pi))


def ratio(value: complex) -> float:
    """Return the damping ratio of an eigenvalue; one where nothing moves."""
    return -value.real / abs(value) if value else 1.0
