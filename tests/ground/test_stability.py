"""Stability of identical blades against published work and independent integration."""

import itertools
from dataclasses import replace
from functools import partial

import numpy as np
import pytest
from scipy import linalg as scipy_linalg

from calc.ground.model.aircraft import Rotor, Support, support_frequencies
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.model.multiblade import state_matrix
from calc.ground.search.needed_damping import minimum_lag_damping
from calc.ground.stability import (
    eigenvalues,
    growth_rate,
    unstable_bands,
    worst_speed,
)
from calc.units import RPM
from tests.ground.benchmark import (
    HAMMOND_METRIC_ROTOR,
    HAMMOND_METRIC_SUPPORT,
    HAMMOND_ROTOR,
    HAMMOND_SUPPORT,
    alike_in,
    floquet,
    random_aircraft,
    undamped,
)
from tests.ground.oracle import (
    Growth,
    assert_edges,
    assert_no_other_bands,
    assert_peak,
    growth_of_single_blades,
)

SLOW, FAST = RPM.si(60.0), RPM.si(500.0)


@pytest.mark.parametrize(
    ("rotor", "support"),
    [
        (HAMMOND_ROTOR, HAMMOND_SUPPORT),
        (HAMMOND_METRIC_ROTOR, HAMMOND_METRIC_SUPPORT),
    ],
    ids=["pounds and slugs", "metric"],
)
def test_every_damper_working_is_stable(rotor: Rotor, support: Support) -> None:
    """Hammond (1974), from memory: with all dampers the rotor is stable at every speed."""
    assert unstable_bands(rotor, support, SLOW, FAST) == ()
    assert worst_speed(rotor, support, SLOW, FAST)[1] < 0.0


def by_single_blades(rotor: Rotor, support: Support) -> Growth:
    """Return the highest growth rate over rotor speed by the second way."""
    return partial(growth_of_single_blades, rotor, support)


def test_least_stable_speed_of_the_benchmark() -> None:
    """Hammond's data, single blades turned into fixed axes: the growth rate, least there."""
    speed, growth = worst_speed(HAMMOND_ROTOR, HAMMOND_SUPPORT, SLOW, FAST)

    assert_peak(by_single_blades(HAMMOND_ROTOR, HAMMOND_SUPPORT), speed, growth)


@pytest.mark.parametrize("direction", ["x", "y"])
def test_isotropic_benchmarks(direction: str) -> None:
    """Hammond's data with both directions alike, single blades: peak and bands."""
    support = alike_in(direction, HAMMOND_SUPPORT)
    growth = by_single_blades(HAMMOND_ROTOR, support)

    assert_peak(growth, *worst_speed(HAMMOND_ROTOR, support, SLOW, FAST))
    bands = unstable_bands(HAMMOND_ROTOR, support, SLOW, FAST)
    edges = [edge for band in bands for edge in band]
    assert len(edges) == {"x": 0, "y": 2}[direction]
    assert_edges(growth, edges)
    assert_no_other_bands(growth, edges, np.linspace(SLOW, FAST, 97))


def test_undamped_benchmark_bands() -> None:
    """Hammond's data without dampers, single blades: two bands; a growth below 1e-6 is noise."""
    aircraft = undamped(HAMMOND_ROTOR, HAMMOND_SUPPORT)
    bands = unstable_bands(*aircraft, SLOW, FAST)
    edges = [edge for band in bands for edge in band]

    assert len(bands) == 2
    assert_edges(by_single_blades(*aircraft), edges, 1e-6)
    assert_no_other_bands(by_single_blades(*aircraft), edges, np.linspace(SLOW, FAST, 97), 1e-6)


def test_coalescence_of_the_benchmark() -> None:
    """At coalescence the rotor speed less the lag frequency is the support frequency."""
    speeds = coalescence_speeds(HAMMOND_ROTOR, HAMMOND_SUPPORT)

    for speed, frequency in zip(
        speeds, support_frequencies(HAMMOND_ROTOR, HAMMOND_SUPPORT), strict=True
    ):
        assert speed is not None
        assert speed - HAMMOND_ROTOR.lag_frequency(speed) == pytest.approx(frequency, rel=1e-9)


