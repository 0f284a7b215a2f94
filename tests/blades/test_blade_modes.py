"""Blade modes: the form agrees with the function, and its shapes with what shapes must be."""

import math
from itertools import pairwise

import pytest

from calc.blades.beam_modes import beam, mode_shapes
from calc.blades.blade_modes import blade_modes, blade_modes_chart
from calc.blades.rotating_beam import beam_frequencies
from calc.blades.segments import SEGMENTS, profiles, segment_elements


def test_rows_are_the_frequencies_of_the_beam() -> None:
    """Hertz and per revolution are the same frequencies."""
    length, masses, stiffnesses = profiles(SEGMENTS.example)
    exact = beam_frequencies(length, 0.2, masses, stiffnesses, 41.0, plane="lag")

    for row, frequency in zip(
        blade_modes(SEGMENTS.example, 0.2, 41.0, plane="lag"), exact, strict=True
    ):
        assert 2.0 * math.pi * row.frequency == pytest.approx(frequency)
        assert row.per_rev == pytest.approx(frequency / 41.0)


def test_shapes_have_one_more_zero_each() -> None:
    """The i-th mode of a clamped blade is at rest in i - 1 places outboard of its root."""
    length, masses, stiffnesses = profiles(SEGMENTS.example)
    blade = beam(segment_elements(length, masses, stiffnesses), 0.2, 0.0, "clamped")

    for number, mode in enumerate(mode_shapes(blade, 41.0, "flap", 5)):
        heights = [height for _, height in mode.shape[1:]]
        assert sum(a * b < 0.0 for a, b in pairwise(heights)) == number
        assert max(map(abs, heights)) == 1.0


def test_hinged_at_the_axis_stays_straight() -> None:
    """The first shape of a blade hinged at the axis is a straight line."""
    length, masses, stiffnesses = profiles(SEGMENTS.example)
    blade = beam(segment_elements(length, masses, stiffnesses), 0.0, 0.0, "hinged")

    for station, height in mode_shapes(blade, 41.0, "flap", 1)[0].shape:
        assert height == pytest.approx(station / length, abs=1e-9)


def test_chart_has_a_line_for_each_mode() -> None:
    """The figure names every mode."""
    svg = blade_modes_chart(SEGMENTS.example, 0.2, 41.0, modes=3).svg("shapes")

    assert all(f"mode {number}" in svg for number in (1, 2, 3))
