"""Needed damping: the least lag damping and the least hub damping that a sweep is stable with."""

from dataclasses import replace
from typing import Annotated

from calc.declaration import Method
from calc.ground.model.aircraft import Rotor, Support, support_frequencies
from calc.ground.quantities import (
    HIGHEST_GROWTH,
    REQUIRED_LAG_DAMPING,
)
from calc.ground.search import sweep
from calc.ground.search.damping_map import scaled
from calc.ground.search.minimum_damping import least_damping
from calc.ground.stability import worst_speed
from calc.quantity import Quantity

FACTOR = Quantity("q", "Factor on both hub dampings")


def _with_lag_damping(
    lag_damping: Annotated[float, REQUIRED_LAG_DAMPING],
    rotor: Rotor,
    support: Support,
    lowest_speed: float,
    highest_speed: float,
) -> Annotated[float, HIGHEST_GROWTH]:
    """Return the highest growth rate of a sweep with another lag damping."""
    damped = replace(rotor, lag_damping=lag_damping)
    return sweep.without_noise(worst_speed(damped, support, lowest_speed, highest_speed)[1])


def minimum_lag_damping(
    rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float
) -> Annotated[
    float | None,
    Method("the least with which no rotor speed of the sweep is unstable", _with_lag_damping),
]:
    """Return the least lag damping of each blade that leaves no rotor speed of a sweep unstable.

    The lag damping of the rotor itself is not used.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        Damping of one blade; scalar, N·m·s/rad.  None if no lag damping is enough.

    Raises:
        ValueError: As `unstable_bands`.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0)
        >>> support = Support(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
        >>> needed = minimum_lag_damping(rotor, support, 5.0, 40.0)
        >>> worst_speed(replace(rotor, lag_damping=1.001 * needed), support, 5.0, 40.0)[1] < 0.0
        True
    """

    def worst_growth(damping: float) -> float:
        return worst_speed(
            replace(rotor, lag_damping=damping), support, lowest_speed, highest_speed
        )[1]

    frequency = max(support_frequencies(rotor, support))
    return least_damping(worst_growth, rotor.lag_inertia * frequency)


def _with_hub_damping(
    factor: Annotated[float, FACTOR],
    rotor: Rotor,
    support: Support,
    lowest_speed: float,
    highest_speed: float,
) -> Annotated[float, HIGHEST_GROWTH]:
    """Return the highest growth rate of a sweep with both hub dampings changed by a factor."""
    worst = worst_speed(rotor, scaled(support, factor), lowest_speed, highest_speed)
    return sweep.without_noise(worst[1])


def minimum_support_damping(
    rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float
) -> Annotated[
    float | None,
    Method("the least with which no rotor speed of the sweep is unstable", _with_hub_damping),
]:
    """Return the least factor on both hub dampings that leaves no rotor speed unstable, or None."""

    def worst_growth(factor: float) -> float:
        return worst_speed(rotor, scaled(support, factor), lowest_speed, highest_speed)[1]

    return least_damping(worst_growth, 1.0)
