"""Motion: large lag and hub motion in time, from the equations of motion without approximation."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from calc.ground.model.aircraft import Rotor, Support, total_masses
from calc.numeric.runge_kutta import all_along, stepped

State = tuple[float, ...]
"""Lag angles, x, y, lag rates, rates of x and y."""


class Parts(NamedTuple):
    """The parts of a state, rad, m and their rates."""

    lags: State
    hub: State
    lag_rates: State
    hub_rates: State


@dataclass(frozen=True, slots=True)
class Power:
    """Energy of the rotor and the hub, and what the drive adds and the dampers take."""

    energy: float
    from_drive: float
    to_dampers: float


def motion(
    rotor: Rotor,
    support: Support,
    rotor_speed: float,
    start: State,
    step: float,
    steps: int,
    lag_dampings: Sequence[float] = (),
) -> list[State]:
    r"""Return the motion in time from a start, by the classical fourth-order Runge-Kutta method.

    $$ I_\xi \ddot{\xi}_k + C_{\xi,k} \dot{\xi}_k + K_\xi \xi_k
    + e S_\xi \Omega^2 \sin\xi_k
    + S_\xi (\ddot{y} \cos\theta_k - \ddot{x} \sin\theta_k) = 0, \qquad
    \theta_k = \psi_k + \xi_k $$
    $$ \bar{M}_x \ddot{x} + C_x \dot{x} + K_x x
    = S_\xi \sum_k (\ddot{\xi}_k \sin\theta_k + \dot{\theta}_k^2 \cos\theta_k), \qquad
    \bar{M}_y \ddot{y} + C_y \dot{y} + K_y y
    = S_\xi \sum_k (\dot{\theta}_k^2 \sin\theta_k - \ddot{\xi}_k \cos\theta_k) $$

    Any lag angle; the rest as in the linear equations: rigid blades, constant rotor speed, no
    aerodynamics, no stops.

    Args:
        rotor: Two or more blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        start: Lag angles, x, y, lag rates, rates of x and y at azimuth zero.
        step: Time step; scalar, s.
        steps: Number of steps; scalar.
        lag_dampings: Lag damper of each blade, that of the rotor if left out; shape (N_b,).

    Returns:
        The states, that of the start first; shape (steps + 1, 2 N_b + 4).

    Source:
        Newton's equations of rigid bodies; derived here.
    """
    dampings = tuple(lag_dampings) or (rotor.lag_damping,) * rotor.blades

    def rate(time: float, state: State) -> State:
        moving = accelerations(rotor, support, rotor_speed, time, state, dampings)
        return (*state[len(moving) :], *moving)

    states = [start]
    for number in range(steps):
        states.append(stepped(rate, all_along, number * step, states[-1], step))
    return states


def parts(state: State) -> Parts:
    """Return the parts of a state.

    Examples:
        >>> parts((0.1, 0.2, 3.0, 4.0, 0.5, 0.6, 7.0, 8.0)).hub
        (3.0, 4.0)
    """
    half = len(state) // 2
    return Parts(state[: half - 2], state[half - 2 : half], state[half:-2], state[-2:])


def accelerations(
    rotor: Rotor,
    support: Support,
    rotor_speed: float,
    time: float,
    state: State,
    dampings: Sequence[float],
) -> State:
    """Return the lag accelerations and those of x and y in a state; equations of `motion`."""
    count, moment = rotor.blades, rotor.first_moment
    arm = moment / rotor.lag_inertia
    lags, (x, y), lag_rates, (rate_x, rate_y) = parts(state)
    mass_x, mass_y = total_masses(rotor, support)
    force_x = -support.stiffness_x * x - support.damping_x * rate_x
    force_y = -support.stiffness_y * y - support.damping_y * rate_y
    across = 0.0
    held, trig = [], []
    for number in range(count):
        lag, lag_rate = lags[number], lag_rates[number]
        angle = rotor_speed * time + 2.0 * math.pi * number / count + lag
        sine, cosine = math.sin(angle), math.cos(angle)
        centrifugal = rotor.hinge_offset * moment * rotor_speed**2 * math.sin(lag)
        pull = -dampings[number] * lag_rate - rotor.lag_stiffness * lag - centrifugal
        held.append(pull / rotor.lag_inertia)
        trig.append((sine, cosine))
        turning = (rotor_speed + lag_rate) ** 2
        force_x += moment * (held[-1] * sine + turning * cosine)
        force_y += moment * (turning * sine - held[-1] * cosine)
        mass_x -= moment * arm * sine**2
        mass_y -= moment * arm * cosine**2
        across += moment * arm * sine * cosine
    share = mass_x * mass_y - across**2
    hub_x = (mass_y * force_x - across * force_y) / share
    hub_y = (mass_x * force_y - across * force_x) / share
    blades = (h + arm * (s * hub_x - c * hub_y) for h, (s, c) in zip(held, trig, strict=True))
    return (*blades, hub_x, hub_y)


def power(rotor: Rotor, support: Support, rotor_speed: float, time: float, state: State) -> Power:
    """Return the energy of a state, the power of the drive and the power that dampers take.

    The drive gives the torque that keeps the rotor speed: the moment about the shaft of the
    forces at the hinges, and of the springs and dampers of the blades.

    Args:
        rotor: Two or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        time: Time since azimuth zero; scalar, s.
        state: Lag angles, x, y and their rates.

    Returns:
        Energy, J, and powers, W.

    Source:
        Newton's equations of rigid bodies; derived here.
    """
    count, moment, offset = rotor.blades, rotor.first_moment, rotor.hinge_offset
    dampings = (rotor.lag_damping,) * count
    moving = accelerations(rotor, support, rotor_speed, time, state, dampings)
    lags, (x, y), lag_rates, (rate_x, rate_y) = parts(state)
    energy = 0.5 * (support.mass_x * rate_x**2 + support.mass_y * rate_y**2)
    energy += 0.5 * (support.stiffness_x * x**2 + support.stiffness_y * y**2)
    taken = support.damping_x * rate_x**2 + support.damping_y * rate_y**2
    torque = 0.0
    for number in range(count):
        lag, lag_rate = lags[number], lag_rates[number]
        azimuth = rotor_speed * time + 2.0 * math.pi * number / count
        c, s = math.cos(azimuth), math.sin(azimuth)
        cosine, sine = math.cos(azimuth + lag), math.sin(azimuth + lag)
        turning = rotor_speed + lag_rate
        hinge_x, hinge_y = rate_x - offset * rotor_speed * s, rate_y + offset * rotor_speed * c
        energy += 0.5 * rotor.blade_mass * (hinge_x**2 + hinge_y**2)
        energy += moment * turning * (hinge_y * cosine - hinge_x * sine)
        energy += 0.5 * (rotor.lag_inertia * turning**2 + rotor.lag_stiffness * lag**2)
        taken += rotor.lag_damping * lag_rate**2
        pull_x = rotor.blade_mass * (moving[count] - offset * rotor_speed**2 * c)
        pull_y = rotor.blade_mass * (moving[count + 1] - offset * rotor_speed**2 * s)
        pull_x -= moment * (moving[number] * sine + turning**2 * cosine)
        pull_y += moment * (moving[number] * cosine - turning**2 * sine)
        torque += offset * (c * pull_y - s * pull_x)
        torque -= rotor.lag_damping * lag_rate + rotor.lag_stiffness * lag
    return Power(energy, torque * rotor_speed, taken)
