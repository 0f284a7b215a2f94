"""Levels: one line of vibration in every quantity and measure, with its levels."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.constants import STANDARD_GRAVITY
from calc.declaration import Choice, Name, Table
from calc.measurement.decibels import (
    InDecibels,
    acceleration_at_level,
    levels_of,
    velocity_at_level,
)
from calc.measurement.measures import (
    LINE_FREQUENCY,
    MEASURES,
    convert_vibration,
    level,
    value_at_level,
)
from calc.quantity import Quantity
from calc.units import ACCELERATION, FREQUENCY, VIBRATION_DISPLACEMENT, VIBRATION_VELOCITY

__all__ = [
    "acceleration_at_level",
    "acceleration_line",
    "convert_vibration",
    "crossover_frequency",
    "displacement_line",
    "level",
    "value_at_level",
    "velocity_at_level",
    "velocity_line",
]

WORDS = {"peak": "peak", "rms": "rms", "peak_to_peak": "peak to peak", "average": "average"}
MEASURE = Choice("Measure", WORDS)
MEASURED_AS = Name("Measure")
DISPLACEMENT = Quantity(
    "x", "Displacement of the line", VIBRATION_DISPLACEMENT, at_least=0.0, example=2e-4
)
VELOCITY = Quantity("v", "Velocity of the line", VIBRATION_VELOCITY, at_least=0.0, example=5.08e-3)
ACCELERATED = Quantity("a", "Acceleration of the line", ACCELERATION, at_least=0.0, example=1.0)
LARGEST_DISPLACEMENT = Quantity(
    "X", "Displacement limit", VIBRATION_DISPLACEMENT, above=0.0, example=5e-4
)
LARGEST_ACCELERATION = Quantity(
    "a_{max}", "Acceleration limit", ACCELERATION, above=0.0, example=2.0 * STANDARD_GRAVITY
)
CROSSOVER = Quantity("f_x", "Crossover frequency", FREQUENCY)


@dataclass(frozen=True, slots=True)
class InMeasure:
    """A line in one measure."""

    measure: Annotated[str, MEASURED_AS]
    displacement: Annotated[float, DISPLACEMENT]
    velocity: Annotated[float, VELOCITY]
    acceleration: Annotated[float, ACCELERATED]


@dataclass(frozen=True, slots=True)
class SameLine:
    """One line in all quantities and measures, and its levels; none for no vibration."""

    measures: Annotated[tuple[InMeasure, ...], Table("The same line", InMeasure)]
    levels: Annotated[tuple[InDecibels, ...], Table("Levels of its rms value", InDecibels)]


def displacement_line(
    displacement: Annotated[float, DISPLACEMENT],
    measure: Annotated[str, MEASURE],
    frequency: Annotated[float, LINE_FREQUENCY],
) -> SameLine:
    r"""Return a line that is known as a displacement as velocity and acceleration, and in dB.

    $$ v = 2 \pi f x, \qquad a = (2 \pi f)^2 x, \qquad L = 20 \lg \frac{q_{rms}}{q_0} $$

    One sine alone; never an overall value.

    Args:
        displacement: Of the line, in the measure chosen; scalar, m.
        measure: What the number is of the sine; word.
        frequency: Of the line; scalar, Hz.

    Returns:
        The line in every quantity and measure, and its levels with their references.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Derivatives of a sine; ISO 1683 for the references, as quoted in ANSI S1.1, term 3.24.

    Examples:
        >>> displacement_line(1e-3, "peak", 10.0).measures[0].velocity
        0.06283185307179587
    """
    DISPLACEMENT.check(displacement)
    MEASURE.check(measure)
    LINE_FREQUENCY.check(frequency)
    return _same_line(displacement, measure, frequency, "displacement")


def velocity_line(
    velocity: Annotated[float, VELOCITY],
    measure: Annotated[str, MEASURE],
    frequency: Annotated[float, LINE_FREQUENCY],
) -> SameLine:
    r"""Return a line that is known as a velocity as displacement and acceleration, and in dB.

    $$ x = \frac{v}{2 \pi f}, \qquad a = 2 \pi f v, \qquad L = 20 \lg \frac{q_{rms}}{q_0} $$

    One sine alone; never an overall value.

    Args:
        velocity: Of the line, in the measure chosen; scalar, m/s.
        measure: What the number is of the sine; word.
        frequency: Of the line; scalar, Hz.

    Returns:
        The line in every quantity and measure, and its levels with their references.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Derivatives of a sine; ISO 1683 for the references, as quoted in ANSI S1.1, term 3.24.

    Examples:
        >>> [row.velocity for row in velocity_line(1.0, "peak", 10.0).measures][::2]
        [1.0, 2.0]
    """
    VELOCITY.check(velocity)
    MEASURE.check(measure)
    LINE_FREQUENCY.check(frequency)
    return _same_line(velocity, measure, frequency, "velocity")


def acceleration_line(
    acceleration: Annotated[float, ACCELERATED],
    measure: Annotated[str, MEASURE],
    frequency: Annotated[float, LINE_FREQUENCY],
) -> SameLine:
    r"""Return a line that is known as an acceleration as displacement and velocity, and in dB.

    $$ v = \frac{a}{2 \pi f}, \qquad x = \frac{a}{(2 \pi f)^2}, \qquad
       L = 20 \lg \frac{q_{rms}}{q_0} $$

    One sine alone; never an overall value.

    Args:
        acceleration: Of the line, in the measure chosen; scalar, m/s².
        measure: What the number is of the sine; word.
        frequency: Of the line; scalar, Hz.

    Returns:
        The line in every quantity and measure, and its levels with their references.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Derivatives of a sine; ISO 1683 for the references, as quoted in ANSI S1.1, term 3.24.

    Examples:
        >>> [round(row.level, 6) for row in acceleration_line(1.0, "rms", 10.0).levels[3:5]]
        [120.0, 100.0]
    """
    ACCELERATED.check(acceleration)
    MEASURE.check(measure)
    LINE_FREQUENCY.check(frequency)
    return _same_line(acceleration, measure, frequency, "acceleration")


def crossover_frequency(
    displacement: Annotated[float, LARGEST_DISPLACEMENT],
    acceleration: Annotated[float, LARGEST_ACCELERATION],
) -> Annotated[float, CROSSOVER]:
    r"""Return the frequency at which a displacement limit becomes an acceleration limit.

    $$ f_x = \frac{1}{2 \pi} \sqrt{\frac{a_{max}}{X}} $$

    Both limits are of one measure, such as peak.

    Args:
        displacement: Limit below the crossover; scalar, m.
        acceleration: Limit above it; scalar, m/s².

    Returns:
        The frequency of a sine that meets both; scalar, Hz.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Derivatives of a sine.

    Examples:
        >>> round(crossover_frequency(5e-4, 19.6133), 2)
        31.52
    """
    LARGEST_DISPLACEMENT.check(displacement)
    LARGEST_ACCELERATION.check(acceleration)
    return math.sqrt(acceleration / displacement) / (2.0 * math.pi)


def _same_line(value: float, measure: str, frequency: float, quantity: str) -> SameLine:
    """Return a line in all quantities and measures, and the levels of its rms value."""
    rows = tuple(
        InMeasure(
            WORDS[wanted],
            *(
                convert_vibration(value, frequency, quantity, measure, other, wanted)
                for other in ("displacement", "velocity", "acceleration")
            ),
        )
        for wanted in MEASURES
    )
    rms = {name: getattr(rows[1], name) for name in ("displacement", "velocity", "acceleration")}
    return SameLine(rows, tuple(levels_of(rms)))
