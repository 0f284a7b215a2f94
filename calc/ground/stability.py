"""Stability: growth of the coupled lag and hub motion with identical blades, from eigenvalues."""

from functools import lru_cache
from typing import Annotated

from calc.declaration import Method
from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.model.spectrum import spectrum
from calc.ground.quantities import (
    HIGHEST_SPEED,
    LOWEST_SPEED,
)
from calc.ground.search import sweep
from calc.ground.search.least_damped import LeastDamped, least_damped
from calc.numeric.peaks import Sample

EIGENVALUES = "the peak over the sweep of the growth rates, from eigenvalues at each rotor speed"
"""How the working says it."""


def eigenvalues(rotor: Rotor, support: Support, rotor_speed: float) -> list[complex]:
    r"""Return the eight eigenvalues of cyclic lag and hub motion in the fixed frame.

    $$ \det(A - s I) = 0 $$

    $A$ is the `state_matrix` of the equations of motion in multiblade coordinates.  The other
    N_b - 2 lag coordinates leave the hub at rest and move as an isolated blade does.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speed: Constant speed of rotation; scalar, rad/s.

    Returns:
        Eigenvalues in ascending order of imaginary part, then of real part, 1/s and rad/s.

    Raises:
        ValueError: If an input cannot exist, the blades are fewer than three, or the coupling
            parameter of a direction is not below one.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0)
        >>> support = Support(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
        >>> len(eigenvalues(rotor, support, 30.0))
        8
    """
    return list(spectrum(rotor, support).at(rotor_speed))


def growth_rate(rotor: Rotor, support: Support, rotor_speed: float) -> float:
    r"""Return the growth rate of the least stable of the eight modes; positive is unstable.

    $$ \sigma = \max_j \operatorname{Re} s_j $$

    It is the same in the fixed and in the rotating frame.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speed: Constant speed of rotation; scalar, rad/s.

    Returns:
        The growth rate; scalar, 1/s.

    Raises:
        ValueError: As `eigenvalues`.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0)
        >>> support = Support(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
        >>> growth_rate(rotor, support, 27.0) > 0.0 > growth_rate(rotor, support, 10.0)
        True
    """
    return max(value.real for value in spectrum(rotor, support).at(rotor_speed))


def unstable_bands(
    rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float
) -> tuple[tuple[float, float], ...]:
    """Return the bands of rotor speed in which a disturbance grows, with edges by root finding.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        Lowest and highest rotor speed of each band in ascending order, rad/s; a band that
        reaches an end of the sweep ends there.  With damping everywhere an edge is where the
        growth rate is zero; where a damper is missing it is where the rate is 1e-6 1/s.

    Raises:
        ValueError: As `eigenvalues`, or if the sweep does not rise.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0)
        >>> support = Support(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
        >>> ((low, high),) = unstable_bands(rotor, support, 5.0, 40.0)
        >>> low < coalescence_speeds(rotor, support)[1] < high
        True
    """
    dampings = (rotor.lag_damping, support.damping_x, support.damping_y)
    return sweep.unstable_bands(
        lambda speed: growth_rate(rotor, support, speed),
        sampled_growth(rotor, support, lowest_speed, highest_speed),
        0.0 if all(dampings) else sweep.NOISE,
    )


def worst_speed(
    rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float
) -> Annotated[tuple[float, float], Method(EIGENVALUES)]:
    """Return the rotor speed of the highest growth rate in a sweep, and that growth rate.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        Rotor speed, rad/s, and growth rate, 1/s.

    Raises:
        ValueError: As `unstable_bands`.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.
    """
    return sweep.peak(
        lambda speed: growth_rate(rotor, support, speed),
        sampled_growth(rotor, support, lowest_speed, highest_speed),
    )


def least_damped_motion(
    rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float
) -> LeastDamped:
    """Return the motion of the lowest damping ratio in a sweep, as the hub shows it.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        Rotor speed, damping ratio and frequency.

    Raises:
        ValueError: As `unstable_bands`.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.
    """
    samples = sampled_growth(rotor, support, lowest_speed, highest_speed)
    return least_damped(rotor, spectrum(rotor, support).at, [speed for speed, _ in samples])


@lru_cache(maxsize=64)
def sampled_growth(
    rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float
) -> list[Sample]:
    """Return rotor speeds of a sweep, coalescence among them, with their growth rates."""
    LOWEST_SPEED.check(lowest_speed)
    HIGHEST_SPEED.check(highest_speed)
    return sweep.samples(
        lambda speed: growth_rate(rotor, support, speed),
        lowest_speed,
        highest_speed,
        coalescence_speeds(rotor, support),
        ahead=spectrum(rotor, support).along,
    )
