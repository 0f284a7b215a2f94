"""Damper test against decays integrated in time and loops of dampers known in closed form."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from calc.ground.damper_test import LoopPoint, decay_damping, energy_damping, loop_damping
from calc.ground.nonlinear_damper import friction_damper, orifice_damper


@pytest.mark.parametrize(("damping", "cycles"), [(7.0, 10), (300.0, 3), (1100.0, 1)])
def test_decay_integrated_in_time(damping: float, cycles: int) -> None:
    """SciPy releases a blade on a spring and a damper; its peaks give both of them back."""
    inertia, spring = 350.0, 20000.0

    def slope(_: float, state: list[float]) -> list[float]:
        return [state[1], -(damping * state[1] + spring * state[0]) / inertia]

    def peak(_: float, state: list[float]) -> float:
        return state[1]

    peak.direction = -1.0  # type: ignore[attr-defined]
    run = solve_ivp(slope, (0.0, 20.0), [0.0, 0.3], "DOP853", events=peak, rtol=1e-11, atol=1e-14)
    times, heights = run.t_events[0], run.y_events[0][:, 0]

    found = decay_damping(
        inertia, float(times[1] - times[0]), float(heights[0]), float(heights[cycles]), cycles
    )

    assert found.lag_damping == pytest.approx(damping, rel=1e-6)
    assert found.lag_stiffness == pytest.approx(spring, rel=1e-6)
    assert found.damping_ratio == pytest.approx(
        damping / (2.0 * math.sqrt(spring * inertia)), rel=1e-6
    )


@given(st.floats(1e3, 1e6), st.floats(1e-3, 0.03), st.floats(0.3, 6.0))
def test_loop_of_a_linear_damper(rate: float, stroke: float, frequency: float) -> None:
    """A polygon of n points in an ellipse has the fraction sin(t)/t of its area, t being 2 pi/n."""
    turn = 2.0 * math.pi / 60
    force = rate * 2.0 * math.pi * frequency * stroke
    loop = tuple(
        LoopPoint(stroke * math.sin(k * turn), force * math.cos(k * turn)) for k in range(60)
    )

    found = loop_damping(loop, frequency, 0.2)

    assert found.stroke_amplitude == pytest.approx(stroke)
    assert found.damper_rate == pytest.approx(rate * math.sin(turn) / turn)
    assert found.lag_damping == pytest.approx(0.04 * rate * math.sin(turn) / turn)


def test_a_loop_may_be_listed_either_way_round() -> None:
    """The energy is the area, whichever way the rig lists its points."""
    loop = tuple(LoopPoint(math.sin(k / 2.0), math.cos(k / 2.0)) for k in range(12))

    assert loop_damping(loop[::-1], 1.2, 0.2) == loop_damping(loop, 1.2, 0.2)


def test_a_spring_beside_the_damper_takes_no_energy() -> None:
    """Adding a force in proportion to the stroke shears the loop and leaves its area."""
    turns = np.arange(48) * 2.0 * math.pi / 48
    strokes, forces = 0.004 * np.sin(turns), 900.0 * np.cos(turns)
    bare, sprung = (
        loop_damping(
            tuple(map(LoopPoint, strokes.tolist(), (forces + spring * strokes).tolist())), 1.2, 0.2
        )
        for spring in (0.0, 4e5)
    )

    assert sprung.lag_damping == pytest.approx(bare.lag_damping)


def test_loop_of_dry_friction() -> None:
    """The rectangle of a friction damper, and the closed formula of the nonlinear dampers."""
    arm, stroke, force, frequency = 0.2, 0.004, 2000.0, 1.35
    there = [(x, force) for x in np.linspace(-stroke, stroke, 6)]
    back = [(x, -force) for x in np.linspace(stroke, -stroke, 6)]
    loop = tuple(LoopPoint(float(x), f) for x, f in (*there, *back))

    found = loop_damping(loop, frequency, arm)

    assert found.lag_damping == pytest.approx(friction_damper(force * arm, frequency, stroke / arm))
    assert found.lag_amplitude == pytest.approx(stroke / arm)


def test_loop_of_an_orifice() -> None:
    """A force that grows with the square of the speed, and the closed formula for it."""
    arm, stroke, frequency, points = 0.2, 0.005, 1.35, 400
    turns = np.arange(points) * 2.0 * math.pi / points
    speeds = 2.0 * math.pi * frequency * stroke * np.cos(turns)
    forces = 1500.0 * speeds * np.abs(speeds) / (0.2 * arm) ** 2
    loop = tuple(map(LoopPoint, (stroke * np.sin(turns)).tolist(), forces.tolist()))

    found = loop_damping(loop, frequency, arm)

    assert found.lag_damping == pytest.approx(
        orifice_damper(1500.0 * arm, 0.2, frequency, stroke / arm), rel=1e-3
    )


def test_energy_and_loop_are_one_formula() -> None:
    """The energy that a loop gives leads to the damping that it gives."""
    loop = tuple(LoopPoint(math.sin(k / 2.0), math.cos(k / 2.0)) for k in range(12))
    found = loop_damping(loop, 2.0, 0.3)

    again = energy_damping(found.cycle_energy, found.stroke_amplitude, 2.0, 0.3)

    assert again.lag_damping == found.lag_damping


def test_impossible_tests_are_named() -> None:
    """A growing decay, and a loop without a stroke."""
    with pytest.raises(ValueError, match="later peak must be smaller"):
        decay_damping(350.0, 1.0, 0.01, 0.02, 1)
    with pytest.raises(ValueError, match="Stroke to each side of the middle must be above 0"):
        loop_damping((LoopPoint(0.001, 5.0),) * 8, 1.0, 0.2)
