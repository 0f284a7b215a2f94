"""Standard atmosphere: air as a function of pressure altitude, and density altitude."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.constants import STANDARD_GRAVITY
from calc.quantity import Constant, Quantity
from calc.rotor.quantities import (
    AIR_DENSITY,
    AIR_PRESSURE,
    AIR_TEMPERATURE,
    PRESSURE_ALTITUDE,
    SPEED_OF_SOUND,
    TEMPERATURE_OFFSET,
)
from calc.units import ALTITUDE, DENSITY, LENGTH, PRESSURE, TEMPERATURE, Unit

# ISO 2533:1975, as far as 20 km of geopotential altitude
SEA_LEVEL_TEMPERATURE = Constant(
    288.15, Quantity("T_0", "Standard temperature at sea level", TEMPERATURE)
)
SEA_LEVEL_PRESSURE = Constant(101325.0, Quantity("p_0", "Standard pressure at sea level", PRESSURE))
LAPSE_RATE = Constant(
    0.0065, Quantity("L", "Lapse rate", (Unit("K/m", "K/m", "kelvins per metre"),))
)
TROPOPAUSE = Constant(11000.0, Quantity("H_t", "Altitude of the tropopause", ALTITUDE))
GAS_CONSTANT = Constant(
    287.05287,
    Quantity(
        "R_a",
        "Gas constant of air",
        (Unit("J/(kg·K)", "J/kg/K", "joules per kilogram and kelvin"),),
    ),
)
HEAT_RATIO = Constant(1.4, Quantity(r"\kappa", "Ratio of the specific heats of air"))
EARTH_RADIUS = Constant(6356766.0, Quantity("r_0", "Nominal radius of the Earth", LENGTH))

PRESSURE_EXPONENT = Quantity("n_p", "Exponent of the pressure below the tropopause")
SCALE_HEIGHT = Quantity("H_s", "Scale height above the tropopause", ALTITUDE)
TROPOPAUSE_TEMPERATURE = Quantity("T_t", "Standard temperature at the tropopause", TEMPERATURE)
SEA_LEVEL_DENSITY = Quantity(r"\rho_0", "Standard density at sea level", DENSITY)
TROPOPAUSE_DENSITY = Quantity(r"\rho_t", "Standard density at the tropopause", DENSITY)

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
    $$ \rho = \frac{p}{R_a T}, \qquad a = \sqrt{\kappa R_a T}, \quad \kappa = 1.4 $$

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
    exponent: Annotated[float, PRESSURE_EXPONENT] = STANDARD_GRAVITY / (LAPSE_RATE * GAS_CONSTANT)
    temperature_ratio = standard_temperature / SEA_LEVEL_TEMPERATURE
    if pressure_altitude <= TROPOPAUSE:
        pressure = SEA_LEVEL_PRESSURE * math.pow(temperature_ratio, exponent)
    else:
        scale_height: Annotated[float, SCALE_HEIGHT] = (
            GAS_CONSTANT * standard_temperature / STANDARD_GRAVITY
        )
        fall = math.exp(-(pressure_altitude - TROPOPAUSE) / scale_height)
        pressure = SEA_LEVEL_PRESSURE * math.pow(temperature_ratio, exponent) * fall
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
    density: Annotated[float, replace(AIR_DENSITY, example=1.0)],
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
    exponent: Annotated[float, PRESSURE_EXPONENT] = STANDARD_GRAVITY / (LAPSE_RATE * GAS_CONSTANT)
    sea_level_density: Annotated[float, SEA_LEVEL_DENSITY] = SEA_LEVEL_PRESSURE / (
        GAS_CONSTANT * SEA_LEVEL_TEMPERATURE
    )
    tropopause_temperature: Annotated[float, TROPOPAUSE_TEMPERATURE] = (
        SEA_LEVEL_TEMPERATURE - LAPSE_RATE * TROPOPAUSE
    )
    tropopause_density: Annotated[float, TROPOPAUSE_DENSITY] = sea_level_density * math.pow(
        tropopause_temperature / SEA_LEVEL_TEMPERATURE, exponent - 1.0
    )
    if density >= tropopause_density:
        temperature_ratio = math.pow(density / sea_level_density, 1.0 / (exponent - 1.0))
        altitude = SEA_LEVEL_TEMPERATURE / LAPSE_RATE * (1.0 - temperature_ratio)
    else:
        scale_height: Annotated[float, SCALE_HEIGHT] = (
            GAS_CONSTANT * tropopause_temperature / STANDARD_GRAVITY
        )
        altitude = TROPOPAUSE - scale_height * math.log(density / tropopause_density)
    DENSITY_ALTITUDE.check(altitude)
    return altitude
