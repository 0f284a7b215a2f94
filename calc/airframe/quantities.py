"""Quantities that the airframe topics share."""

from calc.quantity import Quantity
from calc.units import ANGLE, FORCE, FREQUENCY, MASS

FREQUENCY_RATIO = Quantity(
    "r", "Forcing frequency over natural frequency", at_least=0.0, example=0.9
)
NATURAL_FREQUENCY = Quantity("f_n", "Natural frequency", FREQUENCY, above=0.0, example=12.5)
FORCING_FREQUENCY = Quantity("f", "Forcing frequency", FREQUENCY, above=0.0, example=13.0)
FORCE_AMPLITUDE = Quantity("F", "Force amplitude", FORCE, at_least=0.0, example=500.0)
MODAL_MASS = Quantity("m", "Modal mass", MASS, above=0.0, example=800.0)
AMPLIFICATION = Quantity("D", "Response over static response", at_least=0.0)
PHASE = Quantity(r"\phi", "Phase of the response, negative where it lags", ANGLE)
