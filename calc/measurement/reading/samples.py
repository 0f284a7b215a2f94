"""Samples: arrays of numbers in which NaN stands for a gap."""

import math
from array import array
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, TypeAlias

__all__ = ["Samples", "array", "bridged", "is_known", "places"]

if TYPE_CHECKING:
    Samples: TypeAlias = array[float]
else:
    Samples = array  # which takes no type of its items before Python 3.12


def places(samples: Samples, true: Callable[[float], bool]) -> Iterator[int]:
    """Yield where something is true of a sample; few places are found fast."""
    found = bytes(map(true, samples))
    at = found.find(1)
    while at >= 0:
        yield at
        at = found.find(1, at + 1)


def is_known(value: float) -> bool:
    """Return whether a sample is no gap."""
    return not math.isnan(value)


def bridged(samples: Samples) -> Samples:
    """Return samples with straight lines over gaps, and level ones before and after all.

    Raises:
        ValueError: If there is no sample at all.
    """
    gaps = list(places(samples, math.isnan))
    if not gaps:
        return samples
    if len(gaps) == len(samples):
        raise ValueError("The channel holds no value")
    found = array("d", samples)
    for first, last in _runs(gaps):
        left = found[first - 1] if first else samples[last + 1]
        right = samples[last + 1] if last + 1 < len(samples) else left
        for row in range(first, last + 1):
            found[row] = left + (right - left) * (row - first + 1) / (last - first + 2)
    return found


def _runs(rows: list[int]) -> Iterator[tuple[int, int]]:
    """Yield first and last of each run of rows that follow one another."""
    first = last = rows[0]
    for row in rows[1:]:
        if row != last + 1:
            yield first, last
            first = row
        last = row
    yield first, last
