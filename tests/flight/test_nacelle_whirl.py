"""Nacelle whirl: frequencies and stability, against blade elements in space and time marching."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.linalg import eigvals

from calc.flight.nacelle import NacelleMount, RigidPropeller
from calc.flight.nacelle_whirl import (
    DECAYS,
    DIVERGENCE,
    GROWS,
    WHIRL_FLUTTER,
    whirl_frequencies,
    whirl_stability,
    whirl_stability_chart,
)
from tests.flight.blade_in_space import Screw

PROPELLER = RigidPropeller(4, 2.4, 0.18, 5.0, 16.0, 0.8)
SOFT = NacelleMount(3.1, 3.6, 300.0, 0.012)
SPEED, DENSITY = 125.0, 1.2


def air(airspeed: float, propeller: RigidPropeller = PROPELLER) -> tuple[np.ndarray, np.ndarray]:
    """Return stiffness and damping of the air about the pivot, by small finite differences."""
    screw = Screw(propeller.propeller_blades, 1.2, propeller.propeller_chord, 5.0, SPEED)
    arm, small = propeller.hub_distance, 1e-4

    def moments(tilt: np.ndarray, rate: np.ndarray) -> np.ndarray:
        across = np.cross([0.0, *rate], [arm, 0.0, 0.0])
        turned = -np.cross([0.0, *tilt], [airspeed, 0.0, 0.0])
        force, moment, _ = screw.loads(DENSITY, airspeed, across + turned, [0.0, *rate])
        about = moment + np.cross([arm, 0.0, 0.0], force)
        return np.array(about[1:])

    none = np.zeros(2)
    start = moments(none, none)
    stiffness = np.array([(moments(small * unit, none) - start) / small for unit in np.eye(2)]).T
    damping = np.array([(moments(none, small * unit) - start) / small for unit in np.eye(2)]).T
    return -stiffness, -damping


def motion(airspeed: float, mount: NacelleMount = SOFT) -> np.ndarray:
    """Return the matrix of the motion, with the air by finite differences."""
    stiffness, damping = air(airspeed)
    natural = 2.0 * np.pi * np.array([mount.pitch_frequency, mount.yaw_frequency])
    inertia = mount.nacelle_inertia
    stiffness = stiffness + np.diag(inertia * natural**2)
    damping = damping + np.diag(2.0 * mount.damping_ratio * inertia * natural)
    damping = damping + PROPELLER.propeller_inertia * SPEED * np.array([[0.0, 1.0], [-1.0, 0.0]])
    upper = np.hstack([np.zeros((2, 2)), np.eye(2)])
    return np.vstack([upper, np.hstack([-stiffness, -damping]) / inertia])


@pytest.mark.parametrize("airspeed", [30.0, 75.0, 130.0])
def test_least_damped_whirl_is_that_of_blade_elements_in_space(airspeed: float) -> None:
    """Growth and frequency by eigenvalues of SciPy; rings of finite width leave 1e-3 of them."""
    found = whirl_stability(SOFT, PROPELLER, SPEED, airspeed, DENSITY)
    root = max(eigvals(motion(airspeed)), key=lambda value: value.real)

    assert found.growth_rate == pytest.approx(root.real, abs=1e-3 * abs(root))
    assert 2.0 * math.pi * found.frequency == pytest.approx(abs(root.imag), rel=1e-3)


def test_motion_decays_below_the_boundary_and_grows_above() -> None:
    """Marched in time by SciPy from a small pitch: past the boundary the motion builds up."""
    boundary = whirl_stability(SOFT, PROPELLER, SPEED, 60.0, DENSITY).boundary_airspeed
    assert boundary is not None
    sizes = []
    for airspeed in (0.93 * boundary, 1.07 * boundary):
        matrix = motion(airspeed)
        marched = solve_ivp(
            lambda _, state, matrix=matrix: matrix @ state,
            (0.0, 60.0),
            [0.01, 0.0, 0.0, 0.0],
            rtol=1e-8,
            max_step=0.02,
        )
        early = np.abs(marched.y[0, (marched.t > 20.0) & (marched.t < 30.0)]).max()
        late = np.abs(marched.y[0, marched.t > 50.0]).max()
        sizes.append(late / early)
    found = [
        whirl_stability(SOFT, PROPELLER, SPEED, share * boundary, DENSITY).verdict
        for share in (0.93, 1.07)
    ]

    assert sizes[0] < 1.0 < sizes[1]
    assert found == [DECAYS, GROWS]


@pytest.mark.parametrize("arm", [-0.8, 0.8])
def test_boundary_of_a_symmetric_mount_in_closed_form(arm: float) -> None:
    """A mount alike in both planes is one complex equation, whose boundary is in closed form.

    I z'' + (C + D - i J Omega) z' + (K - E + i S) z = 0 has a real frequency w = -S/(C + D) where
    K = E + I w² - J Omega w.  D, S and E come from blade elements in space.
    """
    propeller = replace(PROPELLER, hub_distance=arm)
    mount = NacelleMount(3.4, 3.4, 300.0, 0.01)
    found = whirl_stability(mount, propeller, SPEED, 60.0, DENSITY)
    boundary = found.boundary_airspeed
    assert boundary is not None
    stiffness, damping = air(boundary, propeller)
    natural = 2.0 * math.pi * 3.4
    total = damping[0, 0] + 2.0 * 0.01 * 300.0 * natural
    frequency = stiffness[0, 1] / total
    needed = -stiffness[0, 0] + 300.0 * frequency**2 - 16.0 * SPEED * frequency

    assert found.at_boundary == WHIRL_FLUTTER
    assert frequency < 0.0  # against the rotation: the backward whirl
    assert needed == pytest.approx(300.0 * natural**2, rel=2e-3)


def test_frequencies_at_the_least_share_neither_grow_nor_decay() -> None:
    """A mount with both frequencies lowered to the share is at its boundary."""
    stiff = NacelleMount(8.0, 9.0, 300.0, 0.02)
    share = whirl_stability(stiff, PROPELLER, SPEED, 80.0, DENSITY).least_frequency_share
    assert share is not None
    lowered = NacelleMount(8.0 * share, 9.0 * share, 300.0, 0.02)

    again = whirl_stability(lowered, PROPELLER, SPEED, 80.0, DENSITY)
    assert share < 1.0
    assert again.growth_rate == pytest.approx(0.0, abs=1e-6)


def test_slow_propeller_far_ahead_turns_aside() -> None:
    """With little rotation and a long arm the air overcomes the mount without a whirl."""
    long = replace(PROPELLER, hub_distance=3.0, propeller_inertia=0.5, propeller_blades=8)
    found = whirl_stability(NacelleMount(1.6, 5.0, 300.0, 0.6), long, 100.0, 20.0, DENSITY)

    assert found.at_boundary == DIVERGENCE


@pytest.mark.parametrize("yaw", [5.0, 6.5])
def test_frequencies_without_air_are_eigenvalues(yaw: float) -> None:
    """A gyroscope on two springs by SciPy; the product of both frequencies stays as at rest."""
    found = whirl_frequencies(5.0, yaw, 300.0, 30.0, 150.0)
    squares = (2.0 * np.pi * np.array([5.0, yaw])) ** 2
    turning = 30.0 * 150.0 / 300.0 * np.array([[0.0, 1.0], [-1.0, 0.0]])
    matrix = np.block([[np.zeros((2, 2)), np.eye(2)], [-np.diag(squares), -turning]])
    backward, _, forward, _ = sorted(abs(eigvals(matrix).imag) / (2.0 * np.pi))

    assert found.backward == pytest.approx(backward, rel=1e-9)
    assert found.forward == pytest.approx(forward, rel=1e-9)
    assert found.backward * found.forward == pytest.approx(5.0 * yaw, rel=1e-12)


def test_trends_that_are_reported() -> None:
    """Reed and Bland (1961), summary: stability depends strongly on damping and stiffness.

    Both raise the boundary; less air lowers what feeds the whirl.
    """

    def boundary(mount: NacelleMount, density: float = DENSITY) -> float:
        found = whirl_stability(mount, PROPELLER, SPEED, 60.0, density).boundary_airspeed
        return math.inf if found is None else found

    plain = boundary(SOFT)
    assert boundary(replace(SOFT, damping_ratio=0.03)) > plain
    assert boundary(replace(SOFT, pitch_frequency=3.8, yaw_frequency=4.4)) > plain
    assert boundary(SOFT, 0.7) > plain


def test_figure_crosses_zero_at_the_boundary() -> None:
    """The line of the figure lies below zero before the boundary and above it after."""
    found = whirl_stability(SOFT, PROPELLER, SPEED, 60.0, DENSITY)
    assert found.boundary_airspeed is not None
    line = whirl_stability_chart(SOFT, PROPELLER, SPEED, 60.0, DENSITY, found).marks[1]
    before = [growth for v, growth in line.points if v < found.boundary_airspeed]  # type: ignore[union-attr]
    after = [growth for v, growth in line.points if v > found.boundary_airspeed]  # type: ignore[union-attr]

    assert max(before) < 0.0 < min(after)
