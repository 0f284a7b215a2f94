"""Bad end: damping and unstable bands of an aircraft at the bad end of what is not known of it."""

import itertools
from collections.abc import Iterable, Sequence
from functools import lru_cache

from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.plan.run_rules import RunRules
from calc.ground.plan.seen_modes import least_damping_of
from calc.ground.plan.variation import GIVEN, Case, Factors, Neighbours, varied
from calc.ground.search import sweep

SEARCHED = 5.0
"""The bad end is searched where its damping is below this multiple of the least to excite."""
STARTS = 2  # the search goes from so many corners


def corners(rules: RunRules) -> tuple[Factors, ...]:
    """Return the factors of the bad ends: frequencies as given and off, lag damping low and high.

    Both airframe frequencies as given, both low, both high, and one low with the other high, each
    with the airframe damping low and with the lag damping low or high.

    Args:
        rules: Uncertainty of the frequencies and of the damping.

    Returns:
        The factors, each once.

    Source:
        Devised here.
    """
    low, high = 1.0 - rules.frequency_uncertainty, 1.0 + rules.frequency_uncertainty
    less, more = 1.0 - rules.damping_uncertainty, 1.0 + rules.damping_uncertainty
    frequencies = [(1.0, 1.0), *itertools.product((low, high), repeat=2)]
    return tuple(
        dict.fromkeys((x, y, less, less, lag) for x, y in frequencies for lag in (less, more))
    )


@lru_cache(maxsize=64)
def cases(rotor: Rotor, support: Support, rules: RunRules) -> tuple[Case, ...]:
    """Return the aircraft as given, and at the corners of its uncertainties; each once."""
    found = dict.fromkeys([GIVEN, *corners(rules)])
    return tuple(varied(rotor, support, factors) for factors in found)


def least_damping(found: Iterable[Case], rotor_speed: float) -> float:
    """Return the least damping ratio of all cases at a rotor speed."""
    return min(least_damping_of(*case).at(rotor_speed) for case in found)


def least_dampings(found: Iterable[Case], rotor_speeds: Iterable[float]) -> list[float]:
    """Return the least damping ratio of all cases at each of many rotor speeds."""
    speeds = list(rotor_speeds)
    dampings = [least_damping_of(*case).along(speeds) for case in found]
    return [min(own) for own in zip(*dampings, strict=True)]


@lru_cache(maxsize=4096)
def damping_within(rotor: Rotor, support: Support, rules: RunRules, rotor_speed: float) -> float:
    """Return the least damping ratio that is found within the uncertainties at a rotor speed.

    Where the worst corner has less than a few times the least damping at which to excite, the
    search goes on from the two worst corners: each frequency, each airframe damping and the lag
    damping is moved in turn to where the damping ratio is least, a frequency over its range in
    five places, until nothing moves, twice at most.

    Args:
        rotor: Blades and lag hinges.
        support: Hub mass without blades, stiffness and damping in two directions.
        rules: Uncertainty of the frequencies and of the damping.
        rotor_speed: Constant speed of rotation; scalar, rad/s.

    Returns:
        The damping ratio.

    Source:
        Devised here.
    """
    known = {
        factors: least_damping_of(*case).at(rotor_speed)
        for factors, case in zip(
            dict.fromkeys([GIVEN, *corners(rules)]), cases(rotor, support, rules), strict=True
        )
    }
    worst = sorted(known, key=known.__getitem__)[:STARTS]
    if known[worst[0]] > SEARCHED * rules.least_damping:
        return known[worst[0]]
    off, wide = rules.frequency_uncertainty, rules.damping_uncertainty
    frequencies = tuple(1.0 + part * off for part in (-1.0, -0.5, 0.0, 0.5, 1.0))
    levels = (*(frequencies,) * 2, *((1.0 - wide, 1.0 + wide),) * 3)
    near = Neighbours(rotor, support, rotor_speed, known)
    return min(near.descended(start, levels) for start in worst)


def bad_end_bands(
    found: Sequence[Case], rotor_speeds: Iterable[float]
) -> tuple[tuple[float, float], ...]:
    """Return the bands of rotor speed in which a disturbance grows in any of the cases.

    Args:
        found: Cases of one aircraft.
        rotor_speeds: Speeds that sample the sweep, its ends among them; rad/s.

    Returns:
        Lowest and highest rotor speed of each band in ascending order, rad/s.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.
    """

    def badness(speed: float) -> float:
        return -least_damping(found, speed)

    given = sorted(rotor_speeds)
    meeting = {speed for case in found for speed in coalescence_speeds(*case)}
    inside = {speed for speed in meeting if given[0] < speed < given[-1]}
    speeds = sorted({*given, *inside})
    dampings = least_dampings(found, speeds)
    samples = [(speed, -damping) for speed, damping in zip(speeds, dampings, strict=True)]
    return sweep.unstable_bands(badness, samples, 0.0)
