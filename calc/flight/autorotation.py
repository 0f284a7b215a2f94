"""Autorotation: the rotor that turns without shaft torque, and its rotor speed."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.constants import STANDARD_GRAVITY
from calc.declaration import Method, Nothing
from calc.flight.autorotative_stall import autorotative_stall_onset
from calc.flight.autorotative_trim import (
    COLLECTIVE,
    LIFT_TO_DRAG,
    ROTOR_DRAG,
    Autorotation,
    autorotation_of_rotor,
)
from calc.flight.craft import Condition, Rotor
from calc.flight.quantities import (
    BELOW_ONE,
    DENSITY,
    MASS,
    RADIUS,
    ROTOR_LIFT,
    ROTOR_SPEED,
)
from calc.numeric.roots import crossing
from calc.quantity import Quantity
from calc.rotor.quantities import BLADE_LOADING
from calc.rotor.retreating_tip import INBOARD_ANGLE, SMALL_INCIDENCE, TIP_ANGLE
from calc.units import SPEED

__all__ = [
    "autorotation",
    "autorotation_of_rotor",
    "autorotative_rotor_speed",
    "autorotative_stall_onset",
    "speed_of_autorotation",
    "vertical_descent_speed",
]

FOUND_SPEED = replace(
    ROTOR_SPEED, symbol=r"\Omega_a", label="Rotor speed in autorotation", above=-math.inf
)
DRAG_COEFFICIENT = Quantity(
    "C_R",
    "Resultant-force coefficient on the disc area",
    above=0.0,
    covered=(1.0, 1.5),
    covered_by="a textbook takes 1.25 for a rotor in vertical autorotation",
    example=1.25,
)
DESCENT_SPEED = Quantity("V_d", "Speed of vertical descent", SPEED)

SLOWEST, FASTEST = 0.8, 0.1
"""Advance ratios between which a rotor speed is looked for."""
SAMPLES = 24
MOST_PITCH = math.radians(25.0)
"""Largest pitch that a figure shows."""


@dataclass(frozen=True, slots=True)
class AutorotativeSpeed:
    """The rotor speed that a collective pitch gives without shaft torque, and the state at it."""

    rotor_speed: Annotated[float, FOUND_SPEED]
    rotor_drag: Annotated[float, ROTOR_DRAG]
    lift_to_drag: Annotated[float, LIFT_TO_DRAG]
    disc_incidence: Annotated[float, SMALL_INCIDENCE]
    advance_ratio: Annotated[float, BELOW_ONE]
    blade_loading: Annotated[float, BLADE_LOADING]
    tip_angle: Annotated[float, TIP_ANGLE]
    inboard_angle: Annotated[float, INBOARD_ANGLE]


def autorotation(  # noqa: PLR0913, PLR0917  the flat names of scripts; forms take records
    airspeed: float,
    density: float,
    rotor_lift: float,
    rotor_speed: float,
    radius: float,
    chord: float,
    blades: int,
    twist: float,
    lift_slope: float,
    profile_drag_coefficient: float = 0.010,
    induced_factor: float = 1.15,
) -> Autorotation | None:
    """Return what `autorotation_of_rotor` does, without records: arguments in SI units.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> twist = math.radians(-8.0)
        >>> state = autorotation(70.0, 1.225, 39039.62, 28.0, 7.5, 0.45, 4, twist, 5.7)
        >>> round(state.rotor_drag, 1)
        5003.0
    """
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
    return autorotation_of_rotor(rotor, Condition(airspeed, density), rotor_lift)


def speed_of_autorotation(
    rotor: Annotated[Rotor, {"rotor_speed": 1.0}],
    flight: Annotated[Condition, {"load_factor": 1.0}],
    rotor_lift: Annotated[float, ROTOR_LIFT],
    collective: Annotated[float, COLLECTIVE],
) -> Annotated[
    AutorotativeSpeed | None,
    Nothing(
        "No rotor speed between advance ratios of 0.1 and 0.8 autorotates with this collective"
    ),
]:
    r"""Return the rotor speed at which a rotor with a collective pitch needs no shaft torque.

    $$ \theta_0(\Omega_a) = \theta_0 $$

    Less pitch turns the rotor faster.  Of two rotor speeds with the same pitch the higher is
    returned, the one that a stable rotor goes back to.

    Args:
        rotor: The rotor; record.
        flight: Airspeed and density; record.
        rotor_lift: Force of the rotor square to the flight path; scalar, N.
        collective: Pitch of the blades, extended to the shaft axis; scalar, rad.

    Returns:
        The rotor speed and the state of the rotor at it; None if there is none.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        `autorotation_of_rotor`, solved for the rotor speed.

    Examples:
        >>> from calc.flight.examples import CURLEW_ROTOR
        >>> flight = Condition(60.0, 1.225)
        >>> found = speed_of_autorotation(CURLEW_ROTOR, flight, 50000.0, 0.12)
        >>> rotor = replace(CURLEW_ROTOR, rotor_speed=found.rotor_speed)
        >>> round(autorotation_of_rotor(rotor, flight, 50000.0).collective, 9)
        0.12
    """
    ROTOR_LIFT.check(rotor_lift)
    COLLECTIVE.check(collective)
    rotor_speed = autorotative_speed(rotor, flight, rotor_lift, collective)
    if rotor_speed is None:
        return None
    state = state_at(rotor, flight, rotor_lift, rotor_speed)
    if state is None:
        return None
    return AutorotativeSpeed(
        rotor_speed=rotor_speed,
        rotor_drag=state.rotor_drag,
        lift_to_drag=state.lift_to_drag,
        disc_incidence=state.disc_incidence,
        advance_ratio=state.advance_ratio,
        blade_loading=state.blade_loading,
        tip_angle=state.tip_angle,
        inboard_angle=state.inboard_angle,
    )


def autorotative_rotor_speed(  # noqa: PLR0913, PLR0917  the flat names of scripts
    collective: float,
    airspeed: float,
    density: float,
    rotor_lift: float,
    radius: float,
    chord: float,
    blades: int,
    twist: float,
    lift_slope: float,
    profile_drag_coefficient: float = 0.010,
    induced_factor: float = 1.15,
) -> float | None:
    """Return the rotor speed of `speed_of_autorotation`, without records, in SI units.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> pitch, twist = math.radians(7.0), math.radians(-8.0)
        >>> speed = autorotative_rotor_speed(
        ...     pitch, 70.0, 1.225, 39039.62, 7.5, 0.45, 4, twist, 5.7
        ... )
        >>> round(speed, 3)
        28.519
    """
    rotor = Rotor(
        radius, chord, blades, 1.0, twist, lift_slope, profile_drag_coefficient, induced_factor
    )
    flight = Condition(airspeed, density)
    found = speed_of_autorotation(rotor, flight, rotor_lift, collective)
    return None if found is None else found.rotor_speed


def autorotative_speed(
    rotor: Rotor, flight: Condition, rotor_lift: float, collective: float
) -> Annotated[float | None, Method("the highest rotor speed with this pitch, by bracketing")]:
    """Return the highest rotor speed at which a pitch autorotates, or None."""

    def excess(rotor_speed: float) -> float:
        state = state_at(rotor, flight, rotor_lift, rotor_speed)
        return math.nan if state is None else state.collective - collective

    before = math.nan
    faster = math.nan
    for speed in _speeds(rotor, flight):
        here = excess(speed)
        if before < 0.0 <= here:
            return crossing(excess, speed, faster)
        if math.isnan(before) and here >= 0.0:
            return None
        before, faster = here, speed
    return None


def vertical_descent_speed(
    mass: Annotated[float, MASS],
    radius: Annotated[float, RADIUS],
    density: Annotated[float, DENSITY],
    drag_coefficient: Annotated[float, DRAG_COEFFICIENT] = 1.25,
) -> Annotated[float, DESCENT_SPEED]:
    r"""Return the speed of a vertical descent in autorotation, the disc taken as a parachute.

    $$ V_d = \sqrt{\frac{2 m g}{C_R \rho \pi R^2}} $$

    Args:
        mass: Mass of the rotorcraft; scalar, kg.
        radius: Shaft axis to blade tip; scalar, m.
        density: Density of the air; scalar, kg/m³.
        drag_coefficient: Force over dynamic pressure of the descent and disc area; scalar.

    Returns:
        The speed of descent; scalar, m/s.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        A resultant-force coefficient of 1.25 on the disc area: a textbook chapter on autogiros,
        after Harris (2003), read at second hand.

    Examples:
        >>> hover = math.sqrt(3000.0 * 9.80665 / (2.0 * 1.225 * math.pi * 5.0**2))
        >>> round(vertical_descent_speed(3000.0, 5.0, 1.225) / hover, 4)
        1.7889
    """
    MASS.check(mass)
    RADIUS.check(radius)
    DENSITY.check(density)
    DRAG_COEFFICIENT.check(drag_coefficient)
    disc_area = math.pi * radius**2
    return math.sqrt(2.0 * mass * STANDARD_GRAVITY / (drag_coefficient * density * disc_area))


def autorotation_chart(
    rotor: Rotor, flight: Condition, rotor_lift: float, found: Autorotation | None
) -> Chart:
    """Return collective pitch against rotor speed in autorotation, with the speed asked for."""
    point = [] if found is None else [(rotor.rotor_speed, found.collective)]
    return _chart(rotor, flight, rotor_lift, point)


def rotor_speed_chart(
    rotor: Rotor,
    flight: Condition,
    rotor_lift: float,
    collective: float,
    found: AutorotativeSpeed | None,
) -> Chart:
    """Return collective pitch against rotor speed in autorotation, with the pitch asked for."""
    point = [] if found is None else [(found.rotor_speed, collective)]
    return _chart(rotor, flight, rotor_lift, point, Rule(collective, "y", "pitch asked for"))


def _chart(
    rotor: Rotor,
    flight: Condition,
    rotor_lift: float,
    point: list[tuple[float, float]],
    *rules: Rule,
) -> Chart:
    states = [
        (speed, state)
        for speed in _speeds(rotor, flight)
        if (state := state_at(rotor, flight, rotor_lift, speed)) is not None
        and state.collective < MOST_PITCH
    ]
    return Chart(
        title="Collective pitch in autorotation against rotor speed",
        description="A line of the collective pitch at which the rotor needs no torque: the less "
        "pitch, the higher the rotor speed. Points are left out where the disc cannot autorotate.",
        x=Axis.of(ROTOR_SPEED),
        y=Axis.of(COLLECTIVE),
        marks=(
            Line([(speed, state.collective) for speed, state in states], "no torque", 1),
            *rules,
            Points(point, "this rotor" if point else "", 2),
        ),
    )


def _speeds(rotor: Rotor, flight: Condition) -> list[float]:
    """Return rotor speeds from the highest down, at advance ratios that rise evenly."""
    ratios = [FASTEST + (SLOWEST - FASTEST) * step / SAMPLES for step in range(SAMPLES + 1)]
    return [flight.airspeed / (ratio * rotor.radius) for ratio in ratios]


def state_at(
    rotor: Rotor, flight: Condition, rotor_lift: float, rotor_speed: float
) -> Annotated[Autorotation | None, Method("autorotation at this rotor speed")]:
    """Return the state of the rotor at a rotor speed without shaft torque, or None."""
    return autorotation_of_rotor(replace(rotor, rotor_speed=rotor_speed), flight, rotor_lift)
