"""Step order: whether the reader's own rotor speed steps keep the rules of a ground run."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Choice, Name, Table
from calc.ground.model.aircraft import Hub, LagRotor
from calc.ground.model.gear_state import NOMINAL_SPEED
from calc.ground.plan.broken_rules import ORDER_VERDICT, broken_rules, order_verdict
from calc.ground.plan.outlook import outlook
from calc.ground.plan.run_rules import MOST_LIFT, RunRules
from calc.ground.plan.speed_steps import Mark, SpeedStep
from calc.ground.quantities import HIGHEST_SPEED, LOWEST_SPEED, ROTOR_SPEED
from calc.ground.search.verdict import LOWER_SPEED, UPPER_SPEED, UnstableBand
from calc.quantity import Quantity
from calc.units import ROTATION, RPM

FROM_SPEED = Quantity(r"\Omega_n", "Step from rotor speed", ROTATION)
TO_SPEED = Quantity(r"\Omega_{n+1}", "Step to rotor speed", ROTATION)
REASON = Name("Rule that is broken")
WHAT = Choice(
    "What is planned",
    {
        "hold": "hold, excite, measure",
        "transit": "pass without dwelling",
        "stop": "do not run",
    },
)
MARKS = {"hold": Mark.HOLD, "transit": Mark.TRANSIT, "stop": Mark.STOP}


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """A step of the reader's own run-up or run-down."""

    rotor_speed: Annotated[float, ROTOR_SPEED]
    what: Annotated[str, WHAT]


StepRules = Annotated[RunRules, {"thrust_ratio": 1.0, "most_lift": MOST_LIFT.example}]
"""The rules of the run; steps are judged in one state, whatever its weight on the rotor."""

PLANNED = Table(
    "Steps in the order in which they are run",
    PlannedStep,
    example=(
        PlannedStep(RPM.si(100.0), "hold"),
        PlannedStep(RPM.si(112.0), "hold"),
        PlannedStep(RPM.si(160.0), "transit"),
        PlannedStep(RPM.si(200.0), "hold"),
        PlannedStep(RPM.si(320.0), "hold"),
    ),
    at_least=1,
)


@dataclass(frozen=True, slots=True)
class UnmarkedStep:
    """A step that breaks a rule and is not marked as one that is not run."""

    from_speed: Annotated[float, FROM_SPEED]
    to_speed: Annotated[float, TO_SPEED]
    reason: Annotated[str, REASON]


@dataclass(frozen=True, slots=True)
class BadEndBand:
    """Rotor speeds between which a disturbance grows at the bad end of the uncertainties."""

    lower_speed: Annotated[float, LOWER_SPEED]
    upper_speed: Annotated[float, UPPER_SPEED]


UNMARKED = Table("Steps that break a rule", UnmarkedStep)
BANDS_AS_GIVEN = Table("Unstable bands of rotor speed, as given", UnstableBand)
BAD_END_BANDS = Table("Unstable bands of rotor speed, at the bad end", BadEndBand)


@dataclass(frozen=True, slots=True)
class OrderCheck:
    """What a check of the reader's own steps found."""

    verdict: Annotated[str, ORDER_VERDICT]
    unmarked: Annotated[tuple[UnmarkedStep, ...], UNMARKED]
    bands: Annotated[tuple[UnstableBand, ...], BANDS_AS_GIVEN]
    bad_end_bands: Annotated[tuple[BadEndBand, ...], BAD_END_BANDS]


def order_check(
    rotor: LagRotor,
    hub: Hub,
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    steps: Annotated[tuple[PlannedStep, ...], PLANNED],
    nominal_speed: Annotated[float, NOMINAL_SPEED] = NOMINAL_SPEED.example,
    rules: StepRules = RunRules(),  # noqa: B008 - a record that cannot change
) -> OrderCheck:
    r"""Return which of the reader's own steps break a rule of a ground run.

    $$ \min(\Omega_n, \Omega_{n+1}) < \frac{\Omega_2}{1 - \epsilon}, \qquad
    \max(\Omega_n, \Omega_{n+1}) > (1 - \epsilon)\, \Omega_1 $$

    The way between two speeds counts, and so do the run-up from rest to the first step and the
    run-down to rest after the last.  A step that is marked as not to be run counts as not run.
    The rules are those of the test plan: bands and damping at the bad end of the uncertainties.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep, or the fastest step where it is faster; scalar, rad/s.
        steps: Rotor speeds in the order in which they are run; rows.
        nominal_speed: Rotor speed that carries the weight; scalar, rad/s.
        rules: Margins and steps.

    Returns:
        The verdict, each step that breaks a rule with the reason, and the unstable bands.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Devised here; the rules are common practice without a source.

    Examples:
        >>> from calc.ground.model.aircraft import Rotor
        >>> found = order_check(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0), 4.0, 42.0, PLANNED.example,
        ... )
        >>> found.unmarked[-1].reason
        'crosses a predicted unstable band'
    """
    support = hub.support(rotor)
    LOWEST_SPEED.check(lowest_speed)
    HIGHEST_SPEED.check(highest_speed)
    NOMINAL_SPEED.check(nominal_speed)
    PLANNED.check(steps)
    for step in steps:
        ROTOR_SPEED.check(step.rotor_speed)
        WHAT.check(step.what)
    fastest = max((step.rotor_speed for step in steps if step.what != "stop"), default=0.0)
    top = max(highest_speed, fastest)
    seen = outlook(rotor, support, (lowest_speed, top), rules, nominal_speed)
    run = [SpeedStep(step.rotor_speed, MARKS[step.what]) for step in steps]
    broken = broken_rules(seen, run)
    return OrderCheck(
        verdict=order_verdict(len(broken)),
        unmarked=tuple(
            UnmarkedStep(rule.before.rotor_speed, rule.after.rotor_speed, rule.reason)
            for rule in broken
        ),
        bands=tuple(UnstableBand(*band) for band in seen.bands_as_given),
        bad_end_bands=tuple(BadEndBand(*band) for band in seen.bands),
    )
