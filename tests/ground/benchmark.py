"""Aircraft of published work, random aircraft, and individual blades integrated by scipy.

Hammond (1974): the classic rotor with one lag damper inoperative.  The values in pounds and slugs
are from memory; the metric ones were read in the data file of a university thesis that names that
paper.  The two agree to rounding.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp
from scipy.linalg import block_diag

from calc.ground.benchmark import BENCHMARK_ROTOR, BENCHMARK_SUPPORT
from calc.ground.modal_support import SupportMode
from calc.ground.model.aircraft import Hub, Rotor, Support
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

Rate = Callable[[float, NDArray[Any]], NDArray[Any]]

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
HAMMOND_METRIC_ROTOR = BENCHMARK_ROTOR
HAMMOND_METRIC_SUPPORT = BENCHMARK_SUPPORT
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
    """Return the growth rates of individual blades on a hub in two directions, highest first."""
    springs = [rotor.lag_stiffness] * rotor.blades if lag_stiffnesses is None else lag_stiffnesses
    matrices = (
        np.diag([support.mass_x, support.mass_y]),
        np.diag([support.damping_x, support.damping_y]),
        np.diag([support.stiffness_x, support.stiffness_y]),
        np.eye(2),
    )
    rate = individual_blades(rotor, matrices, rotor_speed, lag_dampings, springs)
    return exponents(rate, 2 * rotor.blades + 4, rotor_speed)


def floquet_on_modes(
    rotor: Rotor, modes: Sequence[SupportMode], rotor_speed: float, lag_dampings: Sequence[float]
) -> NDArray[Any]:
    """Return the growth rates of individual blades on support modes, highest first."""
    rate = blades_on_modes(rotor, modes, rotor_speed, lag_dampings)
    return exponents(rate, 2 * (rotor.blades + len(modes)), rotor_speed)


def blades_on_modes(
    rotor: Rotor, modes: Sequence[SupportMode], rotor_speed: float, lag_dampings: Sequence[float]
) -> Rate:
    """Return the equations of motion of individual blades on support modes."""
    mass = np.array([mode.modal_mass for mode in modes])
    pulse = 2.0 * math.pi * np.array([mode.frequency for mode in modes])
    ratio = np.array([mode.damping_ratio for mode in modes])
    shapes = np.array([[mode.shape_x, mode.shape_y] for mode in modes]).T
    matrices = (
        np.diag(mass),
        np.diag(2.0 * ratio * mass * pulse),
        np.diag(mass * pulse**2),
        shapes,
    )
    springs = [rotor.lag_stiffness] * rotor.blades
    return individual_blades(rotor, matrices, rotor_speed, lag_dampings, springs)


def individual_blades(
    rotor: Rotor,
    support: tuple[NDArray[Any], NDArray[Any], NDArray[Any], NDArray[Any]],
    rotor_speed: float,
    lag_dampings: Sequence[float],
    lag_stiffnesses: Sequence[float],
) -> Rate:
    """Return the rate of change of states, as columns, from the motion of each blade.

    The equations are Newton's for each blade about its hinge and Lagrange's for the support, whose
    mass is without the blades, for small angles.  `support` is mass, damping and stiffness of its
    coordinates, and the motion of the hub in x and y for a unit of each, as rows.
    """
    count, shapes = rotor.blades, support[3]
    moment = rotor.first_moment
    lumped = support[0] + count * rotor.blade_mass * shapes.T @ shapes
    mass = block_diag(rotor.lag_inertia * np.eye(count), lumped)
    damping = block_diag(np.diag(lag_dampings), support[1])
    centrifugal = rotor.hinge_offset * moment * rotor_speed**2
    stiffness = block_diag(np.diag(np.array(lag_stiffnesses) + centrifugal), support[2])
    size = len(mass)

    def rate(time: float, state: NDArray[Any]) -> NDArray[Any]:
        azimuths = rotor_speed * time + 2.0 * math.pi * np.arange(count) / count
        across = np.array([-np.sin(azimuths), np.cos(azimuths)])
        along = np.array([across[1], -across[0]])
        m, c, k = mass.copy(), damping.copy(), stiffness.copy()
        m[:count, count:], m[count:, :count] = (
            moment * across.T @ shapes,
            moment * shapes.T @ across,
        )
        c[count:, :count] -= 2.0 * moment * rotor_speed * shapes.T @ along
        k[count:, :count] -= moment * rotor_speed**2 * shapes.T @ across
        position, velocity = np.split(state.reshape(2 * size, -1), 2)
        acceleration = -np.linalg.solve(m, c @ velocity + k @ position)
        return np.concatenate([velocity, acceleration]).ravel()

    return rate


def exponents(rate: Rate, size: int, rotor_speed: float) -> NDArray[Any]:
    """Return the growth rates over one revolution by scipy, highest first."""
    period = 2.0 * math.pi / rotor_speed
    start = np.eye(size).ravel()
    end = solve_ivp(rate, (0.0, period), start, "DOP853", rtol=1e-11, atol=1e-12).y[:, -1]
    multipliers = np.linalg.eigvals(end.reshape(size, size))
    found: NDArray[Any] = np.sort(np.log(np.abs(multipliers)) / period)[::-1]
    return found
