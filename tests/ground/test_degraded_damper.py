"""One degraded damper against independent values and limits."""

from dataclasses import replace

import pytest

from calc.ground.degraded_damper import critical_damper_share, degraded_damper
from calc.ground.dissimilar import worst_speed
from calc.ground.stability import worst_speed as worst_speed_of_identical_blades
from calc.units import RPM
from tests.ground.benchmark import HAMMOND_HUB, HAMMOND_ROTOR, HAMMOND_SUPPORT
from tests.ground.example import HUB, ROTOR, SWEEP

HAMMOND = (HAMMOND_ROTOR, HAMMOND_HUB)
SPEEDS = (RPM.si(60.0), RPM.si(500.0))


def test_critical_share_of_the_benchmark() -> None:
    """Hammond's data, independent program: 0.340 by Floquet, 0.407 from the harmonic mean."""
    found = critical_damper_share(*HAMMOND, *SPEEDS)

    assert found is not None
    assert found.critical_share == pytest.approx(0.340, abs=6e-4)
    assert found.harmonic_share == pytest.approx(0.407, abs=6e-4)
    assert found.averaged_share < 0.0  # averaging says that the damper could be missing


def test_critical_share_is_the_edge_of_stability() -> None:
    """A little more of the damper is stable and a little less is not."""
    found = critical_damper_share(*HAMMOND, *SPEEDS)
    assert found is not None

    for factor, is_unstable in ((0.995, True), (1.005, False)):
        share = factor * found.critical_share
        assert (degraded_damper(*HAMMOND, share, *SPEEDS).growth_rate > 0.0) == is_unstable


def test_one_damper_inoperative() -> None:
    """Hammond's data, independent program: +0.325913 1/s at 254.60 rpm, 210.376-307.097 rpm."""
    found = degraded_damper(*HAMMOND, 0.0, *SPEEDS)

    assert RPM.reading(found.worst_speed) == pytest.approx(254.60, abs=0.05)
    assert found.growth_rate == pytest.approx(0.325913, abs=1e-6)
    (band,) = found.bands
    assert RPM.reading(band.lower_speed) == pytest.approx(210.376, abs=5e-4)
    assert RPM.reading(band.upper_speed) == pytest.approx(307.097, abs=5e-4)
    assert found.averaged_growth < 0.0


def test_a_whole_damper_changes_nothing() -> None:
    """A share of one is the rotor with identical blades."""
    found = degraded_damper(*HAMMOND, 1.0, *SPEEDS)
    _, growth = worst_speed_of_identical_blades(HAMMOND_ROTOR, HAMMOND_SUPPORT, *SPEEDS)

    assert found.growth_rate == pytest.approx(growth, abs=1e-6)
    assert found.averaged_growth == pytest.approx(growth, abs=1e-9)


def test_a_seized_damper_is_a_large_share() -> None:
    """A share of a million is the rotor with one damper that resists any motion."""
    found = degraded_damper(*HAMMOND, 1e6, *SPEEDS)
    dampings = (1e6 * HAMMOND_ROTOR.lag_damping, *(HAMMOND_ROTOR.lag_damping,) * 3)

    assert (found.worst_speed, found.growth_rate) == worst_speed(
        HAMMOND_ROTOR, HAMMOND_SUPPORT, dampings, *SPEEDS
    )


def test_unstable_with_every_damper_has_no_share() -> None:
    """The aircraft of the forms is unstable as it is."""
    assert critical_damper_share(ROTOR, HUB, *SWEEP) is None


def test_a_rotor_that_needs_no_damper_may_lose_one() -> None:
    """Far from coalescence the share is zero."""
    stiff = replace(
        HAMMOND_HUB,
        stiffness_x=9.0 * HAMMOND_HUB.stiffness_x,
        stiffness_y=9.0 * HAMMOND_HUB.stiffness_y,
    )
    found = critical_damper_share(HAMMOND_ROTOR, stiff, RPM.si(100.0), RPM.si(160.0))

    assert found is not None
    assert found.critical_share == 0.0
    dampings = (0.0, *(HAMMOND_ROTOR.lag_damping,) * 3)
    support = stiff.support(HAMMOND_ROTOR)
    worst = worst_speed(HAMMOND_ROTOR, support, dampings, RPM.si(100.0), RPM.si(160.0))
    assert worst[1] <= 1e-6
