"""Density altitude: what a hot or cold day does to the air, as an altitude."""

from dataclasses import dataclass, replace
from typing import Annotated

from calc.quantity import Constant, Quantity
from calc.rotor.atmosphere import (
    DENSITY_ALTITUDE,
    density_altitude,
    standard_air_temperature,
    standard_atmosphere,
)
from calc.rotor.quantities import (
    AIR_DENSITY,
    AIR_TEMPERATURE,
    PRESSURE_ALTITUDE,
    TEMPERATURE_OFFSET,
)
from calc.units import ALTITUDE, FOOT, Unit

RULE_OF_THUMB = Quantity("H_{120}", "Density altitude by the rule of thumb", ALTITUDE)
RULE = Constant(
    FOOT.si(120.0),
    Quantity("k_{120}", "Rule of thumb", (Unit("m/K", "m/K", "metres per kelvin"),)),
)
OUTSIDE_TEMPERATURE = replace(AIR_TEMPERATURE, label="Static air temperature", example=303.15)


@dataclass(frozen=True, slots=True)
class DensityAltitude:
    """What a hot or cold day does to the air, as an altitude."""

    temperature_offset: Annotated[float, TEMPERATURE_OFFSET]
    density: Annotated[float, AIR_DENSITY]
    density_altitude: Annotated[float, DENSITY_ALTITUDE]
    rule_of_thumb: Annotated[float, RULE_OF_THUMB]


def density_altitude_rule(
    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE],
    temperature_offset: Annotated[float, TEMPERATURE_OFFSET] = 0.0,
) -> Annotated[float, RULE_OF_THUMB]:
    r"""Return the density altitude by the pilots' rule: 120 ft for every degree Celsius.

    $$ H_{120} = H_p + k_{120} \Delta T, \qquad k_{120} = 120\,\text{ft/K} $$

    Args:
        pressure_altitude: Altimeter reading with 1013.25 hPa set; scalar, m.
        temperature_offset: Air temperature minus the standard one at that altitude; scalar, K.

    Returns:
        An estimate of the density altitude; scalar, m.

    Raises:
        ValueError: If the altitude is outside -5 km to 20 km.

    Source:
        Common practice of pilots; compare with `density_altitude`, which is exact.

    Examples:
        >>> round(density_altitude_rule(1000.0, 10.0), 2)
        1365.76
    """
    PRESSURE_ALTITUDE.check(pressure_altitude)
    TEMPERATURE_OFFSET.check(temperature_offset)
    return pressure_altitude + RULE * temperature_offset


def density_altitude_of_day(
    pressure_altitude: Annotated[float, PRESSURE_ALTITUDE],
    outside_temperature: Annotated[float, OUTSIDE_TEMPERATURE],
) -> DensityAltitude:
    r"""Return the density altitude of a measured pressure altitude and air temperature.

    $$ \Delta T = T_a - T(H_p), \qquad \rho_{ISA}(H_d) = \rho(H_p, \Delta T) $$

    Args:
        pressure_altitude: Altimeter reading with 1013.25 hPa set; scalar, m.
        outside_temperature: Outside air temperature, corrected for ram rise; scalar, K.

    Returns:
        The ISA deviation, the density, the exact density altitude and the
        rule of thumb beside it.

    Raises:
        ValueError: If an altitude is outside -5 km to 20 km.

    Source:
        International Organization for Standardization (1975), ISO 2533.

    Examples:
        >>> round(density_altitude_of_day(1500.0, 303.15).density_altitude)
        2349
    """
    PRESSURE_ALTITUDE.check(pressure_altitude)
    OUTSIDE_TEMPERATURE.check(outside_temperature)
    temperature_offset = outside_temperature - standard_air_temperature(pressure_altitude)
    air = standard_atmosphere(pressure_altitude, temperature_offset)
    altitude = density_altitude(air.density)
    rule_of_thumb = density_altitude_rule(pressure_altitude, temperature_offset)
    return DensityAltitude(temperature_offset, air.density, altitude, rule_of_thumb)
