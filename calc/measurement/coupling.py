"""AC coupling: what a first-order high-pass filter does to a line, and leaves of an unbalance."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.quantity import Quantity
from calc.units import ANGLE, FREQUENCY, SHARE

SLOW_LINE = Quantity("f", "Frequency of the line", FREQUENCY, above=0.0, example=6.0)
CUTOFF = Quantity(
    "f_c", "Corner frequency of the AC coupling", FREQUENCY, at_least=0.0, example=0.3
)
GAIN = Quantity("G", "Gain of the AC coupling")
LEAD = Quantity(r"\varphi_c", "Phase lead of the AC coupling", ANGLE)
RESIDUAL = Quantity("q", "Left of an unbalance that is corrected with this error, fraction", SHARE)
DRAWN = 100  # points of a line in a figure


@dataclass(frozen=True, slots=True)
class Coupling:
    """What a first-order high-pass filter does to a line."""

    gain: Annotated[float, GAIN]
    phase: Annotated[float, LEAD]
    residual: Annotated[float, RESIDUAL]


def high_pass_gain(
    frequency: Annotated[float, SLOW_LINE],
    cutoff: Annotated[float, CUTOFF],
) -> Annotated[float, GAIN]:
    r"""Return what is left of a line behind an AC coupling of the first order.

    $$ G = \frac{1}{\sqrt{1 + (f_c / f)^2}} $$

    Args:
        frequency: Frequency of the line; scalar, Hz.
        cutoff: Frequency at which the power is halved; scalar, Hz.

    Returns:
        The gain, one where nothing is lost; scalar.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        A resistor and a capacitor in series; common knowledge.

    Examples:
        >>> round(high_pass_gain(5.0, 1.0), 4)
        0.9806
    """
    SLOW_LINE.check(frequency)
    CUTOFF.check(cutoff)
    return 1.0 / math.hypot(1.0, cutoff / frequency)


def high_pass_phase(
    frequency: Annotated[float, SLOW_LINE],
    cutoff: Annotated[float, CUTOFF],
) -> Annotated[float, LEAD]:
    r"""Return by how much the phase of a line leads behind an AC coupling of the first order.

    $$ \varphi_c = \arctan \frac{f_c}{f} $$

    Args:
        frequency: Frequency of the line; scalar, Hz.
        cutoff: Frequency at which the power is halved; scalar, Hz.

    Returns:
        The lead; scalar, rad.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        A resistor and a capacitor in series; common knowledge.

    Examples:
        >>> round(math.degrees(high_pass_phase(5.0, 1.0)), 1)
        11.3
    """
    SLOW_LINE.check(frequency)
    CUTOFF.check(cutoff)
    return math.atan2(cutoff, frequency)


def ac_coupling(
    frequency: Annotated[float, SLOW_LINE],
    cutoff: Annotated[float, CUTOFF],
) -> Coupling:
    r"""Return gain and phase lead of an AC coupling, and what the lead leaves of an unbalance.

    $$ q = \left| 1 - G \mathrm e^{\mathrm i \varphi_c} \right| $$

    A correction that is computed from the vector as read is wrong by gain and lead; $q$ is left
    of the unbalance where the influence coefficient was measured through another filter.

    Args:
        frequency: Frequency of the line; scalar, Hz.
        cutoff: Frequency at which the power is halved; scalar, Hz.

    Returns:
        Gain, lead and the fraction of an unbalance that is left.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        A resistor and a capacitor in series; common knowledge.

    Examples:
        >>> round(ac_coupling(5.0, 1.0).residual, 3)
        0.196
    """
    gain = high_pass_gain(frequency, cutoff)
    phase = high_pass_phase(frequency, cutoff)
    real, imaginary = gain * math.cos(phase), gain * math.sin(phase)
    return Coupling(gain=gain, phase=phase, residual=math.hypot(1.0 - real, imaginary))


def coupling_chart(frequency: float, cutoff: float) -> Chart:
    """Return the phase lead of an AC coupling below and above a line."""
    places = [2.0 * frequency * step / DRAWN for step in range(1, DRAWN + 1)]
    return Chart(
        title="Phase lead of the AC coupling against frequency",
        description="The lead falls with frequency and is 45 degrees at the corner.",
        x=Axis.of(SLOW_LINE, 0.0),
        y=Axis.of(LEAD, 0.0),
        marks=(
            Line([(place, high_pass_phase(place, cutoff)) for place in places], "lead", 1),
            Points([(frequency, high_pass_phase(frequency, cutoff))], "the line", 2),
        ),
    )
