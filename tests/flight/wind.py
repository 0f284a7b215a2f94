"""A rotor in a wind once more, by blade elements summed over its disc and roots found with SciPy.

Nothing of `calc` is used but the records: profile drag along the local wind and pitch from the
lift of elements come from sums, the tilt from a balance of forces, the power from the torque.
"""

import math
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from calc.flight.craft import Rotor
from tests.rotor.disc import elements


@dataclass(frozen=True)
class Wind:
    """What a rotor does in a wind: angles in rad, power in W, torque in N·m."""

    incidence: float
    power: float
    torque: float
    thrust: float
    collective: float
    tip: float
    inboard: float
    advance_ratio: float
    blade_loading: float
    profile_power: float
    induced_power: float


def profile(mu: float) -> tuple[float, float]:
    """Return the factors of torque and in-plane drag, summed over elements of the disc."""
    azimuth, station, along, size = elements(mu)
    across = mu * np.cos(azimuth)
    speed = np.hypot(along, across)
    torque = 4.0 * float(size @ (speed * along * station))
    drag = 4.0 * float(size @ (speed * (along * np.sin(azimuth) + across * np.cos(azimuth))))
    return torque, drag


def state(rotor: Rotor, airspeed: float, density: float, lift: float, forward: float) -> Wind:
    """Return the rotor that gives a lift and a forward force, from the forces on its blades."""
    tip, area = rotor.rotor_speed * rotor.radius, math.pi * rotor.radius**2
    blade_area = rotor.blades * rotor.chord * rotor.radius
    scale = rotor.profile_drag_coefficient / 8.0 * density * blade_area * tip**2

    def along(incidence: float) -> float:
        drag = scale * profile(airspeed * math.cos(incidence) / tip)[1]
        return lift * math.sin(incidence) - forward * math.cos(incidence) - drag

    incidence = float(brentq(along, -1.1, 1.4, xtol=1e-14))
    thrust = lift * math.cos(incidence) + forward * math.sin(incidence)
    flow, through = airspeed * math.cos(incidence), airspeed * math.sin(incidence)

    def momentum(induced: float) -> float:
        flux = density * area * math.hypot(flow, through + induced)
        return 2.0 * flux * induced - thrust

    induced = float(brentq(momentum, 0.0, abs(through) + 2.0 * math.sqrt(thrust / density / area)))
    mu = flow / tip
    torque_factor, drag_factor = profile(mu)
    power = thrust * (through + rotor.induced_factor * induced) + scale * tip * torque_factor
    loading = thrust / (density * blade_area * tip**2)
    collective, cyclic = pitch(rotor, mu, (through + induced) / tip, loading)

    def angle(x: float) -> float:
        inflow: float = (through + induced) / tip
        return collective + rotor.twist * x - cyclic - inflow / (x - mu)

    return Wind(
        incidence,
        power,
        power / rotor.rotor_speed,
        thrust,
        collective,
        angle(1.0),
        angle(min(1.0, mu + 0.4)),
        mu,
        loading,
        scale * tip * (torque_factor + mu * drag_factor),
        rotor.induced_factor * thrust * induced,
    )


def pitch(rotor: Rotor, mu: float, inflow: float, loading: float) -> tuple[float, float]:
    """Return collective and longitudinal cyclic from thrust and a rolling moment of zero."""
    azimuth, station, speed, size = elements(mu)
    front = np.sign(speed)
    per_pitch = front * speed**2
    parts = [per_pitch, station * per_pitch, np.sin(azimuth) * per_pitch, -front * speed]
    total = [float(size @ part) for part in parts]
    roll = [float(size @ (station * np.sin(azimuth) * part)) for part in parts]
    collective, cyclic = np.linalg.solve(
        [[total[0], total[2]], [roll[0], roll[2]]],
        [
            2.0 * loading / rotor.lift_slope - rotor.twist * total[1] - inflow * total[3],
            -rotor.twist * roll[1] - inflow * roll[3],
        ],
    )
    return float(collective), float(cyclic)


def free(rotor: Rotor, airspeed: float, density: float, lift: float) -> tuple[float, Wind]:
    """Return the drag at which no torque is left on the shaft, and the rotor there."""

    def power(drag: float) -> float:
        return state(rotor, airspeed, density, lift, -drag).power

    drag = float(brentq(power, 0.0, 0.4 * lift, rtol=1e-13))
    return drag, state(rotor, airspeed, density, lift, -drag)
