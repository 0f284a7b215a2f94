"""Lines together: expected lines so near to one another that a spectrum may show them as one."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Annotated

from calc.declaration import Name, Table
from calc.harmonics.closest_lines import words
from calc.measurement.known_lines import KnownLine
from calc.quantity import Quantity
from calc.units import FREQUENCY, PER_CENT

RESOLVED = 4.0
"""Lines between a peak and its sidebands, from which on a Hann window shows them apart."""
MOST_COINCIDENCES = 12
SEPARATION = Quantity("s", "Separation, of the mean", PER_CENT, at_least=0.0)
APART = Quantity("|f_1 - f_2|", "Difference", FREQUENCY, at_least=0.0)


@dataclass(frozen=True, slots=True)
class LinesTogether:
    """Two expected lines near one another, and whether the spectrum shows them as two."""

    words: Annotated[str, Name("At the speeds entered")]
    separation: Annotated[float, SEPARATION]
    apart: Annotated[float, APART]
    resolved: Annotated[str, Name("In this spectrum")]


LINES_TOGETHER = Table("Coincidences beside the peaks", LinesTogether)


def lines_together(
    lines: Sequence[KnownLine], margin: float, line_spacing: float
) -> tuple[LinesTogether, ...]:
    """Return the pairs of lines that lie within a margin of one another, nearest first.

    Args:
        lines: The lines, those that a peak was found for.
        margin: Largest difference of two frequencies over their mean.
        line_spacing: Between lines of the spectrum, Hz.

    Returns:
        Up to twelve pairs, each with whether four lines of the spectrum lie between its two.

    Source:
        Definition of the margin of avoid bands.

    Examples:
        >>> pair = [KnownLine("4/rev", 24.0), KnownLine("tail 1/rev", 23.8)]
        >>> [row.resolved for row in lines_together(pair, 0.05, 0.1)]
        ['cannot be told apart']
    """
    rows = []
    for first, second in combinations(lines, 2):
        apart = abs(first.frequency - second.frequency)
        separation = 2.0 * apart / (first.frequency + second.frequency)
        if separation <= margin:
            told = apart >= RESOLVED * line_spacing
            rows.append(
                LinesTogether(
                    words(first.name, first.frequency, second.name, second.frequency),
                    separation,
                    apart,
                    "two peaks" if told else "cannot be told apart",
                )
            )
    return tuple(sorted(rows, key=lambda row: row.separation))[:MOST_COINCIDENCES]
