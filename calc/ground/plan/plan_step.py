"""Plan step: one rotor speed of a ground-run plan, with what is predicted and done there."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name, Table
from calc.ground.model.gear_state import STATE
from calc.ground.plan.outlook import Outlook
from calc.ground.plan.speed_steps import SpeedStep
from calc.quantity import Quantity
from calc.units import FREQUENCY, PER_CENT, ROTATION, TURN_PER_SECOND

MOST_STEPS = 600
"""A plan of more steps is refused."""

NUMBER = Quantity("n", "Step", whole=True)
STEP_SPEED = Quantity(r"\Omega", "Rotor speed", ROTATION)
OF_NOMINAL = Quantity("", "Of nominal", PER_CENT)
FREQUENCY_SEEN = Quantity("f", "Least damped mode, predicted", FREQUENCY)
PREDICTED = Quantity(r"\zeta", "Damping ratio, predicted", PER_CENT)
AT_BAD_END = Quantity(r"\zeta_b", "At the bad end", PER_CENT)
STOP_BELOW = Quantity(r"\zeta_s", "Stop if measured below", PER_CENT)
NEXT_FREQUENCY = Quantity("f_2", "Next mode, where it is near", FREQUENCY)
NEXT_DAMPING = Quantity(r"\zeta_2", "Its damping ratio", PER_CENT)
NEXT_STOP = Quantity(r"\zeta_{s2}", "Stop if its is below", PER_CENT)
INSTRUCTION = Name("What to do")


@dataclass(frozen=True, slots=True)
class PlanStep:
    """One step of a test plan; the next mode is None where it has far more damping."""

    number: Annotated[int, NUMBER]
    state: Annotated[str, STATE]
    rotor_speed: Annotated[float, STEP_SPEED]
    of_nominal: Annotated[float, OF_NOMINAL]
    instruction: Annotated[str, INSTRUCTION]
    frequency: Annotated[float, FREQUENCY_SEEN]
    damping_ratio: Annotated[float, PREDICTED]
    bad_end_damping_ratio: Annotated[float, AT_BAD_END]
    stop_damping_ratio: Annotated[float, STOP_BELOW]
    next_frequency: Annotated[float | None, NEXT_FREQUENCY]
    next_damping_ratio: Annotated[float | None, NEXT_DAMPING]
    next_stop_damping_ratio: Annotated[float | None, NEXT_STOP]


STEPS = Table(
    "Steps of the run, all of them; the next only if this one is as predicted",
    PlanStep,
    at_most=MOST_STEPS,
)


def plan_step(seen: Outlook, step: SpeedStep, place: tuple[int, str, float]) -> PlanStep:
    """Return a step of a plan, with what is predicted there.

    Args:
        seen: What is predicted in the state.
        step: Rotor speed and what is done.
        place: Number of the step, name of its state, and nominal rotor speed, rad/s.

    Returns:
        A row of the plan.

    Source:
        Devised here.
    """
    number, name, nominal_speed = place
    least, other = seen.as_given(step.rotor_speed), seen.next_mode(step.rotor_speed)
    return PlanStep(
        number=number,
        state=name,
        rotor_speed=step.rotor_speed,
        of_nominal=step.rotor_speed / nominal_speed,
        instruction=step.mark.value,
        frequency=TURN_PER_SECOND.reading(least.frequency),
        damping_ratio=least.damping_ratio,
        bad_end_damping_ratio=seen.damping(step.rotor_speed),
        stop_damping_ratio=seen.rules.stop_below(least.damping_ratio),
        next_frequency=TURN_PER_SECOND.reading(other.frequency) if other else None,
        next_damping_ratio=other.damping_ratio if other else None,
        next_stop_damping_ratio=seen.rules.stop_below(other.damping_ratio) if other else None,
    )
