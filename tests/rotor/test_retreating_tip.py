"""Retreating tip: the trim solved again by quadrature over the disc, without any closed form.

The lift of every blade element is integrated numerically, with its sign turned where the air
comes from the trailing edge, and the pitch and flapping that balance it are solved for.
"""

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.polynomial.legendre import leggauss
from scipy.optimize import brentq

from calc.rotor.retreating_tip import RetreatingTip, classical_retreating_tip, retreating_tip

Field = Callable[[Any, Any], Any]
AZIMUTHS, STATIONS = leggauss(24), leggauss(5)
LOADING, SOLIDITY, TWIST, SLOPE = 0.08, 0.08, math.radians(-8.0), 5.7


def inflow(advance_ratio: float, loading: float, incidence: float) -> float:
    """Return Glauert's inflow through the disc, by a bracketing root finder of scipy."""
    coefficient = loading * SOLIDITY
    normal = advance_ratio * math.tan(incidence)

    def excess(total: float) -> float:
        return (total - normal) * 2.0 * math.hypot(advance_ratio, total) - coefficient

    return float(brentq(excess, normal, normal + 1.0, xtol=1e-16, rtol=1e-15))


def mean(function: Field, advance_ratio: float) -> float:
    """Return the mean over the azimuth of an integral over the span, split at the reverse flow."""
    total = 0.0
    for start in (0.0, math.pi):
        for node, weight in zip(*AZIMUTHS, strict=True):
            azimuth = start + math.pi / 2.0 * (node + 1.0)
            edge = max(0.0, -advance_ratio * math.sin(azimuth))
            for low, high in ((0.0, edge), (edge, 1.0)):
                x, dx = STATIONS
                stations = low + (high - low) / 2.0 * (x + 1.0)
                span = (high - low) / 2.0 * float(np.dot(dx, function(stations, azimuth)))
                total += weight * math.pi / 2.0 * span
    return total / (2.0 * math.pi)


def trim(
    advance_ratio: float, loading: float, incidence: float, *, is_reversed: bool = True
) -> dict[str, float]:
    """Return pitch, flapping and tip angle that balance thrust and first-harmonic moments."""
    mu = advance_ratio
    through_disc = inflow(mu, loading, incidence)
    coning = 0.07

    def lift_of(pitch: Field, downwash: Field) -> Field:
        def lift(x: Any, psi: Any) -> Any:
            tangential = x + mu * np.sin(psi)
            sign = np.sign(tangential) if is_reversed else 1.0
            return sign * (tangential**2 * pitch(x, psi) - tangential * downwash(x, psi))

        return lift

    def none(x: Any, _psi: Any) -> Any:
        return 0.0 * x

    parts = {
        "pitch": lift_of(lambda x, _psi: 1.0 + 0.0 * x, none),
        "control inflow": lift_of(none, lambda x, _psi: 1.0 + 0.0 * x),
        "cosine flapping": lift_of(none, lambda x, psi: -x * np.sin(psi) + mu * np.cos(psi) ** 2),
        "sine flapping": lift_of(
            none, lambda x, psi: x * np.cos(psi) + mu * np.sin(psi) * np.cos(psi)
        ),
    }
    given_part = lift_of(lambda x, _psi: TWIST * x, lambda _x, psi: coning * mu * np.cos(psi))
    conditions: list[Callable[[Field], float]] = [
        lambda lift: mean(lift, mu),
        lambda lift: mean(lambda x, psi: x * np.sin(psi) * lift(x, psi), mu),
        lambda lift: mean(lambda x, psi: x * np.cos(psi) * lift(x, psi), mu),
    ]
    matrix = [[condition(part) for part in parts.values()] for condition in conditions]
    right = [-condition(given_part) for condition in conditions]
    right[0] += 2.0 * loading / SLOPE
    # control inflow + mu * cosine flapping = inflow through the disc
    matrix.append([0.0, 1.0, mu, 0.0])
    right.append(through_disc)
    pitch, control, cosine, _sine = np.linalg.solve(np.array(matrix), np.array(right))

    def angle(x: float) -> float:
        # at 270 deg the blade flaps at the rate beta' = cosine
        return float(pitch + TWIST * x - (control + x * cosine) / (x - mu))

    return {
        "collective": float(pitch),
        "inflow": through_disc,
        "longitudinal_flapping": float(cosine),
        "tip_angle": angle(1.0),
        "inboard_angle": angle(min(1.0, mu + 0.4)),
        "control_inflow": float(control),
    }


