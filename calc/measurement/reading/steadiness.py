"""Steadiness: how far rotor speed runs during a record, and what that does to a spectrum."""

import math
from collections.abc import Sequence
from itertools import pairwise

from calc.units import RPM

DRIFT = 0.01
"""From this share of the mean speed a range of speeds is named."""
OUTSIDE = 0.02
"""So large a share of the intervals at either end is left out: single pulses are jagged."""


def speeds_of(pulse_times: Sequence[float], pulses_per_revolution: int) -> list[float]:
    """Return the mean speed of each interval between pulses; shape (n - 1,), rad/s."""
    turn = 2.0 * math.pi / pulses_per_revolution
    return [turn / (after - before) for before, after in pairwise(pulse_times)]


def unsteady(speeds: Sequence[float]) -> str:
    """Return in words over which range rotor speed runs, or nothing where it is steady.

    Args:
        speeds: Rotor speeds through the record; shape (n,), rad/s.
    """
    ordered = sorted(speeds)
    out = int(OUTSIDE * len(ordered))
    low, high = ordered[out], ordered[-1 - out]
    if high - low <= DRIFT * 0.5 * (high + low):
        return ""
    return (
        f"Rotor speed runs from {RPM.reading(low):.4g} to {RPM.reading(high):.4g} rpm: its lines "
        "are smeared in a spectrum of the whole record. Look at orders, or at a waterfall."
    )
