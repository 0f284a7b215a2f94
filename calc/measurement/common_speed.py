"""Common speed: the one correction of a shaft's speed that its lines agree on."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median
from typing import Annotated, NamedTuple

from calc.declaration import Name, Table
from calc.quantity import Quantity
from calc.units import PER_CENT, ROTATION

REACH = 0.05
"""How far from the speed entered a common speed is looked for."""
MOST_PAIRS = 400
LEAST_FIT = 3
"""Peaks that another speed must fit before it is proposed, and twice what the one entered fits."""
LEAST_GAIN = 2
"""So many more peaks it must fit: one more may be chance."""
LEAST_SHOWN = 2

INDEPENDENT_SHAFT = Name("Independent shaft")
ENTERED = Quantity(r"\Omega_e", "Speed entered", ROTATION)
CORRECTION = Quantity("c - 1", "Common correction of the speed", PER_CENT)
PEAKS_USED = Quantity("n", "Peaks that agree", at_least=0, whole=True)
AGREEMENT = Name("What it says")


class Consensus(NamedTuple):
    """A ratio of true to entered speed, and how many peaks agree on it."""

    ratio: float
    peaks: int


@dataclass(frozen=True, slots=True)
class CommonSpeed:
    """What the peaks say of the speed of an independent shaft."""

    shaft: Annotated[str, INDEPENDENT_SHAFT]
    entered: Annotated[float, ENTERED]
    correction: Annotated[float, CORRECTION]
    peaks: Annotated[int, PEAKS_USED]
    agreement: Annotated[str, AGREEMENT]


COMMON_SPEEDS = Table("Speed that the peaks agree on", CommonSpeed)


def common_ratio(
    peaks: Sequence[float], lines: Sequence[float], reach: float, tolerance: float
) -> Consensus | None:
    r"""Return the ratio of true to entered speed on which most peaks agree.

    $$ |f_p - c f_k| \le \delta_p, \qquad c = \mathrm{median}\, \frac{f_p}{f_k} $$

    The lines of one shaft are all off by the same ratio.

    Args:
        peaks: Frequencies of the peaks; shape (n,), Hz.
        lines: Frequencies of the lines of the shaft at the speed entered; shape (m,), Hz.
        reach: How far from one the ratio may be; scalar.
        tolerance: Of the peaks, to either side; scalar, Hz.

    Returns:
        The ratio nearest to one of those that fit most peaks, as the median over these peaks, and
        their number; None if no peak is in reach of a line.

    Source:
        Median of ratios; no source.

    Examples:
        >>> common_ratio([10.1, 20.2, 33.0], [10.0, 20.0, 40.0], 0.02, 0.03)
        Consensus(ratio=1.01, peaks=2)
    """
    ordered = sorted(lines)
    ratios = sorted(
        (
            peak / line
            for peak in peaks
            for line in _between(ordered, peak / (1.0 + reach), peak / (1.0 - reach))
        ),
        key=lambda ratio: abs(ratio - 1.0),
    )[:MOST_PAIRS]
    best: list[float] = []
    for ratio in ratios:
        found = _fitting(peaks, ordered, ratio, tolerance)
        if len(found) > len(best):
            best = found
    return Consensus(median(best), len(best)) if best else None


def common_speed(
    shaft: tuple[str, float],
    peaks: Sequence[float],
    lines: Sequence[float],
    reach: float,
    tolerance: float,
) -> CommonSpeed | None:
    """Return what the peaks say of the speed of a shaft, None where fewer than two agree.

    A speed beyond the accuracy of the one entered is proposed only if it fits three peaks or more,
    two more than the one entered and twice as many.
    """
    name, entered = shaft
    inside = common_ratio(peaks, lines, reach, tolerance) or Consensus(1.0, 0)
    found, words = inside, "within the accuracy of the speed entered"
    wider = common_ratio(peaks, lines, max(REACH, reach), tolerance)
    if wider and wider.peaks >= max(LEAST_FIT, inside.peaks + LEAST_GAIN, 2 * inside.peaks):
        more = wider.peaks - inside.peaks
        words = f"beyond the accuracy entered, and {more} more peaks fit: check the speed"
        found = wider
    if found.peaks < LEAST_SHOWN:
        return None
    return CommonSpeed(name, entered, found.ratio - 1.0, found.peaks, words)


def _between(ordered: Sequence[float], low: float, high: float) -> Sequence[float]:
    """Return the numbers of a rising sequence between two limits."""
    return ordered[bisect_left(ordered, low) : bisect_left(ordered, high)]


def _fitting(
    peaks: Sequence[float], ordered: Sequence[float], ratio: float, tolerance: float
) -> list[float]:
    """Return the ratios of the peaks that a ratio fits, each to its nearest line."""
    found = []
    for peak in peaks:
        near = _between(ordered, (peak - tolerance) / ratio, (peak + tolerance) / ratio)
        if near:
            found.append(peak / min(near, key=lambda line: abs(peak - ratio * line)))
    return found
