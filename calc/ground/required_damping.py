"""Required damping: what lag dampers or undercarriage must give, by eigenvalues over a sweep."""

from dataclasses import dataclass
from typing import Annotated

from calc.chart import Chart
from calc.declaration import Nothing
from calc.ground.aircraft import Rotor, Support, assembled
from calc.ground.damping_map import damping_map, scaled
from calc.ground.minimum_damping import least_damping
from calc.ground.quantities import (
    BLADE_MASS,
    DAMPING_X,
    DAMPING_Y,
    FIRST_MOMENT,
    HIGHEST_SPEED,
    HINGE_OFFSET,
    HUB_MASS,
    LAG_DAMPING,
    LAG_INERTIA,
    LAG_STIFFNESS,
    LOWEST_SPEED,
    MASS_X,
    MASS_Y,
    REQUIRED_LAG_DAMPING,
    STIFFNESS_X,
    STIFFNESS_Y,
    THREE_BLADES,
)
from calc.ground.stability import minimum_lag_damping, worst_speed
from calc.quantity import Quantity
from calc.units import DAMPING

MARGIN = Quantity("m", "Damping there is over damping needed")
NEEDED_X = Quantity("C_{x,req}", "Hub damping needed, longitudinal", DAMPING)
NEEDED_Y = Quantity("C_{y,req}", "Hub damping needed, lateral", DAMPING)


@dataclass(frozen=True, slots=True)
class LagDamping:
    """The least lag damping and how much more there is."""

    required_lag_damping: Annotated[float, REQUIRED_LAG_DAMPING]
    margin: Annotated[float, MARGIN]


@dataclass(frozen=True, slots=True)
class SupportDamping:
    """The least hub damping, both directions in proportion, and how much more there is."""

    required_damping_x: Annotated[float, NEEDED_X]
    required_damping_y: Annotated[float, NEEDED_Y]
    margin: Annotated[float, MARGIN]


def required_lag_damping(
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, LAG_DAMPING],
    mass_x: Annotated[float, MASS_X],
    mass_y: Annotated[float, MASS_Y],
    stiffness_x: Annotated[float, STIFFNESS_X],
    stiffness_y: Annotated[float, STIFFNESS_Y],
    damping_x: Annotated[float, DAMPING_X],
    damping_y: Annotated[float, DAMPING_Y],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Annotated[LagDamping | None, Nothing("No lag damping is enough with this hub damping")]:
    r"""Return the least lag damping of each blade that is stable at every rotor speed of a sweep.

    $$ \max_{\Omega} \max_j \operatorname{Re} s_j(\Omega; C_{\zeta,req}) = 0, \qquad
    m = C_\zeta / C_{\zeta,req} $$

    By eigenvalues, so that support modes near each other and heavy damping are covered.  With a
    stable aircraft the margin is above one.

    Args:
        blades: Number of blades; scalar.
        blade_mass: Mass of one blade outboard of its lag hinge; scalar, kg.
        first_moment: First moment of one blade about its lag hinge; scalar, kg·m.
        lag_inertia: Second moment of one blade about its lag hinge; scalar, kg·m².
        hinge_offset: Distance of the lag hinge from the shaft; scalar, m.
        lag_stiffness: Lag spring of one blade; scalar, N·m/rad.
        lag_damping: Lag damper of one blade, for the margin; scalar, N·m·s/rad.
        mass_x: Effective hub mass in x; scalar, kg.
        mass_y: Effective hub mass in y; scalar, kg.
        stiffness_x: Effective hub stiffness in x; scalar, N/m.
        stiffness_y: Effective hub stiffness in y; scalar, N/m.
        damping_x: Effective hub damping in x; scalar, N·s/m.
        damping_y: Effective hub damping in y; scalar, N·s/m.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        hub_mass: Whether the hub masses have the blades in them; word.

    Returns:
        The damping of one blade and the margin, or None.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> found = required_lag_damping(
        ...     4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0, 3000.0, 1400.0,
        ...     600e3, 640e3, 6000.0, 4000.0, 4.0, 42.0,
        ... )
        >>> 0.0 < found.margin < 1.0
        True
    """
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    required = minimum_lag_damping(rotor, support, lowest_speed, highest_speed)
    if required is None:
        return None
    margin = lag_damping / required if required else float("inf")
    return LagDamping(required_lag_damping=required, margin=margin)


