"""Bad end: damping and unstable bands of an aircraft at the bad end of what is not known of it."""

import itertools
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache

from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.model.creep import swinging
from calc.ground.plan.run_rules import RunRules
from calc.ground.search import sweep
from calc.ground.search.least_damped import ratio
from calc.ground.stability import eigenvalues

Case = tuple[Rotor, Support]
Factors = tuple[float, ...]
"""Factors on the frequency in x and in y, the damping in x and in y, and the lag damping."""
GIVEN: Factors = (1.0, 1.0, 1.0, 1.0, 1.0)
SEARCHED = 5.0
"""The bad end is searched where its damping is below this multiple of the least to excite."""
STARTS, PASSES = 2, 2  # from so many corners, and so many times over the uncertainties
_STILL = 1e-6  # rad/s, and of the rotor speed: rounding makes motion of this size of rest


@dataclass(frozen=True, slots=True)
class SeenMode:
    """A mode at a rotor speed, as the airframe shows it.

    Attributes:
        damping_ratio: Damping ratio in the fixed frame, below zero where motion grows; scalar.
        frequency: Frequency in the fixed frame; scalar, rad/s.
    """

    damping_ratio: float
    frequency: float


@lru_cache(maxsize=20_000)
def seen_modes(rotor: Rotor, support: Support, rotor_speed: float) -> tuple[SeenMode, ...]:
    r"""Return the modes that can be excited and measured, the least damped first.

    $$ \zeta_j = \frac{-\operatorname{Re} s_j}{|s_j|} $$

    A damping ratio is below zero where, and only where, the mode grows.  Creep of heavily damped
    blades, which the airframe shows at about once per revolution, is left out unless it grows.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speed: Constant speed of rotation; scalar, rad/s.

    Returns:
        Damping ratio and frequency of each mode in the fixed frame.

    Raises:
        ValueError: If an input cannot exist.

    Source:
        Definition of the damping ratio of an eigenvalue; common knowledge.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0)
        >>> support = Support(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
        >>> seen_modes(rotor, support, 27.0)[0].damping_ratio < 0.0
        True
    """
    values = swinging(rotor, rotor_speed, eigenvalues(rotor, support, rotor_speed))
    smallest = _STILL * max(rotor_speed, 1.0)
    moving = [value for value in values if value.imag >= 0.0 and abs(value) > smallest]
    found = [SeenMode(ratio(value), value.imag) for value in moving]
    return tuple(sorted(found, key=lambda mode: (mode.damping_ratio, mode.frequency)))


def varied(rotor: Rotor, support: Support, factors: Factors) -> Case:
    """Return an aircraft with its frequencies and dampings changed by factors.

    A stiffness changes by the square of its frequency.
    """
    x, y, damping_x, damping_y, lag = factors
    return (
        replace(rotor, lag_damping=lag * rotor.lag_damping),
        replace(
            support,
            stiffness_x=x**2 * support.stiffness_x,
            stiffness_y=y**2 * support.stiffness_y,
            damping_x=damping_x * support.damping_x,
            damping_y=damping_y * support.damping_y,
        ),
    )


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


def cases(rotor: Rotor, support: Support, rules: RunRules) -> tuple[Case, ...]:
    """Return the aircraft as given, and at the corners of its uncertainties; each once."""
    found = dict.fromkeys([GIVEN, *corners(rules)])
    return tuple(varied(rotor, support, factors) for factors in found)


def least_damping(found: Iterable[Case], rotor_speed: float) -> float:
    """Return the least damping ratio of all cases at a rotor speed."""
    return min(seen_modes(*case, rotor_speed)[0].damping_ratio for case in found)


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

    @cache
    def damping(factors: Factors) -> float:
        return seen_modes(*varied(rotor, support, factors), rotor_speed)[0].damping_ratio

    worst = sorted((GIVEN, *corners(rules)), key=damping)[:STARTS]
    if damping(worst[0]) > SEARCHED * rules.least_damping:
        return damping(worst[0])
    off, wide = rules.frequency_uncertainty, rules.damping_uncertainty
    frequencies = tuple(1.0 + part * off for part in (-1.0, -0.5, 0.0, 0.5, 1.0))
    levels = (*(frequencies,) * 2, *((1.0 - wide, 1.0 + wide),) * 3)
    return min(damping(_descended(damping, start, levels)) for start in worst)


def _descended(
    damping: Callable[[Factors], float], start: Factors, levels: Sequence[Sequence[float]]
) -> Factors:
    """Return the factors with the least damping that are found by moving one after another."""
    worst = start
    for _ in range(PASSES):
        before = worst
        for place, own in enumerate(levels):
            moved = [(*worst[:place], level, *worst[place + 1 :]) for level in own]
            worst = min([worst, *moved], key=damping)
        if worst == before:
            break
    return worst


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
    samples = [(speed, badness(speed)) for speed in sorted({*given, *inside})]
    return sweep.unstable_bands(badness, samples, 0.0)
