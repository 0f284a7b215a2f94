"""Level flight: the force a rotor has to give, and how its disc is tilted to give it."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.constants import STANDARD_GRAVITY
from calc.quantity import Quantity
from calc.rotor.quantities import (
    AIR_DENSITY,
    AIRSPEED,
    DISC_INCIDENCE,
    DRAG_AREA,
    LOAD_FACTOR,
    MASS_OF_ROTORCRAFT,
    PROPELLER_THRUST_SHARE,
    THRUST,
    WING_LIFT_SHARE,
)
from calc.units import FORCE

DRAG = Quantity("D", "Drag of the airframe", FORCE)
ROTOR_LIFT = Quantity("Z", "Lift of the rotor", FORCE)
PROPULSIVE_FORCE = Quantity("X", "Propulsive force of the rotor", FORCE)


@dataclass(frozen=True, slots=True)
class RotorForce:
    """The force on the rotor of an aircraft in level flight."""

    drag: Annotated[float, DRAG]
    lift: Annotated[float, ROTOR_LIFT]
    propulsive_force: Annotated[float, PROPULSIVE_FORCE]
    thrust: Annotated[float, THRUST]
    disc_incidence: Annotated[float, DISC_INCIDENCE]


def rotor_force(
    mass: Annotated[float, MASS_OF_ROTORCRAFT],
    airspeed: Annotated[float, AIRSPEED],
    density: Annotated[float, AIR_DENSITY],
    drag_area: Annotated[float, DRAG_AREA],
    load_factor: Annotated[float, LOAD_FACTOR] = 1.0,
    wing_lift_share: Annotated[float, WING_LIFT_SHARE] = 0.0,
    propeller_thrust_share: Annotated[float, PROPELLER_THRUST_SHARE] = 0.0,
) -> RotorForce:
    r"""Return the rotor's share of lift and thrust in level flight, and the tilt of its disc.

    $$ D = \frac{1}{2} \rho V^2 f, \qquad Z = n_z m g (1 - s_w), \qquad X = D (1 - s_p) $$
    $$ T = \sqrt{Z^2 + X^2}, \qquad \alpha = \arctan \frac{X}{Z} $$

    The thrust stands square to the tip-path plane.  Lift of the fuselage, download of the wake
    and the drag of the rotor itself are left out.

    Args:
        mass: Mass of the rotorcraft; scalar, kg.
        airspeed: True airspeed; scalar, m/s.
        density: Density of the air; scalar, kg/m³.
        drag_area: Drag of everything but the rotor over the dynamic pressure; scalar, m².
        load_factor: Lift over weight: 1 in level flight, more in a turn; scalar.
        wing_lift_share: Fraction of the lift carried by a wing; scalar.
        propeller_thrust_share: Fraction of the airframe drag overcome by propellers; scalar.

    Returns:
        Drag, lift and propulsive force, the thrust they need and the incidence of the disc.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Balance of forces.

    Examples:
        >>> force = rotor_force(5500.0, 70.0, 1.225, 1.8)
        >>> round(force.propulsive_force, 2), round(math.degrees(force.disc_incidence), 2)
        (5402.25, 5.72)
    """
    MASS_OF_ROTORCRAFT.check(mass)
    AIRSPEED.check(airspeed)
    AIR_DENSITY.check(density)
    DRAG_AREA.check(drag_area)
    LOAD_FACTOR.check(load_factor)
    WING_LIFT_SHARE.check(wing_lift_share)
    PROPELLER_THRUST_SHARE.check(propeller_thrust_share)
    drag = 0.5 * density * airspeed**2 * drag_area
    lift = load_factor * mass * STANDARD_GRAVITY * (1.0 - wing_lift_share)
    propulsive_force = drag * (1.0 - propeller_thrust_share)
    return RotorForce(
        drag=drag,
        lift=lift,
        propulsive_force=propulsive_force,
        thrust=math.hypot(lift, propulsive_force),
        disc_incidence=math.atan2(propulsive_force, lift),
    )
