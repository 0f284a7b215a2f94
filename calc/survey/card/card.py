"""Card: the ground run of a data sheet, step by step, as a test crew takes it to the aircraft.

The steps are those of the ground-run plan.  The card adds the time that each needs, the lines that
are expected, and what the measured modes of the sheet say; it never goes further than the plan.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from calc.catalogue import formula
from calc.declaration import arguments
from calc.form.calculation import Calculation, calculate
from calc.ground.model.aircraft import Rotor
from calc.ground.model.gear_state import in_state
from calc.ground.plan.damper_failure import DamperFailure
from calc.ground.plan.plan_step import PlanStep
from calc.ground.plan.run_rules import FINE, RunRules
from calc.ground.plan.speed_steps import Mark
from calc.ground.plan.state_plan import PlannedState, StopCriteria
from calc.sheet.sheet import Sheet
from calc.survey.asked import Asked
from calc.survey.card.dwell import Dwell, dwell
from calc.survey.card.expected_lines import ExpectedLines, expected_lines
from calc.survey.card.followed import Followed, followed
from calc.survey.card.hold import speed_tolerance
from calc.survey.card.measured_limit import Measured, MeasuredLimit, measured, measured_limit
from calc.survey.ground import PLAN, run_plan
from calc.units import RPM

TWICE = 2
"""Decays that are recorded where the least damping is expected."""


@dataclass(frozen=True, slots=True)
class CardStep:
    """A step of the plan under its number on the card, why its speed is chosen, and its times.

    There are no times and no followed modes where it is only passed.  `tolerance` is of the rotor
    speed, rad/s.
    """

    step: PlanStep
    reason: str
    dwell: Dwell | None
    modes: tuple[Followed, ...]
    tolerance: float


@dataclass(frozen=True, slots=True)
class CardState:
    """A landing-gear state in the order of the run.

    `why` says why it ends where it does, or why it is not begun; `is_light` that it is a state
    with weight on its rotor, free to lift off.
    """

    planned: PlannedState
    steps: tuple[CardStep, ...]
    why: str
    damper: DamperFailure | None
    stop: StopCriteria
    is_light: bool

    @property
    def last_speed(self) -> float | None:
        """The rotor speed of the last step, rad/s; None where there is none."""
        return self.steps[-1].step.rotor_speed if self.steps else None


@dataclass(frozen=True, slots=True)
class Card:
    """A ground run; `lacks` has what the sheet would have to say so that there are steps."""

    asked: Asked
    lines: ExpectedLines
    lacks: tuple[str, ...] = ()
    summary: str = ""
    rules: RunRules = field(default_factory=RunRules)
    states: tuple[CardState, ...] = ()
    notes: tuple[str, ...] = ()


def card(sheet: Sheet) -> Card:
    """Return the ground run of a data sheet.

    Where a run goes against the measured modes of its state, it ends before; where that is the
    nominal state, no other goes faster, and no deliberate failure is run.
    """
    asked, lines = run_plan(sheet), expected_lines(sheet)
    if asked.missing:
        return Card(asked, lines, asked.missing)
    found = calculate(PLAN, asked.entries)
    if found.problems:
        return Card(asked, lines, tuple(problem.message for problem in found.problems))
    given = arguments(formula(PLAN), found.values)
    lifted = {state.name: state.lift_share > 0.0 for state in given["states"]}
    if len(lifted) < len(given["states"]):
        return Card(asked, lines, ("Landing-gear states with a name of their own each",))
    rules, seen = given["rules"], measured(sheet)
    notes = [*asked.notes, *found.warnings, *lines.notes]
    if seen.lacks:
        notes.append(f"The measured modes of the sheet are not looked at: {'; '.join(seen.lacks)}")
    states: list[CardState] = []
    for planned in found.result.states:
        own = [step for step in found.result.steps if step.state == planned.name]
        start = planned.from_speed if lifted[planned.name] else 0.0
        limit, note = _limited(seen, given["rotor"], rules, own, start)
        kept, why = _kept(own, planned, limit, states)
        notes += [note] if note and kept else []
        before = sum(len(state.steps) for state in states)
        kept = [replace(step, number=n) for n, step in enumerate(kept, before + 1)]
        states.append(_card_state(found, planned, kept, why, lines, given))
    if states[0].why != found.result.states[0].why:
        summary = f"{states[0].planned.name}: {states[0].why}"
    else:
        summary = found.result.summary
    return Card(asked, lines, (), summary, rules, tuple(states), tuple(dict.fromkeys(notes)))


def _limited(
    seen: Measured,
    rotor: Rotor,
    rules: RunRules,
    own: Sequence[PlanStep],
    start: float,
) -> tuple[MeasuredLimit | None, str]:
    """Return where the measured modes of a state end its run, and a note where they cannot say."""
    if not own or not seen.modes:
        return None, ""
    name = own[0].state
    if name not in seen.modes:
        return None, f"{name}: the sheet has no measured modes in this state to compare with"
    try:
        return measured_limit(seen, rotor, rules, own, start), ""
    except ValueError as error:
        return None, f"{name}: its measured modes are not looked at. {error}"


def _kept(
    own: Sequence[PlanStep],
    planned: PlannedState,
    limit: MeasuredLimit | None,
    before: Sequence[CardState],
) -> tuple[list[PlanStep], str]:
    """Return the steps of a state that stay on the card, and why it ends there."""
    kept, why = list(own), planned.why
    if limit is not None:
        kept = [step for step in own if step.rotor_speed < limit.speed * (1.0 - 1e-9)]
        why = f"{limit.why} at the bad end of the measured modes; faster is no part of this run"
    if not before:
        return kept, why
    nominal = before[0]
    if nominal.why == nominal.planned.why:
        return kept, why
    reached = nominal.last_speed or 0.0
    if planned.kind == "failure":
        return [], "not begun: the nominal state is not measured to the end of its range"
    slower = [step for step in kept if step.rotor_speed <= reached * (1.0 + 1e-9)]
    if len(slower) < len(kept) or "measured up to" in planned.why:
        begun = "" if slower else f"not begun, as it starts at {_rpm(planned.from_speed)}: "
        why = f"{begun}the nominal state is measured up to {_rpm(reached)}"
    return slower, why


def _rpm(speed: float) -> str:
    return f"{RPM.reading(speed):.0f} rpm"


def _card_state(
    found: Calculation,
    planned: PlannedState,
    steps: Sequence[PlanStep],
    why: str,
    lines: ExpectedLines,
    given: Mapping[str, Any],
) -> CardState:
    rules, full_step = given["rules"], given["rules"].step(given["nominal_speed"])
    damper = next((one for one in found.result.dampers if one.name == planned.name), None)
    stop = next(one for one in found.result.stops if one.name == planned.name)
    state = next(one for one in given["states"] if one.name == planned.name)
    support = in_state(given["hub"].support(given["rotor"]), state)
    modes = followed(given["rotor"], support, rules, steps)
    speeds = [step.rotor_speed for step in steps]
    made = tuple(
        CardStep(
            step,
            _reason(steps, number, planned, full_step),
            _dwell(step, modes[number], lines, rules),
            () if step.instruction == Mark.TRANSIT.value else modes[number],
            speed_tolerance(speeds, number, full_step / FINE),
        )
        for number, step in enumerate(steps)
    )
    is_light = state.lift_share > 0.0 and planned.kind != "restrained"
    return CardState(planned, made, why, damper if steps else None, stop, is_light)


def _dwell(
    step: PlanStep, modes: Sequence[Followed], lines: ExpectedLines, rules: RunRules
) -> Dwell | None:
    """Return the times of a step, at the least damping and the lowest frequency expected."""
    if step.instruction == Mark.TRANSIT.value:
        return None
    read = [(one.words, one.frequency) for one in modes if one.stop_damping_ratio is not None]
    return dwell(
        read,
        lines.at(step.rotor_speed),
        slowest=min(frequency for _, frequency in read) * (1.0 - rules.frequency_uncertainty),
        damping_ratio=step.bad_end_damping_ratio,
        records=TWICE if step.instruction == Mark.LEAST.value else 1,
    )


def _reason(steps: Sequence[PlanStep], number: int, planned: PlannedState, full_step: float) -> str:
    """Return why a rotor speed is a step, where its instruction does not say so."""
    step = steps[number]
    if step.instruction == Mark.HOLD.value:
        return "first in this state" if number == 0 else "damping falls by a quarter at most"
    if step.instruction != Mark.CREEP.value:
        return ""
    near = [one for one in steps if abs(one.rotor_speed - step.rotor_speed) <= full_step]
    if any(one.rotor_speed == planned.last_speed for one in near):
        shut = "no part" in planned.why
        return "the end of what may be run is near" if shut else "damping falls, or the range ends"
    if any(one.instruction == Mark.LEAST.value for one in near):
        return "the least damping is near"
    return "damping falls by more than a quarter over a full step"
