"""Dissimilar blades: growth of lag and hub motion when the lag dampers are not all alike."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Annotated

from calc import linalg
from calc.declaration import Method
from calc.ground.model import floquet, rotating_frame
from calc.ground.model.aircraft import Rotor, Support, coupling_parameters, support_frequencies
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.model.general_support import two_directions
from calc.ground.quantities import (
    COUPLING,
    HIGHEST_SPEED,
    LAG_DAMPING,
    LAG_STIFFNESS,
    LOWEST_SPEED,
    ROTOR_SPEED,
)
from calc.ground.search import sweep
from calc.numeric.peaks import Sample

POINTS = 60  # evenly spaced rotor speeds of a sweep


def growth_rate(
    rotor: Rotor,
    support: Support,
    rotor_speed: float,
    lag_dampings: Sequence[float],
    lag_stiffnesses: Sequence[float] = (),
) -> float:
    r"""Return the growth rate of the least stable mode of blades that differ.

    $$ I_\xi \ddot{\xi}_k + C_{\xi,k} \dot{\xi}_k
    + (K_{\xi,k} + e S_\xi \Omega^2) \xi_k
    + S_\xi (\ddot{y} \cos\psi_k - \ddot{x} \sin\psi_k) = 0 $$
    $$ \bar{M}_x \ddot{x} + C_x \dot{x} + K_x x
    = S_\xi \sum_k \frac{d^2}{dt^2} (\xi_k \sin\psi_k), \qquad
    \bar{M}_y \ddot{y} + C_y \dot{y} + K_y y
    = -S_\xi \sum_k \frac{d^2}{dt^2} (\xi_k \cos\psi_k) $$

    On a hub that is alike in both directions the coefficients are constant in the rotating frame,
    and eigenvalues are taken there; on any other they are periodic, and Floquet's theory applies.
    All 2 (N_b + 2) motions count, those that leave the hub at rest too.

    Args:
        rotor: Two or more blades; its own lag damping is not used.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        lag_dampings: Lag damper of each blade; shape (N_b,), N·m·s/rad.
        lag_stiffnesses: Lag spring of each blade, that of the rotor if left out; shape (N_b,),
            N·m/rad.

    Returns:
        The growth rate; scalar, 1/s.

    Raises:
        ValueError: If an input cannot exist, a coupling parameter is too large, or there is not
            one damper for each blade.

    Source:
        Hammond (1974), the problem and the method; equations derived anew.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 4500.0)
        >>> support = Support(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
        >>> growth_rate(rotor, support, 28.0, (0.0, 4500.0, 4500.0, 4500.0)) > 0.0
        True
    """
    ROTOR_SPEED.check(rotor_speed)
    springs = tuple(lag_stiffnesses) or (rotor.lag_stiffness,) * rotor.blades
    return _growth_rate(rotor, support, rotor_speed, tuple(lag_dampings), springs)


@lru_cache(maxsize=4096)
def _growth_rate(
    rotor: Rotor,
    support: Support,
    rotor_speed: float,
    lag_dampings: tuple[float, ...],
    springs: tuple[float, ...],
) -> float:
    """Return the growth rate of `growth_rate`, remembered: sweeps and figures ask for it again."""
    if len(lag_dampings) != rotor.blades or len(springs) != rotor.blades:
        raise ValueError(f"There must be one lag damper for each of {rotor.blades} blades")
    for damping, stiffness in zip(lag_dampings, springs, strict=True):
        LAG_DAMPING.check(damping)
        LAG_STIFFNESS.check(stiffness)
    for coupling in coupling_parameters(rotor, support):
        COUPLING.check(2.0 * coupling if rotor.blades == 2 else coupling)
    if support.is_isotropic:
        matrix = rotating_frame.state_matrix(rotor, support, rotor_speed, lag_dampings, springs)
        return max(value.real for value in linalg.eigenvalues(matrix))
    both = two_directions(support)
    return floquet.growth_rates(rotor, both, rotor_speed, lag_dampings, springs)[0]


def unstable_bands(
    rotor: Rotor,
    support: Support,
    lag_dampings: Sequence[float],
    lowest_speed: float,
    highest_speed: float,
    lag_stiffnesses: Sequence[float] = (),
) -> tuple[tuple[float, float], ...]:
    """Return the bands of rotor speed in which blades that differ are unstable.

    Args:
        rotor: Two or more blades; its own lag damping is not used.
        support: Hub mass without blades, stiffness and damping in two directions.
        lag_dampings: Lag damper of each blade; shape (N_b,), N·m·s/rad.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        lag_stiffnesses: Lag spring of each blade, that of the rotor if left out; shape (N_b,),
            N·m/rad.

    Returns:
        Lowest and highest rotor speed of each band in ascending order, rad/s; a band that
        reaches an end of the sweep ends there.  With damping everywhere an edge is where the
        growth rate is zero; where a damper is missing it is where the rate is 1e-6 1/s.

    Raises:
        ValueError: As `growth_rate`, or if the sweep does not rise.

    Source:
        Hammond (1974), the problem and the method; equations derived anew.
    """

    def growth(speed: float) -> float:
        return growth_rate(rotor, support, speed, lag_dampings, lag_stiffnesses)

    dampings = (*lag_dampings, support.damping_x, support.damping_y)
    return sweep.unstable_bands(
        growth,
        sampled_growth(
            rotor, support, tuple(lag_dampings), lowest_speed, highest_speed, tuple(lag_stiffnesses)
        ),
        0.0 if all(dampings) else sweep.NOISE,
    )


def worst_speed(
    rotor: Rotor,
    support: Support,
    lag_dampings: Sequence[float],
    lowest_speed: float,
    highest_speed: float,
    lag_stiffnesses: Sequence[float] = (),
) -> Annotated[
    tuple[float, float],
    Method("the peak over the sweep of the growth rates of single blades, by Floquet theory"),
]:
    """Return the rotor speed of the highest growth rate in a sweep, and that growth rate.

    Args:
        rotor: Two or more blades; its own lag damping is not used.
        support: Hub mass without blades, stiffness and damping in two directions.
        lag_dampings: Lag damper of each blade; shape (N_b,), N·m·s/rad.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        lag_stiffnesses: Lag spring of each blade, that of the rotor if left out; shape (N_b,),
            N·m/rad.

    Returns:
        Rotor speed, rad/s, and growth rate, 1/s.

    Raises:
        ValueError: As `unstable_bands`.

    Source:
        Hammond (1974), the problem and the method; equations derived anew.
    """
    return sweep.peak(
        lambda speed: growth_rate(rotor, support, speed, lag_dampings, lag_stiffnesses),
        sampled_growth(
            rotor, support, tuple(lag_dampings), lowest_speed, highest_speed, tuple(lag_stiffnesses)
        ),
        1e-5,
    )


@lru_cache(maxsize=64)
def sampled_growth(
    rotor: Rotor,
    support: Support,
    lag_dampings: tuple[float, ...],
    lowest_speed: float,
    highest_speed: float,
    lag_stiffnesses: tuple[float, ...] = (),
) -> list[Sample]:
    """Return rotor speeds of a sweep, coalescence among them, with their growth rates."""
    LOWEST_SPEED.check(lowest_speed)
    HIGHEST_SPEED.check(highest_speed)
    return sweep.samples(
        lambda speed: growth_rate(rotor, support, speed, lag_dampings, lag_stiffnesses),
        lowest_speed,
        highest_speed,
        [*coalescence_speeds(rotor, support), *support_frequencies(rotor, support)],
        POINTS,
    )
