"""Measurement needs: the lines, the mode and the order that a measurement is planned for."""

import math
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar

from calc.declaration import check
from calc.measurement.quantities import ORDER
from calc.quantity import InputsError, Quantity
from calc.units import FREQUENCY, SHARE
from calc.vocabulary import DAMPING_RATIO, ROTOR_SPEED

HIGHEST = Quantity(
    r"f_\text{max}", "Highest source in the signal", FREQUENCY, above=0.0, example=400.0
)
FIRST = Quantity("f_1", "First of two lines to tell apart", FREQUENCY, above=0.0, example=24.0)
SECOND = Quantity("f_2", "Second of them", FREQUENCY, above=0.0, example=23.6)
MODE = Quantity("f", "Frequency of the mode", FREQUENCY, above=0.0, example=3.4)
LEAST_DAMPING = replace(
    DAMPING_RATIO, label="Least damping ratio to be measured", above=0.0, at_least=-math.inf
)
TURNING = replace(ROTOR_SPEED, above=0.0, at_least=-math.inf)
DRIFT = Quantity(
    "d", "Drift of rotor speed in a block, fraction", SHARE, at_least=0.0, example=0.002
)


@dataclass(frozen=True, slots=True)
class LinesWanted:
    """What a spectrum has to show.

    Attributes:
        highest_source: Highest frequency that is in the signal; scalar, Hz.
        first_line: One of two lines to be told apart; scalar, Hz.
        second_line: The other one; scalar, Hz.
    """

    heading: ClassVar[str] = "Lines"

    highest_source: Annotated[float, HIGHEST]
    first_line: Annotated[float, FIRST]
    second_line: Annotated[float, SECOND]

    def __post_init__(self) -> None:
        """Refuse lines that cannot be told apart by any record."""
        check(self)
        if self.first_line == self.second_line:
            raise InputsError("The two lines must differ", "first_line", "second_line")


@dataclass(frozen=True, slots=True)
class ModeWanted:
    """A mode whose damping is measured.

    Attributes:
        mode_frequency: Its natural frequency; scalar, Hz.
        damping_ratio: The least damping over critical damping that it may have; scalar.
    """

    heading: ClassVar[str] = "Mode"

    mode_frequency: Annotated[float, MODE]
    damping_ratio: Annotated[float, LEAST_DAMPING]

    def __post_init__(self) -> None:
        """Refuse a mode that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class OrderWanted:
    """An order of a rotor whose speed is not quite steady.

    Attributes:
        order: The order; scalar, /rev.
        rotor_speed: Speed of the shaft; scalar, rad/s.
        drift: How far the speed changes during a block, over its mean; scalar.
    """

    heading: ClassVar[str] = "Order"

    order: Annotated[float, ORDER]
    rotor_speed: Annotated[float, TURNING]
    drift: Annotated[float, DRIFT]

    def __post_init__(self) -> None:
        """Refuse an order that cannot exist."""
        check(self)
