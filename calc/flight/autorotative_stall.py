"""Stall onset in autorotation: the airspeed at which a station of the retreating blade stalls."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.declaration import Method, Name, Nothing
from calc.flight.autorotative_trim import Autorotation, autorotation_of_rotor
from calc.flight.craft import Condition, Rotor
from calc.flight.quantities import AIRSPEED, DENSITY, ROTOR_LIFT
from calc.numeric.roots import crossing
from calc.rotor.stall_onset import ANGLE_LIMIT, INBOARD_ONSET, ONSET_OF_STALL, STATION, TIP_ONSET
from calc.units import DEGREE

LOWEST_AIRSPEED = replace(
    AIRSPEED,
    symbol="V_1",
    label="Lowest airspeed of the search",
    covered=(30.0, math.inf),
    covered_by="below about 30 m/s the disc leans back too far for this theory",
    example=35.0,
)
LIFT = replace(ROTOR_LIFT, example=70000.0)
REMARK = Name("Limiting station")
INBOARD = "inboard station, since no shaft power drives the rotor"
BOTH = "inboard station, since no shaft power drives the rotor; the tip is past the limit there too"
TIP_ALONE = "inboard station, which does not reach the limit; the tip does"
HIGHEST_RATIO = 0.8
"""Advance ratio at which the search ends: the collective pitch has a pole at 0.853."""
SAMPLES = 30


@dataclass(frozen=True, slots=True)
class AutorotativeOnset:
    """The onset at each station; an airspeed is None if the station does not reach the limit."""

    inboard_airspeed: Annotated[float | None, INBOARD_ONSET]
    tip_airspeed: Annotated[float | None, TIP_ONSET]
    limiting: Annotated[str, REMARK]


def stall_in_autorotation(
    rotor: Rotor,
    density: Annotated[float, DENSITY],
    rotor_lift: Annotated[float, LIFT],
    lowest_airspeed: Annotated[float, LOWEST_AIRSPEED] = 35.0,
    angle_limit: Annotated[float, ANGLE_LIMIT] = ONSET_OF_STALL,
) -> Annotated[
    AutorotativeOnset | None,
    Nothing("No airspeed up to an advance ratio of 0.8 meets the limit, at either station"),
]:
    r"""Return the airspeeds at which the retreating blade of an autorotating rotor stalls.

    $$ \alpha_{0.4,270}(V_{s,0.4}) = \alpha_{lim}, \qquad \alpha_{1,270}(V_{s,1}) = \alpha_{lim} $$

    Rotor speed and rotor lift are held, and at each airspeed pitch and tilt are those without
    shaft torque.  Without shaft power the inboard station is the limiting one.

    Args:
        rotor: The rotor, at the rotor speed that it holds; record.
        density: Density of the air; scalar, kg/m³.
        rotor_lift: Force of the rotor square to the flight path; scalar, N.
        lowest_airspeed: True airspeed at which the search begins; scalar, m/s.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.

    Returns:
        The airspeed at each station, the lowest of the search if the limit is met there already;
        None if neither station meets the limit.

    Raises:
        ValueError: If an argument breaks its limits, or the search begins above its end.

    Source:
        Gustafson and Myers (1946), NACA Report 840: the angle as a measure of stall; 12 deg and
        the station by condition from memory.

    Examples:
        >>> from calc.flight.examples import CURLEW_ROTOR
        >>> found = stall_in_autorotation(CURLEW_ROTOR, 1.225, 70000.0)
        >>> found.inboard_airspeed < found.tip_airspeed
        True
    """
    DENSITY.check(density)
    LIFT.check(rotor_lift)
    LOWEST_AIRSPEED.check(lowest_airspeed)
    ANGLE_LIMIT.check(angle_limit)
    if lowest_airspeed >= _fastest(rotor):
        raise ValueError("The search begins above an advance ratio of 0.8, where it ends")
    inboard = onset(rotor, density, rotor_lift, lowest_airspeed, angle_limit, "inboard")
    tip = onset(rotor, density, rotor_lift, lowest_airspeed, angle_limit, "tip")
    if inboard is None and tip is None:
        return None
    return AutorotativeOnset(
        inboard_airspeed=inboard, tip_airspeed=tip, limiting=_remark(inboard, tip)
    )


def autorotative_stall_onset(  # noqa: PLR0913, PLR0917  the flat names of scripts
    density: float,
    rotor_lift: float,
    rotor_speed: float,
    lowest_airspeed: float,
    angle_limit: float,
    station: str,
    radius: float,
    chord: float,
    blades: int,
    twist: float,
    lift_slope: float,
    profile_drag_coefficient: float = 0.010,
    induced_factor: float = 1.15,
) -> float | None:
    """Return the onset of `stall_in_autorotation` at one station, "tip" or "inboard", in SI units.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> limit, twist = math.radians(12.0), math.radians(-8.0)
        >>> rotor = 7.5, 0.45, 4, twist, 5.7
        >>> onset = autorotative_stall_onset(1.225, 58840.0, 28.0, 30.0, limit, "inboard", *rotor)
        >>> round(onset, 1)
        84.5
    """
    STATION.check(station)
    rotor = Rotor(
        radius,
        chord,
        blades,
        rotor_speed,
        twist,
        lift_slope,
        profile_drag_coefficient,
        induced_factor,
    )
    found = stall_in_autorotation(rotor, density, rotor_lift, lowest_airspeed, angle_limit)
    if found is None:
        return None
    return found.tip_airspeed if station == "tip" else found.inboard_airspeed


def onset(
    rotor: Rotor,
    density: float,
    rotor_lift: float,
    lowest_airspeed: float,
    angle_limit: float,
    station: str,
) -> Annotated[float | None, Method("the lowest airspeed at the limit, by bracketing")]:
    """Return the lowest airspeed at which a station meets the limit, or None."""

    def excess(airspeed: float) -> float:
        state = autorotation_of_rotor(rotor, Condition(airspeed, density), rotor_lift)
        if state is None:
            return math.nan
        angle = state.tip_angle if station == "tip" else state.inboard_angle
        return angle - angle_limit

    before, slower = math.nan, lowest_airspeed
    for airspeed in _airspeeds(rotor, lowest_airspeed):
        here = excess(airspeed)
        if math.isnan(before) and here >= 0.0:
            return airspeed
        if before < 0.0 <= here:
            return crossing(excess, slower, airspeed)
        before, slower = here, airspeed
    return None


def autorotative_stall_chart(
    rotor: Rotor,
    density: float,
    rotor_lift: float,
    lowest_airspeed: float,
    angle_limit: float,
    found: AutorotativeOnset | None,
) -> Chart:
    """Return the angles of both stations in autorotation against airspeed."""
    states: list[tuple[float, Autorotation]] = []
    for airspeed in _airspeeds(rotor, lowest_airspeed):
        state = autorotation_of_rotor(rotor, Condition(airspeed, density), rotor_lift)
        if state is not None:
            states.append((airspeed, state))
    met = [] if found is None else [found.inboard_airspeed, found.tip_airspeed]
    points = [(airspeed, angle_limit) for airspeed in met if airspeed is not None]
    return Chart(
        title="Angles of attack of the retreating blade in autorotation against airspeed",
        description="Lines of the angle at the inboard station and at the tip, and the limit, with "
        "a point where each line meets it.",
        x=Axis.of(AIRSPEED, 0.0),
        y=Axis("Angle of attack at 270 deg", DEGREE, 0.0, 1.5 * angle_limit),
        marks=(
            Line([(v, state.inboard_angle) for v, state in states], "inboard station", 1),
            Line([(v, state.tip_angle) for v, state in states], "tip", 2),
            Rule(angle_limit, "y", "limit"),
            Points(points, "onset" if points else "", 4),
        ),
    )


def _airspeeds(rotor: Rotor, lowest_airspeed: float) -> list[float]:
    """Return airspeeds from the lowest to where the advance ratio is about 0.8."""
    step = (_fastest(rotor) - lowest_airspeed) / SAMPLES
    return [lowest_airspeed + step * number for number in range(SAMPLES + 1)]


def _fastest(rotor: Rotor) -> float:
    return HIGHEST_RATIO * rotor.rotor_speed * rotor.radius


def _remark(inboard: float | None, tip: float | None) -> str:
    if inboard is None:
        return TIP_ALONE
    return BOTH if tip is not None and tip < inboard else INBOARD
