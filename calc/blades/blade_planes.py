"""Blade planes: a blade that bends out of its plane of rotation and in it, at any speed."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, ClassVar, NamedTuple

from calc.blades.beam_modes import Beam, Held, beam, frequencies, reduced
from calc.blades.quantities import (
    CLAMPED,
    FLAP,
    LAG,
    MASS_DENSITY,
    ROOT,
    ROOT_OFFSET,
    STATION,
    STIFFNESS,
    TIP_MASS,
)
from calc.blades.segments import segment_elements
from calc.declaration import Table, check
from calc.quantity import Quantity
from calc.units import ANGULAR_STIFFNESS

FLAP_STIFFNESS = Quantity("EI_f", "Flap stiffness", STIFFNESS.units, above=0.0, example=16000.0)
LAG_STIFFNESS = Quantity("EI_l", "Lag stiffness", STIFFNESS.units, above=0.0, example=400000.0)
FLAP_SPRING = Quantity("k_f", "Flap spring of a hinged root", ANGULAR_STIFFNESS, at_least=0.0)
LAG_SPRING = Quantity("k_l", "Lag spring of a hinged root", ANGULAR_STIFFNESS, at_least=0.0)
FRACTIONS = (0.0, 0.4, 1.0)  # of the highest speed, at which the shapes are exact


@dataclass(frozen=True, slots=True)
class BladeSegment:
    """A stretch of blade with the same mass and stiffnesses, up to its outer station."""

    outer_station: Annotated[float, STATION]
    mass_per_length: Annotated[float, MASS_DENSITY]
    flap_stiffness: Annotated[float, FLAP_STIFFNESS]
    lag_stiffness: Annotated[float, LAG_STIFFNESS]


SEGMENTS = Table(
    "Segments of the blade, root to tip",
    BladeSegment,
    (
        BladeSegment(0.5, 11.4, 60000.0, 300000.0),
        BladeSegment(1.2, 9.5, 30000.0, 170000.0),
        BladeSegment(4.35, 11.3, 16000.0, 130000.0),
        BladeSegment(4.55, 10.4, 16000.0, 130000.0),
    ),
    at_least=1,
    at_most=20,
)


@dataclass(frozen=True, slots=True)
class TwoPlaneBlade:
    """A blade in segments as it bends in flap and in lag, and how its root is held.

    Attributes:
        segments: Outer station, mass per length and both stiffnesses, root to tip; rows.
        hinge_offset: Rotor axis to root, clamped or hinged; scalar, m.
        root: How the blade is held; word.
        flap_spring: Spring about a hinged root in flap; scalar, N·m/rad.
        lag_spring: Spring about a hinged root in lag; scalar, N·m/rad.
        tip_mass: Point mass at the tip; scalar, kg.
    """

    heading: ClassVar[str] = "Blade"

    segments: Annotated[tuple[BladeSegment, ...], SEGMENTS]
    hinge_offset: Annotated[float, ROOT_OFFSET]
    root: Annotated[str, ROOT] = CLAMPED
    flap_spring: Annotated[float, FLAP_SPRING] = 0.0
    lag_spring: Annotated[float, LAG_SPRING] = 0.0
    tip_mass: Annotated[float, TIP_MASS] = 0.0

    def __post_init__(self) -> None:
        """Refuse a blade that cannot exist."""
        check(self)
        SEGMENTS.check(self.segments)

    def beam(self, plane: str, highest_speed: float, modes: int) -> Beam:
        """Return the blade as it bends in a plane, with shapes exact at three speeds.

        A blade of few unknowns stands for the whole one up to the highest speed.
        """
        length = self.segments[-1].outer_station
        masses = [(row.outer_station, row.mass_per_length) for row in self.segments]
        stiffnesses = [
            (row.outer_station, row.flap_stiffness if plane == FLAP else row.lag_stiffness)
            for row in self.segments
        ]
        spring = self.flap_spring if plane == FLAP else self.lag_spring
        held = Held(self.hinge_offset, self.root, spring, self.tip_mass)
        whole = beam(segment_elements(length, masses, stiffnesses), held)
        return reduced(whole, [fraction * highest_speed for fraction in FRACTIONS], modes)


class PlaneMode(NamedTuple):
    """A mode of a blade in one of its planes, and its frequencies over rotor speed, rad/s."""

    plane: str
    number: int
    blade: Beam
    frequencies: tuple[float, ...]

    @property
    def name(self) -> str:
        """What readers call the mode."""
        return f"{self.plane} {self.number}"

    @property
    def is_first_flap(self) -> bool:
        """Whether it is the mode that always runs beside once per revolution."""
        return self.plane == FLAP and self.number == 1

    def frequency(self, rotor_speed: float) -> float:
        """Return the natural frequency at any rotor speed, rad/s."""
        return frequencies(self.blade, rotor_speed, self.plane, self.number)[-1]


def plane_modes(
    blade: TwoPlaneBlade, speeds: Sequence[float], flap_modes: int, lag_modes: int
) -> list[PlaneMode]:
    """Return the modes of a blade over rotor speeds that rise, flap modes first."""
    found = []
    for plane, count in ((FLAP, flap_modes), (LAG, lag_modes)):
        rotating = blade.beam(plane, speeds[-1], max(flap_modes, lag_modes))
        lines = zip(*(frequencies(rotating, speed, plane, count) for speed in speeds), strict=True)
        found += [PlaneMode(plane, number, rotating, line) for number, line in enumerate(lines, 1)]
    return found
