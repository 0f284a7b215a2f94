"""The least damped motion of a sweep against a fine sweep by numpy."""

import math
from dataclasses import replace

import numpy as np
import pytest

from calc.ground.hub_damping_floor import hub_damping_floor
from calc.ground.model.aircraft import HubDirection, Rotor, Support
from calc.ground.model.creep import creep_rates, is_creep
from calc.ground.model.multiblade import state_matrix
from calc.ground.search.least_damped import ratio
from calc.ground.stability import least_damped_motion, worst_speed
from tests.ground.benchmark import random_aircraft
from tests.ground.example import ROTOR, SUPPORT, SWEEP


def ratios(rotor: Rotor, support: Support, speed: float) -> list[tuple[float, float]]:
    """Return damping ratio and frequency in Hz of each eigenvalue by numpy."""
    values = np.linalg.eigvals(np.array(state_matrix(rotor, support, speed)))
    return [(-s.real / abs(s), abs(s.imag) / (2.0 * math.pi)) for s in values]


@pytest.mark.parametrize("seed", range(8))
def test_lowest_damping_ratio_of_blades_that_swing(seed: int) -> None:
    """Numpy at 2000 speeds, lag dampers too light to creep: the same ratio, speed and frequency."""
    rotor, support, speed = random_aircraft(seed)
    slow = rotor.lag_frequency(0.4 * speed)
    rotor = replace(rotor, lag_damping=min(rotor.lag_damping, 1.8 * rotor.lag_inertia * slow))
    low, high = 0.4 * speed, 2.0 * speed
    found = least_damped_motion(rotor, support, low, high)

    tried = [(min(ratios(rotor, support, s)), s) for s in np.linspace(low, high, 2000)]
    (expected, frequency), at = min(tried)
    assert found.damping_ratio == pytest.approx(expected, abs=2e-6)
    assert found.rotor_speed == pytest.approx(at, rel=2e-3)
    assert found.frequency == pytest.approx(frequency, rel=5e-3)


def test_blades_that_creep_back_are_left_out() -> None:
    """Heavy lag dampers: the slow creep has the highest growth rate, and is not called damped."""
    heavy, quiet = replace(ROTOR, lag_damping=20e3), replace(SUPPORT, damping_y=12e3)
    found = least_damped_motion(heavy, quiet, *SWEEP)
    speed, growth = worst_speed(heavy, quiet, *SWEEP)
    (creep,) = creep_rates(heavy, speed, (heavy.lag_damping,))

    assert growth == pytest.approx(creep, rel=0.2)
    assert speed == SWEEP[0]
    assert found.rotor_speed > 2.0 * speed
    at_slowest = [r for r, f in ratios(heavy, quiet, speed) if abs(2.0 * math.pi * f - speed) > 0.1]
    assert found.damping_ratio < min(at_slowest)


def test_blades_that_creep_outward_count() -> None:
    """Below the support damping that heavy dampers need the creep grows and is the least damped."""
    rotor = Rotor(5, 40.0, 100.0, 320.0, 0.3, 0.0, 320.0 * 2e3)
    needed = hub_damping_floor(replace(rotor, lag_damping=0.0), HubDirection(900.0, 4e5, 0.0))
    damping = 0.8 * needed.hub_damping
    support = Support(900.0, 900.0, 4e5, 4e5, damping, damping)
    sweep = 0.9 * needed.rotor_speed, 1.1 * needed.rotor_speed

    assert worst_speed(rotor, support, *sweep)[1] > 0.0
    assert least_damped_motion(rotor, support, *sweep).damping_ratio < 0.0


def test_creep_is_the_slow_root_of_a_heavily_damped_blade() -> None:
    """Numpy: s² I + s C + e S Ω² = 0; a blade that swings has none, and none that is held."""
    speed = 30.0
    roots = np.roots([350.0, 20e3, 0.25 * 115.0 * speed**2])

    assert creep_rates(ROTOR, speed, (20e3,)) == pytest.approx([max(roots)], rel=1e-12)
    assert creep_rates(ROTOR, speed, (0.0, 2000.0, math.inf)) == []


@pytest.mark.parametrize(
    ("value", "expected"),
    [(-1.0 + 0.1j, True), (-1.1 + 0j, True), (-1.0 + 0.5j, False), (0.01 + 0j, False)],
)
def test_what_is_near_a_creep_counts_as_one(value: complex, *, expected: bool) -> None:
    """Within a fifth of the rate of a blade alone, and not if it grows."""
    assert is_creep(value, [-1.0]) == expected


def test_damping_ratio_of_an_eigenvalue() -> None:
    """The cosine of its angle to the negative real axis; one where nothing moves."""
    assert ratio(-0.6 + 0.8j) == pytest.approx(0.6)
    assert ratio(0.6 - 0.8j) == pytest.approx(-0.6)
    assert ratio(0j) == 1.0
