"""Blade data: mass and moments about a hinge, from a drawing or from two scales."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Annotated

from calc.blades.quantities import HINGE_OFFSET, MASS_DENSITY
from calc.chart import Axis, Chart, Line, Rule
from calc.constants import STANDARD_GRAVITY
from calc.declaration import Method, Table
from calc.quantity import InputsError, Quantity
from calc.units import FIRST_MOMENT, INERTIA, LENGTH, MASS, TIME

OUTER_RADIUS = Quantity("r", "Outer radius from the shaft axis", LENGTH, above=0.0, example=4.80)
STRETCH_MASS = replace(MASS_DENSITY, symbol=r"\mu", label="Mass per length of the stretch")
PIECE_RADIUS = Quantity("r_p", "Radius from the shaft axis", LENGTH, above=0.0, example=4.70)
PIECE_MASS = Quantity("m_p", "Mass of the piece", MASS, at_least=0.0, example=0.5)
INNER_READING = Quantity("m_1", "Reading of the inner scale", MASS, at_least=0.0, example=22.97)
INNER_POSITION = Quantity("x_1", "Inner support from the hinge", LENGTH, example=0.30)
OUTER_READING = Quantity("m_2", "Reading of the outer scale", MASS, above=0.0, example=27.03)
OUTER_POSITION = Quantity("x_2", "Outer support from the hinge", LENGTH, example=4.00)
BLADE_MASS = Quantity("m_b", "Mass of the blade outboard of the hinge", MASS, above=0.0)
HINGE_MOMENT = Quantity("S", "First moment about the hinge", FIRST_MOMENT, above=0.0)
HINGE_INERTIA = Quantity("I", "Second moment about the hinge", INERTIA, above=0.0)
CENTRE = Quantity("x_{cg}", "Centre of gravity from the hinge", LENGTH)
HANGING_PERIOD = Quantity("T", "Period of a small swing, hung from the hinge", TIME, above=0.0)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of blade with the same mass per length, up to its outer radius."""

    outer_radius: Annotated[float, OUTER_RADIUS]
    mass_per_length: Annotated[float, STRETCH_MASS]


@dataclass(frozen=True, slots=True)
class Piece:
    """A mass at one radius, such as a tip weight or a bolt."""

    piece_radius: Annotated[float, PIECE_RADIUS]
    piece_mass: Annotated[float, PIECE_MASS]


STRETCHES = Table(
    "Stretches of the blade, hinge to tip",
    Stretch,
    (Stretch(0.75, 11.4), Stretch(1.45, 9.5), Stretch(4.60, 11.3), Stretch(4.80, 10.4)),
    at_least=1,
    at_most=40,
)
PIECES = Table("Pieces that sit at one radius", Piece, at_most=20)


@dataclass(frozen=True, slots=True)
class BladeData:
    """A blade as rotor dynamics sees it, about one hinge."""

    blade_mass: Annotated[float, BLADE_MASS]
    first_moment: Annotated[float, HINGE_MOMENT]
    second_moment: Annotated[float, HINGE_INERTIA]
    centre_of_gravity: Annotated[float, CENTRE]
    hanging_period: Annotated[float, HANGING_PERIOD]


@dataclass(frozen=True, slots=True)
class Weighed:
    """What two scales tell of a blade."""

    blade_mass: Annotated[float, BLADE_MASS]
    first_moment: Annotated[float, HINGE_MOMENT]
    centre_of_gravity: Annotated[float, CENTRE]


def mass_table(
    stretches: Annotated[tuple[Stretch, ...], STRETCHES],
    pieces: Annotated[tuple[Piece, ...], PIECES],
    hinge_offset: Annotated[float, HINGE_OFFSET],
) -> BladeData:
    r"""Return mass, first and second moment of a blade about its hinge from a table of masses.

    $$ m_b = \int_e^R \mu \mathrm{d}r + \sum m_p, \qquad
       S = \int_e^R \mu (r - e) \mathrm{d}r + \sum m_p (r_p - e), \qquad
       I = \int_e^R \mu (r - e)^2 \mathrm{d}r + \sum m_p (r_p - e)^2 $$

    The mass per length is constant in each stretch.  Only what moves about the hinge counts: the
    first stretch begins at the hinge.  Masses lie on the line from the hinge to the tip, so that
    the chord adds nothing.

    Args:
        stretches: Outer radius and mass per length, hinge to tip; rows.
        pieces: Radius and mass of what sits at one place; rows.
        hinge_offset: Rotor axis to the hinge; scalar, m.

    Returns:
        Mass and moments of one blade, its centre of gravity, and the period of its swing.

    Raises:
        ValueError: If an argument breaks its limits, the radii do not rise from the hinge
            outwards, or a piece sits inboard of the hinge.

    Source:
        Definition of the moments, integrated stretch by stretch.

    Examples:
        A uniform rod of 3 kg and 2 m, hinged at its end:

        >>> rod = mass_table((Stretch(2.0, 1.5),), (), 0.0)
        >>> rod.blade_mass, rod.first_moment, rod.second_moment
        (3.0, 3.0, 4.0)
    """
    STRETCHES.check(stretches)
    PIECES.check(pieces)
    HINGE_OFFSET.check(hinge_offset)
    blade_mass = _moment(stretches, pieces, hinge_offset, 0)
    first_moment = _moment(stretches, pieces, hinge_offset, 1)
    second_moment = _moment(stretches, pieces, hinge_offset, 2)
    return BladeData(
        blade_mass=blade_mass,
        first_moment=first_moment,
        second_moment=second_moment,
        centre_of_gravity=first_moment / blade_mass,
        hanging_period=2.0 * math.pi * math.sqrt(second_moment / (first_moment * STANDARD_GRAVITY)),
    )


