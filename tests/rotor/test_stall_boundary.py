"""Stall boundary: consistent with the angles of the retreating blade, at both stations."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.rotor.retreating_tip import classical_retreating_tip, retreating_tip
from calc.rotor.stall_boundary import (
    boundary_blade_loading,
    classical_boundary_blade_loading,
    stall_boundary,
)
from calc.rotor.stall_state import PERHAPS_AUTOROTATIVE, POWERED

ROTOR = 0.08, 0.07, math.radians(-8.0), 5.7


@given(st.floats(0.0, 0.45), st.floats(0.18, 0.3))
def test_boundary_gives_the_limit(advance_ratio: float, limit: float) -> None:
    """At the blade loading of the boundary the angle is the limit, at each station and form."""
    tip = boundary_blade_loading(advance_ratio, *ROTOR, limit)
    inboard = boundary_blade_loading(advance_ratio, *ROTOR, limit, "inboard")
    classical = classical_boundary_blade_loading(advance_ratio, *ROTOR, limit)

    if tip:
        angle = retreating_tip(advance_ratio, tip, *ROTOR).tip_angle
        assert angle == pytest.approx(limit, rel=1e-12)
    if inboard:
        angle = retreating_tip(advance_ratio, inboard, *ROTOR).inboard_angle
        assert angle == pytest.approx(limit, rel=1e-12)
    if classical:
        angle = classical_retreating_tip(advance_ratio, classical, *ROTOR).tip_angle
        assert angle == pytest.approx(limit, rel=1e-12)
    assert tip is None or classical is None or tip <= classical


def test_form_gives_both_stations() -> None:
    """The result holds the boundary of either station and names the limiting one."""
    found = stall_boundary(0.3, *ROTOR)

    assert found is not None
    assert found.tip_blade_loading == boundary_blade_loading(0.3, *ROTOR)
    assert found.inboard_blade_loading == boundary_blade_loading(0.3, *ROTOR, station="inboard")
    assert found.tip_blade_loading != found.inboard_blade_loading
    assert found.limiting == POWERED


def test_disc_that_leans_back_may_autorotate() -> None:
    """With the air coming up through the disc both stations are named."""
    found = stall_boundary(0.3, 0.08, -0.12, math.radians(-8.0), 5.7)

    assert found is not None
    assert found.limiting == PERHAPS_AUTOROTATIVE


def test_boundary_falls_and_the_classical_one_is_too_high() -> None:
    """Faster flight carries less, and the form without reverse flow promises more."""
    ratios = [0.2, 0.25, 0.3, 0.35, 0.4]
    found = [boundary_blade_loading(ratio, *ROTOR) for ratio in ratios]
    classical = [classical_boundary_blade_loading(ratio, *ROTOR) for ratio in ratios]

    loadings = [loading for loading in found if loading is not None]
    promised = [loading for loading in classical if loading is not None]
    assert len(loadings) == len(promised) == len(ratios)
    assert loadings == sorted(loadings, reverse=True)
    assert all(more > less for more, less in zip(promised, loadings, strict=True))


def test_past_the_limit_without_load() -> None:
    """A tip at its limit without any load leaves a blade loading of zero."""
    assert boundary_blade_loading(0.6, 0.08, 0.3, math.radians(-8.0), 5.7) == 0.0


def test_limit_out_of_reach() -> None:
    """In hover no blade loading up to 0.4 brings either station to 45 deg."""
    assert boundary_blade_loading(0.0, *ROTOR, math.radians(45.0)) is None
    assert stall_boundary(0.0, *ROTOR, math.radians(45.0)) is None
