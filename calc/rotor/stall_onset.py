"""Stall onset: the airspeed at which the retreating blade reaches its limiting angle."""

import math
from dataclasses import dataclass
from typing import Annotated, Any

from calc.chart import Axis, Chart, Line, Rule
from calc.declaration import Name, Nothing
from calc.quantity import LimitError, Quantity
from calc.roots import first_root
from calc.rotor.advance_ratio import advance_ratio
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.blade_loading import blade_loading, solidity
from calc.rotor.inflow import ONE_SOLUTION
from calc.rotor.level_flight import rotor_force
from calc.rotor.quantities import (
    ADVANCING_TIP_MACH,
    AIRSPEED,
    BLADE_LOADING,
    BLADES,
    CHORD,
    DRAG_AREA,
    LIFT_SLOPE_OF_BLADE,
    LOAD_FACTOR,
    MASS_OF_ROTORCRAFT,
    PRESSURE_ALTITUDE,
    PROPELLER_THRUST_SHARE,
    RADIUS,
    ROTOR_SPEED,
    TEMPERATURE_OFFSET,
    TWIST,
    WING_LIFT_SHARE,
)
from calc.rotor.retreating_tip import (
    BELOW_ONE,
    INBOARD_ANGLE,
    PITCH_FAILS,
    SMALL_INCIDENCE,
    TIP_ANGLE,
    RetreatingTip,
    retreating_tip,
)
from calc.rotor.tip_speed import advancing_tip_mach, tip_speed
from calc.units import ANGLE, DEGREE

__all__ = ["RetreatingTip", "StallOnset", "retreating_tip", "stall_onset_airspeed", "stall_state"]

STEPS = 200
"""Airspeeds at which the search for the onset looks at the angle."""

BESIDE = 1e-9
"""How close to the airspeed at which collective pitch fails the search looks, as a share of it."""

NEARLY_ONE = 1.0 - 1e-9
"""Advance ratio at which the search ends: at 1 the air stands still at the retreating tip."""

ANGLE_LIMIT = Quantity(
    r"\alpha_{lim}",
    "Limit of the angle of attack",
    ANGLE,
    above=0.0,
    below=math.pi / 2,
    covered=(math.radians(12.0), math.radians(16.0)),
    covered_by="12 deg marks the onset, 16 deg heavy stall, for the sections of the 1940s",
    example=math.radians(12.0),
)
STATION = Name("Where the angle is larger")


@dataclass(frozen=True, slots=True)
class StallOnset:
    """The retreating blade in level flight; `governing` is where its angle is the larger."""

    airspeed: Annotated[float, AIRSPEED]
    advance_ratio: Annotated[float, BELOW_ONE]
    blade_loading: Annotated[float, BLADE_LOADING]
    tip_angle: Annotated[float, TIP_ANGLE]
    inboard_angle: Annotated[float, INBOARD_ANGLE]
    advancing_tip_mach: Annotated[float, ADVANCING_TIP_MACH]
    disc_incidence: Annotated[float, SMALL_INCIDENCE]
    governing: Annotated[str, STATION]


