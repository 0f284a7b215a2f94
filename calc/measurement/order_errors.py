"""Order errors: what drift, averaging, timing and reading between samples do to an order."""

import cmath
import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Method, Name
from calc.measurement.known_lines import SPEED_DRIFT
from calc.measurement.quantities import ORDER, RECORD_LENGTH, SAMPLE_RATE, WINDOW, WINDOWS
from calc.measurement.windows import COEFFICIENTS
from calc.numeric.quadrature import gauss
from calc.quantity import Quantity
from calc.units import ANGLE, FREQUENCY, PER_REV, SHARE, TIME
from calc.vocabulary import ROTOR_SPEED

REVOLUTIONS = Quantity(
    "M", "Revolutions averaged", at_least=1, at_most=1_000_000, whole=True, example=20
)
ANY_ORDER = replace(ORDER, at_least=0.0, at_most=1000.0, above=-math.inf, example=3.966)
BESIDE = Quantity("k_1", "Order less the nearest whole order", (PER_REV,))
COMB_GAIN = Quantity("G", "Fraction left by a synchronous average", SHARE)
LINE_FREQUENCY = Quantity("f", "Frequency", FREQUENCY, above=0.0, example=24.0)
DRIFT = replace(SPEED_DRIFT, example=0.01)
SMEAR = Quantity("s", "Smear, in lines", at_least=0.0, at_most=1000.0, example=4.0)
SMEAR_GAIN = Quantity("G_s", "Reading over true amplitude", SHARE)
IN_HANN = replace(SMEAR_GAIN, symbol="G_h", label="Reading over true amplitude, Hann")
IN_FLAT_TOP = replace(SMEAR_GAIN, symbol="G_f", label="Reading over true amplitude, flat top")
LONGEST = Quantity("T_2", "Record length for a smear of two lines", TIME)
TIMING_ERROR = Quantity(r"\delta t", "Timing error of the pulses", TIME, example=0.001)
PHASE_ERROR = Quantity(r"\delta\varphi", "Phase error", ANGLE)
STRAIGHT_GAIN = Quantity("G_i", "Fraction left by straight lines between samples", SHARE)
UP_TO_HALF = replace(LINE_FREQUENCY, example=20.0)
HIGH, LOW, ALIKE = "reads high", "reads low", "reads true within 1 %"
DRAWN_REVOLUTIONS = 3.0
POINTS = 400


@dataclass(frozen=True, slots=True)
class Smear:
    """How far drift smears a line, and what two windows then read of it."""

    smear: Annotated[float, SMEAR]
    hann: Annotated[float, IN_HANN]
    flat_top: Annotated[float, IN_FLAT_TOP]
    longest_record: Annotated[float | None, LONGEST]
    answer: Annotated[str, Name("In words")]


def comb_gain(
    order: Annotated[float, ANY_ORDER], revolutions: Annotated[int, REVOLUTIONS]
) -> Annotated[float, COMB_GAIN]:
    r"""Return what fraction of an order a synchronous average leaves.

    $$ G = \left| \frac{\sin \pi M k}{M \sin \pi k} \right| $$

    One at whole orders, zero at every other multiple of $1/M$.

    Args:
        order: Frequency over revolutions a second of the shaft, whole or not; scalar, /rev.
        revolutions: Revolutions averaged; scalar.

    Returns:
        The fraction; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Sum of turning vectors, a revolution apart.

    Examples:
        >>> round(comb_gain(1.05, 10), 4)
        0.6392
    """
    ANY_ORDER.check(order)
    REVOLUTIONS.check(revolutions)
    beside: Annotated[float, BESIDE] = math.remainder(order, 1.0)
    if abs(beside) < 1e-12:
        return 1.0
    return abs(
        math.sin(math.pi * revolutions * beside) / (revolutions * math.sin(math.pi * beside))
    )


