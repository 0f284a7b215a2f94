"""Retreating tip: the angle of attack where a helicopter rotor stalls first."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.quantity import Constant, Quantity
from calc.rotor.inflow import induced_inflow
from calc.rotor.quantities import (
    ADVANCE_RATIO,
    BLADE_LOADING,
    DISC_INCIDENCE,
    INFLOW,
    LIFT_SLOPE_OF_BLADE,
    SOLIDITY,
    TWIST,
)
from calc.units import ANGLE

INBOARD_SPEED = Constant(
    0.4, Quantity(r"\Delta x", "In-plane speed at the inboard station over tip speed")
)
"""NACA charts, from memory."""

PITCH_FAILS = 0.8531202105143935
"""Advance ratio at which collective pitch stops changing the thrust: a pole of the equations."""

SMALL_ANGLES = math.radians(-30.0), math.radians(30.0)
"""Angles of attack beyond these mean nothing to a theory with lift in proportion to them."""

BELOW_ONE = replace(
    ADVANCE_RATIO,
    below=1.0,
    covered=(0.0, 0.5),
    covered_by="the charts of NACA TN 3323, which carry the criterion, end there",
)
CLASSICAL_RANGE = replace(
    BELOW_ONE, covered=(0.0, 0.3), covered_by="above it the neglected reverse flow counts"
)
SMALL_INCIDENCE = replace(
    DISC_INCIDENCE,
    covered=(math.radians(-15.0), math.radians(15.0)),
    covered_by="the equations take angles as small",
)
COLLECTIVE = Quantity(r"\theta_0", "Collective pitch at the shaft axis", ANGLE)
FLAPPING = Quantity(
    r"\beta_{1c}", "Longitudinal flapping from the no-feathering plane, disc forward", ANGLE
)
CONTROL_INFLOW = replace(
    INFLOW, symbol=r"\lambda_N", label="Inflow ratio, down through the no-feathering plane"
)
TIP_ANGLE = Quantity(
    r"\alpha_{1,270}",
    "Angle of attack of the retreating tip",
    ANGLE,
    covered=SMALL_ANGLES,
    covered_by="lift is in proportion to the angle of attack",
)
INBOARD_ANGLE = replace(
    TIP_ANGLE,
    symbol=r"\alpha_{0.4,270}",
    label="Angle of attack at the inboard station of the retreating blade",
)

THRUST_BY_COLLECTIVE = Quantity(r"t_\theta", "Thrust by collective pitch")
THRUST_BY_TWIST = Quantity("t_1", "Thrust by twist")
THRUST_BY_INFLOW = Quantity(r"t_\lambda", "Loss of thrust by inflow")
THRUST_BY_FLAPPING = Quantity(r"t_\beta", "Thrust by flapping")
MOMENT_BY_COLLECTIVE = Quantity(r"m_\theta", "Moment by collective pitch")
MOMENT_BY_TWIST = Quantity("m_1", "Moment by twist")
MOMENT_BY_INFLOW = Quantity(r"m_\lambda", "Moment by inflow")
MOMENT_BY_FLAPPING = Quantity(r"m_\beta", "Moment by flapping")
REST_OF_THRUST = Quantity("t", "Thrust left for collective pitch and flapping")
REST_OF_MOMENT = Quantity("h", "Moment left for collective pitch and flapping")
DETERMINANT = Quantity(r"\Delta", "Determinant of the two equations")
INBOARD_STATION = Quantity("x_i", "Inboard station")


@dataclass(frozen=True, slots=True)
class RetreatingTip:
    """The pitch and flapping of a rotor, and the angles of attack of its retreating blade."""

    collective: Annotated[float, COLLECTIVE]
    inflow: Annotated[float, INFLOW]
    longitudinal_flapping: Annotated[float, FLAPPING]
    tip_angle: Annotated[float, TIP_ANGLE]
    inboard_angle: Annotated[float, INBOARD_ANGLE]
    control_inflow: Annotated[float, CONTROL_INFLOW]


def retreating_tip(
    advance_ratio: Annotated[float, BELOW_ONE],
    blade_loading: Annotated[float, BLADE_LOADING],
    solidity: Annotated[float, SOLIDITY],
    disc_incidence: Annotated[float, SMALL_INCIDENCE],
    twist: Annotated[float, TWIST],
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE],
) -> RetreatingTip:
    r"""Return the angles of attack of the retreating blade, with reverse flow taken into account.

    $$ \frac{2 C_T}{\sigma a_0} = \theta_0 \left(\frac{1}{3} + \frac{\mu^2}{2}
    - \frac{4 \mu^3}{9 \pi}\right) + \theta_1 \left(\frac{1}{4} + \frac{\mu^2}{4}
    - \frac{\mu^4}{32}\right) - \lambda \left(\frac{1}{2} + \frac{\mu^2}{4}\right)
    + \beta_{1c} \left(\frac{\mu}{2} + \frac{\mu^3}{8}\right) $$
    $$ \beta_{1c} \left(\frac{1}{4} + \frac{3 \mu^2}{8} - \frac{5 \mu^4}{96}\right)
    = \lambda \left(\frac{\mu}{2} - \frac{\mu^3}{8}\right)
    - \theta_0 \left(\frac{2 \mu}{3} + \frac{8 \mu^4}{45 \pi}\right)
    - \theta_1 \left(\frac{\mu}{2} + \frac{\mu^5}{48}\right) $$
    $$ \alpha(x, 270^\circ) = \theta_0 + x \theta_1 - \beta_{1c} - \frac{\lambda}{x - \mu},
    \qquad \lambda = \mu \tan \alpha + \lambda_i $$

    The inboard station is where $x - \mu$ = 0.4, or the tip if that lies beyond it.

    Blades of constant chord with linear twist, hinged at the shaft axis, lift in proportion to
    the angle of attack and with its sign turned in the reverse flow, uniform inflow, small angles,
    first harmonic of flapping.  The angle is that of a blade that does not stall: an index.

    Args:
        advance_ratio: Airspeed in the plane of the disc over tip speed; scalar.
        blade_loading: Thrust coefficient over solidity, without a factor 1/2; scalar.
        solidity: Area of the blades over area of the disc; scalar.
        disc_incidence: Angle of the tip-path plane to the flight path, nose down; scalar, rad.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.

    Returns:
        Collective pitch, inflow through the disc, flapping and the two angles of attack, and the
        inflow through the no-feathering plane, which older reports use.

    Raises:
        ValueError: If an argument breaks its limits; the advance ratio must be below 1.

    Source:
        Wheatley (1934), NACA Report 487, and Bailey (1941), NACA Report 716: the method (from
        memory); the integrals are derived anew on the page of the derivation.

    Examples:
        >>> tip = retreating_tip(0.25, 0.08, 0.08, math.radians(4), math.radians(-8), 5.7)
        >>> round(math.degrees(tip.tip_angle), 3), round(math.degrees(tip.inboard_angle), 3)
        (8.218, 9.0)
    """
    BELOW_ONE.check(advance_ratio)
    BLADE_LOADING.check(blade_loading)
    SOLIDITY.check(solidity)
    SMALL_INCIDENCE.check(disc_incidence)
    TWIST.check(twist)
    LIFT_SLOPE_OF_BLADE.check(lift_slope)
    mu = advance_ratio
    induced = induced_inflow(blade_loading * solidity, mu, disc_incidence)
    inflow = mu * math.tan(disc_incidence) + induced
    thrust_by_collective: Annotated[float, THRUST_BY_COLLECTIVE] = (
        1 / 3 + mu**2 / 2 - 4 * mu**3 / (9 * math.pi)
    )
    thrust_by_twist: Annotated[float, THRUST_BY_TWIST] = 1 / 4 + mu**2 / 4 - mu**4 / 32
    thrust_by_inflow: Annotated[float, THRUST_BY_INFLOW] = 1 / 2 + mu**2 / 4
    thrust_by_flapping: Annotated[float, THRUST_BY_FLAPPING] = mu / 2 + mu**3 / 8
    moment_by_collective: Annotated[float, MOMENT_BY_COLLECTIVE] = 2 * mu / 3 + 8 * mu**4 / (
        45 * math.pi
    )
    moment_by_twist: Annotated[float, MOMENT_BY_TWIST] = mu / 2 + mu**5 / 48
    moment_by_inflow: Annotated[float, MOMENT_BY_INFLOW] = mu / 2 - mu**3 / 8
    moment_by_flapping: Annotated[float, MOMENT_BY_FLAPPING] = (
        1 / 4 + 3 * mu**2 / 8 - 5 * mu**4 / 96
    )
    thrust: Annotated[float, REST_OF_THRUST] = (
        2 * blade_loading / lift_slope - thrust_by_twist * twist + thrust_by_inflow * inflow
    )
    moment: Annotated[float, REST_OF_MOMENT] = moment_by_inflow * inflow - moment_by_twist * twist
    determinant: Annotated[float, DETERMINANT] = (
        thrust_by_collective * moment_by_flapping - thrust_by_flapping * moment_by_collective
    )
    collective = (thrust * moment_by_flapping - thrust_by_flapping * moment) / determinant
    flapping = (moment - moment_by_collective * collective) / moment_by_flapping
    inboard_station: Annotated[float, INBOARD_STATION] = min(mu + INBOARD_SPEED, 1)
    inboard_pitch = collective + twist * inboard_station
    return RetreatingTip(
        collective=collective,
        inflow=inflow,
        longitudinal_flapping=flapping,
        tip_angle=collective + twist - flapping - inflow / (1 - mu),
        inboard_angle=inboard_pitch - flapping - inflow / (inboard_station - mu),
        control_inflow=inflow - mu * flapping,
    )


def classical_retreating_tip(
    advance_ratio: Annotated[float, CLASSICAL_RANGE],
    blade_loading: Annotated[float, BLADE_LOADING],
    solidity: Annotated[float, SOLIDITY],
    disc_incidence: Annotated[float, SMALL_INCIDENCE],
    twist: Annotated[float, TWIST],
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE],
) -> RetreatingTip:
    r"""Return the angles of attack of the retreating blade by the textbook form.

    $$ \frac{2 C_T}{\sigma a_0} = \frac{\theta_0}{3} \left(1 + \frac{3 \mu^2}{2}\right)
    + \frac{\theta_1}{4} (1 + \mu^2) - \frac{\lambda}{2} + \frac{\mu \beta_{1c}}{2} $$
    $$ \beta_{1c} \left(1 + \frac{3 \mu^2}{2}\right)
    = 2 \mu \left(\lambda - \frac{4 \theta_0}{3} - \theta_1\right) $$
    $$ \alpha(x, 270^\circ) = \theta_0 + x \theta_1 - \beta_{1c} - \frac{\lambda}{x - \mu} $$

    It lets the lift keep its sign in the reverse flow.  Above an advance ratio of 0.3 the angle
    of the tip comes out too low, and above about 0.45 it even falls: use `retreating_tip`.

    Args:
        advance_ratio: Airspeed in the plane of the disc over tip speed; scalar.
        blade_loading: Thrust coefficient over solidity, without a factor 1/2; scalar.
        solidity: Area of the blades over area of the disc; scalar.
        disc_incidence: Angle of the tip-path plane to the flight path, nose down; scalar, rad.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.

    Returns:
        Collective pitch, inflow through the disc, flapping and the two angles of attack, and the
        inflow through the no-feathering plane, which older reports use.

    Raises:
        ValueError: If an argument breaks its limits; the advance ratio must be below 1.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics (from memory).

    Examples:
        >>> arguments = 0.25, 0.08, 0.08, math.radians(4), math.radians(-8), 5.7
        >>> round(math.degrees(classical_retreating_tip(*arguments).tip_angle), 3)
        7.805
    """
    CLASSICAL_RANGE.check(advance_ratio)
    BLADE_LOADING.check(blade_loading)
    SOLIDITY.check(solidity)
    SMALL_INCIDENCE.check(disc_incidence)
    TWIST.check(twist)
    LIFT_SLOPE_OF_BLADE.check(lift_slope)
    mu = advance_ratio
    induced = induced_inflow(blade_loading * solidity, mu, disc_incidence)
    inflow = mu * math.tan(disc_incidence) + induced
    thrust: Annotated[float, REST_OF_THRUST] = (
        2 * blade_loading / lift_slope - twist / 4 * (1 + mu**2) + inflow / 2
    )
    moment: Annotated[float, REST_OF_MOMENT] = 2 * mu * (inflow - twist) / (1 + 3 * mu**2 / 2)
    moment_by_collective: Annotated[float, MOMENT_BY_COLLECTIVE] = 8 * mu / 3 / (1 + 3 * mu**2 / 2)
    thrust_by_collective: Annotated[float, THRUST_BY_COLLECTIVE] = (
        1 + 3 * mu**2 / 2
    ) / 3 - mu / 2 * moment_by_collective
    collective = (thrust - mu / 2 * moment) / thrust_by_collective
    flapping = moment - moment_by_collective * collective
    inboard_station: Annotated[float, INBOARD_STATION] = min(mu + INBOARD_SPEED, 1)
    inboard_pitch = collective + twist * inboard_station
    return RetreatingTip(
        collective=collective,
        inflow=inflow,
        longitudinal_flapping=flapping,
        tip_angle=collective + twist - flapping - inflow / (1 - mu),
        inboard_angle=inboard_pitch - flapping - inflow / (inboard_station - mu),
        control_inflow=inflow - mu * flapping,
    )
