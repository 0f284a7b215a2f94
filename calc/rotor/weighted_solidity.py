"""Weighted solidity: what a tapered blade counts for in thrust and in power."""

import math
from dataclasses import dataclass, replace
from typing import Annotated

from calc.rotor.quantities import BLADES, CHORD, RADIUS, SOLIDITY

AXIS_CHORD = replace(CHORD, symbol="c_0", label="Chord extended to the shaft axis", example=0.5)
TIP_CHORD = replace(CHORD, symbol="c_1", label="Chord at the tip", example=0.3)
THRUST_SOLIDITY = replace(SOLIDITY, symbol=r"\sigma_T", label="Thrust-weighted solidity")
POWER_SOLIDITY = replace(SOLIDITY, symbol=r"\sigma_P", label="Power-weighted solidity")


@dataclass(frozen=True, slots=True)
class WeightedSolidity:
    """The solidity of a tapered blade, and the untapered ones that it can be replaced by."""

    solidity: Annotated[float, SOLIDITY]
    thrust_weighted_solidity: Annotated[float, THRUST_SOLIDITY]
    power_weighted_solidity: Annotated[float, POWER_SOLIDITY]


def weighted_solidity(
    blades: Annotated[int, BLADES],
    axis_chord: Annotated[float, AXIS_CHORD],
    tip_chord: Annotated[float, TIP_CHORD],
    radius: Annotated[float, RADIUS],
) -> WeightedSolidity:
    r"""Return the geometric, thrust-weighted and power-weighted solidity of a linear taper.

    $$ \sigma_T = 3 \int_0^1 \sigma(x) x^2 dx, \qquad \sigma_P = 4 \int_0^1 \sigma(x) x^3 dx,
    \qquad \sigma(x) = \frac{N_b (c_0 + (c_1 - c_0) x)}{\pi R} $$

    The integrals pick out the chord at 75 % of the radius for thrust and at 80 % for power.
    The chord changes linearly from the axis to the tip, without root cutout.

    Args:
        blades: Number of blades of the rotor; scalar.
        axis_chord: Chord where the leading and trailing edges meet the shaft axis; scalar, m.
        tip_chord: Chord at the tip; scalar, m.
        radius: Shaft axis to blade tip; scalar, m.

    Returns:
        The blade area over the disc area, and the two weighted solidities.

    Raises:
        ValueError: If an argument breaks its limits, or the blades would cover the whole disc.

    Source:
        Leishman (2006), Principles of Helicopter Aerodynamics, chapter 3.

    Examples:
        >>> weighted = weighted_solidity(4, 0.5, 0.3, 7.0)
        >>> round(weighted.solidity, 5), round(weighted.thrust_weighted_solidity, 5)
        (0.07276, 0.06366)
    """
    BLADES.check(blades)
    AXIS_CHORD.check(axis_chord)
    TIP_CHORD.check(tip_chord)
    RADIUS.check(radius)
    axis_solidity = blades * axis_chord / (math.pi * radius)
    change = blades * (tip_chord - axis_chord) / (math.pi * radius)
    geometric = axis_solidity + change / 2.0
    SOLIDITY.check(geometric)
    return WeightedSolidity(
        solidity=geometric,
        thrust_weighted_solidity=axis_solidity + 3.0 / 4.0 * change,
        power_weighted_solidity=axis_solidity + 4.0 / 5.0 * change,
    )
