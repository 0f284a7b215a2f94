"""The invented aircraft of the forms, for tests that need one."""

from calc.ground.aircraft import Rotor, Support
from calc.units import RPM

ROTOR_VALUES = (4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0)
SUPPORT_VALUES = (3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
ROTOR = Rotor(*ROTOR_VALUES)
SUPPORT = Support(*SUPPORT_VALUES)
SWEEP = (RPM.si(40.0), RPM.si(400.0))
