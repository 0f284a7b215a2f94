"""Compound: the invented heavy compound as a drive train, as sources, as modes and as a run."""

from calc.examples import HEAVY_COMPOUND
from calc.harmonics.drive_train import Part
from calc.harmonics.meetings import ROTOR, SECOND, Mode, Source
from calc.harmonics.run_up import Stage

_ROTOR_SPEED = HEAVY_COMPOUND.rotor_speed
_PROPELLER = HEAVY_COMPOUND.propellers[0]
_REDUCTION = 4.0  # one and the teeth of ring over sun, below

TRAIN = (
    Part("Rotor", "rotor", speed=_ROTOR_SPEED, count=HEAVY_COMPOUND.blades, multiples=3),
    Part("Turbine", "spool", speed=_REDUCTION * _PROPELLER.propeller_speed),
    Part(
        "Reduction",
        "planetary",
        "Turbine",
        count=108,
        driving_teeth=36,
        planets=4,
        planet_teeth=36,
    ),
    Part("Propeller", "propeller", "Reduction", count=_PROPELLER.blades, multiples=2),
    Part("Oil pump", "accessory", "Reduction", ratio=1.25),
)
"""The rotor on its own engine, and one of the two propellers with its turbine and gearbox."""

SOURCES = (
    Source("rotor 1/rev", ROTOR, 1.0),
    Source("rotor 5/rev", ROTOR, 5.0),
    Source("rotor 10/rev", ROTOR, 10.0),
    Source("propeller 1/rev", SECOND, 1.0),
    Source("propeller 4/rev", SECOND, 4.0),
)
"""The lines that are strong in the airframe."""

MODES = (
    Mode("roll on the gear", 1.75, 0.05, 0.05),
    Mode("first lateral", 6.1, 0.02, 0.03),
    Mode("first vertical", 11.4, 0.02, 0.02),
    Mode("propeller pylons", 19.0, 0.02, 0.02),
)
"""What a shake test of the aircraft on its wheels found."""

STAGES = (
    Stage("rotor to speed", 60.0, _ROTOR_SPEED, 0.0),
    Stage("propellers to idle", 15.0, _ROTOR_SPEED, 0.6 * _PROPELLER.propeller_speed),
    Stage("propellers to speed", 20.0, _ROTOR_SPEED, _PROPELLER.propeller_speed),
)
"""A ground run: the rotor first, the propellers after it."""
