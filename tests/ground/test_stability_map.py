"""The batched map against eigenvalues one by one."""

from dataclasses import replace

import numpy as np
import pytest

from calc.ground.search.damping_map import scaled
from calc.ground.stability import growth_rate
from scripts.stability_map import growth_map
from tests.ground.example import ROTOR, SUPPORT


def test_map_is_the_worst_of_each_sweep() -> None:
    """Each cell is the largest growth rate of a sweep with its two dampings."""
    lags, factors, speeds = [0.0, 1000.0, 8000.0], [0.5, 3.0], np.linspace(5.0, 42.0, 30).tolist()
    found = growth_map(ROTOR, SUPPORT, lags, factors, speeds)

    for row, factor in zip(found, factors, strict=True):
        for cell, lag in zip(row, lags, strict=True):
            rotor, support = replace(ROTOR, lag_damping=lag), scaled(SUPPORT, factor)
            worst = max(growth_rate(rotor, support, speed) for speed in speeds)
            assert cell == pytest.approx(worst, abs=1e-8)
