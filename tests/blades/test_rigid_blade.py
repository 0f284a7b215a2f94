"""Rigid blade against closed forms and a time integration of its motion."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from calc.blades.rigid_blade import (
    equivalent_hinge_offset,
    flap_frequency_ratio,
    lag_frequency_ratio,
    uniform_flap_frequency_ratio,
)


def test_uniform_blade_by_hand() -> None:
    """An offset of 4 per cent gives 1.030776 in flap and 0.25 in lag."""
    moments = (0.2, 10.0 * 4.8**2 / 2.0, 10.0 * 4.8**3 / 3.0)

    assert flap_frequency_ratio(*moments, 40.0) == pytest.approx(1.030776, abs=0.5e-6)
    assert lag_frequency_ratio(*moments, 40.0) == pytest.approx(0.25)
    assert uniform_flap_frequency_ratio(0.2, 5.0) == pytest.approx(1.030776, abs=0.5e-6)


def test_equivalent_offset_by_hand() -> None:
    """A flap ratio of 1.12 stands for an offset of 0.1450."""
    assert equivalent_hinge_offset(1.12) == pytest.approx(0.1450, abs=0.5e-4)


def test_central_hinge_without_spring() -> None:
    """A blade hinged at the axis flaps once per revolution and lags freely."""
    assert flap_frequency_ratio(0.0, 100.0, 300.0, 40.0) == 1.0
    assert lag_frequency_ratio(0.0, 100.0, 300.0, 40.0) == 0.0


@pytest.mark.parametrize(("offset", "spring"), [(0.2, 0.0), (0.0, 60000.0), (0.3, 30000.0)])
def test_time_integration_of_a_flapping_blade(offset: float, spring: float) -> None:
    """A blade released at a small angle, integrated by scipy as point masses, swings at this rate.

    Each point mass sits at radius e + x cos(beta); its centrifugal force acts outward at height
    x sin(beta).
    """
    speed = 40.0
    stations = (np.arange(200) + 0.5) * 4.8 / 200
    masses = np.full(200, 10.0 * 4.8 / 200)
    inertia = float(np.sum(masses * stations**2))

    def slope(_: float, y: list[float]) -> list[float]:
        outward = masses * speed**2 * (offset + stations * math.cos(y[0]))
        restoring = float(np.sum(outward * stations)) * math.sin(y[0]) + spring * y[0]
        return [y[1], -restoring / inertia]

    def level(_: float, y: list[float]) -> float:
        return y[0]

    swing = solve_ivp(
        slope, (0.0, 1.0), [1e-3, 0.0], "DOP853", events=level, rtol=1e-11, atol=1e-14
    )
    crossings = swing.t_events[0]
    half_period = (crossings[-1] - crossings[0]) / (len(crossings) - 1)
    first_moment = float(np.sum(masses * stations))

    expected = math.pi / half_period / speed
    found = flap_frequency_ratio(offset, first_moment, inertia, speed, spring)
    assert found == pytest.approx(expected, rel=1e-6)


@given(
    st.floats(0.0, 1.0),
    st.floats(1.0, 500.0),
    st.floats(1.0, 2000.0),
    st.floats(1.0, 100.0),
    st.floats(0.0, 1e5),
)
def test_flap_and_lag_differ_by_one(
    offset: float, moment: float, inertia: float, speed: float, spring: float
) -> None:
    """With equal springs the squares of the two ratios differ by one."""
    flap = flap_frequency_ratio(offset, moment, inertia, speed, spring)
    lag = lag_frequency_ratio(offset, moment, inertia, speed, spring)

    assert flap**2 - lag**2 == pytest.approx(1.0, rel=1e-9, abs=1e-9 * flap**2)


@given(st.floats(0.0, 4.5))
def test_equivalent_offset_undoes_the_uniform_blade(offset: float) -> None:
    """The equivalent offset of a uniform blade is its own."""
    ratio = uniform_flap_frequency_ratio(offset, 5.0)

    assert equivalent_hinge_offset(ratio) == pytest.approx(offset / 5.0, abs=1e-9)


def test_impossible_blades_are_named() -> None:
    """A hinge beyond the tip and a rotor at rest are refused."""
    with pytest.raises(ValueError, match="Hinge offset over radius must be at least 0 and below 1"):
        uniform_flap_frequency_ratio(6.0, 5.0)
    with pytest.raises(ValueError, match="Rotor speed must be above 0 rpm, not 0 rpm"):
        flap_frequency_ratio(0.2, 100.0, 300.0, 0.0)
    with pytest.raises(ValueError, match="Flap frequency over rotor speed must be at least 1"):
        equivalent_hinge_offset(0.9)
