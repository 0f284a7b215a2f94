"""Coincidence map: how many meetings hold at each pair of two speeds.

A meeting holds over a range of one speed, so a row of the map needs no look at its cells: the ends
of each range are found by bisection among the speeds, one is added where it begins and taken away
where it ends, and a running sum gives the counts.  Ranges that do not depend on the other speed
are entered once for all rows.  The work is meetings times rows instead of meetings times cells.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate

from calc.harmonics.meetings import NONE, ROTOR, Meeting


def meeting_counts(
    found: Iterable[Meeting], rotor_speeds: Sequence[float], second_speeds: Sequence[float]
) -> list[list[int]]:
    """Return how many meetings hold, a row for each second speed, a column for each rotor speed.

    Args:
        found: Meetings, as `calc.harmonics.meetings.meetings` returns them.
        rotor_speeds: Rising; shape (n,), rad/s.
        second_speeds: Rising; shape (m,), rad/s.

    Returns:
        The counts; shape (m, n).

    Examples:
        >>> from calc.harmonics.meetings import Mode, Source, meetings
        >>> source = Source("rotor 2/rev", "rotor", 2.0)
        >>> met = meetings([source], [Mode("first mode", 12.0)], 0.1)
        >>> meeting_counts(met, [30.0, 36.0, 38.0, 42.0], [100.0])
        [[0, 1, 1, 0]]
    """
    columns = [0] * (len(rotor_speeds) + 1)
    rows = [0] * (len(second_speeds) + 1)
    wedges = []
    for meeting in found:
        if meeting.always:
            rows[0] += 1
        elif meeting.second.follows != NONE:
            wedges.append((meeting.low, meeting.high))
        elif meeting.first.follows == ROTOR:
            _enter(columns, rotor_speeds, meeting.low, meeting.high)
        else:
            _enter(rows, second_speeds, meeting.low, meeting.high)
    counts = []
    for speed, everywhere in zip(second_speeds, accumulate(rows), strict=False):
        steps = columns.copy()
        steps[0] += everywhere
        for low, high in wedges:
            steps[bisect_left(rotor_speeds, low * speed)] += 1
            steps[bisect_right(rotor_speeds, high * speed)] -= 1
        counts.append([*accumulate(steps[:-1])])
    return counts


def _enter(steps: list[int], speeds: Sequence[float], low: float, high: float) -> None:
    """Enter a range of speeds as a step up and a step down."""
    steps[bisect_left(speeds, low)] += 1
    steps[bisect_right(speeds, high)] -= 1
