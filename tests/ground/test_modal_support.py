"""Any number of support modes against the two directions that they can stand for."""

import math
from dataclasses import replace

import numpy as np
import pytest

from calc import linalg
from calc.ground.modal_support import SupportMode, modal_support, support_of_modes
from calc.ground.model.aircraft import Support
from calc.ground.model.general_support import (
    GeneralSupport,
    coupling,
    natural_frequencies,
    state_matrix,
    two_directions,
)
from calc.ground.stability import eigenvalues, growth_rate, unstable_bands, worst_speed
from tests.ground.benchmark import HAMMOND_ROTOR, HAMMOND_SUPPORT, random_aircraft


def modes_of(support: Support, blades: float = 0.0) -> tuple[SupportMode, SupportMode]:
    """Return the two directions of a support as modes, with the mass of blades if given."""
    found = []
    for name, shape in (("x", (1.0, 0.0)), ("y", (0.0, 1.0))):
        mass, stiffness, damping = (
            getattr(support, f"{word}_{name}") for word in ("mass", "stiffness", "damping")
        )
        total = mass + blades
        rate = math.sqrt(stiffness / total)
        ratio = damping / (2.0 * total * rate)
        found.append(SupportMode(rate / (2.0 * math.pi), ratio, total, *shape))
    return found[0], found[1]


def turned(support: Support, angle: float) -> GeneralSupport:
    """Return a support whose principal directions are turned from x and y by an angle."""
    c, s = math.cos(angle), math.sin(angle)
    both = two_directions(support)
    return replace(both, x=(c, -s), y=(s, c))


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("angle", [0.0, 0.7, 2.0])
def test_two_modes_are_two_directions(seed: int, angle: float) -> None:
    """The eigenvalues are those of the support, in whichever direction its axes point."""
    rotor, support, speed = random_aircraft(seed)
    found = np.array(linalg.eigenvalues(state_matrix(rotor, turned(support, angle), speed)))

    for value in eigenvalues(rotor, support, speed):
        assert min(abs(found - value)) < 1e-8 * abs(value)


@pytest.mark.parametrize("hub_mass", ["without_blades", "with_blades"])
def test_verdict_is_that_of_the_directions(hub_mass: str) -> None:
    """Hammond's data as modes, blades off or on: the same worst speed and bands."""
    rotor = HAMMOND_ROTOR
    blades = rotor.blades * rotor.blade_mass if hub_mass == "with_blades" else 0.0
    weak = replace(rotor, lag_damping=0.6 * rotor.lag_damping)
    modes = modes_of(HAMMOND_SUPPORT, blades)
    found = modal_support(weak, modes, 6.0, 52.0, hub_mass)

    speed, growth = worst_speed(weak, HAMMOND_SUPPORT, 6.0, 52.0)
    assert found.worst_speed == pytest.approx(speed, rel=1e-5)
    assert found.growth_rate == pytest.approx(growth, abs=1e-9)
    edges = [edge for band in found.bands for edge in (band.lower_speed, band.upper_speed)]
    expected = [edge for band in unstable_bands(weak, HAMMOND_SUPPORT, 6.0, 52.0) for edge in band]
    assert edges == pytest.approx(expected, rel=1e-8)


def test_scale_of_a_mode_shape_does_not_matter() -> None:
    """A shape twice as large with a modal mass four times as large is the same mode."""
    rotor = HAMMOND_ROTOR
    once = (SupportMode(2.0, 0.05, 3000.0, 0.2, 1.0), SupportMode(5.0, 0.05, 2000.0, 1.0, -0.3))
    twice = (SupportMode(2.0, 0.05, 12000.0, 0.4, 2.0), once[1])

    values = [
        max(v.real for v in linalg.eigenvalues(state_matrix(rotor, support_of_modes(m), 22.0)))
        for m in (once, twice)
    ]
    assert values[0] == pytest.approx(values[1], rel=1e-9)


def test_a_far_mode_changes_nothing() -> None:
    """A third mode that does not move the hub leaves the growth rate."""
    modes = (*modes_of(HAMMOND_SUPPORT), SupportMode(4.0, 0.9, 100.0, 0.0, 0.0))
    speed = 25.0
    matrix = state_matrix(HAMMOND_ROTOR, support_of_modes(modes), speed)

    growth = max(value.real for value in linalg.eigenvalues(matrix))
    assert growth == pytest.approx(growth_rate(HAMMOND_ROTOR, HAMMOND_SUPPORT, speed), abs=1e-9)


def test_natural_frequencies_have_the_blades() -> None:
    """Hammond's data: 12.148 and 18.402 rad/s with the blades lumped at the hub."""
    support = support_of_modes(modes_of(HAMMOND_SUPPORT))

    assert natural_frequencies(HAMMOND_ROTOR, support) == pytest.approx([12.148, 18.402], abs=5e-4)


def test_a_support_lighter_than_the_blades_is_refused() -> None:
    """A hub that weighs nothing cannot carry blades."""
    with pytest.raises(ValueError, match="too light for the first moment"):
        modal_support(
            replace(HAMMOND_ROTOR, blade_mass=0.0), (SupportMode(2.0, 0.1, 1.0, 1.0, 0.0),), 5, 50
        )


@pytest.mark.parametrize(("blades", "share"), [(2, 1.0), (4, 0.5)])
def test_share_of_the_mass_that_the_blades_take_off(blades: int, share: float) -> None:
    """N S² / I over the mass: half of it for three or more blades, all of it for two together."""
    rotor = replace(HAMMOND_ROTOR, blades=blades)
    moment = blades * rotor.first_moment**2 / rotor.lag_inertia
    lighter = HAMMOND_SUPPORT.mass_y + blades * rotor.blade_mass

    found = coupling(rotor, two_directions(HAMMOND_SUPPORT))
    assert found == pytest.approx(share * moment / lighter)