def stall_state(
    airspeed: Annotated[float, AIRSPEED],
    mass: Annotated[float, MASS_OF_ROTORCRAFT],
    radius: Annotated[float, RADIUS],
    chord: Annotated[float, CHORD],
    blades: Annotated[int, BLADES],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    twist: Annotated[float, TWIST],
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE],
    drag_area: Annotated[float, DRAG_AREA],
    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE] = 0.0,
    temperature_offset: Annotated[float, TEMPERATURE_OFFSET] = 0.0,
    load_factor: Annotated[float, LOAD_FACTOR] = 1.0,
    wing_lift_share: Annotated[float, WING_LIFT_SHARE] = 0.0,
    propeller_thrust_share: Annotated[float, PROPELLER_THRUST_SHARE] = 0.0,
) -> StallOnset:
    r"""Return the angles of attack of the retreating blade in level flight at an airspeed.

    $$ \mu = \frac{V \cos \alpha}{V_t}, \qquad \frac{C_T}{\sigma} = \frac{T}{\rho N_b c R V_t^2} $$

    The rotor gives the force of `rotor_force`; the angles are those of `retreating_tip`.

    Args:
        airspeed: True airspeed; scalar, m/s.
        mass: Mass of the rotorcraft; scalar, kg.
        radius: Shaft axis to blade tip; scalar, m.
        chord: Chord of one blade; scalar, m.
        blades: Number of blades of the rotor; scalar.
        rotor_speed: Angular speed of the rotor's own shaft; scalar, rad/s.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.
        drag_area: Drag of everything but the rotor over the dynamic pressure; scalar, m².
        pressure_altitude: Altimeter reading with 1013.25 hPa set; scalar, m.
        temperature_offset: Air temperature minus the standard one at that altitude; scalar, K.
        load_factor: Lift over weight: 1 in level flight, more in a turn; scalar.
        wing_lift_share: Share of the lift carried by a wing; scalar.
        propeller_thrust_share: Share of the drag overcome by propellers; scalar.

    Returns:
        The state of the retreating blade, with the airspeed repeated.

    Raises:
        ValueError: If an argument breaks its limits, or the advance ratio is not below 1.

    Source:
        Gustafson and Myers (1946), NACA Report 840: the angle as a measure of stall.

    Examples:
        >>> state = stall_state(70.0, 5500.0, 7.0, 0.42, 4, 31.4, math.radians(-8), 5.7, 1.8)
        >>> state.governing, round(math.degrees(state.tip_angle), 2)
        ('tip', 10.2)
    """
    air = standard_atmosphere(pressure_altitude, temperature_offset)
    force = rotor_force(
        mass,
        airspeed,
        air.density,
        drag_area,
        load_factor,
        wing_lift_share,
        propeller_thrust_share,
    )
    speed = tip_speed(radius, rotor_speed)
    ratio = advance_ratio(airspeed, speed, force.disc_incidence)
    loading = blade_loading(force.thrust, air.density, blades, chord, radius, speed)
    blade = retreating_tip(
        ratio, loading, solidity(blades, chord, radius), force.disc_incidence, twist, lift_slope
    )
    mach = advancing_tip_mach(speed, airspeed, air.speed_of_sound, force.disc_incidence)
    return StallOnset(
        airspeed=airspeed,
        advance_ratio=ratio,
        blade_loading=loading,
        tip_angle=blade.tip_angle,
        inboard_angle=blade.inboard_angle,
        advancing_tip_mach=mach,
        disc_incidence=force.disc_incidence,
        governing="tip" if blade.tip_angle >= blade.inboard_angle else "inboard station",
    )


def stall_onset_airspeed(
    mass: Annotated[float, MASS_OF_ROTORCRAFT],
    radius: Annotated[float, RADIUS],
    chord: Annotated[float, CHORD],
    blades: Annotated[int, BLADES],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    twist: Annotated[float, TWIST],
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE],
    drag_area: Annotated[float, DRAG_AREA],
    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE] = 0.0,
    temperature_offset: Annotated[float, TEMPERATURE_OFFSET] = 0.0,
    load_factor: Annotated[float, LOAD_FACTOR] = 1.0,
    wing_lift_share: Annotated[float, WING_LIFT_SHARE] = 0.0,
    propeller_thrust_share: Annotated[float, PROPELLER_THRUST_SHARE] = 0.0,
    angle_limit: Annotated[float, ANGLE_LIMIT] = math.radians(12.0),
) -> Annotated[
    StallOnset | None,
    Nothing("No airspeed up to an advance ratio of 1 meets the limit"),
]:
    r"""Return the lowest airspeed at which the retreating blade reaches its limiting angle.

    $$ \max(\alpha_{1,270}, \alpha_{0.4,270}) = \alpha_{lim} $$

    The limit is met when the larger of the two angles reaches it, at the tip or at the inboard
    station: at the tip alone, stall near the hub of a lightly powered rotor would go unseen.
    If hover meets it already, the airspeed is zero.  The search ends at an advance ratio of 1 or,
    where the tilt of the disc keeps that out of reach, at an airspeed equal to the tip speed.
    At an advance ratio of 0.853 collective pitch stops changing the thrust, and the angle may jump
    through infinity; such a jump does not count as meeting the limit.

    Args:
        mass: Mass of the rotorcraft; scalar, kg.
        radius: Shaft axis to blade tip; scalar, m.
        chord: Chord of one blade; scalar, m.
        blades: Number of blades of the rotor; scalar.
        rotor_speed: Angular speed of the rotor's own shaft; scalar, rad/s.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.
        drag_area: Drag of everything but the rotor over the dynamic pressure; scalar, m².
        pressure_altitude: Altimeter reading with 1013.25 hPa set; scalar, m.
        temperature_offset: Air temperature minus the standard one at that altitude; scalar, K.
        load_factor: Lift over weight: 1 in level flight, more in a turn; scalar.
        wing_lift_share: Share of the lift carried by a wing; scalar.
        propeller_thrust_share: Share of the drag overcome by propellers; scalar.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.

    Returns:
        The state of the retreating blade at that airspeed, or None if no airspeed meets the limit.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Gustafson and Myers (1946), NACA Report 840: the angle as a measure of stall; 12 deg and
        16 deg from memory.

    Examples:
        >>> onset = stall_onset_airspeed(5500.0, 7.0, 0.42, 4, 31.4, math.radians(-8), 5.7, 1.8)
        >>> onset and round(onset.airspeed, 1)
        78.3
    """
    ANGLE_LIMIT.check(angle_limit)
    flight = (
        mass,
        radius,
        chord,
        blades,
        rotor_speed,
        twist,
        lift_slope,
        drag_area,
        pressure_altitude,
        temperature_offset,
        load_factor,
        wing_lift_share,
        propeller_thrust_share,
    )

    def excess(airspeed: float) -> float:
        try:
            state = stall_state(airspeed, *flight)
        except ZeroDivisionError:
            return math.inf
        return max(state.tip_angle, state.inboard_angle) - angle_limit

    density = standard_atmosphere(pressure_altitude, temperature_offset).density
    shares = load_factor, wing_lift_share, propeller_thrust_share
    speed = tip_speed(radius, rotor_speed)
    force = rotor_force(mass, speed, density, drag_area, *shares)
    onset = first_root(excess, _airspeeds(speed, force.propulsive_force / force.lift))
    return None if onset is None else stall_state(onset, *flight)


