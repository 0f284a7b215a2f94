"""Splitting a weight: sums of vectors, and least mass by linear programming.

Source:
    Temple (1983), Field Balancing Large Rotating Machinery, FIST 2-2, example 4, read on
    2026-11-26: 50 lb at 15 deg on arms at 0 and 60 deg, drawn to scale: 42 and 15 lb.
"""

import cmath
import math

import numpy as np
import pytest
from scipy.optimize import linprog

from calc.measurement.split_weight import Place, combined_weight, split, split_chart, split_weight


def test_example_of_temple() -> None:
    """The drawn parts to within 3 %, which is what the drawing is off at the larger one."""
    found = split_weight(cmath.rect(50.0, math.radians(15.0)), [0.0, math.radians(60.0)])

    assert found == pytest.approx([42.0, 15.0], rel=0.03)


@pytest.mark.parametrize("seed", range(5))
def test_parts_are_the_weight_with_least_mass(seed: int) -> None:
    """No masses at these places that make the weight are lighter together (SciPy's linprog)."""
    dice = np.random.default_rng(seed)
    angles = dice.uniform(0.0, 2.0 * math.pi, 9)
    weight = cmath.rect(3.0, dice.uniform(0.0, 2.0 * math.pi))
    found = split_weight(weight, angles.tolist())
    least = linprog(
        np.ones(9),
        A_eq=np.array([np.cos(angles), np.sin(angles)]),
        b_eq=[weight.real, weight.imag],
    )

    assert combined_weight(found, angles.tolist()) == pytest.approx(weight, rel=1e-12)
    assert min(found) >= 0.0
    assert sum(found) == pytest.approx(least.fun, rel=1e-9)


def test_weight_on_a_place_goes_there() -> None:
    """The one place takes all, and a weight of nothing puts nothing anywhere."""
    places = [5.0, 1.0, 3.0]

    assert split_weight(cmath.rect(2.0, 1.0), places) == pytest.approx([0.0, 2.0, 0.0])
    assert split_weight(0j, places) == [0.0, 0.0, 0.0]


@pytest.mark.parametrize(
    ("weight", "angles", "message"),
    [
        (1.0 + 0j, [math.pi / 2.0, -math.pi / 2.0], "less than half a turn"),
        (1.0 + 0j, [2.0, 3.0], "less than half a turn"),
        (1.0 + 0j, [1.0, 1.0, 4.0], "named once"),
        (1.0 + 0j, [], "1 to 72 places"),
        (1.0 + 0j, [math.nan], "finite angles"),
        (complex(math.inf, 0.0), [0.0], "finite"),
    ],
)
def test_what_no_places_can_carry_is_refused(
    weight: complex, angles: list[float], message: str
) -> None:
    """Two blades carry nothing across themselves, and a gap of half a turn or more nothing."""
    with pytest.raises(ValueError, match=message):
        split_weight(weight, angles)


def test_lengths_of_masses_and_places_must_agree() -> None:
    """A mass without a place is refused."""
    with pytest.raises(ValueError, match="for each finite angle"):
        combined_weight([1.0], [])


def test_whole_pieces_leave_least() -> None:
    """Of all pairs of whole pieces near the exact parts, tried one by one, none leaves less."""
    places = tuple(Place(math.radians(72.0 * k)) for k in range(5))
    found = split(0.057, math.radians(14.0), 0.005, places)
    weight = cmath.rect(57.0, math.radians(14.0))
    left = [
        abs(5.0 * i + cmath.rect(5.0 * j, math.radians(72.0)) - weight)
        for i in range(20)
        for j in range(20)
    ]

    assert [math.remainder(part.placed, 0.005) for part in found.parts] == pytest.approx(
        5 * [0.0], abs=1e-12
    )
    assert found.missing == pytest.approx(min(left) / 57.0, rel=1e-9)
    assert cmath.rect(found.mass, found.angle) == pytest.approx(
        combined_weight([p.placed for p in found.parts], [p.angle for p in found.parts])
    )


def test_pieces_of_any_size_leave_nothing() -> None:
    """Without a smallest piece the parts are exact."""
    found = split(0.057, 0.2, 0.0, (Place(0.0), Place(1.0)))

    assert found.missing == pytest.approx(0.0, abs=1e-12)


def test_figure_shows_the_pieces() -> None:
    """Only places that take a piece have an arrow."""
    places = tuple(Place(math.radians(72.0 * k)) for k in range(5))
    found = split(0.057, math.radians(14.0), 0.005, places)
    _, pieces, together = split_chart(0.057, math.radians(14.0), found).arrows

    assert len(pieces.points) == 2
    assert together.points == [(found.mass, found.angle)]
