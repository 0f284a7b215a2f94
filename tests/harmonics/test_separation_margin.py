"""Separation margin against a search for the frequency ratio and hand calculation."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from calc.airframe.single_mode import amplification
from calc.harmonics.separation_margin import separation_margin


@given(st.floats(1.1, 12.0), st.floats(0.001, 0.04))
def test_margin_by_search(wanted: float, damping: float) -> None:
    """At both ratios, found by a search instead, the magnification is the one wanted."""
    margin = separation_margin(wanted, damping)
    peak = math.sqrt(1.0 - 2.0 * damping**2)
    assert margin is not None

    def excess(ratio: float) -> float:
        return amplification(ratio, damping) - wanted

    assert margin.lower_ratio == pytest.approx(brentq(excess, 0.0, peak), rel=1e-9)
    assert margin.upper_ratio == pytest.approx(brentq(excess, peak, 2.0), rel=1e-9)


def test_margin_is_one_of_the_mean() -> None:
    """Two frequencies a margin apart differ by it, as a fraction of their mean."""
    margin = separation_margin(5.0, 0.03)
    assert margin is not None
    low, high = margin.lower_ratio, margin.upper_ratio

    assert margin.margin_below == pytest.approx((1.0 - low) / ((1.0 + low) / 2.0))
    assert margin.margin_above == pytest.approx((high - 1.0) / ((1.0 + high) / 2.0))
    assert margin.margin == max(margin.margin_below, margin.margin_above)


def test_damping_alone_may_be_enough() -> None:
    """A mode with 20 per cent damping never amplifies three times."""
    assert separation_margin(3.0, 0.2) is None


def test_impossible_inputs_are_named() -> None:
    """A wanted factor of one and no damping are refused by their label."""
    with pytest.raises(ValueError, match="Dynamic magnification factor wanted must be above 1"):
        separation_margin(1.0)
    with pytest.raises(ValueError, match="Damping ratio must be above 0"):
        separation_margin(5.0, 0.0)
