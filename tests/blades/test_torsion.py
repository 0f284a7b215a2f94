"""Torsion against closed limits and eigenvalues of a chain of discs."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.linalg import eigh

from calc.blades.torsion import control_stiffness, torsion


def test_stiff_control_is_a_clamped_root() -> None:
    """The root factor tends to a quarter wave."""
    assert torsion(5.0, 9000.0, 0.06, 1e15, 40.0).root_factor == pytest.approx(math.pi / 2.0)


def test_soft_control_is_rigid_pitch() -> None:
    """The blade turns as a whole: the square of its frequency is k / (I L) plus rotor speed."""
    found = torsion(5.0, 9000.0, 0.06, 1e-3, 40.0)
    expected = 1e-3 / (0.06 * 5.0) + 40.0**2

    assert (2.0 * math.pi * found.frequency) ** 2 == pytest.approx(expected, rel=1e-9)


def test_no_control_stiffness_leaves_the_propeller_moment() -> None:
    """Without control stiffness a flat section pitches once per revolution."""
    assert torsion(5.0, 9000.0, 0.06, 0.0, 40.0).per_rev == 1.0
    assert torsion(5.0, 9000.0, 0.06, 0.0, 40.0, 0.0).frequency == 0.0


@pytest.mark.parametrize("stiffness", [500.0, 12000.0, 3e5])
def test_chain_of_discs(stiffness: float) -> None:
    """Eight hundred discs on a rod and a root spring, by scipy, have the same first frequency."""
    count, length = 800, 5.0
    width = length / count
    spring = 9000.0 / width
    matrix = np.diag(np.full(count, 2.0 * spring)) - spring * (
        np.eye(count, k=1) + np.eye(count, k=-1)
    )
    matrix[0, 0] = spring + 1.0 / (1.0 / stiffness + 0.5 / spring)
    matrix[-1, -1] = spring
    inertia = np.eye(count) * 0.06 * width
    lowest = float(eigh(matrix, inertia, eigvals_only=True, subset_by_index=[0, 0])[0])

    found = torsion(length, 9000.0, 0.06, stiffness, 40.0)

    assert (2.0 * math.pi * found.frequency) ** 2 == pytest.approx(lowest + 40.0**2, rel=1e-5)


@given(st.floats(1.0, 1e6), st.floats(1.01, 10.0))
def test_stiffer_control_raises_the_frequency(stiffness: float, factor: float) -> None:
    """A stiffer control system never lowers the frequency."""
    soft, stiff = (torsion(5.0, 9000.0, 0.06, stiffness * f, 40.0).frequency for f in (1.0, factor))

    assert stiff > soft


def test_link_and_support_in_series() -> None:
    """By hand: two equal springs of 2 MN/m on an arm of 0.1 m give 10 kN m/rad."""
    assert control_stiffness(2e6, 2e6, 0.1) == pytest.approx(1e4)


def test_impossible_blades_are_named() -> None:
    """A blade without torsional inertia is refused."""
    with pytest.raises(ValueError, match="Torsional inertia per length must be above 0"):
        torsion(5.0, 9000.0, 0.0, 1e4, 40.0)
