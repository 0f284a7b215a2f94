"""Speed steps: rotor speeds of a run-up, marked where they are near or in an unstable band."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from calc.declaration import Name

ORDER_VERDICT = Name("Check of the order")
SpeedBand = tuple[float, float]


class Mark(Enum):
    """What is done at a step."""

    HOLD = "hold, excite, measure the decay before the next step"
    TRANSIT = "near coalescence: pass without dwelling, only if the decay before was as predicted"
    STOP = "do not run: in or beyond a predicted unstable band"


@dataclass(frozen=True, slots=True)
class SpeedStep:
    """A rotor speed of a run-up and what is done there."""

    rotor_speed: float
    mark: Mark


def speed_steps(
    speeds: tuple[float, float, float],
    bands: Sequence[SpeedBand],
    coalescence: Sequence[float],
    keep_clear: float,
) -> list[SpeedStep]:
    """Return the steps of a run-up with their marks.

    Args:
        speeds: Lowest speed, highest speed and step; rad/s.
        bands: Predicted unstable bands, widened by no margin; rad/s.
        coalescence: Coalescence speeds; rad/s.
        keep_clear: Share of a coalescence speed within which a step is not held; scalar.

    Returns:
        The steps, in ascending order of rotor speed; the last is the highest speed.

    Source:
        Template devised here.
    """
    lowest, highest, step = speeds
    count = math.floor((highest - lowest) / step + 1e-9) + 1
    run = [lowest + step * number for number in range(count)]
    if run[-1] < highest * (1.0 - 1e-9):
        run.append(highest)
    return [SpeedStep(speed, _mark(speed, bands, coalescence, keep_clear)) for speed in run]


def unmarked_crossings(
    steps: Sequence[SpeedStep], bands: Sequence[SpeedBand]
) -> list[tuple[SpeedStep, SpeedStep]]:
    """Return pairs of steps, in the order given, that touch an unstable band without a stop mark.

    Args:
        steps: Steps in the order in which they are run, up or down.
        bands: Predicted unstable bands; rad/s.

    Returns:
        Each pair of neighbours whose way touches a band while the second is not marked to stop.
    """
    starts = [steps[0], *steps[:-1]] if steps else []
    return [
        (before, after)
        for before, after in zip(starts, steps, strict=True)
        if after.mark is not Mark.STOP
        and any(
            min(before.rotor_speed, after.rotor_speed) < high
            and max(before.rotor_speed, after.rotor_speed) > low
            for low, high in bands
        )
    ]


def order_verdict(unmarked: int) -> str:
    """Return what a number of unmarked crossings means, as a sentence."""
    if unmarked == 1:
        return "1 step touches an unstable band without a mark"
    if unmarked:
        return f"{unmarked} steps touch an unstable band without a mark"
    return "Every step that enters or crosses an unstable band is marked"


def _mark(
    speed: float, bands: Sequence[SpeedBand], coalescence: Sequence[float], keep_clear: float
) -> Mark:
    if any(speed >= low for low, _ in bands):
        return Mark.STOP
    if any(abs(speed - near) <= keep_clear * near for near in coalescence):
        return Mark.TRANSIT
    return Mark.HOLD
