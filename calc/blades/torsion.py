"""Torsion: natural frequency of a blade that twists against its control system."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.blades.quantities import BLADE_LENGTH, TURNING_SPEED
from calc.declaration import Method
from calc.numeric.roots import first_root
from calc.quantity import Quantity
from calc.units import (
    ANGULAR_STIFFNESS,
    BENDING_STIFFNESS,
    FIRST_MOMENT,
    FREQUENCY,
    LENGTH,
    PER_REV,
    ROTATION,
    STIFFNESS,
)

TORSIONAL_STIFFNESS = Quantity(
    "GJ", "Torsional stiffness", BENDING_STIFFNESS, above=0.0, example=9000.0
)
TORSIONAL_INERTIA = Quantity(
    r"I_\theta", "Torsional inertia per length", FIRST_MOMENT, above=0.0, example=0.06
)
CONTROL_STIFFNESS = Quantity(
    "k_c", "Control stiffness at the root", ANGULAR_STIFFNESS, at_least=0.0, example=12000.0
)
SECTION_FACTOR = Quantity(
    "p",
    "Propeller moment of the section over that of a flat one",
    at_least=0.0,
    at_most=1.0,
    example=1.0,
)
LINK_STIFFNESS = Quantity("k_l", "Stiffness of the pitch link", STIFFNESS, above=0.0, example=2e6)
SUPPORT_STIFFNESS = Quantity(
    "k_s", "Stiffness of the swashplate at the link", STIFFNESS, above=0.0, example=1e6
)
HORN_ARM = Quantity("h", "Arm of the pitch horn", LENGTH, above=0.0, example=0.14)
ROOT_FACTOR = Quantity("b", "Root factor of the mode", at_least=0.0)
STIFFNESS_RATIO = Quantity(r"\kappa_c", "Control stiffness over that of the blade in torsion")
ANGULAR_FREQUENCY = Quantity(r"\omega_\theta", "Torsion frequency, angular", ROTATION)
TORSION_FREQUENCY = Quantity(r"f_\theta", "Torsion frequency", FREQUENCY, at_least=0.0)
TORSION_RATIO = Quantity(r"\nu_\theta", "Torsion frequency over rotor speed", (PER_REV,))


@dataclass(frozen=True, slots=True)
class Torsion:
    """First torsion frequency of a blade."""

    root_factor: Annotated[float, ROOT_FACTOR]
    frequency: Annotated[float, TORSION_FREQUENCY]
    per_rev: Annotated[float, TORSION_RATIO]


def torsion(
    length: Annotated[float, BLADE_LENGTH],
    torsional_stiffness: Annotated[float, TORSIONAL_STIFFNESS],
    torsional_inertia: Annotated[float, TORSIONAL_INERTIA],
    control_stiffness: Annotated[float, CONTROL_STIFFNESS],
    rotor_speed: Annotated[float, TURNING_SPEED],
    section_factor: Annotated[float, SECTION_FACTOR] = 1.0,
) -> Torsion:
    r"""Return the first torsion frequency of a uniform blade on its control stiffness.

    $$ b \tan b = \frac{k_c L}{GJ}, \qquad
       \omega^2 = \frac{b^2}{L^2} \frac{GJ}{I_\theta} + p \Omega^2 $$

    Uniform blade at flat pitch, with mass axis and twist axis together.  Centrifugal forces turn a
    section towards flat pitch; for a flat section this propeller moment adds exactly one per
    revolution squared, and $p = 1$; in general $p$ is the difference of its two inertias over
    their sum.

    Args:
        length: Root to tip; scalar, m.
        torsional_stiffness: Moment for a twist of one rad/m; scalar, N·m².
        torsional_inertia: Inertia about the twist axis per length; scalar, kg·m.
        control_stiffness: Moment at the root for one radian of pitch; scalar, N·m/rad.
        rotor_speed: Speed of rotation; scalar, rad/s.
        section_factor: Fraction of the full propeller moment; scalar.

    Returns:
        The root factor and the frequency.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Torsional waves in a uniform rod with a spring at its root.

    Examples:
        A very stiff control system leaves a clamped blade, with b a quarter wave.

        >>> round(torsion(5.0, 9000.0, 0.06, 1e12, 40.0).root_factor, 6)
        1.570796
    """
    BLADE_LENGTH.check(length)
    TORSIONAL_STIFFNESS.check(torsional_stiffness)
    TORSIONAL_INERTIA.check(torsional_inertia)
    CONTROL_STIFFNESS.check(control_stiffness)
    TURNING_SPEED.check(rotor_speed)
    SECTION_FACTOR.check(section_factor)
    stiffness_ratio: Annotated[float, STIFFNESS_RATIO] = (
        control_stiffness * length / torsional_stiffness
    )
    root_factor = _root_factor(stiffness_ratio)
    elastic_part = (root_factor / length) ** 2 * torsional_stiffness / torsional_inertia
    angular_frequency: Annotated[float, ANGULAR_FREQUENCY] = math.sqrt(
        elastic_part + section_factor * rotor_speed**2
    )
    return Torsion(
        root_factor=root_factor,
        frequency=angular_frequency / (2.0 * math.pi),
        per_rev=angular_frequency / rotor_speed,
    )


def control_stiffness(
    link_stiffness: Annotated[float, LINK_STIFFNESS],
    support_stiffness: Annotated[float, SUPPORT_STIFFNESS],
    horn_arm: Annotated[float, HORN_ARM],
) -> Annotated[float, CONTROL_STIFFNESS]:
    r"""Return the stiffness against pitch that a link and its support give a blade.

    $$ k_c = \frac{h^2}{1/k_l + 1/k_s} $$

    A swashplate has another stiffness in collective, in cyclic and in reactionless (differential)
    motion, so one blade has several torsion frequencies.

    Args:
        link_stiffness: Force along the pitch link for a metre of its length; scalar, N/m.
        support_stiffness: Force at the swashplate end for a metre of its motion; scalar, N/m.
        horn_arm: Twist axis to the line of the link; scalar, m.

    Returns:
        The stiffness; scalar, N·m/rad.

    Raises:
        ValueError: If an argument is not finite or not above zero.

    Source:
        Springs in series on an arm.

    Examples:
        >>> round(control_stiffness(2e6, 2e6, 0.1), 6)
        10000.0
    """
    LINK_STIFFNESS.check(link_stiffness)
    SUPPORT_STIFFNESS.check(support_stiffness)
    HORN_ARM.check(horn_arm)
    flexibility = 1.0 / link_stiffness + 1.0 / support_stiffness
    return horn_arm**2 / flexibility


def _factor_at(root_factor: Annotated[float, ROOT_FACTOR]) -> Annotated[float, STIFFNESS_RATIO]:
    """Return b tan b."""
    return root_factor * math.tan(root_factor)


def _root_factor(
    stiffness_ratio: float,
) -> Annotated[
    float,
    Method("the root of b tan b in the first quarter wave, by narrowing an interval", _factor_at),
]:
    """Return the root of b tan b = ratio in the first quarter wave."""

    def excess(factor: float) -> float:
        return factor * math.sin(factor) - stiffness_ratio * math.cos(factor)

    return first_root(excess, (0.0, math.pi / 2.0)) or 0.0
