"""Profile: power, torque and drag of the blade sections against advance ratio."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Method
from calc.numeric.quadrature import gauss
from calc.quantity import Quantity
from calc.rotor.quantities import ADVANCE_RATIO

PROFILE_RATIO = replace(
    ADVANCE_RATIO,
    at_most=10.0,
    covered=(0.0, 1.0),
    covered_by="above it the whole retreating blade meets the air from behind",
    example=0.35,
)
POWER_FACTOR = Quantity("F", "Profile power factor")
TORQUE_FACTOR = Quantity("F_Q", "Profile torque factor")
IN_PLANE_FACTOR = Quantity("F_H", "Profile drag factor of the disc")
SMALL_RATIO_FACTOR = Quantity("F_s", "Profile power factor by the rule 1 + 4.65 μ²")
AZIMUTHS = 20
"""Points over half a turn: ten digits up to an advance ratio of 1."""


@dataclass(frozen=True, slots=True)
class ProfileFactors:
    """What profile drag asks of a rotor in forward flight, over what it asks in hover."""

    power: Annotated[float, POWER_FACTOR]
    torque: Annotated[float, TORQUE_FACTOR]
    in_plane: Annotated[float, IN_PLANE_FACTOR]
    rule: Annotated[float, SMALL_RATIO_FACTOR]


def profile_factors(advance_ratio: Annotated[float, PROFILE_RATIO]) -> ProfileFactors:
    r"""Return the factors of profile power, torque and in-plane force of a rotor.

    $$ F = 4 \left\langle \int_0^1 U^3 dx \right\rangle = F_Q + \mu F_H, \qquad
    F_Q = 4 \left\langle \int_0^1 U u_T x \, dx \right\rangle, \qquad
    F_H = 4 \left\langle \int_0^1 U (u_T \sin \psi + u_R \cos \psi) \, dx \right\rangle $$
    $$ u_T = x + \mu \sin \psi, \qquad u_R = \mu \cos \psi, \qquad U = \sqrt{u_T^2 + u_R^2} $$

    The drag of each section lies along the local wind, with one drag coefficient everywhere, in
    the reverse flow too; the brackets are the mean over azimuth.

    Args:
        advance_ratio: Airspeed in the plane of the disc over tip speed; scalar.

    Returns:
        The factors, and the power factor by the rule of thumb for comparison.

    Raises:
        ValueError: If the advance ratio breaks its limits.

    Source:
        Integrals of the definition; the rule 1 + 4.65 μ² is common in textbooks (from memory).

    Examples:
        >>> factors = profile_factors(0.3)
        >>> round(factors.power, 6), round(factors.torque, 6), round(factors.in_plane, 6)
        (1.423631, 1.130312, 0.977727)
    """
    PROFILE_RATIO.check(advance_ratio)
    torque = torque_factor(advance_ratio)
    in_plane = in_plane_factor(advance_ratio)
    return ProfileFactors(
        power=torque + advance_ratio * in_plane,
        torque=torque,
        in_plane=in_plane,
        rule=1 + 4.65 * advance_ratio**2,
    )


def torque_factor(
    advance_ratio: float,
) -> Annotated[float, Method("in closed form over the radius, by Gauss's rule over azimuth")]:
    """Return the factor of profile torque."""
    return means(advance_ratio)[0]


def in_plane_factor(
    advance_ratio: float,
) -> Annotated[float, Method("in closed form over the radius, by Gauss's rule over azimuth")]:
    """Return the factor of the drag of the blades in the plane of the disc."""
    return means(advance_ratio)[1]


def means(advance_ratio: float) -> tuple[float, float]:
    r"""Return the factors of torque and of in-plane drag.

    Over the radius the integrals are closed.  With $u$ from $\mu \sin \psi$ to $1 + \mu \sin \psi$
    and $b = \mu \cos \psi$, $U = \sqrt{u^2 + b^2}$:
    $\int U du = (u U + b^2 l)/2$, $\int U u \, du = U^3/3$,
    $\int U u^2 du = u U^3/4 - b^2 (u U + b^2 l)/8$, where $l = \operatorname{arsinh}(u/b)$.
    Both halves of the disc, left and right of the flight path, are alike in azimuth.
    """
    torque: list[float] = []
    in_plane: list[float] = []  # summed without rounding: in hover it is nought
    for point, weight in gauss(AZIMUTHS):
        azimuth = 0.5 * math.pi * point
        sine, cosine = math.sin(azimuth), math.cos(azimuth)
        inner, across = advance_ratio * sine, (advance_ratio * cosine) ** 2
        outer = 1.0 + inner
        fast, slow = math.sqrt(outer**2 + across), math.sqrt(inner**2 + across)
        plain = outer * fast - inner * slow
        if across > 0.0:
            width = math.sqrt(across)
            plain += across * (math.asinh(outer / width) - math.asinh(inner / width))
        once = (fast**3 - slow**3) / 3.0
        twice = 0.25 * (outer * fast**3 - inner * slow**3) - 0.125 * across * plain
        torque.append(weight * (twice - inner * once))
        in_plane.append(weight * (sine * once + 0.5 * advance_ratio * cosine**2 * plain))
    return 2.0 * math.fsum(torque), 2.0 * math.fsum(in_plane)


def profile_chart(advance_ratio: float, found: ProfileFactors) -> Chart:
    """Return the factors against advance ratio, with the one asked for."""
    highest = max(0.6, 1.2 * advance_ratio)
    ratios = [highest * step / 40 for step in range(41)]
    factors = [profile_factors(min(ratio, 10.0)) for ratio in ratios]
    return Chart(
        title="Profile power and torque factors against advance ratio",
        description="Lines of the profile power factor, the profile torque factor and the in-plane "
        "factor; power rises fastest.",
        x=Axis.of(ADVANCE_RATIO, 0.0, highest),
        y=Axis("Factor", low=0.0),
        marks=(
            Line([(r, f.power) for r, f in zip(ratios, factors, strict=True)], "power", 1),
            Line([(r, f.torque) for r, f in zip(ratios, factors, strict=True)], "torque", 2),
            Line([(r, f.in_plane) for r, f in zip(ratios, factors, strict=True)], "drag", 3),
            Points([(advance_ratio, found.power)], "asked for", 4),
        ),
    )
