"""Limit shares: how much of each limit a rotorcraft uses at an airspeed and a rotor speed."""

import math
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar, NamedTuple

from calc.declaration import Method, check
from calc.flight.craft import Condition, Wing
from calc.flight.quantities import (
    ROTOR_SPEED,
)
from calc.flight.wing import WingState, wing_at_airspeed
from calc.quantity import InputsError, Quantity
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.quantities import (
    LOAD_FACTOR,
    MACH_LIMIT,
    PRESSURE_ALTITUDE,
    PROPELLER_THRUST_SHARE,
    TEMPERATURE_OFFSET,
)
from calc.rotor.retreating_tip import retreating_tip
from calc.rotor.rotorcraft import Rotorcraft
from calc.rotor.stall_onset import ANGLE_LIMIT, ONSET_OF_STALL
from calc.rotor.tip_speed import helical_tip_mach
from calc.units import RPM, SHARE

STEEPEST = math.radians(60.0)
"""Tilt of the disc beyond which there is no level flight to speak of."""
LARGEST_RATIO = 0.84
"""The equations of the blade fail at an advance ratio of 0.853."""
MACH = "tip Mach"
PROPELLER = "propeller Mach"
TIP = "tip stall"
INBOARD = "inboard stall"
LOADING = "blade loading"
RATIO = "advance ratio"
FAST = "highest rotor speed"
SLOW = "lowest rotor speed"
UNLOADED = "least rotor lift"
BLADE_LOADING_LIMIT = Quantity(
    r"(C_T/\sigma)_{lim}", "Limit of the blade loading", above=0.0, example=0.12
)
ADVANCE_RATIO_LIMIT = Quantity(
    r"\mu_{lim}", "Limit of the advance ratio", above=0.0, at_most=0.8, example=0.5
)
PROPELLER_MACH_LIMIT = Quantity(
    "M_{lim,p}",
    "Limit of the propeller's helical tip Mach number",
    above=0.0,
    at_most=1.0,
    example=0.85,
)
LOWEST_SPEED = replace(
    ROTOR_SPEED, symbol=r"\Omega_1", label="Lowest rotor speed allowed", example=RPM.si(225.0)
)
HIGHEST_SPEED = replace(
    ROTOR_SPEED, symbol=r"\Omega_2", label="Highest rotor speed allowed", example=RPM.si(265.0)
)
LEAST_LIFT_SHARE = Quantity(
    "z_1", "Least share of the lift on the rotor", SHARE, above=0.0, at_most=1.0, example=0.3
)


@dataclass(frozen=True, slots=True)
class RotorLimits:
    """The limits of a rotor and of a propeller.

    Attributes:
        mach_limit: Mach number that the advancing tip must not exceed; scalar.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.
        blade_loading_limit: Largest thrust coefficient over solidity; scalar.
        advance_ratio_limit: Largest advance ratio; scalar.
        propeller_mach_limit: Largest helical tip Mach number of the propeller; scalar.
        lowest_rotor_speed: Lowest rotor speed allowed; scalar, rad/s.
        highest_rotor_speed: Highest rotor speed allowed; scalar, rad/s.
        least_lift_share: Least part of the lift that stays on the rotor; scalar.
    """

    heading: ClassVar[str] = "Limits"

    mach_limit: Annotated[float, MACH_LIMIT] = 0.9
    angle_limit: Annotated[float, ANGLE_LIMIT] = ONSET_OF_STALL
    blade_loading_limit: Annotated[float, BLADE_LOADING_LIMIT] = 0.12
    advance_ratio_limit: Annotated[float, ADVANCE_RATIO_LIMIT] = 0.5
    propeller_mach_limit: Annotated[float, PROPELLER_MACH_LIMIT] = 0.85
    lowest_rotor_speed: Annotated[float, LOWEST_SPEED] = RPM.si(225.0)
    highest_rotor_speed: Annotated[float, HIGHEST_SPEED] = RPM.si(265.0)
    least_lift_share: Annotated[float, LEAST_LIFT_SHARE] = 0.3

    def __post_init__(self) -> None:
        """Refuse limits that cannot exist, or a range of rotor speed that is none."""
        check(self)
        if self.lowest_rotor_speed >= self.highest_rotor_speed:
            raise InputsError(
                "The highest rotor speed allowed must be above the lowest",
                "lowest_rotor_speed",
                "highest_rotor_speed",
            )


