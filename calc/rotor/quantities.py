"""Quantities that the topics of the rotor chapter share."""

import math
from dataclasses import replace

from calc import vocabulary
from calc.examples import PLOVER
from calc.quantity import Quantity
from calc.units import (
    ALTITUDE,
    ANGLE,
    AREA,
    DENSITY,
    FORCE,
    LENGTH,
    LIFT_SLOPE,
    MASS,
    NUMBER,
    PRESSURE,
    SHARE,
    SPEED,
    TEMPERATURE,
    TEMPERATURE_DIFFERENCE,
)

RADIUS = vocabulary.RADIUS
CHORD = Quantity("c", "Blade chord", LENGTH, above=0.0, example=PLOVER.chord)
BLADES = replace(vocabulary.BLADES, example=PLOVER.blades)
ROTOR_SPEED = replace(
    vocabulary.ROTOR_SPEED, at_least=-math.inf, above=0.0, example=PLOVER.rotor_speed
)
TIP_SPEED = Quantity("V_t", "Tip speed", SPEED, above=0.0, example=180.0)
TWIST = Quantity(
    r"\theta_1",
    "Linear twist, tip minus axis",
    ANGLE,
    above=-math.pi / 2,
    below=math.pi / 2,
    example=PLOVER.twist,
)
LIFT_SLOPE_OF_BLADE = Quantity(
    "a_0", "Blade lift slope", LIFT_SLOPE, above=0.0, example=PLOVER.lift_slope
)
MASS_OF_ROTORCRAFT = Quantity("m", "Mass", MASS, above=0.0, example=PLOVER.mass)
DRAG_AREA = Quantity(
    "f", "Equivalent flat-plate drag area", AREA, at_least=0.0, example=PLOVER.drag_area
)

AIRSPEED = Quantity("V", "True airspeed", SPEED, at_least=0.0, example=50.0)
PRESSURE_ALTITUDE = Quantity(
    "H_p", "Pressure altitude", ALTITUDE, at_least=-5000.0, at_most=20000.0, example=0.0
)
TEMPERATURE_OFFSET = Quantity(
    r"\Delta T",
    "ISA deviation",
    TEMPERATURE_DIFFERENCE,
    covered=(-85.0, 45.0),
    covered_by="temperatures measured near the ground (is it an outside air temperature?)",
    example=0.0,
)
AIR_TEMPERATURE = Quantity("T_a", "Air temperature", TEMPERATURE, above=0.0, example=288.15)
AIR_PRESSURE = Quantity("p", "Air pressure", PRESSURE, above=0.0, example=101325.0)
AIR_DENSITY = Quantity(r"\rho", "Air density", DENSITY, above=0.0, example=1.225)
SPEED_OF_SOUND = Quantity("a", "Speed of sound", SPEED, above=0.0, example=340.0)

MACH_LIMIT = Quantity(
    "M_{lim}",
    "Limit of the advancing-tip Mach number",
    above=0.0,
    covered=(0.0, 1.0),
    covered_by="drag divergence comes before the speed of sound",
    example=0.9,
)
ADVANCING_TIP_MACH = Quantity(
    "M_{1,90}",
    "Advancing-tip Mach number",
    covered=(-math.inf, 1.0),
    covered_by="the tip is supersonic, and the formula leaves compressibility out",
)
DISC_INCIDENCE = Quantity(
    r"\alpha",
    "Disc incidence, nose down",
    ANGLE,
    above=-math.pi / 2,
    below=math.pi / 2,
    example=math.radians(4.0),
)
ADVANCE_RATIO = Quantity(r"\mu", "Advance ratio", at_least=0.0, example=0.3)

THRUST = Quantity("T", "Rotor thrust", FORCE, at_least=0.0, example=29000.0)
SOLIDITY = Quantity(r"\sigma", "Solidity", above=0.0, below=1.0, example=0.08)
THRUST_COEFFICIENT = Quantity("C_T", "Thrust coefficient", at_least=0.0, example=0.006)
BLADE_LOADING = Quantity(r"C_T/\sigma", "Blade loading", at_least=0.0, example=0.08)
INFLOW = Quantity(r"\lambda", "Inflow ratio, down through the disc")

LOAD_FACTOR = Quantity("n_z", "Load factor", NUMBER, above=0.0, example=1.0)
WING_LIFT_SHARE = Quantity("s_w", "Wing lift share", SHARE, at_least=0.0, below=1.0, example=0.0)
PROPELLER_THRUST_SHARE = Quantity(
    "s_p", "Propeller thrust share of the airframe drag", SHARE, at_least=0.0, example=0.0
)
