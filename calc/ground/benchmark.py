"""The classic benchmark: data of a rotor and its hub, without a printed result.

Hammond (1974), four blades on a hub that differs in its two directions, with one lag damper
inoperative.  The values were read in the data file of a university thesis that names that paper.
"""

from calc.ground.model.aircraft import Rotor, Support
from calc.units import RPM

BENCHMARK_ROTOR = Rotor(4, 94.9, 289.1, 1084.7, 0.3048, 0.0, 4067.5)
BENCHMARK_SUPPORT = Support(8026.6, 3283.6, 1240481.8, 1240481.8, 51078.7, 51078.7 / 2.0)
ONE_OUT = (0.0, *(BENCHMARK_ROTOR.lag_damping,) * 3)  # N·m·s/rad, lag damper of each blade
SWEEP = (RPM.si(60.0), RPM.si(500.0))
