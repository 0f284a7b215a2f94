"""Mode survey: measured modes in every landing-gear state, with each state of a damper."""

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar

from calc.declaration import Table, check
from calc.ground.modal_support import (
    MODAL_MASS,
    MODE_DAMPING,
    MODE_FREQUENCY,
    SHAPE_X,
    SHAPE_Y,
    SupportMode,
    support_of_modes,
)
from calc.ground.model.aircraft import Rotor
from calc.ground.model.gear_state import LIFT_SHARE, STATE, THRUST_RATIO, lift_speed
from calc.ground.model.general_support import check as check_support
from calc.ground.quantities import HIGHEST_SPEED, LOWEST_SPEED
from calc.ground.search import sweep
from calc.ground.search.rotor_on_modes import RotorOnModes
from calc.numeric.peaks import Sample
from calc.quantity import InputsError, Quantity
from calc.units import ROTATION, RPM

POINTS = 60  # evenly spaced rotor speeds of a sweep
MOST_STATES = 8
PEAK, EDGE = 5e-4, 1e-6  # how closely a peak and an edge are found, as shares of rotor speed
REACH = 1.2  # rad: longer steps than for a single speed; growth rates to a millionth
LOWEST_OPERATING = Quantity(
    r"\Omega_a", "Lowest operating speed", ROTATION, above=0.0, example=RPM.si(340.0)
)
HIGHEST_OPERATING = Quantity(
    r"\Omega_b", "Highest operating speed", ROTATION, above=0.0, example=RPM.si(380.0)
)
THRUST_AT_LOWEST = replace(
    THRUST_RATIO, label="Largest thrust at the lowest operating speed over the weight"
)


@dataclass(frozen=True, slots=True)
class MeasuredMode:
    """A mode of the aircraft in one landing-gear state, as a shake test gives it."""

    state: Annotated[str, STATE]
    frequency: Annotated[float, MODE_FREQUENCY]
    damping_ratio: Annotated[float, MODE_DAMPING]
    modal_mass: Annotated[float, MODAL_MASS]
    shape_x: Annotated[float, SHAPE_X]
    shape_y: Annotated[float, SHAPE_Y]
    lift_share: Annotated[float, LIFT_SHARE] = 0.0


MEASURED_MODES = Table(
    "Modes in each landing-gear state",
    MeasuredMode,
    example=(
        MeasuredMode("full weight", 2.25, 0.071, 3000.0, 1.0, 0.0),
        MeasuredMode("full weight", 3.40, 0.147, 1400.0, 0.0, 1.0),
        MeasuredMode("full weight", 6.10, 0.050, 2600.0, 0.1, 0.7),
        MeasuredMode("light on the wheels", 1.74, 0.055, 3000.0, 1.0, 0.0, 0.5),
        MeasuredMode("light on the wheels", 2.41, 0.104, 1400.0, 0.0, 1.0, 0.5),
        MeasuredMode("light on the wheels", 5.60, 0.050, 2600.0, 0.1, 0.7, 0.5),
        MeasuredMode("one tyre flat", 2.13, 0.075, 3000.0, 1.0, 0.0),
        MeasuredMode("one tyre flat", 2.85, 0.141, 1400.0, 0.0, 1.0),
        MeasuredMode("one tyre flat", 5.80, 0.050, 2600.0, 0.1, 0.7),
        MeasuredMode("oleo stuck", 2.46, 0.026, 3000.0, 1.0, 0.0),
        MeasuredMode("oleo stuck", 4.30, 0.029, 1400.0, 0.0, 1.0),
        MeasuredMode("oleo stuck", 6.60, 0.040, 2600.0, 0.1, 0.7),
        MeasuredMode("soft ground", 1.88, 0.127, 3000.0, 1.0, 0.0),
        MeasuredMode("soft ground", 2.64, 0.285, 1400.0, 0.0, 1.0),
        MeasuredMode("soft ground", 5.70, 0.060, 2600.0, 0.1, 0.7),
        MeasuredMode("tied down", 3.18, 0.050, 3000.0, 1.0, 0.0),
        MeasuredMode("tied down", 4.81, 0.104, 1400.0, 0.0, 1.0),
        MeasuredMode("tied down", 7.20, 0.050, 2600.0, 0.1, 0.7),
    ),
    at_least=1,
    at_most=40,
)


