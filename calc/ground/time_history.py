"""Time history: the blades bunch and the hub whirls, in time, at one rotor speed."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Rule
from calc.ground.model.aircraft import Hub, LagRotor, Rotor, Support
from calc.ground.model.motion import State, motion, parts
from calc.ground.quantities import (
    BLADE_MASS,
    GROWTH_RATE,
    ROTOR_SPEED,
)
from calc.ground.search.verdict import TIME_TO_DOUBLE, time_to_double
from calc.ground.stability import growth_rate
from calc.quantity import Quantity
from calc.units import ANGLE, INCH, METRE, MILLIMETRE, RPM, TIME

STEPS_A_REVOLUTION = 48
SMALL_LENGTH = (MILLIMETRE, METRE, INCH)
ROTATING = replace(ROTOR_SPEED, at_least=-math.inf, above=0.0, example=RPM.si(270.0))
HEAVY_BLADE = replace(BLADE_MASS, at_least=-math.inf, above=0.0)
FIRST_LAG = Quantity(
    r"\xi_0",
    "Lag angle of one blade at the start",
    ANGLE,
    at_least=-0.5,
    at_most=0.5,
    example=math.radians(0.5),
)
REVOLUTIONS = Quantity("n", "Revolutions shown", at_least=1, at_most=60, whole=True, example=16)
HUB_AMPLITUDE = Quantity("A_{hub}", "Largest hub displacement in the last revolution", SMALL_LENGTH)
LAG_AMPLITUDE = Quantity(r"A_\xi", "Largest lag angle in the last revolution", ANGLE)
OFFSET = Quantity("r", "Largest offset of the blades' centre of mass from the shaft", SMALL_LENGTH)
DURATION = Quantity("t", "Time", TIME)
DISPLACEMENT = Quantity("", "Displacement", SMALL_LENGTH)


HeavyRotor = Annotated[LagRotor, {"blade_mass": HEAVY_BLADE}]


@dataclass(frozen=True, slots=True)
class Growth:
    """What the motion has become after so many revolutions."""

    growth_rate: Annotated[float, GROWTH_RATE]
    time_to_double: Annotated[float, TIME_TO_DOUBLE]
    hub_amplitude: Annotated[float, HUB_AMPLITUDE]
    lag_amplitude: Annotated[float, LAG_AMPLITUDE]
    offset: Annotated[float, OFFSET]


def time_history(
    rotor: HeavyRotor,
    hub: Hub,
    rotor_speed: Annotated[float, ROTATING],
    first_lag: Annotated[float, FIRST_LAG],
    revolutions: Annotated[int, REVOLUTIONS],
) -> Growth:
    r"""Return what becomes of a small lag angle of one blade at a constant rotor speed.

    $$ \xi_1(0) = \xi_0, \qquad
    r = \frac{S_\xi}{N_b m_b} \left| \sum_k (\cos\theta_k, \sin\theta_k) \right|, \qquad
    \theta_k = \psi_k + \xi_k $$

    The equations of motion with any lag angle, by the fourth-order Runge-Kutta method; no lag
    stops and no aerodynamics, so that only the growth, not the end, is that of a real rotor.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        first_lag: Lag angle of the first blade at the start; scalar, rad.
        revolutions: Length of the history in revolutions; scalar.

    Returns:
        Growth rate from eigenvalues, and the amplitudes at the end.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Newton's equations of rigid bodies; derived here.

    Examples:
        >>> found = time_history(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0), 27.0, 0.01, 5,
        ... )
        >>> found.growth_rate > 0.0
        True
    """
    support = hub.support(rotor)
    HEAVY_BLADE.check(rotor.blade_mass)
    ROTATING.check(rotor_speed)
    FIRST_LAG.check(first_lag)
    REVOLUTIONS.check(revolutions)
    growth = growth_rate(rotor, support, rotor_speed)
    states = history(rotor, support, rotor_speed, first_lag, revolutions)
    last = states[-STEPS_A_REVOLUTION - 1 :]
    return Growth(
        growth_rate=growth,
        time_to_double=time_to_double(growth),
        hub_amplitude=max(math.hypot(*parts(state).hub) for state in last),
        lag_amplitude=max(abs(lag) for state in last for lag in parts(state).lags),
        offset=max(math.hypot(*centre_of_mass(rotor, 0.0, parts(state).lags)) for state in last),
    )


def time_history_chart(rotor: Rotor, rotor_speed: float, states: Sequence[State]) -> Chart:
    """Return the hub displacements and the offset of the blades' centre of mass over time."""
    step = 2.0 * math.pi / rotor_speed / STEPS_A_REVOLUTION
    times = [number * step for number in range(len(states))]
    offsets = [math.hypot(*centre_of_mass(rotor, 0.0, parts(state).lags)) for state in states]
    lines = (
        ([parts(state).hub[1] for state in states], "hub, lateral", 1),
        ([parts(state).hub[0] for state in states], "hub, longitudinal", 2),
        (offsets, "blades' centre of mass from the shaft", 3),
    )
    return Chart(
        title="Time history of the hub and the blades",
        description="The hub moves in both directions while the centre of mass of the blades "
        "moves away from the shaft.",
        x=Axis.of(DURATION, 0.0, times[-1]),
        y=Axis.of(DISPLACEMENT),
        marks=(
            Rule(0.0, "y", ""),
            *(Line(list(zip(times, ys, strict=True)), label, n) for ys, label, n in lines),
        ),
    )


def history(
    rotor: Rotor, support: Support, rotor_speed: float, first_lag: float, revolutions: int
) -> list[State]:
    """Return the states of a history in which one blade starts at a lag angle."""
    start = (first_lag, *(0.0,) * (2 * rotor.blades + 3))
    step = 2.0 * math.pi / rotor_speed / STEPS_A_REVOLUTION
    return motion(rotor, support, rotor_speed, start, step, revolutions * STEPS_A_REVOLUTION)


def centre_of_mass(rotor: Rotor, azimuth: float, lags: Sequence[float]) -> tuple[float, float]:
    """Return the blades' centre of mass from the shaft, by lag angles, the first at an azimuth.

    With an azimuth of zero the directions turn with the rotor.
    """
    angles = [
        azimuth + 2.0 * math.pi * number / rotor.blades + lag for number, lag in enumerate(lags)
    ]
    arm = rotor.first_moment / (rotor.blades * rotor.blade_mass)
    return arm * math.fsum(map(math.cos, angles)), arm * math.fsum(map(math.sin, angles))
