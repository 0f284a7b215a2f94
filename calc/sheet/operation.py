"""Operation: what a sheet asks beyond the inputs of formulas: ranges of governed speeds, tests."""

from dataclasses import dataclass, replace
from typing import Annotated

from calc import vocabulary
from calc.declaration import Name
from calc.quantity import Quantity
from calc.units import SHARE

_SPEED = replace(vocabulary.ROTOR_SPEED, symbol="", at_least=-float("inf"), above=0.0)
SPEED = replace(_SPEED, label="Nominal propeller speed")
POWER_ON_LOW = replace(_SPEED, label="Lowest speed, power on")
POWER_ON_HIGH = replace(_SPEED, label="Highest speed, power on")
POWER_OFF_LOW = replace(_SPEED, label="Lowest speed, power off")
POWER_OFF_HIGH = replace(_SPEED, label="Highest speed, power off")
TRANSIENT_LOW = replace(_SPEED, label="Lowest speed in a transient")
TRANSIENT_HIGH = replace(_SPEED, label="Highest speed in a transient")
DROOP = Quantity(
    "", "Governor droop, of the nominal speed", SHARE, at_least=0.0, below=1.0, example=0.0
)
MODE_SOURCE = Name("Test or record, method and date", longest=130)
SECOND_PART = Name("Part of the drive train on the second governed speed", "Propeller")


@dataclass(frozen=True, slots=True)
class GovernedSpeed:
    """A governed shaft speed and the ranges that it has in operation.

    Attributes:
        speed: Nominal speed; scalar, rad/s.
        power_on_low: Lowest steady speed with power on; scalar, rad/s.
        power_on_high: Highest steady speed with power on; scalar, rad/s.
        power_off_low: Lowest steady speed with power off; scalar, rad/s.
        power_off_high: Highest steady speed with power off; scalar, rad/s.
        transient_low: Lowest speed that is passed in a transient; scalar, rad/s.
        transient_high: Highest speed that is passed in a transient; scalar, rad/s.
        droop: How far the governed speed falls with load, as a fraction of nominal; scalar.
    """

    speed: Annotated[float, SPEED]
    power_on_low: Annotated[float, POWER_ON_LOW]
    power_on_high: Annotated[float, POWER_ON_HIGH]
    power_off_low: Annotated[float, POWER_OFF_LOW]
    power_off_high: Annotated[float, POWER_OFF_HIGH]
    transient_low: Annotated[float, TRANSIENT_LOW]
    transient_high: Annotated[float, TRANSIENT_HIGH]
    droop: Annotated[float, DROOP] = 0.0


@dataclass(frozen=True, slots=True)
class SecondShaft:
    """Which part of the drive train turns at the second governed speed."""

    second: Annotated[str, SECOND_PART]


@dataclass(frozen=True, slots=True)
class FromTest:
    """Where a measured mode is from."""

    source: Annotated[str, MODE_SOURCE] = ""
