"""Undercarriage: the verdict on an aircraft in every state of its landing gear."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Method, Name, Table
from calc.ground.criterion import damping_product, directions
from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.model.gear_state import STATE, STATES, UndercarriageState, in_state, speed_range
from calc.ground.quantities import GROWTH_RATE
from calc.ground.search.least_damped import (
    LEAST_DAMPED_FREQUENCY,
    LEAST_DAMPED_SPEED,
    LEAST_DAMPING_RATIO,
)
from calc.ground.search.verdict import (
    LOWER_SPEED,
    TIME_TO_DOUBLE,
    UPPER_SPEED,
    VERDICT,
    WORST_SPEED,
    time_to_double,
    words,
)
from calc.ground.stability import EIGENVALUES, least_damped_motion, unstable_bands, worst_speed
from calc.quantity import Quantity
from calc.units import ROTATION

__all__ = [
    "STATES",
    "Assessment",
    "StateBand",
    "StateVerdict",
    "UndercarriageState",
    "assess",
    "in_state",
]

WORST_STATE = Name("Worst state")
LEAST_DAMPED_STATE = Name("Least damped state")
FROM_SPEED = Quantity(r"\Omega_a", "Looked at from", ROTATION)
TO_SPEED = Quantity(r"\Omega_b", "Looked at up to", ROTATION)
COALESCENCE_X = Quantity(r"\Omega_x^*", "Coalescence, longitudinal", ROTATION)
COALESCENCE_Y = Quantity(r"\Omega_y^*", "Coalescence, lateral", ROTATION)
PRODUCT_MARGIN = Quantity("m_1", "Deutsch criterion margin, one mode, lower of both directions")


@dataclass(frozen=True, slots=True)
class StateVerdict:
    """What a sweep over rotor speed found in one state."""

    name: Annotated[str, STATE]
    verdict: Annotated[str, VERDICT]
    worst_speed: Annotated[float, WORST_SPEED]
    growth_rate: Annotated[float, GROWTH_RATE]
    time_to_double: Annotated[float, TIME_TO_DOUBLE]
    damping_ratio: Annotated[float, LEAST_DAMPING_RATIO]
    damped_speed: Annotated[float, LEAST_DAMPED_SPEED]
    frequency: Annotated[float, LEAST_DAMPED_FREQUENCY]
    coalescence_x: Annotated[float, COALESCENCE_X]
    coalescence_y: Annotated[float, COALESCENCE_Y]
    product_margin: Annotated[float, PRODUCT_MARGIN]
    from_speed: Annotated[float, FROM_SPEED]
    to_speed: Annotated[float, TO_SPEED]


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
    least_damped_state: Annotated[str, LEAST_DAMPED_STATE]
    damping_ratio: Annotated[float, LEAST_DAMPING_RATIO]
    damped_speed: Annotated[float, LEAST_DAMPED_SPEED]
    frequency: Annotated[float, LEAST_DAMPED_FREQUENCY]
    states: Annotated[tuple[StateVerdict, ...], STATE_VERDICTS]
    bands: Annotated[tuple[StateBand, ...], STATE_BANDS]


def assess(
    rotor: Rotor,
    support: Support,
    states: Sequence[UndercarriageState],
    lowest_speed: float,
    highest_speed: float,
    nominal_speed: float | None = None,
    thrust_ratio: float = 1.0,
) -> Annotated[Assessment, Method(f"in the worst state, {EIGENVALUES}")]:
    """Return the verdict in every landing-gear state, and the worst of them.

    A state with weight on its rotor is looked at from the speed that can carry it.

    Args:
        rotor: Three or more identical blades.
        support: Hub mass without blades, stiffness and damping in two directions.
        states: Factors on stiffness and damping, and ranges; at least one.
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        nominal_speed: Rotor speed that carries the weight, or None for the end of the sweep;
            scalar, rad/s.
        thrust_ratio: Largest thrust at nominal rotor speed over the weight; scalar.

    Returns:
        The assessment.

    Raises:
        ValueError: If an input cannot exist, or a state at no speed of the sweep.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.
    """
    STATES.check(tuple(states))
    nominal = highest_speed if nominal_speed is None else nominal_speed
    verdicts, bands = [], []
    for state in states:
        changed = in_state(support, state)
        sweep = speed_range(state, lowest_speed, highest_speed, nominal, thrust_ratio)
        found = unstable_bands(rotor, changed, *sweep)
        speed, growth = worst_speed(rotor, changed, *sweep)
        least = least_damped_motion(rotor, changed, *sweep)
        coalescence_x, coalescence_y = coalescence_speeds(rotor, changed) or (math.inf, math.inf)
        verdicts.append(
            StateVerdict(
                name=state.name,
                verdict=words(found, speed, sweep),
                worst_speed=speed,
                growth_rate=growth,
                time_to_double=time_to_double(growth),
                damping_ratio=least.damping_ratio,
                damped_speed=least.rotor_speed,
                frequency=least.frequency,
                coalescence_x=coalescence_x,
                coalescence_y=coalescence_y,
                product_margin=_product_margin(rotor, changed),
                from_speed=sweep[0],
                to_speed=sweep[1],
            )
        )
        bands += [StateBand(state.name, *band) for band in found]
    worst = max(verdicts, key=lambda verdict: verdict.growth_rate)
    least_damped = min(verdicts, key=lambda verdict: verdict.damping_ratio)
    unstable = len({band.name for band in bands})
    sentence = (
        f"Unstable in {unstable} of {len(states)}" if unstable else f"Stable in {len(states)}"
    )
    return Assessment(
        verdict=f"{sentence} states of the landing gear; worst: {worst.name}",
        worst_state=worst.name,
        worst_speed=worst.worst_speed,
        growth_rate=worst.growth_rate,
        time_to_double=worst.time_to_double,
        least_damped_state=least_damped.name,
        damping_ratio=least_damped.damping_ratio,
        damped_speed=least_damped.damped_speed,
        frequency=least_damped.frequency,
        states=tuple(verdicts),
        bands=tuple(bands),
    )


def _product_margin(rotor: Rotor, support: Support) -> float:
    """Return the lower margin of the Deutsch criterion with one mode; infinite without any."""
    found = [damping_product(rotor, direction) for direction in directions(rotor, support)]
    return min((one.single_margin for one in found if one is not None), default=math.inf)
