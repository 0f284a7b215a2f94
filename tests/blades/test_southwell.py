"""Southwell coefficients against closed forms, scipy's integrals and the rotating beam."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from calc.blades.beam_modes import frequencies
from calc.blades.rotating_beam import beam_frequencies
from calc.blades.segments import SEGMENTS, Blade, Segment
from calc.blades.southwell import crossing_speed, southwell_coefficients, southwell_frequency
from calc.units import RPM

UNIFORM = (Segment(1.0, 1.0, 1.0),)
EXAMPLE = Blade(SEGMENTS.example)


def test_hinged_first_mode_is_exact() -> None:
    """A hinged blade has 1 and 3/2, and does not resist at rest."""
    first = southwell_coefficients(Blade(UNIFORM, "hinged"), modes=1)[0]

    assert first.at_rest == 0.0
    assert first.at_axis == pytest.approx(1.0)
    assert first.with_offset == pytest.approx(1.5)


def test_clamped_first_mode_by_quadrature() -> None:
    """The closed shape of a clamped beam, integrated by scipy, gives 1.1933 and 1.5709."""
    b = float(brentq(lambda x: math.cos(x) * math.cosh(x) + 1.0, 1.8, 1.95))
    s = (math.cosh(b) + math.cos(b)) / (math.sinh(b) + math.sin(b))

    def shape(z: float) -> float:
        return math.cosh(b * z) - math.cos(b * z) - s * (math.sinh(b * z) - math.sin(b * z))

    def slope(z: float) -> float:
        return b * (math.sinh(b * z) + math.sin(b * z) - s * (math.cosh(b * z) - math.cos(b * z)))

    inertia = quad(lambda z: shape(z) ** 2, 0.0, 1.0)[0]
    at_axis = quad(lambda z: (1.0 - z**2) / 2.0 * slope(z) ** 2, 0.0, 1.0)[0] / inertia
    with_offset = quad(lambda z: (1.0 - z) * slope(z) ** 2, 0.0, 1.0)[0] / inertia

    found = southwell_coefficients(Blade(UNIFORM), modes=1)[0]

    assert found.at_axis == pytest.approx(at_axis, rel=1e-7)
    assert found.with_offset == pytest.approx(with_offset, rel=1e-7)
    assert found.at_axis == pytest.approx(1.1933, abs=0.5e-4)
    assert found.with_offset == pytest.approx(1.5709, abs=0.5e-4)


@settings(max_examples=15, deadline=None)
@given(st.floats(0.5, 60.0), st.floats(0.0, 1.0))
def test_never_below_the_exact_first_frequency(speed: float, offset: float) -> None:
    """The shape at rest gives a first frequency from above."""
    first = southwell_coefficients(EXAMPLE, modes=1)[0]
    exact = frequencies(EXAMPLE.beam(offset), speed, "flap", 1)[0]
    rise = first.at_axis + first.with_offset * offset / EXAMPLE.length

    found = 2.0 * math.pi * southwell_frequency(first.at_rest, rise, speed)

    assert found >= exact * (1.0 - 1e-9)


def test_exact_secant_drifts_as_known() -> None:
    """The true rise of the uniform clamped blade is 1.1922 at a speed of 1 and 1.1187 at 12."""
    at_rest = beam_frequencies(1.0, 0.0, 1.0, 1.0, 0.0, modes=1)[0]
    secants = [
        (beam_frequencies(1.0, 0.0, 1.0, 1.0, speed, modes=1)[0] ** 2 - at_rest**2) / speed**2
        for speed in (1.0, 12.0)
    ]

    assert np.round(secants, 4).tolist() == [1.1922, 1.1187]


def test_crossing_by_hand() -> None:
    """A mode at 3 Hz with a coefficient of 1.2 meets 3/rev at 3 / sqrt(7.8) turns a second."""
    speed = crossing_speed(3.0, 1.2, 3)

    assert speed is not None
    assert RPM.reading(speed) == pytest.approx(60.0 * 3.0 / math.sqrt(7.8))


@given(st.floats(0.1, 30.0), st.floats(0.0, 20.0), st.integers(1, 12))
def test_at_the_crossing_the_mode_is_the_harmonic(
    at_rest: float, coefficient: float, harmonic: int
) -> None:
    """Where they cross, the frequency is the multiple of rotor speed."""
    speed = crossing_speed(at_rest, coefficient, harmonic)

    if speed is None:
        assert harmonic**2 <= coefficient
    elif harmonic**2 > 1.01 * coefficient:
        found = southwell_frequency(at_rest, coefficient, speed)
        assert found == pytest.approx(harmonic * speed / (2.0 * math.pi), rel=1e-9)


def test_lag_coefficient_is_less_by_one() -> None:
    """A free lag hinge at the axis has no frequency; less than one is no flap coefficient."""
    assert southwell_frequency(0.0, 1.0, 40.0, "lag") == 0.0
    with pytest.raises(ValueError, match="Southwell coefficient must be at least 0"):
        southwell_frequency(3.0, 0.5, 40.0, "lag")
