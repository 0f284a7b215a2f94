"""Rigid blade: flap and lag frequency of a stiff blade on an offset, sprung hinge."""

import math
from typing import Annotated

from calc.blades.quantities import (
    FLAP_HINGE_SPRING,
    FLAP_INERTIA,
    FLAP_MOMENT,
    FLAP_RATIO,
    HINGE_OFFSET,
    LAG_HINGE_SPRING,
    LAG_INERTIA,
    LAG_MOMENT,
    LAG_RATIO,
    RADIUS,
    TURNING_SPEED,
)
from calc.quantity import Quantity
from calc.units import SHARE

OFFSET_RATIO = Quantity(r"\bar{e}", "Hinge offset over radius", SHARE, at_least=0.0, below=1.0)


def flap_frequency_ratio(
    hinge_offset: Annotated[float, HINGE_OFFSET],
    first_moment: Annotated[float, FLAP_MOMENT],
    flap_inertia: Annotated[float, FLAP_INERTIA],
    rotor_speed: Annotated[float, TURNING_SPEED],
    hinge_stiffness: Annotated[float, FLAP_HINGE_SPRING] = 0.0,
) -> Annotated[float, FLAP_RATIO]:
    r"""Return the flap frequency of a rigid blade over rotor speed.

    $$ \nu_\beta = \sqrt{1 + \frac{e S_\beta}{I_\beta} + \frac{k_\beta}{I_\beta \Omega^2}} $$

    The blade is rigid and flaps by small angles at zero pitch, without air and gravity; the
    spring is slack at zero angle.  The 1 is there because the centrifugal force stays parallel to
    the plane of rotation as the blade flaps.

    Args:
        hinge_offset: Rotor axis to flap hinge; scalar, m.
        first_moment: Mass times distance from the hinge, summed; scalar, kg·m.
        flap_inertia: Mass times distance from the hinge squared, summed; scalar, kg·m².
        rotor_speed: Speed of rotation; scalar, rad/s.
        hinge_stiffness: Spring about the hinge; scalar, N·m/rad.

    Returns:
        The frequency in cycles per revolution; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Moment balance about the hinge.

    Examples:
        A uniform blade whose hinge sits at 4 per cent of the radius:

        >>> round(flap_frequency_ratio(0.04, 0.96**2 / 2.0, 0.96**3 / 3.0, 30.0), 6)
        1.030776
    """
    HINGE_OFFSET.check(hinge_offset)
    FLAP_MOMENT.check(first_moment)
    FLAP_INERTIA.check(flap_inertia)
    TURNING_SPEED.check(rotor_speed)
    FLAP_HINGE_SPRING.check(hinge_stiffness)
    offset_part = hinge_offset * first_moment / flap_inertia
    spring_part = hinge_stiffness / (flap_inertia * rotor_speed**2)
    return math.sqrt(1.0 + offset_part + spring_part)


def lag_frequency_ratio(
    hinge_offset: Annotated[float, HINGE_OFFSET],
    first_moment: Annotated[float, LAG_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    rotor_speed: Annotated[float, TURNING_SPEED],
    hinge_stiffness: Annotated[float, LAG_HINGE_SPRING] = 0.0,
) -> Annotated[float, LAG_RATIO]:
    r"""Return the lag frequency of a rigid blade over rotor speed.

    $$ \nu_\xi = \sqrt{\frac{e S_\xi}{I_\xi} + \frac{k_\xi}{I_\xi \Omega^2}} $$

    As for flap, but the 1 is missing: the centrifugal force points away from the shaft, so that it
    turns with a blade that lags and restores it through the hinge offset alone.

    Args:
        hinge_offset: Rotor axis to lag hinge; scalar, m.
        first_moment: Mass times distance from the hinge, summed; scalar, kg·m.
        lag_inertia: Mass times distance from the hinge squared, summed; scalar, kg·m².
        rotor_speed: Speed of rotation; scalar, rad/s.
        hinge_stiffness: Spring about the hinge; scalar, N·m/rad.

    Returns:
        The frequency in cycles per revolution; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Moment balance about the hinge.

    Examples:
        >>> round(lag_frequency_ratio(0.04, 0.96**2 / 2.0, 0.96**3 / 3.0, 30.0), 6)
        0.25
    """
    HINGE_OFFSET.check(hinge_offset)
    LAG_MOMENT.check(first_moment)
    LAG_INERTIA.check(lag_inertia)
    TURNING_SPEED.check(rotor_speed)
    LAG_HINGE_SPRING.check(hinge_stiffness)
    offset_part = hinge_offset * first_moment / lag_inertia
    spring_part = hinge_stiffness / (lag_inertia * rotor_speed**2)
    return math.sqrt(offset_part + spring_part)


def uniform_flap_frequency_ratio(
    hinge_offset: Annotated[float, HINGE_OFFSET], radius: Annotated[float, RADIUS]
) -> Annotated[float, FLAP_RATIO]:
    r"""Return the flap frequency ratio of a uniform blade on a free, offset hinge.

    $$ \nu_\beta = \sqrt{1 + \frac{3}{2} \frac{\bar{e}}{1 - \bar{e}}}, \qquad
       \bar{e} = \frac{e}{R} $$

    Leaving out the $1 - \bar{e}$ makes the increase over one too small by the fraction $\bar{e}$.

    Args:
        hinge_offset: Rotor axis to flap hinge; scalar, m.
        radius: Rotor axis to blade tip; scalar, m.

    Returns:
        The frequency in cycles per revolution; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or the hinge is not inboard
            of the tip.

    Source:
        Moment balance about the hinge, with the moments of a uniform rod.

    Examples:
        >>> round(uniform_flap_frequency_ratio(0.2, 5.0), 6)
        1.030776
    """
    HINGE_OFFSET.check(hinge_offset)
    RADIUS.check(radius)
    offset_ratio = hinge_offset / radius
    OFFSET_RATIO.check(offset_ratio)
    return math.sqrt(1.0 + 1.5 * offset_ratio / (1.0 - offset_ratio))


def equivalent_hinge_offset(
    flap_frequency_ratio: Annotated[float, FLAP_RATIO],
) -> Annotated[float, OFFSET_RATIO]:
    r"""Return the hinge offset at which a uniform blade has a given flap frequency ratio.

    $$ \bar{e} = \frac{\delta}{3/2 + \delta}, \qquad \delta = \nu_\beta^2 - 1 $$

    It stands for a hingeless blade in a model with free hinges; the frequency agrees, the shape
    of the blade does not.

    Args:
        flap_frequency_ratio: Flap frequency in cycles per revolution; scalar.

    Returns:
        The hinge offset over the radius; scalar.

    Raises:
        ValueError: If the ratio is not finite or below one.

    Source:
        The flap frequency of a uniform blade, solved for its offset.

    Examples:
        >>> round(equivalent_hinge_offset(1.12), 4)
        0.145
    """
    FLAP_RATIO.check(flap_frequency_ratio)
    increase = flap_frequency_ratio**2 - 1.0
    return increase / (1.5 + increase)
