"""Segments: a blade given in stretches with the same mass and stiffness."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated

from calc.blades.beam_elements import Element
from calc.blades.quantities import BLADE_LENGTH, MASS_DENSITY, STATION, STIFFNESS
from calc.declaration import Table
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
        Segment(0.5, 18.0, 90000.0),
        Segment(1.2, 12.0, 35000.0),
        Segment(4.6, 9.0, 16000.0),
        Segment(4.8, 14.0, 16000.0),
    ),
    at_least=1,
    at_most=20,
)


def profiles(
    segments: Sequence[Segment],
) -> tuple[float, list[tuple[float, float]], list[tuple[float, float]]]:
    """Return length, mass profile and stiffness profile of a blade given as rows."""
    SEGMENTS.check(tuple(segments))
    masses = [(row.outer_station, row.mass_per_length) for row in segments]
    stiffnesses = [(row.outer_station, row.bending_stiffness) for row in segments]
    return segments[-1].outer_station, masses, stiffnesses


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
