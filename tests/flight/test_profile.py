"""Profile: power, torque and drag factors against quadrature over the disc."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad

from calc.flight.profile import profile_factors


def mean(integrand: Callable[[float, float, float], float], mu: float) -> float:
    """Return 4 times the mean over azimuth of an integral over the radius, by SciPy.

    Each half-turn is split where the reverse flow begins, so that no corner is crossed.
    """

    def inside(x: float, azimuth: float) -> float:
        along, across = x + mu * math.sin(azimuth), mu * math.cos(azimuth)
        return integrand(along, across, azimuth)

    def edge(azimuth: float) -> float:
        return min(1.0, max(0.0, -mu * math.sin(azimuth)))

    total = 0.0
    for start in 0.0, math.pi:
        for low, high in ((0.0, edge), (edge, 1.0)):
            total += dblquad(inside, start, start + math.pi, low, high, epsabs=1e-11, epsrel=1e-11)[
                0
            ]
    return 4.0 * total / (2.0 * math.pi)


@pytest.mark.parametrize("ratio", [0.0, 0.1, 0.35, 0.7, 1.0, 3.0])
def test_factors_are_integrals_over_the_disc(ratio: float) -> None:
    """SciPy's adaptive quadrature of the definitions gives the same three factors."""
    factors = profile_factors(ratio)

    power = mean(lambda u, r, _: math.hypot(u, r) ** 3, ratio)
    drag = mean(
        lambda u, r, azimuth: math.hypot(u, r) * (u * math.sin(azimuth) + r * math.cos(azimuth)),
        ratio,
    )
    torque = mean(
        lambda u, r, azimuth: math.hypot(u, r) * u * (u - ratio * math.sin(azimuth)), ratio
    )
    assert factors.power == pytest.approx(power, rel=1e-8)
    assert factors.in_plane == pytest.approx(drag, rel=1e-8, abs=1e-9)
    assert factors.torque == pytest.approx(torque, rel=1e-8)


def test_hover_and_slow_flight() -> None:
    """In hover the factors are 1, 1 and 0; small advance ratios add 9/2 and 3/2 of their square."""
    hover = profile_factors(0.0)
    assert (hover.power, hover.torque, hover.in_plane) == pytest.approx((1.0, 1.0, 0.0), abs=1e-14)

    slow = profile_factors(0.01)
    assert (slow.power - 1.0) / 1e-4 == pytest.approx(4.5, rel=1e-3)
    assert (slow.torque - 1.0) / 1e-4 == pytest.approx(1.5, rel=1e-3)
    assert slow.in_plane / 0.01 == pytest.approx(3.0, rel=1e-3)


def test_fast_flight_is_a_stopped_blade() -> None:
    """Far above tip speed all sections meet the airspeed alone: F tends to 4 times its cube."""
    factors = profile_factors(10.0)

    # the next term of the mean of the cube is 9/4 of x²/μ² with the mean 1/3 of x²
    assert factors.power / 4000.0 == pytest.approx(1.0 + 2.25 / 3.0 / 100.0, rel=1e-4)


@given(st.floats(0.0, 1.5))
def test_power_grows_with_advance_ratio(ratio: float) -> None:
    """All three grow with the advance ratio, and power is more than torque."""
    here, faster = profile_factors(ratio), profile_factors(ratio + 0.05)

    assert here.power < faster.power
    assert here.torque < faster.torque
    assert here.in_plane < faster.in_plane
    assert here.power >= here.torque - 1e-14


def test_rule_of_thumb_is_for_power() -> None:
    """The rule 1 + 4.65 mu² lies within 1 per cent of the power at 0.3, far from the torque."""
    factors = profile_factors(0.3)

    assert factors.rule == pytest.approx(factors.power, rel=0.01)
    assert factors.rule > 1.2 * factors.torque
