"""Product criterion against the eigenvalues that it stands for, and the benchmark."""

import math
from dataclasses import replace

import pytest

from calc.ground.criterion import Criterion, damping_product
from calc.ground.dissimilar import growth_rate as growth_of_different_blades
from calc.ground.model.aircraft import HubDirection, Rotor, Support
from calc.ground.search.needed_damping import minimum_lag_damping
from calc.ground.stability import growth_rate
from tests.ground.benchmark import HAMMOND_ROTOR, HAMMOND_SUPPORT
from tests.ground.example import ROTOR, SUPPORT

HUB = HubDirection(1400.0, 64e4, 4e3)


def criterion(rotor: Rotor, support: Support) -> Criterion:
    """Return the criterion of the y direction."""
    found = damping_product(rotor, support.lateral)
    assert found is not None
    return found


def weakly_coupled(scale: float, *, isotropic: bool) -> tuple[Rotor, Support, float]:
    """Return an aircraft whose damping rates are equal and of the size of the coupling."""
    moment = 100.0 * scale
    rotor = Rotor(4, 40.0, moment, 320.0, 0.3 / scale, 0.0, 0.0)
    needed = criterion(rotor, Support(3000.0, 3000.0, 1e6, 1e6, 1.0, 1.0))
    product = needed.isotropic_product if isotropic else needed.single_product
    mass = 3000.0 + 160.0
    rate = (product / (320.0 * mass)) ** 0.5
    far = 1.0 if isotropic else 400.0
    support = Support(3000.0, 3000.0, far * 1e6, 1e6, rate * mass, rate * mass)
    return replace(rotor, lag_damping=rate * 320.0), support, product


@pytest.mark.parametrize("isotropic", [True, False])
def test_criterion_is_exact_for_weak_coupling(*, isotropic: bool) -> None:
    """Eigenvalues: the lag damping needed tends to that of the criterion as coupling falls."""
    differences = []
    for scale in (1.0, 0.3, 0.1, 0.03):
        rotor, support, _ = weakly_coupled(scale, isotropic=isotropic)
        speed = criterion(rotor, support).coalescence
        needed = minimum_lag_damping(rotor, support, 0.97 * speed, 1.03 * speed)
        assert needed is not None
        differences.append(abs(needed / rotor.lag_damping - 1.0))

    assert differences == sorted(differences, reverse=True)
    assert differences[-1] < 1e-4


def test_benchmark_margins() -> None:
    """Hammond's data, by hand.

    Mass with blades 3283.6 + 4 × 94.86 = 3663.1 kg, so that ω² = 1.24048e6 / 3663.1 = 338.65 and
    ν² = 0.3048 × 289.13 / 1084.7 = 0.081249, ν = 0.28504.  The product is
    289.13² × 338.65 × 0.71496 / 0.28504 = 7.101e7, and there is 25539 × 4067.5 = 1.0388e8.
    """
    found = criterion(HAMMOND_ROTOR, HAMMOND_SUPPORT)

    assert found.single_product == pytest.approx(7.101e7, rel=2e-4)
    assert found.actual_product == pytest.approx(1.0388e8, rel=1e-4)
    assert found.single_margin == pytest.approx(1.0388 / 0.7101, rel=3e-4)
    assert found.isotropic_margin == pytest.approx(found.single_margin / 2.0, rel=1e-15)


def test_different_dampers_count_by_their_harmonic_mean() -> None:
    """Averaging theorem: at coalescence and weak coupling the harmonic mean must meet the product.

    With 1.6 times the product and four blades the weak one may fall to 0.29412 of its nominal
    damping: 1.6 × 4 / (3 + 1 / d) = 1.
    """
    rotor, support, _ = weakly_coupled(0.03, isotropic=True)
    speed = criterion(rotor, support).coalescence
    nominal = 1.6 * rotor.lag_damping
    share = 1.0 / (1.6 * 4.0 - 3.0)

    for factor, is_unstable in ((0.98, True), (1.02, False)):
        dampings = (factor * share * nominal, nominal, nominal, nominal)
        speeds = [speed * (1.0 + 1e-5 * step) for step in range(-40, 41)]
        worst = max(growth_of_different_blades(rotor, support, s, dampings) for s in speeds)
        assert (worst > 0.0) == is_unstable


def test_hub_mass_may_be_given_with_the_blades() -> None:
    """The switch adds nothing but the mass of the blades."""
    together = HubDirection(1600.0, 64e4, 4e3, "with_blades")

    assert damping_product(ROTOR, HUB) == damping_product(ROTOR, together)
    with pytest.raises(ValueError, match="Effective hub mass without the blades"):
        damping_product(replace(ROTOR, blade_mass=500.0), together)


def test_stiff_in_plane_needs_no_damping() -> None:
    """A lag frequency above the rotor speed at every speed: there is no coalescence."""
    assert damping_product(replace(ROTOR, hinge_offset=4.0), HUB) is None


def test_lag_springs_move_coalescence() -> None:
    """At coalescence the rotor speed less the lag frequency is the frequency of the hub."""
    found = criterion(replace(ROTOR, lag_stiffness=60e3), SUPPORT)
    speed = found.coalescence
    lag = math.sqrt((60e3 + 0.25 * 115.0 * speed**2) / 350.0)

    assert speed - lag == pytest.approx(math.sqrt(640e3 / 1600.0), rel=1e-12)
    assert found.frequency_ratio == pytest.approx(lag / speed, rel=1e-12)


def test_growth_at_coalescence_follows_the_two_mode_formula() -> None:
    """Weak coupling: (2 sigma + c_lag)(2 sigma + c_hub) equals the product needed over I M."""
    rotor, support, product = weakly_coupled(0.03, isotropic=True)
    speed = criterion(rotor, support).coalescence
    light = replace(rotor, lag_damping=0.2 * rotor.lag_damping)

    sigma = growth_rate(light, support, speed)
    lag, hub = light.lag_damping / 320.0, support.damping_y / 3160.0
    assert (2.0 * sigma + lag) * (2.0 * sigma + hub) == pytest.approx(
        product / (320.0 * 3160.0), rel=1e-3
    )


def test_damping_ratios_are_those_at_coalescence() -> None:
    """Three tenths of 2 I omega on the blade, two tenths of 2 M omega on the hub."""
    first = criterion(ROTOR, SUPPORT)
    lag = ROTOR.lag_frequency(first.coalescence)
    critical_rotor = replace(ROTOR, lag_damping=0.3 * 2.0 * ROTOR.lag_inertia * lag)
    critical_hub = replace(SUPPORT, damping_y=0.2 * 2.0 * 1600.0 * math.sqrt(640e3 / 1600.0))
    found = criterion(critical_rotor, critical_hub)

    assert found.lag_damping_ratio == pytest.approx(0.3)
    assert found.support_damping_ratio == pytest.approx(0.2)
