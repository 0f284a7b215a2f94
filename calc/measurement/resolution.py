"""Resolution: how long a record must be for two lines to be told apart."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Rule
from calc.declaration import Name, Nothing
from calc.measurement import cosine_sum
from calc.measurement.quantities import ORDER, RECORD_LENGTH, WINDOW
from calc.measurement.windows import COEFFICIENTS, HALF_AMPLITUDE_WIDTH, half_amplitude_width
from calc.quantity import Constant, Quantity
from calc.units import FREQUENCY, ROTATION, TIME

SURE = Constant(1.5, Quantity("c_s", "Half-amplitude widths that show two lines at every phase"))
"""So many times the half-amplitude width shows two equal lines at every phase; see the tests."""

NOT_APART = "No: in this record they can be one peak"
AT_SOME_PHASES = "Not for certain: at some phases they are one peak"
APART = "Yes, if they are of like size"

DIFFERENCE = Quantity(
    r"\delta f", "Difference of the two frequencies", FREQUENCY, above=0.0, example=0.1
)
LEAST_LENGTH = Quantity("T_6", "Shortest record, a half-amplitude width between the lines", TIME)
SURE_LENGTH = Quantity("T_s", "Record that shows two at every phase", TIME)
FIRST = Quantity("f_1", "Frequency of one line", FREQUENCY, above=0.0, example=24.0)
SECOND = Quantity("f_2", "Frequency of the other line", FREQUENCY, above=0.0, example=24.1)
SPACING_IN_LINES = Quantity("b", "Distance of the two, in lines of the spectrum")
SPEED_DIFFERENCE = Quantity(r"\delta\Omega", "Smallest difference of rotor speed", ROTATION)
VERDICT = Name("Can they be told apart")
PLACE = Quantity("f", "Frequency", FREQUENCY)
READING = Quantity("", "Reading of a line")


@dataclass(frozen=True, slots=True)
class Apart:
    """Whether two lines can be told apart, and what record that takes."""

    verdict: Annotated[str, VERDICT]
    lines_between: Annotated[float, SPACING_IN_LINES]
    half_amplitude_width: Annotated[float, HALF_AMPLITUDE_WIDTH]
    least_length: Annotated[float, LEAST_LENGTH]
    sure_length: Annotated[float, SURE_LENGTH]


def record_length_to_separate(
    difference: Annotated[float, DIFFERENCE], window: Annotated[str, WINDOW] = "hann"
) -> Annotated[float, LEAST_LENGTH]:
    r"""Return the record that puts two lines a half-amplitude width of the window apart.

    $$ T_6 = \frac{b_6}{\delta f} $$

    The width counts where the amplitude is a half, since the two lines add as amplitudes.  At this
    length the phases still decide whether two equal lines show a dip; 1.5 times it shows one.

    Args:
        difference: Difference of the two frequencies; scalar, Hz.
        window: The window; word.

    Returns:
        The record length; scalar, s.

    Raises:
        ValueError: If the difference is not above zero, or there is no such window.

    Source:
        Common practice: the half-amplitude width of the window, no source.

    Examples:
        >>> round(record_length_to_separate(0.5), 6)
        4.0
    """
    DIFFERENCE.check(difference)
    WINDOW.check(window)
    width: Annotated[float, HALF_AMPLITUDE_WIDTH] = half_amplitude_width(window)
    return width / difference


def smallest_speed_difference(
    record_length: Annotated[float, RECORD_LENGTH],
    order: Annotated[float, ORDER],
    window: Annotated[str, WINDOW] = "hann",
) -> Annotated[float, SPEED_DIFFERENCE]:
    r"""Return the difference of two rotor speeds whose lines of an order a record tells apart.

    $$ \delta\Omega = \frac{2 \pi b_6}{k T} $$

    Args:
        record_length: Length of the record; scalar, s.
        order: Order of the lines; scalar, /rev.
        window: The window; word.

    Returns:
        The difference of rotor speed; scalar, rad/s.

    Raises:
        ValueError: If a number is not above zero, or there is no such window.

    Source:
        As `record_length_to_separate`.

    Examples:
        >>> round(smallest_speed_difference(2.0 * math.pi, 1.0), 6)
        2.0
    """
    RECORD_LENGTH.check(record_length)
    ORDER.check(order)
    WINDOW.check(window)
    width: Annotated[float, HALF_AMPLITUDE_WIDTH] = half_amplitude_width(window)
    return 2.0 * math.pi * width / (order * record_length)


def told_apart(
    first_frequency: Annotated[float, FIRST],
    second_frequency: Annotated[float, SECOND],
    record_length: Annotated[float, RECORD_LENGTH],
    window: Annotated[str, WINDOW] = "hann",
) -> Annotated[Apart | None, Nothing("Two lines of one frequency are one line in any record")]:
    r"""Return whether a record tells two lines of like size apart.

    $$ b = |f_1 - f_2| T, \quad T_6 = \frac{b_6}{|f_1 - f_2|}, \quad T_s = 1.5 \, T_6 $$

    Two equal lines closer than the half-amplitude width can be one peak; up to 1.5 times that the
    phases decide; beyond they are two.  A line that is far smaller than the other needs a window
    with low side lobes and more distance.

    Args:
        first_frequency: Frequency of one line; scalar, Hz.
        second_frequency: Frequency of the other line; scalar, Hz.
        record_length: Length of the record; scalar, s.
        window: The window; word.

    Returns:
        The verdict, the distance in lines and the records that it takes, or None for one frequency.

    Raises:
        ValueError: If a number is not above zero, or there is no such window.

    Source:
        Common practice: the half-amplitude width of the window, no source.

    Examples:
        >>> found = told_apart(10.0, 10.5, 5.0)
        >>> found.verdict
        'Not for certain: at some phases they are one peak'
    """
    FIRST.check(first_frequency)
    SECOND.check(second_frequency)
    RECORD_LENGTH.check(record_length)
    WINDOW.check(window)
    difference = abs(first_frequency - second_frequency)
    if difference == 0.0:
        return None
    between = difference * record_length
    width: Annotated[float, HALF_AMPLITUDE_WIDTH] = half_amplitude_width(window)
    shortest = width / difference
    return Apart(
        verdict=_verdict(between, width),
        lines_between=between,
        half_amplitude_width=width,
        least_length=shortest,
        sure_length=SURE * shortest,
    )


def told_apart_chart(
    first_frequency: float, second_frequency: float, record_length: float, window: str = "hann"
) -> Chart:
    """Return what a spectrum with lines everywhere would read of the two, at three phases."""
    spacing = 1.0 / record_length
    low, high = sorted((first_frequency, second_frequency))
    reach = 2.0 * half_amplitude_width(window) * spacing
    start, span = low - reach, high - low + 2.0 * reach
    places = [start + span * step / 300 for step in range(301)]
    terms = COEFFICIENTS[window]

    def reading(place: float, phase: float) -> float:
        one = cosine_sum.response(terms, (place - low) * record_length)
        other = cosine_sum.response(terms, (place - high) * record_length)
        return math.hypot(one + other * math.cos(phase), other * math.sin(phase))

    phases = (("in step mid-record", 0.0), ("a quarter apart", 0.5), ("opposed", 1.0))
    return Chart(
        title="Two equal lines in one spectrum",
        description="How two lines add depends on their phase in the middle of the record: in step "
        "they fill the gap between them, opposed they leave a dip.",
        x=Axis.of(PLACE, start, start + span),
        y=Axis.of(READING, 0.0),
        marks=(
            Rule(low, "x", ""),
            Rule(high, "x", ""),
            *(
                Line([(f, reading(f, math.pi * share)) for f in places], label, style)
                for style, (label, share) in enumerate(phases, 1)
            ),
        ),
    )


def _verdict(between: float, width: float) -> str:
    """Return in words whether two lines are told apart."""
    if between < width:
        return NOT_APART
    return AT_SOME_PHASES if between < SURE * width else APART
