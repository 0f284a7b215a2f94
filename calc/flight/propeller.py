"""Propeller: power for a thrust by momentum theory, and the efficiency that comes with it."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.flight.craft import Condition, Propellers
from calc.flight.quantities import AIRSPEED, PROPELLER_THRUST, PUSHING_PROPELLERS
from calc.quantity import Quantity
from calc.units import AREA, POWER, SHARE, SPEED

THRUST_ASKED = replace(PROPELLER_THRUST, at_least=0.0, example=9000.0)
DISC_AREA = Quantity("A_p", "Disc area of a propeller", AREA)
SLIPSTREAM = Quantity("w", "Induced speed at the propeller", SPEED)
PROPELLER_POWER = Quantity("P_p", "Power of all propellers", POWER)
PROPELLER_EFFICIENCY = Quantity(r"\eta_p", "Propeller efficiency", SHARE)
IDEAL_EFFICIENCY = Quantity(r"\eta_i", "Ideal propeller efficiency", SHARE)


@dataclass(frozen=True, slots=True)
class PropellerPower:
    """The power of propellers and what of it pushes the aircraft."""

    power: Annotated[float, PROPELLER_POWER]
    efficiency: Annotated[float, PROPELLER_EFFICIENCY]
    ideal_efficiency: Annotated[float, IDEAL_EFFICIENCY]
    induced_speed: Annotated[float, SLIPSTREAM]


def power_of_propellers(
    propellers: Annotated[Propellers, {"propellers": PUSHING_PROPELLERS}],
    flight: Annotated[Condition, {"load_factor": 1.0}],
    propeller_thrust: Annotated[float, THRUST_ASKED],
) -> PropellerPower:
    r"""Return the shaft power of propellers that share a thrust.

    $$ w = -\frac{V}{2} + \sqrt{\frac{V^2}{4} + \frac{T_p / n_p}{2 \rho A_p}}, \qquad
    P_p = \frac{T_p (V + w)}{\eta_q}, \qquad \eta_i = \frac{V}{V + w}, \qquad
    \eta_p = \eta_q \eta_i, \qquad A_p = \frac{\pi D_p^2}{4} $$

    The air meets the propeller along its shaft.  The quality stands for the drag of the blades,
    for swirl and for uneven inflow.

    Args:
        propellers: The propellers; record.
        flight: Airspeed and density; record.
        propeller_thrust: Thrust of all propellers together; scalar, N.

    Returns:
        Power, efficiency in all, that of momentum theory, and the induced speed.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Momentum theory of an actuator disc: Rankine and Froude (from memory).

    Examples:
        >>> from calc.flight.examples import CURLEW_PROPELLERS
        >>> state = power_of_propellers(CURLEW_PROPELLERS, Condition(70.0, 1.225), 10000.0)
        >>> round(state.power * state.efficiency, 6)
        700000.0
    """
    PUSHING_PROPELLERS.check(propellers.propellers)
    THRUST_ASKED.check(propeller_thrust)
    area: Annotated[float, DISC_AREA] = math.pi * propellers.propeller_diameter**2 / 4
    loading = propeller_thrust / propellers.propellers / (2 * flight.density * area)
    induced: Annotated[float, SLIPSTREAM] = loading / (
        flight.airspeed / 2 + math.sqrt(flight.airspeed**2 / 4 + loading)
    )
    ideal: Annotated[float, IDEAL_EFFICIENCY] = flight.airspeed / (flight.airspeed + induced)
    return PropellerPower(
        power=propeller_thrust * (flight.airspeed + induced) / propellers.propeller_quality,
        efficiency=propellers.propeller_quality * ideal,
        ideal_efficiency=ideal,
        induced_speed=induced,
    )


def propeller_power(
    thrust: float,
    airspeed: float,
    density: float,
    propeller_diameter: float,
    propellers: int,
    propeller_quality: float,
) -> PropellerPower:
    """Return what `power_of_propellers` does, without records: arguments in SI units.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> state = propeller_power(10000.0, 70.0, 1.225, 2.8, 2, 0.88)
        >>> round(state.power / 1000.0, 3), round(state.efficiency, 6)
        (846.042, 0.827382)
    """
    return power_of_propellers(
        Propellers(propellers, propeller_diameter, propeller_quality),
        Condition(airspeed, density),
        thrust,
    )


def propeller_chart(
    propellers: Propellers, flight: Condition, propeller_thrust: float, found: PropellerPower
) -> Chart:
    """Return the efficiency against airspeed at the same thrust, with the airspeed asked for."""
    fastest = 1.4 * flight.airspeed
    airspeeds = [fastest * step / 40 for step in range(1, 41)]
    states = [
        (v, power_of_propellers(propellers, replace(flight, airspeed=v), propeller_thrust))
        for v in airspeeds
    ]
    return Chart(
        title="Propeller efficiency against airspeed at one thrust",
        description="Lines of the efficiency and of its ideal value: both fall to zero at rest.",
        x=Axis.of(AIRSPEED, 0.0, fastest),
        y=Axis("Efficiency", low=0.0, high=1.0),
        marks=(
            Line([(0.0, 0.0), *((v, state.efficiency) for v, state in states)], "propeller", 1),
            Line([(0.0, 0.0), *((v, state.ideal_efficiency) for v, state in states)], "ideal", 2),
            Points([(flight.airspeed, found.efficiency)], "this flight", 4),
        ),
    )
