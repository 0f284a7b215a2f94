"""Propeller: momentum theory against the balances that it stands on."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.flight.craft import Condition
from calc.flight.examples import CURLEW_PROPELLERS
from calc.flight.propeller import power_of_propellers, propeller_chart, propeller_power


@given(
    st.floats(1.0, 50000.0),
    st.floats(1.0, 150.0),
    st.floats(0.4, 1.3),
    st.floats(0.5, 5.0),
    st.integers(1, 8),
    st.floats(0.5, 1.0),
)
def test_momentum_and_energy_of_the_slipstream(
    thrust: float, airspeed: float, density: float, diameter: float, count: int, quality: float
) -> None:
    """Mass flow times twice the induced speed is the thrust; the energy it gains is the power."""
    state = propeller_power(thrust, airspeed, density, diameter, count, quality)
    flow = density * math.pi * diameter**2 / 4 * (airspeed + state.induced_speed) * count
    wake = airspeed + 2.0 * state.induced_speed

    assert flow * (wake - airspeed) == pytest.approx(thrust, rel=1e-9)
    energy = 0.5 * flow * (wake - airspeed) * (wake + airspeed)
    assert state.power * quality == pytest.approx(energy, rel=1e-9)
    assert state.efficiency == pytest.approx(thrust * airspeed / state.power, rel=1e-9)


def test_ideal_efficiency_is_that_of_froude() -> None:
    """Froude: 2 over 1 plus the root of 1 plus thrust over dynamic pressure and disc area."""
    state = propeller_power(8000.0, 60.0, 1.2, 3.0, 2, 0.9)
    loading = 8000.0 / 2 / (0.5 * 1.2 * 60.0**2 * math.pi * 3.0**2 / 4)

    assert state.ideal_efficiency == pytest.approx(2.0 / (1.0 + math.sqrt(1.0 + loading)))


def test_no_thrust_takes_no_power() -> None:
    """Without thrust there is neither power nor induced speed."""
    state = propeller_power(0.0, 60.0, 1.2, 3.0, 2, 0.9)

    assert state.power == 0.0
    assert state.induced_speed == 0.0


def test_figure_passes_through_the_flight() -> None:
    """The point of the figure is the efficiency of the form."""
    flight = Condition(70.0, 1.225)
    found = power_of_propellers(CURLEW_PROPELLERS, flight, 9000.0)
    drawn = propeller_chart(CURLEW_PROPELLERS, flight, 9000.0, found)

    assert drawn.marks[-1].points == [(70.0, found.efficiency)]  # type: ignore[union-attr]
