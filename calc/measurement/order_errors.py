"""Order errors: what averaging, timing and reading between samples do to an order."""

import math
from dataclasses import replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.measurement.quantities import ORDER, SAMPLE_RATE
from calc.measurement.smear import LINE_FREQUENCY
from calc.quantity import Quantity
from calc.units import ANGLE, PER_REV, SHARE, TIME
from calc.vocabulary import ROTOR_SPEED

REVOLUTIONS = Quantity(
    "M", "Revolutions averaged", at_least=1, at_most=1_000_000, whole=True, example=20
)
ANY_ORDER = replace(ORDER, at_least=0.0, at_most=1000.0, above=-math.inf, example=3.966)
BESIDE = Quantity("k_1", "Order less the nearest whole order", (PER_REV,))
COMB_GAIN = Quantity("G", "Fraction left by a synchronous average", SHARE)
TIMING_ERROR = Quantity(r"\delta t", "Timing error of the pulses", TIME, example=0.001)
PHASE_ERROR = Quantity(r"\delta\varphi", "Phase error", ANGLE)
STRAIGHT_GAIN = Quantity("G_i", "Fraction left by straight lines between samples", SHARE)
UP_TO_HALF = replace(LINE_FREQUENCY, example=20.0)
DRAWN_REVOLUTIONS = 3.0
POINTS = 400


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
