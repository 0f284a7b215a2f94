"""Smear: what a drift of speed makes of a line of a spectrum, by window."""

import cmath
import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Method, Name
from calc.measurement.known_lines import SPEED_DRIFT
from calc.measurement.quantities import RECORD_LENGTH, WINDOW, WINDOWS
from calc.measurement.windows import COEFFICIENTS
from calc.numeric.quadrature import gauss
from calc.quantity import Quantity
from calc.units import FREQUENCY, SHARE, TIME

LINE_FREQUENCY = Quantity("f", "Frequency", FREQUENCY, above=0.0, example=24.0)
DRIFT = replace(SPEED_DRIFT, example=0.01)
SMEAR = Quantity("s", "Smear, in lines", at_least=0.0, at_most=1000.0, example=4.0)
SMEAR_GAIN = Quantity("G_s", "Reading over true amplitude", SHARE)
IN_HANN = replace(SMEAR_GAIN, symbol="G_h", label="Reading over true amplitude, Hann")
IN_FLAT_TOP = replace(SMEAR_GAIN, symbol="G_f", label="Reading over true amplitude, flat top")
LONGEST = Quantity("T_2", "Record length for a smear of two lines", TIME)
HIGH, LOW, ALIKE = "reads high", "reads low", "reads true within 1 %"


@dataclass(frozen=True, slots=True)
class Smear:
    """How far drift smears a line, and what two windows then read of it."""

    smear: Annotated[float, SMEAR]
    hann: Annotated[float, IN_HANN]
    flat_top: Annotated[float, IN_FLAT_TOP]
    longest_record: Annotated[float | None, LONGEST]
    answer: Annotated[str, Name("In words")]


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
