"""Uncertainty: squares add, and the largest part is named."""

import numpy as np
import pytest

from calc.measurement.uncertainty import (
    UncertaintyPart,
    combined_uncertainty,
    uncertainty_budget,
)


def test_sum_is_the_spread_of_independent_parts() -> None:
    """NumPy: an even and two bell-shaped parts; 0.5 % is three times the error of the sampling."""
    dice, size = np.random.default_rng(5), 400_000
    bound = 0.05
    drawn = (
        dice.uniform(-bound, bound, size)
        + dice.normal(0.0, 0.02, size)
        + dice.normal(0.0, 0.03, size)
    )
    parts = (
        UncertaintyPart("bound", bound / 3.0**0.5),
        UncertaintyPart("one", 0.02),
        UncertaintyPart("other", 0.03),
    )
    found = uncertainty_budget(parts)

    assert found.combined == pytest.approx(drawn.std(), rel=0.005)
    assert np.mean(np.abs(drawn) < found.expanded) == pytest.approx(0.95, abs=0.015)


def test_parts_are_told_from_the_largest_down() -> None:
    """Shares of the variance add up to one; by hand, 0.04 of 0.05 is 64 %."""
    found = uncertainty_budget((UncertaintyPart("small", 0.03), UncertaintyPart("large", 0.04)))

    assert found.combined == pytest.approx(0.05)
    assert found.largest == "large, 64 % of the variance"
    assert [part.name for part in found.parts] == ["large", "small"]
    assert sum(part.share for part in found.parts) == pytest.approx(1.0)


@pytest.mark.parametrize("components", [[], [0.1, -0.1], [float("nan")]])
def test_impossible_parts_are_refused(components: list[float]) -> None:
    """No part, a negative one, one that is no number."""
    with pytest.raises(ValueError, match=r"part|uncertainty"):
        combined_uncertainty(components)


def test_budget_of_nothing_but_zeros_is_zero() -> None:
    """No division by nothing."""
    found = uncertainty_budget((UncertaintyPart("none", 0.0),))

    assert found.combined == 0.0
    assert found.parts[0].share == 0.0
