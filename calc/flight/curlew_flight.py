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
HOVER_POWER = 1_550_000.0  # W, of the rotor
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
    thrust=16_000.0,
    wing_angle=math.radians(5.0),
    propeller_speed=RPM.si(1150.0),
)
"""The flight in which the way back begins."""
RETURN = (
    example_stage("propellers back", 6.0, 0.0, (54.5, 9400.0, 5.0, 1150.0)),
    example_stage("first drives on", 8.0, 6000.0, (52.5, 8900.0, 5.0, 1150.0)),
    example_stage("second drives on", 8.0, 12000.0, (50.0, 3700.0, 4.5, 1150.0)),
    example_stage("third drives on", 8.0, 18000.0, (47.5, 3100.0, 4.0, 1150.0)),
    example_stage("all drives on", 15.0, 22000.0, (43.0, 1500.0, 3.5, 1100.0)),
)
"""The way back: thrust comes off first, then the drives are put on in pairs."""


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
