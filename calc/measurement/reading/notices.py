"""Notices: what a channel shows that its reader should know before trusting a line of it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice, repeat
from operator import mul, sub

from calc.measurement.reading.cells import unit_of
from calc.measurement.reading.filtering import unfiltered
from calc.measurement.reading.rest import LEAST_STUCK, at_rest, valued
from calc.measurement.reading.samples import Samples, array, is_known

VOLTS = {"", "v", "mv"}
OFFSET = 0.1
"""From this share of the rms of what varies a mean is named."""
FLAT = 3
"""So many equal samples at an extreme make a flat top."""
CANCELS = 1e-4
"""Below this share of its mean square what varies is summed up about the mean."""
SAMPLED = 20_000
"""So many samples tell whether a channel has two levels."""
PIECES, SHORTEST = 16, 250
"""Pieces of a record whose own extremes are looked at, and the fewest samples of one."""
RECURS = 3
"""So many flat tops at the extreme of a piece are no chance, where the record goes beyond it."""
MOST_TOPS = 100_000
"""So many times is an extreme looked for."""
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
    known, gaps = samples, 0
    if not math.isfinite(sum(samples)):
        known = array("d", filter(is_known, samples))
        gaps = len(samples) - len(known)
    if not known:
        return Spread(math.nan, math.nan, math.nan, math.nan, gaps)
    mean = sum(known) / len(known)
    square = sum(map(mul, known, known)) / len(known) - mean**2
    if square < CANCELS * mean**2:
        shifted = array("d", map(sub, known, repeat(mean)))
        square = sum(map(mul, shifted, shifted)) / len(known)
    return Spread(min(known), max(known), mean, math.sqrt(square), gaps)


def notices_of(
    name: str, unit: str, samples: Samples, found: Spread, start: float, sample_rate: float
) -> Iterator[str]:
    """Yield what is to be said of a channel.

    Args:
        name: The channel.
        unit: Its unit.  Mean and filter are looked at where it is one of vibration or volts.
        samples: Its samples, gaps as NaN; shape (n,).
        found: Its spread.
        start: Time of the first sample; scalar, s.
        sample_rate: Scalar, Hz.
    """

    def time_of(row: int) -> float:
        return start + row / sample_rate

    if found.gaps == len(samples):
        yield f"{name}: no value could be read."
        return
    if found.minimum == found.maximum:
        yield f"{name}: all values are the same, {found.minimum:.6g}: cable, range or channel?"
        return
    if found.gaps:
        yield (
            f"{name}: 1 of {len(samples)} values is missing; a straight line bridges it in spectra."
            if found.gaps == 1
            else f"{name}: {found.gaps} of {len(samples)} values are missing; straight lines "
            "bridge them in spectra."
        )
    within = list(clipped_within(samples, found))
    if runs := sorted([*clipped(samples, found), *within]):
        at = ", ".join(f"{time_of(row):.4g} s" for row in runs[:3])
        changed = (
            f" {len(within)} of the flat tops lie inside the extremes of the record: did the range "
            "change, or another instrument limit it?"
        )
        yield (
            f"{name}: clipped {len(runs)} times, first at {at}. "
            "Amplitudes read low and multiples of the lines appear: "
            f"measure again with a wider range.{changed if within else ''}"
        )
    two = two_levels(samples, found)
    if two:
        yield f"{name}: nearly all values are one of two, as of a tachometer: is this its channel?"
        return
    yield from at_rest(name, unit, samples, time_of)
    if unit.casefold() in VOLTS or unit_of(unit) is not None:
        yield from (f"{name}: {told}" for told in _of_vibration(unit, samples, found, sample_rate))


def _of_vibration(unit: str, samples: Samples, found: Spread, sample_rate: float) -> Iterator[str]:
    """Yield what is to be said of the mean of a channel and of what no filter took away."""
    if abs(found.mean) > OFFSET * found.rms:
        yield (
            f"a mean of {valued(found.mean, unit)} beside {valued(found.rms, unit)} rms of what "
            "varies. It is taken off before spectra; it may be gravity or sensor drift."
        )
    if not found.gaps and (told := unfiltered(samples, sample_rate)):
        yield told


def clipped(samples: Samples, found: Spread) -> Iterator[int]:
    """Yield where flat tops begin, in no order: equal samples at an extreme, entered steeply.

    A smooth top of coarse print is flat as well, but the channel comes to it slowly.
    """
    resolution = _resolution(samples)
    for extreme in (found.minimum, found.maximum):
        for first, _ in _tops(samples, extreme, resolution):
            yield first


def clipped_within(samples: Samples, found: Spread) -> Iterator[int]:
    """Yield where flat tops begin at an extreme of a piece of the record that is not its own.

    So they lie where the range changed within the record.  A channel at rest is not clipped.
    """
    resolution = _resolution(samples)
    step = max(SHORTEST, -(-len(samples) // PIECES))
    for begin in range(0, len(samples), step):
        piece = samples[begin : begin + step]
        known = array("d", filter(is_known, piece)) if found.gaps else piece
        extremes = {min(known), max(known)} if known else set()
        for extreme in extremes - {found.minimum, found.maximum}:
            flat = array("d", [extreme] * FLAT).tobytes()
            if piece.tobytes().count(flat) < RECURS:
                continue  # at once, in a record of millions of samples
            tops = list(_tops(piece, extreme, resolution))
            short = [first for first, last in tops if last - first < LEAST_STUCK]
            if len(short) >= RECURS:
                yield from (begin + first for first in short)


def _tops(samples: Samples, extreme: float, resolution: float) -> Iterator[tuple[int, int]]:
    """Yield first and last sample of the flat tops at an extreme that are entered steeply."""
    for first, last in _runs(samples, extreme):
        sides = [row for row in (first - 2, last + 2) if 0 <= row < len(samples)]
        if any(abs(samples[row] - extreme) > STEPS * resolution for row in sides):
            yield first, last


def _runs(samples: Samples, value: float) -> Iterator[tuple[int, int]]:
    """Yield first and last of the runs at a value that are long enough for a flat top."""
    first = 0
    for _ in range(MOST_TOPS):
        try:
            first = last = samples.index(value, first)
        except ValueError:
            return
        while last + 1 < len(samples) and samples[last + 1] == value:
            last += 1
        if last - first + 1 >= FLAT:
            yield first, last
        first = last + 1


def two_levels(samples: Samples, found: Spread) -> bool:
    """Return whether nearly all samples lie at one of the two extremes."""
    some = samples[:: max(1, len(samples) // SAMPLED)]
    margin = 0.1 * (found.maximum - found.minimum)
    low = sum(map((found.minimum + margin).__ge__, some))
    high = sum(map((found.maximum - margin).__le__, some))
    return low + high > 0.95 * len(some) and min(low, high) > 0


def _resolution(samples: Samples) -> float:
    """Return the smallest step between neighbours, of some of the samples."""
    some = samples[:SAMPLED]
    return min((abs(step) for step in map(sub, islice(some, 1, None), some) if step), default=0.0)
