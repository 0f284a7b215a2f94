"""Autorotative trim: the tilt of the disc at which no torque is left on the shaft."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.declaration import Method, Nothing
from calc.flight.craft import Condition, Rotor
from calc.flight.profile import (
    IN_PLANE_FACTOR,
    TORQUE_FACTOR,
    in_plane_factor,
    means,
    torque_factor,
)
from calc.flight.quantities import BELOW_ONE, ROTOR_LIFT
from calc.flight.rotor_power import (
    DRAG_SCALE,
    IN_PLANE_FORCE,
    INDUCED_POWER,
    INDUCED_SPEED,
    PROFILE_POWER,
)
from calc.numeric.roots import crossing
from calc.quantity import Quantity
from calc.rotor import retreating_tip as blade
from calc.rotor.blade_loading import solidity
from calc.rotor.inflow import induced_inflow
from calc.rotor.quantities import BLADE_LOADING, THRUST
from calc.rotor.retreating_tip import INBOARD_ANGLE, SMALL_INCIDENCE, TIP_ANGLE, retreating_tip
from calc.rotor.tip_speed import tip_speed
from calc.units import FORCE

ROTOR_DRAG = Quantity("D_r", "Drag of the rotor", FORCE)
LIFT_TO_DRAG = Quantity(
    "Z/D_r",
    "Lift to drag ratio of the rotor",
    covered=(0.0, 10.0),
    covered_by="above about 10 a constant drag coefficient flatters the rotor",
)
COLLECTIVE = replace(
    blade.COLLECTIVE, above=-math.pi / 2, below=math.pi / 2, example=math.radians(6.0)
)
NO_TRIM = (
    "No autorotation at this airspeed: the torque is above zero however far the disc leans back"
)

STEP = math.radians(2.0)
STEPS = 30
"""The disc is looked at from level to 60 deg back; momentum theory ends long before."""


@dataclass(frozen=True, slots=True)
class Autorotation:
    """A rotor without shaft torque: its drag, its tilt, its pitch and its blades."""

    rotor_drag: Annotated[float, ROTOR_DRAG]
    lift_to_drag: Annotated[float, LIFT_TO_DRAG]
    collective: Annotated[float, COLLECTIVE]
    disc_incidence: Annotated[float, SMALL_INCIDENCE]
    advance_ratio: Annotated[float, BELOW_ONE]
    blade_loading: Annotated[float, BLADE_LOADING]
    tip_angle: Annotated[float, TIP_ANGLE]
    inboard_angle: Annotated[float, INBOARD_ANGLE]
    thrust: Annotated[float, THRUST]
    induced_power: Annotated[float, INDUCED_POWER]
    profile_power: Annotated[float, PROFILE_POWER]


@dataclass(frozen=True, slots=True)
class Disc:
    """A rotor in an airflow, as numbers: what the balance of torque needs."""

    speed_ratio: float
    load: float
    drag: float
    induced_factor: float

    def thrust_coefficient(self, incidence: float, in_plane: float) -> float:
        """Return the thrust coefficient that gives the lift with the disc at an incidence."""
        return (self.load - self.drag * in_plane * math.sin(incidence)) / math.cos(incidence)

    def torque(self, incidence: float) -> float:
        """Return the torque coefficient of the shaft with the disc at an incidence."""
        ratio = self.speed_ratio * math.cos(incidence)
        torque_factor, in_plane = means(ratio)
        thrust = self.thrust_coefficient(incidence, in_plane)
        inflow = ratio * math.tan(incidence) + self.induced_factor * induced_inflow(
            thrust, ratio, incidence
        )
        return thrust * inflow + self.drag * torque_factor


def disc(rotor: Rotor, flight: Condition, rotor_lift: float) -> Disc:
    """Return the disc of a rotor that carries a lift in a flight."""
    speed = rotor.rotor_speed * rotor.radius
    area = math.pi * rotor.radius**2
    return Disc(
        speed_ratio=flight.airspeed / speed,
        load=rotor_lift / (flight.density * area * speed**2),
        drag=solidity(rotor.blades, rotor.chord, rotor.radius) * rotor.profile_drag_coefficient / 8,
        induced_factor=rotor.induced_factor,
    )


def autorotative_incidence(
    rotor: Rotor, flight: Condition, rotor_lift: float
) -> Annotated[
    float | None, Method("where the torque of the shaft is zero, from a level disc back")
]:
    """Return the incidence at which the shaft torque is zero, the nearest to a level disc.

    None if the torque stays above zero back to 60 deg, as it does at low airspeed.
    """
    state = disc(rotor, flight, rotor_lift)
    BELOW_ONE.check(state.speed_ratio * math.cos(STEP * STEPS))
    before = 0.0
    for step in range(1, STEPS + 1):
        here = -STEP * step
        if state.torque(here) <= 0.0:
            return crossing(state.torque, here, before, 1e-12)
        before = here
    return None


def autorotation_of_rotor(
    rotor: Rotor,
    flight: Annotated[Condition, {"load_factor": 1.0}],
    rotor_lift: Annotated[float, ROTOR_LIFT],
) -> Annotated[Autorotation | None, Nothing(NO_TRIM)]:
    r"""Return the state of a rotor that turns at a rotor speed without shaft torque.

    $$ C_T (\mu \tan \alpha + \kappa \lambda_i) + \frac{\sigma c_{d0}}{8} F_Q = 0 $$
    $$ T = \frac{Z - H_0 \sin \alpha}{\cos \alpha}, \qquad
    D_r = H_0 \cos \alpha - T \sin \alpha = \frac{\kappa T v_i + P_0}{V} $$

    The disc leans back until the air that comes up through it drives the blades just enough.
    Collective pitch and the angles of the retreating blade follow by `retreating_tip`.

    Args:
        rotor: The rotor, at the rotor speed asked about; record.
        flight: Airspeed and density; record.
        rotor_lift: Force of the rotor square to the flight path; scalar, N.

    Returns:
        Drag, tilt, pitch, angles and the powers that the drag pays; None if the torque stays above
        zero however far the disc leans back, as at low airspeed.

    Raises:
        ValueError: If an argument breaks its limits, or the advance ratio is not below 1.

    Source:
        Glauert (1926), R. & M. 1111: the drag by the losses of energy (summary read); the torque
        balance is derived on the page.

    Examples:
        >>> from calc.flight.examples import CURLEW_ROTOR
        >>> state = autorotation_of_rotor(CURLEW_ROTOR, Condition(60.0, 1.225), 50000.0)
        >>> power = state.induced_power + state.profile_power
        >>> round(state.rotor_drag * 60.0 / power, 9), state.disc_incidence < 0.0
        (1.0, True)
    """
    ROTOR_LIFT.check(rotor_lift)
    incidence = autorotative_incidence(rotor, flight, rotor_lift)
    if incidence is None:
        return None
    speed = tip_speed(rotor.radius, rotor.rotor_speed)
    area_ratio = solidity(rotor.blades, rotor.chord, rotor.radius)
    pressure_force = flight.density * math.pi * rotor.radius**2 * speed**2
    scale: Annotated[float, DRAG_SCALE] = (
        area_ratio * rotor.profile_drag_coefficient / 8 * pressure_force
    )
    ratio: Annotated[float, BELOW_ONE] = flight.airspeed / speed * math.cos(incidence)
    BELOW_ONE.check(ratio)
    torque: Annotated[float, TORQUE_FACTOR] = torque_factor(ratio)
    share: Annotated[float, IN_PLANE_FACTOR] = in_plane_factor(ratio)
    in_plane: Annotated[float, IN_PLANE_FORCE] = scale * share
    thrust: Annotated[float, THRUST] = (rotor_lift - in_plane * math.sin(incidence)) / math.cos(
        incidence
    )
    drag: Annotated[float, ROTOR_DRAG] = in_plane * math.cos(incidence) - thrust * math.sin(
        incidence
    )
    loading: Annotated[float, BLADE_LOADING] = thrust / pressure_force / area_ratio
    induced_speed: Annotated[float, INDUCED_SPEED] = speed * induced_inflow(
        loading * area_ratio, ratio, incidence
    )
    blades = retreating_tip(ratio, loading, area_ratio, incidence, rotor.twist, rotor.lift_slope)
    return Autorotation(
        rotor_drag=drag,
        lift_to_drag=rotor_lift / drag,
        collective=blades.collective,
        disc_incidence=incidence,
        advance_ratio=ratio,
        blade_loading=loading,
        tip_angle=blades.tip_angle,
        inboard_angle=blades.inboard_angle,
        thrust=thrust,
        induced_power=rotor.induced_factor * thrust * induced_speed,
        profile_power=scale * speed * (torque + ratio * share),
    )
