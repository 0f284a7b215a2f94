"""Aircraft of published work, random aircraft, and individual blades integrated by scipy.

Hammond (1974): the classic rotor with one lag damper inoperative.  The values in pounds and slugs
are from memory; the metric ones were read in the data file of a university thesis that names that
paper.  The two agree to rounding.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from calc.ground.aircraft import Hub, Rotor, Support
from calc.units import (
    FOOT,
    FOOT_POUND_SECOND_PER_RADIAN,
    POUND_PER_FOOT,
    POUND_SECOND_PER_FOOT,
    RPM,
    SLUG,
    SLUG_FOOT,
    SLUG_SQUARE_FOOT,
)

HAMMOND_ROTOR = Rotor(
    blades=4,
    blade_mass=SLUG.si(6.5),
    first_moment=SLUG_FOOT.si(65.0),
    lag_inertia=SLUG_SQUARE_FOOT.si(800.0),
    hinge_offset=FOOT.si(1.0),
    lag_stiffness=0.0,
    lag_damping=FOOT_POUND_SECOND_PER_RADIAN.si(3000.0),
)
HAMMOND_HUB = Hub(
    mass_x=SLUG.si(550.0),
    mass_y=SLUG.si(225.0),
    stiffness_x=POUND_PER_FOOT.si(85000.0),
    stiffness_y=POUND_PER_FOOT.si(85000.0),
    damping_x=POUND_SECOND_PER_FOOT.si(3500.0),
    damping_y=POUND_SECOND_PER_FOOT.si(1750.0),
)
HAMMOND_SUPPORT = HAMMOND_HUB.support(HAMMOND_ROTOR)
HAMMOND_METRIC_ROTOR = Rotor(4, 94.9, 289.1, 1084.7, 0.3048, 0.0, 4067.5)
HAMMOND_METRIC_SUPPORT = Support(8026.6, 3283.6, 1240481.8, 1240481.8, 51078.7, 51078.7 / 2.0)
ONE_OUT = (0.0, *(HAMMOND_ROTOR.lag_damping,) * 3)

TWO_BLADES = Rotor(2, 30.0, 70.0, 230.0, 0.2, 0.0, 0.0)
TWO_BLADE_SUPPORT = Support(900.0, 900.0, 2e5, 2e5, 0.0, 0.0)


def alike_in(direction: str, support: Support) -> Support:
    """Return a support that is in both directions as it is in one."""
    mass, stiffness, damping = (
        getattr(support, f"{name}_{direction}") for name in ("mass", "stiffness", "damping")
    )
    return Support(mass, mass, stiffness, stiffness, damping, damping)


def undamped(rotor: Rotor, support: Support) -> tuple[Rotor, Support]:
    """Return an aircraft without any damper."""
    return replace(rotor, lag_damping=0.0), replace(support, damping_x=0.0, damping_y=0.0)


def in_rpm(bands: Sequence[tuple[float, float]]) -> list[float]:
    """Return the edges of bands in revolutions per minute."""
    return [RPM.reading(edge) for band in bands for edge in band]


def random_aircraft(seed: int) -> tuple[Rotor, Support, float]:
    """Return an aircraft of random size and a rotor speed near its coalescence."""
    draw = np.random.default_rng(seed)
    blades = int(draw.integers(3, 8))
    length, mass = draw.uniform(3.0, 9.0), draw.uniform(20.0, 150.0)
    moment, inertia = 0.5 * mass * length, mass * length**2 / 3.0
    offset = draw.uniform(0.02, 0.12) * length
    frequency = draw.uniform(0.15, 0.9)
    hub = blades * mass * draw.uniform(2.0, 10.0, 2)
    support_frequency = draw.uniform(8.0, 25.0, 2)
    total = hub + blades * mass
    damping = 2.0 * draw.uniform(0.01, 0.15, 2) * total * support_frequency
    speed = draw.uniform(0.7, 1.8) * support_frequency[1]
    rotor = Rotor(
        blades,
        mass,
        moment,
        inertia,
        offset,
        draw.uniform(0.0, 0.2) * inertia * speed**2,
        2.0 * draw.uniform(0.02, 0.5) * inertia * frequency * speed,
    )
    support = Support(*hub, *(total * support_frequency**2), *damping)
    return rotor, support, speed


def floquet(
    rotor: Rotor,
    support: Support,
    rotor_speed: float,
    lag_dampings: Sequence[float],
    lag_stiffnesses: Sequence[float] | None = None,
) -> NDArray[Any]:
    """Return the growth rates of individual blades, highest first, by scipy over one revolution.

    The equations are Newton's for each blade about its hinge and for the hub, small angles.
    """
    count = rotor.blades
    springs = [rotor.lag_stiffness] * count if lag_stiffnesses is None else lag_stiffnesses
    moment = rotor.first_moment
    total = np.array([support.mass_x, support.mass_y]) + count * rotor.blade_mass
    mass = np.diag([*[rotor.lag_inertia] * count, *total])
    damping = np.diag([*lag_dampings, support.damping_x, support.damping_y])
    centrifugal = rotor.hinge_offset * moment * rotor_speed**2
    stiffness = np.diag(
        [*(spring + centrifugal for spring in springs), support.stiffness_x, support.stiffness_y]
    )
    size = count + 2

    def rate(time: float, state: NDArray[Any]) -> NDArray[Any]:
        azimuths = rotor_speed * time + 2.0 * math.pi * np.arange(count) / count
        across = np.array([-np.sin(azimuths), np.cos(azimuths)])
        m, c, k = mass.copy(), damping.copy(), stiffness.copy()
        m[:count, count:], m[count:, :count] = moment * across.T, moment * across
        c[count:, :count] -= 2.0 * moment * rotor_speed * np.array([across[1], -across[0]])
        k[count:, :count] -= moment * rotor_speed**2 * across
        position, velocity = np.split(state.reshape(2 * size, -1), 2)
        acceleration = -np.linalg.solve(m, c @ velocity + k @ position)
        return np.concatenate([velocity, acceleration]).ravel()

    period = 2.0 * math.pi / rotor_speed
    start = np.eye(2 * size).ravel()
    end = solve_ivp(rate, (0.0, period), start, "DOP853", rtol=1e-11, atol=1e-12).y[:, -1]
    multipliers = np.linalg.eigvals(end.reshape(2 * size, 2 * size))
    found: NDArray[Any] = np.sort(np.log(np.abs(multipliers)) / period)[::-1]
    return found
