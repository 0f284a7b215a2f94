"""Measured modes with any dampers, against individual blades integrated by scipy."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from calc import linalg
from calc.ground import dissimilar
from calc.ground.measured_modes import growth_rate, measured_modes, unstable_bands
from calc.ground.modal_support import SupportMode, support_of_modes
from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.general_support import state_matrix
from calc.ground.search.mode_survey import MEASURED_MODES, MeasuredMode
from calc.ground.search.rotor_on_modes import rotor_on_modes
from calc.units import RPM
from tests.ground.benchmark import (
    HAMMOND_ROTOR,
    HAMMOND_SUPPORT,
    ONE_OUT,
    blades_on_modes,
    floquet_on_modes,
    random_aircraft,
)
from tests.ground.example import ROTOR
from tests.ground.surveyed import SPEEDS, TIED, without_state

ELASTIC = without_state(MEASURED_MODES.example[:3])


def modes_of(support: Support) -> tuple[SupportMode, SupportMode]:
    """Return two directions of a hub as modes without the blades."""
    found = []
    for name, shape in (("x", (1.0, 0.0)), ("y", (0.0, 1.0))):
        mass, stiffness, damping = (
            getattr(support, f"{word}_{name}") for word in ("mass", "stiffness", "damping")
        )
        pulse = math.sqrt(stiffness / mass)
        ratio = damping / (2.0 * mass * pulse)
        found.append(SupportMode(pulse / (2.0 * math.pi), ratio, mass, *shape))
    return found[0], found[1]


def random_modes(seed: int, count: int) -> tuple[Rotor, tuple[SupportMode, ...], float]:
    """Return a rotor on modes whose hub moves in any direction, and a speed near coalescence."""
    rotor, support, speed = random_aircraft(seed)
    draw = np.random.default_rng(100 + seed)
    first = modes_of(support)
    modes = [
        SupportMode(
            first[number % 2].frequency * draw.uniform(0.8, 1.9),
            draw.uniform(0.01, 0.15),
            first[number % 2].modal_mass * draw.uniform(0.7, 1.5),
            *draw.uniform(-1.0, 1.0, 2),
        )
        for number in range(count)
    ]
    return rotor, tuple(modes), speed


@pytest.mark.parametrize("count", [1, 2, 3, 5])
@pytest.mark.parametrize("seed", range(3))
def test_unlike_dampers_agree_with_scipy(seed: int, count: int) -> None:
    """Floquet by scipy, individual blades on random modes, random dampers: to 1e-6 1/s."""
    rotor, modes, speed = random_modes(seed, count)
    share = np.random.default_rng(seed).uniform(0.0, 2.0, rotor.blades)
    dampings = tuple(share * rotor.lag_damping)

    expected = floquet_on_modes(rotor, modes, speed, dampings)[0]
    assert growth_rate(rotor, modes, speed, dampings) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("seed", range(4))
def test_equal_dampers_agree_with_scipy_and_with_multiblade_eigenvalues(seed: int) -> None:
    """Floquet by scipy for every blade alike; the hub's eigenvalues where those are highest."""
    rotor, modes, speed = random_modes(seed, 3)
    dampings = (rotor.lag_damping,) * rotor.blades
    found = growth_rate(rotor, modes, speed, dampings)

    assert found == pytest.approx(floquet_on_modes(rotor, modes, speed, dampings)[0], abs=1e-6)
    matrix = state_matrix(rotor, support_of_modes(modes), speed)
    multiblade = max(value.real for value in linalg.eigenvalues(matrix))
    isolated = -0.5 * rotor.lag_damping / rotor.lag_inertia
    assert found == pytest.approx(max(multiblade, isolated), abs=1e-9)


