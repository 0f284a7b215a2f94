"""Product criterion: the damping that rotor and support need together, as a first estimate."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Nothing
from calc.ground.aircraft import hub_mass_with_blades
from calc.ground.coalescence import coalescence_speed
from calc.ground.quantities import (
    BLADE_MASS,
    COALESCENCE_SPEED,
    COUPLING,
    FIRST_MOMENT,
    HINGE_OFFSET,
    HUB_MASS,
    LAG_DAMPING,
    LAG_INERTIA,
    LAG_STIFFNESS,
    SUPPORT_DAMPING,
    SUPPORT_MASS,
    SUPPORT_STIFFNESS,
    THREE_BLADES,
)
from calc.quantity import Quantity
from calc.units import ROTATION, Unit

PRODUCT = (Unit("N²·s²/rad", "N2.s2/rad", "newton squared second squared per radian"),)
SUPPORT_FREQUENCY = Quantity(r"\omega_x", "Support frequency with the blades", ROTATION)
FREQUENCY_RATIO = Quantity(
    r"\nu",
    "Lag frequency over rotor speed at coalescence",
    covered=(0.0, 1.0),
)
ACTUAL_PRODUCT = Quantity(r"C_x C_\zeta", "Product of damping there is", PRODUCT)
SINGLE_PRODUCT = Quantity("P_1", "Product needed, one support mode", PRODUCT)
ISOTROPIC_PRODUCT = Quantity("P_2", "Product needed, both directions alike", PRODUCT)
SINGLE_MARGIN = Quantity("m_1", "Margin, one support mode")
ISOTROPIC_MARGIN = Quantity("m_2", "Margin, both directions alike")
LAG_DAMPING_RATIO = Quantity(
    r"\eta_\zeta",
    "Lag damping ratio at coalescence",
    covered=(0.0, 0.4),
    covered_by="with more lag damping the worst rotor speed moves below coalescence",
)
SUPPORT_DAMPING_RATIO = Quantity(
    r"\eta_x",
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
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, LAG_DAMPING],
    support_mass: Annotated[float, SUPPORT_MASS],
    support_stiffness: Annotated[float, SUPPORT_STIFFNESS],
    support_damping: Annotated[float, SUPPORT_DAMPING],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Annotated[
    Criterion | None,
    Nothing("The lag frequency is above the rotor speed at every speed: no damping is needed"),
]:
    r"""Return the product of lag damping and support damping that coalescence asks for.

    $$ C_x C_\zeta > P_1 = \frac{N}{4} S_\zeta^2 \omega_x^2 \frac{1 - \nu}{\nu}
    \quad \text{(one support mode)}, \qquad P_2 = 2 P_1
    \quad \text{(both directions alike)} $$
    $$ \omega_x^2 = \frac{K_x}{M_x + N m_b}, \qquad
    \nu = \frac{\omega_\zeta(\Omega^*)}{\Omega^*}, \qquad m = \frac{C_x C_\zeta}{P} $$

    A margin above one is stable.  It is an estimate for light damping and weak coupling at the
    coalescence speed of one support mode; the truth lies between the two when the support modes
    are near each other, and the verdict is that of the eigenvalues over a sweep.  The lag damper
    is that of one blade, the first moment is about the lag hinge.

    Args:
        blades: Number of blades; scalar.
        blade_mass: Mass of one blade outboard of its lag hinge; scalar, kg.
        first_moment: First moment of one blade about its lag hinge; scalar, kg·m.
        lag_inertia: Second moment of one blade about its lag hinge; scalar, kg·m².
        hinge_offset: Distance of the lag hinge from the shaft; scalar, m.
        lag_stiffness: Lag spring of one blade; scalar, N·m/rad.
        lag_damping: Lag damper of one blade; scalar, N·m·s/rad.
        support_mass: Effective hub mass of one support mode; scalar, kg.
        support_stiffness: Effective hub stiffness of that mode; scalar, N/m.
        support_damping: Effective hub damping of that mode; scalar, N·s/m.
        hub_mass: Whether the hub mass has the blades in it; word.

    Returns:
        Coalescence, the products and the margins, or None.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Deutsch (1946), the form with one support mode, from memory; both derived anew.

    Examples:
        >>> found = damping_product(
        ...     4, 94.86, 289.134, 1084.654, 0.3048, 0.0, 4067.454, 3283.628, 1240481.75, 25539.33
        ... )
        >>> round(found.single_margin, 3)
        1.463
    """
    THREE_BLADES.check(blades)
    BLADE_MASS.check(blade_mass)
    FIRST_MOMENT.check(first_moment)
    LAG_INERTIA.check(lag_inertia)
    HINGE_OFFSET.check(hinge_offset)
    LAG_STIFFNESS.check(lag_stiffness)
    LAG_DAMPING.check(lag_damping)
    SUPPORT_MASS.check(support_mass)
    SUPPORT_STIFFNESS.check(support_stiffness)
    SUPPORT_DAMPING.check(support_damping)
    HUB_MASS.check(hub_mass)
    total_mass = hub_mass_with_blades(support_mass, blades * blade_mass, hub_mass)
    coupling_parameter = blades * first_moment**2 / (2.0 * lag_inertia * total_mass)
    COUPLING.check(coupling_parameter)
    support_frequency = math.sqrt(support_stiffness / total_mass)
    coalescence = coalescence_speed(
        hinge_offset * first_moment / lag_inertia, lag_stiffness / lag_inertia, support_frequency
    )
    if coalescence is None:
        return None
    lag_frequency = coalescence - support_frequency
    ratio = lag_frequency / coalescence
    single_product = blades / 4.0 * first_moment**2 * support_frequency**2 * (1.0 - ratio) / ratio
    actual_product = support_damping * lag_damping
    return Criterion(
        coalescence=coalescence,
        support_frequency=support_frequency,
        frequency_ratio=ratio,
        coupling_parameter=coupling_parameter,
        lag_damping_ratio=lag_damping / (2.0 * lag_inertia * lag_frequency),
        support_damping_ratio=support_damping / (2.0 * total_mass * support_frequency),
        actual_product=actual_product,
        single_product=single_product,
        isotropic_product=2.0 * single_product,
        single_margin=actual_product / single_product,
        isotropic_margin=actual_product / (2.0 * single_product),
    )
