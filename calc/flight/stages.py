"""Stages: what a history of a flight starts with, goes through and is watched for."""

import math
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar

from calc.declaration import Table, check
from calc.flight.decay import ROTOR_INERTIA
from calc.flight.limit_shares import BLADE_LOADING_LIMIT, HIGHEST_SPEED, LOWEST_SPEED
from calc.flight.quantities import AIRSPEED, DENSITY, DRAG_AREA, MASS, WING_ANGLE
from calc.harmonics.meetings import MARGIN
from calc.harmonics.run_up import SECOND_END, STAGE_NAME
from calc.quantity import InputsError, Quantity
from calc.rotor.stall_onset import ANGLE_LIMIT, HEAVY_STALL, ONSET_OF_STALL
from calc.units import ANGLE, FORCE, MOMENT, RPM, TIME

DURATION = Quantity("T", "Duration", TIME, above=0.0, at_most=120.0, example=10.0)
SHAFT_TORQUE = Quantity("Q_s", "Shaft torque in the stage", MOMENT, at_least=0.0, example=0.0)
OTHER_DRAG_AREA = replace(DRAG_AREA, symbol="f_D", label="Drag area of all but rotor and wing")
AIRSPEED_END = replace(AIRSPEED, symbol="V_e", label="Airspeed at its end", example=60.0)
THRUST_END = Quantity("T_e", "Thrust of all propellers at its end", FORCE, example=12000.0)
ANGLE_END = replace(WING_ANGLE, symbol=r"\alpha_e", label="Wing angle at its end")
AIRSPEED_START = replace(AIRSPEED, symbol="V_0", label="Airspeed at the start", example=41.0)
THRUST_START = Quantity("T_0", "Thrust of all propellers at the start", FORCE, example=5000.0)
ANGLE_START = replace(
    WING_ANGLE, symbol=r"\alpha_0", label="Wing angle at the start", example=math.radians(3.0)
)
PROPELLER_START = Quantity(
    "n_0", "Propeller speed at the start", SECOND_END.units, at_least=0.0, example=RPM.si(1035.0)
)
STALL_ANGLE = Quantity(
    r"\alpha_s",
    "Angle at which the history stops",
    ANGLE,
    above=0.0,
    below=math.pi / 2,
    example=HEAVY_STALL,
)


@dataclass(frozen=True, slots=True)
class Stage:
    """A stretch of flight: the torque holds, all else changes evenly to what it ends at."""

    name: Annotated[str, STAGE_NAME]
    duration: Annotated[float, DURATION]
    shaft_torque: Annotated[float, SHAFT_TORQUE]
    airspeed: Annotated[float, AIRSPEED_END]
    thrust: Annotated[float, THRUST_END]
    wing_angle: Annotated[float, ANGLE_END]
    propeller_speed: Annotated[float, SECOND_END]


def example_stage(
    name: str, duration: float, torque: float, ends: tuple[float, float, float, float]
) -> Stage:
    """Return a stage of the example; it ends at an airspeed, a thrust, an angle and rpm."""
    airspeed, thrust, degrees, rpm = ends
    return Stage(name, duration, torque, airspeed, thrust, math.radians(degrees), RPM.si(rpm))


STAGES = Table(
    "Stages of the transition",
    Stage,
    (
        example_stage("propellers up", 10.0, 24000.0, (43.0, 6000.0, 3.5, 1100.0)),
        example_stage("first drives off", 8.0, 18000.0, (45.5, 11500.0, 4.0, 1150.0)),
        example_stage("second drives off", 8.0, 12000.0, (48.0, 13500.0, 4.5, 1150.0)),
        example_stage("third drives off", 8.0, 6000.0, (50.5, 17000.0, 5.0, 1150.0)),
        example_stage("all drives off", 20.0, 0.0, (55.5, 16400.0, 5.0, 1150.0)),
    ),
    at_least=1,
    at_most=10,
)


@dataclass(frozen=True, slots=True)
class Begin:
    """A rotorcraft and the flight in which the history begins.

    Attributes:
        mass: Mass of the rotorcraft; scalar, kg.
        drag_area: Drag of all but the rotor and the wing over the dynamic pressure; scalar, m².
        inertia: Of the rotor and what stays geared to it, at rotor speed; scalar, kg·m².
        density: Density of the air; scalar, kg/m³.
        airspeed: True airspeed at the start; scalar, m/s.
        thrust: Thrust of all propellers at the start; scalar, N.
        wing_angle: Zero-lift line of the wing to the flight path, at the start; scalar, rad.
        propeller_speed: Angular speed of the propellers at the start; scalar, rad/s.
    """

    heading: ClassVar[str] = "Rotorcraft and start"

    mass: Annotated[float, MASS]
    drag_area: Annotated[float, OTHER_DRAG_AREA]
    inertia: Annotated[float, ROTOR_INERTIA]
    density: Annotated[float, DENSITY]
    airspeed: Annotated[float, AIRSPEED_START]
    thrust: Annotated[float, THRUST_START]
    wing_angle: Annotated[float, ANGLE_START]
    propeller_speed: Annotated[float, PROPELLER_START]

    def __post_init__(self) -> None:
        """Refuse a start that cannot exist."""
        check(self)


@dataclass(frozen=True, slots=True)
class TransitionLimits:
    """What a history is watched for.

    Attributes:
        lowest_rotor_speed: Lowest rotor speed allowed; scalar, rad/s.
        highest_rotor_speed: Highest rotor speed allowed; scalar, rad/s.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.
        stall_angle: Angle at which the rotor is taken for stalled; scalar, rad.
        blade_loading_limit: Largest thrust coefficient over solidity; scalar.
        margin: Difference of two frequencies over their mean that is near; scalar.
    """

    heading: ClassVar[str] = "Watched for"

    lowest_rotor_speed: Annotated[float, LOWEST_SPEED] = RPM.si(225.0)
    highest_rotor_speed: Annotated[float, HIGHEST_SPEED] = RPM.si(265.0)
    angle_limit: Annotated[float, ANGLE_LIMIT] = ONSET_OF_STALL
    stall_angle: Annotated[float, STALL_ANGLE] = HEAVY_STALL
    blade_loading_limit: Annotated[float, BLADE_LOADING_LIMIT] = 0.12
    margin: Annotated[float, MARGIN] = 0.05

    def __post_init__(self) -> None:
        """Refuse limits that cannot exist, or a range of rotor speed that is none."""
        check(self)
        if self.lowest_rotor_speed >= self.highest_rotor_speed:
            raise InputsError(
                "The highest rotor speed allowed must be above the lowest",
                "lowest_rotor_speed",
                "highest_rotor_speed",
            )
