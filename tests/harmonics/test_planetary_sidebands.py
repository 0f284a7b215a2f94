"""Planetary sidebands against a direct sum over planets that pass a sensor.

McFadden and Smith (1985), of which the abstract was read: spectra of epicyclic gears show
considerable asymmetry of the sidebands and even complete suppression of the tooth meshing
component, explained by how the vibrations of the planets add as they pass the transducer.
Mosher (2003), abstract read: vibration occurs only at whole multiples of the repetition frequency
of the planet spacing, for uniformly and for nonuniformly spaced planets.
"""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.harmonics.planet_spacing import nearest_places
from calc.harmonics.planetary_sidebands import (
    Planet,
    Sidebands,
    planetary_sidebands,
    planetary_sidebands_chart,
)
from calc.harmonics.ring_lines import passing_window, ring_lines, turned

HALF_ANGLE = math.radians(40.0)


def _summed(angles: list[float], mesh: int, half_angle: float) -> dict[int, float]:
    """Return the spectrum of planets that pass a sensor, sampled over a turn of the carrier.

    Each planet meshes with the ring at its own place, and counts by how near it is.
    """
    samples = 4096
    theta = 2.0 * math.pi * np.arange(samples) / samples
    signal = np.zeros(samples)
    for angle in angles:
        place = theta + angle
        window = 2.0 ** (-(1.0 - np.cos(place)) / (1.0 - math.cos(half_angle)))
        signal += window * np.cos(mesh * place)
    return dict(enumerate(2.0 * np.abs(np.fft.rfft(signal)) / samples))


def _lines(sun: int, ring: int, planets: int, multiple: int = 1) -> dict[int, float]:
    found = planetary_sidebands(26.0, sun, ring, planets, multiple=multiple)
    return {line.order: line.amplitude for line in found.lines}


@settings(max_examples=30, deadline=None)
@given(
    st.integers(20, 40),
    st.integers(70, 120),
    st.integers(1, 5),
    st.integers(1, 3),
    st.floats(0.3, 2.0),
)
def test_direct_sum(sun: int, ring: int, planets: int, multiple: int, half_angle: float) -> None:
    """Every line has the height of the sampled sum, and none above a twentieth is missed."""
    angles = turned(nearest_places(sun, ring, planets), sun + ring)
    spectrum = _summed(angles, multiple * ring, half_angle)
    found = {line.order: line.amplitude for line in ring_lines(angles, multiple * ring, half_angle)}
    strongest = max(spectrum.values())

    assert found == pytest.approx({order: spectrum[order] for order in found}, abs=1e-9)
    for order, height in spectrum.items():
        assert order in found or height <= 0.05 * strongest + 1e-9


def test_mesh_of_99_teeth_and_four_equal_planets_is_suppressed() -> None:
    """McFadden and Smith (1985): the mesh is lost and the sidebands are unequal.

    99 is no multiple of 4, so the lines are 96 and 100 alone, the nearer one the stronger.
    """
    found = _lines(29, 99, 4)

    assert list(found) == [100, 96]
    assert found[100] > 3.0 * found[96]


def test_mesh_of_108_teeth_and_four_equal_planets_dominates() -> None:
    """108 is a multiple of 4: the planets mesh in step and the mesh stands highest."""
    found = _lines(36, 108, 4)

    assert list(found) == [108, 104, 112]
    assert found[104] == pytest.approx(found[112])
    assert found[108] > 10.0 * found[104]


def test_planets_that_cannot_be_equally_spaced() -> None:
    """31, 32, 31 and 32 steps: two opposite pairs leave even orders alone, 98 the strongest."""
    found = planetary_sidebands(26.0, 27, 99, 4)

    assert [line.order for line in found.lines] == [98, 100, 102, 96]
    assert "cannot be equally spaced" in found.assembly
    assert "the mesh itself, 99/rev, cancels" in found.strongest


@pytest.mark.parametrize("multiple", [1, 2, 3, 4])
@pytest.mark.parametrize(("sun", "ring", "planets"), [(29, 99, 4), (31, 95, 3), (27, 93, 5)])
def test_only_multiples_of_the_spacing(sun: int, ring: int, planets: int, multiple: int) -> None:
    """Mosher (2003): with equal spacing every line is a whole multiple of the planet number."""
    assert all(order % planets == 0 for order in _lines(sun, ring, planets, multiple))


def test_pairs_repeat_twice_in_a_turn() -> None:
    """Mosher (2003): two like pairs repeat twice in a turn, so every line is even."""
    assert all(order % 2 == 0 for order in _lines(27, 99, 4))


def test_given_angles() -> None:
    """The same places typed as angles give the same lines, from wherever they are measured."""
    angles = tuple(Planet(math.radians(20.0 + 360.0 * step / 126)) for step in (0, 31, 63, 94))
    given_angles = planetary_sidebands(26.0, 27, 99, 4, angles)
    nearest = planetary_sidebands(26.0, 27, 99, 4)

    assert _orders(given_angles) == pytest.approx(_orders(nearest))
    assert given_angles.assembly.startswith("The planets fit at the angles given")


def _orders(found: Sidebands) -> dict[int, float]:
    return {line.order: line.amplitude for line in found.lines}


def test_frequencies_by_hand() -> None:
    """By hand: 29 and 99 teeth at 25.6 Hz turn the carrier at 5.8 Hz, so 100/rev is 580 Hz."""
    found = planetary_sidebands(25.6, 29, 99, 4)

    assert found.mesh == pytest.approx(574.2)
    assert found.lines[0].frequency == pytest.approx(580.0)
    assert found.lines[0].line == "1 × mesh + 1/rev"
    assert found.lines[0].planet_sum == pytest.approx(1.0)


def test_one_planet_shows_the_window() -> None:
    """A single planet has no other to cancel it: lines on both sides alike, the mesh highest."""
    found = _lines(31, 105, 1)

    assert next(iter(found)) == 105
    assert found[104] == pytest.approx(found[106])


def test_window_falls_to_half() -> None:
    """The Fourier series of the window gives back one at the sensor and half at the half angle."""
    series = passing_window(HALF_ANGLE)

    def height(angle: float) -> float:
        return series[0] + 2.0 * sum(c * math.cos(m * angle) for m, c in enumerate(series) if m)

    assert height(0.0) == pytest.approx(1.0)
    assert height(HALF_ANGLE) == pytest.approx(0.5)


def test_chart_crosses_out_what_cancels() -> None:
    """The figure marks the orders that cancel, the mesh among them."""
    seats = turned(nearest_places(29, 99, 4), 128)
    chart = planetary_sidebands_chart(planetary_sidebands(26.0, 29, 99, 4), 99, 1, seats)

    assert "the planets cancel" in chart.csv()
    assert chart.svg("lines")


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((26.0, 99, 27, 4), "Teeth of the ring less those of the sun must be at least 2, not -72"),
        ((26.0, 27, 99, 21), "Number of planets must be at least 1 and at most 20, not 21"),
        ((26.0, 27, 99, 7), "Gap between the tips of neighbouring planets, in modules must be"),
        ((26.0, 27, 99, 4, (Planet(0.0),)), "There must be one angle for each of 4 planets"),
    ],
)
def test_impossible_stages_are_named(arguments: tuple[float, int, int, int], message: str) -> None:
    """A ring smaller than its sun, too many planets and a missing angle are refused."""
    with pytest.raises(ValueError, match=message):
        planetary_sidebands(*arguments)
