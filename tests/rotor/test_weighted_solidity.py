"""Weighted solidity: the published integrals by quadrature, and the untapered blade."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from calc.rotor.blade_loading import solidity
from calc.rotor.weighted_solidity import weighted_solidity

CHORDS = st.floats(0.05, 1.0)


@given(CHORDS, CHORDS)
def test_weightings_by_quadrature(axis_chord: float, tip_chord: float) -> None:
    """Leishman: thrust weights with 3 x^2, power with 4 x^3; the plain mean is the blade area."""
    found = weighted_solidity(4, axis_chord, tip_chord, 7.0)

    def weighted(power: int) -> float:
        def integrand(x: float) -> float:
            local = 4 * (axis_chord + (tip_chord - axis_chord) * x) / (math.pi * 7.0)
            return float((power + 1) * local * x**power)

        return float(quad(integrand, 0.0, 1.0)[0])

    assert found.solidity == pytest.approx(weighted(0), rel=1e-12)
    assert found.thrust_weighted_solidity == pytest.approx(weighted(2), rel=1e-12)
    assert found.power_weighted_solidity == pytest.approx(weighted(3), rel=1e-12)


def test_untapered_blade_has_one_solidity() -> None:
    """Without taper all three are the geometric solidity."""
    found = weighted_solidity(4, 0.42, 0.42, 7.0)

    assert found.solidity == pytest.approx(solidity(4, 0.42, 7.0), rel=1e-15)
    assert found.thrust_weighted_solidity == pytest.approx(found.solidity, rel=1e-15)
    assert found.power_weighted_solidity == pytest.approx(found.solidity, rel=1e-15)


def test_blades_that_fill_the_disc_are_refused() -> None:
    """A solidity of 1 or more cannot be built."""
    with pytest.raises(ValueError, match="Solidity must be above 0 and below 1"):
        weighted_solidity(10, 5.0, 5.0, 7.0)
