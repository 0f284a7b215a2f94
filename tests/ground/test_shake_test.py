"""Hub data against an eigenvalue model of blades and support at rest, by scipy."""

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import linalg

from calc.ground.modal_support import SupportMode
from calc.ground.model.aircraft import Rotor
from calc.ground.shake_test import BareMode, added_mass, hub_data
from tests.ground.example import ROTOR

LATERAL = (SupportMode(3.4, 0.067, 1400.0, 0.0, 1.0),)
BOTH = (SupportMode(2.25, 0.071, 3000.0, 1.0, 0.0), *LATERAL)
THREE = (*BOTH, SupportMode(6.1, 0.05, 2600.0, 0.1, 0.7))


def shaken(
    rotor: Rotor, modes: Sequence[SupportMode], turned: float = 0.3, dummy: float | None = None
) -> tuple[SupportMode, ...]:
    """Return the modes that a shake test finds with the rotor at rest, from poles and residues.

    Lagrange's equations of the support coordinates and of each blade about its lag hinge, the
    first blade at an azimuth.  A mode is measured where it moves the hub: its pole gives frequency
    and damping ratio, the residue of the driving point along its motion gives the modal mass.
    With dummies there are masses in place of the blades.
    """
    shapes = np.array([[mode.shape_x, mode.shape_y] for mode in modes])
    pulse = 2.0 * math.pi * np.array([mode.frequency for mode in modes])
    masses = np.array([mode.modal_mass for mode in modes])
    ratio = np.array([mode.damping_ratio for mode in modes])
    on_hub = rotor.blades * (rotor.blade_mass if dummy is None else dummy)
    mass = np.diag(masses) + on_hub * shapes @ shapes.T
    damping, stiffness = np.diag(2.0 * ratio * masses * pulse), np.diag(masses * pulse**2)
    if dummy is None:
        azimuths = turned + 2.0 * math.pi * np.arange(rotor.blades) / rotor.blades
        across = np.array([-np.sin(azimuths), np.cos(azimuths)])
        each = np.eye(rotor.blades)
        mass = linalg.block_diag(mass, rotor.lag_inertia * each)
        mass[: len(modes), len(modes) :] = rotor.first_moment * shapes @ across
        mass[len(modes) :, : len(modes)] = rotor.first_moment * (shapes @ across).T
        damping = linalg.block_diag(damping, rotor.lag_damping * each)
        stiffness = linalg.block_diag(stiffness, rotor.lag_stiffness * each)
    found = _poles(mass, damping, stiffness, shapes)
    seen = sorted(found, key=lambda mode: mode.modal_mass)[: len(modes)]
    return tuple(sorted(seen, key=lambda mode: mode.frequency))


def _poles(
    mass: NDArray[Any], damping: NDArray[Any], stiffness: NDArray[Any], shapes: NDArray[Any]
) -> list[SupportMode]:
    zero, one = np.zeros_like(mass), np.eye(len(mass))
    values, vectors = linalg.eig(
        np.block([[zero, one], [-stiffness, -damping]]), linalg.block_diag(one, mass)
    )
    found = []
    for s, vector in zip(values, vectors[: len(mass)].T, strict=True):
        hub = shapes.T @ vector[: len(shapes)]
        if s.imag < 1.0 or linalg.norm(hub) < 1e-6 * linalg.norm(vector):
            continue
        largest = hub[np.argmax(abs(hub))]
        direction = (hub * largest.conjugate()).real
        direction /= linalg.norm(direction)
        residue = (direction @ hub) ** 2 / (vector @ (2.0 * s * mass + damping) @ vector)
        found.append(
            SupportMode(
                abs(s) / (2.0 * math.pi),
                -s.real / abs(s),
                1.0 / (2.0 * s.imag * abs(residue)),
                *map(float, direction),
            )
        )
    return found


def numbers(modes: Sequence[BareMode]) -> list[float]:
    """Return frequency, damping ratio and hub mass of modes."""
    return [x for mode in modes for x in (mode.frequency, mode.damping_ratio, mode.hub_mass)]


def at_hub(modes: Sequence[SupportMode]) -> list[float]:
    """Return the same of modes on any scale."""
    return [
        x
        for mode in modes
        for x in (
            mode.frequency,
            mode.damping_ratio,
            mode.modal_mass / (mode.shape_x**2 + mode.shape_y**2),
        )
    ]


ROTORS = {
    "free": replace(ROTOR, lag_damping=0.0),
    "damped": ROTOR,
    "damped, with a spring": replace(ROTOR, lag_stiffness=30e3, lag_damping=4000.0),
    "damped, three blades": replace(ROTOR, blades=3),
    "damped, five blades": replace(ROTOR, blades=5, lag_damping=9000.0),
}


@pytest.mark.parametrize("modes", [LATERAL, BOTH], ids=["one mode", "two directions"])
@pytest.mark.parametrize("name", ROTORS)
def test_blades_free_in_lag_are_taken_out_exactly(
    name: str, modes: tuple[SupportMode, ...]
) -> None:
    """Poles and residues by scipy, any azimuth: the modes come back without the blades."""
    rotor = ROTORS[name]
    for turned in (0.0, 0.3, 1.0):
        found = hub_data(rotor, shaken(rotor, modes, turned), name.partition(",")[0], 0.0)
        assert numbers(found.modes) == pytest.approx(at_hub(modes), rel=1e-7)


