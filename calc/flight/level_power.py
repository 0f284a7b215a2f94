"""Level power: what level flight takes in both modes, and where autorotation takes less."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from typing import Annotated, Any

from calc.chart import Axis, Bars, Chart, Line, Rule
from calc.declaration import Method, Name, Table
from calc.flight.craft import Airframe, Condition, Drive, Propellers, Rotor, Wing
from calc.flight.power_by_parts import TOTAL_POWER, LevelPower, level_power
from calc.flight.quantities import (
    AIRSPEED,
    MOST_LOADING,
    PUSHING_PROPELLERS,
    ROTOR_SPEED,
    STALLS_ABOVE,
    WING_LIFT_SHARE,
)
from calc.flight.wing import airspeed_of_share, wing_at_airspeed
from calc.numeric.roots import crossing
from calc.quantity import Quantity
from calc.rotor.quantities import BLADE_LOADING
from calc.rotor.stall_onset import HEAVY_STALL, ONSET_OF_STALL
from calc.units import KILOWATT, POWER, SPEED

__all__ = ["level_flight_power", "level_power", "mode_crossover", "mode_crossover_airspeed"]

HELD_LOADING = replace(
    BLADE_LOADING,
    symbol="t_a",
    label="Blade loading held in autorotation",
    at_least=-math.inf,
    above=0.0,
    below=1.0,
    covered=(0.0, MOST_LOADING),
    covered_by=STALLS_ABOVE,
    example=0.08,
)
CROSSOVER = Quantity("V_x", "Airspeed at which autorotation takes less power", SPEED)
WHICH = Name("Less power")
FLAG = Name("Slowed rotor")
AT_CROSSING = Name("Slowed rotor at the crossing")
HELICOPTER_POWER = Quantity("P_h", "Power in helicopter mode", POWER)
SLOWED_POWER = Quantity("P_a", "Power in autorotation, rotor slowed", POWER)
UNSLOWED_POWER = Quantity("P_{a,1}", "Power in autorotation, rotor speed held", POWER)
SLOWED_SPEED = replace(
    ROTOR_SPEED, symbol=r"\Omega_s", label="Rotor speed in autorotation, slowed", above=-math.inf
)
ABOVE = "helicopter mode up to the crossing, autorotation with a slowed rotor above it"
FOR_A_WHILE = (
    "helicopter mode up to the crossing, autorotation with a slowed rotor above it, and helicopter "
    "mode again at higher airspeeds of the table"
)
FROM_THE_FIRST = "autorotation with a slowed rotor at the first airspeeds of the table already"
ALWAYS = "autorotation with a slowed rotor at every airspeed of the table"
NEVER = "helicopter mode at every airspeed of the table"

PARTS = {
    "rotor_induced": "rotor, induced",
    "rotor_profile": "rotor, profile",
    "parasite": "parasite",
    "wing_induced": "wing, induced",
    "wing_profile": "wing, profile",
    "propeller_loss": "propellers",
    "drive_loss": "drive",
}
UNSTALLED = "below 12 deg inboard"
PAST_ONSET = "past 12 deg inboard: stall begins, and the power is too low"
STALLED = "past 16 deg inboard: stalled, no such flight"
TOO_SLOW = "advance ratio above 0.8: no such flight"
NO_FLIGHT = "no autorotation"

LOWEST_AIRSPEED = 20.0
MOST_ADVANCE_RATIO = 0.8
"""Short of 0.853, where the collective pitch of the theory has a pole."""

MOST_SHARE = 0.9
MOST_RATIO = 0.6
ROWS = 16


@dataclass(frozen=True, slots=True)
class PowerAtAirspeed:
    """One airspeed; a power is infinite where the mode does not fly."""

    airspeed: Annotated[float, AIRSPEED]
    lift_share: Annotated[float, WING_LIFT_SHARE]
    helicopter: Annotated[float, HELICOPTER_POWER]
    held: Annotated[float, UNSLOWED_POWER]
    slowed: Annotated[float, SLOWED_POWER]
    rotor_speed: Annotated[float, SLOWED_SPEED]
    flag: Annotated[str, FLAG]


POWERS = Table("Power against airspeed", PowerAtAirspeed)


@dataclass(frozen=True, slots=True)
class Crossover:
    """Where autorotation with a slowed rotor begins to take less power; None if it never does."""

    airspeed: Annotated[float | None, CROSSOVER]
    flag: Annotated[str, AT_CROSSING]
    less: Annotated[str, WHICH]
    rows: Annotated[tuple[PowerAtAirspeed, ...], POWERS]


@dataclass(frozen=True, slots=True)
class _Compound:
    """All parts of a compound, and the blade loading that it holds in autorotation."""

    rotor: Rotor
    wing: Wing
    airframe: Airframe
    propellers: Propellers
    drive: Drive
    held: float

    def parts(self, mode: str, flight: Condition, rotor_speed: float) -> LevelPower | None:
        """Return the power of a mode by parts, None where it does not fly."""
        rotor = replace(self.rotor, rotor_speed=rotor_speed)
        try:
            return level_power(
                mode, rotor, self.wing, self.airframe, self.propellers, self.drive, flight
            )
        except ValueError:
            return None

    def slowed_speed(self, flight: Condition) -> float:
        """Return the rotor speed that holds the blade loading, at most that of helicopter mode."""
        lift = wing_at_airspeed(self.wing, flight, self.airframe.mass).rotor_lift
        area = self.rotor.blades * self.rotor.chord * self.rotor.radius
        tip = math.sqrt(max(0.0, lift) / (flight.density * area * self.held))
        return min(self.rotor.rotor_speed, tip / self.rotor.radius)

    def slowed(self, flight: Condition) -> LevelPower | None:
        """Return the power of autorotation with a slowed rotor."""
        return self.parts("autorotation", flight, self.slowed_speed(flight))

    def gain(self, flight: Condition) -> float:
        """Return how much less power autorotation with a slowed rotor takes."""
        powered = self.parts("helicopter", flight, self.rotor.rotor_speed)
        slowed = self.slowed(flight)
        return powered.total - slowed.total if powered and slowed else math.nan

    def row(self, flight: Condition) -> PowerAtAirspeed:
        """Return the powers at one airspeed."""
        slowed = self.slowed(flight)
        return PowerAtAirspeed(
            airspeed=flight.airspeed,
            lift_share=wing_at_airspeed(self.wing, flight, self.airframe.mass).lift_share,
            helicopter=_total(self.parts("helicopter", flight, self.rotor.rotor_speed)),
            held=_total(self.parts("autorotation", flight, self.rotor.rotor_speed)),
            slowed=_total(slowed),
            rotor_speed=self.slowed_speed(flight),
            flag=_flag(slowed),
        )


def mode_crossover(
    rotor: Rotor,
    wing: Wing,
    airframe: Airframe,
    propellers: Annotated[Propellers, {"propellers": PUSHING_PROPELLERS}],
    drive: Drive,
    flight: Annotated[Condition, {"airspeed": 1.0}],
    autorotation_blade_loading: Annotated[float, HELD_LOADING],
) -> Crossover:
    r"""Return the airspeed from which autorotation with a slowed rotor takes less power.

    $$ P_h(V_x) = P_a(V_x), \qquad
    \Omega_s = \frac{1}{R} \sqrt{\frac{Z}{\rho N_b c R \, t_a}} \ \text{at most}\ \Omega $$

    In autorotation the rotor is slowed as the wing takes lift, so that its blade loading keeps a
    chosen value.  At equal rotor speed both modes pay the same induced and profile power, and
    autorotation takes more wherever propellers lose more than the transmission and the antitorque.

    Args:
        rotor: The rotor, at the rotor speed of helicopter mode; record.
        wing: The wing; record.
        airframe: Mass and drag area without rotor and wing; record.
        propellers: The propellers; record.
        drive: Transmission, antitorque, and the propellers' share in helicopter mode; record.
        flight: Density and load factor; record.
        autorotation_blade_loading: Blade loading by the lift, held in autorotation; scalar.

    Returns:
        The lowest airspeed at which autorotation begins to take less, None if there is none, and
        sixteen airspeeds with the power of both modes; they end where the wing carries 0.9 of the
        lift or at 0.6 of the tip speed.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        `level_power` of both modes; the rule for the rotor speed is a choice.

    Examples:
        >>> from calc.flight import examples as curlew
        >>> found = mode_crossover(
        ...     curlew.CURLEW_ROTOR,
        ...     curlew.CURLEW_WING,
        ...     curlew.CURLEW_AIRFRAME,
        ...     curlew.CURLEW_PROPELLERS,
        ...     curlew.CURLEW_DRIVE,
        ...     Condition(77.0, 1.225),
        ...     0.08,
        ... )
        >>> all(row.held > row.helicopter for row in found.rows)
        True
    """
    PUSHING_PROPELLERS.check(propellers.propellers)
    HELD_LOADING.check(autorotation_blade_loading)
    craft = _Compound(rotor, wing, airframe, propellers, drive, autorotation_blade_loading)
    flights = _flights(craft, flight)
    rows = tuple(craft.row(here) for here in flights)
    airspeed = crossover_airspeed(craft, flights)
    crossed = None if airspeed is None else craft.slowed(replace(flight, airspeed=airspeed))
    return Crossover(
        airspeed=airspeed,
        flag="no crossing" if crossed is None else _flag(crossed),
        less=_less(airspeed, rows),
        rows=rows,
    )


def level_flight_power(  # noqa: PLR0913, PLR0917  the flat names of scripts; forms take records
    mode: str,
    airspeed: float,
    density: float,
    rotor_speed: float,
    wing_angle: float,
    mass: float,
    drag_area: float,
    radius: float,
    chord: float,
    blades: int,
    twist: float,
    lift_slope: float,
    wing_area: float,
    wing_aspect_ratio: float,
    wing_lift_slope: float,
    wing_span_efficiency: float,
    wing_profile_drag_coefficient: float,
    propellers: int,
    propeller_diameter: float,
    propeller_quality: float,
    transmission_efficiency: float,
    antitorque_share: float,
    profile_drag_coefficient: float = 0.010,
    induced_factor: float = 1.15,
    load_factor: float = 1.0,
    propeller_thrust_share: float = 0.0,
    wing_maximum_lift_coefficient: float = 1.2,
) -> LevelPower | None:
    """Return what `level_power` does, without records: arguments in SI units.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> six, minus_eight = math.radians(6.0), math.radians(-8.0)
        >>> parts = level_flight_power(
        ...     "helicopter", 70.0, 1.225, 28.0, six, 6000.0, 1.5, 7.5, 0.45, 4, minus_eight, 5.7,
        ...     14.0, 7.0, 4.5, 0.8, 0.01, 2, 2.8, 0.88, 0.96, 0.06,
        ... )
        >>> round(parts.total / 1000.0, 1)
        806.1
    """
    rotor, wing, airframe, thrusters, drive = _craft(locals())
    flight = Condition(airspeed, density, load_factor)
    return level_power(mode, rotor, wing, airframe, thrusters, drive, flight)


def mode_crossover_airspeed(  # noqa: PLR0913, PLR0917  the flat names of scripts
    density: float,
    rotor_speed: float,
    autorotation_blade_loading: float,
    wing_angle: float,
    mass: float,
    drag_area: float,
    radius: float,
    chord: float,
    blades: int,
    twist: float,
    lift_slope: float,
    wing_area: float,
    wing_aspect_ratio: float,
    wing_lift_slope: float,
    wing_span_efficiency: float,
    wing_profile_drag_coefficient: float,
    propellers: int,
    propeller_diameter: float,
    propeller_quality: float,
    transmission_efficiency: float,
    antitorque_share: float,
    profile_drag_coefficient: float = 0.010,
    induced_factor: float = 1.15,
    load_factor: float = 1.0,
    propeller_thrust_share: float = 0.0,
    wing_maximum_lift_coefficient: float = 1.2,
) -> float | None:
    """Return the airspeed of `mode_crossover`, without records: arguments in SI units.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> six, minus_eight = math.radians(6.0), math.radians(-8.0)
        >>> airspeed = mode_crossover_airspeed(
        ...     1.225, 28.0, 0.09, six, 6000.0, 1.5, 7.5, 0.45, 4, minus_eight, 5.7,
        ...     14.0, 7.0, 4.5, 0.8, 0.01, 2, 2.8, 0.88, 0.96, 0.06,
        ... )
        >>> round(airspeed, 2)
        46.67
    """
    rotor, wing, airframe, thrusters, drive = _craft(locals())
    flight = Condition(1.0, density, load_factor)
    return mode_crossover(
        rotor, wing, airframe, thrusters, drive, flight, autorotation_blade_loading
    ).airspeed


def _craft(given: Mapping[str, Any]) -> tuple[Any, ...]:
    """Return the parts of a rotorcraft, each made of the numbers of its own names."""
    parts = Rotor, Wing, Airframe, Propellers, Drive
    return tuple(part(**{f.name: given[f.name] for f in fields(part)}) for part in parts)


def crossover_airspeed(
    craft: _Compound, flights: list[Condition]
) -> Annotated[float | None, Method("the lowest airspeed of equal power, by bracketing")]:
    """Return the first airspeed at which autorotation comes to take less power, or None."""

    def gain(airspeed: float) -> float:
        return craft.gain(replace(flights[0], airspeed=airspeed))

    airspeeds = [flight.airspeed for flight in flights]
    gains = [gain(airspeed) for airspeed in airspeeds]
    for row in range(1, len(gains)):
        if gains[row - 1] < 0.0 <= gains[row]:
            return crossing(gain, airspeeds[row - 1], airspeeds[row], 1e-9)
    return None


def level_power_chart(mode: str, found: LevelPower | None) -> Chart:
    """Return the parts of the power as bars."""
    parts = () if found is None else tuple(getattr(found, name) for name in PARTS)
    return Chart(
        title="Power in level flight by parts",
        description=f"Bars of the parts of the power in the mode asked for, {mode}; they add up to "
        "the power of the engines.",
        x=Axis("Part", low=0.0, high=len(PARTS) + 1.0, ticks=tuple(enumerate(PARTS.values(), 1))),
        y=Axis("Power", KILOWATT),
        marks=(Bars([(float(place), power) for place, power in enumerate(parts, 1)], 0.6),),
    )


def mode_crossover_chart(found: Crossover) -> Chart:
    """Return the power of both modes against airspeed, with the crossing."""
    rows = found.rows
    return Chart(
        title="Power in level flight against airspeed",
        description="Lines of the power in helicopter mode, in autorotation at the same rotor "
        "speed, which takes more, and in autorotation with a slowed rotor.",
        x=Axis.of(AIRSPEED, 0.0),
        y=Axis.of(TOTAL_POWER, 0.0),
        marks=(
            Line([(row.airspeed, row.helicopter) for row in rows], "helicopter", 1),
            Line([(row.airspeed, row.held) for row in rows], "autorotation, same speed", 2),
            Line([(row.airspeed, row.slowed) for row in rows], "autorotation, slowed", 3),
            *([] if found.airspeed is None else [Rule(found.airspeed, "x", "crossing")]),
        ),
    )


def _flights(craft: _Compound, flight: Condition) -> list[Condition]:
    """Return flights at airspeeds up to where the wing carries 0.9 or at 0.6 of the tip speed."""
    full = airspeed_of_share(
        craft.wing, MOST_SHARE, craft.airframe.mass, flight.density, flight.load_factor
    )
    fast = MOST_RATIO * craft.rotor.rotor_speed * craft.rotor.radius
    highest = fast if full is None else min(full, fast)
    lowest = min(LOWEST_AIRSPEED, 0.25 * highest)
    step = (highest - lowest) / (ROWS - 1)
    return [replace(flight, airspeed=lowest + step * row) for row in range(ROWS)]


def _less(airspeed: float | None, rows: tuple[PowerAtAirspeed, ...]) -> str:
    """Return in words where which mode takes less power."""
    wins = [row.slowed < row.helicopter for row in rows if math.isfinite(row.helicopter)]
    if airspeed is not None:
        return ABOVE if wins[-1] else FOR_A_WHILE
    if not any(wins):
        return NEVER
    return ALWAYS if all(wins) else FROM_THE_FIRST


def _total(parts: LevelPower | None) -> float:
    return math.inf if parts is None else parts.total


def _flag(parts: LevelPower | None) -> str:
    """Return in words how far the retreating blade of a slowed rotor is from stall."""
    if parts is None:
        return NO_FLIGHT
    if parts.advance_ratio > MOST_ADVANCE_RATIO:
        return TOO_SLOW
    if parts.inboard_angle < ONSET_OF_STALL:
        return UNSTALLED
    return PAST_ONSET if parts.inboard_angle < HEAVY_STALL else STALLED
