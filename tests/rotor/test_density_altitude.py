"""Density altitude: the exact value against an independent library, and the rule beside it."""

import pytest
from ambiance import Atmosphere
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from calc.rotor.atmosphere import EARTH_RADIUS, GAS_CONSTANT, standard_atmosphere
from calc.rotor.density_altitude import density_altitude_of_day, density_altitude_rule
from calc.units import CELSIUS, FOOT


@pytest.mark.parametrize(("feet", "celsius"), [(5470.0, 35.0), (4750.0, 30.0), (429.0, 10.0)])
def test_exact_density_altitude_of_published_days(feet: float, celsius: float) -> None:
    """Three published days, whose answers used the rule, solved with the library ambiance."""
    day = density_altitude_of_day(FOOT.si(feet), CELSIUS.si(celsius))
    pressure = standard_atmosphere(FOOT.si(feet)).pressure
    density = pressure / (GAS_CONSTANT * CELSIUS.si(celsius))
    height = brentq(lambda z: float(Atmosphere(z).density[0]) - density, -1000.0, 9000.0)

    expected = EARTH_RADIUS * height / (EARTH_RADIUS + height)
    assert day.density_altitude == pytest.approx(expected, abs=0.05)
    assert day.density == pytest.approx(density, rel=1e-15)


def test_rule_is_high_on_hot_days() -> None:
    """On the two hot published days the rule exceeds the exact value by 150 ft to 300 ft."""
    for feet, celsius in ((5470.0, 35.0), (4750.0, 30.0)):
        day = density_altitude_of_day(FOOT.si(feet), CELSIUS.si(celsius))
        assert 150.0 < FOOT.reading(day.rule_of_thumb - day.density_altitude) < 300.0


@given(st.floats(0.0, 5000.0), st.floats(0.5, 40.0))
def test_hot_air_is_thin(pressure_altitude: float, offset: float) -> None:
    """Above the standard temperature the density altitude is above the pressure altitude."""
    temperature = standard_atmosphere(pressure_altitude, offset).temperature
    hot = density_altitude_of_day(pressure_altitude, temperature)
    cold = density_altitude_of_day(pressure_altitude, temperature - 2.0 * offset)

    assert cold.density_altitude < pressure_altitude < hot.density_altitude
    assert hot.temperature_offset == pytest.approx(offset, abs=1e-9)


def test_rule_on_a_standard_day_is_the_pressure_altitude() -> None:
    """Without a difference from the standard temperature nothing is added."""
    assert density_altitude_rule(1234.5) == 1234.5
