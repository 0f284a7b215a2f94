"""Stability map: the largest growth rate of a sweep for many lag and hub dampings at once.

It is drawn while the pages are built.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from calc.ground.model.aircraft import Rotor, Support
from calc.ground.model.multiblade import state_matrix


def growth_map(
    rotor: Rotor,
    support: Support,
    lag_dampings: Sequence[float],
    support_factors: Sequence[float],
    rotor_speeds: Sequence[float],
) -> NDArray[np.float64]:
    """Return the largest growth rate over rotor speeds for each pair of dampings.

    The matrix of the equations of motion is linear in each damping, so that four matrices at each
    rotor speed make all of them.

    Args:
        rotor: Three or more identical blades; its own lag damping is not used.
        support: Hub mass without blades, stiffness, and damping of both directions to be scaled.
        lag_dampings: Lag damper of one blade; shape (n,), N·m·s/rad.
        support_factors: Factors on both hub dampings; shape (m,).
        rotor_speeds: Speeds of the sweep; shape (s,), rad/s.

    Returns:
        Growth rates; shape (m, n), 1/s.

    Source:
        Coleman and Feingold (1958), the theory; equations derived anew.
    """

    def matrix(damping: float, factor: float, speed: float) -> NDArray[np.float64]:
        scaled = replace(
            support, damping_x=factor * support.damping_x, damping_y=factor * support.damping_y
        )
        return np.array(state_matrix(replace(rotor, lag_damping=damping), scaled, speed))

    lags = np.array(lag_dampings)[np.newaxis, :, np.newaxis, np.newaxis]
    factors = np.array(support_factors)[:, np.newaxis, np.newaxis, np.newaxis]
    worst = np.full((len(support_factors), len(lag_dampings)), -np.inf)
    for speed in rotor_speeds:
        none = matrix(0.0, 0.0, speed)
        per_lag, per_factor = matrix(1.0, 0.0, speed) - none, matrix(0.0, 1.0, speed) - none
        both = matrix(1.0, 1.0, speed) - none - per_lag - per_factor
        together = none + lags * per_lag + factors * per_factor + lags * factors * both
        worst = np.maximum(worst, np.linalg.eigvals(together).real.max(axis=-1))
    return worst