def stall_onset_chart(angle_limit: float = math.radians(12.0), **flight: Any) -> Chart:
    """Return both angles of the retreating blade against airspeed, to beyond the onset."""
    onset = stall_onset_airspeed(**flight, angle_limit=angle_limit)
    speed = tip_speed(flight["radius"], flight["rotor_speed"])
    fastest = max(0.6 * speed, 1.1 * onset.airspeed if onset else 0.0)
    states = [_state_or_none(fastest * step / 60, flight) for step in range(61)]
    known = [state for state in states if state is not None]
    return Chart(
        title="Angles of attack of the retreating blade against airspeed",
        description="Lines of the angle at the tip and at the inboard station, and the limit.",
        x=Axis.of(AIRSPEED, 0.0, fastest),
        y=Axis("Angle of attack at 270 deg", DEGREE, 0.0, 1.5 * angle_limit),
        marks=(
            Line([(s.airspeed, s.tip_angle) for s in known], "tip", 1),
            Line([(s.airspeed, s.inboard_angle) for s in known], "inboard station", 2),
            Rule(angle_limit, "y", "limit"),
        ),
    )


def _state_or_none(airspeed: float, flight: dict[str, Any]) -> StallOnset | None:
    """Return the state of the blade, or None where the advance ratio is 1 or more."""
    try:
        return stall_state(airspeed, **flight)
    except LimitError:
        return None


def _airspeeds(tip_speed: float, tilt: float) -> list[float]:
    """Return airspeeds from hover to an advance ratio of 1, and both sides of where pitch fails.

    `tilt` is the tangent of the disc incidence at an airspeed equal to the tip speed.  Where the
    disc tilts so much that the advance ratio stays below 1, that airspeed is the last, or the one
    at which the disc is tilted back so far that the inflow has no single answer.
    """
    end, *_ = [*_airspeeds_at(NEARLY_ONE, tip_speed, tilt), NEARLY_ONE * tip_speed]
    if tilt < 0.0:
        end = min(end, NEARLY_ONE * tip_speed * math.sqrt(-math.tan(ONE_SOLUTION) / tilt))
    poles = _airspeeds_at(PITCH_FAILS, tip_speed, tilt)
    sides = [pole * side for pole in poles for side in (1.0 - BESIDE, 1.0 + BESIDE)]
    even = [end * step / STEPS for step in range(STEPS + 1)]
    return sorted([*even, *(side for side in sides if side < end)])


def _airspeeds_at(advance_ratio: float, tip_speed: float, tilt: float) -> list[float]:
    r"""Return the airspeeds with an advance ratio, of which a tilted disc has two or none.

    $$ \mu = \frac{v}{\sqrt{1 + t^2 v^4}}, \qquad v = V / V_t $$
    """
    discriminant = 1.0 - (2.0 * tilt * advance_ratio**2) ** 2
    if discriminant < 0.0:
        return []
    slower = advance_ratio * math.sqrt(2.0 / (1.0 + math.sqrt(discriminant)))
    faster = [1.0 / (abs(tilt) * slower)] if tilt else []
    return [tip_speed * ratio for ratio in (slower, *faster)]
