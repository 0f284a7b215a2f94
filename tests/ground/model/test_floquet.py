"""Floquet's theory by collocation against scipy, every exponent of it."""

import numpy as np
import pytest

from calc.ground.model.floquet import growth_rates
from calc.ground.model.general_support import two_directions
from tests.ground.benchmark import HAMMOND_ROTOR, HAMMOND_SUPPORT, floquet, random_aircraft

BOTH = two_directions(HAMMOND_SUPPORT)


@pytest.mark.parametrize("seed", range(6))
def test_every_exponent_agrees_with_scipy(seed: int) -> None:
    """All 2 (N + 2) growth rates of random aircraft with random dampers."""
    rotor, support, speed = random_aircraft(seed)
    share = np.random.default_rng(seed).uniform(0.0, 2.0, rotor.blades)
    dampings = tuple(share * rotor.lag_damping)

    found = growth_rates(rotor, two_directions(support), speed, dampings)
    assert len(found) == 2 * rotor.blades + 4
    assert found == pytest.approx(floquet(rotor, support, speed, dampings), abs=2e-6)


def test_order_of_the_method() -> None:
    """Steps half as long: the error falls by more than a factor of fifty."""
    dampings = (0.0, 4e3, 4e3, 4e3)
    exact = floquet(HAMMOND_ROTOR, HAMMOND_SUPPORT, 26.6, dampings)[0]

    errors = [
        abs(growth_rates(HAMMOND_ROTOR, BOTH, 26.6, dampings, reach=reach)[0] - exact)
        for reach in (1.6, 0.8)
    ]
    assert errors[1] < errors[0] / 50.0


def test_standstill_is_a_hub_and_blades_at_rest() -> None:
    """At rest the growth rates are those of a damped hub; free blades neither grow nor decay."""
    found = growth_rates(HAMMOND_ROTOR, BOTH, 0.0, (4e3,) * 4)

    assert found[0] == pytest.approx(0.0, abs=1e-7)
    assert max(found) < 1e-7
