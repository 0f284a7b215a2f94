"""Separation margin: how far a forcing line has to be from a mode for an amplification wanted."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.airframe.quantities import DAMPED
from calc.airframe.separation import PEAK, peak_magnification
from calc.declaration import Nothing
from calc.quantity import Quantity
from calc.units import ONE, PERCENT, Family

PERCENTAGE: Family = (PERCENT, ONE)

WANTED = Quantity("D", "Dynamic magnification factor wanted", above=1.0, example=5.0)
LOWER_RATIO = Quantity("r_1", "Frequency ratio below resonance", above=0.0)
UPPER_RATIO = Quantity("r_2", "Frequency ratio above resonance", above=0.0)
MARGIN_BELOW = Quantity("t_1", "Margin below the mode", PERCENTAGE)
MARGIN_ABOVE = Quantity("t_2", "Margin above the mode", PERCENTAGE)
NEEDED_MARGIN = Quantity("t", "Margin that holds on both sides", PERCENTAGE)


@dataclass(frozen=True, slots=True)
class Margin:
    """The margin that an amplification asks for, with the frequency ratios it comes from."""

    margin: Annotated[float, NEEDED_MARGIN]
    lower_ratio: Annotated[float, LOWER_RATIO]
    upper_ratio: Annotated[float, UPPER_RATIO]
    margin_below: Annotated[float, MARGIN_BELOW]
    margin_above: Annotated[float, MARGIN_ABOVE]
    peak: Annotated[float, PEAK]


def separation_margin(
    wanted: Annotated[float, WANTED], damping_ratio: Annotated[float, DAMPED] = 0.03
) -> Annotated[Margin | None, Nothing("The mode is never amplified as much: no margin is needed")]:
    r"""Return the margin outside which one mode amplifies a steady force no more than wanted.

    $$ r_{1,2}^2 = 1 - 2 \zeta^2 \mp \sqrt{(1 - 2 \zeta^2)^2 - 1 + \frac{1}{D^2}}, \quad
       t = \frac{2 |r - 1|}{r + 1} $$

    The margin is a difference of two frequencies over their mean, as the avoid bands take it.

    Args:
        wanted: Largest dynamic magnification factor that is accepted; scalar.
        damping_ratio: Damping over critical damping; scalar.

    Returns:
        The margin and the frequency ratios, or None where damping alone keeps below the factor.

    Raises:
        ValueError: If an argument is not finite or breaks its limits.

    Source:
        Steady solution of a mass on a spring with a damper, solved for the frequency ratio.

    Examples:
        >>> margin = separation_margin(5.0, 0.03)
        >>> round(margin.lower_ratio, 4), round(margin.upper_ratio, 4)
        (0.8986, 1.0904)
    """
    WANTED.check(wanted)
    DAMPED.check(damping_ratio)
    peak = peak_magnification(damping_ratio)
    if wanted >= peak:
        return None
    middle = 1.0 - 2.0 * damping_ratio**2
    spread = math.sqrt(max(middle**2 - 1.0 + 1.0 / wanted**2, 0.0))
    lower_ratio = math.sqrt(middle - spread)
    upper_ratio = math.sqrt(middle + spread)
    margin_below = 2.0 * (1.0 - lower_ratio) / (1.0 + lower_ratio)
    margin_above = max(2.0 * (upper_ratio - 1.0) / (upper_ratio + 1.0), 0.0)
    return Margin(
        margin=max(margin_below, margin_above),
        lower_ratio=lower_ratio,
        upper_ratio=upper_ratio,
        margin_below=margin_below,
        margin_above=margin_above,
        peak=peak,
    )
