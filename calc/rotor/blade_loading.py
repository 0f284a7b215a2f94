"""Blade loading: solidity, thrust coefficient and Lock number."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.examples import PLOVER
from calc.quantity import Quantity
from calc.rotor.quantities import (
    AIR_DENSITY,
    BLADE_LOADING,
    BLADES,
    CHORD,
    LIFT_SLOPE_OF_BLADE,
    RADIUS,
    ROTOR_SPEED,
    SOLIDITY,
    THRUST,
    THRUST_COEFFICIENT,
    TIP_SPEED,
)
from calc.rotor.tip_speed import tip_speed
from calc.units import INERTIA, PRESSURE

FLAP_INERTIA = Quantity(
    "I_b",
    "Flap moment of inertia of one blade",
    INERTIA,
    above=0.0,
    example=PLOVER.flap_inertia,
)
LOCK_NUMBER = Quantity(
    r"\gamma",
    "Lock number",
    covered=(3.0, 12.0),
    covered_by="typical values of built rotors, at second hand",
)
DISC_LOADING = Quantity("T/A", "Disc loading", PRESSURE)
MEAN_LIFT_COEFFICIENT = Quantity(r"\bar{c}_l", "Mean lift coefficient in hover")


@dataclass(frozen=True, slots=True)
class RotorLoading:
    """How heavily a rotor is loaded, in numbers without dimension and as a pressure."""

    solidity: Annotated[float, SOLIDITY]
    disc_loading: Annotated[float, DISC_LOADING]
    thrust_coefficient: Annotated[float, THRUST_COEFFICIENT]
    blade_loading: Annotated[float, BLADE_LOADING]
    mean_lift_coefficient: Annotated[float, MEAN_LIFT_COEFFICIENT]


def solidity(
    blades: Annotated[int, BLADES],
    chord: Annotated[float, CHORD],
    radius: Annotated[float, RADIUS],
) -> Annotated[float, SOLIDITY]:
    r"""Return the area of the blades over the area of the disc, for blades of constant chord.

    $$ \sigma = \frac{N_b c}{\pi R} $$

    The blades count from the shaft axis, without root cutout.

    Args:
        blades: Number of blades of the rotor; scalar.
        chord: Chord of one blade; scalar, m.
        radius: Shaft axis to blade tip; scalar, m.

    Returns:
        The solidity; scalar.

    Raises:
        ValueError: If an argument breaks its limits, or the blades would cover the whole disc.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics (from memory).

    Examples:
        >>> round(solidity(4, 0.42, 7.0), 5)
        0.07639
    """
    BLADES.check(blades)
    CHORD.check(chord)
    RADIUS.check(radius)
    area_ratio = blades * chord / (math.pi * radius)
    SOLIDITY.check(area_ratio)
    return area_ratio


def thrust_coefficient(
    thrust: Annotated[float, THRUST],
    density: Annotated[float, AIR_DENSITY],
    radius: Annotated[float, RADIUS],
    tip_speed: Annotated[float, TIP_SPEED],
) -> Annotated[float, THRUST_COEFFICIENT]:
    r"""Return the thrust over density, disc area and tip speed squared, without a factor 1/2.

    $$ C_T = \frac{T}{\rho \pi R^2 V_t^2} $$

    Some works, many of them British, divide by half of this, which doubles the coefficient.

    Args:
        thrust: Force of the rotor along its axis; scalar, N.
        density: Density of the air; scalar, kg/m³.
        radius: Shaft axis to blade tip; scalar, m.
        tip_speed: Speed of the tips due to rotation; scalar, m/s.

    Returns:
        The thrust coefficient; scalar.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics (from memory).

    Examples:
        >>> round(thrust_coefficient(54000.0, 1.225, 7.0, 220.0), 6)
        0.005917
    """
    THRUST.check(thrust)
    AIR_DENSITY.check(density)
    RADIUS.check(radius)
    TIP_SPEED.check(tip_speed)
    return thrust / (density * math.pi * radius**2 * tip_speed**2)


def blade_loading(
    thrust: Annotated[float, THRUST],
    density: Annotated[float, AIR_DENSITY],
    blades: Annotated[int, BLADES],
    chord: Annotated[float, CHORD],
    radius: Annotated[float, RADIUS],
    tip_speed: Annotated[float, TIP_SPEED],
) -> Annotated[float, BLADE_LOADING]:
    r"""Return the thrust over density, blade area and tip speed squared, without a factor 1/2.

    $$ \frac{C_T}{\sigma} = \frac{T}{\rho N_b c R V_t^2} $$

    Args:
        thrust: Force of the rotor along its axis; scalar, N.
        density: Density of the air; scalar, kg/m³.
        blades: Number of blades of the rotor; scalar.
        chord: Chord of one blade; scalar, m.
        radius: Shaft axis to blade tip; scalar, m.
        tip_speed: Speed of the tips due to rotation; scalar, m/s.

    Returns:
        The blade loading; scalar.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics (from memory).

    Examples:
        >>> round(blade_loading(54000.0, 1.225, 4, 0.42, 7.0, 220.0), 5)
        0.07745
    """
    coefficient = thrust_coefficient(thrust, density, radius, tip_speed)
    return coefficient / solidity(blades, chord, radius)


def lock_number(
    density: Annotated[float, AIR_DENSITY],
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE],
    chord: Annotated[float, CHORD],
    radius: Annotated[float, RADIUS],
    flap_inertia: Annotated[float, FLAP_INERTIA],
) -> Annotated[float, LOCK_NUMBER]:
    r"""Return the ratio of aerodynamic to inertial flapping moments of a blade.

    $$ \gamma = \frac{\rho a_0 c R^4}{I_b} $$

    Args:
        density: Density of the air; scalar, kg/m³.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.
        chord: Chord of one blade; scalar, m.
        radius: Shaft axis to blade tip; scalar, m.
        flap_inertia: Moment of inertia of one blade about its flap hinge; scalar, kg·m².

    Returns:
        The Lock number; scalar.

    Raises:
        ValueError: If an argument is not above zero.

    Source:
        Johnson (1994), Helicopter Theory, page 267, quoted at second hand.

    Examples:
        >>> round(lock_number(1.225, 5.7, 0.42, 7.0, 900.0), 3)
        7.824
    """
    AIR_DENSITY.check(density)
    LIFT_SLOPE_OF_BLADE.check(lift_slope)
    CHORD.check(chord)
    RADIUS.check(radius)
    FLAP_INERTIA.check(flap_inertia)
    return density * lift_slope * chord * radius**4 / flap_inertia


def rotor_loading(
    thrust: Annotated[float, THRUST],
    density: Annotated[float, AIR_DENSITY],
    blades: Annotated[int, BLADES],
    chord: Annotated[float, CHORD],
    radius: Annotated[float, RADIUS],
    rotor_speed: Annotated[float, ROTOR_SPEED],
) -> RotorLoading:
    r"""Return solidity, disc loading, thrust coefficient and blade loading together.

    $$ \frac{C_T}{\sigma} = \frac{T}{\rho N_b c R (\Omega R)^2}, \qquad
    \bar{c}_l = \frac{6 C_T}{\sigma} $$

    Args:
        thrust: Force of the rotor along its axis; scalar, N.
        density: Density of the air; scalar, kg/m³.
        blades: Number of blades of the rotor; scalar.
        chord: Chord of one blade; scalar, m.
        radius: Shaft axis to blade tip; scalar, m.
        rotor_speed: Angular speed of the rotor's own shaft; scalar, rad/s.

    Returns:
        The loading of the rotor, and the lift coefficient that blades of constant lift
        coefficient would need in hover.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics (from memory).

    Examples:
        >>> loading = rotor_loading(54000.0, 1.225, 4, 0.42, 7.0, 31.4)
        >>> round(loading.blade_loading, 5), round(loading.mean_lift_coefficient, 4)
        (0.07759, 0.4655)
    """
    speed = tip_speed(radius, rotor_speed)
    area_ratio = solidity(blades, chord, radius)
    coefficient = thrust_coefficient(thrust, density, radius, speed)
    loading = coefficient / area_ratio
    return RotorLoading(
        solidity=area_ratio,
        disc_loading=thrust / (math.pi * radius**2),
        thrust_coefficient=coefficient,
        blade_loading=loading,
        mean_lift_coefficient=6.0 * loading,
    )
