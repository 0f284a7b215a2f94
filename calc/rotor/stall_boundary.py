"""Stall boundary: the blade loadings at which the retreating blade reaches its limiting angle."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Annotated

from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Method, Nothing
from calc.numeric.roots import first_root
from calc.rotor.quantities import ADVANCE_RATIO, BLADE_LOADING, LIFT_SLOPE_OF_BLADE, SOLIDITY, TWIST
from calc.rotor.retreating_tip import (
    BELOW_ONE,
    SMALL_INCIDENCE,
    RetreatingTip,
    classical_retreating_tip,
    retreating_tip,
)
from calc.rotor.stall_onset import ANGLE_LIMIT, ONSET_OF_STALL, STATION
from calc.rotor.stall_state import LIMITING_STATION, limiting_station

HIGHEST_BLADE_LOADING = 0.4
STEPS = 80
TIP_BOUNDARY = replace(
    BLADE_LOADING, symbol=r"(C_T/\sigma)_1", label="Blade loading at stall onset, tip"
)
INBOARD_BOUNDARY = replace(
    BLADE_LOADING,
    symbol=r"(C_T/\sigma)_{0.4}",
    label="Blade loading at stall onset, inboard station",
)


@dataclass(frozen=True, slots=True)
class StallBoundary:
    """The blade loading at each station's limit; None where none up to 0.4 meets it."""

    limiting: Annotated[str, LIMITING_STATION]
    tip_blade_loading: Annotated[float | None, TIP_BOUNDARY]
    inboard_blade_loading: Annotated[float | None, INBOARD_BOUNDARY]


def stall_boundary(
    advance_ratio: Annotated[float, BELOW_ONE],
    solidity: Annotated[float, SOLIDITY],
    disc_incidence: Annotated[float, SMALL_INCIDENCE],
    twist: Annotated[float, TWIST],
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE],
    angle_limit: Annotated[float, ANGLE_LIMIT] = ONSET_OF_STALL,
) -> Annotated[
    StallBoundary | None,
    Nothing("No blade loading up to 0.4 brings either station to the limit"),
]:
    r"""Return the lowest blade loading at which each station of the retreating blade stalls.

    $$ \alpha_{1,270}(\mu, C_T/\sigma) = \alpha_{lim}, \qquad
    \alpha_{0.4,270}(\mu, C_T/\sigma) = \alpha_{lim} $$

    The angles are those of `retreating_tip`.  Where one is past the limit without any load, the
    blade loading is zero.  The tip is limiting while shaft power drives the rotor, the inboard
    station in autorotation.

    Args:
        advance_ratio: Airspeed in the plane of the disc over tip speed; scalar.
        solidity: Area of the blades over area of the disc; scalar.
        disc_incidence: Angle of the tip-path plane to the flight path, nose down; scalar, rad.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.

    Returns:
        Both blade loadings and the limiting station; None if no loading up to 0.4 meets the limit.

    Raises:
        ValueError: If an argument breaks its limits; the advance ratio must be below 1.

    Source:
        Gustafson and Myers (1946), NACA Report 840: the angle as a measure of stall; the station
        by condition from memory.

    Examples:
        >>> found = stall_boundary(0.3, 0.08, 0.07, math.radians(-8), 5.7)
        >>> found and round(found.tip_blade_loading, 4)
        0.0982
    """
    rotor = solidity, disc_incidence, twist, lift_slope
    tip_loading = boundary_blade_loading(advance_ratio, *rotor, angle_limit, "tip")
    inboard_loading = boundary_blade_loading(advance_ratio, *rotor, angle_limit, "inboard")
    loading = inboard_loading if tip_loading is None else tip_loading
    if loading is None:
        return None
    blade = retreating_tip(advance_ratio, loading, solidity, disc_incidence, twist, lift_slope)
    return StallBoundary(
        limiting=limiting_station(blade.inflow),
        tip_blade_loading=tip_loading,
        inboard_blade_loading=inboard_loading,
    )


def boundary_blade_loading(
    advance_ratio: float,
    solidity: float,
    disc_incidence: float,
    twist: float,
    lift_slope: float,
    angle_limit: float = ONSET_OF_STALL,
    station: str = "tip",
) -> Annotated[
    float | None, Method("the lowest blade loading at the limit, by narrowing an interval")
]:
    """Return the lowest blade loading at which a station meets the limit.

    Raises:
        ValueError: If an argument breaks its limits.
    """
    ANGLE_LIMIT.check(angle_limit)
    STATION.check(station)
    rotor = solidity, disc_incidence, twist, lift_slope
    return _boundary(retreating_tip, advance_ratio, rotor, angle_limit, station)


def classical_boundary_blade_loading(
    advance_ratio: float,
    solidity: float,
    disc_incidence: float,
    twist: float,
    lift_slope: float,
    angle_limit: float = ONSET_OF_STALL,
) -> float | None:
    """Return that of the tip by the textbook form, which ignores the reverse flow.

    Above an advance ratio of 0.3 it promises a blade loading that the rotor cannot carry.

    Raises:
        ValueError: If an argument breaks its limits.
    """
    ANGLE_LIMIT.check(angle_limit)
    rotor = solidity, disc_incidence, twist, lift_slope
    return _boundary(classical_retreating_tip, advance_ratio, rotor, angle_limit, "tip")


def stall_boundary_chart(
    advance_ratio: float,
    solidity: float,
    disc_incidence: float,
    twist: float,
    lift_slope: float,
    angle_limit: float,
    found: StallBoundary | None,
) -> Chart:
    """Return the boundaries of both stations against the advance ratio, and the textbook form."""
    ratios = [0.025 * step for step in range(25)]
    rotor = solidity, disc_incidence, twist, lift_slope, angle_limit
    lines = {
        "tip": [boundary_blade_loading(ratio, *rotor) for ratio in ratios],
        "inboard station": [boundary_blade_loading(ratio, *rotor, "inboard") for ratio in ratios],
        "tip, textbook form": [classical_boundary_blade_loading(ratio, *rotor) for ratio in ratios],
    }
    here = found.tip_blade_loading if found else None
    return Chart(
        title="Blade loading at stall onset against advance ratio",
        description="The boundaries fall as the advance ratio grows; above 0.3 the textbook form "
        "stays too high.",
        x=Axis.of(ADVANCE_RATIO, 0.0, 0.6),
        y=Axis("Blade loading at stall onset", low=0.0),
        marks=(
            *(
                Line(
                    [(ratio, _or_gap(value)) for ratio, value in zip(ratios, values, strict=True)],
                    name,
                    style,
                )
                for style, (name, values) in enumerate(lines.items(), 1)
            ),
            Points([(advance_ratio, _or_gap(here))], "tip, this advance ratio", 4),
        ),
    )


def _or_gap(value: float | None) -> float:
    return math.nan if value is None else value


def _boundary(
    theory: Callable[..., RetreatingTip],
    advance_ratio: float,
    rotor: tuple[float, ...],
    angle_limit: float,
    station: str,
) -> float | None:
    def excess(blade_loading: float) -> float:
        blade = theory(advance_ratio, blade_loading, *rotor)
        return (blade.tip_angle if station == "tip" else blade.inboard_angle) - angle_limit

    return first_root(excess, (HIGHEST_BLADE_LOADING * step / STEPS for step in range(STEPS + 1)))
