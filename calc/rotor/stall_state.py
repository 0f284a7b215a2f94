"""Stall state: the retreating blade of a rotorcraft in level flight at one airspeed."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name
from calc.rotor.advance_ratio import advance_ratio
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.blade_loading import blade_loading, solidity
from calc.rotor.level_flight import rotor_force
from calc.rotor.quantities import ADVANCING_TIP_MACH, AIRSPEED, BLADE_LOADING, INFLOW
from calc.rotor.retreating_tip import (
    BELOW_ONE,
    INBOARD_ANGLE,
    SMALL_INCIDENCE,
    TIP_ANGLE,
    retreating_tip,
)
from calc.rotor.rotorcraft import Flight, Rotorcraft
from calc.rotor.tip_speed import advancing_tip_mach, tip_speed

LIMITING_STATION = Name("Limiting station")
POWERED = "tip, since shaft power drives the rotor: the air goes down through its disc"
PERHAPS_AUTOROTATIVE = (
    "tip while shaft power drives the rotor, inboard station in autorotation; here the air comes "
    "up through the disc, and the profile drag, which is left out, decides between the two"
)


@dataclass(frozen=True, slots=True)
class StallState:
    """The retreating blade in level flight; `limiting` names the station whose angle counts."""

    airspeed: Annotated[float, AIRSPEED]
    advance_ratio: Annotated[float, BELOW_ONE]
    blade_loading: Annotated[float, BLADE_LOADING]
    tip_angle: Annotated[float, TIP_ANGLE]
    inboard_angle: Annotated[float, INBOARD_ANGLE]
    advancing_tip_mach: Annotated[float, ADVANCING_TIP_MACH]
    disc_incidence: Annotated[float, SMALL_INCIDENCE]
    inflow: Annotated[float, INFLOW]
    limiting: Annotated[str, LIMITING_STATION]


def stall_state(
    rotorcraft: Rotorcraft, flight: Flight, airspeed: Annotated[float, AIRSPEED]
) -> StallState:
    r"""Return the angles of attack of the retreating blade in level flight at an airspeed.

    $$ \mu = \frac{V \cos \alpha}{V_t}, \qquad \frac{C_T}{\sigma} = \frac{T}{\rho N_b c R V_t^2} $$

    The rotor gives the force of `rotor_force`; the angles are those of `retreating_tip`.
    The tip is the limiting station while shaft power drives the rotor, the inboard station in
    autorotation.  Air that goes down through the disc takes power from the shaft even without
    profile drag; where it comes up, profile drag decides, and both stations are named.

    Args:
        rotorcraft: The rotorcraft; record.
        flight: The air, the load factor, and the shares of wing and propellers; record.
        airspeed: True airspeed; scalar, m/s.

    Returns:
        The state of the retreating blade, with the airspeed repeated.

    Raises:
        ValueError: If an argument breaks its limits, or the advance ratio is not below 1.

    Source:
        Gustafson and Myers (1946), NACA Report 840: the angle as a measure of stall; the station
        by condition from memory of the charts of that time.

    Examples:
        >>> from calc.rotor.examples import PLOVER
        >>> state = stall_state(PLOVER, Flight(), 50.0)
        >>> state.limiting.partition(",")[0]
        'tip'
    """
    air = standard_atmosphere(flight.pressure_altitude, flight.temperature_offset)
    force = rotor_force(
        rotorcraft.mass,
        airspeed,
        air.density,
        rotorcraft.drag_area,
        flight.load_factor,
        flight.wing_lift_share,
        flight.propeller_thrust_share,
    )
    speed = tip_speed(rotorcraft.radius, rotorcraft.rotor_speed)
    ratio = advance_ratio(airspeed, speed, force.disc_incidence)
    area_ratio = solidity(rotorcraft.blades, rotorcraft.chord, rotorcraft.radius)
    loading = blade_loading(
        force.thrust,
        air.density,
        rotorcraft.blades,
        rotorcraft.chord,
        rotorcraft.radius,
        speed,
    )
    blade = retreating_tip(
        ratio,
        loading,
        area_ratio,
        force.disc_incidence,
        rotorcraft.twist,
        rotorcraft.lift_slope,
    )
    return StallState(
        airspeed=airspeed,
        advance_ratio=ratio,
        blade_loading=loading,
        tip_angle=blade.tip_angle,
        inboard_angle=blade.inboard_angle,
        advancing_tip_mach=advancing_tip_mach(
            speed, airspeed, air.speed_of_sound, force.disc_incidence
        ),
        disc_incidence=force.disc_incidence,
        inflow=blade.inflow,
        limiting=limiting_station(blade.inflow),
    )


def limiting_station(inflow: float) -> str:
    """Return the station whose angle counts, and why, for an inflow ratio down through the disc.

    The shaft power of the uniform inflow is thrust times inflow; profile drag adds to it.
    """
    return POWERED if inflow >= 0.0 else PERHAPS_AUTOROTATIVE
