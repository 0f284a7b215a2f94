"""Coincidence grid: the coincidence map by numpy, cell by cell, while the site is built."""

from collections.abc import Iterable, Sequence

import numpy as np

from calc.harmonics.meetings import NONE, ROTOR, Meeting


def grid_counts(
    found: Iterable[Meeting], rotor_speeds: Sequence[float], second_speeds: Sequence[float]
) -> list[list[int]]:
    """Return how many meetings hold, a row for each second speed, a column for each rotor speed.

    Every cell is asked whether it lies in each range, which is another way than that of
    `calc.harmonics.coincidence_map`, with the same arguments and the same result.

    Args:
        found: Meetings, as `calc.harmonics.meetings.meetings` returns them.
        rotor_speeds: Rising; shape (n,), rad/s.
        second_speeds: Rising; shape (m,), rad/s.

    Returns:
        The counts; shape (m, n).
    """
    rotor = np.array(rotor_speeds)[np.newaxis, :]
    second = np.array(second_speeds)[:, np.newaxis]
    counts = np.zeros((len(second_speeds), len(rotor_speeds)), dtype=int)
    for meeting in found:
        if meeting.always:
            counts += 1
            continue
        speed = rotor if meeting.first.follows == ROTOR else second
        scale = second if meeting.second.follows != NONE else 1.0
        counts += (meeting.low * scale <= speed) & (speed <= meeting.high * scale)
    rows: list[list[int]] = counts.tolist()
    return rows
