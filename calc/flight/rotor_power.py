"""Rotor power: what the shaft gives for a lift and a forward force, in both flight modes."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Method
from calc.flight.craft import Condition, Rotor
from calc.flight.profile import (
    IN_PLANE_FACTOR,
    TORQUE_FACTOR,
    in_plane_factor,
    means,
    torque_factor,
)
from calc.flight.quantities import BELOW_ONE, ROTOR_LIFT
from calc.numeric.roots import crossing
from calc.quantity import LimitError, Quantity
from calc.rotor.blade_loading import solidity
from calc.rotor.inflow import ONE_SOLUTION, induced_inflow
from calc.rotor.level_flight import PROPULSIVE_FORCE as FORWARD_FORCE
from calc.rotor.quantities import BLADE_LOADING, THRUST, THRUST_COEFFICIENT
from calc.rotor.retreating_tip import SMALL_INCIDENCE
from calc.rotor.tip_speed import tip_speed
from calc.units import FORCE, MOMENT, POWER, SPEED

PROPULSIVE_FORCE = Quantity(FORWARD_FORCE.symbol, FORWARD_FORCE.label, FORCE, example=9000.0)
IN_PLANE_FORCE = Quantity("H_0", "Profile drag of the rotor in its plane", FORCE)
DRAG_SCALE = Quantity("K_0", "Profile force at a factor of one", FORCE)
INDUCED_SPEED = Quantity("v_i", "Induced speed at the disc", SPEED)
INDUCED_POWER = Quantity("P_i", "Induced power of the rotor", POWER)
PROFILE_POWER = Quantity("P_0", "Profile power of the rotor", POWER)
PROPULSIVE_POWER = Quantity("P_X", "Propulsive power of the rotor", POWER)
SHAFT_POWER = Quantity("P_s", "Shaft power of the rotor", POWER)
SHAFT_TORQUE = Quantity("Q", "Shaft torque of the rotor", MOMENT)
STEEPEST = 1.5
"""Largest incidence, in rad, at which the tilt of the disc is looked for."""


@dataclass(frozen=True, slots=True)
class RotorPower:
    """The tilt of a disc, its forces, and the power of the rotor by parts."""

    shaft_power: Annotated[float, SHAFT_POWER]
    shaft_torque: Annotated[float, SHAFT_TORQUE]
    induced_power: Annotated[float, INDUCED_POWER]
    profile_power: Annotated[float, PROFILE_POWER]
    propulsive_power: Annotated[float, PROPULSIVE_POWER]
    disc_incidence: Annotated[float, SMALL_INCIDENCE]
    thrust: Annotated[float, THRUST]
    in_plane_force: Annotated[float, IN_PLANE_FORCE]
    advance_ratio: Annotated[float, BELOW_ONE]
    blade_loading: Annotated[float, BLADE_LOADING]
    induced_speed: Annotated[float, INDUCED_SPEED]


def power_of_rotor(
    rotor: Annotated[Rotor, {"twist": 0.0, "lift_slope": 1.0}],
    flight: Annotated[Condition, {"load_factor": 1.0}],
    rotor_lift: Annotated[float, ROTOR_LIFT],
    propulsive_force: Annotated[float, PROPULSIVE_FORCE] = 0.0,
) -> RotorPower:
    r"""Return the power of a rotor that gives a lift and a forward force.

    $$ Z \sin \alpha - X \cos \alpha = H_0, \qquad T = Z \cos \alpha + X \sin \alpha, \qquad
    H_0 = K_0 F_H(\mu), \qquad K_0 = \frac{\sigma c_{d0}}{8} \rho \pi R^2 V_t^2 $$
    $$ P_s = \kappa T v_i + P_0 + X V = T (V \sin \alpha + \kappa v_i) + K_0 V_t F_Q,
    \qquad P_0 = K_0 V_t F, \qquad Q = \frac{P_s}{\Omega} $$

    A negative forward force is a drag: the rotor is pulled through the air, and where the shaft
    power comes out negative the air drives it.  The induced speed is Glauert's, the profile
    factors are those of `profile_factors`.

    Args:
        rotor: The rotor; record.
        flight: Airspeed and density; record.
        rotor_lift: Force of the rotor square to the flight path; scalar, N.
        propulsive_force: Force of the whole rotor along the flight path; scalar, N.

    Returns:
        Power by parts, torque, tilt of the disc and forces.

    Raises:
        ValueError: If an argument breaks its limits, if the advance ratio is not below 1, or if no
            tilt of the disc gives the force.

    Source:
        Glauert (1926), R. & M. 1111: loss of energy as the measure of drag (summary read); the
        equations in this form are derived on the page.

    Examples:
        >>> from calc.flight.examples import CURLEW_ROTOR
        >>> state = power_of_rotor(CURLEW_ROTOR, Condition(60.0, 1.225), 60000.0, 4000.0)
        >>> parts = state.induced_power + state.profile_power + state.propulsive_power
        >>> round(state.shaft_power / parts, 12)
        1.0
    """
    ROTOR_LIFT.check(rotor_lift)
    PROPULSIVE_FORCE.check(propulsive_force)
    speed = tip_speed(rotor.radius, rotor.rotor_speed)
    area_ratio = solidity(rotor.blades, rotor.chord, rotor.radius)
    pressure_force = flight.density * math.pi * rotor.radius**2 * speed**2
    scale: Annotated[float, DRAG_SCALE] = (
        area_ratio * rotor.profile_drag_coefficient / 8 * pressure_force
    )
    incidence = disc_tilt(flight.airspeed / speed, rotor_lift, propulsive_force, scale)
    ratio: Annotated[float, BELOW_ONE] = flight.airspeed / speed * math.cos(incidence)
    BELOW_ONE.check(ratio)
    torque: Annotated[float, TORQUE_FACTOR] = torque_factor(ratio)
    in_plane: Annotated[float, IN_PLANE_FACTOR] = in_plane_factor(ratio)
    thrust = rotor_lift * math.cos(incidence) + propulsive_force * math.sin(incidence)
    coefficient: Annotated[float, THRUST_COEFFICIENT] = thrust / pressure_force
    induced_speed: Annotated[float, INDUCED_SPEED] = speed * induced_inflow(
        coefficient, ratio, incidence
    )
    induced_power: Annotated[float, INDUCED_POWER] = rotor.induced_factor * thrust * induced_speed
    profile_power: Annotated[float, PROFILE_POWER] = scale * speed * (torque + ratio * in_plane)
    propulsive_power: Annotated[float, PROPULSIVE_POWER] = propulsive_force * flight.airspeed
    shaft_power: Annotated[float, SHAFT_POWER] = induced_power + profile_power + propulsive_power
    return RotorPower(
        shaft_power=shaft_power,
        shaft_torque=shaft_power / rotor.rotor_speed,
        induced_power=induced_power,
        profile_power=profile_power,
        propulsive_power=propulsive_power,
        disc_incidence=incidence,
        thrust=thrust,
        in_plane_force=scale * in_plane,
        advance_ratio=ratio,
        blade_loading=coefficient / area_ratio,
        induced_speed=induced_speed,
    )


def rotor_power(  # noqa: PLR0913, PLR0917  the flat names of scripts; forms take records
    airspeed: float,
    density: float,
    rotor_lift: float,
    propulsive_force: float,
    radius: float,
    chord: float,
    blades: int,
    rotor_speed: float,
    profile_drag_coefficient: float = 0.010,
    induced_factor: float = 1.15,
) -> RotorPower:
    """Return what `power_of_rotor` does, without records: arguments in SI units.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> state = rotor_power(70.0, 1.225, 39039.62, 3000.0, 7.5, 0.45, 4, 28.0)
        >>> round(math.degrees(state.disc_incidence), 4)
        5.8578
    """
    rotor = Rotor(
        radius, chord, blades, rotor_speed, 0.0, 1.0, profile_drag_coefficient, induced_factor
    )
    return power_of_rotor(rotor, Condition(airspeed, density), rotor_lift, propulsive_force)


def disc_tilt(
    speed_ratio: float, rotor_lift: float, propulsive_force: float, scale: float
) -> Annotated[float, Method("where the forces along the disc balance, by bracketing")]:
    """Return the incidence of the disc at which its in-plane force is the profile drag."""

    def excess(incidence: float) -> float:
        in_plane = scale * means(speed_ratio * math.cos(incidence))[1]
        along = rotor_lift * math.sin(incidence) - propulsive_force * math.cos(incidence)
        return along - in_plane

    low, high = -0.99 * ONE_SOLUTION, STEEPEST
    if not excess(low) < 0.0 < excess(high):
        raise ValueError("No tilt of the disc gives this lift with this propulsive force")
    return crossing(excess, low, high, 1e-13)


def rotor_power_chart(
    rotor: Rotor, flight: Condition, rotor_lift: float, propulsive_force: float, found: RotorPower
) -> Chart:
    """Return shaft power and its parts against propulsive force, from pulled to pushing."""
    reach = max(0.15 * rotor_lift, 1.2 * abs(propulsive_force))
    states = []
    for step in range(-12, 13):
        try:
            force = reach * step / 12
            states.append((force, power_of_rotor(rotor, flight, rotor_lift, force)))
        except LimitError:
            continue
    return Chart(
        title="Shaft power of the rotor against its propulsive force",
        description="Lines of shaft power, induced power and profile power; where shaft power is "
        "zero the rotor autorotates, pulled by a force that equals its drag.",
        x=Axis.of(PROPULSIVE_FORCE, -reach, reach),
        y=Axis.of(SHAFT_POWER),
        marks=(
            Line([(force, state.shaft_power) for force, state in states], "shaft", 1),
            Line([(force, state.induced_power) for force, state in states], "induced", 2),
            Line([(force, state.profile_power) for force, state in states], "profile", 3),
            Rule(0.0, "y", "autorotation"),
            Points([(propulsive_force, found.shaft_power)], "this state", 4),
        ),
    )
