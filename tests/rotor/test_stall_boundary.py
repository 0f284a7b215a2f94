"""Stall boundary: consistent with the angle of the retreating tip."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.rotor.retreating_tip import classical_retreating_tip, retreating_tip
from calc.rotor.stall_boundary import (
    classical_stall_boundary_blade_loading,
    stall_boundary_blade_loading,
)

ROTOR = 0.08, 0.07, math.radians(-8.0), 5.7


@given(st.floats(0.0, 0.45), st.floats(0.18, 0.3))
def test_boundary_gives_the_limit(advance_ratio: float, limit: float) -> None:
    """At the blade loading of the boundary the tip angle is the limit, in either form."""
    loading = stall_boundary_blade_loading(advance_ratio, *ROTOR, limit)
    classical = classical_stall_boundary_blade_loading(advance_ratio, *ROTOR, limit)

    if loading is not None and loading > 0.0:
        angle = retreating_tip(advance_ratio, loading, *ROTOR).tip_angle
        assert angle == pytest.approx(limit, rel=1e-12)
    if classical is not None and classical > 0.0:
        angle = classical_retreating_tip(advance_ratio, classical, *ROTOR).tip_angle
        assert angle == pytest.approx(limit, rel=1e-12)


def test_boundary_falls_and_the_classical_one_is_too_high() -> None:
    """Faster flight carries less, and the form without reverse flow promises more."""
    ratios = [0.2, 0.25, 0.3, 0.35, 0.4]
    found = [stall_boundary_blade_loading(ratio, *ROTOR) for ratio in ratios]
    classical = [classical_stall_boundary_blade_loading(ratio, *ROTOR) for ratio in ratios]

    loadings = [loading for loading in found if loading is not None]
    promised = [loading for loading in classical if loading is not None]
    assert len(loadings) == len(promised) == len(ratios)
    assert loadings == sorted(loadings, reverse=True)
    assert all(more > less for more, less in zip(promised, loadings, strict=True))


def test_past_the_limit_without_load() -> None:
    """A tip at its limit without any load leaves a blade loading of zero."""
    assert stall_boundary_blade_loading(0.6, 0.08, 0.3, math.radians(-8.0), 5.7) == 0.0


def test_limit_out_of_reach() -> None:
    """In hover no blade loading up to 0.4 brings this tip to 45 deg."""
    assert stall_boundary_blade_loading(0.0, *ROTOR, math.radians(45.0)) is None
