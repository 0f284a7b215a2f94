"""Quantities that every chapter has, under one name and one symbol; a chapter narrows them."""

from calc.examples import PLOVER
from calc.quantity import Quantity
from calc.units import LENGTH, ROTATION, SHARE

BLADES = Quantity("N_b", "Number of blades", at_least=1, whole=True, example=PLOVER.blades)
RADIUS = Quantity("R", "Rotor radius", LENGTH, above=0.0, example=PLOVER.radius)
ROTOR_SPEED = Quantity(r"\Omega", "Rotor speed", ROTATION, at_least=0.0, example=PLOVER.rotor_speed)
DAMPING_RATIO = Quantity(r"\zeta", "Damping ratio", SHARE, at_least=0.0, below=1.0, example=0.02)
