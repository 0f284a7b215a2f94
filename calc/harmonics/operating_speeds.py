"""Operating speeds: the speeds at which two independent shafts run, and the ranges they have."""

from dataclasses import dataclass
from typing import Annotated, ClassVar

from calc.declaration import check
from calc.harmonics.meetings import NONE, ROTOR, SECOND
from calc.quantity import Quantity
from calc.units import ROTATION, RPM, SHARE

ROTOR_LOW = Quantity(
    r"\Omega_1", "Lowest rotor speed of interest", ROTATION, at_least=0.0, example=60.0 * RPM.size
)
ROTOR_HIGH = Quantity(
    r"\Omega_2", "Highest rotor speed of interest", ROTATION, above=0.0, example=290.0 * RPM.size
)
ROTOR_SPEED = Quantity(
    r"\Omega", "Operating rotor speed", ROTATION, above=0.0, example=250.0 * RPM.size
)
ROTOR_BELOW = Quantity(
    r"u_{\Omega-}",
    "Rotor speed range below operating speed",
    SHARE,
    at_least=0.0,
    below=1.0,
    example=0.0,
)
ROTOR_ABOVE = Quantity(
    r"u_{\Omega+}",
    "Rotor speed range above operating speed",
    SHARE,
    at_least=0.0,
    at_most=1.0,
    example=0.0,
)
SECOND_LOW = Quantity(
    "n_1", "Lowest propeller speed of interest", ROTATION, at_least=0.0, example=500.0 * RPM.size
)
SECOND_HIGH = Quantity(
    "n_2", "Highest propeller speed of interest", ROTATION, above=0.0, example=1300.0 * RPM.size
)
SECOND_SPEED = Quantity(
    "n", "Operating propeller speed", ROTATION, above=0.0, example=1150.0 * RPM.size
)
SECOND_BELOW = Quantity(
    "u_{n-}",
    "Propeller speed range below operating speed",
    SHARE,
    at_least=0.0,
    below=1.0,
    example=0.0,
)
SECOND_ABOVE = Quantity(
    "u_{n+}",
    "Propeller speed range above operating speed",
    SHARE,
    at_least=0.0,
    at_most=1.0,
    example=0.0,
)
ROTOR_SPAN = Quantity("r", "Highest less lowest rotor speed", ROTATION, above=0.0)
SECOND_SPAN = Quantity("s", "Highest less lowest propeller speed", ROTATION, above=0.0)


@dataclass(frozen=True, slots=True)
class OperatingSpeeds:
    """The speeds of two independent shafts: of interest, in operation, and the range about that.

    Attributes:
        rotor_low: Lowest rotor speed of interest; scalar, rad/s.
        rotor_high: Highest rotor speed of interest; scalar, rad/s.
        rotor_speed: Operating rotor speed; scalar, rad/s.
        rotor_below: How far the rotor speed falls below it, as a fraction of it; scalar.
        rotor_above: How far the rotor speed rises above it, as a fraction of it; scalar.
        second_low: Lowest propeller speed of interest; scalar, rad/s.
        second_high: Highest propeller speed of interest; scalar, rad/s.
        second_speed: Operating propeller speed; scalar, rad/s.
        second_below: How far the propeller speed falls below it, as a fraction of it; scalar.
        second_above: How far the propeller speed rises above it, as a fraction of it; scalar.
    """

    heading: ClassVar[str] = "Shaft speeds"

    rotor_low: Annotated[float, ROTOR_LOW]
    rotor_high: Annotated[float, ROTOR_HIGH]
    rotor_speed: Annotated[float, ROTOR_SPEED]
    rotor_below: Annotated[float, ROTOR_BELOW] = 0.0
    rotor_above: Annotated[float, ROTOR_ABOVE] = 0.0
    second_low: Annotated[float, SECOND_LOW] = RPM.si(500.0)
    second_high: Annotated[float, SECOND_HIGH] = RPM.si(1300.0)
    second_speed: Annotated[float, SECOND_SPEED] = RPM.si(1150.0)
    second_below: Annotated[float, SECOND_BELOW] = 0.0
    second_above: Annotated[float, SECOND_ABOVE] = 0.0

    def __post_init__(self) -> None:
        """Refuse speeds that cannot exist, and a highest speed that is not above the lowest."""
        check(self)
        ROTOR_SPAN.check(self.rotor_high - self.rotor_low)
        SECOND_SPAN.check(self.second_high - self.second_low)

    def has_ranges(self) -> bool:
        """Return whether a speed of operation is given as a range, and not as a point alone."""
        ranges = self.rotor_below, self.rotor_above, self.second_below, self.second_above
        return any(ranges)

    def of_interest(self, shaft: str) -> tuple[float, float]:
        """Return the lowest and the highest speed of interest of a shaft, rad/s."""
        return {
            ROTOR: (self.rotor_low, self.rotor_high),
            SECOND: (self.second_low, self.second_high),
        }[shaft]

    def nominal(self, shaft: str) -> float:
        """Return the operating speed of a shaft, rad/s; one where there is no shaft."""
        return {ROTOR: self.rotor_speed, SECOND: self.second_speed, NONE: 1.0}[shaft]

    def operating(self, shaft: str) -> tuple[float, float]:
        """Return the ends of the operating range of a shaft, rad/s; ones where there is none."""
        below, above = {
            ROTOR: (self.rotor_below, self.rotor_above),
            SECOND: (self.second_below, self.second_above),
            NONE: (0.0, 0.0),
        }[shaft]
        return self.nominal(shaft) * (1.0 - below), self.nominal(shaft) * (1.0 + above)
