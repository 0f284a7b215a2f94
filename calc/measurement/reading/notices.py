"""Notices: what a channel shows that its reader should know before trusting a line of it."""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import islice, repeat
from operator import eq, mul, sub

from calc.measurement.reading.samples import Samples, array, is_known

OFFSET = 0.1
"""From this share of the rms of what varies a mean is named."""
STUCK = 0.01
"""From this share of the record a channel that stays at one value is named."""
LEAST_STUCK = 50
FLAT = 3
"""So many equal samples at an extreme make a flat top."""
STEPS = 4.0
"""So many steps of its resolution a channel must rise within two samples before a flat top."""


@dataclass(frozen=True, slots=True)
class Spread:
    """Least, greatest and mean of what could be read, and the rms of what varies about it."""

    minimum: float
    maximum: float
    mean: float
    rms: float
    gaps: int


def spread(samples: Samples) -> Spread:
    """Return the spread of a channel, gaps left out."""
    gaps = sum(map(math.isnan, samples))
    known = array("d", filter(is_known, samples)) if gaps else samples
    if not known:
        return Spread(math.nan, math.nan, math.nan, math.nan, gaps)
    mean = math.fsum(known) / len(known)
    shifted = array("d", map(sub, known, repeat(mean)))
    varies = math.sqrt(sum(map(mul, shifted, shifted)) / len(known))
    return Spread(min(known), max(known), mean, varies, gaps)


def notices_of(
    name: str, unit: str, samples: Samples, found: Spread, time_of: Callable[[int], float]
) -> Iterator[str]:
    """Yield what is to be said of a channel of vibration.

    Args:
        name: The channel.
        unit: Its unit, for the words.
        samples: Its samples, gaps as NaN; shape (n,).
        found: Its spread.
        time_of: Gives the time of a sample in s.
    """
    if found.gaps == len(samples):
        yield f"{name}: no value could be read."
        return
    if found.minimum == found.maximum:
        yield f"{name}: all values are the same, {found.minimum:.6g}: cable, range or channel?"
        return
    if found.gaps:
        yield (
            f"{name}: {found.gaps} of {len(samples)} values are missing; straight lines bridge "
            "them in spectra."
        )
    runs = list(clipped(samples, found))
    if runs:
        at = ", ".join(f"{time_of(row):.4g} s" for row in runs[:3])
        yield (
            f"{name}: clipped {len(runs)} times, first at {at}. "
            "Amplitudes read low and multiples of the lines appear: "
            "measure again with a wider range."
        )
    two = two_levels(samples, found)
    if two:
        yield f"{name}: nearly all values are one of two, as of a tachometer: is this its channel?"
        return
    for first, last in stuck(samples):
        yield (
            f"{name}: stays at {_with(samples[first], unit)} from {time_of(first):.4g} s to "
            f"{time_of(last):.4g} s: cable, range or dropout?"
        )
    if abs(found.mean) > OFFSET * found.rms:
        yield (
            f"{name}: a mean of {_with(found.mean, unit)} beside {_with(found.rms, unit)} rms "
            "of what varies. It is taken off before spectra; it may be gravity or sensor drift."
        )


def clipped(samples: Samples, found: Spread) -> Iterator[int]:
    """Yield where each flat top begins: equal samples at an extreme, entered steeply.

    A smooth top of coarse print is flat as well, but the channel comes to it slowly.
    """
    resolution = _resolution(samples)
    starts: list[int] = []
    for extreme in (found.minimum, found.maximum):
        inward = 1.0 if extreme == found.minimum else -1.0
        at_end = bytes(map(extreme.__eq__, samples))
        at = at_end.find(b"\x01" * FLAT)
        while at >= 0:
            after = at_end.find(0, at)
            after = len(at_end) if after < 0 else after
            sides = [row for row in (at - 2, after + 1) if 0 <= row < len(samples)]
            if any(inward * (samples[row] - extreme) > STEPS * resolution for row in sides):
                starts.append(at)
            at = at_end.find(b"\x01" * FLAT, after)
    yield from sorted(starts)


def two_levels(samples: Samples, found: Spread) -> bool:
    """Return whether nearly all samples lie at one of the two extremes."""
    margin = 0.1 * (found.maximum - found.minimum)
    low = sum(map((found.minimum + margin).__ge__, samples))
    high = sum(map((found.maximum - margin).__le__, samples))
    return low + high > 0.95 * (len(samples) - found.gaps) and min(low, high) > 0


def stuck(samples: Samples) -> list[tuple[int, int]]:
    """Return the first and last samples of long stretches of one value, five at most."""
    least = max(LEAST_STUCK, int(STUCK * len(samples)))
    same = bytes(map(eq, samples, islice(samples, 1, None)))
    found: list[tuple[int, int]] = []
    at = same.find(b"\x01" * least)
    while at >= 0 and len(found) < 5:
        after = same.find(0, at)
        after = len(same) if after < 0 else after
        found.append((at, after))
        at = same.find(b"\x01" * least, after)
    return found


def _resolution(samples: Samples) -> float:
    """Return the smallest step between neighbours, of some of the samples."""
    some = samples[: 1 << 16]
    return min((abs(step) for step in map(sub, islice(some, 1, None), some) if step), default=0.0)


def _with(value: float, unit: str) -> str:
    return f"{value:.4g} {unit}".rstrip()
