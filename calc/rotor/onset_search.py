"""Onset search: the lowest airspeed at which a station of the retreating blade meets the limit."""

import math
from collections.abc import Callable
from functools import cache, lru_cache
from typing import Annotated

from calc.declaration import Method
from calc.numeric.roots import first_root
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.inflow import ONE_SOLUTION
from calc.rotor.level_flight import rotor_force
from calc.rotor.retreating_tip import PITCH_FAILS
from calc.rotor.rotorcraft import Flight, Rotorcraft
from calc.rotor.stall_state import stall_state
from calc.rotor.tip_speed import tip_speed

STEPS = 200
"""Airspeeds at which the search for the onset looks at the angle."""

BESIDE = 1e-9
"""How close to the airspeed at which collective pitch fails the search looks, as a fraction."""

NEARLY_ONE = 1.0 - 1e-9
"""Advance ratio at which the search ends: at 1 the air stands still at the retreating tip."""


def onset_airspeed(
    rotorcraft: Rotorcraft, flight: Flight, station: str, angle_limit: float
) -> Annotated[float | None, Method("the lowest airspeed at the limit, by narrowing an interval")]:
    """Return the lowest airspeed at which a station meets the limit.

    If hover meets it already, the airspeed is zero.  The search ends at an advance ratio of 1 or,
    where the tilt of the disc keeps that out of reach, at an airspeed equal to the tip speed.
    At an advance ratio of 0.853 collective pitch stops changing the thrust, and the angle may jump
    through infinity; such a jump does not count as meeting the limit.
    """
    angles, airspeeds = _search(rotorcraft, flight)
    number = 0 if station == "tip" else 1
    return first_root(lambda airspeed: angles(airspeed)[number] - angle_limit, airspeeds)


@lru_cache(maxsize=16)
def _search(
    rotorcraft: Rotorcraft, flight: Flight
) -> tuple[Callable[[float], tuple[float, float]], list[float]]:
    """Return the angles at both stations as a function of airspeed, each kept, and airspeeds."""

    @cache
    def angles(airspeed: float) -> tuple[float, float]:
        try:
            state = stall_state(rotorcraft, flight, airspeed)
        except ZeroDivisionError:
            return math.inf, math.inf
        return state.tip_angle, state.inboard_angle

    return angles, searched_airspeeds(rotorcraft, flight)


def searched_airspeeds(rotorcraft: Rotorcraft, flight: Flight) -> list[float]:
    """Return airspeeds from hover to an advance ratio of 1, and both sides of where pitch fails.

    Where the disc tilts so much that the advance ratio stays below 1, the last is the tip speed,
    or the airspeed at which the disc is tilted back so far that the inflow has no single answer.
    """
    speed = tip_speed(rotorcraft.radius, rotorcraft.rotor_speed)
    density = standard_atmosphere(flight.pressure_altitude, flight.temperature_offset).density
    force = rotor_force(
        rotorcraft.mass,
        speed,
        density,
        rotorcraft.drag_area,
        flight.load_factor,
        flight.wing_lift_share,
        flight.propeller_thrust_share,
    )
    tilt = force.propulsive_force / force.lift
    end, *_ = [*airspeeds_at(NEARLY_ONE, speed, tilt), NEARLY_ONE * speed]
    if tilt < 0.0:
        end = min(end, NEARLY_ONE * speed * math.sqrt(-math.tan(ONE_SOLUTION) / tilt))
    poles = airspeeds_at(PITCH_FAILS, speed, tilt)
    sides = [pole * (1.0 + offset) for pole in poles for offset in (-BESIDE, BESIDE)]
    even = [end * step / STEPS for step in range(STEPS + 1)]
    return sorted([*even, *(side for side in sides if side < end)])


def airspeeds_at(advance_ratio: float, tip_speed: float, tilt: float) -> list[float]:
    r"""Return the airspeeds with an advance ratio, of which a tilted disc has two or none.

    `tilt` is the tangent of the disc incidence at an airspeed equal to the tip speed.

    $$ \mu = \frac{v}{\sqrt{1 + t^2 v^4}}, \qquad v = V / V_t $$
    """
    discriminant = 1.0 - (2.0 * tilt * advance_ratio**2) ** 2
    if discriminant < 0.0:
        return []
    slower = advance_ratio * math.sqrt(2.0 / (1.0 + math.sqrt(discriminant)))
    reciprocal = abs(tilt) * slower
    faster = [1.0 / reciprocal] if reciprocal else []
    return [tip_speed * ratio for ratio in (slower, *faster)]
