"""Assessment: the verdict on an aircraft in every state of its undercarriage."""

from collections.abc import Sequence
from typing import Annotated

from calc.chart import Chart, Line
from calc.ground.model.aircraft import Hub, LagRotor, Rotor
from calc.ground.model.gear_state import NOMINAL_SPEED, THRUST_RATIO, speed_range
from calc.ground.quantities import (
    HIGHEST_SPEED,
    LOWEST_SPEED,
)
from calc.ground.search.growth_chart import growth_chart, unstable
from calc.ground.stability import sampled_growth
from calc.ground.undercarriage import STATES, Assessment, UndercarriageState, assess, in_state


def assessment(
    rotor: LagRotor,
    hub: Hub,
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    states: Annotated[tuple[UndercarriageState, ...], STATES],
    nominal_speed: Annotated[float, NOMINAL_SPEED] = NOMINAL_SPEED.example,
    thrust_ratio: Annotated[float, THRUST_RATIO] = THRUST_RATIO.example,
) -> Assessment:
    r"""Return the verdict over rotor speed in every state of the undercarriage.

    $$ \sigma = \max_j \operatorname{Re} s_j(\Omega), \qquad t_2 = \frac{\ln 2}{|\sigma|}, \qquad
    K \rightarrow k K, \quad C \rightarrow c C \text{ in each state} $$

    Eigenvalues of three or more identical blades on a hub with two directions, at a hundred rotor
    speeds and at coalescence, with the edges of unstable bands by root finding.  Analysis is a
    guide for a test, never an approval to run a rotor.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        states: What each landing-gear state does to the hub, and its range; rows.
        nominal_speed: Nominal rotor speed; scalar, rad/s.
        thrust_ratio: Largest thrust at nominal rotor speed over the weight; scalar.

    Returns:
        The worst state with its rotor speed and growth rate, a verdict a state, and the bands.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.

    Examples:
        >>> from calc.ground.model.aircraft import Rotor
        >>> found = assessment(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0), 4.0, 42.0, STATES.example,
        ... )
        >>> found.growth_rate == max(state.growth_rate for state in found.states)
        True
    """
    support = hub.support(rotor)
    return assess(rotor, support, states, lowest_speed, highest_speed, nominal_speed, thrust_ratio)


def assessment_chart(
    rotor: Rotor,
    hub: Hub,
    lowest_speed: float,
    highest_speed: float,
    states: Sequence[UndercarriageState],
    nominal_speed: float,
    found: Assessment,
) -> Chart:
    """Return the growth rate over rotor speed in every state; the worst has its bands hatched."""
    support = hub.support(rotor)
    sweeps = [speed_range(state, lowest_speed, highest_speed, nominal_speed) for state in states]
    lines = [
        Line(sampled_growth(rotor, in_state(support, state), *sweep), state.name, number)
        for number, (state, sweep) in enumerate(zip(states[:6], sweeps, strict=False), 1)
    ]
    worst = [band for band in found.bands if band.name == found.worst_state]
    return growth_chart(
        "Growth rate against rotor speed",
        f"{found.verdict}. Above zero a disturbance grows.",
        (lowest_speed, highest_speed),
        unstable((band.lower_speed, band.upper_speed) for band in worst),
        lines,
    )
