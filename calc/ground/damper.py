"""Lag dampers: what a damper of any kind is worth as a lag damper about the lag hinge."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.ground.quantities import LAG_DAMPING, LAG_STIFFNESS, THREE_BLADES
from calc.quantity import Quantity
from calc.units import (
    ANGULAR_STIFFNESS,
    DAMPING,
    FREQUENCY,
    LENGTH,
)

DAMPER_RATE = Quantity("c", "Damper rate", DAMPING, at_least=0.0, example=62500.0)
ARM = Quantity("a", "Arm of the damper about the lag hinge", LENGTH, above=0.0, example=0.2)
DAMPERS_PER_BLADE = Quantity(
    "n", "Dampers on one blade", at_least=1, at_most=4, whole=True, example=1
)
STORAGE_STIFFNESS = Quantity(
    "K'",
    "Elastic part of the complex stiffness",
    ANGULAR_STIFFNESS,
    at_least=0.0,
    example=20000.0,
)
LOSS_STIFFNESS = Quantity(
    "K''", "Loss part of the complex stiffness", ANGULAR_STIFFNESS, at_least=0.0, example=9000.0
)
LAG_FREQUENCY = Quantity(
    r"f_\xi", "Lag frequency in the rotating frame", FREQUENCY, above=0.0, example=1.35
)
INTERBLADE_DAMPING = Quantity(
    "c_{ib}",
    "Damper between neighbouring blades",
    LAG_DAMPING.units,
    at_least=0.0,
    example=1500.0,
)
LAG_DAMPING_OF_DAMPER = Quantity(r"C_\xi", "Lag damper of one blade", LAG_DAMPING.units)
LAG_STIFFNESS_OF_DAMPER = Quantity(r"K_\xi", "Lag spring of one blade", LAG_STIFFNESS.units)


@dataclass(frozen=True, slots=True)
class LagElement:
    """A spring and a damper of one blade about its lag hinge."""

    lag_stiffness: Annotated[float, LAG_STIFFNESS_OF_DAMPER]
    lag_damping: Annotated[float, LAG_DAMPING_OF_DAMPER]


def linear_damper(
    damper_rate: Annotated[float, DAMPER_RATE],
    arm: Annotated[float, ARM],
    dampers_per_blade: Annotated[int, DAMPERS_PER_BLADE] = 1,
) -> Annotated[float, LAG_DAMPING_OF_DAMPER]:
    r"""Return the lag damping of a blade with linear dampers at an arm about the lag hinge.

    $$ C_\xi = n c a^2 $$

    The damper moves along its own axis at right angles to the arm; small angles.

    Args:
        damper_rate: Force over speed along the damper; scalar, N·s/m.
        arm: Distance of the damper's axis from the lag hinge; scalar, m.
        dampers_per_blade: Dampers that act on one blade; scalar.

    Returns:
        Lag damping of one blade; scalar, N·m·s/rad.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Moment equals force times arm, and speed equals rate times arm.

    Examples:
        >>> round(linear_damper(62500.0, 0.2), 6)
        2500.0
    """
    DAMPER_RATE.check(damper_rate)
    ARM.check(arm)
    DAMPERS_PER_BLADE.check(dampers_per_blade)
    return dampers_per_blade * damper_rate * arm**2


def elastomeric_damper(
    storage_stiffness: Annotated[float, STORAGE_STIFFNESS],
    loss_stiffness: Annotated[float, LOSS_STIFFNESS],
    lag_frequency: Annotated[float, LAG_FREQUENCY],
) -> LagElement:
    r"""Return the lag spring and the lag damper that equal an elastomeric damper.

    $$ K_\xi = K', \qquad C_\xi = \frac{K''}{2 \pi f_\xi} $$

    The frequency is the one that the damper feels: that of the lag motion in the rotating frame,
    not the difference from the rotor speed that the hub feels.  Both parts change with amplitude
    and temperature; take those of the amplitude and temperature in question.

    Args:
        storage_stiffness: Elastic part, about the lag hinge; scalar, N·m/rad.
        loss_stiffness: Loss part, about the lag hinge; scalar, N·m/rad.
        lag_frequency: Frequency of the lag motion in the rotating frame; scalar, Hz.

    Returns:
        Spring and damper of one blade.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Equal energy lost in a cycle; derived anew.

    Examples:
        >>> round(elastomeric_damper(20000.0, 9000.0, 1.35).lag_damping, 1)
        1061.0
    """
    STORAGE_STIFFNESS.check(storage_stiffness)
    LOSS_STIFFNESS.check(loss_stiffness)
    LAG_FREQUENCY.check(lag_frequency)
    angular_frequency = 2.0 * math.pi * lag_frequency
    return LagElement(
        lag_stiffness=storage_stiffness, lag_damping=loss_stiffness / angular_frequency
    )


def interblade_damper(
    blades: Annotated[int, THREE_BLADES], interblade_damping: Annotated[float, INTERBLADE_DAMPING]
) -> Annotated[float, LAG_DAMPING_OF_DAMPER]:
    r"""Return the lag damping to the hub that damps cyclic lag as dampers between blades do.

    $$ C_\xi = 2 \left(1 - \cos\frac{2 \pi}{N_b}\right) c_{ib} $$

    Only the two cyclic lag motions, which move the hub, are damped as stated; the collective
    motion is not damped at all.

    Args:
        blades: Number of blades; scalar.
        interblade_damping: Damper between two neighbours, about the lag hinges; scalar, N·m·s/rad.

    Returns:
        Equivalent lag damping of one blade; scalar, N·m·s/rad.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Multiblade coordinates of a ring of dampers; derived anew.

    Examples:
        >>> [round(interblade_damper(blades, 1.0), 3) for blades in (3, 4, 5)]
        [3.0, 2.0, 1.382]
    """
    THREE_BLADES.check(blades)
    INTERBLADE_DAMPING.check(interblade_damping)
    return 2.0 * (1.0 - math.cos(2.0 * math.pi / blades)) * interblade_damping
