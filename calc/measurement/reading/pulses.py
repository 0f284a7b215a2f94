"""Pulses: the times at which a tachometer channel rises or falls past a level."""

import math
from itertools import accumulate, pairwise
from typing import NamedTuple

from calc.measurement.pulses import pulse_faults
from calc.measurement.reading.notices import Spread
from calc.measurement.reading.samples import Samples, array, bridged
from calc.measurement.reading.settings import Settings

HYSTERESIS = 0.15
"""A pulse must pass this share of the range beyond the level on both sides, or noise counts."""

NAMED = 5
"""So many places of a kind are named; all are counted."""
LOOKED_AT = 50_000
"""So many pulses are held against their neighbours."""


class Pulses(NamedTuple):
    """Times in s of the edges, the level in the unit of the channel, and which edge it was."""

    times: Samples
    level: float
    edge: str


def pulses_of(
    samples: Samples, found: Spread, sample_rate: float, start: float, settings: Settings
) -> Pulses:
    """Return the pulses in a tachometer channel.

    The level is half-way between the extremes if none is given, and the edge is the leading one:
    rising where the channel is mostly low.  Between samples and over gaps a straight line is read.

    Args:
        samples: The channel; shape (n,), any unit.
        found: Its spread.
        sample_rate: Scalar, Hz.
        start: Time of the first sample; scalar, s.
        settings: Level and edge, where the reader gives them.
    """
    known = samples[:: max(1, len(samples) // 50_000)]
    least, most = found.minimum, found.maximum
    level = (least + most) / 2.0 if settings.threshold is None else settings.threshold
    margin = HYSTERESIS * (most - least)
    mostly_high = sum(value > level for value in known) > 0.5 * len(known)
    edge = settings.edge or ("falling" if mostly_high else "rising")
    if not most > least:
        return Pulses(array("d"), level, edge)
    samples = bridged(samples)
    above = bytes(map(min(level + margin, most).__le__, samples))
    below = bytes(map(max(level - margin, least).__ge__, samples))
    if edge == "falling":
        above, below = below, above
    return Pulses(array("d", _edges(samples, above, below, level, sample_rate, start)), level, edge)


def _edges(
    samples: Samples, past: bytes, before: bytes, level: float, rate: float, start: float
) -> list[float]:
    """Return where the samples come from one side of the level to the other."""
    edges = []
    at = before.find(1)
    while at >= 0 and (reached := past.find(1, at)) >= 0:
        row = reached
        while row - 1 > at and (samples[row - 1] - level) * (samples[reached] - level) > 0.0:
            row -= 1
        first, second = samples[row - 1], samples[row]
        share = (level - first) / (second - first) if second != first else 1.0
        edges.append(start + (row - 1 + share) / rate)
        at = before.find(1, reached)
    return edges


def pulses_of_speed(speeds: Samples, sample_rate: float, start: float) -> Samples:
    """Return when each revolution is full, from a channel of rotor speed.

    The first revolution begins with the record, so that angles count from an unknown direction.

    Args:
        speeds: Rotor speed; shape (n,), rad/s.
        sample_rate: Scalar, Hz.
        start: Time of the first sample; scalar, s.
    """
    turns = 1.0 / (2.0 * math.pi * sample_rate)
    angles = accumulate((0.5 * turns * (one + two) for one, two in pairwise(speeds)), initial=0.0)
    found, wanted, last = array("d"), 0.0, 0.0
    for row, angle in enumerate(angles):
        while wanted <= angle:
            share = (angle - wanted) / (angle - last) if angle > last else 0.0
            found.append(start + (row - share) / sample_rate)
            wanted += 1.0
        last = angle
    return found


def doubtful(times: Samples) -> list[str]:
    """Return in words where the intervals between pulses are unlike their neighbours."""
    faults = pulse_faults(times[:LOOKED_AT])
    if not faults:
        return []
    places = ", ".join(f"{fault.meaning} at {fault.time:.4g} s" for fault in faults[:NAMED])
    more = f" and {len(faults) - NAMED} more" if len(faults) > NAMED else ""
    return [f"The pulses are not even: {places}{more}. Angles after it are wrong by as much."]
