"""Gear state: what weight, tyres, struts and ground make of the stiffness and damping of a hub."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Choice, Name, Table, check
from calc.ground.model.aircraft import Support
from calc.ground.quantities import HIGHEST_SPEED, LOWEST_SPEED
from calc.quantity import InputsError, Quantity
from calc.units import ROTATION, RPM, SHARE

NOMINAL_SPEED = Quantity(
    r"\Omega_{nom}", "Nominal rotor speed", ROTATION, above=0.0, example=RPM.si(360.0)
)
STATE = Name("Landing-gear state", example="full weight")
STIFFNESS_FACTOR_X = Quantity("k_x", "Stiffness factor, longitudinal", above=0.0, example=1.0)
STIFFNESS_FACTOR_Y = Quantity("k_y", "Stiffness factor, lateral", above=0.0, example=1.0)
DAMPING_FACTOR_X = Quantity("c_x", "Damping factor, longitudinal", at_least=0.0, example=1.0)
DAMPING_FACTOR_Y = Quantity("c_y", "Damping factor, lateral", at_least=0.0, example=1.0)
LIFT_SHARE = Quantity(
    "L_r", "Weight on the rotor, fraction", SHARE, at_least=0.0, below=1.0, example=0.0
)
LOWEST_SHARE = Quantity(
    "p_1", "From, of highest speed", SHARE, at_least=0.0, below=1.0, example=0.0
)
HIGHEST_SHARE = Quantity("p_2", "To, of highest speed", SHARE, above=0.0, at_most=1.0, example=1.0)
THRUST_RATIO = Quantity(
    r"T/W",
    "Largest thrust at nominal rotor speed over the weight",
    at_least=1.0,
    at_most=5.0,
    example=1.0,
)
KIND = Choice(
    "Kind of state",
    {
        "service": "variation in service",
        "nominal": "nominal, on its wheels",
        "restrained": "tied down or tethered",
        "failure": "deliberate failure",
    },
)
DATA = Choice(
    "Data of the state",
    {"assumed": "assumed", "estimated": "estimated", "measured": "measured in this state"},
)


@dataclass(frozen=True, slots=True)
class UndercarriageState:
    """Factors on the hub stiffness and hub damping as given, and where the state can exist.

    Attributes:
        name: What the state is called.
        stiffness_factor_x: Factor on the longitudinal hub stiffness; scalar.
        stiffness_factor_y: Factor on the lateral hub stiffness; scalar.
        damping_factor_x: Factor on the longitudinal hub damping; scalar.
        damping_factor_y: Factor on the lateral hub damping; scalar.
        lift_share: Fraction of the weight that the rotor carries; scalar.
        lowest_share: Start of the speed range, fraction of the highest rotor speed; scalar.
        highest_share: End of the speed range, fraction of the highest rotor speed; scalar.
        kind: Nominal, variation in service, tied down, or deliberate failure; word.
        data: How the factors are known; word.
    """

    name: Annotated[str, STATE]
    stiffness_factor_x: Annotated[float, STIFFNESS_FACTOR_X]
    stiffness_factor_y: Annotated[float, STIFFNESS_FACTOR_Y]
    damping_factor_x: Annotated[float, DAMPING_FACTOR_X]
    damping_factor_y: Annotated[float, DAMPING_FACTOR_Y]
    lift_share: Annotated[float, LIFT_SHARE] = 0.0
    lowest_share: Annotated[float, LOWEST_SHARE] = 0.0
    highest_share: Annotated[float, HIGHEST_SHARE] = 1.0
    kind: Annotated[str, KIND] = "service"
    data: Annotated[str, DATA] = "assumed"


STATES = Table(
    "Landing-gear states",
    UndercarriageState,
    example=(
        UndercarriageState("full weight", 1.0, 1.0, 1.0, 1.0, kind="nominal", data="estimated"),
        UndercarriageState("light on the wheels", 0.6, 0.5, 0.6, 0.5, lift_share=0.5),
        UndercarriageState("one tyre flat", 0.9, 0.7, 1.0, 0.8, kind="failure"),
        UndercarriageState("oleo stuck or over-serviced", 1.2, 1.6, 0.4, 0.25, kind="failure"),
        UndercarriageState("soft ground", 0.7, 0.6, 1.5, 1.5),
        UndercarriageState("tied down", 2.0, 2.0, 1.0, 1.0, kind="restrained"),
    ),
    at_least=1,
    at_most=12,
)


def lift_speed(lift_share: float, nominal_speed: float, thrust_ratio: float = 1.0) -> float:
    r"""Return the lowest rotor speed that can carry a fraction of the weight.

    $$ \Omega_L = \Omega_{nom} \sqrt{\frac{L_r}{T / W}} $$

    Thrust at the largest collective pitch goes with the square of rotor speed.

    Args:
        lift_share: Fraction of the weight that the rotor carries; scalar.
        nominal_speed: Nominal rotor speed; scalar, rad/s.
        thrust_ratio: Largest thrust at nominal rotor speed over the weight on that day, one for a
            rotor that carries the weight and no more; scalar.

    Returns:
        The rotor speed; scalar, rad/s.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Dynamic pressure goes with the square of speed; common knowledge.

    Examples:
        >>> lift_speed(0.25, 40.0)
        20.0
    """
    LIFT_SHARE.check(lift_share)
    NOMINAL_SPEED.check(nominal_speed)
    THRUST_RATIO.check(thrust_ratio)
    return nominal_speed * math.sqrt(lift_share / thrust_ratio)


def speed_range(
    state: UndercarriageState,
    lowest_speed: float,
    highest_speed: float,
    nominal_speed: float,
    thrust_ratio: float = 1.0,
) -> tuple[float, float]:
    """Return the lowest and the highest rotor speed at which a state is looked at.

    Args:
        state: A landing-gear state.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        nominal_speed: Nominal rotor speed; scalar, rad/s.
        thrust_ratio: Largest thrust at nominal rotor speed over the weight; scalar.

    Returns:
        The range, cut at the lowest speed that can carry the lift of the state; rad/s.

    Raises:
        ValueError: If an argument breaks its limits, or if no rotor speed of the sweep is in the
            range or can carry the lift.

    Source:
        Devised here.
    """
    LOWEST_SPEED.check(lowest_speed)
    HIGHEST_SPEED.check(highest_speed)
    check(state)
    lifting = lift_speed(state.lift_share, nominal_speed, thrust_ratio)
    low = max(lowest_speed, state.lowest_share * highest_speed, lifting)
    high = state.highest_share * highest_speed
    if lifting >= high:
        raise ValueError(
            f"{state.name}: {state.lift_share:.0%} of the weight on the rotor needs at least "
            f"{RPM.reading(lifting):.0f} rpm, and the state ends at {RPM.reading(high):.0f} rpm"
        )
    if low >= high:
        raise InputsError(
            f"{state.name}: the range of rotor speed must rise", "lowest_speed", "highest_speed"
        )
    return low, high


def in_state(support: Support, state: UndercarriageState) -> Support:
    """Return a support with the stiffness and damping that it has in a state."""
    check(state)
    return Support(
        support.mass_x,
        support.mass_y,
        state.stiffness_factor_x * support.stiffness_x,
        state.stiffness_factor_y * support.stiffness_y,
        state.damping_factor_x * support.damping_x,
        state.damping_factor_y * support.damping_y,
    )


def in_order(states: tuple[UndercarriageState, ...]) -> list[UndercarriageState]:
    """Return the states in the order in which they are run, the nominal one first.

    Deliberate failures come last; before them the best-known data first, and heavy on the wheels
    before light.  Where no state is called nominal, the first of the table is.

    Raises:
        ValueError: If the nominal state has weight on its rotor, as no run-up can begin in it.

    Source:
        Common practice, no source.
    """
    nominal = next((state for state in states if state.kind == "nominal"), states[0])
    if nominal.lift_share:
        raise ValueError(f"{nominal.name}: the nominal state must be heavy on its wheels")
    ranks = {"nominal": 0, "service": 1, "restrained": 1, "failure": 2}
    known = {"measured": 0, "estimated": 1, "assumed": 2}
    return sorted(
        states,
        key=lambda state: (
            state is not nominal,
            ranks[state.kind],
            known[state.data],
            state.lift_share,
        ),
    )
