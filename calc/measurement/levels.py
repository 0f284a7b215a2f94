"""Levels: one line of vibration in every quantity and measure, and in decibels."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Annotated

from calc.constants import STANDARD_GRAVITY
from calc.declaration import Choice, Name, Table
from calc.measurement.measures import (
    DECIBELS,
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
OF = Name("Level of")
REFERENCE = Name("Reference")
LARGEST_DISPLACEMENT = Quantity(
    "X", "Displacement limit", VIBRATION_DISPLACEMENT, above=0.0, example=5e-4
)
LARGEST_ACCELERATION = Quantity(
    "a_{max}", "Acceleration limit", ACCELERATION, above=0.0, example=2.0 * STANDARD_GRAVITY
)
CROSSOVER = Quantity("f_x", "Crossover frequency", FREQUENCY)
VELOCITY_REFERENCE = Quantity(
    "v_0", "Reference velocity", VIBRATION_VELOCITY, above=0.0, example=1e-9
)
ACCELERATION_REFERENCE = Quantity(
    "a_0", "Reference acceleration", ACCELERATION, above=0.0, example=1e-6
)
VELOCITY_RMS = replace(VELOCITY, symbol="v_{rms}", label="Velocity, rms")
ACCELERATION_RMS = replace(ACCELERATED, symbol="a_{rms}", label="Acceleration, rms")

REFERENCES = (
    ("displacement", 1e-12, "1 pm (ISO 1683)"),
    ("velocity", 1e-9, "1 nm/s (ISO 1683)"),
    ("velocity", 1e-8, "10 nm/s (VdB)"),
    ("acceleration", 1e-6, "1 µm/s² (ISO 1683)"),
    ("acceleration", 1e-5, "10 µm/s² (ANSI S1.8-1969)"),
    ("acceleration", 1e-6 * STANDARD_GRAVITY, "1 µg (AdB)"),
)
"""Quantity, reference in SI units, and what the reference is called."""


@dataclass(frozen=True, slots=True)
class InMeasure:
    """A line in one measure."""

    measure: Annotated[str, MEASURED_AS]
    displacement: Annotated[float, DISPLACEMENT]
    velocity: Annotated[float, VELOCITY]
    acceleration: Annotated[float, ACCELERATED]


@dataclass(frozen=True, slots=True)
class InDecibels:
    """The level of a line over one reference; the line is taken as rms."""

    of: Annotated[str, OF]
    reference: Annotated[str, REFERENCE]
    level: Annotated[float, DECIBELS]


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


def velocity_at_level(
    decibels: Annotated[float, DECIBELS], reference: Annotated[float, VELOCITY_REFERENCE]
) -> Annotated[float, VELOCITY_RMS]:
    r"""Return the velocity that has a level.

    $$ v_{rms} = v_0 \, 10^{L/20} $$

    Args:
        decibels: Level; scalar, dB.
        reference: Velocity at 0 dB, rms; scalar, m/s.

    Returns:
        The velocity, rms; scalar, m/s.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        ANSI S1.1, term 3.24, for acceleration; velocity alike.

    Examples:
        >>> round(velocity_at_level(120.0, 1e-9), 12)
        0.001
    """
    DECIBELS.check(decibels)
    VELOCITY_REFERENCE.check(reference)
    return float(reference * 10.0 ** (decibels / 20.0))


def acceleration_at_level(
    decibels: Annotated[float, DECIBELS], reference: Annotated[float, ACCELERATION_REFERENCE]
) -> Annotated[float, ACCELERATION_RMS]:
    r"""Return the acceleration that has a level.

    $$ a_{rms} = a_0 \, 10^{L/20} $$

    Args:
        decibels: Level; scalar, dB.
        reference: Acceleration at 0 dB, rms; scalar, m/s².

    Returns:
        The acceleration, rms; scalar, m/s².

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        ANSI S1.1, term 3.24, as its public listing has it.

    Examples:
        >>> round(acceleration_at_level(120.0, 1e-6), 12)
        1.0
    """
    DECIBELS.check(decibels)
    ACCELERATION_REFERENCE.check(reference)
    return float(reference * 10.0 ** (decibels / 20.0))


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
    return SameLine(rows, tuple(_levels(rows[1])))


def _levels(rms: InMeasure) -> Iterator[InDecibels]:
    """Yield the levels of a line; no vibration has none."""
    for quantity, reference, name in REFERENCES:
        value: float = getattr(rms, quantity)
        if 0.0 < value < math.inf:
            yield InDecibels(quantity, name, level(value, reference))