@dataclass(frozen=True, slots=True)
class SpeedRange:
    """The rotor speeds that are swept, and the operating range among them.

    Attributes:
        lowest_speed: Start of the sweep; scalar, rad/s.
        highest_speed: End of the sweep; scalar, rad/s.
        lowest_operating_speed: Lowest rotor speed in operation; scalar, rad/s.
        highest_operating_speed: Highest rotor speed in operation; scalar, rad/s.
        thrust_ratio: Largest thrust at the lowest operating speed over the weight; scalar.
    """

    heading: ClassVar[str] = "Rotor speeds"

    lowest_speed: Annotated[float, LOWEST_SPEED]
    highest_speed: Annotated[float, HIGHEST_SPEED]
    lowest_operating_speed: Annotated[float, LOWEST_OPERATING]
    highest_operating_speed: Annotated[float, HIGHEST_OPERATING]
    thrust_ratio: Annotated[float, THRUST_AT_LOWEST] = THRUST_AT_LOWEST.example

    def __post_init__(self) -> None:
        """Refuse a range that cannot exist."""
        check(self)
        if not self.lowest_operating_speed <= self.highest_operating_speed:
            raise InputsError(
                "The highest operating speed must not be below the lowest",
                "lowest_operating_speed",
                "highest_operating_speed",
            )
        if self.lowest_operating_speed < self.lowest_speed:
            raise InputsError(
                "The lowest rotor speed must not be above the operating range",
                "lowest_speed",
                "lowest_operating_speed",
            )
        if self.highest_operating_speed > self.highest_speed:
            raise InputsError(
                "The highest rotor speed must not be below the operating range",
                "highest_speed",
                "highest_operating_speed",
            )

    def from_lift(self, lift_share: float) -> float:
        """Return the lowest speed of the sweep that can carry a fraction of the weight."""
        lifting = lift_speed(lift_share, self.lowest_operating_speed, self.thrust_ratio)
        return max(self.lowest_speed, lifting)

    def margin(self, band: tuple[float, float]) -> float:
        """Return how far a band stays away, as a share of the end of the range that is nearer."""
        below = 1.0 - band[1] / self.lowest_operating_speed
        above = band[0] / self.highest_operating_speed - 1.0
        return max(below, above, 0.0)


@dataclass(frozen=True, slots=True)
class Case:
    """A landing-gear state with a state of the lag dampers, swept over rotor speed."""

    state: str
    dampers: str
    samples: tuple[Sample, ...]
    worst_speed: float
    exponent: complex
    bands: tuple[tuple[float, float], ...]

    def growth_at(self, speed: float) -> float:
        """Return the growth rate on the straight line between samples; not a number outside."""
        for (low, first), (high, last) in itertools.pairwise(self.samples):
            if low <= speed <= high:
                return first + (last - first) * (speed - low) / (high - low)
        return math.nan


def survey(
    rotor: Rotor,
    modes: tuple[MeasuredMode, ...],
    speeds: SpeedRange,
    damper_share: float,
    blade_mass: float,
) -> tuple[Case, ...]:
    """Return every landing-gear state with all dampers, one degraded, one out and one seized.

    Args:
        rotor: Two or more blades; its lag damping is that of a damper in order.
        modes: Modes in every state; the rows of a state stand for its support.
        speeds: The sweep.
        damper_share: Damping that the degraded damper has left, as a share; scalar.
        blade_mass: Mass of blades lumped at the hub that the modes have in them; scalar, kg.

    Returns:
        The cases, state by state.

    Raises:
        ValueError: If an input cannot exist or there are more states than can be swept.
    """
    MEASURED_MODES.check(modes)
    states = list(dict.fromkeys(mode.state for mode in modes))
    if len(states) > MOST_STATES:
        raise ValueError(f"There must be at most {MOST_STATES} states, not {len(states)}")
    cases = []
    for state in states:
        own = [mode for mode in modes if mode.state == state]
        support = support_of_modes(_without_state(own), blade_mass)
        check_support(rotor, support)
        lowest = speeds.from_lift(max(mode.lift_share for mode in own))
        for name, damping in dampers(rotor.lag_damping, damper_share).items():
            dampings = (damping, *(rotor.lag_damping,) * (rotor.blades - 1))
            known = RotorOnModes(rotor, support, dampings, REACH)
            cases.append(_case(state, name, known, (lowest, speeds.highest_speed)))
    return tuple(cases)


def dampers(lag_damping: float, damper_share: float) -> dict[str, float]:
    """Return the states of one damper by name, with its lag damping."""
    return {
        "all dampers nominal": lag_damping,
        f"one damper at {100.0 * damper_share:.3g} %": damper_share * lag_damping,
        "one damper out": 0.0,
        "one damper seized": math.inf,
    }


def _case(state: str, name: str, known: RotorOnModes, span: tuple[float, float]) -> Case:
    samples = known.sampled(*span, known.swinging_rate, POINTS)
    worst, _ = sweep.peak(known.swinging_rate, samples, PEAK)
    bands = known.unstable_bands(samples, EDGE)
    return Case(state, name, tuple(samples), worst, known.least_stable(worst), bands)


def _without_state(modes: Iterable[MeasuredMode]) -> tuple[SupportMode, ...]:
    return tuple(
        SupportMode(mode.frequency, mode.damping_ratio, mode.modal_mass, mode.shape_x, mode.shape_y)
        for mode in modes
    )
