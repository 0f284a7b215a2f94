"""Blade data against quadrature and against the statics of a beam of point masses."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from calc.blades.blade_data import PIECES, STRETCHES, Piece, Stretch, mass_table, two_scales
from calc.ground.examples import PLOVER_ROTOR

WIDTHS = st.lists(st.tuples(st.floats(0.05, 2.0), st.floats(0.5, 40.0)), min_size=1, max_size=8)


def test_example_is_the_blade_of_the_plover() -> None:
    """The example of the form is the blade that the ground-resonance pages round."""
    found = mass_table(STRETCHES.example, PIECES.example, PLOVER_ROTOR.hinge_offset)

    assert found.blade_mass == pytest.approx(PLOVER_ROTOR.blade_mass, rel=2e-3)
    assert found.first_moment == pytest.approx(PLOVER_ROTOR.first_moment, rel=2e-3)
    assert found.second_moment == pytest.approx(PLOVER_ROTOR.lag_inertia, rel=2e-3)


@given(WIDTHS, st.floats(0.0, 1.0), st.floats(0.0, 0.9), st.floats(0.0, 5.0))
def test_quadrature_of_a_stepped_blade(
    widths: list[tuple[float, float]], offset: float, place: float, weight: float
) -> None:
    """SciPy integrates mass, mass times distance and distance squared over the same steps."""
    edges = [offset, *(offset + total for total in np.cumsum([width for width, _ in widths]))]
    stretches = tuple(
        Stretch(float(edge), density) for edge, (_, density) in zip(edges[1:], widths, strict=True)
    )
    radius = offset + place * (edges[-1] - offset) + 1e-9
    moments = [
        sum(
            quad(lambda r, d=density, n=power: d * (r - offset) ** n, inner, outer)[0]
            for inner, outer, (_, density) in zip(edges, edges[1:], widths, strict=False)
        )
        + weight * (radius - offset) ** power
        for power in range(3)
    ]

    found = mass_table(stretches, (Piece(radius, weight),), offset)

    assert [found.blade_mass, found.first_moment, found.second_moment] == pytest.approx(
        moments, rel=1e-9
    )
    assert found.centre_of_gravity == pytest.approx(moments[1] / moments[0], rel=1e-9)


def test_hanging_period_of_a_rod() -> None:
    """A uniform rod hung by its end swings as a thread of two thirds of its length."""
    found = mass_table((Stretch(3.0, 7.0),), (), 0.0)

    assert found.hanging_period == pytest.approx(2.0 * math.pi * math.sqrt(2.0 / 9.80665))


@given(st.floats(-0.5, 1.0), st.floats(2.0, 4.5))
def test_statics_of_a_beam_of_point_masses(inner: float, outer: float) -> None:
    """Reactions solved from forces and moments of 300 masses lead back to their sums."""
    places = (np.arange(300) + 0.5) * 4.5 / 300
    masses = 0.1 + 0.2 * (places / 4.5) ** 2
    loads = np.array([masses.sum(), (masses * places).sum()])
    first, second = np.linalg.solve(np.array([[1.0, 1.0], [inner, outer]]), loads)
    if first < 0.0:
        return  # the centre of gravity is beyond the outer support: the blade would tip

    found = two_scales(float(first), inner, float(second), outer)

    assert found.blade_mass == pytest.approx(loads[0])
    assert found.first_moment == pytest.approx(loads[1])


def test_impossible_tables_and_supports_are_named() -> None:
    """Radii that do not rise, a piece inboard of the hinge, and supports in the wrong order."""
    rising = (Stretch(1.0, 10.0), Stretch(2.0, 10.0))
    with pytest.raises(ValueError, match="must rise from row to row"):
        mass_table(rising[::-1], (), 0.2)
    with pytest.raises(ValueError, match="must rise from row to row, from the hinge on"):
        mass_table(rising, (), 1.0)
    with pytest.raises(ValueError, match="inboard of the hinge"):
        mass_table(rising, (Piece(0.1, 1.0),), 0.2)
    with pytest.raises(ValueError, match="outer support must be further"):
        two_scales(20.0, 3.0, 20.0, 1.0)
