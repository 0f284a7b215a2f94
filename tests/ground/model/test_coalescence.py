"""Coalescence speeds satisfy the condition that they stand for."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.ground.model.coalescence import coalescence_speed, coalescence_speeds
from calc.ground.model.general_support import coalescences, two_directions
from tests.ground.example import ROTOR, SUPPORT


@given(offset=st.floats(0.0, 0.99), spring=st.floats(0.0, 1e4), frequency=st.floats(0.5, 100.0))
def test_speed_less_lag_frequency_is_the_support_frequency(
    offset: float, spring: float, frequency: float
) -> None:
    """The root satisfies the condition before it was squared."""
    speed = coalescence_speed(offset, spring, frequency)

    assert speed is not None
    lag = math.sqrt(spring + offset * speed**2)
    assert speed - lag == pytest.approx(frequency, rel=1e-9, abs=1e-9 * speed)


def test_without_lag_spring_it_is_a_ratio() -> None:
    """The support frequency over one less nu: 10 / (1 - 0.3)."""
    assert coalescence_speed(0.09, 0.0, 10.0) == pytest.approx(10.0 / 0.7)


def test_stiff_in_plane_has_none() -> None:
    """Offset times first moment not below the second moment: no coalescence."""
    assert coalescence_speed(1.0, 5.0, 10.0) is None


def test_uniform_blade_with_a_twentieth_of_hinge_offset() -> None:
    """Uniform blade, by hand: 5 % hinge offset gives nu² = 1.5 × 0.05 / 0.95, nu = 0.281."""
    offset = 1.5 * 0.05 / 0.95
    speed = coalescence_speed(offset, 0.0, 10.0)

    assert speed is not None
    assert (speed - 10.0) / speed == pytest.approx(0.281, abs=5e-4)


def test_speeds_of_a_rotor_with_lag_springs_satisfy_the_condition() -> None:
    """Rotor speed less lag frequency is the support frequency, by the rotor's own lag frequency."""
    rotor = replace(ROTOR, lag_stiffness=20e3)
    speeds = coalescence_speeds(rotor, SUPPORT)

    for speed, mass, stiffness in zip(speeds, (3200.0, 1600.0), (600e3, 640e3), strict=True):
        assert speed - rotor.lag_frequency(speed) == pytest.approx(math.sqrt(stiffness / mass))
    assert coalescences(rotor, two_directions(SUPPORT)) == pytest.approx(sorted(speeds))
