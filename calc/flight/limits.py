"""Limits: which one governs at an airspeed, an altitude and a rotor speed."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Annotated, ClassVar, NamedTuple

from calc.chart import Axis, Cells, Chart, Label, Line, Points
from calc.declaration import Method, Name, Nothing, Table, check
from calc.flight.craft import Condition, Wing
from calc.flight.quantities import (
    AIRSPEED,
    BLADES,
    CHORD,
    DENSITY,
    DRAG_AREA,
    LIFT_SLOPE_OF_BLADE,
    MASS,
    RADIUS,
    ROTOR_LIFT,
    ROTOR_SPEED,
    TWIST,
)
from calc.flight.wing import WingState, wing_at_airspeed
from calc.numeric.roots import crossing
from calc.quantity import Quantity
from calc.rotor.airspeed_limits import NEVER_EXCEED_FACTOR
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.quantities import (
    LOAD_FACTOR,
    MACH_LIMIT,
    PRESSURE_ALTITUDE,
    PROPELLER_THRUST_SHARE,
    SPEED_OF_SOUND,
    TEMPERATURE_OFFSET,
)
from calc.rotor.retreating_tip import retreating_tip
from calc.rotor.rotorcraft import Rotorcraft
from calc.rotor.stall_onset import ANGLE_LIMIT
from calc.rotor.tip_speed import DIAMETER, PROPELLER_SPEED, helical_tip_mach
from calc.units import RPM, SHARE, SPEED

ALTITUDES = 7
MAP_CELLS = 40
STEPS = 60
SLOWEST = 1.0
"""m/s: where the search over airspeed begins; it ends at the tip speed."""
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
UTILISATION = Quantity("u", "Share of the governing limit that is used", SHARE)
SMALLEST_AIRSPEED = Quantity("V_0", "Airspeed below which a limit is passed", SPEED)
LARGEST_AIRSPEED = Quantity("V_1", "Airspeed at which a limit is met", SPEED)
NEVER_EXCEED = Quantity("0.9 V_1", "0.9 of the airspeed at which a limit is met", SPEED)
WINDOW_HIGHEST = Quantity(r"\Omega_{max}", "Highest rotor speed by Mach number", ROTOR_SPEED.units)
WINDOW_LOWEST = Quantity(r"\Omega_{min}", "Lowest rotor speed of the window", ROTOR_SPEED.units)
BY_LOADING = Quantity(r"\Omega_{min,1}", "Lowest rotor speed by blade loading", ROTOR_SPEED.units)
BY_RATIO = Quantity(r"\Omega_{min,2}", "Lowest rotor speed by advance ratio", ROTOR_SPEED.units)
PROPELLER_AIRSPEED = Quantity("V_p", "Airspeed at the propeller's Mach limit", SPEED)
GOVERNING = Name("Governing limit")
FIRST_MET = Name("Limit that is met")
WINDOW = Name("Window of rotor speed")


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
    angle_limit: Annotated[float, ANGLE_LIMIT] = math.radians(12.0)
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
            raise ValueError("The highest rotor speed allowed must be above the lowest")


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
TOP = replace(PRESSURE_ALTITUDE, symbol="H_1", label="Highest pressure altitude", example=6000.0)


@dataclass(frozen=True, slots=True)
class FlightLimits:
    """Which limit governs here, how far it is used, and the first limits over altitude."""

    governing: Annotated[str, GOVERNING]
    utilisation: Annotated[float, UTILISATION]
    largest_airspeed: Annotated[float | None, LARGEST_AIRSPEED]
    first_met: Annotated[str, FIRST_MET]
    never_exceed_bound: Annotated[float | None, NEVER_EXCEED]
    window: Annotated[str, WINDOW]
    rows: Annotated[tuple[AltitudeLimit, ...], ALTITUDE_LIMITS]


@dataclass(frozen=True, slots=True)
class SpeedWindow:
    """The rotor speeds that Mach number, blade loading and advance ratio leave."""

    highest: Annotated[float, WINDOW_HIGHEST]
    lowest: Annotated[float, WINDOW_LOWEST]
    lowest_by_loading: Annotated[float, BY_LOADING]
    lowest_by_advance_ratio: Annotated[float, BY_RATIO]
    window: Annotated[str, WINDOW]


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
            "angle_limit": math.radians(12.0),
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
        window=_words(lowest, below, highest, MACH),
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
        139.8571
    """
    DIAMETER.check(diameter)
    PROPELLER_SPEED.check(propeller_speed)
    SPEED_OF_SOUND.check(speed_of_sound)
    PROPELLER_MACH_LIMIT.check(mach_limit)
    square = (speed_of_sound * mach_limit) ** 2 - (diameter * propeller_speed / 2.0) ** 2
    return math.sqrt(square) if square >= 0.0 else None


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
        speed and 0.9 of it, the rotor speeds between which no limit is passed at this airspeed, and
        both over altitude; airspeeds are None where every one is past a limit.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Definitions; the factor 0.9 of 14 CFR 29.1505(a)(2) on speeds that were substantiated.

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
    governing, used = _governing(case, airspeed, rotorcraft.rotor_speed)
    rows = tuple(
        _row(case.at_altitude(day.pressure_altitude + 1000.0 * row), airspeed)
        for row in range(ALTITUDES)
        if day.pressure_altitude + 1000.0 * row <= PRESSURE_ALTITUDE.at_most
    )
    return FlightLimits(
        governing=governing,
        utilisation=used,
        largest_airspeed=rows[0].largest_airspeed,
        first_met=rows[0].first_met,
        never_exceed_bound=rows[0].never_exceed_bound,
        window=rows[0].window,
        rows=rows,
    )


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


