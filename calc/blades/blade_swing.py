"""Blade swing: second moments of a blade from the period of a pendulum or of two wires."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.blades.blade_data import HINGE_INERTIA
from calc.constants import STANDARD_GRAVITY
from calc.declaration import Method
from calc.quantity import InputsError, Quantity
from calc.units import ANGLE, INERTIA, LENGTH, MASS, TIME

BLADE_MASS = Quantity("m_b", "Mass of the blade", MASS, above=0.0, example=50.0)
PIVOT_DISTANCE = Quantity("l", "Centre of gravity from the pivot", LENGTH, above=0.0, example=2.18)
HINGE_DISTANCE = Quantity(
    "x_{cg}", "Centre of gravity from the hinge", LENGTH, at_least=0.0, example=2.30
)
PERIOD = Quantity("T", "Period of a full swing", TIME, above=0.0, example=3.455)
SWING_ANGLE = Quantity(
    r"\theta_0",
    "Swing to each side",
    ANGLE,
    at_least=0.0,
    below=math.pi / 2.0,
    covered=(0.0, math.radians(15.0)),
    covered_by="the air and the pivot then change the period by more than the correction",
    example=0.0,
)
INNER_WIRE = Quantity(
    "a_1", "Inner wire from the centre of gravity", LENGTH, above=0.0, example=1.50
)
OUTER_WIRE = Quantity(
    "a_2", "Outer wire from the centre of gravity", LENGTH, above=0.0, example=1.50
)
WIRE_LENGTH = Quantity("h", "Length of the wires", LENGTH, above=0.0, example=3.00)
WIRE_PERIOD = Quantity("T", "Period of a full turn to and fro", TIME, above=0.0, example=3.03)
SMALL_PERIOD = Quantity("T_0", "Period of a very small swing", TIME, above=0.0)
PIVOT_INERTIA = Quantity("I_p", "Second moment about the pivot", INERTIA, above=0.0)
CENTRAL_INERTIA = Quantity(
    "I_{cg}", "Second moment about the centre of gravity", INERTIA, above=0.0
)
SHARE = Quantity("s", "Period of a very small swing over that of the swing")
AGM_STEPS = 8
"""Each step doubles the digits; four do for any swing below a right angle."""


@dataclass(frozen=True, slots=True)
class Swung:
    """Second moments of a blade that was swung about a pivot."""

    pivot_inertia: Annotated[float, PIVOT_INERTIA]
    central_inertia: Annotated[float, CENTRAL_INERTIA]
    hinge_inertia: Annotated[float, HINGE_INERTIA]


@dataclass(frozen=True, slots=True)
class Turned:
    """Second moments of a blade that was turned to and fro on two wires."""

    central_inertia: Annotated[float, CENTRAL_INERTIA]
    hinge_inertia: Annotated[float, HINGE_INERTIA]


def compound_pendulum(
    blade_mass: Annotated[float, BLADE_MASS],
    pivot_distance: Annotated[float, PIVOT_DISTANCE],
    hinge_distance: Annotated[float, HINGE_DISTANCE],
    period: Annotated[float, PERIOD],
    swing_angle: Annotated[float, SWING_ANGLE] = 0.0,
) -> Swung:
    r"""Return the second moments of a blade that swings about a pivot near its root.

    $$ I_p = m_b g l \left(\frac{T_0}{2 \pi}\right)^2, \qquad I_{cg} = I_p - m_b l^2, \qquad
       I = I_{cg} + m_b x_{cg}^2, \qquad
       T_0 = T M\left(1, \cos\frac{\theta_0}{2}\right) $$

    $M$ is the arithmetic-geometric mean, which takes a swing of finite width back to a very small
    one.  The blade is rigid, the pivot has no friction, and the air neither damps nor moves along.
    About the hinge itself $l = x_{cg}$, and the mass counts in $m_b l = S$ alone.

    Args:
        blade_mass: Everything that swings; scalar, kg.
        pivot_distance: Pivot to the centre of gravity; scalar, m.
        hinge_distance: Hinge to the centre of gravity; scalar, m.
        period: Time of one full swing there and back; scalar, s.
        swing_angle: Largest angle from the vertical, 0 for a very small swing; scalar, rad.

    Returns:
        The second moments about pivot, centre of gravity and hinge.

    Raises:
        ValueError: If an argument breaks its limits, or the period is shorter than that of a
            point mass at the centre of gravity.

    Source:
        Thomson, Theory of Vibration with Applications, chapter 2; mean as in DLMF 22.19(i).

    Examples:
        A rod of 3 kg and 2 m about its end swings as a thread of 4/3 m does:

        >>> rod = 2.0 * math.pi * math.sqrt(4.0 / 3.0 / STANDARD_GRAVITY)
        >>> round(compound_pendulum(3.0, 1.0, 1.0, rod).pivot_inertia, 9)
        4.0
    """
    BLADE_MASS.check(blade_mass)
    PIVOT_DISTANCE.check(pivot_distance)
    HINGE_DISTANCE.check(hinge_distance)
    PERIOD.check(period)
    SWING_ANGLE.check(swing_angle)
    small_period: Annotated[float, SMALL_PERIOD] = period * _small_share(swing_angle)
    pivot_inertia = (
        blade_mass * STANDARD_GRAVITY * pivot_distance * (small_period / (2.0 * math.pi)) ** 2
    )
    central_inertia = pivot_inertia - blade_mass * pivot_distance**2
    if central_inertia <= 0.0:
        raise InputsError(
            "The period is shorter than that of a point mass at the centre of gravity: "
            "check period and distance",
            "pivot_distance",
            "period",
        )
    return Swung(
        pivot_inertia=pivot_inertia,
        central_inertia=central_inertia,
        hinge_inertia=central_inertia + blade_mass * hinge_distance**2,
    )


def two_wires(
    blade_mass: Annotated[float, BLADE_MASS],
    inner_wire: Annotated[float, INNER_WIRE],
    outer_wire: Annotated[float, OUTER_WIRE],
    wire_length: Annotated[float, WIRE_LENGTH],
    period: Annotated[float, WIRE_PERIOD],
    hinge_distance: Annotated[float, HINGE_DISTANCE],
) -> Turned:
    r"""Return the second moments of a blade that turns to and fro on two wires.

    $$ I_{cg} = \frac{m_b g a_1 a_2}{h} \left(\frac{T}{2 \pi}\right)^2, \qquad
       I = I_{cg} + m_b x_{cg}^2 $$

    The blade hangs level on two vertical wires of the same length, one on each side of its centre
    of gravity, and turns by a small angle about the vertical line through it.  The wires are light
    and bend freely, and the air neither damps nor moves along.

    Args:
        blade_mass: Everything that hangs on the wires; scalar, kg.
        inner_wire: Centre of gravity to the inner wire; scalar, m.
        outer_wire: Centre of gravity to the outer wire; scalar, m.
        wire_length: Between the points where each wire bends; scalar, m.
        period: Time of one full turn there and back; scalar, s.
        hinge_distance: Hinge to the centre of gravity; scalar, m.

    Returns:
        The second moments about centre of gravity and hinge.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Moment of the tensions of two slanting wires; derived anew.

    Examples:
        >>> turn = 2.0 * math.pi * math.sqrt(2.0 / STANDARD_GRAVITY)
        >>> round(two_wires(3.0, 1.0, 1.0, 2.0, turn, 0.0).central_inertia, 9)
        3.0
    """
    BLADE_MASS.check(blade_mass)
    INNER_WIRE.check(inner_wire)
    OUTER_WIRE.check(outer_wire)
    WIRE_LENGTH.check(wire_length)
    WIRE_PERIOD.check(period)
    HINGE_DISTANCE.check(hinge_distance)
    restoring = blade_mass * STANDARD_GRAVITY * inner_wire * outer_wire / wire_length
    central_inertia = restoring * (period / (2.0 * math.pi)) ** 2
    return Turned(
        central_inertia=central_inertia,
        hinge_inertia=central_inertia + blade_mass * hinge_distance**2,
    )


def _small_share(
    swing_angle: float,
) -> Annotated[float, SHARE, Method("by the arithmetic-geometric mean")]:
    """Return the arithmetic-geometric mean of 1 and the cosine of half the swing."""
    first, second = 1.0, math.cos(swing_angle / 2.0)
    for _ in range(AGM_STEPS):
        first, second = (first + second) / 2.0, math.sqrt(first * second)
    return first
