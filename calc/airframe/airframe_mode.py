"""Airframe mode: a resonance of the airframe as the calculators of this chapter take it."""

from dataclasses import dataclass
from typing import Annotated, ClassVar

from calc.airframe.quantities import DAMPED, MODAL_MASS, NATURAL_FREQUENCY
from calc.declaration import check
from calc.vocabulary import DAMPING_RATIO


@dataclass(frozen=True, slots=True)
class AirframeMode:
    """One mode of an airframe, seen from the place where the force acts.

    Attributes:
        modal_mass: Mass of the mode, for a shape of one at the force; scalar, kg.
        natural_frequency: Undamped natural frequency; scalar, Hz.
        damping_ratio: Damping over critical damping; scalar.
    """

    heading: ClassVar[str] = "Airframe mode"

    modal_mass: Annotated[float, MODAL_MASS]
    natural_frequency: Annotated[float, NATURAL_FREQUENCY]
    damping_ratio: Annotated[float, DAMPING_RATIO]

    def __post_init__(self) -> None:
        """Refuse a mode that cannot exist."""
        check(self)


DampedMode = Annotated[AirframeMode, {"damping_ratio": DAMPED}]
"""A mode that has some damping, so that its response at resonance is finite."""
