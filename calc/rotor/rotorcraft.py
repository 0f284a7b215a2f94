"""Records of the rotor chapter: a rotorcraft and the flight that it makes."""

from dataclasses import dataclass
from typing import Annotated, ClassVar

from calc.declaration import check
from calc.rotor.quantities import (
    BLADES,
    CHORD,
    DRAG_AREA,
    LIFT_SLOPE_OF_BLADE,
    LOAD_FACTOR,
    MASS_OF_ROTORCRAFT,
    PRESSURE_ALTITUDE,
    PROPELLER_THRUST_SHARE,
    RADIUS,
    ROTOR_SPEED,
    TEMPERATURE_OFFSET,
    TWIST,
    WING_LIFT_SHARE,
)


@dataclass(frozen=True, slots=True)
class Rotorcraft:
    """A rotorcraft with one main rotor, as far as the loads on that rotor need it.

    Attributes:
        mass: Mass of the rotorcraft; scalar, kg.
        radius: Shaft axis to blade tip; scalar, m.
        chord: Chord of one blade; scalar, m.
        blades: Number of blades of the rotor; scalar.
        rotor_speed: Angular speed of the rotor's own shaft; scalar, rad/s.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.
        drag_area: Drag of everything but the rotor over the dynamic pressure; scalar, m².
    """

    heading: ClassVar[str] = "Rotorcraft"

    mass: Annotated[float, MASS_OF_ROTORCRAFT]
    radius: Annotated[float, RADIUS]
    chord: Annotated[float, CHORD]
    blades: Annotated[int, BLADES]
    rotor_speed: Annotated[float, ROTOR_SPEED]
    twist: Annotated[float, TWIST]
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE]
    drag_area: Annotated[float, DRAG_AREA]

    def __post_init__(self) -> None:
        """Refuse a rotorcraft that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class Flight:
    """A steady level flight or level turn: the air, the load factor, and what carries the loads.

    Attributes:
        pressure_altitude: Altimeter reading with 1013.25 hPa set; scalar, m.
        temperature_offset: Air temperature minus the standard one at that altitude; scalar, K.
        load_factor: Lift over weight: 1 in level flight, more in a turn; scalar.
        wing_lift_share: Fraction of the lift carried by a wing; scalar.
        propeller_thrust_share: Fraction of the airframe drag overcome by propellers; scalar.
    """

    heading: ClassVar[str] = "Flight condition"

    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE] = 0.0
    temperature_offset: Annotated[float, TEMPERATURE_OFFSET] = 0.0
    load_factor: Annotated[float, LOAD_FACTOR] = 1.0
    wing_lift_share: Annotated[float, WING_LIFT_SHARE] = 0.0
    propeller_thrust_share: Annotated[float, PROPELLER_THRUST_SHARE] = 0.0

    def __post_init__(self) -> None:
        """Refuse a flight that cannot exist."""
        check(self)