@pytest.mark.parametrize("dampings", [(30.0, 30.0), (0.0, 60.0)])
def test_two_blades_agree_with_scipy(dampings: tuple[float, float]) -> None:
    """Floquet by scipy, two blades on three modes, whose dampers may be alike."""
    rotor = Rotor(2, 30.0, 70.0, 230.0, 0.2, 0.0, 0.0)
    modes = (
        SupportMode(2.3, 0.02, 900.0, 1.0, 0.0),
        SupportMode(2.9, 0.03, 700.0, 0.0, 1.0),
        SupportMode(5.0, 0.02, 1500.0, 0.4, 0.8),
    )
    for speed in (9.0, 14.0, 20.0, 27.0):
        expected = floquet_on_modes(rotor, modes, speed, dampings)[0]
        assert growth_rate(rotor, modes, speed, dampings) == pytest.approx(expected, abs=1e-6)


def test_two_directions_as_modes_are_the_hub_of_the_benchmark() -> None:
    """Hammond's data with one damper out: growth and band as without modes, by Floquet too."""
    modes, sweep = modes_of(HAMMOND_SUPPORT), (RPM.si(150.0), RPM.si(350.0))
    for rpm in (180.0, 254.6, 320.0):
        expected = dissimilar.growth_rate(HAMMOND_ROTOR, HAMMOND_SUPPORT, RPM.si(rpm), ONE_OUT)
        found = growth_rate(HAMMOND_ROTOR, modes, RPM.si(rpm), ONE_OUT)
        assert found == pytest.approx(expected, abs=1e-9)

    ((low, high),) = unstable_bands(HAMMOND_ROTOR, modes, ONE_OUT, *sweep)
    for edge, inward in ((low, 1.0), (high, -1.0)):
        for side, is_unstable in ((inward, True), (-inward, False)):
            tried = edge + side * RPM.si(0.01)
            assert (floquet_on_modes(HAMMOND_ROTOR, modes, tried, ONE_OUT)[0] > 1e-6) == is_unstable


def test_bands_agree_with_scipy_over_a_sweep() -> None:
    """Floquet by scipy at 15 speeds: unstable inside the bands with one damper out, not outside."""
    dampings = (0.0, 2000.0, 2000.0, 2000.0)
    bands = unstable_bands(ROTOR, ELASTIC, dampings, RPM.si(120.0), RPM.si(400.0))

    assert len(bands) == 2
    for speed in np.linspace(RPM.si(120.0), RPM.si(400.0), 15):
        is_inside = any(low < speed < high for low, high in bands)
        assert (floquet_on_modes(ROTOR, ELASTIC, speed, dampings)[0] > 0.0) == is_inside


def test_growth_and_frequency_of_a_motion_marched_in_time() -> None:
    """Scipy over 120 revolutions from a lag angle: what is left grows and turns as predicted."""
    speed, dampings = RPM.si(267.4), (0.0, 2000.0, 2000.0, 2000.0)
    period, later = 2.0 * math.pi / speed, 100
    times = np.arange(120 * 32) * period / 32
    start = np.zeros(14)
    start[0] = 0.01
    rate = blades_on_modes(ROTOR, ELASTIC, speed, dampings)
    y = solve_ivp(rate, (0.0, times[-1]), start, "DOP853", times, rtol=1e-7, atol=1e-10).y[5]
    found = rotor_on_modes(ROTOR, ELASTIC, dampings).least_stable(speed)

    late, window = y[later * 32 :], np.hanning(20 * 32)
    grown = np.linalg.norm(late) / np.linalg.norm(y[(later - 20) * 32 : later * 32])
    assert found.real == pytest.approx(math.log(grown) / (20 * period), abs=0.005)
    steady = late * np.exp(-found.real * times[later * 32 :]) * window
    lines = np.abs(np.fft.rfft(steady, 16 * len(steady)))
    frequency = np.argmax(lines) / (16 * len(steady) * period / 32)
    assert found.imag / (2.0 * math.pi) == pytest.approx(frequency, abs=0.02)


