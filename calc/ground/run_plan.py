"""Run plan: rotor speed steps of a ground run in each landing-gear state, with stop criteria."""

from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Band, Chart, Line, Points, Rule
from calc.declaration import Name
from calc.ground.model.aircraft import Hub, LagRotor
from calc.ground.model.gear_state import (
    NOMINAL_SPEED,
    STATES,
    UndercarriageState,
    in_order,
    in_state,
    speed_range,
)
from calc.ground.plan.broken_rules import ORDER_VERDICT, broken_rules, order_verdict
from calc.ground.plan.damper_failure import DAMPER_FAILURES, DamperFailure, damper_failure
from calc.ground.plan.outlook import outlook
from calc.ground.plan.plan_step import MOST_STEPS, PREDICTED, STEPS, PlanStep, plan_step
from calc.ground.plan.run_rules import RunRules
from calc.ground.plan.speed_steps import End, run_up
from calc.ground.plan.state_plan import (
    PLANNED_STATES,
    STOPS,
    PlannedState,
    StopCriteria,
    planned_state,
    stop_criteria,
)
from calc.ground.quantities import HIGHEST_SPEED, LOWEST_SPEED, ROTOR_SPEED
from calc.units import RPM

SUMMARY = Name("Plan")


@dataclass(frozen=True, slots=True)
class Plan:
    """A test plan whose steps have been checked against its own rules."""

    summary: Annotated[str, SUMMARY]
    verdict: Annotated[str, ORDER_VERDICT]
    states: Annotated[tuple[PlannedState, ...], PLANNED_STATES]
    dampers: Annotated[tuple[DamperFailure, ...], DAMPER_FAILURES]
    stops: Annotated[tuple[StopCriteria, ...], STOPS]
    steps: Annotated[tuple[PlanStep, ...], STEPS]


def plan(
    rotor: LagRotor,
    hub: Hub,
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    states: Annotated[tuple[UndercarriageState, ...], STATES],
    nominal_speed: Annotated[float, NOMINAL_SPEED] = NOMINAL_SPEED.example,
    rules: RunRules = RunRules(),  # noqa: B008 - a record that cannot change
) -> Plan:
    r"""Return the rotor speed steps of a ground run, the nominal state first.

    $$ \Omega_{n+1} \le \Omega_n + \min(q\, \Omega_{nom}, \Delta\Omega), \qquad
    \Omega_n \le (1 - \epsilon)\, \Omega_1, \qquad \zeta_b(\Omega_n) \ge \zeta_{min} $$

    $\Omega_1$ is the lowest rotor speed at which a disturbance grows and $\zeta_b$ the least
    damping ratio, both at the bad end of the uncertainties.  No step is planned beyond.  A state
    other than the nominal is run up to the highest speed that is measured in the nominal state,
    a deliberate failure not before the nominal state is measured over its range, and a state with
    weight on its rotor begins at the speed that can carry it.  A template for the people who write
    and approve a test plan; it approves nothing.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        lowest_speed: Start of the run-up; scalar, rad/s.
        highest_speed: End of the run-up; scalar, rad/s.
        states: What each landing-gear state does to the hub, and its range; rows.
        nominal_speed: Rotor speed that carries the weight; scalar, rad/s.
        rules: Margins and steps.

    Returns:
        The states in order with the reason why each ends, stop criteria, and every step.

    Raises:
        ValueError: If an argument is not finite or breaks its limits, if a state cannot exist at
            any speed, or if the plan would have too many steps.

    Source:
        Template devised here; its rules and default numbers are common practice without a source.

    Examples:
        >>> from calc.ground.model.aircraft import Rotor
        >>> found = plan(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0), 4.0, 42.0, STATES.example,
        ... )
        >>> found.verdict
        'Every step keeps the rules of the run'
    """
    support = hub.support(rotor)
    STATES.check(states)
    planned: list[PlannedState] = []
    dampers: list[DamperFailure] = []
    rows: list[PlanStep] = []
    broken, reached, complete = 0, highest_speed, True
    for number, state in enumerate(in_order(states)):
        changed = in_state(support, state)
        low, high = speed_range(
            state, lowest_speed, highest_speed, nominal_speed, rules.thrust_ratio
        )
        start = low if state.lift_share else 0.0
        seen = outlook(rotor, changed, (low, high), rules, nominal_speed, start)
        steps, end = run_up(seen, reached)
        if state.kind == "failure" and not complete:
            steps, end = [], End.FAILURE
        if state.lift_share > rules.most_lift:
            steps, end = [], End.LIFT
        broken += len(broken_rules(seen, steps))
        rows += [
            plan_step(seen, step, (len(rows) + count, state.name, nominal_speed))
            for count, step in enumerate(steps, 1)
        ]
        planned.append(planned_state(seen, steps, end, state, reached))
        if steps:
            dampers.append(damper_failure(seen, state.name, steps[-1].rotor_speed))
        if number == 0:
            reached, complete = (steps[-1].rotor_speed if steps else 0.0), end is End.RANGE
        if len(rows) > MOST_STEPS:
            raise ValueError(f"The plan has more than {MOST_STEPS} steps: take a larger step")
    return Plan(
        summary=_summary(planned),
        verdict=order_verdict(broken),
        states=tuple(planned),
        dampers=tuple(dampers),
        stops=tuple(stop_criteria(state, rules) for state in in_order(states)),
        steps=tuple(rows),
    )


