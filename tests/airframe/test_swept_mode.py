"""Swept mode against its closed form, limits and a full time integration."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.special import wofz

from calc.airframe.swept_mode import swept_share, swept_share_chart


@pytest.mark.parametrize("severity", [0.01, 0.225, 0.90, 3.6, 14.4, 200.0])
def test_closed_form(severity: float) -> None:
    """The slowly varying response is a Faddeeva function, whose largest value scipy finds.

    With a = i kappa / 2, completing the square in the integral of exp(t + a t²) gives
    b = sqrt(pi) / 2 / sqrt(-a) w(-i sqrt(-a) (tau + 1 / (2 a))).  Among the rates are the two
    common rules, 0.225 and 0.90.
    """
    a = 0.5j * 2.0 * severity / math.pi
    root = np.sqrt(-a)
    times = np.linspace(-8.0, 4.0, 400_001)
    response = math.sqrt(math.pi) / 2.0 / root * wofz(-1j * root * (times + 0.5 / a))
    rate = severity * 4.0 * 0.01**2 * 20.0**2

    expected = float(np.max(np.abs(response)))
    assert swept_share(20.0, 0.01, rate) == pytest.approx(expected, abs=2e-4)


@pytest.mark.parametrize("direction", [1.0, -1.0])
def test_time_integration(direction: float) -> None:
    """A mode integrated by scipy through a sweep, up or down, to 1 per cent.

    Finite damping makes the two directions differ by about that.
    """
    natural, damping, rate = 20.0, 0.02, 0.9 * 4.0 * 0.02**2 * 20.0**2
    omega, half = 2.0 * math.pi * natural, 12.0

    def slope(t: float, y: list[float]) -> list[float]:
        force = math.cos(omega * t + direction * math.pi * rate * t * t)
        return [y[1], omega**2 * (force - y[0]) - 2.0 * damping * omega * y[1]]

    times = np.linspace(-4.0, 6.0, 40001)
    found = solve_ivp(slope, (-half, 6.0), [0.0, 0.0], "DOP853", times, rtol=1e-8, atol=1e-8)
    share = 2.0 * damping * float(np.max(np.abs(found.y[0])))

    assert swept_share(natural, damping, rate) == pytest.approx(share, rel=0.01)


def test_no_sweep_builds_up_everything() -> None:
    """A force that stays at resonance, or nearly so, gives the whole steady response."""
    assert swept_share(20.0, 0.01, 0.0) == pytest.approx(1.0)
    assert swept_share(20.0, 0.01, 1e-6) == pytest.approx(1.0, abs=1e-6)


def test_fast_sweep_by_fresnel_integrals() -> None:
    """Without damping the amplitude after a fast sweep peaks at 1.17 times that of the far end.

    The far end is the whole Fresnel integral, sqrt(2 pi / kappa); the first overshoot is
    1.1706 of it, known from diffraction at an edge.
    """
    severity = 1e6
    kappa = 2.0 * severity / math.pi
    rate = severity * 4.0 * 0.01**2 * 20.0**2

    expected = 1.1706 * math.sqrt(2.0 * math.pi / kappa)
    assert swept_share(20.0, 0.01, rate) == pytest.approx(expected, rel=3e-3)


@settings(max_examples=30, deadline=None)
@given(st.floats(1e-3, 1e3), st.floats(1.05, 2.0))
def test_faster_builds_up_less(severity: float, factor: float) -> None:
    """A faster sweep never gives a larger fraction."""
    unit = 4.0 * 0.01**2 * 20.0**2

    slow, fast = (swept_share(20.0, 0.01, severity * f * unit) for f in (1.0, factor))
    assert fast <= slow + 1e-6


def test_chart_shows_this_sweep() -> None:
    """The figure marks the sweep of the form."""
    assert "this sweep" in swept_share_chart(20.0, 0.01, 0.1).svg("sweep")


def test_impossible_sweeps_are_named() -> None:
    """A mode without damping builds up for ever and is refused."""
    with pytest.raises(ValueError, match="Damping ratio must be above 0"):
        swept_share(20.0, 0.0, 1.0)
