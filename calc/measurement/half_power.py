"""Half power: damping and natural frequency from the half-power frequencies of a resonance."""

import math
from dataclasses import replace
from typing import Annotated

from calc.quantity import InputsError, Quantity
from calc.units import FREQUENCY
from calc.vocabulary import DAMPING_RATIO

LOWER = Quantity("f_1", "Lower half-power frequency", FREQUENCY, above=0.0, example=2.90)
UPPER = Quantity("f_2", "Upper half-power frequency", FREQUENCY, above=0.0, example=3.10)
RATIO = replace(DAMPING_RATIO, above=0.0)
NATURAL = Quantity("f_n", "Natural frequency", FREQUENCY, above=0.0, example=3.0)


def half_power_damping(
    lower: Annotated[float, LOWER], upper: Annotated[float, UPPER]
) -> Annotated[float, RATIO]:
    r"""Return the damping ratio from the half-power frequencies of a receptance, exactly.

    $$ \zeta = \sin\left(\frac{1}{2} \arctan\frac{f_2^2 - f_1^2}{f_2^2 + f_1^2}\right) $$

    Displacement over force of one viscous mode, at 0.707 of its peak.

    Args:
        lower: Half-power frequency below the peak; scalar, Hz.
        upper: Half-power frequency above the peak; scalar, Hz.

    Returns:
        The damping ratio; scalar.

    Raises:
        ValueError: If an argument breaks its limits or the frequencies do not rise.

    Source:
        Receptance of one mode, solved here for both frequencies.

    Examples:
        >>> round(half_power_damping(19.37242376, 20.57350718), 9)
        0.03
    """
    _check(lower, upper)
    return math.sin(0.5 * math.atan((upper**2 - lower**2) / (upper**2 + lower**2)))


def half_power_frequency(
    lower: Annotated[float, LOWER], upper: Annotated[float, UPPER]
) -> Annotated[float, NATURAL]:
    r"""Return the natural frequency from the half-power frequencies of a receptance.

    $$ f_n = \left(\frac{f_1^4 + f_2^4}{2}\right)^{1/4} $$

    Displacement over force of one viscous mode, at 0.707 of its peak; no peak frequency is needed.

    Args:
        lower: Half-power frequency below the peak; scalar, Hz.
        upper: Half-power frequency above the peak; scalar, Hz.

    Returns:
        The natural frequency; scalar, Hz.

    Raises:
        ValueError: If an argument breaks its limits or the frequencies do not rise.

    Source:
        Receptance of one mode, solved here for both frequencies.

    Examples:
        >>> round(half_power_frequency(19.37242376, 20.57350718), 6)
        20.0
    """
    _check(lower, upper)
    return math.sqrt(math.sqrt((lower**4 + upper**4) / 2.0))


def _check(lower: float, upper: float) -> None:
    LOWER.check(lower)
    UPPER.check(upper)
    if not lower < upper:
        raise InputsError(
            "The upper half-power frequency must be above the lower one", "lower", "upper"
        )
