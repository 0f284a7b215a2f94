"""Run plan: rotor speed steps for each undercarriage state, with critical speeds marked."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name, Table
from calc.ground.aircraft import Hub, LagRotor
from calc.ground.coalescence import coalescence_speeds
from calc.ground.quantities import (
    HIGHEST_SPEED,
    LOWEST_SPEED,
    ROTOR_SPEED,
)
from calc.ground.speed_steps import ORDER_VERDICT, order_verdict, speed_steps, unmarked_crossings
from calc.ground.stability import unstable_bands
from calc.ground.undercarriage import STATE, STATES, UndercarriageState, assess, in_state
from calc.quantity import Quantity
from calc.units import ROTATION, RPM, SHARE

STEP_SIZE = Quantity(r"\Delta\Omega", "Rotor speed step", ROTATION, above=0.0, example=RPM.si(30.0))
KEEP_CLEAR = Quantity(
    "g",
    "Share of a coalescence speed to keep clear of it",
    SHARE,
    at_least=0.0,
    below=1.0,
    example=0.05,
)
NUMBER = Quantity("n", "Step", whole=True)
INSTRUCTION = Name("What to do")


@dataclass(frozen=True, slots=True)
class PlanStep:
    """One step of a test plan."""

    number: Annotated[int, NUMBER]
    state: Annotated[str, STATE]
    rotor_speed: Annotated[float, ROTOR_SPEED]
    instruction: Annotated[str, INSTRUCTION]


STEPS = Table("Steps of the test", PlanStep)


@dataclass(frozen=True, slots=True)
class Plan:
    """A test plan whose order has been checked."""

    verdict: Annotated[str, ORDER_VERDICT]
    steps: Annotated[tuple[PlanStep, ...], STEPS]


def plan(
    rotor: LagRotor,
    hub: Hub,
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    states: Annotated[tuple[UndercarriageState, ...], STATES],
    step_size: Annotated[float, STEP_SIZE],
    keep_clear: Annotated[float, KEEP_CLEAR],
) -> Plan:
    r"""Return rotor speed steps for each state, the most stable state first, with marks.

    $$ \Omega_{n+1} = \Omega_n + \Delta\Omega, \qquad
    \text{hold off if } |\Omega_n - \Omega^*| \le g \Omega^* $$

    A step is held, or passed without dwelling near coalescence, or not to be run: from the first
    predicted unstable band of a state upward.  A template for the people who write and approve a
    test plan; it approves nothing, and a prediction is no proof that a step is safe.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        lowest_speed: Start of the run-up; scalar, rad/s.
        highest_speed: End of the run-up; scalar, rad/s.
        states: Multipliers on stiffness and damping in each state of the undercarriage; rows.
        step_size: Difference between two steps; scalar, rad/s.
        keep_clear: Share of a coalescence speed within which a step is not held; scalar.

    Returns:
        The steps, and whether each step that enters or crosses an unstable band is marked.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Template devised here; what to vary is a checklist from memory of AC 27-1B and AC 29-2C.

    Examples:
        >>> from calc.ground.aircraft import Rotor
        >>> found = plan(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0),
        ...     4.0, 42.0, STATES.example, 4.0, 0.05,
        ... )
        >>> found.verdict
        'Every step that enters or crosses an unstable band is marked'
    """
    support = hub.support(rotor)
    STEP_SIZE.check(step_size)
    KEEP_CLEAR.check(keep_clear)
    found = assess(rotor, support, states, lowest_speed, highest_speed)
    order = sorted(found.states, key=lambda state: state.growth_rate)
    by_name = {state.name: state for state in states}
    steps: list[PlanStep] = []
    unmarked = 0
    for name in dict.fromkeys(state.name for state in order):
        changed = in_state(support, by_name[name])
        bands = unstable_bands(rotor, changed, lowest_speed, highest_speed)
        near = coalescence_speeds(rotor, changed)
        run = speed_steps((lowest_speed, highest_speed, step_size), bands, near, keep_clear)
        unmarked += len(unmarked_crossings(run, bands))
        steps += [
            PlanStep(len(steps) + number, name, step.rotor_speed, step.mark.value)
            for number, step in enumerate(run, 1)
        ]
    return Plan(verdict=order_verdict(unmarked), steps=tuple(steps))
