"""Compared: where the airspeed of a data sheet lies against the limits that a survey finds."""

import math
from collections.abc import Iterator
from typing import NamedTuple

from calc.declaration import Declaration
from calc.form.calculation import Calculation
from calc.form.showing import shown
from calc.quantity import Quantity
from calc.rotor.airspeed_limits import AirspeedLimit
from calc.rotor.quantities import AIRSPEED, PRESSURE_ALTITUDE
from calc.rotor.retreating_tip import BELOW_ONE
from calc.sheet.layout import LIMITS, section
from calc.sheet.sheet import Sheet
from calc.survey.asked import Feed
from calc.survey.flight import ONSET, REVERSE, TIPS
from calc.unit_systems import unit_of
from calc.units import Unit

TIP, INBOARD = "stall onset at the tip", "stall onset at the inboard station"
MACH = "the airspeed at the Mach limit"


class Limit(NamedTuple):
    """A limiting airspeed, m/s, what it is, and at which of many altitudes it is that."""

    name: str
    airspeed: float
    altitude: float | None = None


class Comparison(NamedTuple):
    """On which side of a limiting airspeed the airspeed of a sheet lies, in short and in full."""

    above: bool
    short: str
    words: str


def comparisons(sheet: Sheet, calculation: Calculation | None) -> tuple[Comparison, ...]:
    """Return how the airspeed of a sheet compares with each limiting airspeed of an answer.

    Args:
        sheet: A data sheet.
        calculation: An answer of its survey, or None where there is none.

    Returns:
        A comparison for each limit; none where sheet or answer has no airspeed.
    """
    known = Feed(sheet).reading("flight", "airspeed", needed=False)
    if known is None or calculation is None or calculation.result is None:
        return ()
    system = calculation.shown_in.system
    highest = highest_asked(sheet)
    limits = _limits(calculation, highest)
    return tuple(_compared(known.value, known.unit, limit, system) for limit in limits)


def highest_asked(sheet: Sheet) -> float:
    """Return the highest altitude that a sheet asks for, m: under flight, or else of its rows.

    Without either it is that of the usual values, up to which all is asked.
    """
    feed = Feed(sheet)
    own = feed.reading("flight", "highest_altitude", needed=False)
    if own is not None:
        return float(own.value)
    rows = range(len(sheet.rows.get("altitudes", ())))
    found = [feed.in_row("altitudes", row, "pressure_altitude") for row in rows]
    usual = section("altitudes").field("pressure_altitude").start
    return max((usual if one is None else one.value for one in found), default=math.inf)


def system_unit(declaration: Declaration, system: str) -> Unit | None:
    """Return the unit in which a system shows a quantity; None for what is no number."""
    return unit_of(declaration.units, system) if isinstance(declaration, Quantity) else None


def _compared(airspeed: float, typed: Unit, limit: Limit, system: str) -> Comparison:
    """Return a comparison; airspeeds are told in the unit that was typed, too."""

    def told(quantity: Quantity, value: float) -> str:
        unit = system_unit(quantity, system) or quantity.units[0]
        also = quantity is AIRSPEED and typed != unit
        rest = f" ({shown(quantity, value, typed)})" if also else ""
        return f"{shown(quantity, value, unit)}{rest}"

    above = airspeed > limit.airspeed
    side = "above" if above else "below"
    here = "" if limit.altitude is None else f" at {told(PRESSURE_ALTITUDE, limit.altitude)}"
    short = f"{told(AIRSPEED, abs(airspeed - limit.airspeed))} {side} {limit.name}{here}"
    lowest = ", where it is lowest in the table" if here else ""
    words = (
        f"The airspeed of the sheet, {told(AIRSPEED, airspeed)}, is {short}{lowest}: "
        f"{told(AIRSPEED, limit.airspeed)}. This is a comparison, not a flight limit"
    )
    return Comparison(above, short, words)


def _limits(calculation: Calculation, highest: float) -> Iterator[Limit]:
    """Yield the limiting airspeeds of an answer, up to the highest altitude that is asked for.

    A limit that no airspeed meets is none.
    """
    found = calculation.result
    if calculation.name == ONSET:
        if found.tip_airspeed is not None:
            yield Limit(TIP, found.tip_airspeed)
        if found.inboard_airspeed is not None:
            yield Limit(INBOARD, found.inboard_airspeed)
    elif calculation.name == TIPS:
        yield Limit(MACH, found.mach_limited_airspeed)
    elif calculation.name == REVERSE:
        yield _at_covered_advance_ratio(calculation)
    elif calculation.name == LIMITS:
        yield from _lowest_over_altitude(
            tuple(row for row in found.rows if row.pressure_altitude <= highest) or found.rows[:1]
        )


def _at_covered_advance_ratio(calculation: Calculation) -> Limit:
    """Return the airspeed up to which the advance ratio is in the range that stall onset covers."""
    assert BELOW_ONE.covered is not None
    most = BELOW_ONE.covered[1]
    tip_speed = calculation.values["radius"] * calculation.values["rotor_speed"]
    name = f"the airspeed of advance ratio {most:g}, the highest that stall onset here covers"
    return Limit(name, most * tip_speed)


def _lowest_over_altitude(rows: tuple[AirspeedLimit, ...]) -> Iterator[Limit]:
    """Yield each limit of the table where it is lowest."""
    names = {MACH: "mach_limited_airspeed", TIP: "tip_onset", INBOARD: "inboard_onset"}
    for name, field in names.items():
        lowest, altitude = min((getattr(row, field), row.pressure_altitude) for row in rows)
        if math.isfinite(lowest):
            yield Limit(name, lowest, altitude)
