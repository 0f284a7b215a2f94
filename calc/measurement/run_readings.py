"""Readings of a run: damping ratios of several modes over rotor speed, and the rules of a trend."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Annotated, ClassVar

from calc.declaration import Name, Table, check
from calc.ground.plan.run_rules import (
    DAMPING_UNCERTAINTY,
    FREQUENCY_UNCERTAINTY,
    KEEP_CLEAR,
    LEAST_DAMPING,
    PRACTICE,
    STEP_SIZE,
)
from calc.measurement.run_example import PLOVER_RUN
from calc.quantity import Quantity
from calc.units import FREQUENCY, ROTATION, RPM, SHARE

MODE = Name("Mode", "A")
READING_SPEED = Quantity(r"\Omega", "Rotor speed", ROTATION, above=0.0)
READING_FREQUENCY = Quantity("f", "Frequency", FREQUENCY, above=0.0)
READING_RATIO = Quantity(r"\zeta", "Measured damping ratio", SHARE, above=-1.0, below=1.0)
READING_UNCERTAINTY = Quantity(
    "u", "Standard uncertainty", SHARE, at_least=0.0, below=1.0, example=0.002
)
AMPLITUDE = Quantity("A", "Amplitude", at_least=0.0)
FLOOR = replace(
    LEAST_DAMPING,
    symbol=r"\zeta_{stop}",
    label="Least measured damping ratio, the floor",
)
COVERAGE = Quantity(
    "k",
    "Standard errors that are taken off",
    at_least=0.0,
    at_most=10.0,
    covered=(2.0, 10.0),
    covered_by="taking off fewer than two is not " + PRACTICE,
    example=2.0,
    source=PRACTICE,
)
POINTS = Quantity(
    "n",
    "Rotor speeds in a trend, the last ones",
    at_least=3,
    at_most=12,
    whole=True,
    example=3,
    source=PRACTICE,
)
LARGEST_STEP = replace(STEP_SIZE, example=RPM.si(15.0))
CLEAR = replace(
    KEEP_CLEAR, label="Stand-off from where damping reaches zero, fraction of rotor speed"
)
FREQUENCY_OFF = replace(
    FREQUENCY_UNCERTAINTY,
    symbol="d_f",
    label="Measured frequency may differ from the predicted one by",
)
SHORTFALL = replace(
    DAMPING_UNCERTAINTY,
    symbol=r"d_\zeta",
    label="Measured damping may lie below the predicted one by",
)


@dataclass(frozen=True, slots=True)
class Reading:
    """The damping of one mode at one rotor speed, from a decay in the airframe.

    Attributes:
        rotor_speed: Rotor speed of the reading; scalar, rad/s.
        mode: What the mode is called.
        frequency: Frequency in the airframe; scalar, Hz.
        damping_ratio: Damping over critical damping, below zero where motion grows; scalar.
        uncertainty: Standard uncertainty of the damping ratio; scalar.
        amplitude: Where the decay was read, 0 where it was not recorded; scalar.
    """

    rotor_speed: Annotated[float, READING_SPEED]
    mode: Annotated[str, MODE]
    frequency: Annotated[float, READING_FREQUENCY]
    damping_ratio: Annotated[float, READING_RATIO]
    uncertainty: Annotated[float, READING_UNCERTAINTY]
    amplitude: Annotated[float, AMPLITUDE] = 0.0

    @property
    def exponent(self) -> complex:
        """Growth rate and angular frequency, 1/s and rad/s."""
        angular = 2.0 * math.pi * self.frequency
        return complex(
            -self.damping_ratio * angular / math.sqrt(1.0 - self.damping_ratio**2), angular
        )


READINGS = Table(
    "Readings in the airframe, one row for each mode and rotor speed",
    Reading,
    tuple(Reading(RPM.si(row[0]), *row[1:]) for row in PLOVER_RUN),
    at_least=1,
    at_most=80,
)


@dataclass(frozen=True, slots=True)
class TrendRules:
    """When a trend ends a run; each default is common practice without a source.

    Attributes:
        floor: Measured damping ratio at which the run ends; scalar.
        coverage: Standard errors that are taken off a reading and off a trend; scalar.
        points: Rotor speeds in a trend, the last ones; scalar.
        largest_step: Largest step of rotor speed; scalar, rad/s.
        keep_clear: Stand-off from where damping reaches zero, fraction of rotor speed; scalar.
        frequency_off: Allowed difference of measured from predicted frequency; scalar.
        shortfall: Allowed shortfall of measured below predicted damping; scalar.
    """

    heading: ClassVar[str] = "Rules of the trend"

    floor: Annotated[float, FLOOR] = FLOOR.example
    coverage: Annotated[float, COVERAGE] = COVERAGE.example
    points: Annotated[int, POINTS] = int(POINTS.example)
    largest_step: Annotated[float, LARGEST_STEP] = LARGEST_STEP.example
    keep_clear: Annotated[float, CLEAR] = CLEAR.example
    frequency_off: Annotated[float, FREQUENCY_OFF] = FREQUENCY_OFF.example
    shortfall: Annotated[float, SHORTFALL] = SHORTFALL.example

    def __post_init__(self) -> None:
        """Refuse rules that cannot be."""
        check(self)


@dataclass(frozen=True, slots=True)
class History:
    """All readings of one mode, by rotor speed; several at one speed are repeats."""

    mode: str
    readings: tuple[Reading, ...]

    @property
    def speeds(self) -> list[float]:
        """The different rotor speeds, rising, rad/s."""
        return sorted({reading.rotor_speed for reading in self.readings})

    def lately(self, count: int) -> tuple[Reading, ...]:
        """Return the readings at the last rotor speeds."""
        kept = set(self.speeds[-count:])
        return tuple(reading for reading in self.readings if reading.rotor_speed in kept)

    def lowest(self, coverage: float) -> Reading:
        """Return the reading at the last rotor speed that has the least damping, less its error."""
        return min(
            self.lately(1),
            key=lambda reading: reading.damping_ratio - coverage * reading.uncertainty,
        )

    def mean(self, speed: float) -> float:
        """Return the mean damping ratio of the readings at a rotor speed."""
        found = [r.damping_ratio for r in self.readings if r.rotor_speed == speed]
        return math.fsum(found) / len(found)

    def mean_error(self, speed: float) -> float:
        """Return the standard uncertainty of that mean; repeats make it less."""
        found = [r.uncertainty for r in self.readings if r.rotor_speed == speed]
        return math.hypot(*found) / len(found)


def by_mode(readings: Iterable[Reading]) -> tuple[History, ...]:
    """Return the readings of each mode, modes in the order in which they first come."""
    rows = sorted(readings, key=lambda reading: reading.rotor_speed)
    names = list(dict.fromkeys(reading.mode for reading in rows))
    return tuple(History(name, tuple(row for row in rows if row.mode == name)) for name in names)
