"""Lag dampers against energies found by quadrature and a ring of dampers."""

import math

import numpy as np
import pytest

from calc.ground.damper import elastomeric_damper, interblade_damper, linear_damper


def test_linear_damper_counts_the_arm_twice() -> None:
    """Twice the arm is four times the damping; two dampers are twice one."""
    assert linear_damper(1e4, 0.4) == pytest.approx(4.0 * linear_damper(1e4, 0.2))
    assert linear_damper(1e4, 0.2, 2) == 2.0 * linear_damper(1e4, 0.2)


def test_elastomeric_damper_takes_the_same_energy() -> None:
    """A cycle of amplitude A takes pi K'' A² from the material and pi C w A² from the damper."""
    element = elastomeric_damper(2e4, 9e3, 1.35)

    assert element.lag_stiffness == 2e4
    assert element.lag_damping * 2.0 * math.pi * 1.35 == pytest.approx(9e3, rel=1e-15)


@pytest.mark.parametrize("blades", [3, 4, 5, 7])
def test_interblade_damper_is_an_eigenvalue_of_the_ring(blades: int) -> None:
    """Numpy: the ring of dampers acts on a cyclic pattern as a damper to the hub does."""
    ring = 2.0 * np.eye(blades) - np.roll(np.eye(blades), 1, 0) - np.roll(np.eye(blades), -1, 0)
    pattern = np.cos(2.0 * math.pi * np.arange(blades) / blades)

    assert ring @ pattern == pytest.approx(interblade_damper(blades, 1.0) * pattern)
    assert ring @ np.ones(blades) == pytest.approx(np.zeros(blades))


def test_dampers_between_two_blades_are_refused() -> None:
    """Two blades have one gap, not two neighbours each."""
    with pytest.raises(ValueError, match="Number of blades must be at least 3"):
        interblade_damper(2, 1.0)