def _summary(planned: list[PlannedState]) -> str:
    """Return how far the plan goes, as a sentence."""
    nominal, *others = planned
    reached = f"{RPM.reading(nominal.last_speed):.0f} rpm" if nominal.last_speed else "no speed"
    short = sum("no part" in state.why for state in others)
    if "no part" in nominal.why:
        return (
            f"{nominal.name} is run up to {reached} and no further, nor is any other state: "
            "a cure comes before the test"
        )
    more = f"; {short} of {len(others)} other states end before theirs" if short else ""
    return f"{nominal.name} is run to the end of its range, {reached}{more}"


def plan_chart(
    rotor: LagRotor,
    hub: Hub,
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    states: Annotated[tuple[UndercarriageState, ...], STATES],
    nominal_speed: Annotated[float, NOMINAL_SPEED] = NOMINAL_SPEED.example,
    rules: RunRules = RunRules(),  # noqa: B008 - a record that cannot change
) -> Chart:
    """Return the damping predicted in the nominal state, with its steps and what is shut."""
    state = in_order(states)[0]
    sweep = speed_range(state, lowest_speed, highest_speed, nominal_speed)
    support = in_state(hub.support(rotor), state)
    seen = outlook(rotor, support, sweep, rules, nominal_speed)
    steps, _ = run_up(seen, highest_speed)
    given = [(speed, seen.as_given(speed).damping_ratio) for speed in seen.speeds]
    worst = [(speed, seen.damping(speed)) for speed in seen.speeds]
    taken = [(s.rotor_speed, seen.as_given(s.rotor_speed).damping_ratio) for s in steps]
    return Chart(
        title=f"Predicted damping in the state {state.name}",
        description="The least damping ratio of all modes against rotor speed, as given and at "
        "the bad end of the uncertainties. No step lies in the hatched ranges, which are the "
        "unstable bands with their stand-off, or where the damping at the bad end is below the "
        "least at which to excite.",
        x=Axis.of(ROTOR_SPEED, *sweep),
        y=Axis.of(PREDICTED),
        marks=(
            *(
                Band(max(low, sweep[0]), min(high, sweep[1]), "x", "band, stand-off", hatched=True)
                for low, high in seen.shut
                if low < sweep[1] and high > sweep[0]
            ),
            Rule(rules.least_damping, "y", "least to excite"),
            Line(given, "as given", 1),
            Line(worst, "bad end", 2),
            Points(taken, "steps", 1),
        ),
    )
