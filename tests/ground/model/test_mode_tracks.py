"""Modes followed by their shapes against what uncoupled modes do."""

from dataclasses import replace

import numpy as np
import pytest

from calc.ground.model.aircraft import support_frequencies
from calc.ground.model.mode_tracks import mode_tracks
from calc.ground.model.multiblade import state_matrix
from calc.ground.stability import eigenvalues
from tests.ground.benchmark import HAMMOND_ROTOR, HAMMOND_SUPPORT, random_aircraft

WEAK = replace(HAMMOND_ROTOR, first_moment=1.0, hinge_offset=0.3048 * 289.0, lag_damping=100.0)


def test_weak_coupling_gives_the_uncoupled_frequencies() -> None:
    """Speed less and plus the lag frequency, and the support frequencies, across every crossing."""
    speeds = np.linspace(1.0, 50.0, 150)
    light = replace(HAMMOND_SUPPORT, damping_x=1000.0, damping_y=500.0)
    tracks = mode_tracks(WEAK, light, speeds.tolist())

    for speed, points in zip(speeds, tracks, strict=True):
        lag = WEAK.lag_frequency(speed)
        expected = [speed - lag, speed + lag, *support_frequencies(WEAK, light)]
        assert [p.frequency for p in points] == pytest.approx(expected, abs=0.2)


def test_regressing_lag_against_the_rotation_is_negative() -> None:
    """Stiff in plane: the lag frequency is above the rotor speed, the whirl is backward."""
    stiff = replace(WEAK, lag_stiffness=WEAK.lag_inertia * 40.0**2, hinge_offset=0.0)
    tracks = mode_tracks(stiff, HAMMOND_SUPPORT, [10.0, 20.0, 30.0, 60.0])

    assert [points[0].frequency for points in tracks] == pytest.approx(
        [-30.0, -20.0, -10.0, 20.0], abs=0.1
    )
    assert [points[1].frequency for points in tracks] == pytest.approx(
        [50.0, 60.0, 70.0, 100.0], abs=0.1
    )


def test_lag_modes_near_standstill_are_told_apart_by_their_whirl() -> None:
    """At a tenth of a radian a second both have nearly the frequency of the blades at rest."""
    stiff = replace(WEAK, lag_stiffness=WEAK.lag_inertia * 40.0**2, hinge_offset=0.0)
    ((regressing, progressing, *_),) = mode_tracks(stiff, HAMMOND_SUPPORT, [0.1])

    assert regressing.frequency == pytest.approx(-39.9, abs=0.02)
    assert progressing.frequency == pytest.approx(40.1, abs=0.02)


@pytest.mark.parametrize("seed", range(6))
def test_every_mode_is_an_eigenvalue_with_its_shape(seed: int) -> None:
    """Each point is one of the eight eigenvalues, and its shape solves the equations of motion."""
    rotor, support, speed = random_aircraft(seed)
    (points,) = mode_tracks(rotor, support, [speed])
    values = np.array(eigenvalues(rotor, support, speed))
    matrix = np.array(state_matrix(rotor, support, speed))
    weights = np.sqrt(
        [
            *[0.5 * rotor.blades * rotor.lag_inertia] * 2,
            support.mass_x + rotor.blades * rotor.blade_mass,
            support.mass_y + rotor.blades * rotor.blade_mass,
        ]
    )

    assert len({point.eigenvalue for point in points}) == 4
    for point in points:
        assert min(abs(values - point.eigenvalue)) == 0.0
        shape = np.array(point.shape) / weights
        state = np.concatenate([shape, point.eigenvalue * shape])
        residue = matrix @ state - point.eigenvalue * state
        assert np.linalg.norm(residue) < 1e-7 * np.linalg.norm(matrix @ state)
        assert sum(abs(part) ** 2 for part in point.shape) == pytest.approx(1.0)
