"""Random rotorcraft on their landing gear, stable and unstable, for property tests."""

import math
from dataclasses import dataclass

from hypothesis import strategies as st

from calc.ground.model.aircraft import Hub, Rotor
from calc.ground.model.gear_state import UndercarriageState


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
    moment = blades * first**2 / (2.0 * second)
    masses = [moment / draw(st.floats(0.01, 0.12)) for _ in "xy"]
    rates = [nominal * draw(st.floats(0.3, 1.6)) * (1.0 - ratio) for _ in "xy"]
    ratios = [draw(st.floats(0.02, 0.25)) for _ in "xy"]
    springs = [mass * rate**2 for mass, rate in zip(masses, rates, strict=True)]
    dampers = [2.0 * m * w * z for m, w, z in zip(masses, rates, ratios, strict=True)]
    return Rotorcraft(
        Rotor(blades, mass, first, second, offset, 0.0, lag_damping),
        Hub(
            mass_x=masses[0],
            mass_y=masses[1],
            stiffness_x=springs[0],
            stiffness_y=springs[1],
            damping_x=dampers[0],
            damping_y=dampers[1],
            hub_mass="with_blades",
        ),
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
