"""Run plan: rotor speed steps for each undercarriage state, with critical speeds marked."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name, Table
from calc.ground.aircraft import assembled
from calc.ground.coalescence import coalescence_speeds
from calc.ground.quantities import (
    BLADE_MASS,
    DAMPING_X,
    DAMPING_Y,
    FIRST_MOMENT,
    HIGHEST_SPEED,
    HINGE_OFFSET,
    HUB_MASS,
    LAG_DAMPING,
    LAG_INERTIA,
    LAG_STIFFNESS,
    LOWEST_SPEED,
    MASS_X,
    MASS_Y,
    STIFFNESS_X,
    STIFFNESS_Y,
    THREE_BLADES,
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
STEP_SPEED = Quantity(r"\Omega", "Rotor speed", ROTATION)
INSTRUCTION = Name("What to do")


@dataclass(frozen=True, slots=True)
class PlanStep:
    """One step of a test plan."""

    number: Annotated[int, NUMBER]
    state: Annotated[str, STATE]
    rotor_speed: Annotated[float, STEP_SPEED]
    instruction: Annotated[str, INSTRUCTION]


STEPS = Table("Steps of the test", PlanStep)


@dataclass(frozen=True, slots=True)
class Plan:
    """A test plan whose order has been checked."""

    verdict: Annotated[str, ORDER_VERDICT]
    steps: Annotated[tuple[PlanStep, ...], STEPS]


def plan(
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
    step_size: Annotated[float, STEP_SIZE],
    keep_clear: Annotated[float, KEEP_CLEAR],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> Plan:
    r"""Return rotor speed steps for each state, the most stable state first, with marks.

    $$ \Omega_{n+1} = \Omega_n + \Delta\Omega, \qquad
    \text{hold off if } |\Omega_n - \Omega^*| \le g \Omega^* $$

    A step is held, or passed without dwelling near coalescence, or not to be run: from the first
    predicted unstable band of a state upward.  A template for the people who write and approve a
    test plan; it approves nothing, and a prediction is no proof that a step is safe.

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
        lowest_speed: Start of the run-up; scalar, rad/s.
        highest_speed: End of the run-up; scalar, rad/s.
        states: Multipliers on stiffness and damping in each state of the undercarriage; rows.
        step_size: Difference between two steps; scalar, rad/s.
        keep_clear: Share of a coalescence speed within which a step is not held; scalar.
        hub_mass: Whether the hub masses have the blades in them; word.

    Returns:
        The steps, and whether each step that enters or crosses an unstable band is marked.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Template devised here; what to vary is a checklist from memory of AC 27-1B and AC 29-2C.

    Examples:
        >>> found = plan(
        ...     4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0, 3000.0, 1400.0,
        ...     600e3, 640e3, 6000.0, 4000.0, 4.0, 42.0, STATES.example, 4.0, 0.05,
        ... )
        >>> found.verdict
        'Every step that enters or crosses an unstable band is marked'
    """
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
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
