"""Limits: which one governs at an airspeed, an altitude and a rotor speed."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name, Table
from calc.flight.craft import Wing
from calc.flight.limit_shares import MACH, Case, Day, RotorLimits, governing
from calc.flight.limits_map import flight_limits_chart
from calc.flight.quantities import (
    AIRSPEED,
    BLADES,
    CHORD,
    DRAG_AREA,
    LIFT_SLOPE_OF_BLADE,
    MASS,
    RADIUS,
    ROTOR_SPEED,
    TWIST,
)
from calc.flight.speed_window import (
    WINDOW,
    propeller_mach_limited_airspeed,
    rotor_speed_window,
    window_of_rotor_speed,
    window_words,
)
from calc.numeric.roots import crossing
from calc.quantity import Quantity
from calc.rotor.airspeed_limits import NEVER_EXCEED_FACTOR
from calc.rotor.quantities import (
    PRESSURE_ALTITUDE,
)
from calc.rotor.rotorcraft import Rotorcraft
from calc.rotor.tip_speed import DIAMETER, PROPELLER_SPEED
from calc.units import SHARE, SPEED

__all__ = [
    "flight_limits",
    "flight_limits_chart",
    "propeller_mach_limited_airspeed",
    "rotor_speed_window",
    "window_of_rotor_speed",
]

ALTITUDES = 7
STEPS = 60
SLOWEST = 1.0
"""m/s: where the search over airspeed begins; it ends at the tip speed."""
UTILISATION = Quantity("u", "Share of the governing limit that is used", SHARE)
SMALLEST_AIRSPEED = Quantity("V_0", "Airspeed below which a limit is passed", SPEED)
LARGEST_AIRSPEED = Quantity("V_1", "Airspeed at which a limit is met", SPEED)
NEVER_EXCEED = Quantity(
    "0.9 V_1", "0.9 of the true airspeed at the limit, where that is the tip Mach number", SPEED
)
GOVERNING = Name("Governing limit here, by the largest share used")
FIRST_MET = Name("Limit met first as airspeed rises")
CurlewRotorcraft = Annotated[
    Rotorcraft,
    {
        "mass": MASS,
        "radius": RADIUS,
        "chord": CHORD,
        "blades": BLADES,
        "rotor_speed": ROTOR_SPEED,
        "twist": TWIST,
        "lift_slope": LIFT_SLOPE_OF_BLADE,
        "drag_area": DRAG_AREA,
    },
]
"""A rotorcraft; the form starts with the Curlew."""


@dataclass(frozen=True, slots=True)
class AltitudeLimit:
    """The first limits at one altitude, at the rotor speed and over rotor speed."""

    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE]
    smallest_airspeed: Annotated[float | None, SMALLEST_AIRSPEED]
    largest_airspeed: Annotated[float | None, LARGEST_AIRSPEED]
    never_exceed_bound: Annotated[float | None, NEVER_EXCEED]
    first_met: Annotated[str, FIRST_MET]
    window: Annotated[str, WINDOW]


ALTITUDE_LIMITS = Table("Limits over altitude", AltitudeLimit)


@dataclass(frozen=True, slots=True)
class FlightLimits:
    """Which limit governs here, how far it is used, and the first limits over altitude."""

    governing: Annotated[str, GOVERNING]
    utilisation: Annotated[float, UTILISATION]
    first_met: Annotated[str, FIRST_MET]
    largest_airspeed: Annotated[float | None, LARGEST_AIRSPEED]
    never_exceed_bound: Annotated[float | None, NEVER_EXCEED]
    window: Annotated[str, WINDOW]
    rows: Annotated[tuple[AltitudeLimit, ...], ALTITUDE_LIMITS]


def flight_limits(
    rotorcraft: CurlewRotorcraft,
    wing: Wing,
    limits: RotorLimits,
    day: Day,
    diameter: Annotated[float, DIAMETER],
    propeller_speed: Annotated[float, PROPELLER_SPEED],
    airspeed: Annotated[float, AIRSPEED],
) -> FlightLimits:
    r"""Return which limit governs at an airspeed, an altitude and a rotor speed.

    $$ u = \max \left(\frac{M_{1,90}}{M_{lim}}, \frac{M_h}{M_{lim,p}},
    \frac{\alpha_{270}}{\alpha_{lim}}, \frac{C_T/\sigma}{(C_T/\sigma)_{lim}},
    \frac{\mu}{\mu_{lim}}, \frac{\Omega}{\Omega_2}, \frac{\Omega_1}{\Omega},
    \frac{z_1}{Z / (n_z m g)} \right) $$

    Each limit is a share that is used: 1 is the limit, and the largest share governs.  The wing
    lifts what it does at its angle; the propellers overcome their share of the drag of airframe
    and wing; the angle is that of the tip where the air goes down through the disc, of the inboard
    station where it comes up.  The drag of the rotor itself is left out, as in stall onset.

    Args:
        rotorcraft: The rotorcraft; record.
        wing: The wing; record.
        limits: The limits; record.
        day: Altitude, temperature, load factor and thrust share; record.
        diameter: Diameter of the propellers; scalar, m.
        propeller_speed: Angular speed of the propellers; scalar, rad/s.
        airspeed: True airspeed; scalar, m/s.

    Returns:
        The governing limit and its used share, the airspeed at which a limit is met at this rotor
        speed, 0.9 of it where the limit is the advancing tip's Mach number, the rotor speeds
        between which no limit is passed at this airspeed, and both over altitude; airspeeds are
        None where every one is past a limit.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Definitions; the factor 0.9 of 14 CFR 29.1505(a)(2)(iii) on a substantiated speed.

    Examples:
        >>> from calc.flight.examples import CURLEW_WING
        >>> from calc.rotor.examples import CURLEW as ROTORCRAFT
        >>> here = RotorLimits(), Day(), 2.9, 120.4, 80.0
        >>> flight_limits(ROTORCRAFT, CURLEW_WING, *here).utilisation < 1.0
        True
    """
    DIAMETER.check(diameter)
    PROPELLER_SPEED.check(propeller_speed)
    AIRSPEED.check(airspeed)
    case = Case(rotorcraft, wing, limits, day, diameter, propeller_speed)
    named, used = governing(case, airspeed, rotorcraft.rotor_speed)
    rows = tuple(
        _row(case.at_altitude(day.pressure_altitude + 1000.0 * row), airspeed)
        for row in range(ALTITUDES)
        if day.pressure_altitude + 1000.0 * row <= PRESSURE_ALTITUDE.at_most
    )
    return FlightLimits(
        governing=named,
        utilisation=used,
        largest_airspeed=rows[0].largest_airspeed,
        first_met=rows[0].first_met,
        never_exceed_bound=rows[0].never_exceed_bound,
        window=rows[0].window,
        rows=rows,
    )


def _row(case: Case, airspeed: float) -> AltitudeLimit:
    """Return the first limits at the altitude of a case.

    High up a limit may be passed in hover and kept at an airspeed, where the wing lifts; the
    range of airspeeds is the first one that is free.
    """
    rotor_speed = case.rotorcraft.rotor_speed
    fastest = rotor_speed * case.rotorcraft.radius
    speeds = [SLOWEST + (fastest - SLOWEST) * step / STEPS for step in range(STEPS + 1)]
    found = [governing(case, speed, rotor_speed) for speed in speeds]
    first = next((i for i, (_, used) in enumerate(found) if used < 1.0), None)
    slowest = largest = None
    met = f"no airspeed is free; at the lowest: {found[0][0]}"
    if first is not None:
        past = next(i for i in range(first, STEPS + 1) if found[i][1] >= 1.0)
        largest = _edge(case, rotor_speed, speeds[past - 1], speeds[past])
        met = governing(case, largest, rotor_speed)[0]
        slowest = _edge(case, rotor_speed, speeds[first - 1], speeds[first]) if first else 0.0
    return AltitudeLimit(
        pressure_altitude=case.day.pressure_altitude,
        smallest_airspeed=slowest,
        largest_airspeed=largest,
        never_exceed_bound=NEVER_EXCEED_FACTOR * largest if largest and met == MACH else None,
        first_met=met,
        window=_window(case, airspeed),
    )


def _edge(case: Case, rotor_speed: float, low: float, high: float) -> float:
    """Return the airspeed between two at which a limit is just met."""
    return crossing(lambda v: governing(case, v, rotor_speed)[1] - 1.0, low, high)


def _window(case: Case, airspeed: float) -> str:
    """Return between which rotor speeds no limit is passed at an airspeed, and what sets them."""
    first, last = 0.99 * case.limits.lowest_rotor_speed, 1.01 * case.limits.highest_rotor_speed
    speeds = [first + (last - first) * step / STEPS for step in range(STEPS + 1)]
    found = [governing(case, airspeed, speed) for speed in speeds]
    free = [number for number, (_, used) in enumerate(found) if used < 1.0]
    if not free:
        best = min(range(1, STEPS), key=lambda number: found[number][1])
        names = dict.fromkeys(name for name, _ in found[best - 1 : best + 2])
        return f"none: shut by {' and '.join(names)}"
    low, high = (
        crossing(lambda s: governing(case, airspeed, s)[1] - 1.0, speeds[i], speeds[j])
        for i, j in ((free[0], free[0] - 1), (free[-1], free[-1] + 1))
    )
    below, above = (governing(case, airspeed, edge)[0] for edge in (low, high))
    return window_words(low, below, high, above)
