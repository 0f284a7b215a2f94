"""General support: the equations of motion of a rotor on any linear support, from its matrices."""

import math
from dataclasses import dataclass
from functools import lru_cache

from calc import linalg
from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.coalescence import coalescence_speed
from calc.ground.quantities import ROTOR_SPEED, THREE_BLADES
from calc.numeric.matrix import inverse, product

Matrix = tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True)
class GeneralSupport:
    """Mass without blades, damping and stiffness of support coordinates, and the hub motion.

    Element j of `x` and `y` is the longitudinal and lateral motion of the hub for a unit of
    coordinate j.
    """

    mass: Matrix
    damping: Matrix
    stiffness: Matrix
    x: tuple[float, ...]
    y: tuple[float, ...]


def state_matrix(rotor: Rotor, support: GeneralSupport, rotor_speed: float) -> list[list[float]]:
    r"""Return the matrix A of the equations of motion in multiblade coordinates.

    $$ (M + N_b m_b (\phi_x \phi_x^\mathsf{T} + \phi_y \phi_y^\mathsf{T})) \ddot{q}
    + C \dot{q} + K q + \frac{N_b}{2} S_\xi (\phi_y \ddot{\xi}_c - \phi_x \ddot{\xi}_s) = 0 $$

    The blades obey the equations of `multiblade.state_matrix`.  The state is the cosine and sine
    lag angles, q, and the rates of all of them.

    Args:
        rotor: Three or more identical blades.
        support: Matrices of the support and the motion of the hub.
        rotor_speed: Constant speed of rotation; scalar, rad/s.

    Returns:
        The matrix; shape (2 m + 4, 2 m + 4) for m coordinates.

    Raises:
        ValueError: If the blades are fewer than three.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.
    """
    ROTOR_SPEED.check(rotor_speed)
    constant, linear, square = matrix_parts(rotor, support)
    return [
        [a + rotor_speed * (b + rotor_speed * c) for a, b, c in zip(*rows, strict=True)]
        for rows in zip(constant, linear, square, strict=True)
    ]


@lru_cache(maxsize=256)
def matrix_parts(
    rotor: Rotor, support: GeneralSupport
) -> tuple[list[list[float]], list[list[float]], list[list[float]]]:
    r"""Return the three matrices of which, at any rotor speed, `state_matrix` is the sum.

    $$ A(\Omega) = A_0 + \Omega A_1 + \Omega^2 A_2 $$

    Args:
        rotor: Three or more identical blades.
        support: Matrices of the support and the motion of the hub.

    Returns:
        The matrices; shape (3, 2 m + 4, 2 m + 4) for m coordinates.

    Raises:
        ValueError: As `state_matrix`.

    Source:
        As `state_matrix`.
    """
    THREE_BLADES.check(rotor.blades)
    count = len(support.x)
    half = count + 2
    arm = rotor.first_moment / rotor.lag_inertia
    pull = 0.5 * rotor.blades * rotor.first_moment
    damping = rotor.lag_damping / rotor.lag_inertia
    lag = [[[0.0] * (2 * half) for _ in range(2)] for _ in range(3)]
    cosine, sine = lag[0]
    cosine[0] = sine[1] = -rotor.lag_stiffness / rotor.lag_inertia
    cosine[half] = sine[half + 1] = -damping
    cosine, sine = lag[1]
    cosine[1], sine[0] = -damping, damping
    cosine[half + 1], sine[half] = -2.0, 2.0
    cosine, sine = lag[2]
    cosine[0] = sine[1] = 1.0 - rotor.hinge_offset * arm

    taken = at_hub(support, arm * pull)
    mass = [
        [a - b for a, b in zip(row, less, strict=True)]
        for row, less in zip(with_blades(rotor, support), taken, strict=True)
    ]
    lightness = inverse(mass)
    parts = []
    for number, (cosine, sine) in enumerate(lag):
        forces = [
            [pull * (x * s - y * c) for c, s in zip(cosine, sine, strict=True)]
            for x, y in zip(support.x, support.y, strict=True)
        ]
        if not number:
            for held, springs, dampers in zip(
                forces, support.stiffness, support.damping, strict=True
            ):
                for j in range(count):
                    held[2 + j] -= springs[j]
                    held[half + 2 + j] -= dampers[j]
        hub = product(lightness, forces)
        along = product([list(support.x), list(support.y)], hub)
        lags = [
            [c - arm * y for c, y in zip(cosine, along[1], strict=True)],
            [s + arm * x for s, x in zip(sine, along[0], strict=True)],
        ]
        rates = [
            [float(not number and column == row + half) for column in range(2 * half)]
            for row in range(half)
        ]
        parts.append([*rates, *lags, *hub])
    constant, linear, square = parts
    return constant, linear, square


