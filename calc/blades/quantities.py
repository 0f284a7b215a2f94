"""Quantities that the blade topics share."""

import math
from dataclasses import replace

from calc import vocabulary
from calc.declaration import Choice
from calc.examples import PLOVER
from calc.quantity import Quantity
from calc.units import (
    ANGULAR_STIFFNESS,
    BENDING_STIFFNESS,
    FIRST_MOMENT,
    FREQUENCY,
    INERTIA,
    LENGTH,
    MASS,
    MASS_PER_LENGTH,
    NUMBER,
)

BLADE_LENGTH = Quantity("L", "Length of the blade from its root", LENGTH, above=0.0, example=4.55)
HINGE_OFFSET = Quantity("e", "Hinge offset", LENGTH, at_least=0.0, example=0.25)
ROOT_OFFSET = Quantity("e", "Radius of the blade root", LENGTH, at_least=0.0, example=0.25)
RADIUS = vocabulary.RADIUS
FLAP_MOMENT = Quantity(
    r"S_\beta", "First moment about the flap hinge", FIRST_MOMENT, above=0.0, example=115.0
)
LAG_MOMENT = Quantity(
    r"S_\xi", "First moment about the lag hinge", FIRST_MOMENT, above=0.0, example=115.0
)
FLAP_INERTIA = Quantity(
    r"I_\beta",
    "Second moment about the flap hinge",
    INERTIA,
    above=0.0,
    example=PLOVER.flap_inertia,
)
LAG_INERTIA = Quantity(
    r"I_\xi", "Second moment about the lag hinge", INERTIA, above=0.0, example=350.0
)
ROTOR_SPEED = vocabulary.ROTOR_SPEED
TURNING_SPEED = replace(ROTOR_SPEED, at_least=-math.inf, above=0.0)
FLAP_HINGE_SPRING = Quantity(
    r"k_\beta", "Spring of the flap hinge", ANGULAR_STIFFNESS, at_least=0.0, example=0.0
)
LAG_HINGE_SPRING = Quantity(
    r"k_\xi", "Spring of the lag hinge", ANGULAR_STIFFNESS, at_least=0.0, example=0.0
)
ROOT_STIFFNESS = Quantity("k", "Stiffness of the root hinge", ANGULAR_STIFFNESS, at_least=0.0)
FLAP_RATIO = Quantity(r"\nu_\beta", "Flap frequency over rotor speed", at_least=1.0, example=1.12)
LAG_RATIO = Quantity(r"\nu_\xi", "Lag frequency over rotor speed", NUMBER, at_least=0.0)
STATION = Quantity("x", "Outer station from the root", LENGTH, above=0.0, example=4.55)
MASS_DENSITY = Quantity("m", "Mass per length", MASS_PER_LENGTH, above=0.0, example=11.0)
STIFFNESS = Quantity("EI", "Bending stiffness", BENDING_STIFFNESS, above=0.0, example=20000.0)
TIP_MASS = Quantity("m_t", "Tip mass", MASS, at_least=0.0, example=0.0)
MODES = Quantity("N_m", "Number of modes", at_least=1, at_most=8, whole=True, example=4)
CLAMPED, HINGED = "clamped", "hinged"
ROOT = Choice("Root", {CLAMPED: "clamped", HINGED: "hinged"})
FLAP, LAG = "flap", "lag"
PLANE = Choice("Plane", {FLAP: "flap", LAG: "lag"})
MODE = Quantity("i", "Mode", whole=True)
ROTATING_FREQUENCY = Quantity("f_i", "Rotating natural frequency", FREQUENCY, at_least=0.0)
