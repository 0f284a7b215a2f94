"""Compound: the invented Curlew as drive trains, excitations, modes, ranges, runs and lag data."""

from dataclasses import dataclass

from calc.examples import CURLEW
from calc.ground.model.aircraft import Rotor
from calc.ground.search.mode_survey import MeasuredMode, SpeedRange
from calc.harmonics.drive_train import Part
from calc.harmonics.meetings import MODES as MODE_ROWS
from calc.harmonics.meetings import ROTOR
from calc.harmonics.meetings import SOURCES as SOURCE_ROWS
from calc.harmonics.operating_speeds import OperatingSpeeds
from calc.harmonics.run_up import STAGES as STAGE_ROWS
from calc.units import RPM

_PROPELLER = CURLEW.propellers[0]
_ROTOR_RATIO = 96 / 19 * 73 / 20 * (1 + 116 / 34)  # of the turbine to the rotor, from teeth below
_PROPELLER_RATIO = 90 / 23 * (1 + 93 / 27)  # of the turbine to the propeller

ROTOR_TRAIN = (
    Part("Rotor turbine", "spool", speed=_ROTOR_RATIO * CURLEW.rotor_speed),
    Part("Engine reduction", "gear_pair", "Rotor turbine", count=96, driving_teeth=19),
    Part("Rotor bevel", "gear_pair", "Engine reduction", count=73, driving_teeth=20),
    Part(
        "Mast", "planetary", "Rotor bevel", count=116, driving_teeth=34, planets=5, planet_teeth=41
    ),
    Part("Rotor", "rotor", "Mast", count=CURLEW.blades, multiples=3),
)
"""The rotor on its own engine."""

PROPELLER_TRAIN = (
    Part("Propeller turbine", "spool", speed=_PROPELLER_RATIO * _PROPELLER.propeller_speed),
    Part("First reduction", "gear_pair", "Propeller turbine", count=90, driving_teeth=23),
    Part(
        "Second reduction",
        "planetary",
        "First reduction",
        count=93,
        driving_teeth=27,
        planets=5,
        planet_teeth=33,
    ),
    Part("Propeller", "propeller", "Second reduction", count=_PROPELLER.blades, multiples=2),
    Part("Oil pump", "accessory", "Second reduction", ratio=3.9),
)
"""One of the two propellers with its engine and gearbox; the other is alike."""

TRAIN = ROTOR_TRAIN + PROPELLER_TRAIN

SOURCES = SOURCE_ROWS.example
"""The orders that are strong in the airframe."""

LAG_ROTOR = Rotor(
    blades=CURLEW.blades,
    blade_mass=60.0,
    first_moment=225.0,
    lag_inertia=CURLEW.flap_inertia,
    hinge_offset=0.40,
    lag_stiffness=0.0,
    lag_damping=4500.0,
)
"""A uniform blade of 7.5 m on a hinge for lag and flap at 0.4 m."""


ON_WHEELS = (
    MeasuredMode("full weight", 2.3, 0.08, 7000.0, 1.0, 0.0),  # pitch on the gear
    MeasuredMode("full weight", 1.9, 0.10, 4200.0, 0.0, 1.0),  # roll on the gear
    MeasuredMode("full weight", 6.3, 0.02, 5200.0, 0.05, 0.5),  # first lateral bending
)
GEAR_MODES = (
    *ON_WHEELS,
    MeasuredMode("light on the wheels", 1.8, 0.06, 7000.0, 1.0, 0.0, 0.5),
    MeasuredMode("light on the wheels", 1.45, 0.08, 4200.0, 0.0, 1.0, 0.5),
    MeasuredMode("light on the wheels", 6.2, 0.02, 5200.0, 0.05, 0.5, 0.5),
)
"""Modes with their hub shapes from a shake test with the blades off, in two states of the gear."""


@dataclass(frozen=True, slots=True)
class OperatingRange:
    """The speeds of a condition, as fractions of the design speeds of rotor and propellers."""

    name: str
    rotor: tuple[float, float]
    propeller: tuple[float, float]

    def speeds(self) -> OperatingSpeeds:
        """Return the design speeds with this range about them, and the speeds of the map."""
        return OperatingSpeeds(
            rotor_low=RPM.si(60.0),
            rotor_high=RPM.si(290.0),
            rotor_speed=CURLEW.rotor_speed,
            rotor_below=1.0 - self.rotor[0],
            rotor_above=self.rotor[1] - 1.0,
            second_low=RPM.si(500.0),
            second_high=RPM.si(1300.0),
            second_speed=_PROPELLER.propeller_speed,
            second_below=1.0 - self.propeller[0],
            second_above=self.propeller[1] - 1.0,
        )


POWER_ON = OperatingRange("power on, governed", (0.98, 1.01), (0.89, 1.00))
TRANSIENT = OperatingRange("transient, droop and overshoot", (0.93, 1.04), (0.86, 1.03))
POWER_OFF = OperatingRange("power off", (0.90, 1.06), (0.86, 1.03))
DEMONSTRATED = OperatingRange(
    "to be shown in test for power off", (0.90 / 1.05, 1.06 / 0.95), (0.86, 1.03)
)
"""14 CFR 29.1509: at least 105 % of the lowest and at most 95 % of the highest speed shown."""
RANGES = (POWER_ON, TRANSIENT, POWER_OFF, DEMONSTRATED)


MODES = MODE_ROWS.example
"""What a shake test on the wheels found, with the tolerance of each frequency.

The gear modes and the first lateral bending have the blades lumped at the hub; the tolerance of a
whirl mode covers every propeller speed in operation.
"""

FIRST_IDLE = 0.60  # of the design propeller speed, as first proposed
STAGES = STAGE_ROWS.example
"""A ground run: the rotor first, the propellers after it."""
IDLE = STAGES[1].second_speed / _PROPELLER.propeller_speed  # of the design propeller speed

GROUND_SPEEDS = SpeedRange(
    lowest_speed=RPM.si(60.0),
    highest_speed=DEMONSTRATED.speeds().operating(ROTOR)[1],
    lowest_operating_speed=POWER_OFF.speeds().operating(ROTOR)[0],
    highest_operating_speed=POWER_OFF.speeds().operating(ROTOR)[1],
)
"""Rotor speeds of the check for ground resonance, and those of operation."""
