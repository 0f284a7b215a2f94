"""Propeller loads: what a propeller at incidence does to its blades and to its shaft."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Method
from calc.flight.nacelle import FLYING, ONCE, RigidPropeller
from calc.quantity import Quantity
from calc.rotor.quantities import AIR_DENSITY
from calc.rotor.tip_speed import PROPELLER_SPEED
from calc.units import ANGLE, AREA, FORCE, MOMENT, SHARE, SPEED

RINGS = 64
CHART_STEPS = 20

INCIDENCE = Quantity(
    r"\alpha_p",
    "Angle of the propeller shaft to the air",
    ANGLE,
    at_least=0.0,
    below=math.pi / 2,
    covered=(0.0, math.radians(15.0)),
    covered_by="the change of a blade's angle of attack is taken as small",
    example=math.radians(5.0),
)
PROPELLER_THRUST = Quantity("T_p", "Thrust of the propeller", FORCE, at_least=0.0, example=8000.0)
ALONG = Quantity("V_a", "Airspeed along the shaft", SPEED)
PROPELLER_AREA = Quantity("A_p", "Disc area of the propeller", AREA)
AXIAL_SPEED = Quantity("W", "Axial speed at the propeller", SPEED)
MEAN_LIFT_COEFFICIENT = Quantity(
    r"\bar{C}_l",
    "Mean lift coefficient of the propeller blades",
    covered=(0.0, 0.9),
    covered_by="a blade that carries so much lift is near its stall",
)
BLADE_THRUST = Quantity("T_1", "1/rev thrust of a blade", FORCE)
BLADE_SHARE = Quantity("T_1/T_b", "1/rev thrust of a blade over its mean thrust", SHARE)
BLADE_MOMENT = Quantity("M_1", "1/rev bending moment at the root of a blade, aerodynamic", MOMENT)
NORMAL_FORCE = Quantity("F_n", "Normal force of the propeller", FORCE)
SHAFT_MOMENT = Quantity("M_s", "Moment of the propeller across its shaft", MOMENT)


@dataclass(frozen=True, slots=True)
class ObliqueLoads:
    """The loads that an oblique inflow adds: in the turning blade, and on the standing shaft."""

    mean_lift_coefficient: Annotated[float, MEAN_LIFT_COEFFICIENT]
    blade_thrust: Annotated[float, BLADE_THRUST]
    blade_thrust_share: Annotated[float | None, BLADE_SHARE]
    blade_moment: Annotated[float, BLADE_MOMENT]
    normal_force: Annotated[float, NORMAL_FORCE]
    shaft_moment: Annotated[float, SHAFT_MOMENT]
    once_per_revolution: Annotated[float, ONCE]


AeroPropeller = Annotated[
    RigidPropeller,
    {"propeller_inertia": 0.0, "hub_distance": 0.0},
]
"""A propeller of which only blades, diameter, chord and lift slope count."""


def propeller_loads(
    propeller: AeroPropeller,
    propeller_speed: Annotated[float, PROPELLER_SPEED],
    thrust: Annotated[float, PROPELLER_THRUST],
    airspeed: Annotated[float, FLYING],
    incidence: Annotated[float, INCIDENCE],
    density: Annotated[float, AIR_DENSITY] = 1.225,
) -> ObliqueLoads:
    r"""Return the loads that an oblique inflow adds to a propeller.

    $$ W = V \cos \alpha_p + v_p, \qquad U = \sqrt{W^2 + \Omega_p^2 r^2}, \qquad
    u_1 = V \sin \alpha_p $$
    $$ T_1 = \frac{\rho c_p u_1}{2} \int_0^R \left[\bar{C}_l
    \left(U + \frac{\Omega_p^2 r^2}{U}\right) + a_p \frac{\Omega_p r W}{U}\right] \mathrm{d}r $$
    $$ F_n = \frac{N_p}{2} \frac{\rho c_p u_1}{2} \int_0^R
    \left[\bar{C}_l \frac{\Omega_p r W}{U} + a_p \frac{W^2}{U}\right] \mathrm{d}r $$

    The root moment $M_1$ is the integral of $T_1$ with a factor $r$, and
    $M_s = N_p M_1 / 2$.  The speed across the shaft adds to the speed of a blade on one side and
    takes from it on the other, once per revolution.  Summed over three or more equal blades that
    is a steady force along the speed across the shaft and a steady moment about it; an airframe
    feels once per revolution only of blades that differ.

    Quasi-steady strip theory, rigid blades of constant chord with one lift coefficient along them,
    axial speed from momentum theory; no wake, no swirl, no nacelle or wing beside it.

    Args:
        propeller: The propeller; record.
        propeller_speed: Angular speed of the propeller; scalar, rad/s.
        thrust: Thrust of this propeller; scalar, N.
        airspeed: True airspeed; scalar, m/s.
        incidence: Angle between the shaft and the air far ahead; scalar, rad.
        density: Density of the air; scalar, kg/m³.

    Returns:
        The mean lift coefficient that the thrust takes, the loads once per revolution in the
        blade, their sum on the shaft, and the frequency.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Blade elements, with the speed across the shaft taken as small.

    Examples:
        >>> from calc.flight.nacelle import CURLEW_PROPELLER
        >>> found = propeller_loads(CURLEW_PROPELLER, 120.0, 8000.0, 90.0, math.radians(5.0))
        >>> found.blade_thrust_share > 0.2
        True
    """
    PROPELLER_SPEED.check(propeller_speed)
    PROPELLER_THRUST.check(thrust)
    FLYING.check(airspeed)
    INCIDENCE.check(incidence)
    AIR_DENSITY.check(density)
    along: Annotated[float, ALONG] = airspeed * math.cos(incidence)
    area: Annotated[float, PROPELLER_AREA] = math.pi * propeller.diameter**2 / 4
    axial: Annotated[float, AXIAL_SPEED] = along / 2 + math.sqrt(
        along**2 / 4 + thrust / (2 * density * area)
    )
    case = propeller, propeller_speed, axial, density
    coefficient: Annotated[float, MEAN_LIFT_COEFFICIENT] = _lift_coefficient(thrust, *case)
    blade_thrust, blade_moment, edgewise = _once_per_revolution(
        airspeed * math.sin(incidence), coefficient, *case
    )
    return ObliqueLoads(
        mean_lift_coefficient=coefficient,
        blade_thrust=blade_thrust,
        blade_thrust_share=blade_thrust * propeller.propeller_blades / thrust if thrust else None,
        blade_moment=blade_moment,
        normal_force=propeller.propeller_blades / 2 * edgewise,
        shaft_moment=propeller.propeller_blades / 2 * blade_moment,
        once_per_revolution=propeller_speed / (2 * math.pi),
    )


def _lift_coefficient(
    thrust: float, propeller: RigidPropeller, propeller_speed: float, axial: float, density: float
) -> Annotated[float, Method("thrust over what a lift coefficient of 1 gives, by Simpson's rule")]:
    """Return the lift coefficient, the same along the blades, that gives a thrust."""
    unit = 0.5 * density * propeller.propeller_chord * propeller.propeller_blades
    lifting = _along_blade(
        lambda r, u: propeller_speed * r * u, propeller_speed, axial, propeller.diameter / 2.0
    )
    return thrust / (unit * lifting)


def _once_per_revolution(
    across: float,
    coefficient: float,
    propeller: RigidPropeller,
    propeller_speed: float,
    axial: float,
    density: float,
) -> Annotated[tuple[float, float, float], Method("Simpson's rule over 64 rings, hub to tip")]:
    """Return thrust, root moment and edgewise force of a blade for a speed across the shaft."""
    slope, radius = propeller.propeller_lift_slope, propeller.diameter / 2.0

    def thrust_change(r: float, u: float) -> float:
        turning = propeller_speed * r
        return coefficient * (u + turning**2 / u) + slope * turning * axial / u

    def edgewise_change(r: float, u: float) -> float:
        return (coefficient * propeller_speed * r + slope * axial) * axial / u

    unit = 0.5 * density * propeller.propeller_chord * across
    flow = propeller_speed, axial, radius
    return (
        unit * _along_blade(thrust_change, *flow),
        unit * _along_blade(lambda r, u: r * thrust_change(r, u), *flow),
        unit * _along_blade(edgewise_change, *flow),
    )


def _along_blade(
    load: Callable[[float, float], float], propeller_speed: float, axial: float, radius: float
) -> float:
    """Return the integral from hub to tip of a load that a radius and the speed there give."""
    width = radius / RINGS
    total = 0.0
    for ring in range(RINGS + 1):
        r = width * ring
        weight = 1.0 if ring in {0, RINGS} else 4.0 if ring % 2 else 2.0
        total += weight * load(r, math.hypot(axial, propeller_speed * r))
    return total * width / 3.0


def propeller_loads_chart(
    propeller: RigidPropeller,
    propeller_speed: float,
    thrust: float,
    airspeed: float,
    incidence: float,
    density: float,
    found: ObliqueLoads,
) -> Chart:
    """Return the 1/rev thrust of a blade and the normal force against incidence."""
    end = max(2.0 * incidence, math.radians(5.0))
    samples = [
        (
            angle,
            propeller_loads(propeller, propeller_speed, thrust, airspeed, angle, density),
        )
        for angle in (end * step / CHART_STEPS for step in range(CHART_STEPS + 1))
    ]
    return Chart(
        title="Loads of oblique inflow against incidence",
        description="Two lines that rise from zero: thrust of a blade once per revolution, and "
        "normal force of the propeller; points at the incidence asked for.",
        x=Axis.of(INCIDENCE, 0.0, end),
        y=Axis("Force", FORCE[0], 0.0),
        marks=(
            Line([(angle, at.blade_thrust) for angle, at in samples], "1/rev of a blade", 1),
            Line([(angle, at.normal_force) for angle, at in samples], "normal force", 2),
            Points([(incidence, found.blade_thrust), (incidence, found.normal_force)], "", 0),
        ),
    )
