"""Glide: steady descent in autorotation with the propellers stopped."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.constants import STANDARD_GRAVITY
from calc.declaration import Method, Name, Nothing, Table
from calc.flight.autorotation import vertical_descent_speed
from calc.flight.autorotative_trim import COLLECTIVE, Autorotation, autorotation_of_rotor
from calc.flight.craft import Airframe, Condition, Rotor, Wing
from calc.flight.quantities import AIRSPEED, DENSITY
from calc.flight.wing import wing_at_airspeed
from calc.numeric.peaks import highest
from calc.quantity import LimitError, Quantity
from calc.rotor.quantities import DISC_INCIDENCE
from calc.rotor.retreating_tip import INBOARD_ANGLE
from calc.rotor.stall_onset import ONSET_OF_STALL
from calc.units import ANGLE, SPEED

SINK = Quantity("V_z", "Rate of descent", SPEED)
LEAST_SINK = Quantity("V_{z,min}", "Least rate of descent", SPEED)
LEAST_SINK_AIRSPEED = Quantity("V_1", "Airspeed of the least rate of descent", SPEED)
GLIDE_ANGLE = Quantity(r"\gamma_g", "Glide angle, down", ANGLE)
BEST_ANGLE = Quantity(r"\gamma_{min}", "Flattest glide angle, down", ANGLE)
BEST_ANGLE_AIRSPEED = Quantity("V_2", "Airspeed of the flattest glide", SPEED)
PARACHUTE = Quantity("V_d", "Speed of vertical descent", SPEED)
REMARK = Name("Remark")
AT_LEAST = Name("At the least rate of descent")
GOOD = "inside the range of small angles"
TILTED = "disc more than 15 deg back: a trend"
STALLING = "past 12 deg inboard: stall begins"
MOST_TILT = math.radians(-15.0)

LOWEST_AIRSPEED = 15.0
MOST_RATIO = 0.5
ROWS = 16
PASSES = 12
"""Turns of lift and drag about the glide angle; each leaves about a fiftieth of the difference."""


@dataclass(frozen=True, slots=True)
class GlideAtAirspeed:
    """One steady glide."""

    airspeed: Annotated[float, AIRSPEED]
    sink: Annotated[float, SINK]
    glide_angle: Annotated[float, GLIDE_ANGLE]
    collective: Annotated[float, COLLECTIVE]
    disc_incidence: Annotated[float, DISC_INCIDENCE]
    inboard_angle: Annotated[float, INBOARD_ANGLE]
    remark: Annotated[str, REMARK]


GLIDES = Table("Glides", GlideAtAirspeed)


@dataclass(frozen=True, slots=True)
class Glide:
    """The two glides that stand out, and glides against airspeed."""

    least_sink: Annotated[float, LEAST_SINK]
    least_sink_airspeed: Annotated[float, LEAST_SINK_AIRSPEED]
    remark: Annotated[str, AT_LEAST]
    flattest_angle: Annotated[float, BEST_ANGLE]
    flattest_airspeed: Annotated[float, BEST_ANGLE_AIRSPEED]
    vertical_descent: Annotated[float, PARACHUTE]
    rows: Annotated[tuple[GlideAtAirspeed, ...], GLIDES]


def glide(
    rotor: Rotor,
    wing: Wing,
    airframe: Airframe,
    density: Annotated[float, DENSITY],
) -> Annotated[Glide | None, Nothing("No airspeed at which the rotor autorotates")]:
    r"""Return steady glides of an autorotating rotorcraft with its propellers stopped.

    $$ Z + L_w = m g \cos \gamma_g, \qquad
    \frac{1}{2} \rho V^2 f + D_{w,i} + D_{w,0} + D_r = m g \sin \gamma_g, \qquad
    V_z = V \sin \gamma_g $$

    Rotor speed is held; the pitch is that without shaft torque.  Stopped or feathered propellers
    are taken to have no drag.

    Args:
        rotor: The rotor, at the rotor speed that it holds; record.
        wing: The wing; record.
        airframe: Mass and drag area without rotor and wing; record.
        density: Density of the air; scalar, kg/m³.

    Returns:
        Least rate of descent and flattest glide with their airspeeds, the speed of a vertical
        descent for reference, and up to sixteen glides up to an advance ratio of 0.5; None if the
        rotor autorotates at none of the airspeeds.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Balance of forces; `autorotation_of_rotor`, `wing_at_airspeed`, `vertical_descent_speed`.

    Examples:
        >>> from calc.flight import examples as curlew
        >>> found = glide(
        ...     curlew.CURLEW_ROTOR, curlew.CURLEW_WING, curlew.CURLEW_AIRFRAME, 1.225
        ... )
        >>> found.least_sink_airspeed < found.flattest_airspeed
        True
    """
    DENSITY.check(density)
    rows = _rows(rotor, wing, airframe, density)
    if not rows:
        return None
    least = extreme(rotor, wing, airframe, density, rows, "sink")
    flattest = extreme(rotor, wing, airframe, density, rows, "glide_angle")
    return Glide(
        least_sink=least.sink,
        least_sink_airspeed=least.airspeed,
        remark=least.remark,
        flattest_angle=flattest.glide_angle,
        flattest_airspeed=flattest.airspeed,
        vertical_descent=vertical_descent_speed(airframe.mass, rotor.radius, density),
        rows=rows,
    )


def extreme(
    rotor: Rotor,
    wing: Wing,
    airframe: Airframe,
    density: float,
    rows: tuple[GlideAtAirspeed, ...],
    name: str,
) -> Annotated[GlideAtAirspeed, Method("the lowest of the glides, by parabolas")]:
    """Return the glide with the lowest rate of descent or glide angle."""
    place = min(range(len(rows)), key=lambda row: float(getattr(rows[row], name)))
    low, high = rows[max(place - 1, 0)].airspeed, rows[min(place + 1, len(rows) - 1)].airspeed

    def gain(airspeed: float) -> float:
        row = _row(rotor, wing, airframe, Condition(airspeed, density))
        return -math.inf if row is None else -float(getattr(row, name))

    airspeed, value = highest(gain, low, high, 0.2)
    found = _row(rotor, wing, airframe, Condition(airspeed, density))
    return rows[place] if found is None or -value > getattr(rows[place], name) else found


def glide_chart(found: Glide | None) -> Chart:
    """Return the rate of descent against airspeed, with the two glides that stand out."""
    rows = () if found is None else found.rows
    points = (
        []
        if found is None
        else [
            (found.least_sink_airspeed, found.least_sink),
            (found.flattest_airspeed, found.flattest_airspeed * math.sin(found.flattest_angle)),
        ]
    )
    return Chart(
        title="Rate of descent in autorotation against airspeed",
        description="A line of the rate of descent, with points at its least and where a line "
        "from the origin touches it, the flattest glide.",
        x=Axis.of(AIRSPEED, 0.0),
        y=Axis.of(SINK, 0.0),
        marks=(
            Line([(row.airspeed, row.sink) for row in rows], "glide", 1),
            Points(points, "least and flattest" if points else "", 2),
        ),
    )


def _rows(
    rotor: Rotor, wing: Wing, airframe: Airframe, density: float
) -> tuple[GlideAtAirspeed, ...]:
    fastest = MOST_RATIO * rotor.rotor_speed * rotor.radius
    lowest = min(LOWEST_AIRSPEED, 0.25 * fastest)
    step = (fastest - lowest) / (ROWS - 1)
    flights = [Condition(lowest + step * row, density) for row in range(ROWS)]
    rows = (_row(rotor, wing, airframe, flight) for flight in flights)
    return tuple(row for row in rows if row is not None)


def _row(rotor: Rotor, wing: Wing, airframe: Airframe, flight: Condition) -> GlideAtAirspeed | None:
    """Return the steady glide at an airspeed, or None if there is none."""
    weight = airframe.mass * STANDARD_GRAVITY
    carried = wing_at_airspeed(wing, flight, airframe.mass)
    drag = flight.density * flight.airspeed**2 / 2 * airframe.drag_area
    drag += carried.induced_drag + carried.profile_drag
    angle, state = 0.0, _autorotation(rotor, flight, weight - carried.lift)
    for _ in range(PASSES):
        if state is None or drag + state.rotor_drag >= weight:
            return None
        before, angle = angle, math.asin((drag + state.rotor_drag) / weight)
        if abs(angle - before) < 1e-7:
            break
        state = _autorotation(rotor, flight, weight * math.cos(angle) - carried.lift)
    if state is None:
        return None
    return GlideAtAirspeed(
        airspeed=flight.airspeed,
        sink=flight.airspeed * math.sin(angle),
        glide_angle=angle,
        collective=state.collective,
        disc_incidence=state.disc_incidence,
        inboard_angle=state.inboard_angle,
        remark=_remark(state),
    )


def _remark(state: Autorotation) -> str:
    """Return in words where a glide lies outside what the theory can say."""
    if state.disc_incidence < MOST_TILT:
        return TILTED
    return STALLING if state.inboard_angle > ONSET_OF_STALL else GOOD


def _autorotation(rotor: Rotor, flight: Condition, lift: float) -> Autorotation | None:
    """Return the rotor without torque, or None if it carries nothing or turns too slowly."""
    if lift <= 0.0:
        return None
    try:
        return autorotation_of_rotor(rotor, flight, lift)
    except LimitError:
        return None