def comb_gain_chart(order: float, revolutions: int) -> Chart:
    """Return what is left of an order over the orders about it."""
    reach = min(0.5, max(DRAWN_REVOLUTIONS / revolutions, 1.2 * abs(order - round(order))))
    low, high = max(round(order) - reach, 0.0), round(order) + reach
    places = [low + (high - low) * step / POINTS for step in range(POINTS + 1)]
    return Chart(
        title="What a synchronous average leaves",
        description="A peak of one at the whole order, with zeros at multiples of one over the "
        "number of revolutions; the point is the order asked for.",
        x=Axis.of(ANY_ORDER, low, high),
        y=Axis.of(COMB_GAIN, 0.0, 1.0),
        marks=(
            Line([(place, comb_gain(place, revolutions)) for place in places], "", 1),
            Points([(order, comb_gain(order, revolutions))], "the order", 2),
        ),
    )


def smear_lines(
    frequency: Annotated[float, LINE_FREQUENCY],
    relative_drift: Annotated[float, DRIFT],
    record_length: Annotated[float, RECORD_LENGTH],
) -> Annotated[float, SMEAR]:
    r"""Return over how many lines of a spectrum a drift of speed smears a line.

    $$ s = f d T $$

    Args:
        frequency: Mean frequency of the line; scalar, Hz.
        relative_drift: Highest less lowest speed during the record, over the mean; scalar.
        record_length: Length of the record or block; scalar, s.

    Returns:
        The smear in lines; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Change of frequency over line spacing.

    Examples:
        >>> round(smear_lines(17.2, 0.01, 20.0), 6)
        3.44
    """
    LINE_FREQUENCY.check(frequency)
    DRIFT.check(relative_drift)
    RECORD_LENGTH.check(record_length)
    return frequency * relative_drift * record_length


def smear_of_line(
    frequency: Annotated[float, LINE_FREQUENCY],
    relative_drift: Annotated[float, DRIFT],
    record_length: Annotated[float, RECORD_LENGTH],
) -> Smear:
    r"""Return over how many lines a drift of speed smears a line, and what windows read of it.

    $$ s = f d T, \qquad T_2 = \frac{2}{f d} $$

    Args:
        frequency: Mean frequency of the line; scalar, Hz.
        relative_drift: Highest less lowest speed during the record, over the mean; scalar.
        record_length: Length of the record or block; scalar, s.

    Returns:
        The smear in lines, the readings at the mean frequency, and the longest record for a smear
        of two lines, none without drift.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or the smear does.

    Source:
        `smear_lines`, `smear_gain`.

    Examples:
        >>> smear_of_line(17.2, 0.01, 20.0).answer
        'Hann reads low, flat top reads high'
    """
    smear = smear_lines(frequency, relative_drift, record_length)
    hann = smear_gain(smear, "hann")
    flat_top = smear_gain(smear, "flat_top")
    slope = frequency * relative_drift
    return Smear(
        smear=smear,
        hann=hann,
        flat_top=flat_top,
        longest_record=2.0 / slope if slope else None,
        answer=f"Hann {_reads(hann)}, flat top {_reads(flat_top)}",
    )


def smear_chart(found: Smear) -> Chart:
    """Return the readings of four windows over the smear, with the one asked for."""
    names = ("rectangular", "hann", "blackman_harris", "flat_top")
    end = min(max(8.0, 1.25 * found.smear), 40.0)
    steps = [end * step / 80 for step in range(81)]
    return Chart(
        title="Reading at the mean frequency of a line that drifts",
        description="Rectangular and Hann windows read lower the more a line drifts; a flat-top "
        "window first reads higher than the true amplitude.",
        x=Axis.of(SMEAR, 0.0, end),
        y=Axis.of(SMEAR_GAIN, 0.0),
        marks=(
            *(
                Line([(s, smear_gain(s, name)) for s in steps], WINDOWS[name], style)
                for style, name in enumerate(names, 1)
            ),
            Points([(found.smear, found.hann), (found.smear, found.flat_top)], "", 2),
        ),
    )


def smear_gain(
    lines: Annotated[float, SMEAR], window: Annotated[str, WINDOW] = "hann"
) -> Annotated[float, SMEAR_GAIN]:
    r"""Return what a spectrum reads of a line that drifts evenly, over its true amplitude.

    $$ G_s = \left| \int_{-1/2}^{1/2} w \, e^{i \pi s u^2} du \right|
       \bigg/ \int_{-1/2}^{1/2} w \, du $$

    Read at the mean frequency.  The amplitude of the line does not change while it drifts.

    Args:
        lines: Smear, the change of frequency over the line spacing; scalar.
        window: The window; word.

    Returns:
        The reading over the true amplitude; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Fourier transform of a tone whose frequency rises evenly.

    Examples:
        >>> round(smear_gain(4.0, "hann"), 4), round(smear_gain(4.0, "flat_top"), 4)
        (0.8943, 1.0467)
    """
    SMEAR.check(lines)
    WINDOW.check(window)
    return _drifting(lines, COEFFICIENTS[window])


