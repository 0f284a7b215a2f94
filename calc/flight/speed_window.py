"""Speed window: the rotor speeds that limits leave, and the Mach limit of a propeller."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name, Nothing
from calc.flight.limit_shares import LOADING, MACH, PROPELLER_MACH_LIMIT, RATIO, RotorLimits
from calc.flight.quantities import (
    AIRSPEED,
    BLADES,
    CHORD,
    DENSITY,
    RADIUS,
    ROTOR_LIFT,
    ROTOR_SPEED,
)
from calc.quantity import Quantity
from calc.rotor.quantities import (
    SPEED_OF_SOUND,
)
from calc.rotor.rotorcraft import Rotorcraft
from calc.rotor.stall_onset import ONSET_OF_STALL
from calc.rotor.tip_speed import DIAMETER, PROPELLER_SPEED
from calc.units import RPM, SPEED

WINDOW_HIGHEST = Quantity(r"\Omega_{max}", "Highest rotor speed by Mach number", ROTOR_SPEED.units)
WINDOW_LOWEST = Quantity(r"\Omega_{min}", "Lowest rotor speed of the window", ROTOR_SPEED.units)
BY_LOADING = Quantity(r"\Omega_{min,1}", "Lowest rotor speed by blade loading", ROTOR_SPEED.units)
BY_RATIO = Quantity(r"\Omega_{min,2}", "Lowest rotor speed by advance ratio", ROTOR_SPEED.units)
PROPELLER_AIRSPEED = Quantity("V_p", "Airspeed at the propeller's Mach limit", SPEED)
WINDOW = Name("Window of rotor speed")


@dataclass(frozen=True, slots=True)
class SpeedWindow:
    """The rotor speeds that Mach number, blade loading and advance ratio leave."""

    highest: Annotated[float, WINDOW_HIGHEST]
    lowest: Annotated[float, WINDOW_LOWEST]
    lowest_by_loading: Annotated[float, BY_LOADING]
    lowest_by_advance_ratio: Annotated[float, BY_RATIO]
    window: Annotated[str, WINDOW]


def window_of_rotor_speed(
    rotor: Annotated[
        Rotorcraft,
        {
            "mass": 1.0,
            "radius": RADIUS,
            "chord": CHORD,
            "blades": BLADES,
            "rotor_speed": 1.0,
            "twist": 0.0,
            "lift_slope": 1.0,
            "drag_area": 0.0,
        },
    ],
    limits: Annotated[
        RotorLimits,
        {
            "angle_limit": ONSET_OF_STALL,
            "propeller_mach_limit": 1.0,
            "lowest_rotor_speed": 1.0,
            "highest_rotor_speed": 2.0,
            "least_lift_share": 1.0,
        },
    ],
    rotor_lift: Annotated[float, ROTOR_LIFT],
    airspeed: Annotated[float, AIRSPEED],
    density: Annotated[float, DENSITY] = 1.225,
    speed_of_sound: Annotated[float, SPEED_OF_SOUND] = 340.294,
) -> SpeedWindow:
    r"""Return the rotor speeds that Mach number, blade loading and advance ratio leave.

    $$ \Omega_{max} = \frac{a M_{lim} - V}{R}, \qquad
    \Omega_{min,1} = \frac{1}{R} \sqrt{\frac{Z}{\rho N_b c R (C_T/\sigma)_{lim}}}, \qquad
    \Omega_{min,2} = \frac{V}{\mu_{lim} R} $$

    The tilt of the disc is left out.  Where the lowest lies above the highest, no rotor speed
    keeps within the limits, and the two limits that shut the window are named.

    Args:
        rotor: Radius, chord and blades; record.
        limits: Mach number, blade loading and advance ratio; record.
        rotor_lift: Lift of the rotor; scalar, N.
        airspeed: True airspeed; scalar, m/s.
        density: Density of the air; scalar, kg/m³.
        speed_of_sound: Speed of sound in the outside air; scalar, m/s.

    Returns:
        The highest and the lowest rotor speed, the lowest by each limit, and the window in words.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Definitions of tip Mach number, blade loading and advance ratio, solved for rotor speed.

    Examples:
        >>> from calc.rotor.examples import CURLEW
        >>> found = window_of_rotor_speed(CURLEW, RotorLimits(), 60000.0, 80.0)
        >>> found.lowest < CURLEW.rotor_speed < found.highest
        True
    """
    ROTOR_LIFT.check(rotor_lift)
    AIRSPEED.check(airspeed)
    DENSITY.check(density)
    SPEED_OF_SOUND.check(speed_of_sound)
    blade_area = rotor.blades * rotor.chord * rotor.radius
    loading = density * blade_area * limits.blade_loading_limit
    highest: Annotated[float, WINDOW_HIGHEST] = (
        speed_of_sound * limits.mach_limit - airspeed
    ) / rotor.radius
    by_loading: Annotated[float, BY_LOADING] = math.sqrt(rotor_lift / loading) / rotor.radius
    by_ratio: Annotated[float, BY_RATIO] = airspeed / (limits.advance_ratio_limit * rotor.radius)
    lowest: Annotated[float, WINDOW_LOWEST] = max(by_loading, by_ratio)
    below = LOADING if by_loading > by_ratio else RATIO
    return SpeedWindow(
        highest=highest,
        lowest=lowest,
        lowest_by_loading=by_loading,
        lowest_by_advance_ratio=by_ratio,
        window=window_words(lowest, below, highest, MACH),
    )


def rotor_speed_window(  # noqa: PLR0913, PLR0917  the flat names of scripts; forms take records
    airspeed: float,
    density: float,
    speed_of_sound: float,
    rotor_lift: float,
    radius: float,
    chord: float,
    blades: int,
    mach_limit: float,
    blade_loading_limit: float,
    advance_ratio_limit: float,
) -> SpeedWindow:
    """Return what `window_of_rotor_speed` does, without records: arguments in SI units.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> arguments = 80.0, 1.225, 340.294, 32979.4, 7.5, 0.45, 4, 0.88, 0.12, 0.45
        >>> round(rotor_speed_window(*arguments).lowest_by_advance_ratio, 4)
        23.7037
    """
    rotor = Rotorcraft(1.0, radius, chord, blades, 1.0, 0.0, 1.0, 0.0)
    limits = RotorLimits(
        mach_limit=mach_limit,
        blade_loading_limit=blade_loading_limit,
        advance_ratio_limit=advance_ratio_limit,
    )
    return window_of_rotor_speed(rotor, limits, rotor_lift, airspeed, density, speed_of_sound)


def propeller_mach_limited_airspeed(
    diameter: Annotated[float, DIAMETER],
    propeller_speed: Annotated[float, PROPELLER_SPEED],
    speed_of_sound: Annotated[float, SPEED_OF_SOUND] = 340.294,
    mach_limit: Annotated[float, PROPELLER_MACH_LIMIT] = 0.85,
) -> Annotated[
    float | None, PROPELLER_AIRSPEED, Nothing("No airspeed: the tips pass the limit at rest")
]:
    r"""Return the airspeed at which the helical tip Mach number of a propeller meets its limit.

    $$ V_p = \sqrt{(a M_{lim,p})^2 - \left(\tfrac{1}{2} D_p \Omega_p\right)^2} $$

    Args:
        diameter: Diameter of the propeller; scalar, m.
        propeller_speed: Angular speed of the propeller; scalar, rad/s.
        speed_of_sound: Speed of sound in the outside air; scalar, m/s.
        mach_limit: Helical tip Mach number that the propeller must not exceed; scalar.

    Returns:
        The airspeed; scalar, m/s.  None if the tips of the propeller pass the limit at rest.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        `helical_tip_mach`, solved for the airspeed.

    Examples:
        >>> round(propeller_mach_limited_airspeed(2.8, 180.0, 340.0, 0.85), 4)
        141.4814
    """
    DIAMETER.check(diameter)
    PROPELLER_SPEED.check(propeller_speed)
    SPEED_OF_SOUND.check(speed_of_sound)
    PROPELLER_MACH_LIMIT.check(mach_limit)
    square = (speed_of_sound * mach_limit) ** 2 - (diameter * propeller_speed / 2.0) ** 2
    return math.sqrt(square) if square >= 0.0 else None


def window_words(lowest: float, below: str, highest: float, above: str) -> str:
    """Return a window in words, in whole rpm inside it, with the limits at its edges.

    An edge that was solved for is off in its last digits; a whole number stays what it is.
    """
    if lowest > highest:
        return f"none: shut by {below} and {above}"
    low, high = (round(RPM.reading(edge), 6) for edge in (lowest, highest))
    return f"{math.ceil(low)} ({below}) to {math.floor(high)} rpm ({above})"
