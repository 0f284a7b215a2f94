"""Records of the flight chapter: the flight condition and the wing of a compound."""

from dataclasses import dataclass
from typing import Annotated, ClassVar

from calc.declaration import check
from calc.flight.quantities import (
    AIRSPEED,
    DENSITY,
    LOAD_FACTOR,
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
        wing_area: Area of the wing in plan, through the fuselage; scalar, m².
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
