"""Undercarriage states: what weight, tyres, struts and ground make of stiffness and damping."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name, Table, check
from calc.ground.aircraft import Rotor, Support, total_masses
from calc.ground.coalescence import coalescence_speeds
from calc.ground.quantities import GROWTH_RATE
from calc.ground.stability import unstable_bands, worst_speed
from calc.ground.verdict import (
    LOWER_SPEED,
    TIME_TO_DOUBLE,
    UPPER_SPEED,
    VERDICT,
    WORST_SPEED,
    time_to_double,
    words,
)
from calc.quantity import Quantity
from calc.units import ROTATION

STATE = Name("State of the undercarriage", example="full weight")
WORST_STATE = Name("Worst state")
STIFFNESS_FACTOR_X = Quantity("k_x", "Stiffness factor, longitudinal", above=0.0, example=1.0)
STIFFNESS_FACTOR_Y = Quantity("k_y", "Stiffness factor, lateral", above=0.0, example=1.0)
DAMPING_FACTOR_X = Quantity("c_x", "Damping factor, longitudinal", at_least=0.0, example=1.0)
DAMPING_FACTOR_Y = Quantity("c_y", "Damping factor, lateral", at_least=0.0, example=1.0)
COALESCENCE_X = Quantity(r"\Omega_x^*", "Coalescence, longitudinal", ROTATION)
COALESCENCE_Y = Quantity(r"\Omega_y^*", "Coalescence, lateral", ROTATION)
PRODUCT_MARGIN = Quantity(
    "m_1", "Product criterion margin, one support mode, lower of both directions"
)


@dataclass(frozen=True, slots=True)
class UndercarriageState:
    """Factors on the hub stiffness and hub damping of the aircraft as it is given."""

    name: Annotated[str, STATE]
    stiffness_factor_x: Annotated[float, STIFFNESS_FACTOR_X]
    stiffness_factor_y: Annotated[float, STIFFNESS_FACTOR_Y]
    damping_factor_x: Annotated[float, DAMPING_FACTOR_X]
    damping_factor_y: Annotated[float, DAMPING_FACTOR_Y]


STATES = Table(
    "States of the undercarriage",
    UndercarriageState,
    example=(
        UndercarriageState("full weight", 1.0, 1.0, 1.0, 1.0),
        UndercarriageState("partly airborne", 0.6, 0.5, 0.6, 0.5),
        UndercarriageState("one tyre flat", 0.9, 0.7, 1.0, 0.8),
        UndercarriageState("strut frozen or over-serviced", 1.2, 1.6, 0.4, 0.25),
        UndercarriageState("soft ground", 0.7, 0.6, 1.5, 1.5),
        UndercarriageState("tied down", 2.0, 2.0, 1.0, 1.0),
    ),
    at_least=1,
    at_most=12,
)


@dataclass(frozen=True, slots=True)
class StateVerdict:
    """What a sweep over rotor speed found in one state."""

    name: Annotated[str, STATE]
    verdict: Annotated[str, VERDICT]
    worst_speed: Annotated[float, WORST_SPEED]
    growth_rate: Annotated[float, GROWTH_RATE]
    time_to_double: Annotated[float, TIME_TO_DOUBLE]
    coalescence_x: Annotated[float, COALESCENCE_X]
    coalescence_y: Annotated[float, COALESCENCE_Y]
    product_margin: Annotated[float, PRODUCT_MARGIN]


@dataclass(frozen=True, slots=True)
class StateBand:
    """An unstable band of one state."""

    name: Annotated[str, STATE]
    lower_speed: Annotated[float, LOWER_SPEED]
    upper_speed: Annotated[float, UPPER_SPEED]


STATE_VERDICTS = Table("Verdict in each state", StateVerdict)
STATE_BANDS = Table("Unstable bands of rotor speed", StateBand)


@dataclass(frozen=True, slots=True)
class Assessment:
    """The verdict on an aircraft: its worst state, and every state side by side."""

    verdict: Annotated[str, VERDICT]
    worst_state: Annotated[str, WORST_STATE]
    worst_speed: Annotated[float, WORST_SPEED]
    growth_rate: Annotated[float, GROWTH_RATE]
    time_to_double: Annotated[float, TIME_TO_DOUBLE]
    states: Annotated[tuple[StateVerdict, ...], STATE_VERDICTS]
    bands: Annotated[tuple[StateBand, ...], STATE_BANDS]


def assess(
    rotor: Rotor,
    support: Support,
    states: Sequence[UndercarriageState],
    lowest_speed: float,
    highest_speed: float,
) -> Assessment:
    """Return the verdict in every state of the undercarriage, and the worst of them.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        states: Factors on stiffness and damping, at least one.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.

    Returns:
        The assessment.

    Raises:
        ValueError: If an input cannot exist.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.
    """
    STATES.check(tuple(states))
    verdicts, bands = [], []
    for state in states:
        changed = in_state(support, state)
        found = unstable_bands(rotor, changed, lowest_speed, highest_speed)
        speed, growth = worst_speed(rotor, changed, lowest_speed, highest_speed)
        coalescence_x, coalescence_y = coalescence_speeds(rotor, changed) or (math.inf, math.inf)
        verdicts.append(
            StateVerdict(
                name=state.name,
                verdict=words(found),
                worst_speed=speed,
                growth_rate=growth,
                time_to_double=time_to_double(growth),
                coalescence_x=coalescence_x,
                coalescence_y=coalescence_y,
                product_margin=_product_margin(rotor, changed, (coalescence_x, coalescence_y)),
            )
        )
        bands += [StateBand(state.name, *band) for band in found]
    worst = max(verdicts, key=lambda verdict: verdict.growth_rate)
    unstable = len({band.name for band in bands})
    sentence = (
        f"Unstable in {unstable} of {len(states)}" if unstable else f"Stable in {len(states)}"
    )
    return Assessment(
        verdict=f"{sentence} states of the undercarriage; worst: {worst.name}",
        worst_state=worst.name,
        worst_speed=worst.worst_speed,
        growth_rate=worst.growth_rate,
        time_to_double=worst.time_to_double,
        states=tuple(verdicts),
        bands=tuple(bands),
    )


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


def _product_margin(rotor: Rotor, support: Support, coalescence: tuple[float, float]) -> float:
    """Return the lower margin of the product criterion with one support mode; see `criterion`."""
    margins = []
    for speed, mass, stiffness, damping in zip(
        coalescence,
        total_masses(rotor, support),
        (support.stiffness_x, support.stiffness_y),
        (support.damping_x, support.damping_y),
        strict=True,
    ):
        if math.isinf(speed):
            return math.inf
        frequency = math.sqrt(stiffness / mass)
        ratio = (speed - frequency) / speed
        needed = rotor.blades / 4.0 * (rotor.first_moment * frequency) ** 2 * (1.0 - ratio) / ratio
        margins.append(damping * rotor.lag_damping / needed)
    return min(margins)