def _governing(
    case: Case, airspeed: float, rotor_speed: float
) -> Annotated[tuple[str, float], Method("the largest of the used shares of all limits")]:
    """Return the limit of which the largest share is used, and that share."""
    shares = used_shares(case, airspeed, rotor_speed)
    name = max(shares, key=lambda key: shares[key])
    return name, shares[name]


def _row(case: Case, airspeed: float) -> AltitudeLimit:
    """Return the first limits at the altitude of a case.

    High up a limit may be passed in hover and kept at an airspeed, where the wing lifts; the
    range of airspeeds is the first one that is free.
    """
    rotor_speed = case.rotorcraft.rotor_speed
    fastest = rotor_speed * case.rotorcraft.radius
    speeds = [SLOWEST + (fastest - SLOWEST) * step / STEPS for step in range(STEPS + 1)]
    found = [_governing(case, speed, rotor_speed) for speed in speeds]
    first = next((i for i, (_, used) in enumerate(found) if used < 1.0), None)
    slowest = largest = None
    met = found[0][0]
    if first is not None:
        past = next(i for i in range(first, STEPS + 1) if found[i][1] >= 1.0)
        met = found[past][0]
        largest = _edge(case, rotor_speed, speeds[past - 1], speeds[past])
        slowest = _edge(case, rotor_speed, speeds[first - 1], speeds[first]) if first else 0.0
    return AltitudeLimit(
        pressure_altitude=case.day.pressure_altitude,
        smallest_airspeed=slowest,
        largest_airspeed=largest,
        never_exceed_bound=None if largest is None else NEVER_EXCEED_FACTOR * largest,
        first_met=met,
        window=_window(case, airspeed),
    )


def _edge(case: Case, rotor_speed: float, low: float, high: float) -> float:
    """Return the airspeed between two at which a limit is just met."""
    return crossing(lambda v: _governing(case, v, rotor_speed)[1] - 1.0, low, high)


