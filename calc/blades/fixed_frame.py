"""Fixed frame: at which frequencies a blade mode is heard in the airframe."""

import math
from dataclasses import dataclass
from typing import Annotated

from calc.blades.quantities import TURNING_SPEED
from calc.quantity import Quantity
from calc.units import FREQUENCY, PER_REV

BLADE_FREQUENCY = Quantity("f", "Frequency in the blade", FREQUENCY, above=0.0, example=4.6)
BLADE_RATIO = Quantity(r"\nu", "In the blade", (PER_REV,))
COLLECTIVE = Quantity("f_0", "Collective modes, in the airframe", FREQUENCY, at_least=0.0)
PROGRESSIVE = Quantity("f_+", "Progressive mode, in the airframe", FREQUENCY, at_least=0.0)
REGRESSIVE = Quantity("f_-", "Regressive mode, in the airframe", FREQUENCY, at_least=0.0)


@dataclass(frozen=True, slots=True)
class FixedFrame:
    """A blade frequency per revolution, and the frequencies at which the airframe hears it."""

    per_rev: Annotated[float, BLADE_RATIO]
    collective: Annotated[float, COLLECTIVE]
    progressive: Annotated[float, PROGRESSIVE]
    regressive: Annotated[float, REGRESSIVE]


def fixed_frame(
    blade_frequency: Annotated[float, BLADE_FREQUENCY],
    rotor_speed: Annotated[float, TURNING_SPEED],
) -> FixedFrame:
    r"""Return at which frequencies the airframe hears a mode of the turning blades.

    $$ f_0 = f, \qquad f_+ = f + \frac{\Omega}{2 \pi}, \qquad
       f_- = \left| f - \frac{\Omega}{2 \pi} \right| $$

    Three or more equal blades.  Where all move alike the frequency stays; where the motion runs
    round the rotor, the turning of the hub adds to it or is taken from it.

    Args:
        blade_frequency: Natural frequency in the turning blade; scalar, Hz.
        rotor_speed: Speed of rotation; scalar, rad/s.

    Returns:
        The ratio to rotor speed and the three frequencies.

    Raises:
        ValueError: If an argument is not finite or not above zero.

    Source:
        Product of the blade's motion with the turning of its axes.

    Examples:
        A lag mode at 0.7 per revolution is heard at 0.3 and at 1.7 per revolution.

        >>> found = fixed_frame(0.7, 2.0 * math.pi)
        >>> round(found.regressive, 9), round(found.progressive, 9)
        (0.3, 1.7)
    """
    BLADE_FREQUENCY.check(blade_frequency)
    TURNING_SPEED.check(rotor_speed)
    turns_per_second = rotor_speed / (2.0 * math.pi)
    return FixedFrame(
        per_rev=blade_frequency / turns_per_second,
        collective=blade_frequency,
        progressive=blade_frequency + turns_per_second,
        regressive=abs(blade_frequency - turns_per_second),
    )
