"""Airspeed limits: advancing-tip Mach number and retreating-blade stall against altitude."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line
from calc.declaration import Name, Table
from calc.quantity import InputsError, Quantity
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.onset_search import onset_airspeed
from calc.rotor.quantities import (
    ADVANCING_TIP_MACH,
    AIRSPEED,
    MACH_LIMIT,
    PRESSURE_ALTITUDE,
)
from calc.rotor.retreating_tip import BELOW_ONE
from calc.rotor.rotorcraft import Flight, Rotorcraft
from calc.rotor.stall_onset import ANGLE_LIMIT, INBOARD_ONSET, ONSET_OF_STALL, STATION, TIP_ONSET
from calc.rotor.stall_state import StallState, stall_state
from calc.rotor.tip_speed import MACH_LIMITED_AIRSPEED, mach_limited_airspeed, tip_speed
from calc.units import SPEED

ROWS = 13
NEVER_EXCEED_FACTOR = 0.9
"""14 CFR 29.1505(a)(2)(iii) and 27.1505(a)(2)(iii), on the speed shown for tip Mach number."""

HIGHEST_ALTITUDE = replace(
    PRESSURE_ALTITUDE,
    symbol="H_1",
    label="Highest pressure altitude",
    example=6000.0,
)
NEVER_EXCEED = Quantity("0.9 V_M", "0.9 of the airspeed at the Mach limit", SPEED)
POWER_ON = Name("Limiting, power on")
BEFORE = Name("Met before it, power on")
AUTOROTATION = Name("Limiting, autorotation")
MACH = "advancing-tip Mach number"
TIP_STALL = "stall at the retreating tip"
INBOARD_STALL = "stall at the inboard station"
POWERED = "no autorotation: this flight takes shaft power"


@dataclass(frozen=True, slots=True)
class AirspeedLimit:
    """The limits at one altitude; a stall airspeed is infinite if no airspeed meets the limit."""

    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE]
    mach_limited_airspeed: Annotated[float, MACH_LIMITED_AIRSPEED]
    never_exceed_bound: Annotated[float, NEVER_EXCEED]
    tip_onset: Annotated[float, TIP_ONSET]
    inboard_onset: Annotated[float, INBOARD_ONSET]
    power_on: Annotated[str, POWER_ON]
    before: Annotated[str, BEFORE]
    autorotation: Annotated[str, AUTOROTATION]


LIMITS = Table("Airspeed limits", AirspeedLimit)
LARGEST_ADVANCE_RATIO = replace(
    BELOW_ONE, label="Largest advance ratio at a stall onset of the table"
)
LARGEST_MACH = replace(
    ADVANCING_TIP_MACH, label="Largest advancing-tip Mach number at a stall onset of the table"
)


@dataclass(frozen=True, slots=True)
class AirspeedLimits:
    """The table of limits, and how far its stall onsets reach; None if no onset is met."""

    largest_advance_ratio: Annotated[float | None, LARGEST_ADVANCE_RATIO]
    largest_advancing_tip_mach: Annotated[float | None, LARGEST_MACH]
    rows: Annotated[tuple[AirspeedLimit, ...], LIMITS]


def airspeed_limits(
    rotorcraft: Rotorcraft,
    flight: Flight,
    highest_altitude: Annotated[float, HIGHEST_ALTITUDE] = 6000.0,
    angle_limit: Annotated[float, ANGLE_LIMIT] = ONSET_OF_STALL,
    mach_limit: Annotated[float, MACH_LIMIT] = 0.9,
) -> AirspeedLimits:
    r"""Return the true airspeeds at the Mach limit and at stall onset over a range of altitudes.

    $$ V_M = a M_{lim} - \Omega R $$

    The stall airspeeds are those of `stall_onsets`.  With power on the lower of Mach limit and
    stall at the tip is limiting, in autorotation the lower of Mach limit and stall inboard.  With
    power on, the row says where the station inboard is past its limit before that.  Where the air
    goes down through the disc at the onset inboard, the flight is no autorotation, and none is
    named for it: the onset of a rotor without shaft power is another airspeed.
    None is a never-exceed speed: loads, controllability, flutter and power set limits of their
    own, and airworthiness codes allow at most 0.9 of the speed shown for tip Mach number.

    Args:
        rotorcraft: The rotorcraft; record.
        flight: Its altitude is that of the first row, the rest holds in all rows; record.
        highest_altitude: Pressure altitude of the last row; scalar, m.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.
        mach_limit: Mach number that the advancing tip must not exceed; scalar.

    Returns:
        Thirteen rows from the first to the highest altitude, each with the airspeeds and the
        names of the limits that are met first, with power on and in autorotation; and the largest
        advance ratio and tip Mach number of the stall onsets in it.

    Raises:
        ValueError: If an argument breaks its limits, or the table does not rise.

    Source:
        `mach_limited_airspeed` and `stall_onsets`, with their sources; 14 CFR 29.1505(a)(2).

    Examples:
        >>> from calc.rotor.examples import PLOVER
        >>> rows = airspeed_limits(PLOVER, Flight()).rows
        >>> rows[0].power_on, rows[0].never_exceed_bound < rows[0].mach_limited_airspeed
        ('stall at the retreating tip', True)
    """
    HIGHEST_ALTITUDE.check(highest_altitude)
    MACH_LIMIT.check(mach_limit)
    ANGLE_LIMIT.check(angle_limit)
    first = flight.pressure_altitude
    if highest_altitude <= first:
        raise InputsError(
            "The highest pressure altitude must be above the first",
            "pressure_altitude",
            "highest_altitude",
        )
    rows = []
    states: list[StallState] = []
    for row in range(ROWS):
        altitude = first + (highest_altitude - first) * row / (ROWS - 1)
        here = replace(flight, pressure_altitude=altitude)
        onsets = [onset_airspeed(rotorcraft, here, name, angle_limit) for name in STATION.options]
        tip, inboard = (
            None if found is None else stall_state(rotorcraft, here, found) for found in onsets
        )
        states += [state for state in (tip, inboard) if state is not None]
        rows.append(_row(rotorcraft, here, mach_limit, tip, inboard))
    return AirspeedLimits(
        largest_advance_ratio=max((state.advance_ratio for state in states), default=None),
        largest_advancing_tip_mach=max(
            (state.advancing_tip_mach for state in states), default=None
        ),
        rows=tuple(rows),
    )


def _row(
    rotorcraft: Rotorcraft,
    flight: Flight,
    mach_limit: float,
    tip: StallState | None,
    inboard: StallState | None,
) -> AirspeedLimit:
    """Return the limits at the altitude of a flight condition."""
    speed = tip_speed(rotorcraft.radius, rotorcraft.rotor_speed)
    air = standard_atmosphere(flight.pressure_altitude, flight.temperature_offset)
    mach_airspeed = mach_limited_airspeed(speed, air.speed_of_sound, mach_limit)
    tip_onset, inboard_onset = (
        math.inf if state is None else state.airspeed for state in (tip, inboard)
    )
    limiting = min(tip_onset, mach_airspeed)
    without_power = inboard is None or inboard.inflow < 0.0
    return AirspeedLimit(
        pressure_altitude=flight.pressure_altitude,
        mach_limited_airspeed=mach_airspeed,
        never_exceed_bound=NEVER_EXCEED_FACTOR * mach_airspeed,
        tip_onset=tip_onset,
        inboard_onset=inboard_onset,
        power_on=TIP_STALL if tip_onset < mach_airspeed else MACH,
        before=INBOARD_STALL if inboard_onset < limiting else "",
        autorotation=_first(inboard_onset, mach_airspeed) if without_power else POWERED,
    )


def _first(inboard_onset: float, mach_airspeed: float) -> str:
    return INBOARD_STALL if inboard_onset < mach_airspeed else MACH


def airspeed_limits_chart(found: AirspeedLimits) -> Chart:
    """Return the limits against altitude, each as a line of its own: they are no envelope."""
    rows = found.rows
    lines = {
        "Mach limit": [row.mach_limited_airspeed for row in rows],
        "0.9 of it": [row.never_exceed_bound for row in rows],
        "stall, tip": [row.tip_onset for row in rows],
        "stall, inboard": [row.inboard_onset for row in rows],
    }
    altitudes = [row.pressure_altitude for row in rows]
    return Chart(
        title="Airspeed limits against altitude",
        description="Lines of airspeed against altitude: the Mach limit, 0.9 of it, and stall "
        "onset at the tip and at the inboard station.",
        x=Axis.of(AIRSPEED, 0.0),
        y=Axis.of(PRESSURE_ALTITUDE, altitudes[0], altitudes[-1]),
        marks=tuple(
            Line(list(zip(airspeeds, altitudes, strict=True)), label, style)
            for style, (label, airspeeds) in enumerate(lines.items(), 1)
        ),
    )