@pytest.mark.parametrize("fitted", ["dummies", "off", "locked"])
def test_masses_are_taken_out_exactly_of_modes_that_share_a_direction(fitted: str) -> None:
    """Scipy: three modes, two of which move the hub the same way, with masses at the hub."""
    dummy = {"dummies": 45.0, "off": 0.0, "locked": ROTOR.blade_mass}[fitted]
    rotor = replace(ROTOR, lag_damping=0.0)
    undamped = tuple(replace(mode, damping_ratio=1e-6) for mode in THREE)
    found = hub_data(rotor, shaken(rotor, undamped, dummy=dummy), fitted, dummy)

    for mode, bare in zip(found.modes, undamped, strict=True):
        assert mode.frequency == pytest.approx(bare.frequency, rel=1e-7)
        scale = bare.shape_x**2 + bare.shape_y**2
        assert mode.hub_mass == pytest.approx(bare.modal_mass / scale, rel=1e-6)
        assert abs(mode.direction_x) == pytest.approx(abs(bare.shape_x) / scale**0.5, abs=1e-6)


def test_dampers_on_modes_that_share_a_direction_are_taken_out_nearly() -> None:
    """Scipy, dampers connected, three modes: what is left is off by no more than two per cent.

    The blades couple the modes at every frequency, the form at the mean of two: hence the two per
    cent.  Counted as lumped masses the lateral damping would come out a tenth too high.
    """
    found = hub_data(ROTOR, shaken(ROTOR, THREE), "damped", 0.0)
    lumped = hub_data(ROTOR, shaken(ROTOR, THREE), "locked", 0.0)

    assert numbers(found.modes) == pytest.approx(at_hub(THREE), rel=0.02)
    exact = 2.0 * 0.067 * 1400.0 * 2.0 * math.pi * 3.4
    assert found.modes[1].hub_damping == pytest.approx(exact, rel=0.02)
    assert lumped.modes[1].hub_damping > 1.08 * exact


def test_what_free_and_heavily_damped_blades_are_to_the_hub() -> None:
    """M - S²/(2 I) a blade when free; the whole mass when the damper lets nothing move."""
    (free,) = hub_data(ROTOR, LATERAL, "free", 0.0).felt
    heavy = replace(ROTOR, lag_damping=1e9)
    (held,) = hub_data(heavy, LATERAL, "damped", 0.0).felt

    assert free.mass == pytest.approx(4.0 * (50.0 - 115.0**2 / 700.0))
    assert free.damping == 0.0
    assert held.mass == pytest.approx(200.0, rel=1e-6)
    assert held.damping == pytest.approx(0.0, abs=0.1)


def test_hub_data_are_of_a_hub_motion_of_one() -> None:
    """A shape twice as large with four times the modal mass: the same hub data."""
    once = hub_data(ROTOR, THREE, "dummies", 50.0)
    doubled = tuple(
        replace(m, modal_mass=4.0 * m.modal_mass, shape_x=2.0 * m.shape_x, shape_y=2.0 * m.shape_y)
        for m in THREE
    )
    again = hub_data(ROTOR, doubled, "dummies", 50.0)

    assert numbers(again.modes) == pytest.approx(numbers(once.modes), rel=1e-12)
    for mode in once.modes:
        assert math.hypot(mode.direction_x, mode.direction_y) == pytest.approx(1.0)
        pulse = 2.0 * math.pi * mode.frequency
        assert mode.hub_stiffness == pytest.approx(mode.hub_mass * pulse**2)
        assert mode.hub_damping == pytest.approx(2.0 * mode.damping_ratio * mode.hub_mass * pulse)
        assert mode.support_mode.modal_mass == mode.hub_mass


def test_added_mass_is_the_effective_mass() -> None:
    """Scipy: a hub of 1400 kg, 200 kg added; both frequencies give the mass back."""
    before, after = (
        math.sqrt(linalg.eigh([[640e3]], [[mass]], eigvals_only=True)[0]) / (2.0 * math.pi)
        for mass in (1400.0, 1600.0)
    )
    assert added_mass(200.0, before, after) == pytest.approx(1400.0)
    with pytest.raises(ValueError, match="must fall when a mass is added"):
        added_mass(200.0, 3.0, 3.0)


@pytest.mark.parametrize(
    ("modes", "fitted", "message"),
    [
        ((SupportMode(3.2, 0.06, 150.0, 0.0, 1.0),), "locked", "less than what the blades are"),
        ((SupportMode(3.2, 0.001, 1500.0, 0.0, 1.0),), "damped", "dampers alone give more damping"),
        ((SupportMode(3.2, 0.06, 150.0, 0.0, 0.0),), "off", "Each mode must move the hub"),
    ],
)
def test_tests_that_cannot_be_are_refused(
    modes: tuple[SupportMode, ...], fitted: str, message: str
) -> None:
    """A mode lighter than the blades, damped less than its dampers, or at rest at the hub."""
    with pytest.raises(ValueError, match=message):
        hub_data(ROTOR, modes, fitted, 0.0)
