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
    THREE_BLADES.check(rotor.blades)
    ROTOR_SPEED.check(rotor_speed)
    count = len(support.x)
    half = count + 2
    arm = rotor.first_moment / rotor.lag_inertia
    pull = 0.5 * rotor.blades * rotor.first_moment
    damping = rotor.lag_damping / rotor.lag_inertia
    spring = rotor.lag_frequency(rotor_speed) ** 2 - rotor_speed**2
    cosine, sine = [0.0] * (2 * half), [0.0] * (2 * half)
    cosine[0], cosine[1] = -spring, -damping * rotor_speed
    sine[0], sine[1] = damping * rotor_speed, -spring
    cosine[half], cosine[half + 1] = -damping, -2.0 * rotor_speed
    sine[half], sine[half + 1] = 2.0 * rotor_speed, -damping
    forces = []
    for i in range(count):
        held = [
            pull * (support.x[i] * s - support.y[i] * c) for c, s in zip(cosine, sine, strict=True)
        ]
        for j in range(count):
            held[2 + j] -= support.stiffness[i][j]
            held[half + 2 + j] -= support.damping[i][j]
        forces.append(held)
    taken = at_hub(support, arm * pull)
    mass = [
        [a - b for a, b in zip(row, less, strict=True)]
        for row, less in zip(with_blades(rotor, support), taken, strict=True)
    ]
    hub = product(inverse(mass), forces)
    along = product([list(support.x), list(support.y)], hub)
    cosine = [c - arm * y for c, y in zip(cosine, along[1], strict=True)]
    sine = [s + arm * x for s, x in zip(sine, along[0], strict=True)]
    rates = [[float(column == row + half) for column in range(2 * half)] for row in range(half)]
    return [*rates, cosine, sine, *hub]


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
