"""The invented aircraft of the forms, for tests that need one."""

from calc.ground.model.aircraft import Hub, Rotor
from calc.units import RPM

ROTOR = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0)
HUB = Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0)
SUPPORT = HUB.support(ROTOR)
SWEEP = (RPM.si(40.0), RPM.si(400.0))
