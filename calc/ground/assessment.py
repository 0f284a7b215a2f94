"""Assessment: the verdict on an aircraft in every state of its undercarriage."""

from typing import Annotated

from calc.chart import Axis, Band, Chart, Line, Rule
from calc.ground.aircraft import assembled
from calc.ground.quantities import (
    BLADE_MASS,
    DAMPING_X,
    DAMPING_Y,
    FIRST_MOMENT,
    GROWTH_RATE,
    HIGHEST_SPEED,
    HINGE_OFFSET,
    HUB_MASS,
    LAG_DAMPING,
    LAG_INERTIA,
    LAG_STIFFNESS,
    LOWEST_SPEED,
    MASS_X,
    MASS_Y,
    ROTOR_SPEED,
    STIFFNESS_X,
    STIFFNESS_Y,
    THREE_BLADES,
)
from calc.ground.stability import sampled_growth, unstable_bands
from calc.ground.undercarriage import STATES, Assessment, UndercarriageState, assess, in_state


def assessment(
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
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
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    states: Annotated[tuple[UndercarriageState, ...], STATES],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Assessment:
    r"""Return the verdict over rotor speed in every state of the undercarriage.

    $$ \sigma = \max_j \operatorname{Re} s_j(\Omega), \qquad t_2 = \frac{\ln 2}{|\sigma|}, \qquad
    K \rightarrow k K, \quad C \rightarrow c C \text{ in each state} $$

    Eigenvalues of three or more identical blades on a hub with two directions, at a hundred rotor
    speeds and at coalescence, with the edges of unstable bands by root finding.  Analysis is a
    guide for a test, never an approval to run a rotor.

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
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        states: Multipliers on stiffness and damping in each state of the undercarriage; rows.
        hub_mass: Whether the hub masses have the blades in them; word.

    Returns:
        The worst state with its rotor speed and growth rate, a verdict a state, and the bands.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> found = assessment(
        ...     4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0, 3000.0, 1400.0,
        ...     600e3, 640e3, 6000.0, 4000.0, 4.0, 42.0, STATES.example,
        ... )
        >>> found.growth_rate == max(state.growth_rate for state in found.states)
        True
    """
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    return assess(rotor, support, states, lowest_speed, highest_speed)


def assessment_chart(
    blades: Annotated[int, THREE_BLADES],
    blade_mass: Annotated[float, BLADE_MASS],
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
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    states: Annotated[tuple[UndercarriageState, ...], STATES],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Chart:
    """Return the growth rate over rotor speed in every state; the worst has its bands hatched."""
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    found = assess(rotor, support, states, lowest_speed, highest_speed)
    worst = next(state for state in states if state.name == found.worst_state)
    bands = unstable_bands(rotor, in_state(support, worst), lowest_speed, highest_speed)
    lines = [
        Line(
            sampled_growth(rotor, in_state(support, state), lowest_speed, highest_speed),
            state.name,
            number,
        )
        for number, state in enumerate(states[:6], 1)
    ]
    return Chart(
        title="Growth rate against rotor speed",
        description=f"{found.verdict}. Above zero a disturbance grows.",
        x=Axis.of(ROTOR_SPEED, lowest_speed, highest_speed),
        y=Axis.of(GROWTH_RATE),
        marks=(
            *(Band(low, high, "x", "unstable", hatched=True) for low, high in bands),
            Rule(0.0, "y", ""),
            *lines,
        ),
    )
