"""Power by parts: level flight of a compound in one of its two modes."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.declaration import Choice, Nothing
from calc.flight.autorotative_trim import NO_TRIM, Autorotation, autorotation_of_rotor
from calc.flight.craft import Airframe, Condition, Drive, Propellers, Rotor, Wing
from calc.flight.propeller import PROPELLER_POWER, power_of_propellers
from calc.flight.quantities import (
    BELOW_ONE,
    MOST_LOADING,
    PROPELLER_THRUST,
    STALLS_ABOVE,
    WING_LIFT_SHARE,
)
from calc.flight.rotor_power import (
    INDUCED_POWER,
    PROFILE_POWER,
    PROPULSIVE_FORCE,
    SHAFT_POWER,
    RotorPower,
    power_of_rotor,
)
from calc.flight.wing import wing_at_airspeed
from calc.quantity import Quantity
from calc.rotor.blade_loading import solidity
from calc.rotor.quantities import BLADE_LOADING
from calc.rotor.retreating_tip import (
    INBOARD_ANGLE,
    SMALL_ANGLES,
    SMALL_INCIDENCE,
    TIP_ANGLE,
    retreating_tip,
)
from calc.rotor.stall_onset import ONSET_OF_STALL
from calc.units import FORCE, POWER

MODE = Choice("Flight mode", {"helicopter": "helicopter mode", "autorotation": "autorotative mode"})
PARASITE_POWER = Quantity("P_f", "Parasite power", POWER)
WING_INDUCED_POWER = Quantity("P_{w,i}", "Induced power of the wing", POWER)
WING_PROFILE_POWER = Quantity("P_{w,0}", "Profile power of the wing", POWER)
PROPELLER_LOSS = Quantity("P_{p,l}", "Loss of the propellers", POWER)
DRIVE_LOSS = Quantity("P_{m,l}", "Antitorque power and loss of the transmission", POWER)
TOTAL_POWER = Quantity("P", "Power of the engines", POWER)
DRIVEN = replace(
    SHAFT_POWER,
    covered=(0.0, math.inf),
    covered_by="the air drives the rotor: the freewheel opens and rotor speed rises",
)
AIRFRAME_DRAG = Quantity("D_w", "Drag of the airframe, wing included", FORCE)
THRUST_SHARE = Quantity("T_p/D_w", "Propeller thrust over drag of the airframe, wing included")
LOADED = replace(
    BLADE_LOADING,
    covered=(0.0, MOST_LOADING),
    covered_by=f"{STALLS_ABOVE}; the power is too low",
)
PAST_STALL = (
    "the tip under power and the inboard station in autorotation; 12 deg marks the onset of "
    "retreating-blade stall, 16 deg heavy stall, from memory; a constant drag coefficient knows "
    "neither, and the power is too low"
)
LIMITING_ANGLE = replace(
    TIP_ANGLE,
    symbol=r"\alpha_{270}",
    label="Angle of attack at the limiting station",
    covered=(SMALL_ANGLES[0], ONSET_OF_STALL),
    covered_by=PAST_STALL,
)
WING_LIFTS_ALL = "The wing lifts the whole weight: nothing is left for the rotor"
NO_PROPELLERS = (
    "Without propellers there is helicopter mode only, and a propeller thrust share of 0"
)


@dataclass(frozen=True, slots=True)
class LevelPower:
    """The power of level flight by parts; the parts from induced power on add up to the total."""

    total: Annotated[float, TOTAL_POWER]
    rotor_induced: Annotated[float, INDUCED_POWER]
    rotor_profile: Annotated[float, PROFILE_POWER]
    parasite: Annotated[float, PARASITE_POWER]
    wing_induced: Annotated[float, WING_INDUCED_POWER]
    wing_profile: Annotated[float, WING_PROFILE_POWER]
    propeller_loss: Annotated[float, PROPELLER_LOSS]
    drive_loss: Annotated[float, DRIVE_LOSS]
    rotor_shaft: Annotated[float, DRIVEN]
    propeller_power: Annotated[float, PROPELLER_POWER]
    propeller_thrust: Annotated[float, PROPELLER_THRUST]
    thrust_share: Annotated[float, THRUST_SHARE]
    lift_share: Annotated[float, WING_LIFT_SHARE]
    disc_incidence: Annotated[float, SMALL_INCIDENCE]
    advance_ratio: Annotated[float, BELOW_ONE]
    blade_loading: Annotated[float, LOADED]
    tip_angle: Annotated[float, TIP_ANGLE]
    inboard_angle: Annotated[float, INBOARD_ANGLE]
    limiting_angle: Annotated[float, LIMITING_ANGLE]


def level_power(
    mode: Annotated[str, MODE],
    rotor: Rotor,
    wing: Wing,
    airframe: Airframe,
    propellers: Propellers,
    drive: Drive,
    flight: Condition,
) -> Annotated[LevelPower | None, Nothing(NO_TRIM)]:
    r"""Return the power of the engines in level flight, by parts, in one of two modes.

    $$ D_w = \frac{1}{2} \rho V^2 f + D_{w,i} + D_{w,0}, \qquad
    P = \frac{(1 + k_t) P_s}{\eta_m} + P_p $$
    $$ \text{helicopter: } T_p = s_p D_w, \quad X = D_w - T_p \qquad
    \text{autorotation: } P_s = 0, \quad T_p = D_w + D_r $$

    The parts are the power of the losses, whoever pays them: $P_s + T_p V = P_i + P_0 + D_w V$.
    In autorotation the rotor turns at the rotor speed that is given, with the pitch that holds it.

    Args:
        mode: Helicopter mode or autorotation; word.
        rotor: The rotor, at the rotor speed of the mode; record.
        wing: The wing, of no area where there is none; record.
        airframe: Mass and drag area without rotor and wing; record.
        propellers: The propellers; a helicopter without any flies in helicopter mode; record.
        drive: Transmission, antitorque, and the propellers' share in helicopter mode; record.
        flight: Airspeed, density and load factor; record.

    Returns:
        The power and its parts, thrust of the propellers, tilt and loading of the rotor; None if
        there is no autorotation at this airspeed.

    Raises:
        ValueError: If an argument breaks its limits, the wing lifts the whole weight, or thrust is
            asked of no propellers.

    Source:
        Balance of forces and of energy; `power_of_rotor`, `autorotation_of_rotor`,
        `wing_at_airspeed`, `power_of_propellers`.

    Examples:
        >>> from calc.flight import examples as curlew
        >>> parts = level_power(
        ...     "autorotation",
        ...     curlew.CURLEW_ROTOR,
        ...     curlew.CURLEW_WING,
        ...     curlew.CURLEW_AIRFRAME,
        ...     curlew.CURLEW_PROPELLERS,
        ...     curlew.CURLEW_DRIVE,
        ...     Condition(77.0, 1.225),
        ... )
        >>> parts.rotor_shaft, parts.thrust_share > 1.0
        (0.0, True)
    """
    MODE.check(mode)
    if not propellers.propellers and (mode != "helicopter" or drive.propeller_thrust_share):
        raise ValueError(NO_PROPELLERS)
    carried = wing_at_airspeed(wing, flight, airframe.mass)
    if carried.rotor_lift <= 0.0:
        raise ValueError(WING_LIFTS_ALL)
    pressure_drag = flight.density * flight.airspeed**2 / 2 * airframe.drag_area
    drag: Annotated[float, AIRFRAME_DRAG] = (
        pressure_drag + carried.induced_drag + carried.profile_drag
    )
    if mode == "helicopter":
        pulled: Annotated[float, PROPELLER_THRUST] = drive.propeller_thrust_share * drag
        push: Annotated[float, PROPULSIVE_FORCE] = drag - pulled
        powered = power_of_rotor(rotor, flight, carried.rotor_lift, push)
        state: RotorPower | Autorotation = powered
        shaft = powered.shaft_power
    else:
        trim = autorotation_of_rotor(rotor, flight, carried.rotor_lift)
        if trim is None:
            return None
        pulled = drag + trim.rotor_drag
        state = trim
        shaft = 0.0
    delivered = max(0.0, (1 + drive.antitorque_share) * shaft / drive.transmission_efficiency)
    if propellers.propellers:
        power: Annotated[float, PROPELLER_POWER] = power_of_propellers(
            propellers, flight, pulled
        ).power
    else:
        power = 0.0
    blades = retreating_tip(
        state.advance_ratio,
        state.blade_loading,
        solidity(rotor.blades, rotor.chord, rotor.radius),
        state.disc_incidence,
        rotor.twist,
        rotor.lift_slope,
    )
    return LevelPower(
        total=delivered + power,
        rotor_induced=state.induced_power,
        rotor_profile=state.profile_power,
        parasite=pressure_drag * flight.airspeed,
        wing_induced=carried.induced_drag * flight.airspeed,
        wing_profile=carried.profile_drag * flight.airspeed,
        propeller_loss=power - pulled * flight.airspeed,
        drive_loss=delivered - shaft,
        rotor_shaft=shaft,
        propeller_power=power,
        propeller_thrust=pulled,
        thrust_share=pulled / drag if drag else drive.propeller_thrust_share,
        lift_share=carried.lift_share,
        disc_incidence=state.disc_incidence,
        advance_ratio=state.advance_ratio,
        blade_loading=state.blade_loading,
        tip_angle=blades.tip_angle,
        inboard_angle=blades.inboard_angle,
        limiting_angle=blades.tip_angle if shaft > 0.0 else blades.inboard_angle,
    )
