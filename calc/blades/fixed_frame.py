"""Fixed frame: at which frequencies a blade mode appears in the fixed system, and where it acts."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Annotated

from calc import vocabulary
from calc.blades.quantities import TURNING_SPEED
from calc.declaration import Name, Table
from calc.quantity import Quantity
from calc.units import ANGLE, FREQUENCY, PER_REV

BLADE_FREQUENCY = Quantity("f", "Frequency in the blade", FREQUENCY, above=0.0, example=1.72)
BLADES = replace(vocabulary.BLADES, at_least=3, at_most=12)
BLADE_RATIO = Quantity(r"\nu", "In the blade", (PER_REV,))
COLLECTIVE = Quantity("f_0", "Collective mode, in the fixed system", FREQUENCY, at_least=0.0)
PROGRESSING = Quantity("f_+", "Progressing mode, in the fixed system", FREQUENCY, at_least=0.0)
REGRESSING = Quantity("f_-", "Regressing mode, in the fixed system", FREQUENCY, at_least=0.0)
PHASE_STEP = Quantity(r"\Delta\phi", "Phase from blade to blade", ANGLE)
AT_HUB = Quantity("f_h", "Frequency at the hub", FREQUENCY)
ALL_ALIKE, CYCLIC, NOTHING = (
    "torque in lag, thrust in flap",
    "in-plane force in lag, hub moment in flap",
    "nothing: it cancels at the hub",
)


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern in which the blades of a rotor vibrate, and what the hub feels of it."""

    pattern: Annotated[str, Name("Pattern")]
    phase_step: Annotated[float, PHASE_STEP]
    frequency: Annotated[float | None, AT_HUB]
    whirl: Annotated[str, Name("Whirl in the fixed system")]
    at_hub: Annotated[str, Name("At the hub")]


@dataclass(frozen=True, slots=True)
class FixedFrame:
    """A blade frequency per revolution, and the frequencies at which it appears at the hub."""

    per_rev: Annotated[float, BLADE_RATIO]
    collective: Annotated[float, COLLECTIVE]
    progressive: Annotated[float, PROGRESSING]
    regressive: Annotated[float, REGRESSING]
    patterns: Annotated[tuple[Pattern, ...], Table("Patterns of the blades", Pattern)]


def fixed_frame(
    blade_frequency: Annotated[float, BLADE_FREQUENCY],
    rotor_speed: Annotated[float, TURNING_SPEED],
    blades: Annotated[int, BLADES] = 4,
) -> FixedFrame:
    r"""Return at which frequencies a mode of the rotating blades appears in the fixed system.

    $$ f_0 = f, \qquad f_+ = f + \frac{\Omega}{2 \pi}, \qquad
       f_- = \left| f - \frac{\Omega}{2 \pi} \right| $$

    $N_b$ equal blades have $N_b$ patterns, each with its phase step from blade to blade.  In the
    collective pattern all blades move alike; in a cyclic pattern the motion runs once round the
    rotor, forward (progressing) or backward (regressing); all other patterns are reactionless.
    With an even number of blades one of these is differential: neighbours move oppositely.

    Args:
        blade_frequency: Natural frequency in the rotating blade; scalar, Hz.
        rotor_speed: Speed of rotation; scalar, rad/s.
        blades: Number of blades; scalar.

    Returns:
        The ratio to rotor speed, the three frequencies at the hub, and every pattern.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Product of the blade's motion with the rotation of its axes.

    Examples:
        A lag mode at 0.7 per revolution appears at 0.3 and at 1.7 per revolution.

        >>> found = fixed_frame(0.7, 2.0 * math.pi)
        >>> round(found.regressive, 9), round(found.progressive, 9)
        (0.3, 1.7)
    """
    BLADE_FREQUENCY.check(blade_frequency)
    TURNING_SPEED.check(rotor_speed)
    BLADES.check(blades)
    turns_per_second = rotor_speed / (2.0 * math.pi)
    return FixedFrame(
        per_rev=blade_frequency / turns_per_second,
        collective=blade_frequency,
        progressive=blade_frequency + turns_per_second,
        regressive=abs(blade_frequency - turns_per_second),
        patterns=tuple(_patterns(blade_frequency, turns_per_second, blades)),
    )


def _patterns(frequency: float, turns: float, blades: int) -> Iterator[Pattern]:
    """Yield the patterns in which a number of blades can vibrate."""
    step = 2.0 * math.pi / blades
    against = frequency - turns
    backward = (
        "none" if against == 0.0 else "against rotation" if against > 0.0 else "with rotation"
    )
    yield Pattern("collective", 0.0, frequency, "none", ALL_ALIKE)
    yield Pattern("cyclic, regressing", step, abs(against), backward, CYCLIC)
    yield Pattern("cyclic, progressing", -step, frequency + turns, "with rotation", CYCLIC)
    for waves in range(2, (blades + 1) // 2):
        for sign in (1.0, -1.0):
            yield Pattern("reactionless", sign * waves * step, None, "none", NOTHING)
    if blades % 2 == 0:
        yield Pattern("reactionless, differential", math.pi, None, "none", NOTHING)