def two_directions(support: Support) -> GeneralSupport:
    """Return the matrices of a hub that moves in x and in y."""
    return GeneralSupport(
        ((support.mass_x, 0.0), (0.0, support.mass_y)),
        ((support.damping_x, 0.0), (0.0, support.damping_y)),
        ((support.stiffness_x, 0.0), (0.0, support.stiffness_y)),
        (1.0, 0.0),
        (0.0, 1.0),
    )


def check(rotor: Rotor, support: GeneralSupport) -> None:
    """Raise ValueError for a support that is lighter than the blades that move with it."""
    lightest = linalg.symmetric_eigen(with_blades(rotor, support))[0][0]
    if lightest <= 0.0 or coupling(rotor, support) >= 1.0:
        raise ValueError("The support modes are too light for the first moment of the blades")


@lru_cache(maxsize=256)
def natural_frequencies(rotor: Rotor, support: GeneralSupport) -> list[float]:
    """Return the frequencies of the undamped support with the blades lumped at the hub, rad/s."""
    mass = with_blades(rotor, support)
    squares, _ = linalg.generalized_symmetric_eigen(support.stiffness, mass)
    return [math.sqrt(max(square, 0.0)) for square in squares]


def coalescences(rotor: Rotor, support: GeneralSupport) -> list[float]:
    """Return the rotor speeds at which the regressing lag mode meets a support mode, rad/s."""
    offset_ratio = rotor.hinge_offset * rotor.first_moment / rotor.lag_inertia
    spring = rotor.lag_stiffness / rotor.lag_inertia
    found = [
        coalescence_speed(offset_ratio, spring, frequency)
        for frequency in natural_frequencies(rotor, support)
    ]
    return [speed for speed in found if speed is not None]


@lru_cache(maxsize=256)
def coupling(rotor: Rotor, support: GeneralSupport) -> float:
    r"""Return the largest share of the mass, with the blades, that the lag motion can take off.

    $$ \Lambda = \max \operatorname{eig} \left( \frac{N_b S_\xi^2}{2 I_\xi}
    (\phi_x \phi_x^\mathsf{T} + \phi_y \phi_y^\mathsf{T}),\; M \right) $$

    Two blades stand across one direction together, which doubles it.
    """
    blades = rotor.blades * rotor.first_moment**2 / rotor.lag_inertia
    taken = at_hub(support, blades if rotor.blades == 2 else 0.5 * blades)
    return linalg.generalized_symmetric_eigen(taken, with_blades(rotor, support))[0][-1]


def with_blades(rotor: Rotor, support: GeneralSupport) -> Matrix:
    """Return the mass matrix of the support with the blades lumped at the hub."""
    blades = at_hub(support, rotor.blades * rotor.blade_mass)
    return tuple(
        tuple(a + b for a, b in zip(row, added, strict=True))
        for row, added in zip(support.mass, blades, strict=True)
    )


def at_hub(support: GeneralSupport, mass: float) -> Matrix:
    """Return what a mass at the hub adds to the mass matrix."""
    places = list(zip(support.x, support.y, strict=True))
    return tuple(tuple(mass * (x * u + y * v) for u, v in places) for x, y in places)
