"""Bad end: damping and unstable bands of an aircraft at the bad end of what is not known of it."""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.plan.run_rules import RunRules
from calc.ground.search import sweep
from calc.ground.stability import eigenvalues

Case = tuple[Rotor, Support]
_STILL = 1e-6  # rad/s, and of the rotor speed: rounding makes motion of this size of rest


@dataclass(frozen=True, slots=True)
class LeastDamped:
    """The mode with the least damping ratio at a rotor speed, as the airframe shows it.

    Attributes:
        damping_ratio: Damping ratio in the fixed frame, below zero where motion grows; scalar.
        frequency: Frequency in the fixed frame; scalar, rad/s.
    """

    damping_ratio: float
    frequency: float


@lru_cache(maxsize=10_000)
def least_damped(rotor: Rotor, support: Support, rotor_speed: float) -> LeastDamped:
    r"""Return the least damping ratio of the eight modes, and the frequency of that mode.

    $$ \zeta = \min_j \frac{-\operatorname{Re} s_j}{|s_j|} $$

    It is below zero where, and only where, the growth rate is above zero.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        rotor_speed: Constant speed of rotation; scalar, rad/s.

    Returns:
        Damping ratio and frequency in the fixed frame.

    Raises:
        ValueError: If an input cannot exist.

    Source:
        Definition of the damping ratio of an eigenvalue; common knowledge.

    Examples:
        >>> rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0)
        >>> support = Support(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
        >>> least_damped(rotor, support, 27.0).damping_ratio < 0.0
        True
    """
    moving = [
        value
        for value in eigenvalues(rotor, support, rotor_speed)
        if abs(value) > _STILL * max(rotor_speed, 1.0)
    ]
    least = min(moving, key=lambda value: (-value.real / abs(value), -value.imag))
    return LeastDamped(-least.real / abs(least), abs(least.imag))


def cases(rotor: Rotor, support: Support, rules: RunRules) -> tuple[Case, ...]:
    r"""Return the aircraft as given and at the bad ends of its uncertainties.

    Both airframe frequencies as given, both low, both high, and one low with the other high, each
    with the airframe damping and the lag damping low; and the frequencies as given with the
    airframe damping low and the lag damping high, which can be worse.  A stiffness changes by the
    square of its frequency.

    Args:
        rotor: Blades and lag hinges.
        support: Hub mass without blades, stiffness and damping in two directions.
        rules: Uncertainty of the frequencies and of the damping.

    Returns:
        The cases, that as given first; each once.

    Source:
        Devised here.
    """
    low, high = 1.0 - rules.frequency_uncertainty, 1.0 + rules.frequency_uncertainty
    less, more = 1.0 - rules.damping_uncertainty, 1.0 + rules.damping_uncertainty
    ends = [(1.0, 1.0, less), (1.0, 1.0, more)]
    ends += [(x, y, less) for x, y in itertools.product((low, high), repeat=2)]
    varied = [
        (
            replace(rotor, lag_damping=lag * rotor.lag_damping),
            replace(
                support,
                stiffness_x=x**2 * support.stiffness_x,
                stiffness_y=y**2 * support.stiffness_y,
                damping_x=less * support.damping_x,
                damping_y=less * support.damping_y,
            ),
        )
        for x, y, lag in ends
    ]
    return tuple(dict.fromkeys([(rotor, support), *varied]))


def bad_end_damping(found: Iterable[Case], rotor_speed: float) -> float:
    """Return the least damping ratio of all cases at a rotor speed."""
    return min(least_damped(*case, rotor_speed).damping_ratio for case in found)


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
        return -bad_end_damping(found, speed)

    given = sorted(rotor_speeds)
    meeting = {speed for case in found for speed in coalescence_speeds(*case)}
    inside = {speed for speed in meeting if given[0] < speed < given[-1]}
    samples = [(speed, badness(speed)) for speed in sorted({*given, *inside})]
    return sweep.unstable_bands(badness, samples, 0.0)
