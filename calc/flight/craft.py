"""Records of the flight chapter: the flight, and the parts of a compound."""

from dataclasses import dataclass
from typing import Annotated, ClassVar

from calc.declaration import check
from calc.flight.quantities import (
    AIRSPEED,
    ANTITORQUE_SHARE,
    BLADES,
    CHORD,
    DENSITY,
    DRAG_AREA,
    INDUCED_FACTOR,
    LIFT_SLOPE_OF_BLADE,
    LOAD_FACTOR,
    MASS,
    PROFILE_DRAG_COEFFICIENT,
    PROPELLER_DIAMETER,
    PROPELLER_QUALITY,
    PROPELLER_THRUST_SHARE,
    PROPELLERS,
    RADIUS,
    ROTOR_SPEED,
    TRANSMISSION_EFFICIENCY,
    TWIST,
    WING_ANGLE,
    WING_AREA,
    WING_ASPECT_RATIO,
    WING_LIFT_SLOPE,
    WING_MAXIMUM_LIFT_COEFFICIENT,
    WING_PROFILE_DRAG_COEFFICIENT,
    WING_SPAN_EFFICIENCY,
)


@dataclass(frozen=True, slots=True)
class Condition:
    """A steady flight at one airspeed, level or in a level turn.

    Attributes:
        airspeed: True airspeed; scalar, m/s.
        density: Density of the air; scalar, kg/m³.
        load_factor: Lift over weight: 1 in level flight, more in a turn; scalar.
    """

    heading: ClassVar[str] = "Flight"

    airspeed: Annotated[float, AIRSPEED]
    density: Annotated[float, DENSITY]
    load_factor: Annotated[float, LOAD_FACTOR] = 1.0

    def __post_init__(self) -> None:
        """Refuse a flight that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class Wing:
    """A wing at a fixed angle, as far as its lift and drag need it.

    Attributes:
        wing_area: Area of the wing in plan, through the fuselage, zero without a wing; scalar, m².
        wing_aspect_ratio: Span squared over area; scalar.
        wing_angle: Angle of the zero-lift line to the flight path, nose up; scalar, rad.
        wing_lift_slope: Lift coefficient of the whole wing per angle; scalar, 1/rad.
        wing_span_efficiency: Induced drag of an elliptic lift over that of this wing; scalar.
        wing_profile_drag_coefficient: Drag coefficient without lift; scalar.
        wing_maximum_lift_coefficient: Lift coefficient that is not passed; scalar.
    """

    heading: ClassVar[str] = "Wing"

    wing_area: Annotated[float, WING_AREA]
    wing_aspect_ratio: Annotated[float, WING_ASPECT_RATIO]
    wing_angle: Annotated[float, WING_ANGLE]
    wing_lift_slope: Annotated[float, WING_LIFT_SLOPE]
    wing_span_efficiency: Annotated[float, WING_SPAN_EFFICIENCY]
    wing_profile_drag_coefficient: Annotated[float, WING_PROFILE_DRAG_COEFFICIENT]
    wing_maximum_lift_coefficient: Annotated[float, WING_MAXIMUM_LIFT_COEFFICIENT]

    def __post_init__(self) -> None:
        """Refuse a wing that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class Rotor:
    """A rotor, as far as its power and the angles of its blades need it.

    Attributes:
        radius: Shaft axis to blade tip; scalar, m.
        chord: Chord of one blade; scalar, m.
        blades: Number of blades of the rotor; scalar.
        rotor_speed: Angular speed of the rotor's own shaft; scalar, rad/s.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.
        profile_drag_coefficient: Mean drag coefficient of the blade sections; scalar.
        induced_factor: Induced power over that of a uniform inflow; scalar.
    """

    heading: ClassVar[str] = "Rotor"

    radius: Annotated[float, RADIUS]
    chord: Annotated[float, CHORD]
    blades: Annotated[int, BLADES]
    rotor_speed: Annotated[float, ROTOR_SPEED]
    twist: Annotated[float, TWIST]
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE]
    profile_drag_coefficient: Annotated[float, PROFILE_DRAG_COEFFICIENT]
    induced_factor: Annotated[float, INDUCED_FACTOR]

    def __post_init__(self) -> None:
        """Refuse a rotor that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class Airframe:
    """What the rotor and the wing carry and pull through the air.

    Attributes:
        mass: Mass of the rotorcraft; scalar, kg.
        drag_area: Drag of all but the rotor and the wing over the dynamic pressure; scalar, m².
    """

    heading: ClassVar[str] = "Airframe"

    mass: Annotated[float, MASS]
    drag_area: Annotated[float, DRAG_AREA]

    def __post_init__(self) -> None:
        """Refuse an airframe that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class Propellers:
    """Propellers that are alike.

    Attributes:
        propellers: Number of propellers, zero for a helicopter; scalar.
        propeller_diameter: Diameter of one propeller; scalar, m.
        propeller_quality: Ideal power of momentum theory over shaft power; scalar.
    """

    heading: ClassVar[str] = "Propellers"

    propellers: Annotated[int, PROPELLERS]
    propeller_diameter: Annotated[float, PROPELLER_DIAMETER]
    propeller_quality: Annotated[float, PROPELLER_QUALITY]

    def __post_init__(self) -> None:
        """Refuse propellers that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class Drive:
    """How the power of the engines reaches the rotor in helicopter mode.

    Attributes:
        transmission_efficiency: Power at the shafts over power of the engines; scalar.
        antitorque_share: Power of the antitorque device over power of the rotor; scalar.
        propeller_thrust_share: Fraction of the airframe drag overcome by propellers; scalar.
    """

    heading: ClassVar[str] = "Drive in helicopter mode"

    transmission_efficiency: Annotated[float, TRANSMISSION_EFFICIENCY]
    antitorque_share: Annotated[float, ANTITORQUE_SHARE]
    propeller_thrust_share: Annotated[float, PROPELLER_THRUST_SHARE] = 0.0

    def __post_init__(self) -> None:
        """Refuse a drive that cannot exist."""
        check(self)