@dataclass(frozen=True, slots=True)
class Day:
    """The air, the load factor, and the part of the drag that propellers overcome.

    Attributes:
        pressure_altitude: Altimeter reading with 1013.25 hPa set; scalar, m.
        temperature_offset: Air temperature minus the standard one at that altitude; scalar, K.
        load_factor: Lift over weight: 1 in level flight, more in a turn; scalar.
        propeller_thrust_share: Fraction of the drag that propellers overcome; scalar.
    """

    heading: ClassVar[str] = "Flight condition"

    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE] = 0.0
    temperature_offset: Annotated[float, TEMPERATURE_OFFSET] = 0.0
    load_factor: Annotated[float, LOAD_FACTOR] = 1.0
    propeller_thrust_share: Annotated[float, PROPELLER_THRUST_SHARE] = 1.0

    def __post_init__(self) -> None:
        """Refuse a day that cannot exist."""
        check(self)


class Case(NamedTuple):
    """A rotorcraft and what limits it, on a day, at an altitude of that day."""

    rotorcraft: Rotorcraft
    wing: Wing
    limits: RotorLimits
    day: Day
    diameter: float
    propeller_speed: float

    def at_altitude(self, altitude: float) -> "Case":
        """Return the same at another altitude."""
        return self._replace(day=replace(self.day, pressure_altitude=altitude))


def used_shares(case: Case, airspeed: float, rotor_speed: float) -> dict[str, float]:
    """Return the share of each limit that is used at an airspeed and a rotor speed.

    Where the wing lifts nearly all or more, there is no rotor to speak of: that limit is used
    without end and the others of the rotor are left out.
    """
    craft, limits, day = case.rotorcraft, case.limits, case.day
    air = standard_atmosphere(day.pressure_altitude, day.temperature_offset)
    lifting = wing_at_airspeed(
        case.wing, Condition(airspeed, air.density, day.load_factor), craft.mass
    )
    helical = helical_tip_mach(case.diameter, case.propeller_speed, airspeed, air.speed_of_sound)
    tip = rotor_speed * craft.radius
    weight = lifting.lift + lifting.rotor_lift
    lift_share = lifting.rotor_lift / weight
    shares = {
        MACH: (tip + airspeed) / air.speed_of_sound / limits.mach_limit,
        PROPELLER: helical / limits.propeller_mach_limit,
        RATIO: airspeed / tip / limits.advance_ratio_limit,
        FAST: rotor_speed / limits.highest_rotor_speed,
        SLOW: limits.lowest_rotor_speed / rotor_speed,
        UNLOADED: limits.least_lift_share / lift_share if lift_share > 0.0 else math.inf,
    }
    if lift_share > 0.0 and airspeed / tip < LARGEST_RATIO:
        shares |= _blade_shares(case, air.density, lifting, airspeed, tip)
    return shares


def _blade_shares(
    case: Case, density: float, lifting: WingState, airspeed: float, tip: float
) -> dict[str, float]:
    """Return the used shares of blade loading and of the angle at the station that counts."""
    craft, limits = case.rotorcraft, case.limits
    drag = 0.5 * density * airspeed**2 * craft.drag_area
    drag += lifting.induced_drag + lifting.profile_drag
    forward = drag * (1.0 - case.day.propeller_thrust_share)
    tilt = math.atan2(forward, lifting.rotor_lift)
    if abs(tilt) > STEEPEST:
        return {UNLOADED: math.inf}
    blade_area = craft.blades * craft.chord * craft.radius
    loading = math.hypot(forward, lifting.rotor_lift) / (density * blade_area * tip**2)
    blade = retreating_tip(
        airspeed * math.cos(tilt) / tip,
        loading,
        blade_area / (math.pi * craft.radius**2),
        tilt,
        craft.twist,
        craft.lift_slope,
    )
    shares = {LOADING: loading / limits.blade_loading_limit}
    if blade.inflow >= 0.0:
        return shares | {TIP: blade.tip_angle / limits.angle_limit}
    return shares | {INBOARD: blade.inboard_angle / limits.angle_limit}


def governing(
    case: Case, airspeed: float, rotor_speed: float
) -> Annotated[tuple[str, float], Method("the largest of the used shares of all limits")]:
    """Return the limit of which the largest share is used, and that share."""
    shares = used_shares(case, airspeed, rotor_speed)
    name = max(shares, key=lambda key: shares[key])
    return name, shares[name]
