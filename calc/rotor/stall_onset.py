"""Stall onset: the airspeeds at which the retreating blade reaches its limiting angle."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Choice, Name, Nothing, Table
from calc.quantity import LimitError, Quantity
from calc.rotor.onset_search import onset_airspeed
from calc.rotor.quantities import ADVANCING_TIP_MACH, AIRSPEED, BLADE_LOADING
from calc.rotor.retreating_tip import (
    BELOW_ONE,
    INBOARD_ANGLE,
    SMALL_INCIDENCE,
    TIP_ANGLE,
    retreating_tip,
)
from calc.rotor.rotorcraft import Flight, Rotorcraft
from calc.rotor.stall_state import LIMITING_STATION, StallState, stall_state
from calc.rotor.tip_speed import tip_speed
from calc.units import ANGLE, DEGREE, SPEED

__all__ = ["retreating_tip", "stall_onset_airspeed", "stall_onsets", "stall_state"]

ROUNDING = 1e-9
"""How far past the limit rounding may leave an angle; beyond 0.6 both stations are the tip."""

ONSET_OF_STALL, HEAVY_STALL = math.radians(12.0), math.radians(16.0)
"""Angles of attack of the retreating blade, for the sections of the 1940s, from memory."""

ANGLE_LIMIT = Quantity(
    r"\alpha_{lim}",
    "Limit of the angle of attack",
    ANGLE,
    above=0.0,
    below=math.pi / 2,
    covered=(ONSET_OF_STALL, HEAVY_STALL),
    covered_by="12 deg marks the onset, 16 deg heavy stall, for the sections of the 1940s",
    example=ONSET_OF_STALL,
)
STATION = Choice("Station", {"tip": "tip", "inboard": "inboard station"})
TIP_ONSET = Quantity("V_{s,1}", "Stall-onset airspeed at the tip", SPEED)
INBOARD_ONSET = Quantity("V_{s,0.4}", "Stall-onset airspeed at the inboard station", SPEED)
OTHER_STATION = Name("Other station")
PLACE = Name("Onset at")

TIP_PAST_LIMIT = "the tip is past the limit when the inboard station reaches it"
INBOARD_PAST_LIMIT = "the inboard station is past the limit when the tip reaches it"
TIP_WITHOUT_ONSET = "the tip does not reach the limit up to an advance ratio of 1"
INBOARD_WITHOUT_ONSET = "the inboard station does not reach the limit up to an advance ratio of 1"


@dataclass(frozen=True, slots=True)
class StallOnset:
    """The retreating blade at the airspeed at which one station reaches the limit."""

    airspeed: Annotated[float, AIRSPEED]
    advance_ratio: Annotated[float, BELOW_ONE]
    blade_loading: Annotated[float, BLADE_LOADING]
    tip_angle: Annotated[float, TIP_ANGLE]
    inboard_angle: Annotated[float, INBOARD_ANGLE]
    advancing_tip_mach: Annotated[float, ADVANCING_TIP_MACH]


@dataclass(frozen=True, slots=True)
class Onset:
    """One row of the table of onsets."""

    station: Annotated[str, PLACE]
    airspeed: Annotated[float, AIRSPEED]
    advance_ratio: Annotated[float, BELOW_ONE]
    blade_loading: Annotated[float, BLADE_LOADING]
    tip_angle: Annotated[float, TIP_ANGLE]
    inboard_angle: Annotated[float, INBOARD_ANGLE]
    advancing_tip_mach: Annotated[float, ADVANCING_TIP_MACH]
    disc_incidence: Annotated[float, SMALL_INCIDENCE]


ONSETS = Table("Retreating blade at each onset", Onset, at_most=2)


@dataclass(frozen=True, slots=True)
class StallOnsets:
    """The onset at each station; an airspeed is None if the station does not reach the limit."""

    limiting: Annotated[str, LIMITING_STATION]
    other: Annotated[str, OTHER_STATION]
    tip_airspeed: Annotated[float | None, TIP_ONSET]
    inboard_airspeed: Annotated[float | None, INBOARD_ONSET]
    onsets: Annotated[tuple[Onset, ...], ONSETS]


def stall_onsets(
    rotorcraft: Rotorcraft,
    flight: Flight,
    angle_limit: Annotated[float, ANGLE_LIMIT] = ONSET_OF_STALL,
) -> Annotated[
    StallOnsets | None,
    Nothing("No airspeed up to an advance ratio of 1 meets the limit, at either station"),
]:
    r"""Return the lowest airspeed at which each station of the retreating blade meets the limit.

    $$ \alpha_{1,270}(V_{s,1}) = \alpha_{lim}, \qquad \alpha_{0.4,270}(V_{s,0.4}) = \alpha_{lim} $$

    The tip is limiting while shaft power drives the rotor, the inboard station in autorotation.
    Never take the larger of the two angles: it mixes the two conditions.

    Args:
        rotorcraft: The rotorcraft; record.
        flight: The air, the load factor, and the shares of wing and propellers; record.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.

    Returns:
        Both airspeeds with the state of the rotor at each, the limiting station, and a sentence
        if the other station is past the limit at that airspeed; None if neither meets the limit.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Gustafson and Myers (1946), NACA Report 840: the angle as a measure of stall; 12 deg,
        16 deg and the station by condition from memory.

    Examples:
        >>> from calc.rotor.examples import PLOVER
        >>> found = stall_onsets(PLOVER, Flight())
        >>> found is not None and found.tip_airspeed < found.inboard_airspeed
        True
    """
    ANGLE_LIMIT.check(angle_limit)
    tip_airspeed = onset_airspeed(rotorcraft, flight, "tip", angle_limit)
    inboard_airspeed = onset_airspeed(rotorcraft, flight, "inboard", angle_limit)
    tip = None if tip_airspeed is None else stall_state(rotorcraft, flight, tip_airspeed)
    inboard = (
        None if inboard_airspeed is None else stall_state(rotorcraft, flight, inboard_airspeed)
    )
    limiting = tip or inboard
    if limiting is None:
        return None
    rows = {"tip": tip, "inboard station": inboard}
    return StallOnsets(
        limiting=limiting.limiting,
        other=_other_station(tip, inboard, angle_limit),
        tip_airspeed=tip_airspeed,
        inboard_airspeed=inboard_airspeed,
        onsets=tuple(_row(place, state) for place, state in rows.items() if state is not None),
    )


def stall_onset_airspeed(  # noqa: PLR0913, PLR0917  the flat names of scripts; forms take records
    mass: float,
    radius: float,
    chord: float,
    blades: int,
    rotor_speed: float,
    twist: float,
    lift_slope: float,
    drag_area: float,
    pressure_altitude: float = 0.0,
    temperature_offset: float = 0.0,
    load_factor: float = 1.0,
    wing_lift_share: float = 0.0,
    propeller_thrust_share: float = 0.0,
    angle_limit: float = ONSET_OF_STALL,
    station: str = "tip",
) -> StallOnset | None:
    """Return the lowest airspeed at which one station of the retreating blade meets the limit.

    The same as `stall_onsets`, for one station and without records: arguments in SI units are
    the fields of `Rotorcraft` and `Flight`.  The tip is limiting while shaft power drives the
    rotor, the inboard station in autorotation.  If hover meets the limit already, the airspeed is
    zero; if no airspeed up to an advance ratio of 1 meets it, the result is None.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> onset = stall_onset_airspeed(5500.0, 7.0, 0.42, 4, 31.4, math.radians(-8), 5.7, 1.8)
        >>> onset and round(onset.airspeed, 1)
        78.3
    """
    ANGLE_LIMIT.check(angle_limit)
    STATION.check(station)
    rotorcraft = Rotorcraft(mass, radius, chord, blades, rotor_speed, twist, lift_slope, drag_area)
    flight = Flight(
        pressure_altitude, temperature_offset, load_factor, wing_lift_share, propeller_thrust_share
    )
    airspeed = onset_airspeed(rotorcraft, flight, station, angle_limit)
    if airspeed is None:
        return None
    state = stall_state(rotorcraft, flight, airspeed)
    return StallOnset(
        state.airspeed,
        state.advance_ratio,
        state.blade_loading,
        state.tip_angle,
        state.inboard_angle,
        state.advancing_tip_mach,
    )


def stall_onset_chart(
    rotorcraft: Rotorcraft, flight: Flight, angle_limit: float, found: StallOnsets | None
) -> Chart:
    """Return both angles of the retreating blade against airspeed, to beyond both onsets."""
    met = [onset.airspeed for onset in found.onsets] if found else []
    speed = tip_speed(rotorcraft.radius, rotorcraft.rotor_speed)
    fastest = max([0.6 * speed, *(1.1 * airspeed for airspeed in met)])
    states = [_state_or_none(rotorcraft, flight, fastest * step / 60) for step in range(61)]
    known = [state for state in states if state is not None]
    return Chart(
        title="Angles of attack of the retreating blade against airspeed",
        description="Lines of the angle at the tip and at the inboard station, and the limit, "
        "with a point where each line meets it.",
        x=Axis.of(AIRSPEED, 0.0, fastest),
        y=Axis("Angle of attack at 270 deg", DEGREE, 0.0, 1.5 * angle_limit),
        marks=(
            Line([(s.airspeed, s.tip_angle) for s in known], "tip", 1),
            Line([(s.airspeed, s.inboard_angle) for s in known], "inboard station", 2),
            Rule(angle_limit, "y", "limit"),
            Points([(airspeed, angle_limit) for airspeed in met], "onset" if met else "", 4),
        ),
    )


def _other_station(tip: StallState | None, inboard: StallState | None, limit: float) -> str:
    """Return which station is past the limit at the onset of the other, in words."""
    past = limit * (1.0 + ROUNDING)
    if tip and tip.inboard_angle > past:
        return INBOARD_PAST_LIMIT
    if inboard and inboard.tip_angle > past and inboard.inflow < 0.0:
        return TIP_PAST_LIMIT
    if inboard is None:
        return INBOARD_WITHOUT_ONSET
    return TIP_WITHOUT_ONSET if tip is None else ""


def _row(station: str, state: StallState) -> Onset:
    return Onset(
        station,
        state.airspeed,
        state.advance_ratio,
        state.blade_loading,
        state.tip_angle,
        state.inboard_angle,
        state.advancing_tip_mach,
        state.disc_incidence,
    )


def _state_or_none(rotorcraft: Rotorcraft, flight: Flight, airspeed: float) -> StallState | None:
    """Return the state of the blade, or None where the advance ratio is 1 or more."""
    try:
        return stall_state(rotorcraft, flight, airspeed)
    except LimitError:
        return None
