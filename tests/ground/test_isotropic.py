"""Undamped bands on an isotropic support."""

import math
from functools import partial

import numpy as np
import pytest

from calc.ground.isotropic import band_chart, discriminant, undamped_band
from calc.ground.model.aircraft import Rotor, Support
from calc.ground.stability import unstable_bands
from tests.ground.benchmark import HAMMOND_ROTOR, HAMMOND_SUPPORT, alike_in, undamped
from tests.ground.oracle import assert_edges, growth_of_single_blades

NUMBERS = [(0.03, 0.01), (0.03, 0.08), (0.05, 0.02), (0.08, 0.04), (0.12, 0.01), (0.12, 0.04)]
"""Offset ratio and coupling parameter."""


def without_dampers(offset_ratio: float, coupling: float) -> tuple[Rotor, Support]:
    """Return an undamped aircraft with these numbers and a support frequency of 1 rad/s."""
    rotor = Rotor(3, 2.0, 1.0, 1.0, offset_ratio, 0.0, 0.0)
    mass = 3 / (2.0 * coupling)
    return rotor, Support(mass - 6.0, mass - 6.0, mass, mass, 0.0, 0.0)


@pytest.mark.parametrize("numbers", NUMBERS)
def test_edges(numbers: tuple[float, float]) -> None:
    """Single blades turned into fixed axes grow between the edges; coalescence in closed form."""
    band = undamped_band(numbers[0], 0.0, numbers[1])
    growth = partial(growth_of_single_blades, *without_dampers(*numbers))

    assert band is not None
    assert_edges(growth, (band.lower_edge, band.upper_edge), 1e-6)
    assert band.coalescence == pytest.approx(1.0 / (1.0 - math.sqrt(numbers[0])), rel=1e-12)


def test_band_of_the_benchmark() -> None:
    """Hammond's data, both directions as x: single blades, and the eight states."""
    support = alike_in("x", HAMMOND_SUPPORT)
    mass = support.mass_x + 4 * HAMMOND_ROTOR.blade_mass
    frequency = (support.stiffness_x / mass) ** 0.5
    rotor = HAMMOND_ROTOR
    offset = rotor.hinge_offset * rotor.first_moment / rotor.lag_inertia
    coupling = 2.0 * rotor.first_moment**2 / (rotor.lag_inertia * mass)
    band = undamped_band(offset, 0.0, coupling)

    assert band is not None
    edges = (band.lower_edge * frequency, band.upper_edge * frequency)
    assert_edges(partial(growth_of_single_blades, *undamped(rotor, support)), edges, 1e-6)
    ((low, high),) = unstable_bands(*undamped(rotor, support), 5.0, 40.0)
    assert (low, high) == pytest.approx(edges, rel=1e-9)


@pytest.mark.parametrize("spring", [0.02, 0.3, 1.5])
def test_edges_agree_with_eigenvalues(spring: float) -> None:
    """Eigenvalues of the eight states, with lag springs."""
    rotor = Rotor(3, 40.0, 100.0, 320.0, 0.2, spring * 320.0 * 100.0, 0.0)
    support = Support(1000.0, 1000.0, 112000.0, 112000.0, 0.0, 0.0)  # 10 rad/s with the blades
    band = undamped_band(0.2 * 100.0 / 320.0, spring, 1.5 * 100.0**2 / (320.0 * 1120.0))

    assert band is not None
    ((low, high),) = unstable_bands(rotor, support, 1.0, 60.0)
    assert low == pytest.approx(10.0 * band.lower_edge, rel=1e-9)
    assert high == pytest.approx(10.0 * band.upper_edge, rel=1e-9)


@pytest.mark.parametrize("speed", [0.6, 1.2, 1.6, 2.5])
def test_discriminant_is_that_of_the_roots(speed: float) -> None:
    """Numpy's roots: the product of squared differences times the sixth power of the first."""
    offset, spring, coupling = 0.08, 0.1, 0.04
    lag = spring + offset * speed**2
    quartic = [
        1.0 - coupling,
        -2.0 * speed,
        speed**2 - lag - 1.0,
        2.0 * speed,
        lag - speed**2,
    ]
    roots = np.roots(quartic)
    product = np.prod([(a - b) ** 2 for i, a in enumerate(roots) for b in roots[:i]])

    expected = (quartic[0] ** 6 * product).real
    assert discriminant(speed, offset, spring, coupling) == pytest.approx(expected, rel=1e-9)


def test_stiff_in_plane_has_no_band() -> None:
    """An offset ratio of one or more: the lag frequency is above the rotor speed."""
    assert undamped_band(1.0, 0.0, 0.04) is None


def test_chart_shows_the_band() -> None:
    """The chart has the edges of the example at its coupling parameter."""
    assert "unstable" in band_chart(0.08, 0.0, 0.04).svg("band")
