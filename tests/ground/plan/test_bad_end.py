"""The aircraft at the bad end of what is not known of it."""

import math
import random
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.ground.model.aircraft import Rotor, Support, support_frequencies
from calc.ground.model.gear_state import STATES, in_state
from calc.ground.plan.bad_end import (
    bad_end_bands,
    cases,
    damping_within,
    least_damping,
)
from calc.ground.plan.run_rules import RunRules
from calc.ground.plan.seen_modes import seen_modes
from calc.ground.stability import growth_rate, unstable_bands
from calc.units import RPM
from tests.ground.example import ROTOR, SUPPORT, SWEEP
from tests.ground.oracle import eigenvalues_of_single_blades
from tests.ground.rotorcraft import Rotorcraft, rotorcraft

SPEEDS = [SWEEP[0] + (SWEEP[1] - SWEEP[0]) * n / 100 for n in range(101)]


def test_damping_ratio_of_a_hub_without_coupling() -> None:
    """Blades of almost no moment leave the hub its own damping ratio C / 2√(KM), 12.5 per cent.

    The lag is damped critically, at √(e S / I) = 0.2866 of rotor speed: C = 2 I × 10.8 rad/s, and
    seen from the hub it has 0.2866 / √(1 + 0.2866²) = 28 per cent.
    """
    light = Rotor(4, 0.0, 1e-3, 350.0, 28750.0, 0.0, 7563.0)
    support = Support(1600.0, 1600.0, 640e3, 640e3, 8000.0, 8000.0)
    found = seen_modes(light, support, RPM.si(360.0))[0]

    assert found.damping_ratio == pytest.approx(8000.0 / 2.0 / math.sqrt(640e3 * 1600.0), rel=1e-6)
    assert found.frequency == pytest.approx(20.0 * math.sqrt(1.0 - 0.125**2), rel=1e-6)


@settings(max_examples=50, deadline=None)
@given(craft=rotorcraft(), share=st.floats(0.1, 1.3))
def test_damping_is_below_zero_where_motion_grows(craft: Rotorcraft, share: float) -> None:
    """The damping ratio and the growth rate have opposite signs."""
    where = (craft.rotor, craft.hub.support(craft.rotor), share * craft.nominal_speed)

    assert (seen_modes(*where)[0].damping_ratio < 0.0) == (growth_rate(*where) > 0.0)


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
        now = [least_damping(found, speed) for speed in SPEEDS]
        # the corners of a small box lie inside a larger one, whose own corners bound them: 0.003
        assert all(b <= a + 0.003 for a, b in zip(damping, now, strict=True))
        damping = now
    assert edges == sorted(edges, reverse=True)


def test_a_search_inside_finds_less_damping_than_the_corners() -> None:
    """Aircraft drawn at random within the uncertainties, their damping by single blades.

    Two thousand of them in the six states of the example with one and a half times its damping:
    where the damping is below 5 per cent of critical, none has less than the search found by more
    than 0.1 per cent of critical, and some have less than every corner by more than that.
    """
    drawn = random.Random(5)  # noqa: S311 - reproducible, nothing is secret
    rules = RunRules()
    off, wide = rules.frequency_uncertainty, rules.damping_uncertainty
    rotor = replace(ROTOR, lag_damping=1.5 * ROTOR.lag_damping)
    below_search, below_corners = 0.0, 0.0
    for state in STATES.example:
        damped = replace(SUPPORT, damping_x=1.5 * 6000.0, damping_y=1.5 * 4000.0)
        support = in_state(damped, state)
        for speed in SPEEDS[20::10]:
            found = damping_within(rotor, support, rules, speed)
            corner = least_damping(cases(rotor, support, rules), speed)
            assert found <= corner
            for _ in range(40):
                x, y = (1.0 + drawn.uniform(-off, off) for _ in "xy")
                c_x, c_y, lag = (1.0 + wide * drawn.choice((-1, 1, 0.5)) for _ in "xyl")
                other = replace(rotor, lag_damping=lag * rotor.lag_damping)
                least = _swinging_ratio(
                    other,
                    Support(
                        support.mass_x,
                        support.mass_y,
                        x * x * support.stiffness_x,
                        y * y * support.stiffness_y,
                        c_x * support.damping_x,
                        c_y * support.damping_y,
                    ),
                    speed,
                )
                if found < 0.05:
                    below_search = max(below_search, found - least)
                    below_corners = max(below_corners, corner - least)
    assert below_search < 1e-3 < below_corners


def _swinging_ratio(rotor: Rotor, support: Support, speed: float) -> float:
    """Return the least damping ratio, by single blades, of what swings on the rotating blades.

    A blade alone creeps back at the slower root of I s² + C s + K = 0; what lies within a fifth
    of that, seen from the blades, is creep.  Blade patterns that leave the hub at rest are two in
    four, at the roots of the blade alone.
    """
    alone = np.roots(
        [rotor.lag_inertia, rotor.lag_damping, rotor.lag_inertia * rotor.lag_frequency(speed) ** 2]
    )
    found = eigenvalues_of_single_blades(rotor, support, speed)
    moving = [s for s in found if min(abs(s - alone)) > 1e-6 * abs(s)]
    creep = max(alone.real) if abs(alone[0].imag) < 1e-12 else None
    swinging = [
        s
        for s in moving
        if creep is None
        or abs(complex(s.real, abs(s.imag) - speed) - creep) > -0.2 * creep
        or s.real > 0.0
    ]
    return float(min(-s.real / abs(s) for s in swinging))
