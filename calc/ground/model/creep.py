"""Creep: lag motion that is damped so heavily that it comes back without swinging."""

import math
from collections.abc import Iterable

from calc.ground.model.aircraft import Rotor

NEAR = 0.2  # how near to the creep of a blade alone a motion counts as creep, as a share of it


def creep_rates(rotor: Rotor, rotor_speed: float, lag_dampings: Iterable[float]) -> list[float]:
    """Return how fast blades alone creep back whose dampers are too heavy for them to swing, 1/s.

    Such a motion is slow, but it is no resonance: it is left out of what is least damped, unless
    it grows.
    """
    square = rotor.lag_frequency(rotor_speed) ** 2
    halves = {0.5 * damping / rotor.lag_inertia for damping in lag_dampings}
    return [
        -square / (half + math.sqrt(half**2 - square))
        for half in halves
        if half**2 > square and half < math.inf
    ]


def is_creep(value: complex, creeps: Iterable[float]) -> bool:
    """Return whether an exponent, seen from the rotating blades, is of a blade that creeps back."""
    return value.real <= 0.0 and any(abs(value - creep) <= NEAR * -creep for creep in creeps)


def swinging(rotor: Rotor, rotor_speed: float, values: Iterable[complex]) -> list[complex]:
    """Return the eigenvalues of the fixed frame that are no creep of the blades, all if none is.

    A crew can excite and measure these; creep shows itself to the airframe at about once per
    revolution, where imbalance hides it.

    Args:
        rotor: Blades alike.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        values: Eigenvalues in the fixed frame, 1/s and rad/s.

    Returns:
        Those that swing, or that grow.
    """
    found = list(values)
    creeps = creep_rates(rotor, rotor_speed, (rotor.lag_damping,))
    if not creeps:
        return found
    return [s for s in found if not is_creep(in_rotation(s, rotor_speed), creeps)] or found


def in_rotation(value: complex, rotor_speed: float) -> complex:
    """Return an eigenvalue of the fixed frame as the rotating blades see it."""
    return complex(value.real, abs(value.imag) - rotor_speed)
