"""Splitting a weight: what to put where there are places, in the pieces that there are."""

import cmath
import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Arrows, Axis, Polar
from calc.declaration import Method, Table
from calc.measurement.counting import turned
from calc.quantity import Quantity
from calc.units import ANGLE, PER_CENT, SMALL_MASS

WANTED_MASS = Quantity("m_c", "Weight wanted", SMALL_MASS, above=0.0, example=0.057)
WANTED_ANGLE = Quantity(
    r"\theta_c", "Place of the weight wanted", ANGLE, example=math.radians(14.0)
)
PIECE = Quantity("s", "Smallest piece of weight", SMALL_MASS, at_least=0.0, example=0.005)
AVAILABLE = Quantity(r"\theta_k", "Available place", ANGLE, example=0.0)
EXACT = Quantity("m_k", "Exact share of the place", SMALL_MASS)
PLACED = Quantity("m_p", "In whole pieces", SMALL_MASS)
TOGETHER_MASS = Quantity("m", "Weight of the pieces together", SMALL_MASS)
TOGETHER_ANGLE = Quantity(r"\theta", "Place of the pieces together", ANGLE)
MISSING = Quantity("k", "What is not corrected, over the whole", PER_CENT)
MOST_PLACES = 72
CLOSE = 1e-9
"""An angle by which two places are one."""


@dataclass(frozen=True, slots=True)
class Place:
    """A place on the rotor that can take a weight."""

    angle: Annotated[float, AVAILABLE]


@dataclass(frozen=True, slots=True)
class Part:
    """What goes to one place."""

    angle: Annotated[float, AVAILABLE]
    exact: Annotated[float, EXACT]
    placed: Annotated[float, PLACED]


PLACES = Table(
    "Available places",
    Place,
    tuple(Place(math.radians(angle)) for angle in (0.0, 72.0, 144.0, 216.0, 288.0)),
    at_least=2,
    at_most=MOST_PLACES,
)
PARTS = Table("What goes where", Part, leads=True)


@dataclass(frozen=True, slots=True)
class Split:
    """The pieces, what they are together, and what they leave uncorrected."""

    parts: Annotated[tuple[Part, ...], PARTS]
    mass: Annotated[float, TOGETHER_MASS]
    angle: Annotated[float, TOGETHER_ANGLE]
    missing: Annotated[float, MISSING]


def split_weight(weight: complex, angles: Sequence[float]) -> list[float]:
    r"""Return what each place takes so that together they are a weight.

    $$ m_1 = m \frac{\sin(\theta_2 - \theta)}{\sin(\theta_2 - \theta_1)}, \qquad
       m_2 = m \frac{\sin(\theta - \theta_1)}{\sin(\theta_2 - \theta_1)} $$

    The two places on either side of the weight take it: no other choice needs less mass.

    Args:
        weight: The weight wanted, in the sense of the angles; complex scalar, kg.
        angles: The places there are; shape (n,), rad.

    Returns:
        The mass at each place, in the order given; shape (n,), kg.

    Raises:
        ValueError: If a number is not finite, two places are one, or the places on either side
            are half a turn apart or more.

    Source:
        Components of a vector along two directions; Temple (1983), example 4, draws them.

    Examples:
        >>> [round(mass, 9) for mass in split_weight(1.0, [math.pi / 4, -math.pi / 4, math.pi])]
        [0.707106781, 0.707106781, 0.0]
    """
    if not 1 <= len(angles) <= MOST_PLACES or not all(map(math.isfinite, angles)):
        raise ValueError(f"There must be 1 to {MOST_PLACES} places at finite angles")
    if not cmath.isfinite(weight):
        raise ValueError("The weight must be a finite number")
    masses = [0.0] * len(angles)
    turns = [turned(angle - cmath.phase(weight)) for angle in angles]
    order = sorted(range(len(angles)), key=lambda place: turns[place])
    for one, other in itertools.pairwise(order):
        if turns[other] - turns[one] <= CLOSE:
            raise ValueError("Each place must be named once")
    if weight == 0.0:
        return masses
    after, before = order[0], order[-1]
    if turns[after] <= CLOSE:
        masses[after] = abs(weight)
        return masses
    gap = turns[after] + math.tau - turns[before]
    if gap >= math.pi - CLOSE:
        raise ValueError(
            "The weight must lie between two places that are less than half a turn apart"
        )
    masses[after] = abs(weight) * math.sin(math.tau - turns[before]) / math.sin(gap)
    masses[before] = abs(weight) * math.sin(turns[after]) / math.sin(gap)
    return masses


