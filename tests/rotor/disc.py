"""A rotor in level flight put together once more, by integration over its disc with scipy.

Nothing of `calc` is used: the air comes from `ambiance`, the inflow from a bracketing root finder,
and pitch and cyclic from the lift of blade elements summed over the disc in the tip-path plane.
"""

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from ambiance import Atmosphere
from scipy.optimize import brentq
from scipy.special import roots_legendre

from calc.rotor.rotorcraft import Flight, Rotorcraft

GRAVITY = 9.80665
NODES, WEIGHTS = roots_legendre(16)


@dataclass(frozen=True)
class Blade:
    """The retreating blade: angles of attack in rad, and what they come from."""

    tip: float
    inboard: float
    advance_ratio: float
    blade_loading: float
    incidence: float
    mach: float
    inflow: float


def elements(advance_ratio: float) -> Any:
    """Return azimuth, station, tangential speed and weight of elements that cover the disc.

    Both half-turns are split where the reverse flow begins, so that Gauss's rule sees no corner.
    """
    half = 0.5 * math.pi * (NODES + 1.0)
    azimuth = np.concatenate([half, math.pi + half])[:, None, None]
    edge = np.clip(-advance_ratio * np.sin(azimuth), 0.0, 1.0)
    low = np.concatenate([0.0 * edge, edge], axis=1)
    span = np.concatenate([edge, 1.0 - edge], axis=1)
    station = low + 0.5 * span * (NODES + 1.0)
    around = np.concatenate([WEIGHTS, WEIGHTS])[:, None, None]
    size = 0.25 * around * 0.5 * span * WEIGHTS
    azimuth = azimuth + 0.0 * station
    speed = station + advance_ratio * np.sin(azimuth)
    return [part.ravel() for part in (azimuth, station, speed, size)]


def retreating_blade(craft: Rotorcraft, flight: Flight, airspeed: float) -> Blade:
    """Return the retreating blade of a rotorcraft in level flight at an airspeed."""
    height = flight.pressure_altitude * 6356766.0 / (6356766.0 - flight.pressure_altitude)
    air = Atmosphere(height)
    temperature = float(air.temperature[0]) + flight.temperature_offset
    density = float(air.pressure[0]) / (287.05287 * temperature)
    sound = math.sqrt(1.4 * 287.05287 * temperature)

    weight = flight.load_factor * craft.mass * GRAVITY
    lift = weight * (1.0 - flight.wing_lift_share)
    drag = 0.5 * density * airspeed**2 * craft.drag_area
    forward = drag * (1.0 - flight.propeller_thrust_share)
    thrust, incidence = math.hypot(lift, forward), math.atan2(forward, lift)

    tip, area = craft.rotor_speed * craft.radius, math.pi * craft.radius**2
    along, through = airspeed * math.cos(incidence), airspeed * math.sin(incidence)

    def momentum(induced: float) -> float:
        return 2.0 * density * area * induced * math.hypot(along, through + induced) - thrust

    induced = brentq(momentum, 0.0, abs(through) + 2.0 * math.sqrt(thrust / density / area))
    mu, inflow = along / tip, (through + induced) / tip

    azimuth, station, speed, size = elements(mu)
    front = np.sign(speed)
    # lift of an element per unit of collective, twist, cyclic (sin) and inflow
    per_pitch = front * speed**2
    parts = [per_pitch, station * per_pitch, np.sin(azimuth) * per_pitch, -front * speed]
    total = [float(size @ part) for part in parts]
    roll = [float(size @ (station * np.sin(azimuth) * part)) for part in parts]
    blade_area = craft.blades * craft.chord * craft.radius
    loading = thrust / (density * blade_area * tip**2)
    collective, cyclic = np.linalg.solve(
        [[total[0], total[2]], [roll[0], roll[2]]],
        [
            2.0 * loading / craft.lift_slope - craft.twist * total[1] - inflow * total[3],
            -craft.twist * roll[1] - inflow * roll[3],
        ],
    )

    def angle(x: float) -> float:
        return float(collective + craft.twist * x - cyclic - inflow / (x - mu))

    mach = (tip + along) / sound
    return Blade(angle(1.0), angle(min(1.0, mu + 0.4)), mu, loading, incidence, mach, inflow)


def onset(craft: Rotorcraft, flight: Flight, station: str, limit: float) -> float | None:
    """Return the lowest airspeed at which a station meets the limit, by a fine sweep.

    The sweep ends short of an advance ratio of 1.  A jump of more than half a turn between two
    neighbours is the place where collective pitch fails, not an onset.
    """
    tip = craft.rotor_speed * craft.radius

    def excess(airspeed: float) -> float:
        blade = retreating_blade(craft, flight, airspeed)
        return (blade.tip if station == "tip" else blade.inboard) - limit

    last = 0.0
    if excess(last) >= 0.0:
        return last
    before = excess(last)
    for airspeed in np.linspace(0.0, 0.999 * tip, 250)[1:]:
        here = excess(airspeed)
        if before < 0.0 <= here and here - before < math.pi:
            return float(brentq(excess, last, airspeed, rtol=1e-13))
        last, before = airspeed, here
    return None
