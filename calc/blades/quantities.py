"""Quantities that the blade topics share."""

import math
from dataclasses import replace

from calc import vocabulary
from calc.declaration import Choice
from calc.quantity import Quantity
from calc.units import (
    ANGULAR_STIFFNESS,
    BENDING_STIFFNESS,
    FIRST_MOMENT,
    INERTIA,
    LENGTH,
    MASS,
    MASS_PER_LENGTH,
    NUMBER,
)

BLADE_LENGTH = Quantity("L", "Length of the blade from its root", LENGTH, above=0.0, example=5.0)
HINGE_OFFSET = Quantity("e", "Hinge offset", LENGTH, at_least=0.0, example=0.2)
ROOT_OFFSET = Quantity("e", "Radius of the blade root", LENGTH, at_least=0.0, example=0.2)
RADIUS = Quantity("R", "Rotor radius", LENGTH, above=0.0, example=5.0)
FIRST_MASS_MOMENT = Quantity(
    "S", "First mass moment about the hinge", FIRST_MOMENT, above=0.0, example=115.2
)
FLAP_INERTIA = Quantity("I", "Flap inertia about the hinge", INERTIA, above=0.0, example=368.64)
LAG_INERTIA = Quantity("I", "Lag inertia about the hinge", INERTIA, above=0.0, example=368.64)
ROTOR_SPEED = replace(vocabulary.ROTOR_SPEED, example=41.36430327226561)
TURNING_SPEED = replace(ROTOR_SPEED, at_least=-math.inf, above=0.0)
HINGE_STIFFNESS = Quantity(
    r"k_\beta", "Hinge stiffness", ANGULAR_STIFFNESS, at_least=0.0, example=0.0
)
ROOT_STIFFNESS = Quantity("k", "Stiffness of the root hinge", ANGULAR_STIFFNESS, at_least=0.0)
FLAP_RATIO = Quantity(r"\nu_\beta", "Flap frequency over rotor speed", at_least=1.0, example=1.12)
LAG_RATIO = Quantity(r"\nu_\xi", "Lag frequency over rotor speed", NUMBER, at_least=0.0)
STATION = Quantity("x", "Outer station from the root", LENGTH, above=0.0, example=5.0)
MASS_DENSITY = Quantity("m", "Mass per length", MASS_PER_LENGTH, above=0.0, example=10.0)
STIFFNESS = Quantity("EI", "Bending stiffness", BENDING_STIFFNESS, above=0.0, example=20000.0)
TIP_MASS = Quantity("m_t", "Tip mass", MASS, at_least=0.0, example=0.0)
MODES = Quantity("i", "Number of modes", at_least=1, at_most=8, whole=True, example=4)
ROOT = Choice("Root", {"clamped": "clamped", "hinged": "hinged"})
PLANE = Choice("Plane", {"flap": "flap", "lag": "lag"})
