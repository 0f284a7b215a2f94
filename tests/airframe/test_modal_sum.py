"""Modal sum against a direct solution of the same structure and the single mode."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.linalg import eigh
from scipy.optimize import brentq

from calc.airframe.airframe_mode import AirframeMode
from calc.airframe.modal_sum import MODES, Mode, modal_sum, modal_sum_chart
from calc.airframe.single_mode import mode_response


@pytest.mark.parametrize("frequency", [0.5, 2.0, 4.3, 9.0])
def test_direct_solution(frequency: float) -> None:
    """Three masses on springs with proportional damping, solved by numpy without modes."""
    mass = np.diag([3.0, 2.0, 1.0])
    stiffness = 900.0 * np.array([[2.0, -1.0, 0.0], [-1.0, 2.0, -1.0], [0.0, -1.0, 1.0]])
    damping = 0.3 * mass + 0.001 * stiffness
    squares, shapes = eigh(stiffness, mass)
    modes = tuple(
        Mode(
            "mode",
            math.sqrt(square) / (2.0 * math.pi),
            (0.3 + 0.001 * square) / (2.0 * math.sqrt(square)),
            1.0,
            float(shape[0]),
            float(shape[2]),
        )
        for square, shape in zip(squares, shapes.T, strict=True)
    )
    omega = 2.0 * math.pi * frequency
    dynamic = stiffness - omega**2 * mass + 1j * omega * damping
    direct = np.linalg.solve(dynamic, np.array([7.0, 0.0, 0.0]))[2]

    found = modal_sum(modes, 7.0, frequency)

    assert found.displacement == pytest.approx(abs(direct))
    assert found.phase == pytest.approx(np.angle(direct))
    assert found.acceleration == pytest.approx(omega * found.velocity)


@given(st.floats(1.0, 50.0), st.floats(0.001, 0.5))
def test_one_mode_is_the_single_mode(frequency: float, damping: float) -> None:
    """A sum of one mode, driven where it is measured, is the response of that mode."""
    found = modal_sum((Mode("mode", 12.5, damping, 800.0, 1.0, 1.0),), 500.0, frequency)
    single = mode_response(500.0, AirframeMode(800.0, 12.5, damping), frequency)

    assert found.acceleration == pytest.approx(single.acceleration)
    assert found.phase == pytest.approx(single.phase)


def test_reciprocity() -> None:
    """Drive point and response point may change roles."""
    swapped = tuple(
        Mode(m.name, m.natural_frequency, m.damping_ratio, m.modal_mass, m.at_point, m.at_force)
        for m in MODES.example
    )

    assert modal_sum(swapped, 1.0, 11.0) == modal_sum(MODES.example, 1.0, 11.0)


@pytest.mark.parametrize("sign", [1.0, -1.0])
@pytest.mark.parametrize("flip", [1.0, -1.0])
def test_products_of_one_sign_leave_an_antiresonance(sign: float, flip: float) -> None:
    """Between two modes the response vanishes where the products of their shapes have one sign.

    Without damping it passes through zero, by scipy, at the frequency where the two parts cancel;
    with products of opposite signs it has no zero.  Reversing a whole shape changes nothing.
    """

    def displacement(frequency: float) -> float:
        modes = (
            Mode("low", 10.0, 1e-9, 1.0, 1.0, 0.5),
            Mode("high", 20.0, 1e-9, 1.0, 2.0 * flip, 1.5 * sign * flip),
        )
        found = modal_sum(modes, 1.0, frequency)
        return found.displacement * math.cos(found.phase)

    ends = displacement(10.1), displacement(19.9)
    if sign > 0.0:
        assert ends[0] * ends[1] < 0.0
        zero = brentq(displacement, 10.1, 19.9)
        by_hand = math.sqrt((0.5 * 20.0**2 + 3.0 * 10.0**2) / 3.5)
        assert zero == pytest.approx(by_hand, rel=1e-6)
    else:
        assert all(displacement(10.1 + 0.1 * n) * ends[0] > 0.0 for n in range(98))


def test_contributions_add_up() -> None:
    """The parts of the modes, added with their phases, are the whole."""
    found = modal_sum(MODES.example, 500.0, 13.0)
    real = sum(part.displacement * math.cos(part.phase) for part in found.contributions)
    imaginary = sum(part.displacement * math.sin(part.phase) for part in found.contributions)

    assert math.hypot(real, imaginary) == pytest.approx(found.displacement)


def test_chart_has_the_peaks() -> None:
    """The figure has the natural frequencies among its points."""
    assert any(
        float(row[0]) == 12.5 for row in modal_sum_chart(MODES.example, 1.0, 13.0).table()[1:]
    )


def test_impossible_modes_are_named() -> None:
    """An undamped mode is refused."""
    with pytest.raises(ValueError, match="Damping ratio must be above 0"):
        modal_sum((Mode("mode", 12.5, 0.0, 1.0, 1.0, 1.0),), 1.0, 1.0)
