"""Blade by blade: the equations of motion of blades that differ, on any support modes."""

import math
from collections.abc import Sequence

from calc.ground.model.aircraft import Rotor
from calc.ground.model.general_support import (
    GeneralSupport,
    with_blades,
)

Coefficients = list[list[list[list[float]]]]


def coefficients(
    rotor: Rotor,
    support: GeneralSupport,
    rotor_speed: float,
    lag_dampings: Sequence[float],
    lag_stiffnesses: Sequence[float],
) -> Coefficients:
    r"""Return mass, damping and stiffness of blades one by one and of the support coordinates.

    $$ I_\xi \ddot{\xi}_k + C_{\xi,k} \dot{\xi}_k + (K_{\xi,k} + e S_\xi \Omega^2) \xi_k
    + S_\xi g_k^\mathsf{T} \ddot{q} = 0, \qquad
    g_k = \phi_y \cos\psi_k - \phi_x \sin\psi_k $$
    $$ (M + N_b m_b (\phi_x \phi_x^\mathsf{T} + \phi_y \phi_y^\mathsf{T})) \ddot{q}
    + C \dot{q} + K q + S_\xi \sum_k \frac{d^2}{dt^2} (g_k \xi_k) = 0 $$

    Args:
        rotor: Two or more blades.
        support: Matrices of m support coordinates without blades, and the motion of the hub.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        lag_dampings: Damping of each blade, infinite where its hinge is locked; shape (N_b,),
            N·m·s/rad.
        lag_stiffnesses: Lag spring of each blade; shape (N_b,), N·m/rad.

    Returns:
        Mass, damping and stiffness, each as the constant part and the factors of the cosine and
        the sine of the azimuth of the first blade; shape (3, 3, n, n), where n counts the blades
        that are free in lag, then the coordinates.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.
    """
    parts = by_power(rotor, support, lag_dampings, lag_stiffnesses)
    return [
        [
            [
                [a + rotor_speed * (b + rotor_speed * c) for a, b, c in zip(*rows, strict=True)]
                for rows in zip(*matrices, strict=True)
            ]
            for matrices in zip(*waves, strict=True)
        ]
        for waves in zip(*parts, strict=True)
    ]


def by_power(
    rotor: Rotor,
    support: GeneralSupport,
    lag_dampings: Sequence[float],
    lag_stiffnesses: Sequence[float],
) -> list[Coefficients]:
    """Return what `coefficients` are sums of: the parts of each power of the rotor speed.

    Args:
        rotor: Two or more blades.
        support: Matrices of m support coordinates without blades, and the motion of the hub.
        lag_dampings: Damping of each blade, infinite where its hinge is locked; shape (N_b,),
            N·m·s/rad.
        lag_stiffnesses: Lag spring of each blade; shape (N_b,), N·m/rad.

    Returns:
        The coefficients of the zeroth, first and second power; shape (3, 3, 3, n, n).

    Source:
        As `coefficients`.
    """
    free = [number for number, damping in enumerate(lag_dampings) if damping < math.inf]
    count, size = len(free), len(free) + len(support.x)
    constant, linear, square = (
        [[[[0.0] * size for _ in range(size)] for _ in range(3)] for _ in range(3)]
        for _ in range(3)
    )
    mass, damping, stiffness = constant
    hub_mass = with_blades(rotor, support)
    for i in range(len(support.x)):
        for part, matrix in zip(
            (mass, damping, stiffness), (hub_mass, support.damping, support.stiffness), strict=True
        ):
            part[0][count + i][count:] = matrix[i]
    for row, blade in enumerate(free):
        mass[0][row][row] = rotor.lag_inertia
        damping[0][row][row] = lag_dampings[blade]
        stiffness[0][row][row] = lag_stiffnesses[blade]
        square[2][0][row][row] = rotor.hinge_offset * rotor.first_moment
        azimuth = 2.0 * math.pi * blade / rotor.blades
        along = rotor.first_moment * math.cos(azimuth)
        across = rotor.first_moment * math.sin(azimuth)
        for column, (x, y) in enumerate(zip(support.x, support.y, strict=True), count):
            cosine, sine = y * along - x * across, -x * along - y * across
            mass[1][row][column] = mass[1][column][row] = cosine
            mass[2][row][column] = mass[2][column][row] = sine
            linear[1][1][column][row] = 2.0 * sine
            linear[1][2][column][row] = -2.0 * cosine
            square[2][1][column][row] = -cosine
            square[2][2][column][row] = -sine
    return [constant, linear, square]
