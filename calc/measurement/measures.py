"""Measures: displacement, velocity and acceleration of one line, and levels in decibels."""

import math
from collections.abc import Mapping

from calc.quantity import Quantity
from calc.units import FREQUENCY, LEVEL

LINE_FREQUENCY = Quantity("f", "Frequency of the line", FREQUENCY, above=0.0, example=6.0)
DECIBELS = Quantity("L", "Level", LEVEL, at_least=-400.0, at_most=400.0, example=120.0)

POWERS: Mapping[str, int] = {"displacement": 0, "velocity": 1, "acceleration": 2}
"""How often each quantity is the derivative of displacement."""

MEASURES: Mapping[str, float] = {
    "peak": 1.0,
    "rms": 1.0 / math.sqrt(2.0),
    "peak_to_peak": 2.0,
    "average": 2.0 / math.pi,
}
"""Each measure of a sine over its peak; the average is that of the rectified sine."""


def convert_vibration(
    value: float,
    frequency: float,
    from_quantity: str,
    from_measure: str,
    to_quantity: str,
    to_measure: str,
) -> float:
    r"""Return one line of vibration as another quantity and another measure.

    $$ a = 2 \pi f v = (2 \pi f)^2 x, \qquad
       \text{peak} = \sqrt{2} \, \text{rms} = \tfrac12 \text{peak to peak}
       = \tfrac{\pi}{2} \text{average} $$

    For a sine alone: an overall value, which holds many lines, has no one frequency.

    Args:
        value: Amplitude in the first quantity and measure; scalar, m, m/s or m/s².
        frequency: Frequency of the line; scalar, Hz.
        from_quantity: `displacement`, `velocity` or `acceleration`; word.
        from_measure: `peak`, `rms`, `peak_to_peak` or `average`; word.
        to_quantity: The quantity wanted; word.
        to_measure: The measure wanted; word.

    Returns:
        The same line; scalar, m, m/s or m/s².

    Raises:
        ValueError: If the value is negative or not finite, the frequency is not above zero, or a
            word is not one of these.

    Source:
        Derivatives and averages of a sine.

    Examples:
        >>> round(convert_vibration(1.0, 10.0, "velocity", "peak", "acceleration", "rms"), 4)
        44.4288
    """
    LINE_FREQUENCY.check(frequency)
    if not (math.isfinite(value) and value >= 0.0):
        raise ValueError("The amplitude must be a finite number of at least 0")
    for word in (from_quantity, to_quantity):
        if word not in POWERS:
            raise ValueError(f"The quantity must be one of {', '.join(POWERS)}, not {word}")
    for word in (from_measure, to_measure):
        if word not in MEASURES:
            raise ValueError(f"The measure must be one of {', '.join(MEASURES)}, not {word}")
    rate = (2.0 * math.pi * frequency) ** (POWERS[to_quantity] - POWERS[from_quantity])
    return value / MEASURES[from_measure] * rate * MEASURES[to_measure]


def level(value: float, reference: float) -> float:
    r"""Return the level of a value in decibels.

    $$ L = 20 \lg \frac{q}{q_0} $$

    Value and reference are rms, in one unit; a level says nothing without its reference.

    Args:
        value: Root mean square of the vibration; scalar, any unit.
        reference: Reference value; scalar, the same unit.

    Returns:
        The level; scalar, dB.

    Raises:
        ValueError: If value or reference is not above zero and finite.

    Source:
        ANSI S1.1, term 3.24, as its public listing has it.

    Examples:
        >>> round(level(1.0, 1e-6), 9)
        120.0
    """
    for number, name in ((value, "The value"), (reference, "The reference")):
        if not 0.0 < number < math.inf:
            raise ValueError(f"{name} of a level must be above 0 and finite")
    return 20.0 * (math.log10(value) - math.log10(reference))


def value_at_level(decibels: float, reference: float) -> float:
    r"""Return the root mean square that has a level.

    $$ q = q_0 \, 10^{L/20} $$

    Args:
        decibels: Level; scalar, dB.
        reference: Reference value; scalar, any unit.

    Returns:
        The rms value; scalar, the unit of the reference.

    Raises:
        ValueError: If the level is beyond 400 dB or the reference is not above zero and finite.

    Source:
        ANSI S1.1, term 3.24, as its public listing has it.

    Examples:
        >>> round(value_at_level(120.0, 1e-6), 12)
        1.0
    """
    DECIBELS.check(decibels)
    if not 0.0 < reference < math.inf:
        raise ValueError("The reference of a level must be above 0 and finite")
    return float(reference * 10.0 ** (decibels / 20.0))
