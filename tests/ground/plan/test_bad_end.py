"""The aircraft at the bad end of what is not known of it."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.ground.model.aircraft import Rotor, Support, support_frequencies
from calc.ground.plan.bad_end import bad_end_bands, bad_end_damping, cases, least_damped
from calc.ground.plan.run_rules import RunRules
from calc.ground.stability import growth_rate, unstable_bands
from calc.units import RPM
from tests.ground.example import ROTOR, SUPPORT, SWEEP
from tests.ground.rotorcraft import Rotorcraft, rotorcraft

SPEEDS = [SWEEP[0] + (SWEEP[1] - SWEEP[0]) * n / 100 for n in range(101)]


def test_damping_ratio_of_a_hub_without_coupling() -> None:
    """Blades of almost no moment leave the hub its own damping ratio C / 2√(KM), 12.5 per cent.

    The lag is damped critically, at √(e S / I) = 0.2866 of rotor speed: C = 2 I × 10.8 rad/s, and
    seen from the hub it has 0.2866 / √(1 + 0.2866²) = 28 per cent.
    """
    light = Rotor(4, 0.0, 1e-3, 350.0, 28750.0, 0.0, 7563.0)
    support = Support(1600.0, 1600.0, 640e3, 640e3, 8000.0, 8000.0)
    found = least_damped(light, support, RPM.si(360.0))

    assert found.damping_ratio == pytest.approx(8000.0 / 2.0 / math.sqrt(640e3 * 1600.0), rel=1e-6)
    assert found.frequency == pytest.approx(20.0 * math.sqrt(1.0 - 0.125**2), rel=1e-6)


@settings(max_examples=50, deadline=None)
@given(craft=rotorcraft(), share=st.floats(0.1, 1.3))
def test_damping_is_below_zero_where_motion_grows(craft: Rotorcraft, share: float) -> None:
    """The damping ratio and the growth rate have opposite signs."""
    where = (craft.rotor, craft.hub.support(craft.rotor), share * craft.nominal_speed)

    assert (least_damped(*where).damping_ratio < 0.0) == (growth_rate(*where) > 0.0)


def test_stiffness_goes_with_the_square_of_frequency() -> None:
    """At an uncertainty of a tenth the frequencies are 0.9, 1 and 1.1 of those as given."""
    given_x, given_y = support_frequencies(ROTOR, SUPPORT)
    found = cases(ROTOR, SUPPORT, RunRules(frequency_uncertainty=0.1))
    ratios = {
        (round(x / given_x, 9), round(y / given_y, 9))
        for x, y in (support_frequencies(*case) for case in found)
    }

    assert ratios == {(1.0, 1.0), (0.9, 0.9), (0.9, 1.1), (1.1, 0.9), (1.1, 1.1)}
    assert found[0] == (ROTOR, SUPPORT)


def test_nothing_unknown_is_the_aircraft_as_given() -> None:
    """Without uncertainties there is one case, and its band is that of the sweep."""
    found = cases(ROTOR, SUPPORT, RunRules(frequency_uncertainty=0.0, damping_uncertainty=0.0))

    assert found == ((ROTOR, SUPPORT),)
    ((low, high),) = bad_end_bands(found, SPEEDS)
    ((first, last),) = unstable_bands(ROTOR, SUPPORT, *SWEEP)
    assert (low, high) == pytest.approx((first, last), rel=1e-8)


def test_the_bad_end_is_worse_everywhere() -> None:
    """More uncertainty never leaves more damping, and never moves the first edge up."""
    edges = []
    damping = [math.inf] * len(SPEEDS)
    for unknown in (0.0, 0.05, 0.1):
        rules = RunRules(frequency_uncertainty=unknown, damping_uncertainty=4.0 * unknown)
        found = cases(ROTOR, SUPPORT, rules)
        edges.append(bad_end_bands(found, SPEEDS)[0][0])
        now = [bad_end_damping(found, speed) for speed in SPEEDS]
        # the corners of a small box lie inside a larger one, whose own corners bound them: 0.003
        assert all(b <= a + 0.003 for a, b in zip(damping, now, strict=True))
        damping = now
    assert edges == sorted(edges, reverse=True)
