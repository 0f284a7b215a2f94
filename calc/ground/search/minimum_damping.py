"""Minimum damping: the least damping that leaves no rotor speed of a sweep unstable."""

import math
from collections.abc import Callable

from calc.ground.search.sweep import NOISE
from calc.numeric.peaks import lowest
from calc.numeric.roots import crossing

FACTOR = 1.25  # between trial dampings
WIDEST = 1e3  # how far below and above the first trial damping the search goes, as a factor
MOST_DIPS = 3  # more of them are rounding
STEEP = 3.0  # how much farther than to its neighbours a curve may fall between trials
ROUNDING = 1e-9  # 1/s: a dip that is no deeper is rounding
HALVINGS = 30  # of the first trial damping, to a thousand-millionth of it


def least_damping(
    worst_growth: Callable[[float], float], first: float, tolerance: float = 1e-10
) -> float | None:
    """Return the least damping at which nothing grows, or None if there is none.

    From a trial that is stable the search goes down.  From one that is not, the stable range may
    lie on either side, since more damping in one place alone can be worse again: the search then
    goes up from a thousandth to a thousand times the trial.  The lower end of the range is found.

    Args:
        worst_growth: Largest growth rate of a sweep, 1/s, as a function of the damping.
        first: Damping to try first, above zero.
        tolerance: Width of the last bracket as a share of the damping.

    Returns:
        The damping, or None.
    """
    if worst_growth(0.0) <= NOISE:
        return 0.0
    if worst_growth(first) <= 0.0:
        return _down(worst_growth, first, tolerance)
    return _up(worst_growth, first / WIDEST, first * WIDEST, tolerance)


def _down(worst_growth: Callable[[float], float], first: float, tolerance: float) -> float:
    stable = first
    for halvings in range(1, HALVINGS + 1):
        trial = first / 2.0**halvings
        if worst_growth(trial) > 0.0:
            return crossing(worst_growth, trial, stable, tolerance)
        stable = trial
    return 0.0


def _up(
    worst_growth: Callable[[float], float], low: float, high: float, tolerance: float
) -> float | None:
    def growth(logarithm: float) -> float:
        return worst_growth(math.exp(logarithm))

    step = math.log(FACTOR)
    starts = (math.log(low), math.log(low) + step)
    trials = [(logarithm, growth(logarithm)) for logarithm in starts]
    searched = 0
    while trials[-1][0] < math.log(high):
        if trials[-1][1] <= 0.0:
            return math.exp(crossing(growth, trials[-2][0], trials[-1][0], tolerance))
        trials.append((trials[-1][0] + step, growth(trials[-1][0] + step)))
        before, middle, last = trials[-3:] if len(trials) > 2 else trials
        drop, bend = (choose(before[1], last[1]) - middle[1] for choose in (min, max))
        if drop > ROUNDING and middle[1] <= STEEP * bend and searched < MOST_DIPS:
            searched += 1
            dip = lowest(growth, before[0], last[0])
            if dip[1] <= 0.0:
                return math.exp(crossing(growth, before[0], dip[0], tolerance))
    return None
