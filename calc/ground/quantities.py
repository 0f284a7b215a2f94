"""Quantities that the ground-resonance formulas share.

Lag angles are positive in lead.  First moment and second moment are of one blade and about the
lag hinge, springs and dampers are of one blade, and the effective hub mass is without the blades.
The examples describe an invented aircraft.
"""

from dataclasses import replace

from calc import vocabulary
from calc.declaration import Choice
from calc.quantity import Quantity
from calc.units import (
    ANGULAR_DAMPING,
    ANGULAR_STIFFNESS,
    DAMPING,
    GROWTH,
    INERTIA,
    LENGTH,
    MASS,
    ROTATION,
    RPM,
    STIFFNESS,
    Unit,
)
from calc.units import FIRST_MOMENT as FIRST_MOMENT_UNITS

BLADES = replace(vocabulary.BLADES, at_least=2, at_most=12)
BLADE_MASS = Quantity(
    "m_b", "Mass of one blade outboard of the lag hinge", MASS, at_least=0.0, example=50.0
)
FIRST_MOMENT = Quantity(
    r"S_\xi",
    "First moment of one blade about the lag hinge",
    FIRST_MOMENT_UNITS,
    above=0.0,
    example=115.0,
)
LAG_INERTIA = Quantity(
    r"I_\xi",
    "Second moment of one blade about the lag hinge",
    INERTIA,
    above=0.0,
    example=350.0,
)
HINGE_OFFSET = Quantity("e", "Lag hinge offset from the shaft", LENGTH, at_least=0.0, example=0.25)
LAG_STIFFNESS = Quantity(
    r"K_\xi", "Lag spring of one blade", ANGULAR_STIFFNESS, at_least=0.0, example=0.0
)
THREE_BLADES = replace(BLADES, at_least=3)
LAG_DAMPING = Quantity(
    r"C_\xi", "Lag damper of one blade", ANGULAR_DAMPING, at_least=0.0, example=2000.0
)
MASS_X = Quantity(
    "M_x",
    "Effective hub mass, longitudinal",
    MASS,
    at_least=0.0,
    example=3000.0,
)
MASS_Y = Quantity(
    "M_y",
    "Effective hub mass, lateral",
    MASS,
    at_least=0.0,
    example=1400.0,
)
STIFFNESS_X = Quantity(
    "K_x", "Effective hub stiffness, longitudinal", STIFFNESS, above=0.0, example=600000.0
)
STIFFNESS_Y = Quantity(
    "K_y", "Effective hub stiffness, lateral", STIFFNESS, above=0.0, example=640000.0
)
DAMPING_X = Quantity(
    "C_x", "Effective hub damping, longitudinal", DAMPING, at_least=0.0, example=6000.0
)
DAMPING_Y = Quantity("C_y", "Effective hub damping, lateral", DAMPING, at_least=0.0, example=4000.0)
HUB_MASS = Choice(
    "Mass of the blades",
    {
        "without_blades": "is not in the effective hub mass",
        "with_blades": "is in the effective hub mass",
    },
)
HUB_MASS_WITHOUT_BLADES = Quantity("M", "Effective hub mass without the blades", MASS, at_least=0.0)
SUPPORT_MASS = Quantity("M", "Effective hub mass", MASS, above=0.0, example=1400.0)
SUPPORT_STIFFNESS = Quantity("K", "Effective hub stiffness", STIFFNESS, above=0.0, example=640e3)
SUPPORT_DAMPING = Quantity("C", "Effective hub damping", DAMPING, at_least=0.0, example=4000.0)
TOTAL_MASS = Quantity(
    r"\bar{M}", "Effective hub mass with the blades lumped at the hub", MASS, above=0.0
)
MASS_OF_BLADES = Quantity("m_B", "Mass of all blades", MASS, at_least=0.0, example=200.0)
OFFSET_RATIO = Quantity(
    r"\Lambda_1", "Hinge offset times first moment over second moment", at_least=0.0, example=0.08
)
SPRING_RATE = Quantity(
    r"K_\xi/I_\xi",
    "Lag spring over second moment",
    (Unit("1/s²", "1/s2", "per second squared"),),
    at_least=0.0,
    example=0.0,
)
SUPPORT_FREQUENCY = Quantity(
    r"\omega_x", "Support frequency with the blades", ROTATION, above=0.0, example=20.0
)
LAG_FREQUENCY = Quantity(r"\omega_\xi", "Lag frequency at coalescence", ROTATION)
ROTOR_SPEED = replace(vocabulary.ROTOR_SPEED, example=RPM.si(280.0))
LOWEST_SPEED = Quantity(
    r"\Omega_{min}", "Lowest rotor speed", ROTATION, at_least=0.0, example=RPM.si(40.0)
)
HIGHEST_SPEED = Quantity(
    r"\Omega_{max}", "Highest rotor speed", ROTATION, above=0.0, example=RPM.si(400.0)
)
COUPLING = Quantity(
    r"\Lambda",
    "Coupling parameter",
    above=0.0,
    below=1.0,
    source="a larger one has no positive kinetic energy",
)
GROWTH_RATE = Quantity(r"\sigma", "Growth rate of the least stable mode", GROWTH)
HIGHEST_GROWTH = Quantity(r"\sigma_{max}", "Highest growth rate of the sweep", GROWTH)
REQUIRED_LAG_DAMPING = Quantity(
    r"C_{\xi,req}", "Required lag damping, one blade", ANGULAR_DAMPING, at_least=0.0
)
COALESCENCE_SPEED = Quantity(r"\Omega^*", "Coalescence speed", ROTATION)
