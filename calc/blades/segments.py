"""Segments: a blade given in stretches with the same mass and stiffness."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated, ClassVar

from calc.blades.beam_elements import Element
from calc.blades.beam_modes import Beam, Held, beam
from calc.blades.quantities import (
    BLADE_LENGTH,
    CLAMPED,
    MASS_DENSITY,
    ROOT,
    ROOT_STIFFNESS,
    STATION,
    STIFFNESS,
    TIP_MASS,
)
from calc.declaration import Table, check
from calc.quantity import Quantity

Profile = float | Sequence[tuple[float, float]]
"""One value for a whole blade, or pairs of outer station from the root and value inboard of it."""

SAME = 1e-9  # share of the length within which two stations are one
SHORTEST = 1e-3 * (1.0 - SAME)  # share of the length below which rounding spoils the stiffness


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of blade with the same mass and stiffness, up to its outer station."""

    outer_station: Annotated[float, STATION]
    mass_per_length: Annotated[float, MASS_DENSITY]
    bending_stiffness: Annotated[float, STIFFNESS]


SEGMENTS = Table(
    "Segments of the blade, root to tip",
    Segment,
    (
        Segment(0.5, 11.4, 60000.0),
        Segment(1.2, 9.5, 30000.0),
        Segment(4.35, 11.3, 16000.0),
        Segment(4.55, 10.4, 16000.0),
    ),
    at_least=1,
    at_most=20,
)


@dataclass(frozen=True, slots=True)
class Blade:
    """A blade in segments as it bends in one plane, and how its root is held.

    Attributes:
        segments: Outer station, mass per length and bending stiffness, root to tip; rows.
        root: How the blade is held; word.
        root_stiffness: Spring about a hinged root; scalar, N·m/rad.
        tip_mass: Point mass at the tip; scalar, kg.
    """

    heading: ClassVar[str] = "Blade"

    segments: Annotated[tuple[Segment, ...], SEGMENTS]
    root: Annotated[str, ROOT] = CLAMPED
    root_stiffness: Annotated[float, ROOT_STIFFNESS] = 0.0
    tip_mass: Annotated[float, TIP_MASS] = 0.0

    def __post_init__(self) -> None:
        """Refuse a blade that cannot exist."""
        check(self)
        SEGMENTS.check(self.segments)

    @property
    def length(self) -> float:
        """Length from root to tip, m."""
        return self.segments[-1].outer_station

    def beam(self, root_radius: float) -> Beam:
        """Return the blade ready to turn, with its root at a radius."""
        masses = [(row.outer_station, row.mass_per_length) for row in self.segments]
        stiffnesses = [(row.outer_station, row.bending_stiffness) for row in self.segments]
        elements = segment_elements(self.length, masses, stiffnesses)
        return beam(elements, Held(root_radius, self.root, self.root_stiffness, self.tip_mass))


def segment_elements(
    length: float, mass_per_length: Profile, bending_stiffness: Profile
) -> list[Element]:
    """Return the stretches of a blade within which neither mass nor stiffness steps."""
    BLADE_LENGTH.check(length)
    masses = _stretches(length, mass_per_length, MASS_DENSITY)
    stiffnesses = _stretches(length, bending_stiffness, STIFFNESS)
    ends = [0.0]
    for outer, _ in sorted((*masses, *stiffnesses)):
        if outer - ends[-1] > SAME * length:
            ends.append(outer)
    if min(outer - inner for inner, outer in pairwise(ends)) < SHORTEST * length:
        raise ValueError("Each segment must be at least a thousandth of the length of the blade")
    return [
        Element(inner, outer, (_at(masses, outer),) * 2, (_at(stiffnesses, outer),) * 2)
        for inner, outer in pairwise(ends)
    ]


def _stretches(length: float, profile: Profile, quantity: Quantity) -> list[tuple[float, float]]:
    """Return a profile as pairs of outer station and value that end at the tip."""
    pairs = [(length, profile)] if isinstance(profile, int | float) else [*profile]
    for station, value in pairs:
        STATION.check(station)
        quantity.check(value)
    if any(outer <= inner for (inner, _), (outer, _) in pairwise(pairs)):
        raise ValueError("Outer station from the root must rise from row to row")
    if not pairs or not math.isclose(pairs[-1][0], length, rel_tol=SAME):
        raise ValueError("Outer station of the last segment must be the length of the blade")
    return [*pairs[:-1], (length, pairs[-1][1])]


def _at(pairs: Sequence[tuple[float, float]], station: float) -> float:
    """Return the value just inboard of a station."""
    return next(value for outer, value in pairs if station <= outer)
