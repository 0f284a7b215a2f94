"""Time history: the blades bunch and the hub whirls, in time, at one rotor speed."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Rule
from calc.ground.aircraft import Rotor, Support, assembled
from calc.ground.motion import State, motion
from calc.ground.quantities import (
    BLADE_MASS,
    DAMPING_X,
    DAMPING_Y,
    FIRST_MOMENT,
    GROWTH_RATE,
    HINGE_OFFSET,
    HUB_MASS,
    LAG_DAMPING,
    LAG_INERTIA,
    LAG_STIFFNESS,
    MASS_X,
    MASS_Y,
    ROTOR_SPEED,
    STIFFNESS_X,
    STIFFNESS_Y,
    THREE_BLADES,
)
from calc.ground.stability import growth_rate
from calc.ground.verdict import TIME_TO_DOUBLE, time_to_double
from calc.quantity import Quantity
from calc.units import ANGLE, INCH, METRE, MILLIMETRE, RPM, TIME

STEPS_A_REVOLUTION = 48
SMALL_LENGTH = (MILLIMETRE, METRE, INCH)
ROTATING = Quantity(
    ROTOR_SPEED.symbol, ROTOR_SPEED.label, ROTOR_SPEED.units, above=0.0, example=RPM.si(270.0)
)
HEAVY_BLADE = Quantity(
    BLADE_MASS.symbol, BLADE_MASS.label, BLADE_MASS.units, above=0.0, example=50.0
)
FIRST_LAG = Quantity(
    r"\zeta_0",
    "Lag angle of one blade at the start",
    ANGLE,
    at_least=-0.5,
    at_most=0.5,
    example=math.radians(0.5),
)
REVOLUTIONS = Quantity("n", "Revolutions shown", at_least=1, at_most=60, whole=True, example=16)
HUB_AMPLITUDE = Quantity("A_{hub}", "Largest hub displacement in the last revolution", SMALL_LENGTH)
LAG_AMPLITUDE = Quantity(r"A_\zeta", "Largest lag angle in the last revolution", ANGLE)
OFFSET = Quantity("r", "Largest offset of the blades' centre of mass from the shaft", SMALL_LENGTH)
DURATION = Quantity("t", "Time", TIME)
DISPLACEMENT = Quantity("", "Displacement", SMALL_LENGTH)


@dataclass(frozen=True, slots=True)
class Growth:
    """What the motion has become after so many revolutions."""

    growth_rate: Annotated[float, GROWTH_RATE]
    time_to_double: Annotated[float, TIME_TO_DOUBLE]
    hub_amplitude: Annotated[float, HUB_AMPLITUDE]
    lag_amplitude: Annotated[float, LAG_AMPLITUDE]
    offset: Annotated[float, OFFSET]


def time_history(
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, HEAVY_BLADE],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, LAG_DAMPING],
    mass_x: Annotated[float, MASS_X],
    mass_y: Annotated[float, MASS_Y],
    stiffness_x: Annotated[float, STIFFNESS_X],
    stiffness_y: Annotated[float, STIFFNESS_Y],
    damping_x: Annotated[float, DAMPING_X],
    damping_y: Annotated[float, DAMPING_Y],
    rotor_speed: Annotated[float, ROTATING],
    first_lag: Annotated[float, FIRST_LAG],
    revolutions: Annotated[int, REVOLUTIONS],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Growth:
    r"""Return what becomes of a small lag angle of one blade at a constant rotor speed.

    $$ \zeta_1(0) = \zeta_0, \qquad
    r = \frac{S_\zeta}{N m_b} \left| \sum_k (\cos\theta_k, \sin\theta_k) \right|, \qquad
    \theta_k = \psi_k + \zeta_k $$

    The equations of motion with any lag angle, by the fourth-order Runge-Kutta method; no lag
    stops and no aerodynamics, so that only the growth, not the end, is that of a real rotor.

    Args:
        blades: Number of blades; scalar.
        blade_mass: Mass of one blade outboard of its lag hinge; scalar, kg.
        first_moment: First moment of one blade about its lag hinge; scalar, kg·m.
        lag_inertia: Second moment of one blade about its lag hinge; scalar, kg·m².
        hinge_offset: Distance of the lag hinge from the shaft; scalar, m.
        lag_stiffness: Lag spring of one blade; scalar, N·m/rad.
        lag_damping: Lag damper of one blade; scalar, N·m·s/rad.
        mass_x: Effective hub mass in x; scalar, kg.
        mass_y: Effective hub mass in y; scalar, kg.
        stiffness_x: Effective hub stiffness in x; scalar, N/m.
        stiffness_y: Effective hub stiffness in y; scalar, N/m.
        damping_x: Effective hub damping in x; scalar, N·s/m.
        damping_y: Effective hub damping in y; scalar, N·s/m.
        rotor_speed: Constant speed of rotation; scalar, rad/s.
        first_lag: Lag angle of the first blade at the start; scalar, rad.
        revolutions: Length of the history in revolutions; scalar.
        hub_mass: Whether the hub masses have the blades in them; word.

    Returns:
        Growth rate from eigenvalues, and the amplitudes at the end.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Newton's equations of rigid bodies; derived here.

    Examples:
        >>> found = time_history(
        ...     4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0, 3000.0, 1400.0,
        ...     600e3, 640e3, 6000.0, 4000.0, 27.0, 0.01, 5,
        ... )
        >>> found.growth_rate > 0.0
        True
    """
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    HEAVY_BLADE.check(blade_mass)
    ROTATING.check(rotor_speed)
    FIRST_LAG.check(first_lag)
    REVOLUTIONS.check(revolutions)
    growth = growth_rate(rotor, support, rotor_speed)
    states = history(rotor, support, rotor_speed, first_lag, revolutions)
    last = states[-STEPS_A_REVOLUTION - 1 :]
    return Growth(
        growth_rate=growth,
        time_to_double=time_to_double(growth),
        hub_amplitude=max(math.hypot(state[blades], state[blades + 1]) for state in last),
        lag_amplitude=max(abs(lag) for state in last for lag in state[:blades]),
        offset=max(math.hypot(*centre_of_mass(rotor, 0.0, state)) for state in last),
    )


def time_history_chart(
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, HEAVY_BLADE],
    first_moment: Annotated[float, FIRST_MOMENT],
    lag_inertia: Annotated[float, LAG_INERTIA],
    hinge_offset: Annotated[float, HINGE_OFFSET],
    lag_stiffness: Annotated[float, LAG_STIFFNESS],
    lag_damping: Annotated[float, LAG_DAMPING],
    mass_x: Annotated[float, MASS_X],
    mass_y: Annotated[float, MASS_Y],
    stiffness_x: Annotated[float, STIFFNESS_X],
    stiffness_y: Annotated[float, STIFFNESS_Y],
    damping_x: Annotated[float, DAMPING_X],
    damping_y: Annotated[float, DAMPING_Y],
    rotor_speed: Annotated[float, ROTATING],
    first_lag: Annotated[float, FIRST_LAG],
    revolutions: Annotated[int, REVOLUTIONS],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Chart:
    """Return the hub displacements and the offset of the blades' centre of mass over time."""
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    states = history(rotor, support, rotor_speed, first_lag, revolutions)
    step = 2.0 * math.pi / rotor_speed / STEPS_A_REVOLUTION
    times = [number * step for number in range(len(states))]
    offsets = [math.hypot(*centre_of_mass(rotor, 0.0, state)) for state in states]
    lines = (
        ([state[blades + 1] for state in states], "hub, lateral", 1),
        ([state[blades] for state in states], "hub, longitudinal", 2),
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


def centre_of_mass(rotor: Rotor, azimuth: float, state: State) -> tuple[float, float]:
    """Return the blades' centre of mass from the shaft, with the first blade at an azimuth.

    With an azimuth of zero the directions turn with the rotor.
    """
    angles = [
        azimuth + 2.0 * math.pi * number / rotor.blades + state[number]
        for number in range(rotor.blades)
    ]
    arm = rotor.first_moment / (rotor.blades * rotor.blade_mass)
    return arm * math.fsum(map(math.cos, angles)), arm * math.fsum(map(math.sin, angles))
