"""Speed bands: the ranges of one speed to avoid, and the free ranges between them."""

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from calc.digits import plain
from calc.harmonics.meetings import NONE, ROTOR, SECOND, Meeting
from calc.units import RPM

Limits = tuple[float, float]


class Range(NamedTuple):
    """A range of a speed, rad/s, its edges with exact frequencies, and what coincides in it."""

    low: float
    high: float
    inner_low: float
    inner_high: float
    reasons: tuple[str, ...]


def rotor_ranges(met: Iterable[Meeting], second: Limits) -> Iterator[Range]:
    """Yield the ranges of rotor speed to avoid while the second speed has its operating range."""
    for m in met:
        if m.first.follows == ROTOR and not m.always:
            alone = m.second.follows == NONE
            low, high = (1.0, 1.0) if alone else second
            words = m.words if alone else f"{m.words} {with_other('propeller', second)}"
            yield Range(
                m.low * low, m.high * high, m.inner_low * low, m.inner_high * high, (words,)
            )


def second_ranges(met: Iterable[Meeting], rotor: Limits) -> Iterator[Range]:
    """Yield the ranges of the second speed to avoid while the rotor has its operating range."""
    low, high = rotor
    for m in met:
        if m.always:
            continue
        if m.first.follows == SECOND:
            yield Range(m.low, m.high, m.inner_low, m.inner_high, (m.words,))
        elif m.second.follows == SECOND:
            words = f"{m.words} {with_other('rotor', rotor)}"
            yield Range(
                low / m.high, high / m.low, low / m.inner_high, high / m.inner_low, (words,)
            )


def with_other(shaft: str, speeds: Limits) -> str:
    """Return in words at which speeds of the other shaft, named, a range holds."""
    low, high = (plain(RPM.reading(speed), 5) for speed in speeds)
    speed = low if low == high else f"{low} to {high}"
    return f"(with the {shaft} at {speed} rpm)"


def merged(ranges: Iterable[Range], low: float, high: float) -> list[Range]:
    """Return the parts of ranges between two limits, lowest first, those that overlap as one."""
    found: list[Range] = []
    for new in sorted(ranges):
        if new.high < low or new.low > high:
            continue
        cut = Range(
            max(new.low, low),
            min(new.high, high),
            min(max(new.inner_low, low), high),
            max(min(new.inner_high, high), low),
            new.reasons,
        )
        if found and cut.low <= found[-1].high:
            old = found.pop()
            cut = Range(
                old.low,
                max(old.high, cut.high),
                min(old.inner_low, cut.inner_low),
                max(old.inner_high, cut.inner_high),
                old.reasons + cut.reasons,
            )
        found.append(cut)
    return found


def gaps(ranges: Iterable[Range], low: float, high: float) -> Iterator[tuple[float, float]]:
    """Yield what ranges to avoid leave free between two limits."""
    for found in ranges:
        if found.low > low:
            yield low, found.low
        low = found.high
    if low < high:
        yield low, high


def found_ends(low: float, high: float, limits: Limits) -> tuple[float | None, float | None]:
    """Return the ends of a range to avoid; None for one that is only an end of the search.

    The range goes on beyond such an end, and nothing is known of how far.
    """
    return (low if low > limits[0] else None), (high if high < limits[1] else None)


def in_words(first: int | None, last: int | None) -> str:
    """Return a range to avoid in whole rpm, in words where it goes on beyond the search.

    Examples:
        >>> in_words(261, 286), in_words(261, None), in_words(None, 208)
        ('261 to 286 rpm', '261 rpm to the end of the search', 'the start of the search to 208 rpm')
    """
    if first is not None and last is not None:
        return f"{first} to {last} rpm"
    low = "the start of the search" if first is None else f"{first} rpm"
    return f"{low} to {'the end of the search' if last is None else f'{last} rpm'}"


def outward(low: float, high: float) -> tuple[int, int]:
    """Return a range to avoid in whole rpm, so that it takes in every speed to avoid."""
    return math.floor(RPM.reading(low) + 1e-6), math.ceil(RPM.reading(high) - 1e-6)


def inward(low: float, high: float, limits: Limits) -> tuple[int, int] | None:
    """Return a free range in whole rpm, clear of the ranges to avoid on both sides as written.

    A free range that has no whole rpm of its own is none.
    """
    first = math.ceil(RPM.reading(low) - 1e-6) + (low > limits[0])
    last = math.floor(RPM.reading(high) + 1e-6) - (high < limits[1])
    return (first, last) if first <= last else None
