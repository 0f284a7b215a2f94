"""Wing: the share of the lift that follows from airspeed, and what it costs in drag."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points, Rule
from calc.constants import STANDARD_GRAVITY
from calc.declaration import Name, Nothing
from calc.flight.craft import Condition, Wing
from calc.flight.quantities import (
    AIRSPEED,
    DENSITY,
    LOAD_FACTOR,
    MASS,
    WING_ASPECT_RATIO,
    WING_LIFT,
    WING_LIFT_SHARE,
    WING_LIFT_SLOPE,
    WING_SPAN_EFFICIENCY,
)
from calc.quantity import Quantity
from calc.rotor import level_flight
from calc.units import FORCE, LIFT_SLOPE, PRESSURE

SECTION_LIFT_SLOPE = Quantity(
    r"a_\infty", "Section lift slope", LIFT_SLOPE, above=0.0, example=2.0 * math.pi
)
SHARE_ASKED = replace(
    WING_LIFT_SHARE, label="Wing lift share asked for", symbol="s_a", above=0.0, example=0.4
)
DYNAMIC_PRESSURE = Quantity("q", "Dynamic pressure", PRESSURE)
LIFT_COEFFICIENT = Quantity("C_L", "Lift coefficient of the wing")
UNCAPPED = Quantity("C_{L,1}", "Lift coefficient of the wing without stall")
INDUCED_DRAG = Quantity("D_{w,i}", "Induced drag of the wing", FORCE)
PROFILE_DRAG = Quantity("D_{w,0}", "Profile drag of the wing", FORCE)
SHARE_AIRSPEED = Quantity("V_a", "Airspeed of a wing lift share", AIRSPEED.units)
WING_STALL = Name("State of the wing")
BELOW_MAXIMUM = "below its maximum lift coefficient"
AT_MAXIMUM = "at its maximum lift coefficient: stalled, and the lift is capped there"


@dataclass(frozen=True, slots=True)
class WingState:
    """The lift and drag of a wing, and what is left for the rotor to lift."""

    lift_share: Annotated[float, WING_LIFT_SHARE]
    lift: Annotated[float, WING_LIFT]
    rotor_lift: Annotated[float, level_flight.ROTOR_LIFT]
    lift_coefficient: Annotated[float, LIFT_COEFFICIENT]
    induced_drag: Annotated[float, INDUCED_DRAG]
    profile_drag: Annotated[float, PROFILE_DRAG]
    state: Annotated[str, WING_STALL]


def wing_lift_slope(
    section_lift_slope: Annotated[float, SECTION_LIFT_SLOPE],
    aspect_ratio: Annotated[float, WING_ASPECT_RATIO],
    span_efficiency: Annotated[float, WING_SPAN_EFFICIENCY] = 1.0,
) -> Annotated[float, WING_LIFT_SLOPE]:
    r"""Return the lift slope of a wing of finite span.

    $$ C_{L\alpha} = \frac{a_\infty}{1 + a_\infty / (\pi e A_R)} $$

    Args:
        section_lift_slope: Lift slope of the section, as of a wing of infinite span; scalar, 1/rad.
        aspect_ratio: Span squared over area; scalar.
        span_efficiency: Induced drag of an elliptic lift over that of this wing; scalar.

    Returns:
        The lift slope; scalar, 1/rad.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Prandtl's lifting line (from memory).

    Examples:
        >>> round(wing_lift_slope(2.0 * math.pi, 7.0, 0.8), 6)
        4.629715
    """
    SECTION_LIFT_SLOPE.check(section_lift_slope)
    WING_ASPECT_RATIO.check(aspect_ratio)
    WING_SPAN_EFFICIENCY.check(span_efficiency)
    downwash = section_lift_slope / (math.pi * span_efficiency * aspect_ratio)
    return section_lift_slope / (1.0 + downwash)


def wing_at_airspeed(wing: Wing, flight: Condition, mass: Annotated[float, MASS]) -> WingState:
    r"""Return the share of the lift that a wing at a fixed angle carries at an airspeed.

    $$ L_w = \frac{1}{2} \rho V^2 S C_L, \qquad C_L = C_{L\alpha} \alpha_w \ \text{up to}\
    \pm C_{L,max}, \qquad s_w = \frac{L_w}{n_z m g}, \qquad Z = n_z m g - L_w $$
    $$ D_{w,i} + D_{w,0} = \frac{1}{2} \rho V^2 S
    \left(\frac{C_L^2}{\pi e A_R} + C_{D0}\right) $$

    The wing stands in undisturbed air: the downwash of the rotor, of the order of the induced
    speed over the airspeed, is to be taken off the angle.

    Args:
        wing: The wing; record.
        flight: Airspeed, density and load factor; record.
        mass: Mass of the rotorcraft; scalar, kg.

    Returns:
        The share, the lift and the drag of the wing, and the lift left for the rotor, which is
        negative where the wing lifts more than the weight.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        Lift and induced drag of a finite wing: Prandtl's lifting line (from memory).

    Examples:
        >>> from calc.flight.examples import CURLEW_WING
        >>> state = wing_at_airspeed(CURLEW_WING, Condition(80.0, 1.225), 8600.0)
        >>> state.lift + state.rotor_lift == 8600.0 * 9.80665
        True
    """
    MASS.check(mass)
    pressure: Annotated[float, DYNAMIC_PRESSURE] = 0.5 * flight.density * flight.airspeed**2
    uncapped: Annotated[float, UNCAPPED] = wing.wing_lift_slope * wing.wing_angle
    coefficient: Annotated[float, LIFT_COEFFICIENT] = max(
        -wing.wing_maximum_lift_coefficient, min(wing.wing_maximum_lift_coefficient, uncapped)
    )
    lift = pressure * wing.wing_area * coefficient
    weight = flight.load_factor * mass * STANDARD_GRAVITY
    spread = math.pi * wing.wing_span_efficiency * wing.wing_aspect_ratio
    return WingState(
        lift_share=lift / weight,
        lift=lift,
        rotor_lift=weight - lift,
        lift_coefficient=coefficient,
        induced_drag=pressure * wing.wing_area * coefficient**2 / spread,
        profile_drag=pressure * wing.wing_area * wing.wing_profile_drag_coefficient,
        state=AT_MAXIMUM if coefficient != uncapped else BELOW_MAXIMUM,
    )


def wing_state(  # noqa: PLR0913, PLR0917  the flat names of scripts; forms take records
    airspeed: float,
    density: float,
    mass: float,
    load_factor: float,
    wing_angle: float,
    wing_area: float,
    wing_aspect_ratio: float,
    wing_lift_slope: float,
    wing_span_efficiency: float,
    wing_profile_drag_coefficient: float,
    wing_maximum_lift_coefficient: float = 1.2,
) -> WingState:
    """Return what `wing_at_airspeed` does, without records: arguments in SI units.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> state = wing_state(70.0, 1.225, 6000.0, 1.0, math.radians(6), 14.0, 7.0, 4.5, 0.8, 0.01)
        >>> round(state.lift_share, 4)
        0.3365
    """
    wing = Wing(
        wing_area,
        wing_aspect_ratio,
        wing_angle,
        wing_lift_slope,
        wing_span_efficiency,
        wing_profile_drag_coefficient,
        wing_maximum_lift_coefficient,
    )
    return wing_at_airspeed(wing, Condition(airspeed, density, load_factor), mass)


def airspeed_of_share(
    wing: Annotated[
        Wing,
        {
            "wing_aspect_ratio": 1.0,
            "wing_span_efficiency": 1.0,
            "wing_profile_drag_coefficient": 0.0,
        },
    ],
    lift_share: Annotated[float, SHARE_ASKED],
    mass: Annotated[float, MASS],
    density: Annotated[float, DENSITY],
    load_factor: Annotated[float, LOAD_FACTOR] = 1.0,
) -> Annotated[
    float | None,
    SHARE_AIRSPEED,
    Nothing("No airspeed: without area, or at this angle, the wing does not lift"),
]:
    r"""Return the airspeed at which a wing at a fixed angle carries a share of the lift.

    $$ V_a = \sqrt{\frac{2 s_a n_z m g}{\rho S C_L}} $$

    Args:
        wing: The wing; record.
        lift_share: Lift of the wing over all lift; scalar.
        mass: Mass of the rotorcraft; scalar, kg.
        density: Density of the air; scalar, kg/m³.
        load_factor: Lift over weight: 1 in level flight, more in a turn; scalar.

    Returns:
        The true airspeed; scalar, m/s.  None if the angle gives no lift, or the wing has no area.

    Raises:
        ValueError: If an argument breaks its limits.

    Source:
        `wing_at_airspeed`, solved for the airspeed.

    Examples:
        >>> from calc.flight.examples import CURLEW_WING
        >>> airspeed = airspeed_of_share(CURLEW_WING, 0.4, 8600.0, 1.225)
        >>> state = wing_at_airspeed(CURLEW_WING, Condition(airspeed, 1.225), 8600.0)
        >>> round(state.lift_share, 12)
        0.4
    """
    SHARE_ASKED.check(lift_share)
    MASS.check(mass)
    DENSITY.check(density)
    LOAD_FACTOR.check(load_factor)
    coefficient: Annotated[float, LIFT_COEFFICIENT] = min(
        wing.wing_maximum_lift_coefficient, wing.wing_lift_slope * wing.wing_angle
    )
    if wing.wing_area * coefficient <= 0.0:
        return None
    weight = load_factor * mass * STANDARD_GRAVITY
    return math.sqrt(2.0 * lift_share * weight / (density * wing.wing_area * coefficient))


def airspeed_of_lift_share(  # noqa: PLR0913, PLR0917  the flat names of scripts
    lift_share: float,
    density: float,
    mass: float,
    load_factor: float,
    wing_angle: float,
    wing_area: float,
    wing_lift_slope: float,
    wing_maximum_lift_coefficient: float = 1.2,
) -> float | None:
    """Return what `airspeed_of_share` does, without a record: arguments in SI units.

    Raises:
        ValueError: If an argument breaks its limits.

    Examples:
        >>> share = 0.336511
        >>> airspeed = airspeed_of_lift_share(share, 1.225, 6000.0, 1.0, math.radians(6), 14.0, 4.5)
        >>> round(airspeed, 4)
        70.0
    """
    wing = Wing(
        wing_area, 1.0, wing_angle, wing_lift_slope, 1.0, 0.0, wing_maximum_lift_coefficient
    )
    return airspeed_of_share(wing, lift_share, mass, density, load_factor)


def wing_chart(wing: Wing, flight: Condition, mass: float) -> Chart:
    """Return the wing's share of the lift against airspeed, with the airspeed asked for."""
    fastest = max(1.3 * flight.airspeed, 1.0)
    airspeeds = [fastest * step / 40 for step in range(1, 41)]
    states = [(v, wing_at_airspeed(wing, replace(flight, airspeed=v), mass)) for v in airspeeds]
    here = wing_at_airspeed(wing, flight, mass).lift_share
    return Chart(
        title="Share of the lift on the wing against airspeed",
        description="A line of the wing's share of the lift, which grows with the square of the "
        "airspeed, a point at the airspeed asked for, and the share of one.",
        x=Axis.of(AIRSPEED, 0.0, fastest),
        y=Axis.of(WING_LIFT_SHARE, min(0.0, 1.2 * states[-1][1].lift_share)),
        marks=(
            Line([(0.0, 0.0), *((v, state.lift_share) for v, state in states)], "wing", 1),
            Points([(flight.airspeed, here)], "this flight", 2),
            Rule(1.0, "y", "all of the lift"),
        ),
    )
