"""Advance ratio, and the reverse flow on the retreating side."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.quantity import Quantity
from calc.rotor.quantities import (
    ADVANCE_RATIO,
    AIRSPEED,
    DISC_INCIDENCE,
    RADIUS,
    ROTOR_SPEED,
    TIP_SPEED,
)
from calc.rotor.tip_speed import tip_speed
from calc.units import ANGLE, SHARE, SPEED

RADIAL_STATION = Quantity("x", "Radial station", SHARE, at_least=0.0, at_most=1.0, example=0.75)
AZIMUTH = Quantity(
    r"\psi", "Azimuth, zero aft, 90 deg on the advancing side", ANGLE, example=1.5 * math.pi
)
BLADE_AIRSPEED = Quantity("U_T", "Speed of the air over the blade, from the leading edge", SPEED)
REVERSE_FLOW_FRACTION = Quantity("A_r/A", "Reverse-flow fraction of the disc area", SHARE)
REVERSED_SPAN = Quantity("r_r/R", "Reverse-flow fraction of the retreating blade", SHARE)


@dataclass(frozen=True, slots=True)
class ReverseFlow:
    """How much of the rotor the air flows over from the trailing edge."""

    advance_ratio: Annotated[float, ADVANCE_RATIO]
    reverse_flow_fraction: Annotated[float, REVERSE_FLOW_FRACTION]
    reversed_span: Annotated[float, REVERSED_SPAN]


def advance_ratio(
    airspeed: Annotated[float, AIRSPEED],
    tip_speed: Annotated[float, TIP_SPEED],
    disc_incidence: Annotated[float, DISC_INCIDENCE] = 0.0,
) -> Annotated[float, ADVANCE_RATIO]:
    r"""Return the airspeed in the plane of the disc over the tip speed.

    $$ \mu = \frac{V \cos \alpha}{V_t} $$

    Args:
        airspeed: True airspeed; scalar, m/s.
        tip_speed: Speed of the tips due to rotation; scalar, m/s.
        disc_incidence: Angle of the disc to the flight path, nose down positive; scalar, rad.

    Returns:
        The advance ratio; scalar.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics (from memory).

    Examples:
        >>> advance_ratio(66.0, 220.0)
        0.3
    """
    AIRSPEED.check(airspeed)
    TIP_SPEED.check(tip_speed)
    DISC_INCIDENCE.check(disc_incidence)
    return airspeed * math.cos(disc_incidence) / tip_speed


def blade_airspeed(
    radial_station: Annotated[float, RADIAL_STATION],
    azimuth: Annotated[float, AZIMUTH],
    airspeed: Annotated[float, AIRSPEED],
    tip_speed: Annotated[float, TIP_SPEED],
) -> Annotated[float, BLADE_AIRSPEED]:
    r"""Return the speed of the air over a blade section, square to the blade and in the disc.

    $$ U_T = x V_t + V \sin \psi $$

    Below zero the air comes from the trailing edge: reverse flow.

    Args:
        radial_station: Distance from the shaft axis over the radius; scalar.
        azimuth: Blade angle, zero aft, 90 deg on the advancing side; scalar, rad.
        airspeed: True airspeed in the plane of the disc; scalar, m/s.
        tip_speed: Speed of the tips due to rotation; scalar, m/s.

    Returns:
        The speed, positive from the leading edge; scalar, m/s.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics (from memory).

    Examples:
        >>> round(blade_airspeed(0.25, math.radians(270.0), 66.0, 220.0), 6)
        -11.0
    """
    RADIAL_STATION.check(radial_station)
    AZIMUTH.check(azimuth)
    AIRSPEED.check(airspeed)
    TIP_SPEED.check(tip_speed)
    return radial_station * tip_speed + airspeed * math.sin(azimuth)


def reverse_flow_fraction(
    advance_ratio: Annotated[float, ADVANCE_RATIO],
) -> Annotated[float, REVERSE_FLOW_FRACTION]:
    r"""Return the fraction of the disc's area over which the air flows from the trailing edge.

    $$ \frac{A_r}{A} = \frac{\mu^2}{4} \quad \text{up to } \mu = 1 $$
    $$ \frac{A_r}{A} = \frac{1}{\pi} \left[\arccos \frac{1}{\mu} + \frac{\mu^2}{2} \arcsin
    \frac{1}{\mu} - \frac{\sqrt{\mu^2 - 1}}{2}\right] \quad \text{above} $$

    The reverse flow fills a circle whose diameter reaches from the shaft axis to $\mu R$ on the
    retreating side.  Above an advance ratio of 1 a part of the circle lies outside the disc, and
    only the lens inside counts.

    Args:
        advance_ratio: Airspeed in the plane of the disc over tip speed; scalar.

    Returns:
        The fraction of the area; scalar.

    Raises:
        ValueError: If the advance ratio is negative.

    Source:
        Watkinson (2004), The Art of the Helicopter, page 89, figure 3.22: the circle; its area
        inside the disc is plane geometry.

    Examples:
        >>> round(reverse_flow_fraction(0.3), 6), round(reverse_flow_fraction(1.3), 5)
        (0.0225, 0.3245)
    """
    ADVANCE_RATIO.check(advance_ratio)
    if advance_ratio <= 1.0:
        return 0.25 * advance_ratio**2
    sector_of_disc = math.acos(1.0 / advance_ratio)
    sector_of_circle = 0.5 * advance_ratio**2 * math.asin(1.0 / advance_ratio)
    triangles = 0.5 * math.sqrt(advance_ratio**2 - 1.0)
    return (sector_of_disc + sector_of_circle - triangles) / math.pi


def reverse_flow(
    radius: Annotated[float, RADIUS],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    airspeed: Annotated[float, AIRSPEED],
    disc_incidence: Annotated[float, DISC_INCIDENCE] = 0.0,
) -> ReverseFlow:
    r"""Return the advance ratio, and how much of the rotor it puts into reverse flow.

    $$ \mu = \frac{V \cos \alpha}{\Omega R}, \qquad \frac{r_r}{R} = \min(\mu, 1) $$

    Args:
        radius: Shaft axis to blade tip; scalar, m.
        rotor_speed: Angular speed of the rotor's own shaft; scalar, rad/s.
        airspeed: True airspeed; scalar, m/s.
        disc_incidence: Angle of the disc to the flight path, nose down positive; scalar, rad.

    Returns:
        The advance ratio, the fraction of the disc's area in reverse flow, and that of the
        blade at an azimuth of 270 deg, counted from the shaft axis.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Watkinson (2004), The Art of the Helicopter, page 89, figure 3.22.

    Examples:
        >>> round(reverse_flow(7.0, 31.4, 66.0).reversed_span, 4)
        0.3003
    """
    ratio = advance_ratio(airspeed, tip_speed(radius, rotor_speed), disc_incidence)
    return ReverseFlow(ratio, reverse_flow_fraction(ratio), reversed_span=min(ratio, 1.0))
