"""Standard atmosphere against a handbook's table, an independent library and hydrostatics."""

import math
import re

import pytest
from ambiance import Atmosphere
from hypothesis import assume, given
from hypothesis import strategies as st

from calc.rotor.atmosphere import (
    EARTH_RADIUS,
    density_altitude,
    geopotential_altitude,
    standard_atmosphere,
)

ALTITUDES = st.floats(-5000.0, 20000.0)


@pytest.mark.parametrize("altitude", [-4000.0, 0.0, 1500.0, 10999.0, 11001.0, 15000.0, 19999.0])
def test_agrees_with_an_independent_library(altitude: float) -> None:
    """The library ambiance, which takes geometric altitudes, gives the same air.

    Its gas constant has fewer digits, which shows in the sixth.
    """
    air = standard_atmosphere(altitude)
    other = Atmosphere(EARTH_RADIUS * altitude / (EARTH_RADIUS - altitude))

    assert air.temperature == pytest.approx(float(other.temperature[0]), rel=1e-9)
    assert air.pressure == pytest.approx(float(other.pressure[0]), rel=2e-6)
    assert air.density == pytest.approx(float(other.density[0]), rel=2e-6)
    assert air.speed_of_sound == pytest.approx(float(other.speed_of_sound[0]), rel=2e-6)


@given(st.floats(-4990.0, 19990.0), st.floats(-60.0, 40.0))
def test_standard_pressure_carries_the_air_above(altitude: float, offset: float) -> None:
    """Hydrostatics: dp/dH = -rho g on the standard day; pressure knows no hot or cold day."""
    step = 5.0
    assume(abs(altitude - 11000.0) > step)
    above = standard_atmosphere(altitude + step)
    below = standard_atmosphere(altitude - step)
    middle = standard_atmosphere(altitude)

    slope = (above.pressure - below.pressure) / (2.0 * step)
    assert slope == pytest.approx(-9.80665 * middle.density, rel=1e-5)
    assert standard_atmosphere(altitude, offset).pressure == middle.pressure


@given(ALTITUDES)
def test_density_altitude_of_the_standard_day_is_the_altitude(altitude: float) -> None:
    """Density altitude is the inverse of the standard density, on both sides of 11 km."""
    density = standard_atmosphere(altitude).density

    if -4999.9 < altitude < 19999.9:
        assert density_altitude(density) == pytest.approx(altitude, abs=1e-6)


def test_state_is_continuous_at_the_tropopause() -> None:
    """A millimetre above and below 11 km the air is the same."""
    below, above = standard_atmosphere(11000.0 - 1e-3), standard_atmosphere(11000.0 + 1e-3)

    assert above.pressure == pytest.approx(below.pressure, rel=1e-6)
    assert above.temperature == pytest.approx(below.temperature, rel=1e-6)


def test_speed_of_sound_depends_on_temperature_alone() -> None:
    """A hot day at altitude with 288.15 K has the speed of sound of sea level."""
    hot = standard_atmosphere(3000.0, 3000.0 * 0.0065)

    assert hot.speed_of_sound == pytest.approx(standard_atmosphere(0.0).speed_of_sound, rel=1e-15)


def test_geopotential_altitude_is_the_work_against_gravity() -> None:
    """The integral of g(z)/g0 = (r0/(r0+z))^2 up to 10 km, by Simpson's rule."""
    top, pieces = 10000.0, 100
    ratios = [(EARTH_RADIUS / (EARTH_RADIUS + top * i / pieces)) ** 2 for i in range(pieces + 1)]
    weights = [1.0, *([4.0, 2.0] * (pieces // 2))[:-1], 1.0]
    work = math.fsum(w * r for w, r in zip(weights, ratios, strict=True)) * top / pieces / 3.0

    assert geopotential_altitude(top) == pytest.approx(work, rel=1e-12)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ((20001.0,), "Pressure altitude must be at least -5000 m and at most 20000 m"),
        ((math.nan,), "Pressure altitude must be a finite number"),
        ((0.0, -300.0), "Air temperature must be above 0 K, not -11.85 K"),
        ((0.0, math.inf), "ISA deviation must be a finite number"),
    ],
)
def test_impossible_inputs_are_named(arguments: tuple[float, ...], message: str) -> None:
    """An input that cannot exist is refused by its label."""
    with pytest.raises(ValueError, match=re.escape(message)):
        standard_atmosphere(*arguments)


def test_density_of_no_altitude_is_refused() -> None:
    """A density that the standard atmosphere reaches nowhere from -5 km to 20 km is refused."""
    with pytest.raises(ValueError, match="Density altitude must be"):
        density_altitude(0.01)