def mass_table_chart(
    stretches: tuple[Stretch, ...],
    hinge_offset: float,
    found: BladeData,
) -> Chart:
    """Return the mass per length along the radius, with the centre of gravity."""
    edges = _edges(stretches, hinge_offset)
    steps = [
        (radius, stretch.mass_per_length)
        for (inner, outer), stretch in zip(pairwise(edges), stretches, strict=True)
        for radius in (inner, outer)
    ]
    return Chart(
        title="Mass per length along the blade",
        description="Mass per length over the radius, constant in each stretch, with the hinge "
        "and the centre of gravity marked. Pieces at one radius are not drawn.",
        x=Axis.of(OUTER_RADIUS, 0.0, edges[-1]),
        y=Axis.of(STRETCH_MASS, 0.0),
        marks=(
            Line(steps, "", 1),
            Rule(hinge_offset, "x", "hinge"),
            Rule(hinge_offset + found.centre_of_gravity, "x", "centre of gravity"),
        ),
    )


def two_scales(
    inner_reading: Annotated[float, INNER_READING],
    inner_position: Annotated[float, INNER_POSITION],
    outer_reading: Annotated[float, OUTER_READING],
    outer_position: Annotated[float, OUTER_POSITION],
) -> Weighed:
    r"""Return mass and first moment of a blade that lies level on two scales.

    $$ m_b = m_1 + m_2, \qquad S = m_1 x_1 + m_2 x_2 $$

    The blade rests on a knife edge on each scale and touches nothing else; what lies between knife
    edge and scale is taken off the reading.  Positions count from the hinge line towards the tip,
    negative inboard of it.  With the inner support on the hinge line the outer scale alone gives
    the first moment.

    Args:
        inner_reading: Less what lies on the scale without the blade; scalar, kg.
        inner_position: Hinge to the inner knife edge; scalar, m.
        outer_reading: Less what lies on the scale without the blade; scalar, kg.
        outer_position: Hinge to the outer knife edge; scalar, m.

    Returns:
        Mass, first moment and centre of gravity of the blade.

    Raises:
        ValueError: If an argument breaks its limits, or the outer support is not outboard of the
            inner one.

    Source:
        Balance of forces and of moments.

    Examples:
        >>> found = two_scales(20.0, 0.0, 30.0, 4.0)
        >>> found.blade_mass, found.first_moment, found.centre_of_gravity
        (50.0, 120.0, 2.4)
    """
    INNER_READING.check(inner_reading)
    INNER_POSITION.check(inner_position)
    OUTER_READING.check(outer_reading)
    OUTER_POSITION.check(outer_position)
    if outer_position <= inner_position:
        raise InputsError(
            "The outer support must be further from the hinge than the inner one",
            "inner_position",
            "outer_position",
        )
    blade_mass = inner_reading + outer_reading
    first_moment = inner_reading * inner_position + outer_reading * outer_position
    return Weighed(
        blade_mass=blade_mass,
        first_moment=first_moment,
        centre_of_gravity=first_moment / blade_mass,
    )


def _moment(
    stretches: Sequence[Stretch], pieces: Sequence[Piece], hinge_offset: float, power: int
) -> Annotated[float, Method("summed over stretches and pieces")]:
    """Return the sum of mass times a power of its distance from the hinge."""
    edges = [radius - hinge_offset for radius in _edges(stretches, hinge_offset)]
    parts = [
        stretch.mass_per_length * (outer ** (power + 1) - inner ** (power + 1)) / (power + 1)
        for (inner, outer), stretch in zip(pairwise(edges), stretches, strict=True)
    ]
    if any(piece.piece_radius < hinge_offset for piece in pieces):
        raise ValueError("A piece inboard of the hinge does not move about it: leave it out")
    parts += [piece.piece_mass * (piece.piece_radius - hinge_offset) ** power for piece in pieces]
    return math.fsum(parts)


def _edges(stretches: Sequence[Stretch], hinge_offset: float) -> list[float]:
    """Return the radii between stretches, from the hinge to the tip."""
    edges = [hinge_offset, *(stretch.outer_radius for stretch in stretches)]
    if any(outer <= inner for inner, outer in pairwise(edges)):
        raise ValueError(
            "Outer radius from the shaft axis must rise from row to row, from the hinge on"
        )
    return edges
