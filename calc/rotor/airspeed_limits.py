"""Airspeed limits: advancing-tip Mach number and retreating-blade stall against altitude."""

import math
from dataclasses import dataclass, replace
from typing import Annotated, Any

from calc.chart import Axis, Chart, Line, Region
from calc.declaration import Name, Table
from calc.quantity import Quantity
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.quantities import (
    BLADES,
    CHORD,
    DRAG_AREA,
    LIFT_SLOPE_OF_BLADE,
    LOAD_FACTOR,
    MACH_LIMIT,
    MASS_OF_ROTORCRAFT,
    PRESSURE_ALTITUDE,
    PROPELLER_THRUST_SHARE,
    RADIUS,
    ROTOR_SPEED,
    TEMPERATURE_OFFSET,
    TWIST,
    WING_LIFT_SHARE,
)
from calc.rotor.stall_onset import ANGLE_LIMIT, stall_onset_airspeed
from calc.rotor.tip_speed import MACH_LIMITED_AIRSPEED, mach_limited_airspeed, tip_speed
from calc.units import SPEED

HIGHEST_ALTITUDE = replace(
    PRESSURE_ALTITUDE,
    symbol="H_1",
    label="Highest pressure altitude",
    at_least=100.0,
    example=6000.0,
)
ROWS = 13
STALL_AIRSPEED = Quantity("V_s", "Airspeed at stall onset", SPEED)
LIMIT = Quantity("V_1", "Lower of the two airspeeds", SPEED)
GOVERNING = Name("Governing limit")
STALL = "retreating-blade stall"
MACH = "advancing-tip Mach number"


@dataclass(frozen=True, slots=True)
class AirspeedLimit:
    """The limits at one altitude; the stall airspeed is infinite if no airspeed meets the limit."""

    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE]
    mach_limited_airspeed: Annotated[float, MACH_LIMITED_AIRSPEED]
    stall_onset_airspeed: Annotated[float, STALL_AIRSPEED]
    airspeed_limit: Annotated[float, LIMIT]
    governing: Annotated[str, GOVERNING]


LIMITS = Table("Airspeed limits", AirspeedLimit)


def airspeed_limits(
    mass: Annotated[float, MASS_OF_ROTORCRAFT],
    radius: Annotated[float, RADIUS],
    chord: Annotated[float, CHORD],
    blades: Annotated[int, BLADES],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    twist: Annotated[float, TWIST],
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE],
    drag_area: Annotated[float, DRAG_AREA],
    highest_altitude: Annotated[float, HIGHEST_ALTITUDE] = 6000.0,
    temperature_offset: Annotated[float, TEMPERATURE_OFFSET] = 0.0,
    load_factor: Annotated[float, LOAD_FACTOR] = 1.0,
    wing_lift_share: Annotated[float, WING_LIFT_SHARE] = 0.0,
    propeller_thrust_share: Annotated[float, PROPELLER_THRUST_SHARE] = 0.0,
    angle_limit: Annotated[float, ANGLE_LIMIT] = math.radians(12.0),
    mach_limit: Annotated[float, MACH_LIMIT] = 0.9,
) -> Annotated[tuple[AirspeedLimit, ...], LIMITS]:
    r"""Return the true airspeeds at the Mach limit and at stall onset from sea level upwards.

    $$ V_M = a M_{lim} - \Omega R, \qquad V_1 = \min(V_M, V_s) $$

    The stall airspeed $V_s$ is that of `stall_onset_airspeed`.  Neither is a never-exceed speed:
    loads, controllability, flutter and power set limits of their own.

    Args:
        mass: Mass of the rotorcraft; scalar, kg.
        radius: Shaft axis to blade tip; scalar, m.
        chord: Chord of one blade; scalar, m.
        blades: Number of blades of the rotor; scalar.
        rotor_speed: Angular speed of the rotor's own shaft; scalar, rad/s.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.
        drag_area: Drag of everything but the rotor over the dynamic pressure; scalar, m².
        highest_altitude: Pressure altitude of the last row; the first is sea level; scalar, m.
        temperature_offset: Air temperature minus the standard one at every altitude; scalar, K.
        load_factor: Lift over weight: 1 in level flight, more in a turn; scalar.
        wing_lift_share: Share of the lift carried by a wing; scalar.
        propeller_thrust_share: Share of the drag overcome by propellers; scalar.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.
        mach_limit: Mach number that the advancing tip must not exceed; scalar.

    Returns:
        Thirteen rows from sea level to the highest altitude, each with both airspeeds and the
        name of the limit that is met first.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        `mach_limited_airspeed` and `stall_onset_airspeed`, with their sources.

    Examples:
        >>> limits = airspeed_limits(5500.0, 7.0, 0.42, 4, 31.4, math.radians(-8), 5.7, 1.8)
        >>> limits[0].governing, limits[-1].governing
        ('retreating-blade stall', 'retreating-blade stall')
    """
    HIGHEST_ALTITUDE.check(highest_altitude)
    MACH_LIMIT.check(mach_limit)
    rotorcraft = mass, radius, chord, blades, rotor_speed, twist, lift_slope, drag_area
    flight = load_factor, wing_lift_share, propeller_thrust_share, angle_limit
    speed = tip_speed(radius, rotor_speed)
    rows = []
    for row in range(ROWS):
        altitude = highest_altitude * row / (ROWS - 1)
        speed_of_sound = standard_atmosphere(altitude, temperature_offset).speed_of_sound
        mach_airspeed = mach_limited_airspeed(speed, speed_of_sound, mach_limit)
        onset = stall_onset_airspeed(*rotorcraft, altitude, temperature_offset, *flight)
        stall_airspeed = math.inf if onset is None else onset.airspeed
        rows.append(
            AirspeedLimit(
                pressure_altitude=altitude,
                mach_limited_airspeed=mach_airspeed,
                stall_onset_airspeed=stall_airspeed,
                airspeed_limit=min(mach_airspeed, stall_airspeed),
                governing=STALL if stall_airspeed < mach_airspeed else MACH,
            )
        )
    return tuple(rows)


def airspeed_limits_chart(**flight: Any) -> Chart:
    """Return both limits against altitude, and the airspeeds below the lower one."""
    rows = airspeed_limits(**flight)
    lower = [(row.airspeed_limit, row.pressure_altitude) for row in rows]
    return Chart(
        title="Airspeed limits against altitude",
        description="Two lines of airspeed against altitude; the lower airspeed governs.",
        x=Axis("True airspeed", SPEED[0], 0.0),
        y=Axis.of(PRESSURE_ALTITUDE, 0.0),
        marks=(
            Region([(0.0, 0.0), *lower, (0.0, lower[-1][1])], "below both limits", style=3),
            Line([(r.mach_limited_airspeed, r.pressure_altitude) for r in rows], MACH, 1),
            Line([(r.stall_onset_airspeed, r.pressure_altitude) for r in rows], STALL, 2),
        ),
    )
