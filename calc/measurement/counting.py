"""Counting: which way an instrument counts phases and a rotor is marked with angles."""

import cmath
import math
from dataclasses import dataclass
from typing import Annotated, ClassVar

from calc.declaration import Choice, Method, check

PHASE_SHOWN = Choice(
    "Phase is shown as",
    {
        "lag": "a lag: the peak follows the pulse",
        "lead": "a lead: the peak precedes the pulse",
    },
)
ANGLE_COUNTED = Choice(
    "Angles and blade numbers grow",
    {"against": "against the rotation", "with": "with the rotation"},
)


@dataclass(frozen=True, slots=True)
class Counting:
    """How phases and angles on the rotor are counted.

    Attributes:
        phase_shown: Whether the instrument shows a lag or a lead; word.
        angle_counted: Whether angles on the rotor grow against or with its rotation; word.
    """

    heading: ClassVar[str] = "How angles are counted"

    phase_shown: Annotated[str, PHASE_SHOWN]
    angle_counted: Annotated[str, ANGLE_COUNTED]

    def __post_init__(self) -> None:
        """Refuse words that mean nothing."""
        check(self)

    @property
    def same_sense(self) -> bool:
        """Whether a weight moved by an angle moves the phase by as much, and not by minus it."""
        return (self.phase_shown == "lead") == (self.angle_counted == "with")

    def vector(self, amplitude: float, phase: float) -> complex:
        """Return a reading as a vector whose angle is a lead."""
        return cmath.rect(amplitude, phase if self.phase_shown == "lead" else -phase)

    def weight(self, mass: float, angle: float) -> complex:
        """Return a weight as a vector whose angle grows with the rotation."""
        return cmath.rect(mass, angle if self.angle_counted == "with" else -angle)

    def phase(self, vector: complex) -> float:
        """Return the phase of a vector as the instrument would show it, from zero up."""
        phase = cmath.phase(vector)
        return turned(phase if self.phase_shown == "lead" else -phase)

    def angle(self, weight: complex) -> float:
        """Return the place of a weight as the rotor is marked, from zero up."""
        angle = cmath.phase(weight)
        return turned(angle if self.angle_counted == "with" else -angle)


def turned(
    angle: float,
) -> Annotated[float, Method("brought into one turn, from zero up")]:
    """Return an angle from zero up to a full turn; rounding just below a turn is zero."""
    found = angle % math.tau
    return 0.0 if math.tau - found < 1e-9 else found
