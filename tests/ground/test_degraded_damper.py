"""One degraded damper against independent values and limits."""

from dataclasses import replace

import pytest

from calc.ground.degraded_damper import critical_damper_share, degraded_damper
from calc.ground.dissimilar import worst_speed
from calc.ground.search.needed_damping import minimum_lag_damping
from calc.ground.stability import worst_speed as worst_speed_of_identical_blades
from calc.units import RPM
from tests.ground.benchmark import HAMMOND_HUB, HAMMOND_ROTOR, HAMMOND_SUPPORT, floquet
from tests.ground.example import HUB, ROTOR, SWEEP
from tests.ground.oracle import Growth, assert_edges

HAMMOND = (HAMMOND_ROTOR, HAMMOND_HUB)
SPEEDS = (RPM.si(60.0), RPM.si(500.0))


def by_single_blades(share: float) -> Growth:
    """Return the growth rate over rotor speed with one damper at a share, by scipy."""
    nominal = HAMMOND_ROTOR.lag_damping
    dampings = (share * nominal, nominal, nominal, nominal)
    return lambda speed: float(floquet(HAMMOND_ROTOR, HAMMOND_SUPPORT, speed, dampings)[0])


def test_critical_share_of_the_benchmark() -> None:
    """Hammond's data, single blades by scipy: the share is the edge; averaging sees no need.

    The harmonic mean of a share d and three whole dampers is 4 / (3 + 1 / d) of a whole one.
    """
    found = critical_damper_share(*HAMMOND, *SPEEDS)
    assert found is not None

    near = degraded_damper(*HAMMOND, found.critical_share, *SPEEDS).worst_speed
    speeds = [near * (1.0 + 0.004 * step) for step in range(-4, 5)]
    assert max(map(by_single_blades(0.99 * found.critical_share), speeds)) > 0.0
    assert max(map(by_single_blades(1.01 * found.critical_share), speeds)) < 0.0
    needed = minimum_lag_damping(HAMMOND_ROTOR, HAMMOND_SUPPORT, *SPEEDS)
    assert needed is not None
    mean = 4.0 / (3.0 + 1.0 / found.harmonic_share)
    assert mean * HAMMOND_ROTOR.lag_damping == pytest.approx(needed, rel=1e-6)
    assert found.averaged_share < 0.0  # averaging says that the damper could be missing


def test_critical_share_is_the_edge_of_stability() -> None:
    """A little more of the damper is stable and a little less is not."""
    found = critical_damper_share(*HAMMOND, *SPEEDS)
    assert found is not None

    for factor, is_unstable in ((0.995, True), (1.005, False)):
        share = factor * found.critical_share
        assert (degraded_damper(*HAMMOND, share, *SPEEDS).growth_rate > 0.0) == is_unstable


def test_one_damper_inoperative() -> None:
    """Hammond's data, single blades by scipy: one band, its edges and its peak."""
    found = degraded_damper(*HAMMOND, 0.0, *SPEEDS)
    growth = by_single_blades(0.0)

    (band,) = found.bands
    assert_edges(growth, (band.lower_speed, band.upper_speed))
    assert growth(found.worst_speed) == pytest.approx(found.growth_rate, abs=1e-6)
    assert growth(found.worst_speed) > growth(0.99 * found.worst_speed)
    assert growth(found.worst_speed) > growth(1.01 * found.worst_speed)
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
