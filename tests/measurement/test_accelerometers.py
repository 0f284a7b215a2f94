"""Accelerometers: which motions a plan separates, against points that are really turned."""

import math

import numpy as np
import pytest
from scipy.linalg import null_space
from scipy.spatial.transform import Rotation

from calc.measurement.accelerometers import CHANNELS, MOTIONS, Channel, channel_plan

AXES = {"fore_and_aft": 0, "lateral": 1, "vertical": 2}
SMALL = 1e-6
"""Angle in rad of a finite rotation; its square is lost beside it."""


def readings(channels: tuple[Channel, ...], arm: float) -> np.ndarray:
    """Return what each channel reads of each motion of one, by moving the points in space."""
    columns = []
    for motion in range(6):
        read = []
        for channel in channels:
            point = np.array([channel.aft, channel.starboard, channel.up])
            axis = np.eye(3)[motion % 3]
            turned = Rotation.from_rotvec(SMALL * axis).apply(point)
            moved = axis if motion < 3 else (turned - point) / SMALL / arm
            read.append(moved[AXES[channel.direction]])
        columns.append(read)
    return np.array(columns).T


def drawn(seed: int) -> tuple[Channel, ...]:
    """Return a plan of one to nine channels at places of a coarse grid, so that some are blind."""
    dice = np.random.default_rng(seed)
    plan = []
    for number in range(dice.integers(1, 10)):
        aft, starboard, up = map(float, dice.integers(-1, 2, 3))
        plan.append(Channel(f"channel {number}", aft, starboard, up, str(dice.choice(list(AXES)))))
    return tuple(plan)


@pytest.mark.parametrize("seed", range(60))
def test_random_plan_separates_what_the_null_space_leaves(seed: int) -> None:
    """SciPy's null space says which motions mix, NumPy's pseudo-inverse the noise."""
    channels, arm = drawn(seed), 0.5 + seed / 40.0
    matrix = readings(channels, arm)
    blind = null_space(matrix, rcond=1e-5)
    mixed = blind @ blind.T
    noise = np.linalg.norm(np.linalg.pinv(matrix, rcond=1e-5), axis=1)
    plan = channel_plan(channels, arm)

    assert plan.spare == len(channels) - (6 - blind.shape[1])
    for number, found in enumerate(plan.motions):
        others = {
            MOTIONS[other]
            for other in range(6)
            if other != number and abs(mixed[number, other]) > 1e-4
        }
        if mixed[number, number] < 1e-4:
            assert found.state == "separated"
            assert found.noise_gain == pytest.approx(noise[number], rel=1e-4)
        else:
            assert found.noise_gain is None
            words = found.state.removeprefix("mixed with ").split(", ")
            assert set(words) == (others or {"not seen"})


def test_motion_on_the_example_plan_is_found_again() -> None:
    """Six motions, read by seven channels, come back by least squares: the plan is whole."""
    channels = CHANNELS.example
    matrix = readings(channels, 1.0)
    motion = np.array([0.3, -0.2, 0.1, 0.05, -0.07, 0.02])
    found, *_ = np.linalg.lstsq(matrix, matrix @ motion, rcond=None)
    plan = channel_plan(channels)

    assert found == pytest.approx(motion, abs=1e-5)
    assert plan.verdict == "All six are separated"
    assert plan.spare == 1


def test_two_laterals_at_one_height_do_not_tell_translation_from_roll() -> None:
    """Another pair a metre below does; vertical motion is then still not seen."""
    high = Channel("mast", 0.0, 0.0, -0.3, "lateral")
    twin = Channel("mast again", 0.0, 0.3, -0.3, "lateral")
    low = Channel("gearbox", 0.0, 0.0, -1.3, "lateral")

    assert channel_plan((high, twin)).motions[1].state == "mixed with roll"
    told = channel_plan((high, low))
    assert [told.motions[k].state for k in (1, 3, 2)] == ["separated", "separated", "not seen"]
    assert told.motions[3].noise_gain == pytest.approx(math.sqrt(2.0))
    assert told.verdict == "Separated: lateral translation, roll"
