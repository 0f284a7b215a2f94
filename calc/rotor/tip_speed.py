"""Tip speed, and the Mach number of the advancing tip."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.examples import CURLEW
from calc.quantity import Quantity
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.quantities import (
    ADVANCING_TIP_MACH,
    AIRSPEED,
    DISC_INCIDENCE,
    MACH_LIMIT,
    PRESSURE_ALTITUDE,
    RADIUS,
    ROTOR_SPEED,
    SPEED_OF_SOUND,
    TEMPERATURE_OFFSET,
    TIP_SPEED,
)
from calc.units import GROWTH, LENGTH, SPEED

_PROPELLER = CURLEW.propellers[0]

TIP_MACH = Quantity("M_t", "Tip Mach number in hover")
MACH_LIMITED_AIRSPEED = Quantity(
    "V_M",
    "Airspeed at the Mach limit",
    SPEED,
    covered=(0.0, math.inf),
    covered_by="a negative airspeed means that the tips pass the limit in hover already",
)
AIRSPEED_MARGIN = Quantity(
    r"\Delta V",
    "Margin to the airspeed at the Mach limit",
    SPEED,
    covered=(0.0, math.inf),
    covered_by="a negative margin means that the advancing tip is past the limit",
)
DIAMETER = Quantity("D_p", "Propeller diameter", LENGTH, above=0.0, example=_PROPELLER.diameter)
PROPELLER_SPEED = replace(
    ROTOR_SPEED,
    symbol=r"\Omega_p",
    label="Propeller speed",
    example=_PROPELLER.propeller_speed,
)
REVOLUTIONS = Quantity("n", "Propeller revolutions per second", GROWTH)
HELICAL_TIP_MACH = Quantity("M_h", "Helical tip Mach number")


@dataclass(frozen=True, slots=True)
class TipState:
    """How fast the tips go, and how far the airspeed is from the Mach limit."""

    tip_speed: Annotated[float, TIP_SPEED]
    speed_of_sound: Annotated[float, SPEED_OF_SOUND]
    tip_mach: Annotated[float, TIP_MACH]
    advancing_tip_mach: Annotated[float, ADVANCING_TIP_MACH]
    mach_limited_airspeed: Annotated[float, MACH_LIMITED_AIRSPEED]
    margin: Annotated[float, AIRSPEED_MARGIN]


def tip_speed(
    radius: Annotated[float, RADIUS],
    rotor_speed: Annotated[float, ROTOR_SPEED],
) -> Annotated[float, TIP_SPEED]:
    r"""Return the speed of the blade tips due to rotation.

    $$ V_t = \Omega R $$

    Args:
        radius: Shaft axis to blade tip; scalar, m.
        rotor_speed: Angular speed of this rotor's own shaft; scalar, rad/s.

    Returns:
        The tip speed; scalar, m/s.

    Raises:
        ValueError: If an argument is not above zero.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics (from memory).

    Examples:
        >>> round(tip_speed(7.0, 31.4), 2)
        219.8
    """
    RADIUS.check(radius)
    ROTOR_SPEED.check(rotor_speed)
    return rotor_speed * radius


def advancing_tip_mach(
    tip_speed: Annotated[float, TIP_SPEED],
    airspeed: Annotated[float, AIRSPEED],
    speed_of_sound: Annotated[float, SPEED_OF_SOUND],
    disc_incidence: Annotated[float, DISC_INCIDENCE] = 0.0,
) -> Annotated[float, ADVANCING_TIP_MACH]:
    r"""Return the Mach number of the tip that moves into the wind, at an azimuth of 90 deg.

    $$ M_{1,90} = \frac{V_t + V \cos \alpha}{a} $$

    Only the speed in the plane of the disc counts; inflow and flapping add less than 1 %.

    Args:
        tip_speed: Speed of the tips due to rotation; scalar, m/s.
        airspeed: True airspeed; scalar, m/s.
        speed_of_sound: Speed of sound in the outside air; scalar, m/s.
        disc_incidence: Angle of the disc to the flight path, nose down positive; scalar, rad.

    Returns:
        The Mach number; scalar.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics (from memory).

    Examples:
        >>> round(advancing_tip_mach(220.0, 80.0, 340.0), 4)
        0.8824
    """
    TIP_SPEED.check(tip_speed)
    AIRSPEED.check(airspeed)
    SPEED_OF_SOUND.check(speed_of_sound)
    DISC_INCIDENCE.check(disc_incidence)
    return (tip_speed + airspeed * math.cos(disc_incidence)) / speed_of_sound


def mach_limited_airspeed(
    tip_speed: Annotated[float, TIP_SPEED],
    speed_of_sound: Annotated[float, SPEED_OF_SOUND],
    mach_limit: Annotated[float, MACH_LIMIT],
) -> Annotated[float, MACH_LIMITED_AIRSPEED]:
    r"""Return the true airspeed at which the advancing tip reaches a Mach number.

    $$ V_M = a M_{lim} - V_t $$

    The tilt of the disc is left out, which is on the safe side.

    Args:
        tip_speed: Speed of the tips due to rotation; scalar, m/s.
        speed_of_sound: Speed of sound in the outside air; scalar, m/s.
        mach_limit: Mach number that the advancing tip must not exceed; scalar.

    Returns:
        The airspeed; negative if the tips pass the limit in hover already; scalar, m/s.

    Raises:
        ValueError: If an argument is not above zero.

    Source:
        The equation of `advancing_tip_mach`, solved for the airspeed.

    Examples:
        >>> mach_limited_airspeed(220.0, 340.0, 0.9)
        86.0
    """
    TIP_SPEED.check(tip_speed)
    SPEED_OF_SOUND.check(speed_of_sound)
    MACH_LIMIT.check(mach_limit)
    return speed_of_sound * mach_limit - tip_speed


def helical_tip_mach(
    diameter: Annotated[float, DIAMETER],
    propeller_speed: Annotated[float, PROPELLER_SPEED],
    airspeed: Annotated[float, AIRSPEED],
    speed_of_sound: Annotated[float, SPEED_OF_SOUND],
) -> Annotated[float, HELICAL_TIP_MACH]:
    r"""Return the Mach number of a propeller tip on its helical path.

    $$ M_h = \frac{\sqrt{(\pi n D_p)^2 + V^2}}{a}, \qquad n = \frac{\Omega_p}{2 \pi} $$

    The propeller moves along its own axis; $n$ is in revolutions per second.

    Args:
        diameter: Tip to tip; scalar, m.
        propeller_speed: Angular speed of the propeller's own shaft; scalar, rad/s.
        airspeed: True airspeed along the propeller axis; scalar, m/s.
        speed_of_sound: Speed of sound in the outside air; scalar, m/s.

    Returns:
        The Mach number; scalar.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Velocity triangle of a propeller tip.

    Examples:
        >>> round(helical_tip_mach(3.9, 104.72, 90.0, 340.0), 4)
        0.6563
    """
    DIAMETER.check(diameter)
    PROPELLER_SPEED.check(propeller_speed)
    AIRSPEED.check(airspeed)
    SPEED_OF_SOUND.check(speed_of_sound)
    revolutions: Annotated[float, REVOLUTIONS] = propeller_speed / (2.0 * math.pi)
    return math.hypot(math.pi * revolutions * diameter, airspeed) / speed_of_sound


def tip_state(
    radius: Annotated[float, RADIUS],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    airspeed: Annotated[float, AIRSPEED],
    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE] = 0.0,
    temperature_offset: Annotated[float, TEMPERATURE_OFFSET] = 0.0,
    mach_limit: Annotated[float, MACH_LIMIT] = 0.9,
) -> TipState:
    r"""Return tip speed, tip Mach numbers, and the airspeed at which the Mach limit is reached.

    $$ V_t = \Omega R, \qquad M_{1,90} = \frac{V_t + V}{a}, \qquad V_M = a M_{lim} - V_t $$

    Args:
        radius: Shaft axis to blade tip; scalar, m.
        rotor_speed: Angular speed of the rotor's own shaft; scalar, rad/s.
        airspeed: True airspeed; scalar, m/s.
        pressure_altitude: Altimeter reading with 1013.25 hPa set; scalar, m.
        temperature_offset: Air temperature minus the standard one at that altitude; scalar, K.
        mach_limit: Mach number that the advancing tip must not exceed; scalar.

    Returns:
        Speeds and Mach numbers of the tip, and the margin to the limit.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics (from memory).

    Examples:
        >>> state = tip_state(7.0, 10 * math.pi, 70.0)
        >>> round(state.advancing_tip_mach, 4), round(state.margin, 2)
        (0.8519, 16.35)
    """
    RADIUS.check(radius)
    ROTOR_SPEED.check(rotor_speed)
    AIRSPEED.check(airspeed)
    air = standard_atmosphere(pressure_altitude, temperature_offset)
    speed = tip_speed(radius, rotor_speed)
    limit = mach_limited_airspeed(speed, air.speed_of_sound, mach_limit)
    return TipState(
        tip_speed=speed,
        speed_of_sound=air.speed_of_sound,
        tip_mach=speed / air.speed_of_sound,
        advancing_tip_mach=advancing_tip_mach(speed, airspeed, air.speed_of_sound),
        mach_limited_airspeed=limit,
        margin=limit - airspeed,
    )


def tip_state_chart(airspeed: float, mach_limit: float = 0.9, **rotor: float) -> Chart:
    """Return how the Mach number of the advancing tip grows with the airspeed."""
    here = tip_state(airspeed=airspeed, mach_limit=mach_limit, **rotor)
    end = 1.25 * max(airspeed, here.mach_limited_airspeed, 20.0)
    machs = [
        (speed, advancing_tip_mach(here.tip_speed, speed, here.speed_of_sound))
        for speed in (0.0, end)
    ]
    return Chart(
        title="Mach number of the advancing tip against airspeed",
        description="A straight line from the hover value up, across the Mach limit.",
        x=Axis.of(AIRSPEED, 0.0, end),
        y=Axis.of(ADVANCING_TIP_MACH),
        marks=(
            Line(machs, "advancing tip", 1),
            Rule(mach_limit, "y", "limit"),
            Points([(airspeed, here.advancing_tip_mach)], "this airspeed", 2),
        ),
    )
