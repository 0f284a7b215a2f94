"""Constants that the chapters share."""

from calc.quantity import Constant, Quantity
from calc.units import ACCELERATION

STANDARD_GRAVITY = Constant(9.80665, Quantity("g", "Standard gravity", ACCELERATION))
"""Exact: 3rd General Conference on Weights and Measures (1901)."""
