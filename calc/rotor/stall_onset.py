"""Stall onset: the airspeed at which the retreating blade reaches its limiting angle."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.declaration import Name, Nothing
from calc.quantity import Quantity
from calc.roots import first_root
from calc.rotor.advance_ratio import advance_ratio
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.blade_loading import blade_loading, solidity
from calc.rotor.inflow import induced_inflow
from calc.rotor.level_flight import rotor_force
from calc.rotor.quantities import (
    ADVANCE_RATIO,
    ADVANCING_TIP_MACH,
    AIRSPEED,
    BLADE_LOADING,
    BLADES,
    CHORD,
    DISC_INCIDENCE,
    DRAG_AREA,
    INFLOW,
    LIFT_SLOPE_OF_BLADE,
    LOAD_FACTOR,
    MASS_OF_ROTORCRAFT,
    PRESSURE_ALTITUDE,
    PROPELLER_THRUST_SHARE,
    RADIUS,
    ROTOR_SPEED,
    SOLIDITY,
    TEMPERATURE_OFFSET,
    TWIST,
    WING_LIFT_SHARE,
)
from calc.rotor.tip_speed import advancing_tip_mach, tip_speed
from calc.units import ANGLE
