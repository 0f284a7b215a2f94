"""Inflow: how much air a rotor draws down through its disc."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.declaration import Method
from calc.numeric.roots import rising_root
from calc.quantity import Quantity
from calc.rotor.advance_ratio import advance_ratio
from calc.rotor.blade_loading import thrust_coefficient
from calc.rotor.quantities import (
    ADVANCE_RATIO,
    AIR_DENSITY,
    AIRSPEED,
    DISC_INCIDENCE,
    INFLOW,
    RADIUS,
    THRUST,
    THRUST_COEFFICIENT,
    TIP_SPEED,
)
from calc.units import SPEED

ONE_SOLUTION = math.atan(math.sqrt(8.0))
"""A disc tilted further back than this lets Glauert's equation have three solutions."""

INFLOW_INCIDENCE = replace(
    DISC_INCIDENCE,
    above=-ONE_SOLUTION,
    covered=(math.radians(-30.0), math.pi / 2),
    covered_by="in steep descent a rotor may enter its own wake (vortex ring state)",
)
INDUCED_INFLOW = Quantity(r"\lambda_i", "Induced inflow ratio", at_least=0.0)
NORMAL_INFLOW = Quantity(r"\lambda_n", "Inflow ratio from the tilt of the disc")
INDUCED_SPEED = Quantity("v_i", "Induced speed at the disc", SPEED)


@dataclass(frozen=True, slots=True)
class InflowState:
    """The flow through a disc."""

    thrust_coefficient: Annotated[float, THRUST_COEFFICIENT]
    advance_ratio: Annotated[float, ADVANCE_RATIO]
    induced_inflow: Annotated[float, INDUCED_INFLOW]
    inflow: Annotated[float, INFLOW]
    induced_speed: Annotated[float, INDUCED_SPEED]


def induced_inflow(
    thrust_coefficient: Annotated[float, THRUST_COEFFICIENT],
    advance_ratio: Annotated[float, ADVANCE_RATIO],
    disc_incidence: Annotated[float, INFLOW_INCIDENCE] = 0.0,
) -> Annotated[float, INDUCED_INFLOW]:
    r"""Return the uniform induced velocity at the disc over the tip speed.

    $$ \lambda_i = \frac{C_T}{2 \sqrt{\mu^2 + \lambda^2}}, \qquad
    \lambda = \mu \tan \alpha + \lambda_i $$

    Glauert's equation: momentum theory, with the disc treated as a lifting wing of its own span.
    In hover it gives $\sqrt{C_T/2}$.  The solution is the only one unless the disc is tilted back
    beyond $\arctan \sqrt{8}$, 70.5 deg, where momentum theory has lost its meaning anyway.

    Args:
        thrust_coefficient: Thrust coefficient without a factor 1/2; scalar.
        advance_ratio: Airspeed in the plane of the disc over tip speed; scalar.
        disc_incidence: Angle of the disc to the flight path, nose down positive; scalar, rad.

    Returns:
        The induced part of the inflow ratio; scalar.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Glauert (1926), A General Theory of the Autogyro, R. & M. 1111 (from memory).

    Examples:
        >>> round(induced_inflow(0.0064, 0.25, math.radians(4.0)), 6)
        0.012708
    """
    THRUST_COEFFICIENT.check(thrust_coefficient)
    ADVANCE_RATIO.check(advance_ratio)
    INFLOW_INCIDENCE.check(disc_incidence)
    normal_inflow: Annotated[float, NORMAL_INFLOW] = advance_ratio * math.tan(disc_incidence)
    return _solution(thrust_coefficient, advance_ratio, normal_inflow)


def inflow_state(
    thrust: Annotated[float, THRUST],
    density: Annotated[float, AIR_DENSITY],
    radius: Annotated[float, RADIUS],
    tip_speed: Annotated[float, TIP_SPEED],
    airspeed: Annotated[float, AIRSPEED],
    disc_incidence: Annotated[float, INFLOW_INCIDENCE] = 0.0,
) -> InflowState:
    r"""Return the inflow of a rotor in flight, and the induced speed in metres per second.

    $$ v_i = \lambda_i V_t, \qquad \lambda = \mu \tan \alpha + \lambda_i $$

    Args:
        thrust: Force of the rotor, normal to its disc; scalar, N.
        density: Density of the air; scalar, kg/m³.
        radius: Shaft axis to blade tip; scalar, m.
        tip_speed: Speed of the tips due to rotation; scalar, m/s.
        airspeed: True airspeed; scalar, m/s.
        disc_incidence: Angle of the disc to the flight path, nose down positive; scalar, rad.

    Returns:
        Thrust coefficient, advance ratio, induced and total inflow, and the induced speed.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Glauert (1926), A General Theory of the Autogyro, R. & M. 1111 (from memory).

    Examples:
        >>> round(inflow_state(50000.0, 1.225, 7.5, 220.0, 0.0).induced_speed, 4)
        10.7465
    """
    coefficient = thrust_coefficient(thrust, density, radius, tip_speed)
    ratio = advance_ratio(airspeed, tip_speed, disc_incidence)
    induced = induced_inflow(coefficient, ratio, disc_incidence)
    return InflowState(
        thrust_coefficient=coefficient,
        advance_ratio=ratio,
        induced_inflow=induced,
        inflow=ratio * math.tan(disc_incidence) + induced,
        induced_speed=induced * tip_speed,
    )


def _momentum(
    induced: Annotated[float, INDUCED_INFLOW],
    thrust_coefficient: Annotated[float, THRUST_COEFFICIENT],
    advance_ratio: Annotated[float, ADVANCE_RATIO],
    normal_inflow: Annotated[float, NORMAL_INFLOW],
) -> Annotated[float, INDUCED_INFLOW]:
    """Return the right side of Glauert's equation."""
    return thrust_coefficient / (2.0 * math.hypot(advance_ratio, normal_inflow + induced))


def _solution(
    thrust_coefficient: float, advance_ratio: float, normal_inflow: float
) -> Annotated[
    float,
    Method("the root of Glauert's equation, by Newton's method between two bounds", _momentum),
]:
    """Return the root of Glauert's equation."""
    if thrust_coefficient == 0.0:
        return 0.0

    def excess(induced: float) -> tuple[float, float]:
        inflow = normal_inflow + induced
        resultant = math.hypot(advance_ratio, inflow)
        slope = 2.0 * (resultant + induced * inflow / resultant)
        return 2.0 * induced * resultant - thrust_coefficient, slope

    highest = math.sqrt(0.5 * thrust_coefficient) + max(0.0, -normal_inflow)
    return rising_root(excess, 0.0, highest)
