"""Pulses: the angle of a shaft between the pulses of a tachometer, and pulses missed or doubled."""

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from calc.digits import significant

ALIKE = 1.2
"""Largest ratio of an interval to its neighbours on either side; common practice, no source."""
ALIKE_AT_ENDS = 1.5
"""The same where there are neighbours on one side alone, and they are alike."""
NEIGHBOURS = 3
MOST_NAMED = 3


@dataclass(frozen=True, slots=True)
class PulseFault:
    """An interval that does not fit its neighbours: which, from 0, when, and what it may mean."""

    interval: int
    time: float
    ratio: float
    meaning: str


def shaft_angle(pulse_times: Sequence[float], time: float, pulses_per_revolution: int = 1) -> float:
    r"""Return the angle of a shaft at a time, from the pulses of its tachometer.

    $$ \psi = \frac{2 \pi}{p} \left(m + \frac{t - t_m}{t_{m+1} - t_m}\right) $$

    Straight lines from pulse to pulse, and straight on before the first and after the last.

    Args:
        pulse_times: Times of the pulses, rising; shape (n,), n of at least two, s.
        time: When the angle is asked for; scalar, s.
        pulses_per_revolution: Pulses in a revolution; scalar.

    Returns:
        The angle since the first pulse; scalar, rad.

    Raises:
        ValueError: If there are fewer than two pulses, the two about the time do not rise, or there
            are fewer than one a revolution.

    Source:
        Straight lines between pulses.

    Examples:
        >>> round(shaft_angle([0.0, 0.2, 0.3], 0.25), 6)
        9.424778
    """
    interval = min(max(bisect_right(pulse_times, time) - 1, 0), max(len(pulse_times) - 2, 0))
    check_pulses(pulse_times[interval : interval + 2], pulses_per_revolution)
    start, end = pulse_times[interval], pulse_times[interval + 1]
    return math.tau * (interval + (time - start) / (end - start)) / pulses_per_revolution


def pulse_faults(pulse_times: Sequence[float]) -> list[PulseFault]:
    """Return the intervals between pulses that are unlike those before and those after.

    An interval is held against the middle one of the three before it and of the three after it: it
    may be a fifth longer than the longer of the two, or shorter than the shorter.  At both ends of
    the record, with neighbours on one side, it may be half as long again.  A steady change of speed
    passes.

    Args:
        pulse_times: Times of the pulses, rising; shape (n,), s.

    Returns:
        The faults, in order of time.

    Source:
        Common practice, no source.

    Examples:
        >>> [(fault.time, fault.meaning) for fault in pulse_faults([0.0, 1.0, 2.0, 4.0, 5.0, 6.0])]
        [(2.0, 'a pulse missed')]
    """
    lengths = [after - before for before, after in pairwise(pulse_times)]
    return list(_faults(lengths, pulse_times))


def check_pulses(pulse_times: Sequence[float], pulses_per_revolution: int) -> None:
    """Raise ValueError for pulses from which no angle follows."""
    if pulses_per_revolution < 1 or pulses_per_revolution != int(pulses_per_revolution):
        raise ValueError("Pulses a revolution must be a whole number of at least 1")
    if len(pulse_times) < 2:
        raise ValueError("There must be at least two pulses of the tachometer")
    for before, after in pairwise(pulse_times):
        if not before < after:
            raise ValueError(f"The times of pulses must rise, but {after} s follows {before} s")


def refuse_faults(pulse_times: Sequence[float]) -> None:
    """Raise ValueError that says where pulses were missed or doubled."""
    faults = pulse_faults(pulse_times)
    if not faults:
        return
    named = ", ".join(
        f"{fault.meaning} at {significant(fault.time, 5)} s" for fault in faults[:MOST_NAMED]
    )
    more = f" and {len(faults) - MOST_NAMED} more" if len(faults) > MOST_NAMED else ""
    raise ValueError(
        f"The pulses of the tachometer are not evenly spaced: {named}{more}. Every later angle "
        "would be wrong: mend the pulses, or use a stretch without such a place"
    )


def pulse_cubics(places: Sequence[float]) -> list[float]:
    """Return the cubic of each interval through the two pulses about it on either side.

    At the ends the cubic of the interval beside it is used; with fewer than four pulses, straight
    lines are.

    Args:
        places: Where the pulses are, in any unit; shape (n,).

    Returns:
        Four coefficients of each interval, of rising powers of how far into it, 0 to 1;
        shape (4 (n - 1),).

    Source:
        Newton's forward differences.

    Examples:
        >>> pulse_cubics([0.0, 1.0, 4.0, 9.0, 16.0])[4:8]
        [1.0, 2.0, 1.0, 0.0]
    """
    if len(places) < 4:
        return [c for a, b in pairwise(places) for c in (a, b - a, 0.0, 0.0)]
    found: list[float] = []
    for interval in range(len(places) - 1):
        base = min(max(interval - 1, 0), len(places) - 4)
        one, two, three, four = places[base : base + 4]
        first, second = two - one, three - 2.0 * two + one
        third = four - 3.0 * (three - two) - one
        shift = interval - base
        # u = shift + r in one + first u + second u (u - 1) / 2 + third u (u - 1) (u - 2) / 6
        found += [
            places[interval],
            first + second * (2 * shift - 1) / 2 + third * (3 * shift**2 - 6 * shift + 2) / 6,
            second / 2 + third * (shift - 1) / 2,
            third / 6,
        ]
    return found


def _faults(lengths: Sequence[float], times: Sequence[float]) -> Iterator[PulseFault]:
    for number, length in enumerate(lengths):
        before = lengths[max(number - NEIGHBOURS, 0) : number]
        after = lengths[number + 1 : number + 1 + NEIGHBOURS]
        sides = [median(side) for side in (before, after) if side]
        if not sides:
            return
        allowed = ALIKE
        if len(sides) == 1:
            even = max(before or after) <= ALIKE * min(before or after)
            allowed = ALIKE_AT_ENDS if even else math.inf
        low, high = min(sides), max(sides)
        if length > allowed * high:
            yield PulseFault(number, times[number], length / high, _long(length / high))
        elif length < low / allowed:
            yield PulseFault(number, times[number], length / low, "a pulse too many or early")


def _long(ratio: float) -> str:
    """Return what an interval of so many times its neighbours means."""
    missed = round(ratio) - 1
    if missed > 1:
        return f"{missed} pulses missed"
    return "a pulse missed" if missed else "a late pulse"
