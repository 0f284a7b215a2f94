"""Multiblade coordinates: the equations of motion in the fixed frame, as one matrix."""

from calc.ground.model.aircraft import Rotor, Support, coupling_parameters, total_masses
from calc.ground.quantities import ROTOR_SPEED, THREE_BLADES


def state_matrix(rotor: Rotor, support: Support, rotor_speed: float) -> list[list[float]]:
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
    THREE_BLADES.check(rotor.blades)
    ROTOR_SPEED.check(rotor_speed)
    coupling_x, coupling_y = coupling_parameters(rotor, support)
    mass_x, mass_y = total_masses(rotor, support)
    gyroscopic = 2.0 * rotor_speed
    damping = rotor.lag_damping / rotor.lag_inertia
    spring = rotor.lag_frequency(rotor_speed) ** 2 - rotor_speed**2
    circulatory = damping * rotor_speed
    arm = rotor.first_moment / rotor.lag_inertia
    half = 0.5 * rotor.blades * rotor.first_moment

    # accelerations of each coordinate if the others were held, then coupled in pairs
    cosine = [-spring, -circulatory, 0.0, 0.0, -damping, -gyroscopic, 0.0, 0.0]
    sine = [circulatory, -spring, 0.0, 0.0, gyroscopic, -damping, 0.0, 0.0]
    hub_x = [0.0] * 8
    hub_x[2], hub_x[6] = -support.stiffness_x / mass_x, -support.damping_x / mass_x
    hub_y = [0.0] * 8
    hub_y[3], hub_y[7] = -support.stiffness_y / mass_y, -support.damping_y / mass_y
    sine, hub_x = _coupled(sine, hub_x, -arm, -half / mass_x, coupling_x)
    cosine, hub_y = _coupled(cosine, hub_y, arm, half / mass_y, coupling_y)
    rates = [[1.0 if column == row + 4 else 0.0 for column in range(8)] for row in range(4)]
    return [*rates, cosine, sine, hub_x, hub_y]


def _coupled(
    lag: list[float], hub: list[float], arm: float, pull: float, coupling: float
) -> tuple[list[float], list[float]]:
    """Return a and b with a + arm b = lag and b + pull a = hub; coupling is arm times pull."""
    share = 1.0 / (1.0 - coupling)
    pairs = list(zip(lag, hub, strict=True))
    return [share * (u - arm * v) for u, v in pairs], [share * (v - pull * u) for u, v in pairs]
