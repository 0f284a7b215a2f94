"""Fan crossings: where blade modes meet multiples of rotor speed, and how near they come.

The squared frequency of a mode is nearly a straight line over the squared speed, so that a crossing
found on a chord needs few steps along it.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated, ClassVar, NamedTuple

from calc.blades.blade_planes import PlaneMode
from calc.declaration import Name, check
from calc.numeric.ranges import apart
from calc.quantity import Quantity
from calc.units import FREQUENCY, ONE, PER_REV, PERCENT, ROTATION, RPM

HARMONIC = Quantity("n", "Harmonic", (PER_REV,), whole=True)
CROSSING = Quantity(r"\Omega_c", "Rotor speed at the crossing", ROTATION)
CROSSING_FREQUENCY = Quantity("f_c", "Frequency at the crossing", FREQUENCY)
NEAREST = Quantity(r"\Omega_d", "Rotor speed of the least separation", ROTATION)
APART = Quantity("d", "Least separation", (PER_REV,))
APART_IN_PERCENT = Quantity("d/n", "Over the harmonic", (PERCENT, ONE))
OPERATING_LOW = Quantity(
    r"\Omega_1", "Lowest operating rotor speed", ROTATION, above=0.0, example=324.0 * RPM.size
)
OPERATING_HIGH = Quantity(
    r"\Omega_2", "Highest operating rotor speed", ROTATION, above=0.0, example=378.0 * RPM.size
)
OPERATING_RANGE = Quantity("s", "Highest less lowest operating rotor speed", ROTATION, at_least=0.0)
CLEAR = "outside the margin"
NEAR = "within the margin"
FIRST_FLAP = "first flap mode, always near 1/rev"
STEPS = 5  # along the chord; each gains three digits or more


@dataclass(frozen=True, slots=True)
class OperatingRange:
    """The rotor speeds from the lowest to the highest, power on and power off.

    Attributes:
        operating_low: Lowest rotor speed, power off and transients included; scalar, rad/s.
        operating_high: Highest rotor speed, power off and transients included; scalar, rad/s.
    """

    heading: ClassVar[str] = "Operating range"

    operating_low: Annotated[float, OPERATING_LOW]
    operating_high: Annotated[float, OPERATING_HIGH]

    def __post_init__(self) -> None:
        """Refuse a range that cannot exist."""
        check(self)
        OPERATING_RANGE.check(self.operating_high - self.operating_low)


class Limits(NamedTuple):
    """The highest harmonic and the margin, in cycles per revolution."""

    harmonics: int
    margin: float


class Chord(NamedTuple):
    """Where a chord of a mode meets a harmonic, as a squared speed, and the slope of the gap."""

    square: float
    slope: float


@dataclass(frozen=True, slots=True)
class FanCrossing:
    """Where a mode has the frequency of a harmonic."""

    mode: Annotated[str, Name("Mode")]
    harmonic: Annotated[int, HARMONIC]
    rotor_speed: Annotated[float, CROSSING]
    frequency: Annotated[float, CROSSING_FREQUENCY]


@dataclass(frozen=True, slots=True)
class Separation:
    """How near a mode comes to a harmonic within the operating range."""

    mode: Annotated[str, Name("Mode")]
    harmonic: Annotated[int, HARMONIC]
    rotor_speed: Annotated[float, NEAREST]
    per_rev: Annotated[float, APART]
    per_cent: Annotated[float, APART_IN_PERCENT]
    verdict: Annotated[str, Name("Verdict")]


class FanMode(NamedTuple):
    """A mode and where it crosses the harmonics."""

    mode: PlaneMode
    crossings: list[FanCrossing]


def crossings(mode: PlaneMode, speeds: Sequence[float], highest: int) -> Iterator[FanCrossing]:
    """Yield the crossings of a mode, known at rotor speeds, up to a harmonic."""
    for n in range(1, highest + 1):
        gaps = [f**2 - (n * speed) ** 2 for speed, f in zip(speeds, mode.frequencies, strict=True)]
        for (slow, fast), (before, after) in zip(pairwise(speeds), pairwise(gaps), strict=True):
            if before > 0.0 >= after:
                slope = (after - before) / (fast**2 - slow**2)
                speed = _along(mode, n, Chord(slow**2 - before / slope, slope))
                yield FanCrossing(mode.name, n, speed, n * speed / (2.0 * math.pi))


def _along(mode: PlaneMode, harmonic: int, chord: Chord) -> float:
    """Return the rotor speed of a crossing, in steps along the slope of a chord."""
    square = chord.square
    for _ in range(STEPS):
        square -= (mode.frequency(math.sqrt(square)) ** 2 - harmonic**2 * square) / chord.slope
    return math.sqrt(square)


def separations(found: FanMode, operating: OperatingRange, limits: Limits) -> Iterator[Separation]:
    """Yield how near a mode comes to the harmonics around and within its range of ratios.

    In cycles per revolution a mode falls as the rotor speeds up.
    """
    mode = found.mode
    slowest, fastest = operating.operating_low, operating.operating_high
    high, low = (mode.frequency(speed) / speed for speed in (slowest, fastest))
    crossed = {crossing.harmonic: crossing.rotor_speed for crossing in found.crossings}
    for n in range(max(math.floor(low), 1), min(math.ceil(high), limits.harmonics) + 1):
        distance = apart((low, high), (n, n))
        nearest = fastest if distance > 0.0 else slowest
        speed = nearest if distance else crossed.get(n, slowest)
        verdict = CLEAR if abs(distance) > limits.margin else NEAR
        if mode.is_first_flap and n == 1:
            verdict = FIRST_FLAP
        yield Separation(mode.name, n, speed, distance, distance / n, verdict)
