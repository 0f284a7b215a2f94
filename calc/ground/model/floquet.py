"""Floquet: growth of blades that differ, on any number of support modes.

The coefficients then repeat with every revolution, in any frame.  One revolution is integrated
step by step from each unit state; the eigenvalues of what the unit states have become say what
each motion grows by in a revolution.
"""

import cmath
import itertools
import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from operator import mul

from calc import linalg
from calc.ground.model.aircraft import Rotor
from calc.ground.model.blade_by_blade import by_power, coefficients
from calc.ground.model.creep import creep_rates, is_creep
from calc.ground.model.general_support import (
    GeneralSupport,
    coupling,
    natural_frequencies,
    with_blades,
)
from calc.numeric.matrix import null_vector, product

REACH = 0.8  # rad: the fastest motion turns by no more than this in a step
MOST_KEPT = 1000  # rotor speeds of a rotor
MOST_STEPS = 600  # in a revolution; more are refused
AT_REST = 1e-3  # hub motion against what the pull of the blades would give, no more than this
SMALLEST = 1e-300  # a multiplier that has decayed beyond any number


def growth_rates(
    rotor: Rotor,
    support: GeneralSupport,
    rotor_speed: float,
    lag_dampings: Sequence[float],
    lag_stiffnesses: Sequence[float] = (),
    reach: float = REACH,
) -> list[float]:
    r"""Return the real parts of the 2 (N_b + m) characteristic exponents, highest first.

    $$ q(T) = \Phi q(0), \qquad T = \frac{2 \pi}{\Omega}, \qquad
    \sigma_j = \frac{\ln |\lambda_j(\Phi)|}{T} $$

    Args:
        rotor: Two or more blades; its own lag damping is not used.
        support: Matrices of m support coordinates without blades, and the motion of the hub.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        lag_dampings: Damping of each blade, infinite where its hinge is locked; shape (N_b,),
            N·m·s/rad.
        lag_stiffnesses: Lag spring of each blade, that of the rotor if left out; shape (N_b,),
            N·m/rad.
        reach: Angle by which the fastest motion may turn in a step; scalar, rad.

    Returns:
        Growth rates; shape (2 N_b + 2 m,), 1/s, without those of locked blades.

    Raises:
        ValueError: If a revolution is too slow to be followed.

    Source:
        Hammond (1974), the method; equations derived anew.
    """
    springs = tuple(lag_stiffnesses) or (rotor.lag_stiffness,) * rotor.blades
    found, period = _multipliers(rotor, support, rotor_speed, lag_dampings, springs, reach)
    return sorted((_rate(value, period) for value in found), reverse=True)


def look_ahead(
    rotor: Rotor,
    support: GeneralSupport,
    rotor_speeds: Sequence[float],
    lag_dampings: Sequence[float],
    lag_stiffnesses: Sequence[float] = (),
    reach: float = REACH,
) -> None:
    """Find at once what will be asked for at rotor speeds; arguments are as of `growth_rates`."""
    springs = tuple(lag_stiffnesses) or (rotor.lag_stiffness,) * rotor.blades
    _revolutions(rotor, support, tuple(lag_dampings), springs).along(rotor_speeds, reach)


def swinging_rate(
    rotor: Rotor,
    support: GeneralSupport,
    rotor_speed: float,
    lag_dampings: Sequence[float],
    reach: float = REACH,
) -> float:
    """Return the highest growth rate of the motions that swing, or that grow.

    A blade whose damper is so heavy that it creeps back does not swing; its decay, however slow,
    says nothing of resonance and is left out.  Arguments are as of `growth_rates`.
    """
    springs = (rotor.lag_stiffness,) * rotor.blades
    found, period = _multipliers(rotor, support, rotor_speed, lag_dampings, springs, reach)
    creeps = creep_rates(rotor, rotor_speed, lag_dampings)
    return _rate(_least_stable(found, period, creeps), period)


