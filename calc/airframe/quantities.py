"""Quantities that the airframe topics share."""

import math
from dataclasses import replace

from calc.quantity import Quantity
from calc.units import ACCELERATION, ANGLE, FORCE, FREQUENCY, LENGTH, MASS, SPEED
from calc.vocabulary import DAMPING_RATIO

FREQUENCY_RATIO = Quantity(
    "r", "Forcing frequency over natural frequency", at_least=0.0, example=0.9
)
DAMPED = replace(DAMPING_RATIO, at_least=-math.inf, above=0.0)
NATURAL_FREQUENCY = Quantity("f_n", "Natural frequency", FREQUENCY, above=0.0, example=22.6)
FORCING_FREQUENCY = Quantity("f", "Forcing frequency", FREQUENCY, above=0.0, example=24.0)
FORCE_AMPLITUDE = Quantity("F", "Force amplitude", FORCE, at_least=0.0, example=500.0)
MODAL_MASS = Quantity("m", "Modal mass", MASS, above=0.0, example=700.0)
MAGNIFICATION = Quantity("D", "Dynamic magnification factor", at_least=0.0)
PHASE = Quantity(r"\phi", "Phase of the response, negative where it lags", ANGLE)
DISPLACEMENT = Quantity("x", "Displacement amplitude", LENGTH)
VELOCITY = Quantity("v", "Velocity amplitude", SPEED)
VIBRATION = Quantity("a", "Acceleration amplitude", ACCELERATION)
