"""Standard atmosphere: air as a function of pressure altitude, and density altitude."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.quantity import Quantity
from calc.rotor.quantities import (
    AIR_DENSITY,
    AIR_PRESSURE,
    AIR_TEMPERATURE,
    PRESSURE_ALTITUDE,
    SPEED_OF_SOUND,
    STANDARD_GRAVITY,
    TEMPERATURE_OFFSET,
)
from calc.units import ALTITUDE

# ISO 2533:1975, as far as 20 km of geopotential altitude
SEA_LEVEL_TEMPERATURE = 288.15  # K
SEA_LEVEL_PRESSURE = 101325.0  # Pa
LAPSE_RATE = 0.0065  # K/m
TROPOPAUSE = 11000.0  # m
GAS_CONSTANT = 287.05287  # J/(kg·K)
HEAT_RATIO = 1.4
EARTH_RADIUS = 6356766.0  # m

PRESSURE_EXPONENT = STANDARD_GRAVITY / (LAPSE_RATE * GAS_CONSTANT)
TROPOPAUSE_TEMPERATURE = SEA_LEVEL_TEMPERATURE - LAPSE_RATE * TROPOPAUSE
SCALE_HEIGHT = GAS_CONSTANT * TROPOPAUSE_TEMPERATURE / STANDARD_GRAVITY

STANDARD_TEMPERATURE = replace(
    AIR_TEMPERATURE, symbol="T_s", label="Air temperature of the standard day"
)
GEOMETRIC_ALTITUDE = Quantity(
    "z", "Geometric altitude", ALTITUDE, at_least=-5000.0, at_most=20000.0, example=5000.0
)
GEOPOTENTIAL_ALTITUDE = Quantity("H", "Geopotential altitude", ALTITUDE)
DENSITY_ALTITUDE = Quantity("H_d", "Density altitude", ALTITUDE, at_least=-5000.0, at_most=20000.0)


@dataclass(frozen=True, slots=True)
class Air:
    """The state of the air."""

    temperature: Annotated[float, AIR_TEMPERATURE]
    pressure: Annotated[float, AIR_PRESSURE]
    density: Annotated[float, AIR_DENSITY]
    speed_of_sound: Annotated[float, SPEED_OF_SOUND]


def standard_atmosphere(
    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE],
    temperature_offset: Annotated[float, TEMPERATURE_OFFSET] = 0.0,
) -> Air:
    r"""Return the state of the air at a pressure altitude, on a standard, hot or cold day.

    $$ T = T_s + \Delta T, \qquad p = p_0 \left(\frac{T_s}{T_0}\right)^{g/(L R_a)}
    e^{-\max(0, H_p - H_t)/H_s} $$
    $$ \rho = \frac{p}{R_a T}, \qquad a = \sqrt{1.4 R_a T} $$

    $T_s$ is the standard temperature, $H_t$ = 11 km the tropopause, and $H_s$ the height over
    which the pressure above it falls to $1/e$.
    A hot or cold day shifts the temperature by the same amount at every altitude and leaves the
    pressure as it is, because pressure altitude is a name for a pressure.  Dry air.

    Args:
        pressure_altitude: Altimeter reading with 1013.25 hPa set, geopotential; scalar, m.
        temperature_offset: Air temperature minus the standard one at that altitude; scalar, K.

    Returns:
        Temperature, pressure, density and speed of sound.

    Raises:
        ValueError: If the altitude is outside -5 km to 20 km or the air would be below 0 K.

    Source:
        International Organization for Standardization (1975), ISO 2533.

    Examples:
        >>> air = standard_atmosphere(5000.0)
        >>> round(air.temperature, 2), round(air.pressure, 1), round(air.density, 6)
        (255.65, 54019.9, 0.736116)
    """
    PRESSURE_ALTITUDE.check(pressure_altitude)
    TEMPERATURE_OFFSET.check(temperature_offset)
    standard_temperature = standard_air_temperature(pressure_altitude)
    temperature = standard_temperature + temperature_offset
    AIR_TEMPERATURE.check(temperature)
    height_above_tropopause = max(0.0, pressure_altitude - TROPOPAUSE)
    pressure = (
        SEA_LEVEL_PRESSURE
        * math.pow(standard_temperature / SEA_LEVEL_TEMPERATURE, PRESSURE_EXPONENT)
        * math.exp(-height_above_tropopause / SCALE_HEIGHT)
    )
    density = pressure / (GAS_CONSTANT * temperature)
    speed_of_sound = math.sqrt(HEAT_RATIO * GAS_CONSTANT * temperature)
    return Air(temperature, pressure, density, speed_of_sound)


def standard_air_temperature(
    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE],
) -> Annotated[float, STANDARD_TEMPERATURE]:
    r"""Return the air temperature of the standard day.

    $$ T_s = T_0 - L H_p \quad \text{up to 11 km, and } 216.65\,\text{K from there to 20 km} $$

    Args:
        pressure_altitude: Geopotential altitude in the standard atmosphere; scalar, m.

    Returns:
        The temperature; scalar, K.

    Raises:
        ValueError: If the altitude is outside -5 km to 20 km.

    Source:
        International Organization for Standardization (1975), ISO 2533.

    Examples:
        >>> round(standard_air_temperature(2000.0), 2)
        275.15
    """
    PRESSURE_ALTITUDE.check(pressure_altitude)
    return SEA_LEVEL_TEMPERATURE - LAPSE_RATE * min(pressure_altitude, TROPOPAUSE)


def geopotential_altitude(
    geometric_altitude: Annotated[float, GEOMETRIC_ALTITUDE],
) -> Annotated[float, GEOPOTENTIAL_ALTITUDE]:
    r"""Return the geopotential altitude of a height above mean sea level.

    $$ H = \frac{r_0 z}{r_0 + z}, \qquad r_0 = 6\,356\,766\,\text{m} $$

    It is the height that would need the same work to reach if gravity did not weaken.

    Args:
        geometric_altitude: Height above mean sea level; scalar, m.

    Returns:
        The geopotential altitude; scalar, m.

    Raises:
        ValueError: If the altitude is outside -5 km to 20 km.

    Source:
        International Organization for Standardization (1975), ISO 2533.

    Examples:
        >>> round(geopotential_altitude(5000.0), 1)
        4996.1
    """
    GEOMETRIC_ALTITUDE.check(geometric_altitude)
    return EARTH_RADIUS * geometric_altitude / (EARTH_RADIUS + geometric_altitude)


def density_altitude(
    density: Annotated[float, AIR_DENSITY],
) -> Annotated[float, DENSITY_ALTITUDE]:
    r"""Return the altitude at which the standard atmosphere has a given density.

    $$ H_d = \frac{T_0}{L} \left[1 - \left(\frac{\rho}{\rho_0}\right)^{1/(g/(L R_a) - 1)}\right] $$

    Above 11 km, where the standard temperature is constant, the density falls exponentially.

    Args:
        density: Density of the air; scalar, kg/m³.

    Returns:
        The density altitude; scalar, m.

    Raises:
        ValueError: If no altitude from -5 km to 20 km has this density.

    Source:
        International Organization for Standardization (1975), ISO 2533, solved for the altitude.

    Examples:
        >>> round(density_altitude(0.909122))
        3000
    """
    AIR_DENSITY.check(density)
    tropopause_density = standard_atmosphere(TROPOPAUSE).density
    if density >= tropopause_density:
        sea_level_density = standard_atmosphere(0.0).density
        temperature_ratio = math.pow(density / sea_level_density, 1.0 / (PRESSURE_EXPONENT - 1.0))
        altitude = SEA_LEVEL_TEMPERATURE / LAPSE_RATE * (1.0 - temperature_ratio)
    else:
        altitude = TROPOPAUSE - SCALE_HEIGHT * math.log(density / tropopause_density)
    DENSITY_ALTITUDE.check(altitude)
    return altitude
