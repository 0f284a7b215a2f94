"""Dwell: how long a step of a ground run takes, from settling, decay and resolution."""

import math
from collections.abc import Sequence
from typing import NamedTuple

from calc.harmonics.beats import beat

LEFT = 0.01
"""What is left of a transient when it has settled, and of a decay when its record ends."""

LONGEST = 60.0
"""s: frequencies that only a longer record tells apart are named and not waited for."""


class Dwell(NamedTuple):
    """Least times of a step in s; `too_near` has pairs that no record of this length tells apart.

    `record` is that of one decay, of which the step takes `records`.
    """

    settling: float
    record: float
    records: int
    too_near: tuple[tuple[str, str], ...]

    @property
    def least(self) -> float:
        """The least time at the step, without the time of the stir."""
        return self.settling + self.records * self.record


def settling_time(frequency: float, damping_ratio: float, left: float = LEFT) -> float:
    r"""Return how long free motion takes to decay to a fraction of its amplitude.

    $$ t = \frac{\ln (1 / \epsilon)}{2 \pi \zeta f} $$

    Args:
        frequency: Frequency of the mode; scalar, Hz.
        damping_ratio: Its damping ratio, small and above zero; scalar.
        left: The fraction that is left; scalar.

    Returns:
        The time; scalar, s.

    Source:
        Decay of a lightly damped mode; to one per cent is common practice, no source.

    Examples:
        >>> round(settling_time(3.0, 0.02, 0.05), 1)
        7.9
    """
    return math.log(1.0 / left) / (2.0 * math.pi * damping_ratio * frequency)


def separation_time(first: float, second: float) -> float | None:
    """Return the record that shows two frequencies as two peaks, or None if it is too long.

    Three bins of a Hann window apart, as the page *Beats* finds for every phase.
    """
    found = beat(first, second)
    if found is None or found.record_length > LONGEST:
        return None
    return found.record_length


def dwell(
    modes: Sequence[tuple[str, float]],
    lines: Sequence[tuple[str, float]],
    *,
    slowest: float,
    damping_ratio: float,
    records: int,
) -> Dwell:
    """Return the least times of a step.

    The transient of the step before settles first.  A record then takes the decay after a stir,
    and is long enough to tell each mode from the other and from every line.

    Args:
        modes: Frequencies of the modes that are followed, by name; Hz.
        lines: Forcing frequencies by name; Hz.
        slowest: Lowest frequency that one of the modes may have; scalar, Hz.
        damping_ratio: Least damping ratio that is expected; scalar.
        records: Decays that are recorded.
    """
    settling = settling_time(slowest, damping_ratio)
    named = [*modes, *lines]
    pairs = [
        (one, other, separation_time(first, second))
        for number, (one, first) in enumerate(named[: len(modes)])
        for other, second in named[number + 1 :]
    ]
    needed = [time for _, _, time in pairs if time is not None]
    too_near = tuple((one, other) for one, other, time in pairs if time is None)
    return Dwell(settling, max([settling, *needed]), records, too_near)
