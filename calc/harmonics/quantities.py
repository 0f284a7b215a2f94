"""Quantities that the topics of the harmonics chapter share."""

from calc.quantity import Quantity
from calc.units import CYCLE_PER_MINUTE, FREQUENCY, HERTZ, PER_REV

MULTIPLE = Quantity("k", "Multiple of the blade passage", at_least=1, whole=True, example=1)
HARMONIC = Quantity("n", "Harmonic of the rotor speed", (PER_REV,), at_least=0, whole=True)
SOURCE_FREQUENCY = Quantity("f", "Frequency", FREQUENCY)
PER_MINUTE = Quantity("60 f", "Cycles per minute", (CYCLE_PER_MINUTE, HERTZ))
