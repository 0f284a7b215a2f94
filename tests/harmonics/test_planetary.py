"""Planetary stage against kinematics seen from the carrier."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.form.calculation import calculate, start
from calc.harmonics.planetary import planetary_stage


@given(st.floats(0.1, 1e3), st.integers(20, 60), st.integers(15, 60), st.integers(-4, 4))
def test_mesh_is_the_same_at_the_sun_and_at_the_ring(
    sun: float, sun_teeth: int, planet_teeth: int, shift: int
) -> None:
    """Seen from the carrier, sun, planet and ring pass the same number of teeth."""
    ring_teeth = sun_teeth + 2 * planet_teeth + shift
    stage = planetary_stage(sun, sun_teeth, ring_teeth, planet_teeth, 3)

    assert stage.mesh == pytest.approx(sun_teeth * (sun - stage.carrier))
    assert stage.mesh == pytest.approx(planet_teeth * stage.planet_spin)
    assert stage.teeth_left == shift


def test_faults_by_counting_strikes() -> None:
    """A marked tooth of each wheel is followed in small steps of time and its strikes counted.

    The wheels are rolled on one another from rest: the sun turns at 28 Hz, the carrier by 27/126
    of it, a planet back by 99/35 of the carrier's turn.  A tooth strikes where it passes a mesh.
    """
    seconds = 35.25
    sun = np.linspace(0.0, 28.0 * seconds, 200_001)
    carrier = sun * 27 / 126
    planet = carrier - carrier * 99 / 35
    quarters, opposite = (0.01, 0.26, 0.51, 0.76), (0.01, 0.51)
    meshes = {
        "ring": (carrier, quarters),  # four planets pass a tooth of the ring
        "sun": (sun - carrier, quarters),  # the sun passes four planets
        "planet": (planet - carrier, opposite),  # ring outside, sun inside
    }
    struck = {
        wheel: sum(int(np.abs(np.diff(np.floor(turns - at))).sum()) for at in places)
        for wheel, (turns, places) in meshes.items()
    }
    stage = planetary_stage(28.0, 27, 99, 35, 4)

    assert struck["ring"] == pytest.approx(stage.ring_fault * seconds, abs=1.0)
    assert struck["sun"] == pytest.approx(stage.sun_fault * seconds, abs=1.0)
    assert struck["planet"] == pytest.approx(stage.planet_fault * seconds, abs=1.0)


def test_by_hand() -> None:
    """By hand: 28 Hz, sun 27 and ring 99 give a carrier at 6 Hz and a mesh at 594 Hz."""
    stage = planetary_stage(28.0, 27, 99, 35, 4)

    assert stage.carrier == pytest.approx(6.0)
    assert stage.mesh == pytest.approx(594.0)
    assert stage.planet_pass == pytest.approx(24.0)


def test_impossible_stages_are_named() -> None:
    """Half a tooth, a sun without teeth, a ring smaller than its sun, and planets that overlap."""
    with pytest.raises(ValueError, match="Teeth of the sun must be at least 1 and at most 1000"):
        planetary_stage(10.0, 0, 99, 35, 4)
    with pytest.raises(ValueError, match="Teeth of the ring must be a whole number"):
        planetary_stage(10.0, 27, 99.5, 35, 4)  # type: ignore[arg-type] # wrong on purpose
    with pytest.raises(
        ValueError, match="Teeth of the ring less those of the sun must be at least"
    ):
        planetary_stage(10.0, 99, 27, 35, 4)
    with pytest.raises(ValueError, match="Gap between the tips of neighbouring planets"):
        planetary_stage(10.0, 27, 99, 35, 7)


def test_teeth_that_do_not_fit_are_warned_of() -> None:
    """A planet of 20 teeth leaves 32 between a sun of 27 and a ring of 99: no shift is so large."""
    entries = start("harmonics.planetary.planetary_stage") | {
        "sun_teeth": "27",
        "ring_teeth": "99",
        "planet_teeth": "20",
    }
    found = calculate("harmonics.planetary.planetary_stage", entries)

    assert any("Ring teeth less sun and two planets 32 is outside" in w for w in found.warnings)
