"""Hub damping floor: the hub damping below which heavy lag dampers make things worse."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.ground.model.aircraft import HubDirection, LagRotor, hub_mass_with_blades
from calc.ground.quantities import (
    COUPLING,
    HINGE_OFFSET,
    MASS_OF_BLADES,
    SUPPORT_FREQUENCY,
    THREE_BLADES,
)
from calc.quantity import Quantity
from calc.units import DAMPING, ROTATION

OFFSET = replace(HINGE_OFFSET, at_least=-math.inf, above=0.0)
FREQUENCY_RATIO = Quantity(r"\nu_\xi", "Lag frequency over rotor speed")
ROOT = Quantity("q", "Root of one more than coupling over the square of the lag frequency")
FLOOR = Quantity("C_{x,min}", "Minimum hub damping, each direction", DAMPING)
FLOOR_RATIO = Quantity(r"\zeta_{x,min}", "Minimum hub damping as a damping ratio")
WORST_SPEED = Quantity(r"\Omega", "Rotor speed that sets the minimum", ROTATION)


@dataclass(frozen=True, slots=True)
class Floor:
    """The hub damping that very heavy lag dampers ask for, and where."""

    hub_damping: Annotated[float, FLOOR]
    damping_ratio: Annotated[float, FLOOR_RATIO]
    rotor_speed: Annotated[float, WORST_SPEED]
    frequency_ratio: Annotated[float, FREQUENCY_RATIO]
    coupling_parameter: Annotated[float, COUPLING]


HeldRotor = Annotated[LagRotor, {"hinge_offset": OFFSET, "lag_stiffness": 0.0, "lag_damping": 0.0}]
UndampedDirection = Annotated[HubDirection, {"support_damping": 0.0}]


def hub_damping_floor(
    rotor: HeldRotor,
    hub: UndampedDirection,
) -> Floor:
    r"""Return the hub damping below which a rotor with very heavy lag dampers is unstable.

    $$ C_x > \bar{M} \omega_x \left(\sqrt{1 + \frac{\Lambda}{\nu_\xi^2}} - 1\right), \qquad
    \zeta_x > \frac{1}{2} \left(\sqrt{1 + \frac{\Lambda}{\nu_\xi^2}} - 1\right)
    \approx \frac{\Lambda}{4 \nu_\xi^2} $$
    $$ \nu_\xi^2 = \frac{e S_\xi}{I_\xi}, \qquad
    \Lambda = \frac{N_b S_\xi^2}{2 I_\xi \bar{M}}, \qquad
    \Omega = \frac{\omega_x}{(1 + \Lambda / \nu_\xi^2)^{1/4}} $$

    Blades held by very heavy dampers creep outward together where the hub yields to them faster
    than the centrifugal force draws them back.  Hub alike in both directions, blades without lag
    springs.  It is exact for lag dampers without limit; moderate ones may still do with a little
    less hub damping, which the eigenvalues tell.

    Args:
        rotor: Blades and lag hinges, without lag springs and dampers.
        hub: Effective mass and stiffness at the hub in each direction.

    Returns:
        The floor, the rotor speed that sets it, and the two numbers it depends on.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Derived here from the equations of motion with lag dampers without limit.

    Examples:
        >>> from calc.ground.model.aircraft import Rotor
        >>> found = hub_damping_floor(
        ...     Rotor(4, 94.86, 289.134, 1084.654, 0.3048, 0.0, 0.0),
        ...     HubDirection(3283.628, 1240481.75, 0.0),
        ... )
        >>> round(found.damping_ratio, 4)
        0.116
    """
    THREE_BLADES.check(rotor.blades)
    OFFSET.check(rotor.hinge_offset)
    mass_of_blades: Annotated[float, MASS_OF_BLADES] = rotor.blades * rotor.blade_mass
    total_mass = hub_mass_with_blades(hub.support_mass, mass_of_blades, hub.hub_mass)
    coupling_parameter = (
        rotor.blades * rotor.first_moment**2 / (2.0 * rotor.lag_inertia * total_mass)
    )
    COUPLING.check(coupling_parameter)
    support_frequency: Annotated[float, SUPPORT_FREQUENCY] = math.sqrt(
        hub.support_stiffness / total_mass
    )
    frequency_ratio = math.sqrt(rotor.hinge_offset * rotor.first_moment / rotor.lag_inertia)
    root: Annotated[float, ROOT] = math.sqrt(1.0 + coupling_parameter / frequency_ratio**2)
    return Floor(
        hub_damping=total_mass * support_frequency * (root - 1.0),
        damping_ratio=(root - 1.0) / 2.0,
        rotor_speed=support_frequency / math.sqrt(root),
        frequency_ratio=frequency_ratio,
        coupling_parameter=coupling_parameter,
    )
