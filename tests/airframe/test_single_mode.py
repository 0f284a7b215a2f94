"""Single mode against closed forms and a time integration."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from calc.airframe.airframe_mode import AirframeMode
from calc.airframe.single_mode import amplification, mode_response, mode_response_chart, phase


def test_limits_in_closed_form() -> None:
    """At rest one and in phase; at resonance 1/(2 zeta) and a quarter cycle late."""
    assert amplification(0.0, 0.1) == 1.0
    assert phase(0.0, 0.1) == 0.0
    assert amplification(1.0, 0.1) == pytest.approx(5.0)
    assert phase(1.0, 0.1) == pytest.approx(-math.pi / 2.0)
    assert phase(2.0, 0.0) == -math.pi
    assert amplification(math.sqrt(2.0), 0.0) == pytest.approx(1.0)


@pytest.mark.parametrize(("ratio", "damping"), [(0.5, 0.1), (1.0, 0.05), (1.7, 0.2)])
def test_time_integration(ratio: float, damping: float) -> None:
    """A mass on a spring integrated by scipy settles to this amplitude and phase."""
    settle = 12.0 / damping

    def slope(t: float, y: list[float]) -> list[float]:
        return [y[1], math.cos(ratio * t) - y[0] - 2.0 * damping * y[1]]

    times = settle + np.linspace(0.0, 2.0 * math.pi / ratio, 65)[:-1]
    found = solve_ivp(slope, (0.0, times[-1]), [0.0, 0.0], "DOP853", times, rtol=1e-10, atol=1e-12)
    turning = 2.0 * np.mean(found.y[0] * np.exp(-1j * ratio * times))

    assert amplification(ratio, damping) == pytest.approx(abs(turning), rel=1e-4)
    assert phase(ratio, damping) == pytest.approx(np.angle(turning), abs=1e-4)


def test_at_its_natural_frequency_only_damping_holds_a_mode() -> None:
    """The velocity per force is one over the damping coefficient."""
    natural = math.sqrt(8000.0 / 2.0) / (2.0 * math.pi)
    mode = AirframeMode(2.0, natural, 5.0 / (2.0 * math.sqrt(8000.0 * 2.0)))

    assert mode_response(1.0, mode, natural).velocity == pytest.approx(1.0 / 5.0)


def test_far_above_its_frequency_a_mode_is_a_free_mass() -> None:
    """The acceleration is then the force over the mass."""
    found = mode_response(1.0, AirframeMode(10.0, 1e-3, 0.01), 100.0)

    assert found.acceleration == pytest.approx(1.0 / 10.0)
    assert found.velocity == pytest.approx(1.0 / 10.0 / (2.0 * math.pi * 100.0))


@given(st.floats(0.0, 10.0), st.floats(0.001, 0.999))
def test_phase_lags_and_damping_never_amplifies(ratio: float, damping: float) -> None:
    """The response never leads, and an undamped mode responds at least as much."""
    assert -math.pi <= phase(ratio, damping) <= 0.0
    if ratio != 1.0 and (1.0 - ratio**2) ** 2 > 0.0:
        assert amplification(ratio, damping) <= amplification(ratio, 0.0)


def test_undamped_resonance_is_refused() -> None:
    """Forced at its natural frequency, an undamped mode has no steady response."""
    for formula in (amplification, phase):
        with pytest.raises(ValueError, match="Distance from an undamped resonance must be above 0"):
            formula(1.0, 0.0)
    assert mode_response_chart(500.0, AirframeMode(800.0, 12.5, 0.0), 13.0).table()


def test_impossible_modes_are_named() -> None:
    """A damping ratio of one or more does not belong to this model."""
    with pytest.raises(ValueError, match="Damping ratio must be at least 0 and below 1, not 1"):
        amplification(1.0, 1.0)
