"""Rotating frame: equations of motion of blades that differ, on a hub alike in all directions."""

import math
from collections.abc import Sequence

from calc.ground.model.aircraft import Rotor, Support, total_masses


def state_matrix(
    rotor: Rotor,
    support: Support,
    rotor_speed: float,
    lag_dampings: Sequence[float],
    lag_stiffnesses: Sequence[float],
) -> list[list[float]]:
    r"""Return the matrix A of the equations of motion with the hub seen from the blades.

    $$ x + \mathrm{i} y = w e^{\mathrm{i} \Omega t}, \qquad w = u + \mathrm{i} v, \qquad
    \phi_k = 2 \pi k / N_b $$
    $$ I_\xi \ddot{\xi}_k + C_{\xi,k} \dot{\xi}_k
    + (K_{\xi,k} + e S_\xi \Omega^2) \xi_k
    + S_\xi \operatorname{Im}[(\ddot{w} + 2 \mathrm{i} \Omega \dot{w} - \Omega^2 w)
    e^{-\mathrm{i} \phi_k}] = 0 $$
    $$ \bar{M} (\ddot{w} + 2 \mathrm{i} \Omega \dot{w} - \Omega^2 w)
    + C (\dot{w} + \mathrm{i} \Omega w) + K w
    + S_\xi \sum_k \mathrm{i} e^{\mathrm{i} \phi_k}
    (\ddot{\xi}_k + 2 \mathrm{i} \Omega \dot{\xi}_k - \Omega^2 \xi_k) = 0 $$

    The state is the lag angles, u and v, and the rates of all of them.  Assumptions as in
    `multiblade.state_matrix`, except that the blades may differ and may be two.

    Args:
        rotor: Two or more blades; its own lag damping and lag stiffness are not used.
        support: Hub mass without blades, stiffness and damping; those of x are used.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        lag_dampings: Lag damper of each blade; shape (N_b,), N·m·s/rad.
        lag_stiffnesses: Lag spring of each blade; shape (N_b,), N·m/rad.

    Returns:
        The matrix; shape (2 N_b + 4, 2 N_b + 4).

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.
    """
    count, moment = rotor.blades, rotor.first_moment
    arm = moment / rotor.lag_inertia
    mass, _ = total_masses(rotor, support)
    azimuths = [2.0 * math.pi * number / count for number in range(count)]
    trig = [(math.sin(azimuth), math.cos(azimuth)) for azimuth in azimuths]
    twice, square = 2.0 * rotor_speed, rotor_speed**2
    lag, rate = 0, count + 2  # where the lag angles and their rates start
    u, v = count, count + 1

    held = [[0.0] * (2 * rate) for _ in range(count)]  # lag accelerations at u'' = v'' = 0
    forces = [[0.0] * (2 * rate) for _ in range(2)]
    spring, circulatory = support.stiffness_x - mass * square, support.damping_x * rotor_speed
    forces[0][u], forces[0][v] = -spring, circulatory
    forces[1][u], forces[1][v] = -circulatory, -spring
    forces[0][rate + u], forces[0][rate + v] = -support.damping_x, twice * mass
    forces[1][rate + u], forces[1][rate + v] = -twice * mass, -support.damping_x
    for number, (sine, cosine) in enumerate(trig):
        row = held[number]
        centrifugal = rotor.hinge_offset * moment * square
        row[lag + number] = -(lag_stiffnesses[number] + centrifugal) / rotor.lag_inertia
        row[rate + number] = -lag_dampings[number] / rotor.lag_inertia
        row[u], row[v] = -arm * square * sine, arm * square * cosine
        row[rate + u], row[rate + v] = -arm * twice * cosine, -arm * twice * sine
        forces[0] = _sum(forces[0], moment * sine, row)
        forces[1] = _sum(forces[1], -moment * cosine, row)
        forces[0][lag + number] -= moment * square * sine
        forces[1][lag + number] += moment * square * cosine
        forces[0][rate + number] += moment * twice * cosine
        forces[1][rate + number] += moment * twice * sine
    mass_u = mass - moment * arm * math.fsum(sine**2 for sine, _ in trig)
    mass_v = mass - moment * arm * math.fsum(cosine**2 for _, cosine in trig)
    along = [force / mass_u for force in forces[0]]
    across = [force / mass_v for force in forces[1]]
    lags = [
        _sum(_sum(row, arm * sine, along), -arm * cosine, across)
        for row, (sine, cosine) in zip(held, trig, strict=True)
    ]
    rates = [[float(column == row + rate) for column in range(2 * rate)] for row in range(rate)]
    return [*rates, *lags, along, across]


def _sum(row: list[float], factor: float, other: list[float]) -> list[float]:
    return [a + factor * b for a, b in zip(row, other, strict=True)]
