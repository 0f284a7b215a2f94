"""Beats: what two lines of nearly the same frequency make together."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line
from calc.declaration import Nothing
from calc.quantity import Quantity
from calc.units import FREQUENCY, TIME

FIRST_FREQUENCY = Quantity("f_1", "First frequency", FREQUENCY, above=0.0, example=19.83)
SECOND_FREQUENCY = Quantity("f_2", "Second frequency", FREQUENCY, above=0.0, example=20.0)
FIRST_AMPLITUDE = Quantity("A_1", "First amplitude", at_least=0.0, example=1.0)
SECOND_AMPLITUDE = Quantity("A_2", "Second amplitude", at_least=0.0, example=1.0)
LINE_WIDTH = Quantity(
    "w",
    "Spacing of the two lines, in bins of the spectrum",
    at_least=1.0,
    at_most=1000.0,
    covered=(2.0, math.inf),
    covered_by="at less, whether two peaks show depends on the phase of the lines",
    example=3.0,
)
INSTANT = Quantity("t", "Time", TIME, example=0.0)
BEAT_FREQUENCY = Quantity(r"\Delta f", "Beat frequency", FREQUENCY, at_least=0.0, example=0.17)
BEAT_PERIOD = Quantity(r"T_b", "Beat period", TIME)
RECORD_LENGTH = Quantity("T", "Record length that separates the two lines", TIME)
LARGEST = Quantity(r"A_{max}", "Largest amplitude of the sum")
SMALLEST = Quantity(r"A_{min}", "Smallest amplitude of the sum")
ENVELOPE = Quantity("A", "Amplitude of the sum")


@dataclass(frozen=True, slots=True)
class Beat:
    """What two lines make together, and how long to record to tell them apart."""

    beat_frequency: Annotated[float, BEAT_FREQUENCY]
    beat_period: Annotated[float, BEAT_PERIOD]
    record_length: Annotated[float, RECORD_LENGTH]
    largest_amplitude: Annotated[float, LARGEST]
    smallest_amplitude: Annotated[float, SMALLEST]


def beat_frequency(
    first_frequency: Annotated[float, FIRST_FREQUENCY],
    second_frequency: Annotated[float, SECOND_FREQUENCY],
) -> Annotated[float, BEAT_FREQUENCY]:
    r"""Return how often the envelope of two lines of nearly the same frequency repeats.

    $$ \Delta f = |f_1 - f_2| $$

    The envelope repeats at the full difference, not at half of it.

    Args:
        first_frequency: Frequency of one line; scalar, Hz.
        second_frequency: Frequency of the other line; scalar, Hz.

    Returns:
        The beat frequency; scalar, Hz.

    Raises:
        ValueError: If a frequency is not finite or not above zero.

    Source:
        The sum of two cosines is a cosine of their mean times a cosine of half their difference.

    Examples:
        >>> round(beat_frequency(17.2, 17.9), 4)
        0.7
    """
    FIRST_FREQUENCY.check(first_frequency)
    SECOND_FREQUENCY.check(second_frequency)
    return abs(first_frequency - second_frequency)


def beat(
    first_frequency: Annotated[float, FIRST_FREQUENCY],
    second_frequency: Annotated[float, SECOND_FREQUENCY],
    first_amplitude: Annotated[float, FIRST_AMPLITUDE] = 1.0,
    second_amplitude: Annotated[float, SECOND_AMPLITUDE] = 1.0,
    line_width: Annotated[float, LINE_WIDTH] = 3.0,
) -> Annotated[Beat | None, Nothing("Two lines of the same frequency do not beat")]:
    r"""Return the beat of two lines, its limits, and the record that separates them.

    $$ \Delta f = |f_1 - f_2|, \quad T_b = \frac{1}{\Delta f}, \quad T = \frac{w}{\Delta f},
       \quad A_{max} = A_1 + A_2, \quad A_{min} = |A_1 - A_2| $$

    Both lines are steady.  A spectrum shows two peaks whatever their phase when the lines are far
    enough apart in bins, each of which is one over the length of the record: three bins for a Hann
    window, two for a rectangular one.  At two bins a Hann window shows one peak for some phases.

    Args:
        first_frequency: Frequency of one line; scalar, Hz.
        second_frequency: Frequency of the other line; scalar, Hz.
        first_amplitude: Amplitude of one line, in any unit; scalar.
        second_amplitude: Amplitude of the other line, in the same unit; scalar.
        line_width: Spacing of the lines in bins that the window needs; scalar.

    Returns:
        The beat, or None for equal frequencies.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        The sum of two cosines; the spacing in bins from spectra of all phases, no source.

    Examples:
        >>> round(beat(19.83, 20.0).beat_period, 3)
        5.882
    """
    FIRST_FREQUENCY.check(first_frequency)
    SECOND_FREQUENCY.check(second_frequency)
    FIRST_AMPLITUDE.check(first_amplitude)
    SECOND_AMPLITUDE.check(second_amplitude)
    LINE_WIDTH.check(line_width)
    difference = abs(first_frequency - second_frequency)
    if difference == 0.0:
        return None
    return Beat(
        beat_frequency=difference,
        beat_period=1.0 / difference,
        record_length=line_width / difference,
        largest_amplitude=first_amplitude + second_amplitude,
        smallest_amplitude=abs(first_amplitude - second_amplitude),
    )


def beat_envelope(
    first_amplitude: Annotated[float, FIRST_AMPLITUDE],
    second_amplitude: Annotated[float, SECOND_AMPLITUDE],
    beat_frequency: Annotated[float, BEAT_FREQUENCY],
    time: Annotated[float, INSTANT],
) -> Annotated[float, ENVELOPE]:
    r"""Return the amplitude of the sum of two lines at a time after they were in step.

    $$ A = \sqrt{A_1^2 + A_2^2 + 2 A_1 A_2 \cos(2 \pi \Delta f t)} $$

    Args:
        first_amplitude: Amplitude of one line, in any unit; scalar.
        second_amplitude: Amplitude of the other line, in the same unit; scalar.
        beat_frequency: Difference of the two frequencies; scalar, Hz.
        time: Time since the two lines were in step; scalar, s.

    Returns:
        The amplitude of the sum, in the unit of the two; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        The sum of two rotating vectors.

    Examples:
        >>> beat_envelope(3.0, 2.0, 0.5, 1.0)
        1.0
    """
    FIRST_AMPLITUDE.check(first_amplitude)
    SECOND_AMPLITUDE.check(second_amplitude)
    BEAT_FREQUENCY.check(beat_frequency)
    INSTANT.check(time)
    angle = 2.0 * math.pi * beat_frequency * time
    square = (
        first_amplitude**2
        + second_amplitude**2
        + 2.0 * first_amplitude * second_amplitude * math.cos(angle)
    )
    return math.sqrt(max(square, 0.0))


def beat_chart(
    first_frequency: float,
    second_frequency: float,
    first_amplitude: float = 1.0,
    second_amplitude: float = 1.0,
    line_width: float = 3.0,
) -> Chart:
    """Return the envelope of the sum over the record that separates the two lines."""
    difference = beat_frequency(first_frequency, second_frequency)
    span = line_width / difference if difference else 1.0 / first_frequency
    times = [span * step / 400 for step in range(401)]
    envelope = [beat_envelope(first_amplitude, second_amplitude, difference, t) for t in times]
    return Chart(
        title="Amplitude of two lines together",
        description="The amplitude swells to the sum and falls to the difference of the two.",
        x=Axis.of(INSTANT, 0.0, span),
        y=Axis("Sum of the two lines"),
        marks=(
            Line([*zip(times, envelope, strict=True)], "envelope", 1),
            Line([(t, -a) for t, a in zip(times, envelope, strict=True)], "", 1),
        ),
    )
