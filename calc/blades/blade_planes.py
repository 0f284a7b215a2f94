"""Blade planes: a blade that bends out of its plane of rotation and in it, at any speed."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated

from calc.blades.beam_modes import Beam, beam, frequencies, reduced
from calc.blades.quantities import MASS_DENSITY, ROOT, ROOT_OFFSET, STATION, STIFFNESS, TIP_MASS
from calc.blades.segments import segment_elements
from calc.declaration import Table
from calc.quantity import Quantity
from calc.units import ANGULAR_STIFFNESS

FLAP_STIFFNESS = Quantity("EI_f", "Flap stiffness", STIFFNESS.units, above=0.0, example=16000.0)
LAG_STIFFNESS = Quantity("EI_l", "Lag stiffness", STIFFNESS.units, above=0.0, example=400000.0)
FLAP_SPRING = Quantity("k_f", "Flap spring of a hinged root", ANGULAR_STIFFNESS, at_least=0.0)
LAG_SPRING = Quantity("k_l", "Lag spring of a hinged root", ANGULAR_STIFFNESS, at_least=0.0)
SHARES = (0.0, 0.4, 1.0)  # of the highest speed, at which the shapes are exact


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
        BladeSegment(0.5, 18.0, 90000.0, 300000.0),
        BladeSegment(1.2, 12.0, 35000.0, 170000.0),
        BladeSegment(4.6, 9.0, 16000.0, 130000.0),
        BladeSegment(4.8, 14.0, 16000.0, 130000.0),
    ),
    at_least=1,
    at_most=20,
)


def blade_planes(
    segments: Sequence[BladeSegment],
    hinge_offset: float,
    tip_mass: float,
    held: tuple[str, float, float],
    turned: tuple[float, int],
) -> dict[str, Beam]:
    """Return the blade as it bends in each plane: how it is held, and how fast in how many modes.

    A blade of few unknowns stands for each plane: its shapes are exact at three speeds.
    """
    SEGMENTS.check(tuple(segments))
    ROOT_OFFSET.check(hinge_offset)
    TIP_MASS.check(tip_mass)
    root, flap_spring, lag_spring = held
    ROOT.check(root)
    FLAP_SPRING.check(flap_spring)
    LAG_SPRING.check(lag_spring)
    for row in segments:
        FLAP_STIFFNESS.check(row.flap_stiffness)
        LAG_STIFFNESS.check(row.lag_stiffness)
    highest, modes = turned
    length = segments[-1].outer_station
    masses = [(row.outer_station, row.mass_per_length) for row in segments]
    flap = [(row.outer_station, row.flap_stiffness) for row in segments]
    lag = [(row.outer_station, row.lag_stiffness) for row in segments]
    found = {}
    for plane, stiffness, spring in (("flap", flap, flap_spring), ("lag", lag, lag_spring)):
        elements = segment_elements(length, masses, stiffness)
        whole = beam(elements, hinge_offset, tip_mass, root, spring)
        found[plane] = reduced(whole, [share * highest for share in SHARES], modes)
    return found


def plane_lines(
    blade: Beam, plane: str, count: int, speeds: Sequence[float]
) -> list[tuple[float, ...]]:
    """Return the frequencies of each mode at each speed, rad/s."""
    return [*zip(*(frequencies(blade, speed, plane, count) for speed in speeds), strict=True)]