def least_stable(
    rotor: Rotor, support: GeneralSupport, rotor_speed: float, lag_dampings: Sequence[float]
) -> complex:
    """Return growth rate and frequency of the least stable motion that swings, or that grows.

    The frequency is that of the hub.  An exponent has its frequency but for whole multiples of the
    rotor speed.  The multiple is the one at which the hub moves most; where the hub is all but at
    rest, the one at which the blades lag most.

    Args:
        rotor: Two or more blades; its own lag damping is not used.
        support: Matrices of the support coordinates without blades, and the motion of the hub.
        rotor_speed: Constant speed of rotation, above zero; scalar, rad/s.
        lag_dampings: Damping of each blade, infinite where its hinge is locked; shape (N_b,),
            N·m·s/rad.

    Returns:
        Growth rate as the real part, 1/s, and frequency as the imaginary part, rad/s.

    Raises:
        ValueError: As `growth_rates`.

    Source:
        Hammond (1974), the method; the choice of the multiple is our own.
    """
    springs = (rotor.lag_stiffness,) * rotor.blades
    period, steps = _steps(rotor, support, rotor_speed, springs, REACH)
    known = coefficients(rotor, support, rotor_speed, lag_dampings, springs)
    pieces = 4 * math.ceil(max(16.0, steps * REACH / math.pi) / 4.0)
    times = [period * number / pieces for number in range(pieces + 1)]
    moves = [
        linalg.transition(known, rotor_speed, span, math.ceil(steps / pieces))
        for span in itertools.pairwise(times)
    ]
    whole = moves[0]
    for move in moves[1:]:
        whole = product(move, whole)
    creeps = creep_rates(rotor, rotor_speed, lag_dampings)
    multiplier = _least_stable(linalg.eigenvalues(whole), period, creeps)
    exponent = cmath.log(multiplier) / period
    state = null_vector(
        [[e - multiplier * (i == j) for j, e in enumerate(row)] for i, row in enumerate(whole)]
    )
    free = len(state) // 2 - len(support.x)
    hub, blades = [], []
    for time, move in zip(times, moves, strict=False):
        turned = [cmath.exp(-exponent * time) * part for part in state[: len(state) // 2]]
        hub.append([sum(map(mul, shape, turned[free:])) for shape in (support.x, support.y)])
        blades.append(turned[:free])
        state = [sum(map(mul, row, state)) for row in move]
    arm = rotor.first_moment / with_blades(rotor, support)[0][0]
    is_seen = _largest(hub) > AT_REST * arm * _largest(blades)
    motion = hub if is_seen else blades
    multiple = max(range(-pieces // 2, pieces // 2), key=lambda number: _strength(motion, number))
    return complex(exponent.real, abs(exponent.imag + multiple * rotor_speed))


def _multipliers(
    rotor: Rotor,
    support: GeneralSupport,
    rotor_speed: float,
    lag_dampings: Sequence[float],
    springs: Sequence[float],
    reach: float,
) -> tuple[list[complex], float]:
    """Return what each motion is multiplied by in the time of a revolution, and that time."""
    known = _revolutions(rotor, support, tuple(lag_dampings), tuple(springs))
    return known.along([rotor_speed], reach)[0]


class _Revolutions:
    """What the motions of one rotor are multiplied by in a revolution, kept by rotor speed."""

    def __init__(
        self,
        rotor: Rotor,
        support: GeneralSupport,
        lag_dampings: tuple[float, ...],
        springs: tuple[float, ...],
    ) -> None:
        self._given = rotor, support
        self._springs = springs
        self._turning = linalg.Turning(by_power(rotor, support, lag_dampings, springs))
        self._known: dict[tuple[float, float], tuple[list[complex], float]] = {}

    def along(
        self, rotor_speeds: Iterable[float], reach: float
    ) -> list[tuple[list[complex], float]]:
        """Return multipliers and the time of a revolution at rotor speeds, found at once."""
        asked = [(speed, reach) for speed in rotor_speeds]
        known = self._known
        missing = [key for key in dict.fromkeys(asked) if key not in known]
        if missing:
            turns = [_steps(*self._given, speed, self._springs, reach) for speed, _ in missing]
            found = self._turning.multipliers(
                [(speed, *turn) for (speed, _), turn in zip(missing, turns, strict=True)]
            )
            if len(known) + len(missing) > MOST_KEPT:
                known = {key: known[key] for key in asked if key in known}
            periods = [period for period, _ in turns]
            new = dict(zip(missing, zip(found, periods, strict=True), strict=True))
            known = self._known = known | new
        return [known[key] for key in asked]


@lru_cache(maxsize=64)
def _revolutions(
    rotor: Rotor,
    support: GeneralSupport,
    lag_dampings: tuple[float, ...],
    springs: tuple[float, ...],
) -> _Revolutions:
    return _Revolutions(rotor, support, lag_dampings, springs)


def _least_stable(multipliers: Sequence[complex], period: float, creeps: list[float]) -> complex:
    """Return the largest multiplier but for those of blades that only creep back."""
    swinging = [
        value
        for value in multipliers
        if not (abs(value) > SMALLEST and is_creep(cmath.log(value) / period, creeps))
    ]
    return max(swinging or multipliers, key=abs)


def _rate(multiplier: complex, period: float) -> float:
    return math.log(max(abs(multiplier), SMALLEST)) / period


def _steps(
    rotor: Rotor,
    support: GeneralSupport,
    rotor_speed: float,
    springs: Sequence[float],
    reach: float,
) -> tuple[float, int]:
    """Return the time of a revolution and the steps that it takes; at rest any time will do."""
    centrifugal = rotor.hinge_offset * rotor.first_moment * rotor_speed**2
    lag = math.sqrt((max(springs) + centrifugal) / rotor.lag_inertia)
    fastest = max(natural_frequencies(rotor, support)[-1], rotor_speed + lag)
    fastest /= math.sqrt(1.0 - coupling(rotor, support))
    period = 2.0 * math.pi / (rotor_speed or 4.0 * fastest)
    steps = max(4, math.ceil(period * fastest / reach))
    if steps > MOST_STEPS:
        slowest = 60.0 * fastest / (reach * MOST_STEPS)
        raise ValueError(f"With unlike lag dampers a rotor speed must be above {slowest:.1f} rpm")
    return period, steps


def _strength(motion: Sequence[Sequence[complex]], multiple: int) -> float:
    """Return how strong a motion over one revolution is at a multiple of the rotor speed."""
    turns = [cmath.exp(-2j * math.pi * multiple * n / len(motion)) for n in range(len(motion))]
    return math.fsum(abs(sum(map(mul, turns, parts))) ** 2 for parts in zip(*motion, strict=True))


def _largest(motion: Sequence[Sequence[complex]]) -> float:
    return max((abs(part) for parts in motion for part in parts), default=0.0)
