"""Stall boundary: the blade loading at which the retreating tip reaches its limiting angle."""

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Annotated, Any

from calc.chart import Axis, Chart, Line, Points
from calc.declaration import Nothing
from calc.roots import first_root
from calc.rotor.quantities import ADVANCE_RATIO, BLADE_LOADING, LIFT_SLOPE_OF_BLADE, SOLIDITY, TWIST
from calc.rotor.retreating_tip import (
    BELOW_ONE,
    CLASSICAL_RANGE,
    SMALL_INCIDENCE,
    RetreatingTip,
    classical_retreating_tip,
    retreating_tip,
)
from calc.rotor.stall_onset import ANGLE_LIMIT

HIGHEST_BLADE_LOADING = 0.4
STEPS = 80
BOUNDARY = replace(BLADE_LOADING, label="Blade loading at the onset of stall")


def stall_boundary_blade_loading(
    advance_ratio: Annotated[float, BELOW_ONE],
    solidity: Annotated[float, SOLIDITY],
    disc_incidence: Annotated[float, SMALL_INCIDENCE],
    twist: Annotated[float, TWIST],
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE],
    angle_limit: Annotated[float, ANGLE_LIMIT] = math.radians(12.0),
) -> Annotated[
    float | None, BOUNDARY, Nothing("No blade loading up to 0.4 brings the tip to the limit")
]:
    r"""Return the lowest blade loading at which the retreating tip reaches its limiting angle.

    $$ \alpha_{1,270}(\mu, C_T/\sigma) = \alpha_{lim} $$

    The angle is that of `retreating_tip`, at the tip alone.  If it is past the limit without any
    load, the blade loading is zero.

    Args:
        advance_ratio: Airspeed in the plane of the disc over tip speed; scalar.
        solidity: Area of the blades over area of the disc; scalar.
        disc_incidence: Angle of the tip-path plane to the flight path, nose down; scalar, rad.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.

    Returns:
        The blade loading, or None if no blade loading up to 0.4 meets the limit; scalar.

    Raises:
        ValueError: If an argument breaks its limits; the advance ratio must be below 1.

    Source:
        Gustafson and Myers (1946), NACA Report 840: the angle as a measure of stall.

    Examples:
        >>> loading = stall_boundary_blade_loading(0.3, 0.08, 0.07, math.radians(-8), 5.7)
        >>> loading and round(loading, 4)
        0.0982
    """
    ANGLE_LIMIT.check(angle_limit)
    rotor = solidity, disc_incidence, twist, lift_slope
    return _boundary(retreating_tip, advance_ratio, rotor, angle_limit)


def classical_stall_boundary_blade_loading(
    advance_ratio: Annotated[float, CLASSICAL_RANGE],
    solidity: Annotated[float, SOLIDITY],
    disc_incidence: Annotated[float, SMALL_INCIDENCE],
    twist: Annotated[float, TWIST],
    lift_slope: Annotated[float, LIFT_SLOPE_OF_BLADE],
    angle_limit: Annotated[float, ANGLE_LIMIT] = math.radians(12.0),
) -> Annotated[
    float | None, BOUNDARY, Nothing("No blade loading up to 0.4 brings the tip to the limit")
]:
    r"""Return the same blade loading by the textbook form, which ignores the reverse flow.

    $$ \alpha_{1,270}(\mu, C_T/\sigma) = \alpha_{lim} $$

    Above an advance ratio of 0.3 it promises a blade loading that the rotor cannot carry.

    Args:
        advance_ratio: Airspeed in the plane of the disc over tip speed; scalar.
        solidity: Area of the blades over area of the disc; scalar.
        disc_incidence: Angle of the tip-path plane to the flight path, nose down; scalar, rad.
        twist: Pitch at the tip minus pitch at the shaft axis; scalar, rad.
        lift_slope: Lift coefficient per angle of attack; scalar, 1/rad.
        angle_limit: Angle of attack that marks the onset of stall; scalar, rad.

    Returns:
        The blade loading, or None if no blade loading up to 0.4 meets the limit; scalar.

    Raises:
        ValueError: If an argument breaks its limits; the advance ratio must be below 1.

    Source:
        Gustafson and Myers (1946), NACA Report 840: the angle as a measure of stall.

    Examples:
        >>> loading = classical_stall_boundary_blade_loading(
        ...     0.3, 0.08, 0.07, math.radians(-8), 5.7
        ... )
        >>> loading and round(loading, 4)
        0.1051
    """
    ANGLE_LIMIT.check(angle_limit)
    rotor = solidity, disc_incidence, twist, lift_slope
    return _boundary(classical_retreating_tip, advance_ratio, rotor, angle_limit)


def stall_boundary_chart(advance_ratio: float, **rotor: Any) -> Chart:
    """Return the boundary against the advance ratio, with the textbook form beside it."""
    ratios = [0.025 * step for step in range(25)]
    forms = {
        "with reverse flow": stall_boundary_blade_loading,
        "textbook form": classical_stall_boundary_blade_loading,
    }
    here = stall_boundary_blade_loading(advance_ratio, **rotor)
    return Chart(
        title="Blade loading at stall onset against advance ratio",
        description="Both boundaries fall; above 0.3 the textbook form stays too high.",
        x=Axis.of(ADVANCE_RATIO, 0.0, 0.6),
        y=Axis.of(BOUNDARY, 0.0),
        marks=(
            *(
                Line([(ratio, _or_gap(form(ratio, **rotor))) for ratio in ratios], name, style)
                for style, (name, form) in enumerate(forms.items(), 1)
            ),
            Points([(advance_ratio, _or_gap(here))], "this advance ratio", 3),
        ),
    )


def _or_gap(value: float | None) -> float:
    return math.nan if value is None else value


def _boundary(
    theory: Callable[..., RetreatingTip],
    advance_ratio: float,
    rotor: tuple[float, ...],
    angle_limit: float,
) -> float | None:
    def excess(blade_loading: float) -> float:
        return theory(advance_ratio, blade_loading, *rotor).tip_angle - angle_limit

    return first_root(excess, (HIGHEST_BLADE_LOADING * step / STEPS for step in range(STEPS + 1)))
