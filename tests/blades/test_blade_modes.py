"""Blade modes: the form agrees with the function, and its shapes with what shapes must be."""

import math
from itertools import pairwise

import pytest

from calc.blades.beam_modes import mode_shapes
from calc.blades.blade_modes import blade_modes, blade_modes_chart
from calc.blades.rotating_beam import beam_frequencies
from calc.blades.segments import SEGMENTS, Blade, Segment
from calc.ground.examples import PLOVER_ROTOR

ROWS = SEGMENTS.example
BLADE = Blade(ROWS)


def test_rows_are_the_frequencies_of_the_beam() -> None:
    """Hertz and per revolution are the same frequencies."""
    masses = [(row.outer_station, row.mass_per_length) for row in ROWS]
    stiffnesses = [(row.outer_station, row.bending_stiffness) for row in ROWS]
    exact = beam_frequencies(BLADE.length, 0.2, masses, stiffnesses, 41.0, plane="lag")

    for row, frequency in zip(blade_modes(BLADE, 0.2, 41.0, plane="lag"), exact, strict=True):
        assert 2.0 * math.pi * row.frequency == pytest.approx(frequency)
        assert row.per_rev == pytest.approx(frequency / 41.0)


def test_shapes_have_one_more_node_each() -> None:
    """The i-th mode of a clamped blade has i - 1 nodes outboard of its root."""
    for number, mode in enumerate(mode_shapes(BLADE.beam(0.2), 41.0, "flap", 5)):
        heights = [height for _, height in mode.shape[1:]]
        assert sum(a * b < 0.0 for a, b in pairwise(heights)) == number
        assert max(map(abs, heights)) == 1.0


def test_hinged_at_the_axis_flaps_as_a_rigid_body() -> None:
    """The first shape of a blade hinged at the axis is a straight line."""
    hinged = Blade(ROWS, "hinged")

    for station, height in mode_shapes(hinged.beam(0.0), 41.0, "flap", 1)[0].shape:
        assert height == pytest.approx(station / hinged.length, abs=1e-9)


def test_example_is_the_blade_of_the_plover() -> None:
    """Mass and moments of the segments are those of the ground chapter, to half a per cent."""
    inner = [0.0, *(row.outer_station for row in ROWS[:-1])]
    moments = [
        sum(
            row.mass_per_length * (row.outer_station ** (n + 1) - start ** (n + 1)) / (n + 1)
            for start, row in zip(inner, ROWS, strict=True)
        )
        for n in range(3)
    ]
    rotor = PLOVER_ROTOR

    assert moments == pytest.approx(
        [rotor.blade_mass, rotor.first_moment, rotor.lag_inertia], rel=5e-3
    )


def test_chart_has_a_line_for_each_mode() -> None:
    """The figure names every mode."""
    svg = blade_modes_chart(BLADE, 0.2, 41.0, modes=3).svg("shapes")

    assert all(f"mode {number}" in svg for number in (1, 2, 3))


def test_impossible_blades_are_named() -> None:
    """A blade without segments and one with a negative tip mass are refused."""
    with pytest.raises(ValueError, match="Segments of the blade, root to tip must have 1 to 20"):
        Blade(())
    with pytest.raises(ValueError, match="Tip mass must be at least 0 kg"):
        Blade((Segment(1.0, 1.0, 1.0),), tip_mass=-1.0)