def combined_weight(masses: Sequence[float], angles: Sequence[float]) -> complex:
    r"""Return the one weight that several weights are together.

    $$ W = \sum_k m_k \mathrm{e}^{\mathrm{i} \theta_k} $$

    Args:
        masses: Mass at each place, negative where one is taken away; shape (n,), kg.
        angles: The places; shape (n,), rad.

    Returns:
        The weight in the sense of the angles; complex scalar, kg.

    Raises:
        ValueError: If the lengths differ or a number is not finite.

    Source:
        Sum of vectors.

    Examples:
        >>> combined_weight([2.0, 1.0], [0.0, 0.0])
        (3+0j)
    """
    if len(masses) != len(angles) or not all(map(math.isfinite, (*masses, *angles))):
        raise ValueError("There must be a finite mass for each finite angle")
    return complex(sum(cmath.rect(mass, angle) for mass, angle in zip(masses, angles, strict=True)))


def split(
    wanted_mass: Annotated[float, WANTED_MASS],
    wanted_angle: Annotated[float, WANTED_ANGLE],
    piece: Annotated[float, PIECE],
    places: Annotated[tuple[Place, ...], PLACES],
) -> Split:
    r"""Return what to put at the places there are, in whole pieces, and what that leaves.

    $$ m_1 = m_c \frac{\sin(\theta_2 - \theta_c)}{\sin(\theta_2 - \theta_1)}, \qquad
       m_2 = m_c \frac{\sin(\theta_c - \theta_1)}{\sin(\theta_2 - \theta_1)}, \qquad
       k = \frac{|W - W_c|}{m_c} $$

    The pieces are rounded up or down at both places so that least is left.  What is not corrected
    of the weight is not corrected of the vibration either.

    Args:
        wanted_mass: Weight to put on; scalar, kg.
        wanted_angle: Where it should be; scalar, rad.
        piece: Weights come in multiples of it; zero where any weight can be made; scalar, kg.
        places: Where weights can be put, counted as the wanted angle is; rows.

    Returns:
        Exact and placed mass of each place, what the pieces are together, and what they leave.

    Raises:
        ValueError: If an argument breaks its limits, two places are one, or the places on either
            side are half a turn apart or more.

    Source:
        Components of a vector along two directions; Temple (1983), example 4, draws them.

    Examples:
        >>> corners = tuple(Place(turn * math.pi / 2.0) for turn in range(4))
        >>> found = split(0.05, math.atan2(3.0, 4.0), 0.0, corners)
        >>> [round(part.exact, 9) + 0.0 for part in found.parts]
        [0.04, 0.03, 0.0, 0.0]
    """
    WANTED_MASS.check(wanted_mass)
    WANTED_ANGLE.check(wanted_angle)
    PIECE.check(piece)
    PLACES.check(places)
    angles = [place.angle for place in places]
    weight = cmath.rect(wanted_mass, wanted_angle)
    exact = split_weight(weight, angles)
    placed = _in_pieces(weight, exact, angles, piece)
    together = combined_weight(placed, angles)
    return Split(
        parts=tuple(map(Part, angles, exact, placed)),
        mass=abs(together),
        angle=turned(cmath.phase(together)),
        missing=abs(together - weight) / wanted_mass,
    )


def split_chart(wanted_mass: float, wanted_angle: float, found: Split) -> Polar:
    """Return the weight wanted, its parts in pieces, and what these are together."""
    parts = [(part.placed, part.angle) for part in found.parts if part.placed]
    return Polar(
        title="The weight and its parts",
        description="Arrows of the weight wanted, of the pieces at their places, and of what the "
        "pieces are together, on a dial of the angles as the rotor is marked.",
        amplitude=replace(Axis.of(WANTED_MASS), label="Weight"),
        angle="Place on the rotor",
        arrows=(
            Arrows([(wanted_mass, wanted_angle)], "weight wanted", 1),
            Arrows(parts, "pieces at their places", 2),
            Arrows([(found.mass, found.angle)], "pieces together", 3),
        ),
    )


def _in_pieces(
    weight: complex, exact: Sequence[float], angles: Sequence[float], piece: float
) -> Annotated[list[float], Method("whole pieces at both places so that least is left")]:
    """Return whole pieces at the places that take any, the choice that leaves least."""
    if not piece:
        return list(exact)
    used = [place for place, mass in enumerate(exact) if mass > 0.0]
    choices = [
        [math.floor(exact[place] / piece) * piece, math.ceil(exact[place] / piece) * piece]
        for place in used
    ]

    def left(masses: Iterable[float]) -> float:
        return abs(combined_weight([*masses], [angles[place] for place in used]) - weight)

    best = dict(zip(used, min(itertools.product(*choices), key=left), strict=True))
    return [best.get(place, 0.0) for place in range(len(exact))]
