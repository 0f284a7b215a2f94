"""Advance ratio and reverse flow: the area by quadrature, limits and errors."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from calc.rotor.advance_ratio import (
    advance_ratio,
    blade_airspeed,
    reverse_flow,
    reverse_flow_fraction,
)

RATIOS = st.floats(0.0, 5.0)


@pytest.mark.parametrize("ratio", [0.1, 0.3, 0.7, 1.0, 1.0001, 1.3, 2.0, 10.0])
def test_reverse_flow_area_by_quadrature(ratio: float) -> None:
    """The area where x + mu sin(psi) < 0, integrated over the retreating side."""

    def half_square(azimuth: float) -> float:
        return 0.5 * min(1.0, -ratio * math.sin(azimuth)) ** 2

    kinks = []
    if ratio > 1.0:
        kinks = [math.pi + math.asin(1.0 / ratio), 2.0 * math.pi - math.asin(1.0 / ratio)]
    area, _ = quad(
        half_square, math.pi, 2.0 * math.pi, points=kinks or None, epsabs=1e-13, epsrel=1e-13
    )

    assert reverse_flow_fraction(ratio) == pytest.approx(area / math.pi, rel=1e-10)


def test_reverse_flow_area_at_its_ends() -> None:
    """Nothing in hover, a quarter at an advance ratio of 1, half of a stopped rotor's disc."""
    assert reverse_flow_fraction(0.0) == 0.0
    assert reverse_flow_fraction(1.0) == 0.25
    assert reverse_flow_fraction(1e4) == pytest.approx(0.5, abs=1e-4)


@given(RATIOS, RATIOS)
def test_reverse_flow_grows_with_the_advance_ratio(one: float, other: float) -> None:
    """More advance ratio never means less reverse flow, and never more than half of the disc."""
    low, high = sorted((one, other))

    assert reverse_flow_fraction(low) <= reverse_flow_fraction(high) < 0.5


@given(st.floats(0.0, 1.0), st.floats(0.0, 2.0 * math.pi), st.floats(0.0, 0.99))
def test_reverse_flow_is_a_circle(station: float, azimuth: float, ratio: float) -> None:
    """The air comes from behind exactly inside the circle of diameter mu, at 270 deg."""
    x, y = station * math.cos(azimuth), station * math.sin(azimuth)
    distance = math.hypot(x, y + ratio / 2.0)

    if abs(distance - ratio / 2.0) > 1e-9:
        reversed_there = blade_airspeed(station, azimuth, ratio * 200.0, 200.0) < 0.0
        assert reversed_there == (distance < ratio / 2.0)


def test_state_repeats_the_single_formulas() -> None:
    """The composite gives advance ratio, area share and share of the blade's length."""
    state = reverse_flow(7.0, 30.0, 84.0, math.radians(5.0))

    assert state.advance_ratio == advance_ratio(84.0, 210.0, math.radians(5.0))
    assert state.reverse_flow_fraction == reverse_flow_fraction(state.advance_ratio)
    assert state.reversed_span == state.advance_ratio
    assert reverse_flow(7.0, 3.0, 84.0).reversed_span == 1.0


def test_impossible_inputs_are_named() -> None:
    """Flight backwards, stations off the blade and a disc on its edge are refused."""
    with pytest.raises(ValueError, match="True airspeed must be at least 0 m/s, not -1 m/s"):
        advance_ratio(-1.0, 200.0)
    with pytest.raises(ValueError, match="Radial station must be at least 0 and at most 1"):
        blade_airspeed(1.1, 0.0, 50.0, 200.0)
    with pytest.raises(ValueError, match="Disc incidence, nose down must be above -90 deg"):
        advance_ratio(50.0, 200.0, math.pi)
