"""Critical share: how much of one lag damper must be left for a rotor to stay stable."""

from typing import Annotated

from calc.declaration import Method
from calc.ground import dissimilar
from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.search import sweep
from calc.ground.search.needed_damping import minimum_lag_damping
from calc.ground.stability import worst_speed
from calc.numeric.peaks import Sample
from calc.numeric.roots import crossing

SWEEP = 30  # rotor speeds of a whole sweep
FOLLOWED = 5  # rotor speeds while the worst one is followed
WINDOW = 0.2  # share of the worst speed on either side of it in which it is followed


def critical_share(
    rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float
) -> Annotated[
    float | None,
    Method("the least share with which no rotor speed of the sweep is unstable, blade by blade"),
]:
    """Return the least share of one lag damper that is stable in a sweep, or None.

    None means that the rotor is unstable with every damper whole.

    The worst speed is followed while the share is searched; a whole sweep confirms the result,
    and if it is worse elsewhere, whole sweeps search it again.

    Args:
        rotor: Two or more blades; their lag damper is that of the other blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        Share of the damping of the other blades; scalar.

    Source:
        Hammond (1974), the problem and the method; equations derived anew.
    """
    others = (rotor.lag_damping,) * (rotor.blades - 1)
    meetings = coalescence_speeds(rotor, support)

    def worst(share: float, low: float, high: float, points: int) -> Sample:
        def growth(speed: float) -> float:
            dampings = (share * rotor.lag_damping, *others)
            return dissimilar.growth_rate(rotor, support, speed, dampings)

        return sweep.peak(growth, sweep.samples(growth, low, high, meetings, points), 2e-3)

    def whole(share: float) -> float:
        return worst(share, lowest_speed, highest_speed, SWEEP)[1]

    if worst_speed(rotor, support, lowest_speed, highest_speed)[1] > 0.0:
        return None
    centre, growth = worst(0.0, lowest_speed, highest_speed, SWEEP)
    if growth <= sweep.NOISE:
        return 0.0
    low = max(lowest_speed, centre - WINDOW * centre)
    high = min(highest_speed, centre + WINDOW * centre)
    share = crossing(lambda share: worst(share, low, high, FOLLOWED)[1], 0.0, 1.0, 1e-5)
    if whole(share + 1e-3) <= 0.0:
        return share
    return crossing(whole, 0.0, 1.0, 1e-5)


def averaged_share(
    rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float
) -> Annotated[float, Method("with it the mean of the dampers is the least damping")]:
    """Return the share at which the mean of the dampers is the least damping; may be negative."""
    needed = minimum_lag_damping(rotor, support, lowest_speed, highest_speed)
    if not needed:
        return 1.0 - rotor.blades
    return rotor.blades * needed / rotor.lag_damping - (rotor.blades - 1)


def harmonic_share(
    rotor: Rotor, support: Support, lowest_speed: float, highest_speed: float
) -> Annotated[float, Method("with it the harmonic mean of the dampers is the least damping")]:
    """Return the share at which the harmonic mean of the dampers is the least damping."""
    needed = minimum_lag_damping(rotor, support, lowest_speed, highest_speed)
    if not needed:
        return 0.0
    return 1.0 / (rotor.blades * rotor.lag_damping / needed - (rotor.blades - 1))