@pytest.mark.parametrize("seed", range(5))
def test_frequency_of_equal_blades_by_floquet_is_that_of_the_eigenvalue(seed: int) -> None:
    """One damper that differs by a millionth: Floquet's motion has the eigenvalue's frequency."""
    rotor, modes, speed = random_modes(seed, 2)
    alike = (rotor.lag_damping,) * rotor.blades
    nearly = (1.000001 * rotor.lag_damping, *alike[1:])

    exact = rotor_on_modes(rotor, modes, alike).least_stable(speed)
    found = rotor_on_modes(rotor, modes, nearly).least_stable(speed)
    assert found == pytest.approx(exact, rel=1e-4)


def test_a_seized_damper_is_one_without_limit() -> None:
    """Floquet by scipy with one damper fifty times as heavy; a locked blade is the limit."""
    speed, others = RPM.si(378.0), (2000.0,) * 3
    modes = without_state(TIED)
    expected = floquet_on_modes(ROTOR, modes, speed, (1e5, *others))[0]

    assert expected > 0.0
    assert growth_rate(ROTOR, modes, speed, (1e5, *others)) == pytest.approx(expected, abs=1e-6)
    locked = growth_rate(ROTOR, modes, speed, (math.inf, *others))
    for damping in (1e5, 1e6, 1e8):
        found = growth_rate(ROTOR, modes, speed, (damping, *others))
        assert found == pytest.approx(locked, abs=2e3 / damping)


def test_which_blade_differs_does_not_matter() -> None:
    """The weak damper on another blade, the same growth."""
    first = growth_rate(ROTOR, ELASTIC, 28.0, (0.0, 2000.0, 2000.0, 2000.0))

    for number in range(1, 4):
        dampings = tuple(0.0 if blade == number else 2000.0 for blade in range(4))
        assert growth_rate(ROTOR, ELASTIC, 28.0, dampings) == pytest.approx(first, abs=1e-9)


def test_modes_may_have_the_blades_in_them() -> None:
    """Two directions with 200 kg more and their lower frequencies: the same rows."""
    bare = (
        MeasuredMode("full weight", 2.25, 0.1, 3000.0, 1.0, 0.0),
        MeasuredMode("full weight", 3.40, 0.1, 1400.0, 0.0, 1.0),
    )
    heavy = tuple(
        replace(
            mode,
            modal_mass=mode.modal_mass + 200.0,
            frequency=mode.frequency * math.sqrt(mode.modal_mass / (mode.modal_mass + 200.0)),
            damping_ratio=mode.damping_ratio
            * math.sqrt(mode.modal_mass / (mode.modal_mass + 200.0)),
        )
        for mode in bare
    )
    for row, other in zip(
        measured_modes(ROTOR, bare, SPEEDS, 0.5).cases,
        measured_modes(ROTOR, heavy, SPEEDS, 0.5, "with_blades").cases,
        strict=True,
    ):
        assert row.growth_rate == pytest.approx(other.growth_rate, abs=1e-6)


@pytest.mark.parametrize(
    ("dampings", "message"),
    [
        ((1.0, 1.0), "one lag damper for each of 4 blades"),
        ((1.0, 1.0, 1.0, -1.0), "Lag damper of one blade must be at least 0"),
        ((1.0, 1.0, 1.0, math.nan), "Lag damper of one blade must be a finite number"),
    ],
)
def test_impossible_dampers_are_refused(dampings: tuple[float, ...], message: str) -> None:
    """As many dampers as blades, none negative."""
    with pytest.raises(ValueError, match=message):
        growth_rate(ROTOR, ELASTIC, 28.0, dampings)


def test_modes_lighter_than_the_blades_are_refused() -> None:
    """A hub that weighs nothing cannot carry blades."""
    modes = (SupportMode(2.0, 0.1, 1.0, 1.0, 0.0),)
    with pytest.raises(ValueError, match="too light for the first moment"):
        growth_rate(replace(ROTOR, blade_mass=0.0), modes, 28.0, (0.0,) * 4)


def test_a_revolution_that_takes_too_long_is_refused() -> None:
    """At a hundredth of a revolution a minute the steps of a revolution are too many."""
    with pytest.raises(ValueError, match="a rotor speed must be above"):
        growth_rate(ROTOR, ELASTIC, RPM.si(0.01), (0.0, 1.0, 1.0, 1.0))
