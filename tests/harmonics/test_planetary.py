"""Planetary stage against kinematics seen from the carrier."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.harmonics.planetary import planetary_stage

teeth = st.integers(10, 200)


@given(st.floats(0.1, 1e3), teeth, teeth, teeth)
def test_mesh_is_the_same_at_the_sun_and_at_the_ring(
    sun: float, sun_teeth: int, ring_teeth: int, planet_teeth: int
) -> None:
    """Seen from the carrier, sun, planet and ring pass the same number of teeth."""
    stage = planetary_stage(sun, sun_teeth, ring_teeth, planet_teeth, 3)

    assert stage.mesh == pytest.approx(sun_teeth * (sun - stage.carrier))
    assert stage.mesh == pytest.approx(planet_teeth * stage.planet_spin)


def test_sun_as_large_as_the_ring_halves_the_speed() -> None:
    """A differential whose wheels are equal turns its carrier at half the speed."""
    assert planetary_stage(10.0, 30, 30, 15, 4).carrier == 5.0


def test_by_hand() -> None:
    """By hand: 28 Hz, sun 27 and ring 99 give a carrier at 6 Hz and a mesh at 594 Hz."""
    stage = planetary_stage(28.0, 27, 99, 35, 4)

    assert stage.carrier == pytest.approx(6.0)
    assert stage.mesh == pytest.approx(594.0)
    assert stage.planet_pass == pytest.approx(24.0)


def test_impossible_stages_are_named() -> None:
    """Half a tooth and a sun without teeth are refused."""
    with pytest.raises(ValueError, match="Teeth of the sun must be at least 1, not 0"):
        planetary_stage(10.0, 0, 99, 35, 4)
    with pytest.raises(ValueError, match="Teeth of the ring must be a whole number"):
        planetary_stage(10.0, 27, 99.5, 35, 4)  # type: ignore[arg-type] # wrong on purpose