def test_minimum_lag_damping_of_the_benchmark() -> None:
    """Hammond's data, single blades: with the least damping the highest growth rate is zero."""
    needed = minimum_lag_damping(HAMMOND_ROTOR, HAMMOND_SUPPORT, SLOW, FAST)

    assert needed is not None
    growth = by_single_blades(replace(HAMMOND_ROTOR, lag_damping=needed), HAMMOND_SUPPORT)
    assert max(map(growth, np.linspace(SLOW, FAST, 4001))) == pytest.approx(0.0, abs=1e-5)


@pytest.mark.parametrize("seed", range(12))
def test_minimum_lag_damping_is_the_edge_of_stability(seed: int) -> None:
    """A little more than the minimum is stable in the whole sweep, a little less is not."""
    rotor, support, speed = random_aircraft(seed)
    sweep = (0.2 * speed, 2.5 * speed)
    needed = minimum_lag_damping(rotor, support, *sweep)

    if needed is None:
        for factor in 10.0 ** np.linspace(-3.0, 3.0, 25):
            tried = replace(rotor, lag_damping=factor * rotor.lag_inertia * speed)
            assert unstable_bands(tried, support, *sweep)
    else:
        assert not unstable_bands(replace(rotor, lag_damping=1.0001 * needed), support, *sweep)
        assert unstable_bands(replace(rotor, lag_damping=0.9999 * needed), support, *sweep)


@pytest.mark.parametrize("seed", range(40))
def test_individual_blades_have_the_same_growth(seed: int) -> None:
    """Floquet by scipy on individual blades: every real part is there, to 1e-6 1/s."""
    rotor, support, speed = random_aircraft(seed)
    found = floquet(rotor, support, speed, (rotor.lag_damping,) * rotor.blades)

    for value in eigenvalues(rotor, support, speed):
        assert min(abs(found - value.real)) < 1e-6
    isolated = -0.5 * rotor.lag_damping / rotor.lag_inertia
    assert max(growth_rate(rotor, support, speed), isolated) == pytest.approx(found[0], abs=1e-6)


@pytest.mark.parametrize("seed", range(10))
def test_eigenvalues_agree_with_a_generalized_problem(seed: int) -> None:
    """Scipy, generalised eigenvalues of mass, damping and stiffness, reversed and lag positive.

    Written for lag positive and rotation reversed (negative rotor speed), from the same equations
    of individual blades summed over cosine and sine.
    """
    rotor, support, speed = random_aircraft(seed)
    sign, speed = -1.0, -speed
    moment = sign * rotor.first_moment
    half = 0.5 * rotor.blades * moment
    total = rotor.blades * rotor.blade_mass
    spring = rotor.lag_stiffness + rotor.hinge_offset * rotor.first_moment * speed**2
    spring -= rotor.lag_inertia * speed**2
    circulatory = rotor.lag_damping * speed
    gyroscopic = 2.0 * rotor.lag_inertia * speed
    mass = np.diag(
        [rotor.lag_inertia] * 2 + [support.mass_x + total, support.mass_y + total]
    ).astype(float)
    mass[0, 3], mass[1, 2], mass[2, 1], mass[3, 0] = moment, -moment, -half, half
    damping = np.diag([rotor.lag_damping] * 2 + [support.damping_x, support.damping_y])
    damping[0, 1], damping[1, 0] = gyroscopic, -gyroscopic
    stiffness = np.diag([spring] * 2 + [support.stiffness_x, support.stiffness_y])
    stiffness[0, 1], stiffness[1, 0] = circulatory, -circulatory
    zero, one = np.zeros((4, 4)), np.eye(4)
    expected = scipy_linalg.eigvals(
        np.block([[zero, one], [-stiffness, -damping]]), np.block([[one, zero], [zero, mass]])
    )

    for value in eigenvalues(rotor, support, abs(speed)):
        assert min(abs(expected - value)) < 1e-8 * abs(value)


def test_stiff_in_plane_is_never_unstable() -> None:
    """A lag frequency above the rotor speed: nothing grows, at any speed."""
    stiff = replace(HAMMOND_ROTOR, lag_stiffness=1.1 * HAMMOND_ROTOR.lag_inertia * FAST**2)
    rotor, support = undamped(stiff, HAMMOND_SUPPORT)

    assert unstable_bands(rotor, support, SLOW, FAST) == ()
    assert unstable_bands(stiff, HAMMOND_SUPPORT, SLOW, FAST) == ()