def timing_phase_error(
    order: Annotated[float, ORDER],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    timing_error: Annotated[float, TIMING_ERROR],
) -> Annotated[float, PHASE_ERROR]:
    r"""Return the phase error that a timing error of the pulses makes.

    $$ \delta\varphi = k \Omega \, \delta t $$

    Args:
        order: Multiple of the shaft's speed; scalar, /rev.
        rotor_speed: Angular speed of the shaft; scalar, rad/s.
        timing_error: How late the pulses are; scalar, s.

    Returns:
        The phase error; scalar, rad.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Angle turned in the time.

    Examples:
        >>> round(math.degrees(timing_phase_error(4.0, 27.0, 0.001)), 1)
        6.2
    """
    ORDER.check(order)
    ROTOR_SPEED.check(rotor_speed)
    TIMING_ERROR.check(timing_error)
    return order * rotor_speed * timing_error


def linear_interpolation_gain(
    frequency: Annotated[float, UP_TO_HALF], sample_rate: Annotated[float, SAMPLE_RATE]
) -> Annotated[float, STRAIGHT_GAIN]:
    r"""Return what fraction of a tone is left when it is read along straight lines.

    $$ G_i = \left( \frac{\sin(\pi f / f_s)}{\pi f / f_s} \right)^2 $$

    Straight lines between samples, read anywhere between them: the mean over all places.

    Args:
        frequency: Of the tone, up to half the sample rate; scalar, Hz.
        sample_rate: Samples a second; scalar, Hz.

    Returns:
        The fraction; scalar.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, or the frequency passes half
            the sample rate.

    Source:
        Fourier transform of a triangle.

    Examples:
        >>> round(linear_interpolation_gain(20.0, 200.0), 3)
        0.968
    """
    UP_TO_HALF.check(frequency)
    SAMPLE_RATE.check(sample_rate)
    replace(UP_TO_HALF, at_most=sample_rate / 2.0).check(frequency)
    angle = math.pi * frequency / sample_rate
    return (math.sin(angle) / angle) ** 2


def interpolation_chart(frequency: float, sample_rate: float) -> Chart:
    """Return what straight lines leave over the frequency, up to half the sample rate."""
    places = [sample_rate / 2.0 * step / 80 for step in range(1, 81)]
    return Chart(
        title="What straight lines between samples leave of a tone",
        description="The fraction falls from one at low frequency to four tenths at half the "
        "sample rate; the point is the frequency asked for.",
        x=Axis.of(UP_TO_HALF, 0.0, sample_rate / 2.0),
        y=Axis.of(STRAIGHT_GAIN, 0.0, 1.0),
        marks=(
            Line([(f, linear_interpolation_gain(f, sample_rate)) for f in places], "", 1),
            Points([(frequency, linear_interpolation_gain(frequency, sample_rate))], "the tone", 2),
        ),
    )


def _drifting(
    lines: float, coefficients: tuple[float, ...]
) -> Annotated[float, Method("by Gauss's quadrature")]:
    """Return the integral over a window of the tone, over that of the window."""
    panels = 2 + int(lines / 8.0)
    width = 0.5 / panels
    total = 0j
    for panel in range(panels):
        for point, weight in gauss(16):
            u = width * (panel + (point + 1.0) / 2.0)
            size = sum(a * math.cos(math.tau * k * u) for k, a in enumerate(coefficients))
            total += weight * size * cmath.exp(1j * math.pi * lines * u * u)
    return abs(total) * width / coefficients[0]


def _reads(gain: float) -> str:
    """Return in words how a reading differs from the true amplitude."""
    if abs(gain - 1.0) <= 0.01:
        return ALIKE
    return HIGH if gain > 1.0 else LOW
