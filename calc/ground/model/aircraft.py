"""Aircraft: the rotor and its support, as every ground-resonance formula takes them."""

import math
from dataclasses import dataclass
from typing import Annotated, ClassVar

from calc.declaration import check
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
    MASS_OF_BLADES,
    MASS_X,
    MASS_Y,
    STIFFNESS_X,
    STIFFNESS_Y,
    SUPPORT_DAMPING,
    SUPPORT_MASS,
    SUPPORT_STIFFNESS,
    THREE_BLADES,
    TOTAL_MASS,
)


@dataclass(frozen=True, slots=True)
class Rotor:
    """Identical blades that lag about a hinge; every value is of one blade, about its lag hinge.

    Attributes:
        blades: Number of blades; scalar.
        blade_mass: Mass of one blade outboard of its lag hinge; scalar, kg.
        first_moment: First moment of one blade about its lag hinge; scalar, kg·m.
        lag_inertia: Second moment of one blade about its lag hinge; scalar, kg·m².
        hinge_offset: Distance of the lag hinge from the shaft; scalar, m.
        lag_stiffness: Lag spring of one blade; scalar, N·m/rad.
        lag_damping: Lag damper of one blade; scalar, N·m·s/rad.
    """

    heading: ClassVar[str] = "Rotor in lag"

    blades: Annotated[int, BLADES]
    blade_mass: Annotated[float, BLADE_MASS]
    first_moment: Annotated[float, FIRST_MOMENT]
    lag_inertia: Annotated[float, LAG_INERTIA]
    hinge_offset: Annotated[float, HINGE_OFFSET]
    lag_stiffness: Annotated[float, LAG_STIFFNESS]
    lag_damping: Annotated[float, LAG_DAMPING]

    def __post_init__(self) -> None:
        """Refuse a rotor that cannot exist."""
        check(self)

    def lag_frequency(self, rotor_speed: float) -> float:
        """Return the uncoupled lag frequency in the rotating frame, rad/s."""
        centrifugal = self.hinge_offset * self.first_moment * rotor_speed**2
        return math.sqrt((self.lag_stiffness + centrifugal) / self.lag_inertia)


LagRotor = Annotated[Rotor, {"blades": THREE_BLADES}]
"""Three or more blades, which multiblade coordinates describe."""


@dataclass(frozen=True, slots=True)
class HubDirection:
    """One direction of the hub as it is given, whose effective mass may have the blades in it.

    Attributes:
        support_mass: Effective hub mass; scalar, kg.
        support_stiffness: Effective hub stiffness; scalar, N/m.
        support_damping: Effective hub damping; scalar, N·s/m.
        hub_mass: Whether the hub mass has the blades in it; word.
    """

    heading: ClassVar[str] = "Hub in one direction"

    support_mass: Annotated[float, SUPPORT_MASS]
    support_stiffness: Annotated[float, SUPPORT_STIFFNESS]
    support_damping: Annotated[float, SUPPORT_DAMPING]
    hub_mass: Annotated[str, HUB_MASS] = "without_blades"

    def __post_init__(self) -> None:
        """Refuse a direction that cannot exist."""
        check(self)


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
        check(self)

    @property
    def is_isotropic(self) -> bool:
        """Whether both directions are equal."""
        return (self.mass_x, self.stiffness_x, self.damping_x) == (
            self.mass_y,
            self.stiffness_y,
            self.damping_y,
        )

    @property
    def lateral(self) -> HubDirection:
        """The y direction alone."""
        return HubDirection(self.mass_y, self.stiffness_y, self.damping_y)


@dataclass(frozen=True, slots=True)
class Hub:
    """The hub as it is given, whose effective masses may have the blades in them.

    Attributes:
        mass_x: Effective hub mass in x; scalar, kg.
        mass_y: Effective hub mass in y; scalar, kg.
        stiffness_x: Effective hub stiffness in x; scalar, N/m.
        stiffness_y: Effective hub stiffness in y; scalar, N/m.
        damping_x: Effective hub damping in x; scalar, N·s/m.
        damping_y: Effective hub damping in y; scalar, N·s/m.
        hub_mass: Whether the hub masses have the blades in them; word.
    """

    heading: ClassVar[str] = "Hub"

    mass_x: Annotated[float, MASS_X]
    mass_y: Annotated[float, MASS_Y]
    stiffness_x: Annotated[float, STIFFNESS_X]
    stiffness_y: Annotated[float, STIFFNESS_Y]
    damping_x: Annotated[float, DAMPING_X]
    damping_y: Annotated[float, DAMPING_Y]
    hub_mass: Annotated[str, HUB_MASS] = "without_blades"

    def __post_init__(self) -> None:
        """Refuse a hub that cannot exist."""
        check(self)

    def support(self, rotor: Rotor) -> Support:
        """Return the support, whose masses are without the blades."""
        blades = rotor.blades * rotor.blade_mass
        bare_x, bare_y = (
            hub_mass_with_blades(mass, blades, self.hub_mass) - blades
            for mass in (self.mass_x, self.mass_y)
        )
        return Support(
            bare_x, bare_y, self.stiffness_x, self.stiffness_y, self.damping_x, self.damping_y
        )


def total_masses(rotor: Rotor, support: Support) -> tuple[float, float]:
    """Return the effective hub masses with the blades lumped at the hub, x and y, kg."""
    blades = rotor.blades * rotor.blade_mass
    return support.mass_x + blades, support.mass_y + blades


def hub_mass_with_blades(
    mass: Annotated[float, SUPPORT_MASS],
    blades: Annotated[float, MASS_OF_BLADES],
    given: Annotated[str, HUB_MASS],
) -> Annotated[float, TOTAL_MASS]:
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
    """Return the coupling parameters N_b S² / (2 I M) of x and y; each must be below one."""
    mass_x, mass_y = total_masses(rotor, support)
    moment = rotor.blades * rotor.first_moment**2 / (2.0 * rotor.lag_inertia)
    COUPLING.check(moment / mass_x if mass_x else math.inf)
    COUPLING.check(moment / mass_y if mass_y else math.inf)
    return moment / mass_x, moment / mass_y
