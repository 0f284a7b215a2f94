"""General support: the equations of motion of a rotor on any linear support, from its matrices."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc import linalg
from calc.ground.aircraft import Rotor
from calc.ground.collocation import inverse, product
from calc.ground.quantities import ROTOR_SPEED, THREE_BLADES

Matrix = list[list[float]]


@dataclass(frozen=True, slots=True)
class GeneralSupport:
    """Mass without blades, damping and stiffness of support coordinates, and the hub motion.

    Element j of `x` and `y` is the longitudinal and lateral motion of the hub for a unit of
    coordinate j.
    """

    mass: Matrix
    damping: Matrix
    stiffness: Matrix
    x: Sequence[float]
    y: Sequence[float]


def state_matrix(rotor: Rotor, support: GeneralSupport, rotor_speed: float) -> Matrix:
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
    hub = product(inverse(_mass(rotor, support, arm * pull)), forces)
    along = product([list(support.x), list(support.y)], hub)
    cosine = [c - arm * y for c, y in zip(cosine, along[1], strict=True)]
    sine = [s + arm * x for s, x in zip(sine, along[0], strict=True)]
    rates = [[float(column == row + half) for column in range(2 * half)] for row in range(half)]
    return [*rates, cosine, sine, *hub]


def check(rotor: Rotor, support: GeneralSupport) -> None:
    """Raise ValueError for a support that is lighter than the blades that move with it."""
    mass = _mass(rotor, support, 0.5 * rotor.blades * rotor.first_moment**2 / rotor.lag_inertia)
    if linalg.symmetric_eigen(mass)[0][0] <= 0.0:
        raise ValueError("The support modes are too light for the first moment of the blades")


def natural_frequencies(rotor: Rotor, support: GeneralSupport) -> list[float]:
    """Return the frequencies of the undamped support with the blades lumped at the hub, rad/s."""
    squares, _ = linalg.generalized_symmetric_eigen(support.stiffness, _mass(rotor, support, 0.0))
    return [math.sqrt(max(square, 0.0)) for square in squares]


def _mass(rotor: Rotor, support: GeneralSupport, follows: float) -> Matrix:
    """Return the mass of the support with the blades, less what the lag motion takes off it."""
    at_hub = rotor.blades * rotor.blade_mass - follows
    size = range(len(support.x))
    return [
        [
            support.mass[i][j]
            + at_hub * (support.x[i] * support.x[j] + support.y[i] * support.y[j])
            for j in size
        ]
        for i in size
    ]
