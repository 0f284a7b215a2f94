"""Blade swing against motions integrated in time and a blade on wires as a matrix."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp
from scipy.linalg import eigh

from calc.blades.blade_data import PIECES, STRETCHES, mass_table
from calc.blades.blade_swing import compound_pendulum, two_wires

G = 9.80665


def period_of_masses(places: np.ndarray, masses: np.ndarray, swing: float) -> float:
    """Return the time of a full swing of point masses on a line, integrated by SciPy."""
    inertia, moment = float(masses @ places**2), float(masses @ places)

    def slope(_: float, state: list[float]) -> list[float]:
        return [state[1], -moment * G * math.sin(state[0]) / inertia]

    def level(_: float, state: list[float]) -> float:
        return state[0]

    run = solve_ivp(
        slope, (0.0, 60.0), [swing, 0.0], "DOP853", events=level, rtol=1e-11, atol=1e-13
    )
    return float(run.t_events[0][2] - run.t_events[0][0])


@pytest.mark.parametrize("degrees", [0.01, 5.0, 20.0, 60.0])
@pytest.mark.parametrize("pivot", [-0.3, 0.12])
def test_swing_of_point_masses(pivot: float, degrees: float) -> None:
    """A blade of 200 masses swung about a pivot beside its hinge gives its sums about the hinge."""
    places = (np.arange(200) + 0.5) * 4.5 / 200
    masses = 0.2 + 0.1 * (places / 4.5)
    centre = float(masses @ places / masses.sum())
    period = period_of_masses(places - pivot, masses, math.radians(degrees))

    found = compound_pendulum(
        float(masses.sum()), centre - pivot, centre, period, math.radians(degrees)
    )

    assert found.hinge_inertia == pytest.approx(float(masses @ places**2), rel=1e-6)
    assert found.pivot_inertia == pytest.approx(float(masses @ (places - pivot) ** 2), rel=1e-6)
    assert found.central_inertia == pytest.approx(float(masses @ (places - centre) ** 2), rel=1e-5)


@given(st.floats(0.3, 3.0), st.floats(0.3, 3.0), st.floats(0.5, 6.0))
def test_blade_on_wires_as_a_matrix(inner: float, outer: float, length: float) -> None:
    """SciPy: sideways and turning motion of a rod on two wires in tension, its turning mode.

    A wire with the tension P and the length h pulls its end back sideways with P/h.
    """
    mass, inertia = 50.0, 85.5
    pulls = np.array([outer, inner]) * mass * G / ((inner + outer) * length)
    arms = np.array([-inner, outer])
    stiffness = np.array(
        [[pulls.sum(), float(pulls @ arms)], [float(pulls @ arms), float(pulls @ arms**2)]]
    )
    squares, shapes = eigh(stiffness, np.diag([mass, inertia]))
    turning = int(np.argmax(np.abs(shapes[1]) * math.sqrt(inertia)))
    if math.isclose(squares[0], squares[1], rel_tol=1e-6):
        return  # both motions have one period, and any mixture of them is a mode

    found = two_wires(mass, inner, outer, length, 2.0 * math.pi / math.sqrt(squares[turning]), 2.3)

    assert found.central_inertia == pytest.approx(inertia, rel=1e-6)
    assert found.hinge_inertia == pytest.approx(inertia + mass * 2.3**2, rel=1e-6)


def test_small_turn_on_wires_of_fixed_length() -> None:
    """Energy of a rod that rises as it turns, by quadrature, at half a degree: one part in 1e5."""
    mass, inertia, arm, length, widest = 50.0, 85.5, 1.5, 3.0, math.radians(0.5)

    def height(angle: float) -> float:
        return length - math.sqrt(length**2 - (2.0 * arm * math.sin(angle / 2.0)) ** 2)

    def slowness(phase: float) -> float:
        angle = widest * math.sin(phase)
        energy = mass * G * (height(widest) - height(angle))
        return widest * math.cos(phase) / math.sqrt(2.0 * energy / inertia)

    quarter, _ = quad(slowness, 0.0, math.pi / 2.0 - 1e-4)
    period = 4.0 * quarter / (1.0 - 1e-4 / (math.pi / 2.0))

    assert two_wires(mass, arm, arm, length, period, 0.0).central_inertia == pytest.approx(
        inertia, rel=1e-4
    )


def test_three_ways_agree() -> None:
    """The drawing of the Plover's blade, its swing by its hinge, and its turn on two wires."""
    drawn = mass_table(STRETCHES.example, PIECES.example, 0.25)
    mass, centre = drawn.blade_mass, drawn.centre_of_gravity
    central = drawn.second_moment - mass * centre**2
    turn = 2.0 * math.pi * math.sqrt(central * 3.0 / (mass * G * 1.4 * 1.6))

    swung = compound_pendulum(mass, centre, centre, drawn.hanging_period)
    turned = two_wires(mass, 1.4, 1.6, 3.0, turn, centre)

    assert swung.hinge_inertia == pytest.approx(drawn.second_moment)
    assert turned.hinge_inertia == pytest.approx(drawn.second_moment)


def test_a_swing_faster_than_a_point_mass_is_refused() -> None:
    """No body about a pivot swings faster than its mass gathered at its centre of gravity."""
    point = 2.0 * math.pi * math.sqrt(2.18 / G)

    with pytest.raises(ValueError, match="shorter than that of a point mass"):
        compound_pendulum(50.0, 2.18, 2.3, 0.999 * point)
    assert compound_pendulum(50.0, 2.18, 2.3, 1.001 * point).central_inertia > 0.0
