"""Decibels: levels of a line over the references of the trade, and what has a level."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated

from calc.constants import STANDARD_GRAVITY
from calc.declaration import Name
from calc.measurement.measures import DECIBELS, level
from calc.quantity import Quantity
from calc.units import ACCELERATION, VIBRATION_VELOCITY

OF = Name("Level of")
REFERENCE = Name("Reference")
VELOCITY_REFERENCE = Quantity(
    "v_0", "Reference velocity", VIBRATION_VELOCITY, above=0.0, example=1e-9
)
ACCELERATION_REFERENCE = Quantity(
    "a_0", "Reference acceleration", ACCELERATION, above=0.0, example=1e-6
)
VELOCITY_RMS = Quantity(
    "v_{rms}", "Velocity, rms", VIBRATION_VELOCITY, at_least=0.0, example=5.08e-3
)
ACCELERATION_RMS = Quantity("a_{rms}", "Acceleration, rms", ACCELERATION, at_least=0.0, example=1.0)

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
class InDecibels:
    """The level of a line over one reference; the line is taken as rms."""

    of: Annotated[str, OF]
    reference: Annotated[str, REFERENCE]
    level: Annotated[float, DECIBELS]


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


def levels_of(rms: Mapping[str, float]) -> Iterator[InDecibels]:
    """Yield the levels of a line by the rms value of each quantity; no vibration has none."""
    for quantity, reference, name in REFERENCES:
        value = rms[quantity]
        if 0.0 < value < math.inf:
            yield InDecibels(quantity, name, level(value, reference))
