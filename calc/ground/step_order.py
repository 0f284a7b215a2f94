"""Step order: whether the reader's own rotor speed steps touch an unstable band unmarked."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Choice, Table
from calc.ground.aircraft import assembled
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
    ROTOR_SPEED,
    STIFFNESS_X,
    STIFFNESS_Y,
    THREE_BLADES,
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
    steps: Annotated[tuple[PlannedStep, ...], PLANNED],
    hub_mass: Annotated[str, HUB_MASS] = "without_blades",
) -> OrderCheck:
    r"""Return which of the reader's own steps touch a predicted unstable band without a mark.

    $$ \min(\Omega_n, \Omega_{n+1}) < \Omega_2 \quad \text{and} \quad
    \max(\Omega_n, \Omega_{n+1}) > \Omega_1 $$

    The way from one step to the next counts, up or down, not only where it ends: a rotor passes
    every speed between, also from rest to the first step and from the last one back to rest.
    A step that is marked as not to be run is left out.

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
        steps: Rotor speeds in the order in which they are run; rows.
        hub_mass: Whether the hub masses have the blades in them; word.

    Returns:
        The verdict, the steps without a mark, and the unstable bands.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Devised here.

    Examples:
        >>> found = order_check(
        ...     4, 50.0, 115.0, 350.0, 0.25, 0.0, 2500.0, 3000.0, 1400.0,
        ...     600e3, 640e3, 6000.0, 4000.0, 4.0, 42.0, PLANNED.example,
        ... )
        >>> len(found.unmarked)
        2
    """
    rotor, support = assembled(
        (blades, blade_mass, first_moment, lag_inertia, hinge_offset, lag_stiffness, lag_damping),
        (mass_x, mass_y),
        (stiffness_x, stiffness_y, damping_x, damping_y),
        hub_mass,
    )
    PLANNED.check(steps)
    for step in steps:
        ROTOR_SPEED.check(step.rotor_speed)
        WHAT.check(step.what)
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
