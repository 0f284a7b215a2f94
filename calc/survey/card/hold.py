"""Hold: how nearly a rotor speed is held at a step, and where imbalance shakes most."""

import math
from collections.abc import Sequence

from calc.survey.card.followed import Followed


def speed_tolerance(speeds: Sequence[float], number: int, fine_step: float) -> float:
    """Return how far rotor speed may be off at a step so that no two steps overlap.

    Args:
        speeds: Rotor speeds of a run in ascending order, rad/s.
        number: Place of the step among them.
        fine_step: What stands for the distance where there is one step alone, rad/s.

    Returns:
        Half the distance to the nearest other step; scalar, rad/s.

    Source:
        Devised here; how nearly a speed can be held is a matter of the aircraft.

    Examples:
        >>> speed_tolerance([10.0, 10.4, 11.4], 1, 0.4)
        0.2
    """
    near = [
        abs(speeds[number] - speeds[n]) for n in (number - 1, number + 1) if 0 <= n < len(speeds)
    ]
    return 0.5 * round(min(near, default=fine_step), 12)


def modes_at_once_per_revolution(rotor_speed: float, modes: Sequence[Followed]) -> list[Followed]:
    """Return the followed modes within whose half-power bandwidth once per revolution lies.

    The bandwidth reaches the damping ratio to either side of the frequency, as for any lightly
    damped mode; inside it the response is more than 0.7 of its peak.  A mode whose damping cannot
    be read has no peak to speak of.
    """
    once = rotor_speed / (2.0 * math.pi)
    return [
        mode
        for mode in modes
        if mode.stop_damping_ratio is not None
        and abs(once - mode.frequency) <= mode.damping_ratio * mode.frequency
    ]
