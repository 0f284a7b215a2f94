"""Step order: whether the reader's own rotor speed steps touch an unstable band unmarked."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Choice, Table
from calc.ground.aircraft import Hub, LagRotor
from calc.ground.quantities import (
    HIGHEST_SPEED,
    LOWEST_SPEED,
    ROTOR_SPEED,
)
from calc.ground.speed_steps import (
    ORDER_VERDICT,
    Mark,
    SpeedStep,
    order_verdict,
    unmarked_crossings,
)
from calc.ground.stability import unstable_bands
from calc.ground.verdict import BANDS, UnstableBand
from calc.quantity import Quantity
from calc.units import ROTATION, RPM

FROM_SPEED = Quantity(r"\Omega_n", "From rotor speed", ROTATION)
TO_SPEED = Quantity(r"\Omega_{n+1}", "To rotor speed", ROTATION)
WHAT = Choice(
    "What is planned",
    {
        "hold": "hold and measure",
        "transit": "pass without dwelling",
        "stop": "do not run, marked as unstable",
    },
)


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """A step of the reader's own run-up or run-down."""

    rotor_speed: Annotated[float, ROTOR_SPEED]
    what: Annotated[str, WHAT]


PLANNED = Table(
    "Steps in the order in which they are run",
    PlannedStep,
    example=(
        PlannedStep(RPM.si(100.0), "hold"),
        PlannedStep(RPM.si(160.0), "hold"),
        PlannedStep(RPM.si(200.0), "hold"),
        PlannedStep(RPM.si(320.0), "hold"),
    ),
    at_least=1,
)


@dataclass(frozen=True, slots=True)
class UnmarkedStep:
    """A step on whose way a predicted unstable band lies without a mark."""

    from_speed: Annotated[float, FROM_SPEED]
    to_speed: Annotated[float, TO_SPEED]


UNMARKED = Table("Steps that touch an unstable band without a mark", UnmarkedStep)


@dataclass(frozen=True, slots=True)
class OrderCheck:
    """What a check of the reader's own steps found."""

    verdict: Annotated[str, ORDER_VERDICT]
    unmarked: Annotated[tuple[UnmarkedStep, ...], UNMARKED]
    bands: Annotated[tuple[UnstableBand, ...], BANDS]


def order_check(
    rotor: LagRotor,
    hub: Hub,
    lowest_speed: Annotated[float, LOWEST_SPEED],
    highest_speed: Annotated[float, HIGHEST_SPEED],
    steps: Annotated[tuple[PlannedStep, ...], PLANNED],
) -> OrderCheck:
    r"""Return which of the reader's own steps touch a predicted unstable band without a mark.

    $$ \min(\Omega_n, \Omega_{n+1}) < \Omega_2 \quad \text{and} \quad
    \max(\Omega_n, \Omega_{n+1}) > \Omega_1 $$

    The way from one step to the next counts, up or down, not only where it ends: a rotor passes
    every speed between, also from rest to the first step and from the last one back to rest.
    A step that is marked as not to be run is left out.

    Args:
        rotor: Blades and lag hinges.
        hub: Effective masses, stiffness and damping at the hub.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        steps: Rotor speeds in the order in which they are run; rows.

    Returns:
        The verdict, the steps without a mark, and the unstable bands.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Devised here.

    Examples:
        >>> from calc.ground.aircraft import Rotor
        >>> found = order_check(
        ...     Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0),
        ...     Hub(3000.0, 1400.0, 600e3, 640e3, 6000.0, 4000.0), 4.0, 42.0, PLANNED.example,
        ... )
        >>> len(found.unmarked)
        2
    """
    support = hub.support(rotor)
    PLANNED.check(steps)
    bands = unstable_bands(rotor, support, lowest_speed, highest_speed)
    planned = [SpeedStep(step.rotor_speed, Mark[step.what.upper()]) for step in steps]
    rest = SpeedStep(0.0, Mark.HOLD)
    run = [rest, *(step for step in planned if step.mark is not Mark.STOP), rest]
    crossings = unmarked_crossings(run, bands)
    return OrderCheck(
        verdict=order_verdict(len(crossings)),
        unmarked=tuple(UnmarkedStep(a.rotor_speed, b.rotor_speed) for a, b in crossings),
        bands=tuple(UnstableBand(*band) for band in bands),
    )
