"""Speed bands: the ranges of one speed in which something meets, and the gaps between them."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from calc.harmonics.meetings import NONE, ROTOR, SECOND, Meeting


class Range(NamedTuple):
    """A range of a speed, rad/s, its edges without uncertainty, and which lines meet in it."""

    low: float
    high: float
    inner_low: float
    inner_high: float
    reasons: tuple[str, ...]


def rotor_ranges(met: Iterable[Meeting], second_speed: float) -> Iterator[Range]:
    """Yield the ranges of rotor speed at one second speed."""
    for m in met:
        if m.first.follows == ROTOR and not m.always:
            scale = 1.0 if m.second.follows == NONE else second_speed
            yield Range(
                m.low * scale, m.high * scale, m.inner_low * scale, m.inner_high * scale, (m.words,)
            )


def second_ranges(met: Iterable[Meeting], rotor_speed: float) -> Iterator[Range]:
    """Yield the ranges of the second speed at one rotor speed."""
    for m in met:
        if m.always:
            continue
        if m.first.follows == SECOND:
            yield Range(m.low, m.high, m.inner_low, m.inner_high, (m.words,))
        elif m.second.follows == SECOND:
            yield Range(
                rotor_speed / m.high,
                rotor_speed / m.low,
                rotor_speed / m.inner_high,
                rotor_speed / m.inner_low,
                (m.words,),
            )


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
    """Yield what ranges leave free between two limits."""
    for found in ranges:
        if found.low > low:
            yield low, found.low
        low = found.high
    if low < high:
        yield low, high
