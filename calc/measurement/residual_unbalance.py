"""Residual unbalance: what a grade permits, the force of a weight, and what errors leave."""

import cmath
import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.quantity import Quantity
from calc.units import (
    ANGLE,
    FORCE,
    LENGTH,
    MASS,
    PER_CENT,
    ROTATION,
    SHARE,
    SMALL_MASS,
    UNBALANCE,
    VIBRATION_DISPLACEMENT,
    VIBRATION_VELOCITY,
)

ROTOR_MASS = Quantity("m", "Mass of the rigid rotor", MASS, above=0.0, example=38.0)
SPEED = Quantity(r"\Omega", "Rotor speed", ROTATION, above=0.0, example=1150.0 * math.pi / 30.0)
GRADE = Quantity("G", "Balance quality grade", VIBRATION_VELOCITY, above=0.0, example=6.3e-3)
PERMISSIBLE = Quantity("U_{per}", "Permissible residual unbalance", UNBALANCE)
ECCENTRICITY = Quantity("e_{per}", "Permissible eccentricity", VIBRATION_DISPLACEMENT)
WEIGHT = Quantity("m_u", "Weight out of balance", SMALL_MASS, at_least=0.0, example=0.050)
WEIGHT_RADIUS = Quantity("r", "Radius of the weight", LENGTH, at_least=0.0, example=0.18)
UNBALANCE_FORCE = Quantity("F", "Force of the unbalance", FORCE)
AMPLITUDE_ERROR = Quantity(
    r"\epsilon",
    "Error of the effect in amplitude",
    SHARE,
    at_least=-1.0,
    at_most=10.0,
    example=0.10,
)
PHASE_ERROR = Quantity(
    r"\phi",
    "Error of the effect in angle",
    ANGLE,
    at_least=-math.pi,
    at_most=math.pi,
    example=math.radians(10.0),
)
RESIDUAL = Quantity("k", "Residual over the first reading", PER_CENT)


@dataclass(frozen=True, slots=True)
class Permissible:
    """What a grade permits of a rotor."""

    unbalance: Annotated[float, PERMISSIBLE]
    eccentricity: Annotated[float, ECCENTRICITY]


def permissible_unbalance(
    mass: Annotated[float, ROTOR_MASS],
    rotor_speed: Annotated[float, SPEED],
    grade: Annotated[float, GRADE],
) -> Annotated[float, PERMISSIBLE]:
    r"""Return the residual unbalance that a balance quality grade permits.

    $$ U_{per} = \frac{G m}{\Omega} $$

    For rigid rotors in bearings; the grade is the velocity of the centre of mass of a rotor that
    turns free in space, and no velocity of a casing.

    Args:
        mass: Of the whole rotor; scalar, kg.
        rotor_speed: Highest speed in service; scalar, rad/s.
        grade: The number of the grade, a velocity; scalar, m/s.

    Returns:
        The unbalance of all planes together; scalar, kg·m.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        ISO 21940-11 (2016); its text was not read.

    Examples:
        >>> round(permissible_unbalance(10.0, 628.3185, 2.5e-3), 9)
        3.9789e-05
    """
    ROTOR_MASS.check(mass)
    SPEED.check(rotor_speed)
    GRADE.check(grade)
    return grade * mass / rotor_speed


def permissible(
    mass: Annotated[float, ROTOR_MASS],
    rotor_speed: Annotated[float, SPEED],
    grade: Annotated[float, GRADE],
) -> Permissible:
    r"""Return the residual unbalance and the eccentricity that a balance quality grade permits.

    $$ U_{per} = \frac{G m}{\Omega}, \qquad e_{per} = \frac{G}{\Omega} $$

    For rigid rotors in bearings; the grade is the velocity of the centre of mass of a rotor that
    turns free in space, and no velocity of a casing.

    Args:
        mass: Of the whole rotor; scalar, kg.
        rotor_speed: Highest speed in service; scalar, rad/s.
        grade: The number of the grade, a velocity; scalar, m/s.

    Returns:
        The unbalance of all planes together, and the eccentricity of the centre of mass.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        ISO 21940-11 (2016); its text was not read.

    Examples:
        >>> round(permissible(300.0, 27.0, 6.3e-3).unbalance, 9)
        0.07
    """
    ROTOR_MASS.check(mass)
    SPEED.check(rotor_speed)
    GRADE.check(grade)
    return Permissible(
        unbalance=permissible_unbalance(mass, rotor_speed, grade),
        eccentricity=grade / rotor_speed,
    )


def unbalance_force(
    mass: Annotated[float, WEIGHT],
    radius: Annotated[float, WEIGHT_RADIUS],
    rotor_speed: Annotated[float, SPEED],
) -> Annotated[float, UNBALANCE_FORCE]:
    r"""Return the rotating force of a weight on a rotor.

    $$ F = m_u r \Omega^2 $$

    Args:
        mass: Of the weight; scalar, kg.
        radius: From the shaft axis to its centre; scalar, m.
        rotor_speed: Angular speed; scalar, rad/s.

    Returns:
        The force, which also loads what holds the weight; scalar, N.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Newton's law on a circle.

    Examples:
        >>> unbalance_force(0.5, 2.0, 10.0)
        100.0
    """
    WEIGHT.check(mass)
    WEIGHT_RADIUS.check(radius)
    SPEED.check(rotor_speed)
    return mass * radius * rotor_speed**2


def expected_residual(
    amplitude_error: Annotated[float, AMPLITUDE_ERROR],
    phase_error: Annotated[float, PHASE_ERROR],
) -> Annotated[float, RESIDUAL]:
    r"""Return what a correction leaves when the effect of a weight was taken wrongly.

    $$ k = \left| 1 - (1 + \epsilon) \mathrm{e}^{\mathrm{i} \phi} \right|
         = \sqrt{\epsilon^2 + 4 (1 + \epsilon) \sin^2 \tfrac{\phi}{2}} $$

    An error of 60 deg alone leaves as much as there was.

    Args:
        amplitude_error: True effect over the one that was used, less one; scalar.
        phase_error: By what angle the true effect leads the one that was used; scalar, rad.

    Returns:
        The residual over the reading before; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Difference of two vectors.

    Examples:
        >>> round(expected_residual(0.0, math.radians(60.0)), 9)
        1.0
    """
    AMPLITUDE_ERROR.check(amplitude_error)
    PHASE_ERROR.check(phase_error)
    return math.sqrt(
        amplitude_error**2 + 4.0 * (1.0 + amplitude_error) * math.sin(phase_error / 2.0) ** 2
    )


def expected_residual_chart(amplitude_error: float, phase_error: float) -> Chart:
    """Return the residual over the error in angle, for the amplitude error given and for none."""
    turns = [math.radians(float(step)) for step in range(-90, 91, 2)]

    def line(error: float) -> list[tuple[float, float]]:
        return [(turn, abs(1.0 - (1.0 + error) * cmath.exp(1j * turn))) for turn in turns]

    here = abs(1.0 - (1.0 + amplitude_error) * cmath.exp(1j * phase_error))
    return Chart(
        title="Residual after one correction",
        description="The residual over the first reading against the error in angle; above one "
        "the correction makes things worse.",
        x=Axis.of(PHASE_ERROR, turns[0], turns[-1]),
        y=Axis.of(RESIDUAL, 0.0),
        marks=(
            Line(line(amplitude_error), "amplitude error given", 1),
            Line(line(0.0), "no amplitude error", 2),
            Points([(phase_error, here)], "here", 3),
            Rule(1.0, "y", "no gain"),
        ),
    )
