"""Known lines: which expected lines a measured peak can be, each within its tolerance."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Choice, Name
from calc.measurement.quantities import LINE_SPACING, SAMPLE_RATE
from calc.measurement.spectrum import aliased_frequency
from calc.quantity import Quantity
from calc.units import FREQUENCY, SHARE

EXPLAINED, SHARED, UNEXPLAINED = "explained", "shared", "unexplained"
STATE = Choice(
    "State",
    {
        EXPLAINED: "one source",
        SHARED: "several sources",
        UNEXPLAINED: "no source",
    },
)

LINE_NAME = Name("Line", "Electrical supply")
KNOWN_FREQUENCY = Quantity("f_k", "Frequency of the known line", FREQUENCY, above=0.0, example=24.0)
KNOWN_TOLERANCE = Quantity(r"\delta_k", "Tolerance of the known line", FREQUENCY, at_least=0.0)
PEAK_TOLERANCE = Quantity(r"\delta_p", "Tolerance of the peaks", FREQUENCY, at_least=0.0)
SPEED_ACCURACY = Quantity(
    r"\epsilon_\Omega",
    "Accuracy of the speed, plus or minus",
    SHARE,
    at_least=0.0,
    at_most=0.5,
    example=0.002,
)
SPEED_DRIFT = Quantity(
    "d",
    "Drift of the speed during the record, lowest to highest",
    SHARE,
    at_least=0.0,
    at_most=0.5,
    example=0.002,
)
SOURCE_TOLERANCE = Quantity(r"\delta", "Tolerance of a source in the spectrum", FREQUENCY)
ROUNDING = 1e-9
"""Of the frequency: a peak on the edge of a tolerance is inside, whatever rounding does."""


@dataclass(frozen=True, slots=True)
class KnownLine:
    """A line that is expected: what makes it, its frequency and how far that may be off, Hz."""

    name: Annotated[str, LINE_NAME]
    frequency: Annotated[float, KNOWN_FREQUENCY]
    tolerance: Annotated[float, KNOWN_TOLERANCE] = 0.0


@dataclass(frozen=True, slots=True)
class Explanation:
    """What a peak can be: its frequency, its state, and the lines in reach, nearest first."""

    frequency: float
    state: str
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PeaksExplained:
    """Each peak with the lines that it can be, and the lines that no peak can be, as given."""

    explanations: tuple[Explanation, ...]
    missing: tuple[str, ...]


def source_tolerance(
    frequency: Annotated[float, KNOWN_FREQUENCY],
    line_spacing: Annotated[float, LINE_SPACING],
    speed_accuracy: Annotated[float, SPEED_ACCURACY] = 0.0,
    speed_drift: Annotated[float, SPEED_DRIFT] = 0.0,
) -> Annotated[float, SOURCE_TOLERANCE]:
    r"""Return how far from the computed frequency of a source its peak may be read.

    $$ \delta = \frac{\Delta f}{2} + f_k \left(\epsilon_\Omega + \frac{d}{2}\right) $$

    The worst case: the peak is read on the nearest line of the spectrum, the speed is known to its
    accuracy, and it drifts evenly about its mean during the record.

    Args:
        frequency: Of the source at the speed of the record; scalar, Hz.
        line_spacing: Between lines of the spectrum, one over the length of a block; scalar, Hz.
        speed_accuracy: Relative error of the speed, to either side; scalar.
        speed_drift: Highest less lowest speed during the record, over the mean; scalar.

    Returns:
        The tolerance, to either side; scalar, Hz.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Sum of the largest errors; no source.

    Examples:
        >>> round(source_tolerance(17.2, 0.1, 0.002, 0.002), 4)
        0.1016
    """
    KNOWN_FREQUENCY.check(frequency)
    LINE_SPACING.check(line_spacing)
    SPEED_ACCURACY.check(speed_accuracy)
    SPEED_DRIFT.check(speed_drift)
    return line_spacing / 2.0 + frequency * (speed_accuracy + speed_drift / 2.0)


def explain_peaks(
    peaks: Sequence[float],
    sources: Sequence[KnownLine],
    peak_tolerance: float,
    sample_rate: float | None = None,
) -> PeaksExplained:
    r"""Return for each measured peak the known lines that it can be.

    $$ |f_p - f_{seen}| \le \delta_k + \delta_p $$

    A line is never taken only because it is the nearest.  With a sample rate, a line above half of
    it is looked for where it is folded to, as in a record without a filter.

    Args:
        peaks: Frequencies of the peaks; shape (n,), Hz.
        sources: The lines that are expected; shape (m,).
        peak_tolerance: How far a peak may be from what was read, to either side; scalar, Hz.
        sample_rate: Of the record; scalar, Hz.  None if no line is folded.

    Returns:
        The peaks in the order given, each explained by one line, shared by several or unexplained,
        and the lines that no peak can be.

    Raises:
        ValueError: If a frequency, a tolerance or the sample rate is not finite or breaks its
            limits.

    Source:
        Definition; no source.

    Examples:
        >>> found = explain_peaks([24.1, 31.0], [KnownLine("4/rev", 24.0, 0.1)], 0.05)
        >>> [(peak.frequency, peak.state, peak.names) for peak in found.explanations]
        [(24.1, 'explained', ('4/rev',)), (31.0, 'unexplained', ())]
    """
    PEAK_TOLERANCE.check(peak_tolerance)
    if sample_rate is not None:
        SAMPLE_RATE.check(sample_rate)
    for peak in peaks:
        KNOWN_FREQUENCY.check(peak)
    for source in sources:
        KNOWN_FREQUENCY.check(source.frequency)
        KNOWN_TOLERANCE.check(source.tolerance)
    seen = [seen_at(source.frequency, sample_rate) for source in sources]
    found: set[int] = set()
    explanations = []
    for peak in peaks:
        near = [
            (abs(peak - place), number)
            for number, (source, place) in enumerate(zip(sources, seen, strict=True))
            if within(peak, place, source.tolerance + peak_tolerance)
        ]
        found |= {number for _, number in near}
        state = (UNEXPLAINED, EXPLAINED, SHARED)[min(len(near), 2)]
        names = tuple(sources[number].name for _, number in sorted(near))
        explanations.append(Explanation(peak, state, names))
    missing = tuple(s.name for number, s in enumerate(sources) if number not in found)
    return PeaksExplained(tuple(explanations), missing)


def seen_at(frequency: float, sample_rate: float | None) -> float:
    """Return where a line is seen in the spectrum of a record, folded if it must be."""
    return frequency if sample_rate is None else aliased_frequency(frequency, sample_rate)


def within(first: float, second: float, tolerance: float) -> bool:
    """Return whether two frequencies differ by no more than a tolerance."""
    return abs(first - second) <= tolerance + ROUNDING * max(first, second)
