"""Vibration trend: harmonics of blade lift, against a summation over the disc that knows nothing.

The trim of the second calculation (pitch, cyclic, coning) is solved for from the balance of
forces alone; it takes neither collective nor flapping from `calc`.
"""

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from calc.flight.vibration_trend import blade_lift_harmonics, vibration_trend_chart

TWIST = math.radians(-8.0)
AZIMUTHS = 720
NODES, WEIGHTS = np.polynomial.legendre.leggauss(12)


def summed(
    ratio: float, loading: float, solidity: float, tilt: float, slope: float, lock: float
) -> list[float]:
    """Return second, third, fourth harmonic over the mean, and coning, by sums over the disc."""
    coefficient = loading * solidity
    induced = brentq(
        lambda v: v - 0.5 * coefficient / math.hypot(ratio, ratio * math.tan(tilt) + v), 0.0, 1.0
    )
    inflow = ratio * math.tan(tilt) + induced
    psi = 2.0 * np.pi * np.arange(AZIMUTHS)[:, None] / AZIMUTHS
    edge = np.clip(-ratio * np.sin(psi), 0.0, 1.0)
    x = np.hstack([0.5 * edge * (NODES + 1.0), edge + 0.5 * (1.0 - edge) * (NODES + 1.0)])
    w = np.hstack([0.5 * edge * WEIGHTS, 0.5 * (1.0 - edge) * WEIGHTS])
    u = x + ratio * np.sin(psi)

    def lift(unknown: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        pitch0, cosine, sine, coning = unknown
        pitch = pitch0 + TWIST * x + cosine * np.cos(psi) + sine * np.sin(psi)
        element = np.abs(u) * (u * pitch - inflow - ratio * coning * np.cos(psi))
        return (element * w).sum(axis=1), (element * x * w).sum(axis=1)

    def unbalanced(unknown: np.ndarray) -> np.ndarray:
        force, moment = lift(unknown)
        return np.array(
            [
                0.5 * slope * force.mean() - loading,
                (moment * np.cos(psi[:, 0])).mean(),
                (moment * np.sin(psi[:, 0])).mean(),
                0.5 * lock * moment.mean() - unknown[3],
            ]
        )

    start = unbalanced(np.zeros(4))
    columns = [unbalanced(unit) - start for unit in np.eye(4)]
    trim = np.linalg.lstsq(np.array(columns).T, -start, rcond=None)[0]
    spectrum = np.fft.rfft(lift(trim)[0]) / AZIMUTHS
    return [*(2.0 * np.abs(spectrum[2:5]) / spectrum[0].real), float(trim[3])]


@pytest.mark.parametrize("tilt", [-3.0, 4.0])
@pytest.mark.parametrize(("ratio", "loading"), [(0.1, 0.08), (0.3, 0.05), (0.5, 0.09)])
def test_harmonics_are_those_of_a_sum_over_the_disc(
    ratio: float, loading: float, tilt: float
) -> None:
    """Twice the azimuths, Gauss's rule along the radius and another way to the trim.

    The corner of the reverse flow leaves either sum good to a few parts in 1e6 of the mean.
    """
    case = ratio, loading, 0.09, math.radians(tilt)
    found = blade_lift_harmonics(*case, TWIST, 5.7, 7.0)

    assert [found.second, found.third, found.fourth, found.coning] == pytest.approx(
        summed(*case, 5.7, 7.0), abs=5e-6
    )


def test_nothing_is_left_near_hover() -> None:
    """Without airspeed every azimuth is alike."""
    found = blade_lift_harmonics(1e-6, 0.08, 0.09, 0.0, TWIST)

    assert max(found.second, found.third, found.fourth) < 1e-9


def test_growth_has_the_order_of_the_harmonic() -> None:
    """At small advance ratios 2/rev grows about as its square and 3/rev about as its cube."""
    low, high = (blade_lift_harmonics(ratio, 0.08, 0.08, 0.0, TWIST) for ratio in (0.1, 0.2))

    assert math.log2(high.second / low.second) == pytest.approx(2.0, abs=0.15)
    assert math.log2(high.third / low.third) > 2.8


@pytest.mark.parametrize("ratio", [0.2, 0.35, 0.5])
def test_unloading_takes_at_least_its_part_of_the_force_away(ratio: float) -> None:
    """Half of the blade loading leaves less than half of the 2/rev lift, and not nearly none."""
    full, half = (
        blade_lift_harmonics(ratio, loading, 0.08, 0.0, TWIST).second for loading in (0.08, 0.04)
    )

    assert 0.3 < 0.5 * half / full < 0.5


def test_figure_passes_through_the_points() -> None:
    """The points of the figure are those of the form, one on each line."""
    rotor = {
        "blade_loading": 0.08,
        "solidity": 0.09,
        "disc_incidence": 0.03,
        "twist": TWIST,
        "lift_slope": 5.7,
        "lock_number": 8.0,
    }
    found = blade_lift_harmonics(0.3, **rotor)
    points = vibration_trend_chart(0.3, **rotor).marks[-1].points  # type: ignore[union-attr]

    assert points == [(0.3, found.second), (0.3, found.third), (0.3, found.fourth)]