def required_support_damping(
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, LAG_DAMPING],
    mass_x: Annotated[float, MASS_X],
    mass_y: Annotated[float, MASS_Y],
    stiffness_x: Annotated[float, STIFFNESS_X],
    stiffness_y: Annotated[float, STIFFNESS_Y],
    damping_x: Annotated[float, DAMPING_X],
    damping_y: Annotated[float, DAMPING_Y],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Annotated[SupportDamping | None, Nothing("No hub damping is enough with this lag damping")]:
    r"""Return the least hub damping that is stable at every rotor speed of a sweep.

    $$ \max_{\Omega} \max_j \operatorname{Re} s_j(\Omega; C_{x,req}, C_{y,req}) = 0, \qquad
    \frac{C_{x,req}}{C_x} = \frac{C_{y,req}}{C_y} = \frac{1}{m} $$

    Both directions change in the proportion that they are given in.

    Args:
        blades: Number of blades; scalar.
        blade_mass: Mass of one blade outboard of its lag hinge; scalar, kg.
        first_moment: First moment of one blade about its lag hinge; scalar, kg·m.
        lag_inertia: Second moment of one blade about its lag hinge; scalar, kg·m².
        hinge_offset: Distance of the lag hinge from the shaft; scalar, m.
        lag_stiffness: Lag spring of one blade; scalar, N·m/rad.
        lag_damping: Lag damper of one blade; scalar, N·m·s/rad.
        mass_x: Effective hub mass in x; scalar, kg.
        mass_y: Effective hub mass in y; scalar, kg.
        stiffness_x: Effective hub stiffness in x; scalar, N/m.
        stiffness_y: Effective hub stiffness in y; scalar, N/m.
        damping_x: Effective hub damping in x; scalar, N·s/m.
        damping_y: Effective hub damping in y; scalar, N·s/m.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        hub_mass: Whether the hub masses have the blades in them; word.

    Returns:
        The damping of both directions and the margin, or None.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> found = required_support_damping(
        ...     4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0, 3000.0, 1400.0,
        ...     600e3, 640e3, 6000.0, 4000.0, 4.0, 42.0,
        ... )
        >>> 0.0 < found.margin < 1.0
        True
    """
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    factor = minimum_support_damping(rotor, support, lowest_speed, highest_speed)
    if factor is None:
        return None
    return SupportDamping(
        required_damping_x=factor * damping_x,
        required_damping_y=factor * damping_y,
        margin=1.0 / factor if factor else float("inf"),
    )


def required_lag_damping_chart(
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, LAG_DAMPING],
    mass_x: Annotated[float, MASS_X],
    mass_y: Annotated[float, MASS_Y],
    stiffness_x: Annotated[float, STIFFNESS_X],
    stiffness_y: Annotated[float, STIFFNESS_Y],
    damping_x: Annotated[float, DAMPING_X],
    damping_y: Annotated[float, DAMPING_Y],
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Chart:
    """Return the stability map: lag damping needed against hub damping, with the hyperbola."""
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    return damping_map(rotor, support, lowest_speed, highest_speed)


def minimum_support_damping(
    rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float
) -> float | None:
    """Return the least factor on both hub dampings that leaves no rotor speed unstable, or None."""

    def worst_growth(factor: float) -> float:
        return worst_speed(rotor, scaled(support, factor), lowest_speed, highest_speed)[1]

    return least_damping(worst_growth, 1.0)
