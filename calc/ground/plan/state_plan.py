"""State plan: how far a landing-gear state is run, why no further, and when the run is stopped."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name, Table
from calc.ground.model.gear_state import DATA, KIND, STATE, UndercarriageState
from calc.ground.plan.outlook import Outlook
from calc.ground.plan.run_rules import RunRules
from calc.ground.plan.speed_steps import End, SpeedStep
from calc.quantity import Quantity
from calc.units import PER_CENT, ROTATION, RPM

HALF_WAY = 0.5  # of the way to the extrapolated zero of damping; common practice, no source

FROM = Quantity(r"\Omega_a", "Begins at", ROTATION)
LAST = Quantity(r"\Omega_e", "Last step", ROTATION)
EDGE = Quantity(r"\Omega_1", "Unstable from, as given", ROTATION)
BAD_EDGE = Quantity(r"\Omega_{1b}", "Unstable from, at the bad end", ROTATION)
WHY = Name("Why it ends there")
CONDITION = Name("Condition")
STOP_DAMPING = Quantity(r"\zeta_{stop}", "Measured damping ratio below", PER_CENT)
STOP_RATIO = Quantity("", "Measured over predicted damping below", PER_CENT)
FREQUENCY_OFF = Quantity("", "Measured frequency off by more than", PER_CENT)
TREND = Quantity(
    "", "Next step beyond this part of the way to zero damping, extrapolated", PER_CENT
)
TREND_CLEAR = Quantity("", "Next step nearer to that zero than", PER_CENT)
LIFT_ABOVE = Quantity("", "Weight on the rotor above", PER_CENT)
AMPLITUDE = Name("Amplitude limit")
LIFT_OFF = Name("Lifting off")


@dataclass(frozen=True, slots=True)
class PlannedState:
    """A state in the order of the plan; a speed is None where there is none."""

    name: Annotated[str, STATE]
    kind: Annotated[str, KIND]
    data: Annotated[str, DATA]
    from_speed: Annotated[float, FROM]
    last_speed: Annotated[float | None, LAST]
    unstable_from: Annotated[float | None, EDGE]
    unstable_from_bad_end: Annotated[float | None, BAD_EDGE]
    why: Annotated[str, WHY]
    condition: Annotated[str, CONDITION]


@dataclass(frozen=True, slots=True)
class StopCriteria:
    """What stops a run in a state, whatever the step."""

    name: Annotated[str, STATE]
    damping_ratio: Annotated[float, STOP_DAMPING]
    ratio: Annotated[float, STOP_RATIO]
    frequency: Annotated[float, FREQUENCY_OFF]
    trend: Annotated[float, TREND]
    trend_clear: Annotated[float, TREND_CLEAR]
    lift: Annotated[float, LIFT_ABOVE]
    amplitude: Annotated[str, AMPLITUDE]
    lift_off: Annotated[str, LIFT_OFF]


PLANNED_STATES = Table("Landing-gear states in the order of the plan", PlannedState)
STOPS = Table("Stop criteria: stop the run when any of them is met", StopCriteria)


def planned_state(
    seen: Outlook, steps: Sequence[SpeedStep], end: End, state: UndercarriageState, reached: float
) -> PlannedState:
    """Return how far a state is run, and why no further.

    Args:
        seen: What is predicted in the state.
        steps: Steps of the state.
        end: Why they end.
        state: The state.
        reached: Highest rotor speed measured in the nominal state; scalar, rad/s.

    Returns:
        A row of the plan.

    Source:
        Devised here.
    """
    last = steps[-1].rotor_speed if steps else None
    return PlannedState(
        name=state.name,
        kind=state.kind,
        data=state.data,
        from_speed=seen.speeds[0],
        last_speed=last,
        unstable_from=_first(seen.bands_ahead(seen.bands_as_given)),
        unstable_from_bad_end=_first(seen.bands_ahead(seen.bands)),
        why=_why(seen, last, end, reached),
        condition=_condition(state),
    )


def stop_criteria(state: UndercarriageState, rules: RunRules) -> StopCriteria:
    """Return what stops a run in a state.

    Args:
        state: The state.
        rules: Margins and steps.

    Returns:
        A row of the plan.

    Source:
        Common practice, no source.
    """
    tied = state.kind == "restrained"
    return StopCriteria(
        name=state.name,
        damping_ratio=rules.least_damping,
        ratio=1.0 - rules.damping_uncertainty,
        frequency=rules.frequency_uncertainty,
        trend=HALF_WAY,
        trend_clear=rules.keep_clear,
        lift=rules.most_lift,
        amplitude="______ (test authority)",
        lift_off="impossible and deadly: the aircraft is tied" if tied else "no part of this plan",
    )


def _first(bands: Sequence[tuple[float, float]]) -> float | None:
    return bands[0][0] if bands else None


def _why(seen: Outlook, last: float | None, end: End, reached: float) -> str:
    """Return why a state ends where it does, in words."""
    rest = "faster is no part of this plan in this state"
    if end is End.RANGE:
        return "end of its range"
    if end is End.FAILURE:
        return "not begun: the nominal state is not measured to the end of its range"
    if end is End.LIFT:
        return f"not begun: more weight on the rotor than the limit of {seen.rules.most_lift:.0%}"
    if end is End.NOMINAL:
        begun = "" if last else f"not begun, as it starts at {_rpm(seen.speeds[0])}: "
        return f"{begun}the nominal state is measured up to {_rpm(reached)}"
    if end is End.DAMPING:
        low = next(speed for speed in seen.speeds if seen.is_too_lightly_damped(speed))
        least = seen.rules.least_damping
        return f"predicted damping below {least:.1%} from {_rpm(low)} at the bad end; {rest}"
    low, high = next(
        band for band in seen.bands if seen.rules.closed(*band)[1] > (last or seen.start)
    )
    clear = seen.rules.keep_clear
    return f"{clear:.0%} before a band from {_rpm(low)} to {_rpm(high)} at the bad end; {rest}"


def _condition(state: UndercarriageState) -> str:
    if state.kind == "failure":
        return "only if needed and authorised; a change to the type design until it is undone"
    if state.lift_share:
        return "entered from the nominal state at speed, by collective pitch"
    if state.kind == "restrained":
        return "the restraint is approved for it; lifting off is impossible"
    return ""


def _rpm(speed: float) -> str:
    return f"{RPM.reading(speed):.0f} rpm"
