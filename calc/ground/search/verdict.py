"""Verdict: what a sweep over rotor speed found, in words and numbers."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name, Table
from calc.ground.quantities import GROWTH_RATE
from calc.ground.search.least_damped import (
    LEAST_DAMPED_FREQUENCY,
    LEAST_DAMPED_SPEED,
    LEAST_DAMPING_RATIO,
    LeastDamped,
)
from calc.quantity import Quantity
from calc.units import ROTATION, TIME

LOWER_SPEED = Quantity(r"\Omega_1", "From rotor speed", ROTATION)
UPPER_SPEED = Quantity(r"\Omega_2", "To rotor speed", ROTATION)
WORST_SPEED = Quantity(r"\Omega_w", "Worst rotor speed", ROTATION, precision=1e-5)
"""Where a curve peaks is known only to the root of the rounding of its height."""

TIME_TO_DOUBLE = Quantity("t_2", "Time to double, or to halve where it decays", TIME)
VERDICT = Name("Verdict")


@dataclass(frozen=True, slots=True)
class UnstableBand:
    """Rotor speeds between which a disturbance grows."""

    lower_speed: Annotated[float, LOWER_SPEED]
    upper_speed: Annotated[float, UPPER_SPEED]


BANDS = Table("Unstable bands of rotor speed", UnstableBand)


@dataclass(frozen=True, slots=True)
class Verdict:
    """The least stable motion of a sweep, and the bands in which it grows."""

    verdict: Annotated[str, VERDICT]
    worst_speed: Annotated[float, WORST_SPEED]
    growth_rate: Annotated[float, GROWTH_RATE]
    time_to_double: Annotated[float, TIME_TO_DOUBLE]
    damping_ratio: Annotated[float, LEAST_DAMPING_RATIO]
    damped_speed: Annotated[float, LEAST_DAMPED_SPEED]
    frequency: Annotated[float, LEAST_DAMPED_FREQUENCY]
    bands: Annotated[tuple[UnstableBand, ...], BANDS]


def verdict(
    worst: tuple[float, float],
    bands: Sequence[tuple[float, float]],
    least: LeastDamped,
    swept: tuple[float, float],
) -> Verdict:
    """Return the verdict on a sweep: its worst point, unstable bands and least damped motion."""
    return Verdict(
        verdict=words(bands, worst[0], swept),
        worst_speed=worst[0],
        growth_rate=worst[1],
        time_to_double=time_to_double(worst[1]),
        damping_ratio=least.damping_ratio,
        damped_speed=least.rotor_speed,
        frequency=least.frequency,
        bands=tuple(UnstableBand(*band) for band in bands),
    )


def words(
    bands: Sequence[tuple[float, float]], worst_speed: float, swept: tuple[float, float]
) -> str:
    """Return whether a sweep is stable, as a sentence; a worst speed at its end is said to be."""
    if not bands:
        end = dict(zip(swept, ("lowest", "highest"), strict=True)).get(worst_speed)
        where = f"; least stable at its {end} rotor speed" if end else ""
        return f"Stable at every rotor speed of the sweep{where}"
    count = "one band" if len(bands) == 1 else f"{len(bands)} bands"
    return f"Unstable in {count} of rotor speed"


def time_to_double(growth_rate: float) -> float:
    """Return the time in which a motion doubles, or halves if it decays, s.

    Examples:
        >>> round(time_to_double(0.5), 4), round(time_to_double(-0.5), 4)
        (1.3863, 1.3863)
    """
    return math.log(2.0) / abs(growth_rate) if growth_rate else math.inf