def _window(case: Case, airspeed: float) -> str:
    """Return between which rotor speeds no limit is passed at an airspeed, and what sets them."""
    first, last = 0.99 * case.limits.lowest_rotor_speed, 1.01 * case.limits.highest_rotor_speed
    speeds = [first + (last - first) * step / STEPS for step in range(STEPS + 1)]
    found = [_governing(case, airspeed, speed) for speed in speeds]
    free = [number for number, (_, used) in enumerate(found) if used < 1.0]
    if not free:
        best = min(range(1, STEPS), key=lambda number: found[number][1])
        names = dict.fromkeys(name for name, _ in found[best - 1 : best + 2])
        return f"none: shut by {' and '.join(names)}"
    (low, below), (high, above) = (
        (crossing(lambda s: _governing(case, airspeed, s)[1] - 1.0, speeds[i], speeds[j]), found[j])
        for i, j in ((free[0], free[0] - 1), (free[-1], free[-1] + 1))
    )
    return _words(low, below[0], high, above[0])


def _words(lowest: float, below: str, highest: float, above: str) -> str:
    """Return a window in words, in whole rpm, with the limits at its edges."""
    if lowest > highest:
        return f"none: shut by {below} and {above}"
    first, last = math.ceil(RPM.reading(lowest)), math.floor(RPM.reading(highest))
    return f"{first} ({below}) to {last} rpm ({above})"


def flight_limits_chart(
    rotorcraft: Rotorcraft,
    wing: Wing,
    limits: RotorLimits,
    day: Day,
    diameter: float,
    propeller_speed: float,
    airspeed: float,
) -> Chart:
    """Return the governing limit over airspeed and rotor speed, and where a limit is passed."""
    case = Case(rotorcraft, wing, limits, day, diameter, propeller_speed)
    fastest = 1.35 * rotorcraft.rotor_speed * rotorcraft.radius * limits.advance_ratio_limit
    lowest, highest = 0.9 * limits.lowest_rotor_speed, 1.1 * limits.highest_rotor_speed
    across = [fastest * step / MAP_CELLS for step in range(MAP_CELLS + 1)]
    up = [lowest + (highest - lowest) * step / MAP_CELLS for step in range(MAP_CELLS + 1)]
    found = [
        [
            _governing(case, 0.5 * (left + right), 0.5 * (low + high))
            for left, right in pairwise(across)
        ]
        for low, high in pairwise(up)
    ]
    named = [[name if used < 1.0 else f"past {name}" for name, used in row] for row in found]
    areas = [*dict.fromkeys(name for row in named for name in row)]
    return Chart(
        title="Governing limit over airspeed and rotor speed",
        description="A map whose areas are named by the limit of which the largest share is used, "
        f"hatched where a limit is passed. Areas: {', '.join(areas)}.",
        x=Axis.of(AIRSPEED, 0.0, fastest),
        y=Axis.of(ROTOR_SPEED, lowest, highest),
        marks=(
            Cells(
                across,
                up,
                [[int(used >= 1.0) for _, used in row] for row in found],
                ["", "a limit is passed"],
                hatched=[1],
            ),
            Line(_borders(across, up, named), "", 0),
            Points([(airspeed, rotorcraft.rotor_speed)], "this flight", 2),
            *(
                Label(*_middle(across, up, named, name), name.removeprefix("past "))
                for name in areas
            ),
        ),
    )


def _borders(
    across: Sequence[float], up: Sequence[float], named: Sequence[Sequence[str]]
) -> list[tuple[float, float]]:
    """Return the edges between cells of different names, each followed by a break."""
    points = []
    for j, row in enumerate(named):
        for i, name in enumerate(row):
            if i and row[i - 1] != name:
                points += [(across[i], up[j]), (across[i], up[j + 1]), (math.nan, math.nan)]
            if j and named[j - 1][i] != name:
                points += [(across[i], up[j]), (across[i + 1], up[j]), (math.nan, math.nan)]
    return points


def _middle(
    across: Sequence[float], up: Sequence[float], named: Sequence[Sequence[str]], name: str
) -> tuple[float, float]:
    """Return the middle of the cell of a name that lies nearest to the middle of all of them."""
    cells = [(i, j) for j, row in enumerate(named) for i, other in enumerate(row) if other == name]
    centre = tuple(sum(place) / len(cells) for place in zip(*cells, strict=True))
    i, j = min(cells, key=lambda cell: math.dist(cell, centre))
    return 0.5 * (across[i] + across[i + 1]), 0.5 * (up[j] + up[j + 1])