@pytest.mark.parametrize("seed", range(10))
def test_exchanged_directions_change_nothing(seed: int) -> None:
    """Turning the axes by a right angle exchanges x and y and leaves the eigenvalues."""
    rotor, support, speed = random_aircraft(seed)
    turned = Support(
        support.mass_y,
        support.mass_x,
        support.stiffness_y,
        support.stiffness_x,
        support.damping_y,
        support.damping_x,
    )

    before, after = (sorted(eigenvalues(rotor, s, speed), key=abs) for s in (support, turned))
    for value in before:
        assert min(abs(np.array(after) - value)) < 1e-9 * abs(value)


@pytest.mark.parametrize("seed", range(10))
def test_bands_agree_with_a_fine_sweep(seed: int) -> None:
    """The growth rate is above zero inside each band and below zero outside, at 500 speeds."""
    rotor, support, speed = random_aircraft(seed)
    low, high = 0.3 * speed, 2.5 * speed
    bands = unstable_bands(rotor, support, low, high)

    for tried in np.linspace(low, high, 500):
        inside = any(first < tried < last for first, last in bands)
        near = any(abs(tried - edge) < 1e-6 * edge for band in bands for edge in band)
        assert near or inside == (growth_rate(rotor, support, tried) > 0.0)


def test_a_circulatory_term_left_out_is_seen() -> None:
    """Without the terms that turn with the damper the growth would come out far too small."""
    matrix = np.array(state_matrix(HAMMOND_ROTOR, HAMMOND_SUPPORT, RPM.si(250.0)))
    wrong = matrix.copy()
    wrong[4, 1] = wrong[5, 0] = 0.0

    assert max(np.linalg.eigvals(wrong).real) != pytest.approx(
        max(np.linalg.eigvals(matrix).real), abs=0.1
    )


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"blades": 2}, "Number of blades must be at least 3"),
        ({"first_moment": 0.0}, "First moment of one blade about the lag hinge must be above 0"),
        ({"lag_damping": -1.0}, "Lag damper of one blade must be at least 0"),
        ({"first_moment": 1e4}, "Coupling parameter must be above 0 and below 1"),
    ],
)
def test_impossible_rotors_are_named(change: dict[str, float], message: str) -> None:
    """A rotor that cannot exist is refused by the quantity that is wrong."""
    with pytest.raises(ValueError, match=message):
        growth_rate(replace(HAMMOND_ROTOR, **change), HAMMOND_SUPPORT, 20.0)  # type: ignore[arg-type]


def test_a_sweep_must_rise() -> None:
    """The highest rotor speed must be above the lowest."""
    with pytest.raises(ValueError, match="must be above the lowest rotor speed"):
        unstable_bands(HAMMOND_ROTOR, HAMMOND_SUPPORT, FAST, SLOW)


def test_bands_do_not_overlap() -> None:
    """Bands ascend."""
    bands = unstable_bands(*undamped(HAMMOND_ROTOR, HAMMOND_SUPPORT), SLOW, FAST)

    edges = [edge for band in bands for edge in band]
    assert all(low < high for low, high in itertools.pairwise(edges))


def test_stable_window_below_the_first_trial_is_found() -> None:
    """A braced support is stable with some lag damping, and unstable with less and with more."""
    rotor = Rotor(4, 50.0, 115.0, 350.0, 0.25, 0.0, 2000.0)
    support = Support(3000.0, 1400.0, 600e3, 4.0 * 640e3, 6000.0, 4000.0)
    sweep = RPM.si(40.0), RPM.si(400.0)

    needed = minimum_lag_damping(rotor, support, *sweep)

    assert needed is not None
    assert unstable_bands(replace(rotor, lag_damping=1.001 * needed), support, *sweep) == ()
    assert unstable_bands(replace(rotor, lag_damping=0.99 * needed), support, *sweep)
    assert unstable_bands(replace(rotor, lag_damping=3000.0), support, *sweep)
