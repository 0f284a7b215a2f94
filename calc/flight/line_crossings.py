"""Line crossings: when lines of rotor and propellers pass modes and one another in a history."""

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated, NamedTuple

from calc.declaration import Name, Table
from calc.harmonics.meetings import NONE, ROTOR, SECOND, Meeting, Mode, Source, meetings
from calc.harmonics.run_up import HEARD, NEAR, ORDER
from calc.quantity import Quantity
from calc.units import TIME

MOST = 200
"""Rows of the table; what comes later is only counted."""

ENTERED = Quantity("t_1", "Time at which the band is entered", TIME)
NEAREST = Quantity("t_c", "Time of the crossing or nearest approach", TIME)
LEFT = Quantity("t_2", "Time at which the band is left", TIME)
WHAT = Name("What comes together")
HOW = Name("How")
PASSES, COMES_NEAR = "crosses", "comes within the margin"


@dataclass(frozen=True, slots=True)
class LineCrossing:
    """Two lines within the margin during a history."""

    order: Annotated[int, ORDER]
    what: Annotated[str, WHAT]
    how: Annotated[str, HOW]
    entered: Annotated[float, ENTERED]
    time: Annotated[float, NEAREST]
    left: Annotated[float, LEFT]
    near: Annotated[float, NEAR]
    frequency: Annotated[float, HEARD]


COUNT = Quantity("n_v", f"Times that two lines are within the margin (the first {MOST} listed)")
LINE_CROSSINGS = Table("Lines within the margin, in order of time", LineCrossing)


class Speeds(NamedTuple):
    """Rotor and propeller speed at a time, in rad/s."""

    time: float
    rotor: float
    propeller: float


def line_crossings(
    speeds: Sequence[Speeds], sources: Sequence[Source], modes: Sequence[Mode], margin: float
) -> tuple[LineCrossing, ...]:
    r"""Return when two lines are within the margin of one another, in order of time.

    Each pair is a band of one speed, or of the ratio of both, as for avoid bands; the tolerance of
    a mode widens it.  Between two times the speeds are taken to change evenly.

    Args:
        speeds: Both speeds over time.
        sources: Excitations, and the shaft whose orders they are.
        modes: What can resonate.
        margin: Difference of two frequencies over their mean that is near; scalar.

    Returns:
        The times at which each pair is within its band, and where it crosses or is nearest.

    Source:
        `meetings`, the pairs of avoid bands.

    Examples:
        1/rev of a rotor that speeds up evenly from 4 to 6 turns a second in 20 s passes 5 Hz.

        >>> turns = Speeds(0.0, 8.0 * math.pi, 0.0), Speeds(20.0, 12.0 * math.pi, 0.0)
        >>> once, bend = (Source("1/rev", "rotor", 1.0),), (Mode("bending", 5.0),)
        >>> [(row.how, round(row.time, 9)) for row in line_crossings(turns, once, bend, 0.05)]
        [('crosses', 10.0)]
    """
    found = [
        row
        for meeting in meetings(sources, modes, margin)
        if not meeting.always
        for row in _rows(speeds, meeting)
    ]
    found.sort(key=lambda row: (row.entered, row.what))
    return tuple(LineCrossing(order, *row) for order, row in enumerate(found, 1))


class _Row(NamedTuple):
    """A row without its number."""

    what: str
    how: str
    entered: float
    time: float
    left: float
    near: float
    frequency: float


def _rows(speeds: Sequence[Speeds], meeting: Meeting) -> Iterator[_Row]:
    """Yield the visits of a pair to its band.

    How far the first speed is above the lower edge, below the upper edge and past the other line
    all change evenly between two times, whatever the second line follows.
    """
    exact = meeting.second.rate / meeting.first.rate
    pairs = [_pair(at, meeting) for at in speeds]
    above = [first - meeting.low * second for first, second in pairs]
    below = [meeting.high * second - first for first, second in pairs]
    past = [first - exact * second for first, second in pairs]
    spans: list[list[float]] = []
    for i in range(len(speeds) - 1):
        length = speeds[i + 1].time - speeds[i].time
        inside = _clipped(above[i : i + 2], below[i : i + 2])
        if inside is None or length <= 0.0:
            continue
        entered, left = (speeds[i].time + share * length for share in inside)
        if spans and math.isclose(entered, spans[-1][1], rel_tol=1e-9, abs_tol=1e-9):
            spans[-1][1] = left
        else:
            spans.append([entered, left])
    times = [at.time for at in speeds]
    rates = [meeting.first.rate * first for first, _ in pairs]
    for entered, left in spans:
        time, count = _nearest(times, past, entered, left)
        yield _Row(
            f"{meeting.first.name} and {meeting.second.name}",
            _how(count),
            entered,
            time,
            left,
            left - entered,
            _between(times, rates, time),
        )


def _how(count: int) -> str:
    """Return in words how often two lines cross in a visit."""
    if count > 1:
        return f"{PASSES} {count} times, first then"
    return PASSES if count else COMES_NEAR


def _pair(at: Speeds, meeting: Meeting) -> tuple[float, float]:
    """Return the speed of the first line's shaft, and that of the second's or 1."""
    own = {ROTOR: at.rotor, SECOND: at.propeller, NONE: 1.0}
    return own[meeting.first.follows], own[meeting.second.follows]


def _clipped(above: Sequence[float], below: Sequence[float]) -> tuple[float, float] | None:
    """Return between which shares of a step two evenly changing numbers are not negative."""
    low, high = 0.0, 1.0
    for first, last in (above, below):
        if first < 0.0 and last < 0.0:
            return None
        if first < 0.0:
            low = max(low, first / (first - last))
        elif last < 0.0:
            high = min(high, first / (first - last))
    return (low, high) if low <= high else None


def _nearest(
    times: Sequence[float], past: Sequence[float], entered: float, left: float
) -> tuple[float, int]:
    """Return when two lines first cross in a visit, or are nearest, and how often they cross."""
    inner = [time for time in times if entered < time < left]
    places = [(time, _between(times, past, time)) for time in (entered, *inner, left)]
    crossed = [
        time + value / (value - other) * (then - time)
        for (time, value), (then, other) in pairwise(places)
        if value * other < 0.0 or (value == 0.0 != other)
    ]
    nearest = min(places, key=lambda place: abs(place[1]))[0]
    return (crossed[0], len(crossed)) if crossed else (nearest, 0)


def _between(times: Sequence[float], values: Sequence[float], time: float) -> float:
    """Return a value that changes evenly between times."""
    i = min(max(bisect_right(times, time) - 1, 0), len(times) - 2)
    length = times[i + 1] - times[i]
    share = (time - times[i]) / length if length else 0.0
    return values[i] + share * (values[i + 1] - values[i])
