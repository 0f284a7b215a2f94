"""Coalescence: rotor speeds at which the regressing lag mode meets a support mode."""

import math
from typing import Annotated

from calc.ground.model.aircraft import Rotor, Support, support_frequencies
from calc.ground.quantities import (
    COALESCENCE_SPEED,
    OFFSET_RATIO,
    SPRING_RATE,
    SUPPORT_FREQUENCY,
)


def coalescence_speeds(rotor: Rotor, support: Support) -> tuple[float, ...]:
    r"""Return the rotor speeds at which the lag mode, seen from the hub, meets each support mode.

    $$ \Omega^* - \omega_\xi(\Omega^*) = \omega_x, \qquad
    \omega_\xi^2 = \frac{K_\xi + e S_\xi \Omega^2}{I_\xi}, \qquad
    \omega_x^2 = \frac{K_x}{M_x + N_b m_b} $$

    Squared, it is a quadratic of which the larger root counts:

    $$ \left(1 - \frac{e S_\xi}{I_\xi}\right) \Omega^{*2} - 2 \omega_x \Omega^* + \omega_x^2
    - \frac{K_\xi}{I_\xi} = 0 $$

    It exists for every support mode when $e S_\xi < I_\xi$, and for none otherwise: the lag
    frequency is then above the rotor speed at every speed.

    Args:
        rotor: Blades and lag hinges.
        support: Hub mass without blades, stiffness and damping in two directions.

    Returns:
        The coalescence speeds with the x mode and with the y mode, rad/s, or nothing.

    Raises:
        ValueError: If an input cannot exist.

    Source:
        Coleman and Feingold (1958), the condition; quadratic derived anew.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0)
        >>> support = Support(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
        >>> [round(speed, 2) for speed in coalescence_speeds(rotor, support)]
        [19.19, 28.03]
    """
    offset_ratio = rotor.hinge_offset * rotor.first_moment / rotor.lag_inertia
    spring = rotor.lag_stiffness / rotor.lag_inertia
    return tuple(
        speed
        for frequency in support_frequencies(rotor, support)
        if (speed := coalescence_speed(offset_ratio, spring, frequency)) is not None
    )


def coalescence_speed(
    offset_ratio: Annotated[float, OFFSET_RATIO],
    spring: Annotated[float, SPRING_RATE],
    support_frequency: Annotated[float, SUPPORT_FREQUENCY],
) -> Annotated[float | None, COALESCENCE_SPEED]:
    r"""Return the rotor speed at which the lag mode meets one support mode, or None.

    Args:
        offset_ratio: Hinge offset times first moment over second moment of a blade; scalar.
        spring: Lag spring over second moment of a blade; scalar, 1/s².
        support_frequency: Frequency of the support mode with the blades; scalar, rad/s.

    Returns:
        The rotor speed; scalar, rad/s.

    Source:
        Coleman and Feingold (1958), the condition; quadratic derived anew.
    """
    remainder = 1.0 - offset_ratio
    if remainder <= 0.0:
        return None
    root = math.sqrt(offset_ratio * support_frequency**2 + remainder * spring)
    return (support_frequency + root) / remainder
