"""Random rotorcraft on their landing gear, stable and unstable, for property tests."""

import math
from dataclasses import dataclass

from hypothesis import strategies as st

from calc.ground.aircraft import Hub, Rotor
from calc.ground.gear_state import UndercarriageState


@dataclass(frozen=True)
class Rotorcraft:
    """A rotor, its hub and its nominal rotor speed, rad/s."""

    rotor: Rotor
    hub: Hub
    nominal_speed: float


@st.composite
def rotorcraft(draw: st.DrawFn) -> Rotorcraft:
    """Draw a rotorcraft whose coalescence speeds lie about its range of rotor speed.

    Uniform blades of a length L outboard of the hinge: S = m L / 2 and I = m L² / 3.
    """
    blades, mass, length = draw(st.integers(3, 6)), draw(st.floats(20, 120)), draw(st.floats(3, 8))
    first, second = mass * length / 2.0, mass * length**2 / 3.0
    offset = length * draw(st.floats(0.03, 0.12))
    nominal = draw(st.floats(20, 50))
    ratio = math.sqrt(offset * first / second)
    lag_damping = 2.0 * second * ratio * nominal * draw(st.floats(0.02, 0.5))
    total, stiffness, damping = [], [], []
    for _ in "xy":
        total.append(blades * first**2 / (2.0 * second * draw(st.floats(0.01, 0.12))))
        frequency = nominal * draw(st.floats(0.3, 1.6)) * (1.0 - ratio)
        stiffness.append(total[-1] * frequency**2)
        damping.append(2.0 * total[-1] * frequency * draw(st.floats(0.02, 0.25)))
    return Rotorcraft(
        Rotor(blades, mass, first, second, offset, 0.0, lag_damping),
        Hub(*total, *stiffness, *damping, "with_blades"),
        nominal,
    )


FACTOR = st.floats(0.5, 2.0)
STATES_DRAWN = st.lists(
    st.builds(
        UndercarriageState,
        name=st.uuids().map(str),
        stiffness_factor_x=FACTOR,
        stiffness_factor_y=FACTOR,
        damping_factor_x=FACTOR,
        damping_factor_y=FACTOR,
        lift_share=st.sampled_from([0.0, 0.0, 0.3, 0.7]),
        kind=st.sampled_from(["service", "restrained", "failure"]),
        data=st.sampled_from(["assumed", "estimated", "measured"]),
    ),
    max_size=2,
)
"""States other than the nominal."""
