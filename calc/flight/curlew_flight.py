"""Curlew flight: the invented compound through a whole test flight, for the story page.

Both transitions, the speeds that they start at, and the way back to the ground.
"""

import math
from dataclasses import replace

from calc.examples import CURLEW
from calc.flight.examples import CURLEW_ROTOR, CURLEW_WING
from calc.flight.stages import Begin, Stage, TransitionLimits, example_stage
from calc.flight.transition import LINES, Transition, transition
from calc.harmonics.meetings import MODES
from calc.units import RPM

INERTIA = 8500.0  # kg m², of the rotor and all geared to it
HOVER_POWER = 1_550_000.0  # W, of the rotor and all geared to it
AUTOROTATION_SPEED = RPM.si(240.0)

OUT = Begin(
    CURLEW.mass,
    CURLEW.drag_area,
    INERTIA,
    1.225,
    41.0,
    5000.0,
    math.radians(3.0),
    RPM.si(1035.0),
)
"""The flight in which the transition into autorotation begins."""
BACK = replace(
    OUT,
    airspeed=55.5,
    thrust=14_300.0,
    wing_angle=math.radians(5.0),
    propeller_speed=RPM.si(1150.0),
)
"""The flight in which the way back begins: steady, at the rotor speed of autorotation."""
RETURN = (
    example_stage("first drives on", 4.0, 2000.0, (55.5, 14300.0, 5.0, 1150.0)),
    example_stage("first thrust off", 6.0, 4500.0, (55.0, 10200.0, 5.0, 1150.0)),
    example_stage("second drives on", 4.0, 8500.0, (54.5, 9800.0, 5.0, 1150.0)),
    example_stage("second thrust off", 6.0, 10500.0, (53.5, 7200.0, 4.5, 1150.0)),
    example_stage("third drives on", 4.0, 14000.0, (53.0, 7000.0, 4.5, 1150.0)),
    example_stage("third thrust off", 6.0, 16000.0, (51.5, 4200.0, 4.0, 1150.0)),
    example_stage("all drives on", 4.0, 18500.0, (50.5, 3800.0, 4.0, 1150.0)),
    example_stage("slowing", 20.0, 20500.0, (45.5, 1800.0, 3.5, 1100.0)),
)
"""The way back: each pair of drives is on, seen by its torque, before its thrust is taken off."""
THRUST_FIRST = (
    example_stage("thrust off", 6.0, 0.0, (54.5, 9400.0, 5.0, 1150.0)),
    example_stage("drives due", 8.0, 6000.0, (52.5, 8900.0, 5.0, 1150.0)),
)
"""The wrong order: thrust is gone when the first drives are due."""


def curlew_transition(begin: Begin, rotor_speed: float, stages: tuple[Stage, ...]) -> Transition:
    """Return a transition of the Curlew with its strong lines and its modes."""
    return transition(
        replace(CURLEW_ROTOR, rotor_speed=rotor_speed),
        CURLEW_WING,
        begin,
        TransitionLimits(),
        stages,
        LINES.example,
        MODES.example,
    )


def return_of_the_curlew() -> Transition:
    """Return the transition from autorotation to helicopter flight.

    Examples:
        >>> return_of_the_curlew().verdict
        'flown to its end; no limit passed'
    """
    return curlew_transition(BACK, AUTOROTATION_SPEED, RETURN)


def return_without_drives(stages: tuple[Stage, ...]) -> Transition:
    """Return what becomes of a way back if no drive ever gives torque and nobody notices."""
    return curlew_transition(
        BACK, AUTOROTATION_SPEED, tuple(replace(stage, shaft_torque=0.0) for stage in stages)
    )


def return_given_up(unnoticed: float) -> Transition:
    """Return the way back on which the first drives are lost once their thrust is off.

    Thrust is put back within 2 s, after a time in which nothing is done; s.
    """
    drives_on, thrust_off = RETURN[:2]
    lost = replace(thrust_off, name="drives lost", duration=unnoticed, shaft_torque=0.0)
    thrust_on = replace(lost, name="thrust back on", duration=2.0, thrust=BACK.thrust)
    settled = replace(thrust_on, name="autorotation again", duration=16.0)
    return curlew_transition(
        BACK, AUTOROTATION_SPEED, (drives_on, thrust_off, lost, thrust_on, settled)
    )