@pytest.mark.parametrize("advance_ratio", [0.0, 0.1, 0.25, 0.34, 0.5, 0.61, 0.75, 0.95, 0.999])
@pytest.mark.parametrize("degrees", [-4.0, 0.0, 7.0])
def test_closed_form_is_the_integral_over_the_disc(advance_ratio: float, degrees: float) -> None:
    """Every output agrees with the trim by quadrature, up to an advance ratio of 1."""
    incidence = math.radians(degrees)
    found = retreating_tip(advance_ratio, LOADING, SOLIDITY, incidence, TWIST, SLOPE)

    for name, value in trim(advance_ratio, LOADING, incidence).items():
        assert getattr(found, name) == pytest.approx(value, rel=1e-9, abs=1e-10), name


@pytest.mark.parametrize("advance_ratio", [0.05, 0.2, 0.4, 0.8])
def test_classical_form_lets_the_lift_keep_its_sign(advance_ratio: float) -> None:
    """Without turning the sign the same quadrature gives the textbook form, every output."""
    found = classical_retreating_tip(advance_ratio, LOADING, SOLIDITY, 0.07, TWIST, SLOPE)

    for name, value in trim(advance_ratio, LOADING, 0.07, is_reversed=False).items():
        assert getattr(found, name) == pytest.approx(value, rel=1e-9, abs=1e-10), name


def test_hover_is_blade_element_theory() -> None:
    """In hover both forms give theta_75 = 6 C_T / (sigma a) + 1.5 lambda and no flapping."""
    expected = 6.0 * LOADING / SLOPE + 1.5 * math.sqrt(LOADING * SOLIDITY / 2.0)

    for form in (retreating_tip, classical_retreating_tip):
        found = form(0.0, LOADING, SOLIDITY, 0.0, TWIST, SLOPE)
        assert found.collective + 0.75 * TWIST == pytest.approx(expected, rel=1e-14)
        assert found.longitudinal_flapping == 0.0


@given(st.floats(0.0, 0.1))
def test_both_forms_agree_in_slow_flight(advance_ratio: float) -> None:
    """What the reverse flow adds is the inflow times a quarter of the squared advance ratio.

    Divided by the third of theta_0 in the thrust, that is 0.05 times the square at this inflow.
    """
    arguments = advance_ratio, LOADING, SOLIDITY, 0.05, TWIST, SLOPE
    corrected, classical = retreating_tip(*arguments), classical_retreating_tip(*arguments)

    allowed = 0.1 * advance_ratio**2 + 1e-12
    assert corrected.tip_angle == pytest.approx(classical.tip_angle, abs=allowed)


def test_classical_tip_angle_is_too_low_and_even_falls() -> None:
    """Above an advance ratio of 0.3 the two part; near 0.5 the classical one has turned down."""

    def both(advance_ratio: float) -> tuple[RetreatingTip, RetreatingTip]:
        arguments = advance_ratio, LOADING, SOLIDITY, 0.12, TWIST, SLOPE
        return retreating_tip(*arguments), classical_retreating_tip(*arguments)

    for advance_ratio in (0.3, 0.4, 0.5):
        corrected, classical = both(advance_ratio)
        assert corrected.tip_angle > classical.tip_angle + math.radians(0.4)
    assert both(0.7)[1].tip_angle < both(0.5)[1].tip_angle
    assert both(0.7)[0].tip_angle > both(0.5)[0].tip_angle


@given(st.floats(0.05, 0.5), st.floats(-0.1, 0.15), st.floats(0.01, 0.12))
def test_more_load_means_more_angle(advance_ratio: float, incidence: float, loading: float) -> None:
    """At a given advance ratio and incidence the tip angle grows with the blade loading."""
    light, heavy = (
        retreating_tip(advance_ratio, load, SOLIDITY, incidence, TWIST, SLOPE)
        for load in (loading, loading + 0.01)
    )

    assert heavy.tip_angle > light.tip_angle


@given(st.floats(0.0, 0.8), st.floats(-0.2, 0.2))
def test_inboard_station_is_the_tip_beyond_six_tenths(
    advance_ratio: float, incidence: float
) -> None:
    """Where mu + 0.4 is past the tip, both angles are that of the tip."""
    found = retreating_tip(advance_ratio, LOADING, SOLIDITY, incidence, TWIST, SLOPE)

    assert (found.inboard_angle == pytest.approx(found.tip_angle, abs=1e-14)) == (
        advance_ratio >= 0.6
    )


def test_still_air_at_the_tip_is_refused() -> None:
    """At an advance ratio of 1 the retreating tip stands still in the air."""
    with pytest.raises(ValueError, match="Advance ratio must be at least 0 and below 1, not 1"):
        retreating_tip(1.0, LOADING, SOLIDITY, 0.0, TWIST, SLOPE)
