"""Aliases: where a sampled record shows a frequency above half its sample rate."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Choice, Table
from calc.measurement.quantities import SAMPLE_RATE
from calc.quantity import Constant, InputsError, Quantity
from calc.units import FREQUENCY

MOST_FOLDS = 100
"""Candidates are listed up to so many times the sample rate."""

SAME = Constant(1e-9, Quantity(r"\epsilon", "Share of the sample rate in which lines are one"))
"""Candidates closer than such a share of the sample rate are one, at 0 Hz and half the rate."""

TRUE_FREQUENCY = Quantity("f", "True frequency", FREQUENCY, at_least=0.0, example=227.0)
SEEN = Quantity("f_a", "Frequency at which it is seen", FREQUENCY, at_least=0.0, example=27.0)
HIGHEST = Quantity(
    "f_h", "Highest frequency that a source has", FREQUENCY, above=0.0, example=500.0
)
CANDIDATE = Quantity("f", "Candidate frequency", FREQUENCY)
MOVES = {
    "same": "the same way as the source",
    "opposite": "the opposite way",
}
MOVE = Choice("When the source rises, the line moves", MOVES)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A frequency that a line may have, and which way the line moves with it."""

    frequency: Annotated[float, CANDIDATE]
    move: Annotated[str, MOVE]


CANDIDATES = Table("Frequencies behind the line", Candidate)


def aliased_frequency(
    frequency: Annotated[float, TRUE_FREQUENCY], sample_rate: Annotated[float, SAMPLE_RATE]
) -> Annotated[float, SEEN]:
    r"""Return the frequency at which a sampled record shows a true frequency.

    $$ f_a = \left| f - f_s \left\lfloor \frac{f}{f_s} + \frac{1}{2} \right\rfloor \right| $$

    Without a filter before sampling, or as far as the filter lets it pass.

    Args:
        frequency: True frequency; scalar, Hz.
        sample_rate: Sample rate; scalar, Hz.

    Returns:
        The frequency seen, from 0 to half the sample rate; scalar, Hz.

    Raises:
        ValueError: If the frequency is below zero, or the sample rate is not above zero.

    Source:
        Samples of cosines whose frequencies differ by the sample rate are the same.

    Examples:
        >>> aliased_frequency(227.0, 200.0)
        27.0
    """
    TRUE_FREQUENCY.check(frequency)
    SAMPLE_RATE.check(sample_rate)
    return abs(frequency - sample_rate * math.floor(frequency / sample_rate + 0.5))


def alias_candidates(
    observed: Annotated[float, SEEN],
    sample_rate: Annotated[float, SAMPLE_RATE],
    highest: Annotated[float, HIGHEST],
) -> list[float]:
    r"""Return the true frequencies that a line of a sampled record may have, in rising order.

    $$ f = m f_s \pm f_a, \quad m = 0, 1, 2 \ldots $$

    Args:
        observed: Frequency at which the line is seen; scalar, Hz.
        sample_rate: Sample rate; scalar, Hz.
        highest: Highest frequency that a source has; scalar, Hz.

    Returns:
        The candidates up to the highest frequency, each once; shape (n,), Hz.

    Raises:
        ValueError: If a number breaks its limits, the line is seen above half the sample rate, or
            the highest frequency is more than 100 times the sample rate.

    Source:
        As `aliased_frequency`.

    Examples:
        >>> alias_candidates(27.0, 200.0, 400.0)
        [27.0, 173.0, 227.0, 373.0]
    """
    return [found.frequency for found in candidates(observed, sample_rate, highest)]


def candidates(
    observed: Annotated[float, SEEN],
    sample_rate: Annotated[float, SAMPLE_RATE],
    highest: Annotated[float, HIGHEST],
) -> Annotated[tuple[Candidate, ...], CANDIDATES]:
    r"""Return the true frequencies that a line of a sampled record may have, in rising order.

    $$ f = m f_s \pm f_a, \quad m = 0, 1, 2 \ldots $$

    A line below a multiple of the sample rate moves the opposite way when its source rises.

    Args:
        observed: Frequency at which the line is seen; scalar, Hz.
        sample_rate: Sample rate; scalar, Hz.
        highest: Highest frequency that a source has; scalar, Hz.

    Returns:
        The candidates up to the highest frequency; rows.

    Raises:
        ValueError: If a number breaks its limits, the line is seen above half the sample rate, or
            the highest frequency is more than 100 times the sample rate.

    Source:
        As `aliased_frequency`.

    Examples:
        >>> [found.move for found in candidates(27.0, 200.0, 200.0)]
        ['same', 'opposite']
    """
    SEEN.check(observed)
    SAMPLE_RATE.check(sample_rate)
    HIGHEST.check(highest)
    if observed > 0.5 * sample_rate:
        raise InputsError(
            f"{SEEN.label} must be at most half the sample rate, {0.5 * sample_rate:g} Hz: "
            "a record shows nothing above it",
            "observed",
            "sample_rate",
        )
    if highest > MOST_FOLDS * sample_rate:
        raise InputsError(
            f"{HIGHEST.label} must be at most {MOST_FOLDS} times the sample rate",
            "sample_rate",
            "highest",
        )
    edge = {0.0: "same", 0.5 * sample_rate: "opposite"}.get(observed)
    found: list[Candidate] = []
    for multiple in range(math.ceil(highest / sample_rate) + 2):
        below, above = multiple * sample_rate - observed, multiple * sample_rate + observed
        for frequency, move in ((below, "opposite"), (above, "same")):
            is_new = not found or frequency - found[-1].frequency > SAME * sample_rate
            if 0.0 <= frequency <= highest and is_new:
                found.append(Candidate(frequency, edge or move))
    return tuple(found)


def alias_chart(frequency: float, sample_rate: float) -> Chart:
    """Return the frequency seen against the true one: a saw that folds at half the sample rate."""
    first = max(0.0, math.floor(frequency / sample_rate) - 1.0) * sample_rate
    corners = [
        (first + 0.5 * sample_rate * fold, 0.5 * sample_rate * (fold % 2)) for fold in range(7)
    ]
    return Chart(
        title="Frequency seen against true frequency",
        description="The line rises to half the sample rate and folds back to zero, again and "
        "again; the point is the frequency entered.",
        x=Axis.of(TRUE_FREQUENCY, first, corners[-1][0]),
        y=Axis.of(SEEN, 0.0, 0.6 * sample_rate),
        marks=(
            Line(corners, "", 1),
            Points([(frequency, aliased_frequency(frequency, sample_rate))], "", 2),
        ),
    )
