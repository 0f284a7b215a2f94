"""The invented rotorcraft of the ground-resonance pages; it has never flown."""

import math
from dataclasses import replace

from calc.ground.body_on_gear import Body, Gear
from calc.ground.model.aircraft import Rotor, Support
from calc.units import RPM

PLOVER_ROTOR = Rotor(
    blades=4,
    blade_mass=50.0,
    first_moment=115.0,
    lag_inertia=350.0,
    hinge_offset=0.25,
    lag_stiffness=0.0,
    lag_damping=2000.0,
)
PLOVER_SUPPORT = Support(
    mass_x=3000.0,
    mass_y=1400.0,
    stiffness_x=600e3,
    stiffness_y=640e3,
    damping_x=6000.0,
    damping_y=4000.0,
)
PLOVER_DAMPED_SUPPORT = replace(PLOVER_SUPPORT, damping_y=8800.0)  # stable with every lag damper
PLOVER_BODY = Body(body_mass=2800.0, roll_inertia=3500.0, cg_height=1.2, hub_height=3.0)
PLOVER_GEAR = Gear(
    track=2.4,
    vertical_stiffness=2.6e6,
    vertical_damping=16e3,
    lateral_stiffness=1.87e6,
    lateral_damping=12e3,
)
NOMINAL_SPEED = RPM.si(360.0)
HIGHEST_SPEED = RPM.si(400.0)
LOWEST_SPEED = RPM.si(40.0)
SMALL_LAG = math.radians(0.5)  # rad, start of a time history
