"""Deutsch criterion: the damping that rotor and support need together, as a first estimate."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Nothing
from calc.ground.model.aircraft import (
    HubDirection,
    LagRotor,
    Rotor,
    Support,
    hub_mass_with_blades,
    total_masses,
)
from calc.ground.model.coalescence import coalescence_speed
from calc.ground.quantities import (
    COALESCENCE_SPEED,
    COUPLING,
    LAG_FREQUENCY,
    MASS_OF_BLADES,
    SUPPORT_FREQUENCY,
    THREE_BLADES,
)
from calc.quantity import Quantity
from calc.units import Unit

PRODUCT = (Unit("N²·s²/rad", "N2.s2/rad", "newton squared second squared per radian"),)
FREQUENCY_RATIO = Quantity(
    r"\nu",
    "Lag frequency over rotor speed at coalescence",
    covered=(0.0, 1.0),
)
ACTUAL_PRODUCT = Quantity(r"C_x C_\xi", "Available product of damping", PRODUCT)
SINGLE_PRODUCT = Quantity("P_1", "Required product, one support mode", PRODUCT)
ISOTROPIC_PRODUCT = Quantity("P_2", "Required product, both directions alike", PRODUCT)
SINGLE_MARGIN = Quantity("m_1", "Margin, one support mode")
ISOTROPIC_MARGIN = Quantity("m_2", "Margin, both directions alike")
LAG_DAMPING_RATIO = Quantity(
    r"\zeta_\xi",
    "Lag damping ratio at coalescence",
    covered=(0.0, 0.4),
    covered_by="with more lag damping the worst rotor speed moves below coalescence",
)
SUPPORT_DAMPING_RATIO = Quantity(
    r"\zeta_x",
    "Support damping ratio",
    covered=(0.0, 0.4),
    covered_by="the criterion is for light damping",
)


@dataclass(frozen=True, slots=True)
class Criterion:
    """The product of damping that is needed at coalescence and the one there is."""

    coalescence: Annotated[float, COALESCENCE_SPEED]
    support_frequency: Annotated[float, SUPPORT_FREQUENCY]
    frequency_ratio: Annotated[float, FREQUENCY_RATIO]
    coupling_parameter: Annotated[float, COUPLING]
    lag_damping_ratio: Annotated[float, LAG_DAMPING_RATIO]
    support_damping_ratio: Annotated[float, SUPPORT_DAMPING_RATIO]
    actual_product: Annotated[float, ACTUAL_PRODUCT]
    single_product: Annotated[float, SINGLE_PRODUCT]
    isotropic_product: Annotated[float, ISOTROPIC_PRODUCT]
    single_margin: Annotated[float, SINGLE_MARGIN]
    isotropic_margin: Annotated[float, ISOTROPIC_MARGIN]


def damping_product(
    rotor: LagRotor,
    hub: HubDirection,
) -> Annotated[
    Criterion | None,
    Nothing("The lag frequency is above the rotor speed at every speed: no damping is needed"),
]:
    r"""Return the product of lag damping and support damping that coalescence asks for.

    $$ C_x C_\xi > P_1 = \frac{N_b}{4} S_\xi^2 \omega_x^2 \frac{1 - \nu}{\nu}
    \quad \text{(one support mode)}, \qquad P_2 = 2 P_1
    \quad \text{(both directions alike)} $$
    $$ \omega_x^2 = \frac{K_x}{M_x + N_b m_b}, \qquad
    \nu = \frac{\omega_\xi(\Omega^*)}{\Omega^*}, \qquad m = \frac{C_x C_\xi}{P} $$

    A margin above one is stable.  It is an estimate for light damping and weak coupling at the
    coalescence speed of one support mode; the truth lies between the two when the support modes
    are near each other, and the verdict is that of the eigenvalues over a sweep.  The lag damper
    is that of one blade, the first moment is about the lag hinge.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective mass, stiffness and damping of one support mode at the hub.

    Returns:
        Coalescence, the products and the margins, or None.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Deutsch (1946), the form with one support mode, from memory; both derived anew.

    Examples:
        >>> from calc.ground.model.aircraft import Rotor
        >>> found = damping_product(
        ...     Rotor(4, 94.86, 289.134, 1084.654, 0.3048, 0.0, 4067.454),
        ...     HubDirection(3283.628, 1240481.75, 25539.33),
        ... )
        >>> round(found.single_margin, 3)
        1.463
    """
    THREE_BLADES.check(rotor.blades)
    mass_of_blades: Annotated[float, MASS_OF_BLADES] = rotor.blades * rotor.blade_mass
    total_mass = hub_mass_with_blades(hub.support_mass, mass_of_blades, hub.hub_mass)
    coupling_parameter = (
        rotor.blades * rotor.first_moment**2 / (2.0 * rotor.lag_inertia * total_mass)
    )
    COUPLING.check(coupling_parameter)
    support_frequency = math.sqrt(hub.support_stiffness / total_mass)
    coalescence = coalescence_speed(
        rotor.hinge_offset * rotor.first_moment / rotor.lag_inertia,
        rotor.lag_stiffness / rotor.lag_inertia,
        support_frequency,
    )
    if coalescence is None:
        return None
    lag_frequency: Annotated[float, LAG_FREQUENCY] = coalescence - support_frequency
    ratio = lag_frequency / coalescence
    single_product = (
        rotor.blades / 4.0 * rotor.first_moment**2 * support_frequency**2 * (1.0 - ratio) / ratio
    )
    actual_product = hub.support_damping * rotor.lag_damping
    return Criterion(
        coalescence=coalescence,
        support_frequency=support_frequency,
        frequency_ratio=ratio,
        coupling_parameter=coupling_parameter,
        lag_damping_ratio=rotor.lag_damping / (2.0 * rotor.lag_inertia * lag_frequency),
        support_damping_ratio=hub.support_damping / (2.0 * total_mass * support_frequency),
        actual_product=actual_product,
        single_product=single_product,
        isotropic_product=2.0 * single_product,
        single_margin=actual_product / single_product,
        isotropic_margin=actual_product / (2.0 * single_product),
    )


def directions(rotor: Rotor, support: Support) -> tuple[HubDirection, HubDirection]:
    """Return both directions of a hub, whose masses have the blades in them."""
    mass_x, mass_y = total_masses(rotor, support)
    return (
        HubDirection(mass_x, support.stiffness_x, support.damping_x, "with_blades"),
        HubDirection(mass_y, support.stiffness_y, support.damping_y, "with_blades"),
    )
