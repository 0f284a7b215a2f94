"""Aircraft: the rotor and its support, as every ground-resonance formula takes them."""

import math
from dataclasses import dataclass
from typing import Annotated, Any

from calc.declaration import inputs
from calc.ground.quantities import (
    BLADE_MASS,
    BLADES,
    COUPLING,
    DAMPING_X,
    DAMPING_Y,
    FIRST_MOMENT,
    HINGE_OFFSET,
    HUB_MASS,
    HUB_MASS_WITHOUT_BLADES,
    LAG_DAMPING,
    LAG_INERTIA,
    LAG_STIFFNESS,
    MASS_X,
    MASS_Y,
    STIFFNESS_X,
    STIFFNESS_Y,
)
from calc.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Rotor:
    """Identical blades that lag about a hinge; every value is of one blade, about its lag hinge."""

    blades: Annotated[int, BLADES]
    blade_mass: Annotated[float, BLADE_MASS]
    first_moment: Annotated[float, FIRST_MOMENT]
    lag_inertia: Annotated[float, LAG_INERTIA]
    hinge_offset: Annotated[float, HINGE_OFFSET]
    lag_stiffness: Annotated[float, LAG_STIFFNESS]
    lag_damping: Annotated[float, LAG_DAMPING]

    def __post_init__(self) -> None:
        """Refuse a rotor that cannot exist."""
        _check(self)

    def lag_frequency(self, rotor_speed: float) -> float:
        """Return the uncoupled lag frequency in the rotating frame, rad/s."""
        centrifugal = self.hinge_offset * self.first_moment * rotor_speed**2
        return math.sqrt((self.lag_stiffness + centrifugal) / self.lag_inertia)


@dataclass(frozen=True, slots=True)
class Support:
    """Two directions in which the hub moves; the effective hub masses are without the blades."""

    mass_x: Annotated[float, MASS_X]
    mass_y: Annotated[float, MASS_Y]
    stiffness_x: Annotated[float, STIFFNESS_X]
    stiffness_y: Annotated[float, STIFFNESS_Y]
    damping_x: Annotated[float, DAMPING_X]
    damping_y: Annotated[float, DAMPING_Y]

    def __post_init__(self) -> None:
        """Refuse a support that cannot exist."""
        _check(self)

    @property
    def is_isotropic(self) -> bool:
        """Whether both directions are equal."""
        return (self.mass_x, self.stiffness_x, self.damping_x) == (
            self.mass_y,
            self.stiffness_y,
            self.damping_y,
        )


def assembled(
    rotor: tuple[int, float, float, float, float, float, float],
    masses: tuple[float, float],
    springs_and_dampers: tuple[float, float, float, float],
    hub_mass: str,
) -> tuple[Rotor, Support]:
    """Return a rotor and its support from the inputs of a form, in the order of their fields.

    Raises:
        ValueError: If an input cannot exist.
    """
    HUB_MASS.check(hub_mass)
    found = Rotor(*rotor)
    MASS_X.check(masses[0])
    MASS_Y.check(masses[1])
    blades = found.blades * found.blade_mass
    bare_x, bare_y = (hub_mass_with_blades(mass, blades, hub_mass) - blades for mass in masses)
    return found, Support(bare_x, bare_y, *springs_and_dampers)


def total_masses(rotor: Rotor, support: Support) -> tuple[float, float]:
    """Return the effective hub masses with the blades lumped at the hub, x and y, kg."""
    blades = rotor.blades * rotor.blade_mass
    return support.mass_x + blades, support.mass_y + blades


def hub_mass_with_blades(mass: float, blades: float, given: str) -> float:
    """Return the effective hub mass with the blades lumped at the hub, kg.

    Args:
        mass: Effective hub mass as it is given; scalar, kg.
        blades: Mass of all blades; scalar, kg.
        given: `with_blades` or `without_blades`, which says what is given.

    Returns:
        The mass; scalar, kg.

    Raises:
        ValueError: If a hub mass with blades is not more than that of the blades.
    """
    if given == "without_blades":
        return mass + blades
    HUB_MASS_WITHOUT_BLADES.check(mass - blades)
    return mass


def support_frequencies(rotor: Rotor, support: Support) -> tuple[float, float]:
    """Return the support frequencies with the blades lumped at the hub, x and y, rad/s."""
    mass_x, mass_y = total_masses(rotor, support)
    return math.sqrt(support.stiffness_x / mass_x), math.sqrt(support.stiffness_y / mass_y)


def coupling_parameters(rotor: Rotor, support: Support) -> tuple[float, float]:
    """Return the coupling parameters N S² / (2 I M) of x and y; each must be below one."""
    mass_x, mass_y = total_masses(rotor, support)
    moment = rotor.blades * rotor.first_moment**2 / (2.0 * rotor.lag_inertia)
    COUPLING.check(moment / mass_x if mass_x else math.inf)
    COUPLING.check(moment / mass_y if mass_y else math.inf)
    return moment / mass_x, moment / mass_y


def _check(record: Rotor | Support) -> None:
    kind: Any = type(record)
    for field in inputs(kind):
        if isinstance(field.declaration, Quantity):
            field.declaration.check(getattr(record, field.name))
