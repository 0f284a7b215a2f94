"""Multiblade coordinates: the equations of motion in the fixed frame, as one matrix."""

from functools import lru_cache

from calc.ground.model.aircraft import Rotor, Support, coupling_parameters, total_masses
from calc.ground.quantities import ROTOR_SPEED, THREE_BLADES

Matrix = list[list[float]]


def state_matrix(rotor: Rotor, support: Support, rotor_speed: float) -> Matrix:
    r"""Return the matrix A of the equations of motion, whose eigenvalues tell their stability.

    $$ \dot{q} = A q, \qquad
    q = (\xi_c, \xi_s, x, y, \dot{\xi}_c, \dot{\xi}_s, \dot{x}, \dot{y}) $$

    With $\xi_c = \frac{2}{N_b} \sum \xi_k \cos\psi_k$,
    $\xi_s = \frac{2}{N_b} \sum \xi_k \sin\psi_k$ and $\bar{M} = M + N_b m_b$:

    $$ \bar{M}_x \ddot{x} + C_x \dot{x} + K_x x - \frac{N_b}{2} S_\xi \ddot{\xi}_s = 0, \qquad
    \bar{M}_y \ddot{y} + C_y \dot{y} + K_y y + \frac{N_b}{2} S_\xi \ddot{\xi}_c = 0 $$
    $$ I_\xi (\ddot{\xi}_c + 2 \Omega \dot{\xi}_s - \Omega^2 \xi_c)
    + C_\xi (\dot{\xi}_c + \Omega \xi_s)
    + (K_\xi + e S_\xi \Omega^2) \xi_c + S_\xi \ddot{y} = 0 $$
    $$ I_\xi (\ddot{\xi}_s - 2 \Omega \dot{\xi}_c - \Omega^2 \xi_s)
    + C_\xi (\dot{\xi}_s - \Omega \xi_c)
    + (K_\xi + e S_\xi \Omega^2) \xi_s - S_\xi \ddot{x} = 0 $$

    The terms $\pm C_\xi \Omega$ are circulatory: a damper that turns pushes sideways in the
    fixed frame.  Three or more identical rigid blades, small lag angles positive in lead,
    constant rotor speed, linear springs and viscous dampers, no aerodynamics, no flap.

    Args:
        rotor: Blades and lag hinges.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speed: Constant speed of rotation; scalar, rad/s.

    Returns:
        The matrix; shape (8, 8).

    Raises:
        ValueError: If an input cannot exist, the blades are fewer than three, or the coupling
            parameter of a direction is not below one.

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
def matrix_parts(rotor: Rotor, support: Support) -> tuple[Matrix, Matrix, Matrix]:
    r"""Return the three matrices of which, at any rotor speed, `state_matrix` is the sum.

    $$ A(\Omega) = A_0 + \Omega A_1 + \Omega^2 A_2 $$

    Args:
        rotor: Blades and lag hinges.
        support: Hub mass without blades, stiffness and damping in two directions.

    Returns:
        The matrices; shape (3, 8, 8).

    Raises:
        ValueError: As `state_matrix`.

    Source:
        As `state_matrix`.
    """
    THREE_BLADES.check(rotor.blades)
    coupling_x, coupling_y = coupling_parameters(rotor, support)
    mass_x, mass_y = total_masses(rotor, support)
    damping = rotor.lag_damping / rotor.lag_inertia
    spring = rotor.lag_stiffness / rotor.lag_inertia
    stiffening = rotor.hinge_offset * rotor.first_moment / rotor.lag_inertia - 1.0
    arm = rotor.first_moment / rotor.lag_inertia
    half = 0.5 * rotor.blades * rotor.first_moment

    # accelerations of each coordinate if the others were held, then coupled in pairs
    held = [[[0.0] * 8 for _ in range(4)] for _ in range(3)]
    cosine, sine, hub_x, hub_y = held[0]
    cosine[0] = sine[1] = -spring
    cosine[4] = sine[5] = -damping
    hub_x[2], hub_x[6] = -support.stiffness_x / mass_x, -support.damping_x / mass_x
    hub_y[3], hub_y[7] = -support.stiffness_y / mass_y, -support.damping_y / mass_y
    cosine, sine, *_ = held[1]
    cosine[1], sine[0] = -damping, damping
    cosine[5], sine[4] = -2.0, 2.0
    cosine, sine, *_ = held[2]
    cosine[0] = sine[1] = -stiffening

    parts = []
    for number, alone in enumerate(held):
        sine, hub_x = _coupled(alone[1], alone[2], -arm, -half / mass_x, coupling_x)
        cosine, hub_y = _coupled(alone[0], alone[3], arm, half / mass_y, coupling_y)
        rates = [
            [float(not number and column == row + 4) for column in range(8)] for row in range(4)
        ]
        parts.append([*rates, cosine, sine, hub_x, hub_y])
    constant, linear, square = parts
    return constant, linear, square


def _coupled(
    lag: list[float], hub: list[float], arm: float, pull: float, coupling: float
) -> tuple[list[float], list[float]]:
    """Return a and b with a + arm b = lag and b + pull a = hub; coupling is arm times pull."""
    share = 1.0 / (1.0 - coupling)
    pairs = list(zip(lag, hub, strict=True))
    return [share * (u - arm * v) for u, v in pairs], [share * (v - pull * u) for u, v in pairs]
