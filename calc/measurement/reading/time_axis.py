"""Time axis: the sample rate that a time column gives, and the rows it lacks or has too many."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import islice, pairwise, repeat
from operator import mul, sub

from calc.measurement.reading.samples import Samples, array, places

IRREGULAR = 0.05
"""From this share of steps that are not one sample long a record is not equally sampled."""
LOOK = 50
"""So many rows are looked at for the next time that can be trusted."""
SAMPLED = 20_000
"""So many times give the sample rate of a long record."""
DAY = 86400.0
NAMED = 5
"""So many places of a kind are named; all are counted."""


@dataclass(frozen=True, slots=True)
class Edit:
    """Rows of the file from `first` to before `last`, preceded by `missing` that it lacks."""

    missing: int
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class TimeAxis:
    """Sample rate in Hz, first time in s, the rows in order, and what was noticed."""

    sample_rate: float
    start: float
    edits: tuple[Edit, ...]
    notices: tuple[str, ...]


def time_axis(times: Samples, resolution: float, line_of: Callable[[int], int]) -> TimeAxis:
    """Return the sample rate and the order of rows of a time column.

    Steps of one sample, as well as their print shows them, give the sample rate.  Where a step is
    several samples long rows are missing; a repeated time is a row too many; where a time is out
    of line and the next ones fit, the time is wrong and not the row.  Where time starts anew, or
    so much is missing that it would outweigh the rest, the longest part is kept.

    Args:
        times: The time column; shape (n,), s.
        resolution: The last printed digit of the times; scalar, s.
        line_of: Gives the line of the file of a row.

    Raises:
        ValueError: If fewer than three times rise.
    """
    steps = array("d", map(sub, islice(times, 1, None), times))
    if min(steps, default=0.0) < -0.9 * DAY:
        times = _over_midnight(times, steps)
        steps = array("d", map(sub, islice(times, 1, None), times))
    step = _typical(steps, resolution)
    margin = 0.4 * step + 1.01 * resolution
    odd: list[int] = []
    if not (
        math.isfinite(sum(times)) and step - margin <= min(steps) <= max(steps) <= step + margin
    ):
        away = array("d", map(abs, map(sub, steps, repeat(step))))
        odd = sorted({*places(away, margin.__lt__), *places(steps, math.isnan)})
    if len(odd) > max(LOOK, IRREGULAR * len(steps)):
        begun, ended = _ends(times)
        step = (ended[1] - begun[1]) / (ended[0] - begun[0])
        notice = (
            f"The times are not equally spaced: {len(odd)} of {len(steps)} steps differ from the "
            "usual one. The rows are taken as equally spaced; no line of a spectrum can be trusted."
        )
        return TimeAxis(1.0 / step, times[0], (Edit(0, 0, len(times)),), (notice,))
    rate = _rate(times, odd, resolution)
    step = 1.0 / rate
    parts, told = _walk(times, odd, step, line_of)
    longest = max(parts, key=lambda part: part[-1].last - part[0].first)
    notices = told.words()
    if len(parts) > 1:
        others = [_lines(part, line_of) for part in parts if part is not longest]
        notices.append(
            f"Time starts anew or is interrupted: the longest part, {_lines(longest, line_of)}, is "
            f"read. Left out: {_some(others)}. To read another part, cut the file there."
        )
    first = longest[0].first
    begin = times[first] if math.isfinite(times[first]) else 0.0
    return TimeAxis(rate, begin, tuple(longest), tuple(notices))


class _Told:
    """What was found, by kind."""

    def __init__(self) -> None:
        self.gaps: list[str] = []
        self.missing = 0
        self.repeated: list[str] = []
        self.wrong: list[str] = []

    def words(self) -> list[str]:
        """Return what was found in sentences."""
        found = []
        if self.gaps:
            found.append(
                f"{_count(len(self.gaps), 'gap')} in time, {_count(self.missing, 'sample')} "
                f"missing: {_some(self.gaps)}. Gaps are left in their place."
            )
        if self.repeated:
            found.append(
                f"{_count(len(self.repeated), 'time')} repeated; the rows too many are left out: "
                f"{_some(self.repeated)}."
            )
        if self.wrong:
            found.append(
                f"{_count(len(self.wrong), 'time')} out of line; the rows are kept at the times "
                f"of their neighbours: {_some(self.wrong)}."
            )
        return found


def _walk(
    times: Samples, odd: Sequence[int], step: float, line_of: Callable[[int], int]
) -> tuple[list[list[Edit]], _Told]:
    """Return the parts of a record, each a list of edits, and what was found between them."""
    told = _Told()
    parts: list[list[Edit]] = [[]]
    strange = set(odd)
    begun, missing = 0, 0  # of the stretch of rows that is growing
    at = 0
    room = len(times)
    for row in odd:
        if row < at:
            continue
        after = _anchor(times, row, strange)
        many = round((times[after] - times[row]) / step) if after else 0
        between = after - row - 1
        lacking = many - 1 - between
        if not after or lacking > room:
            parts[-1].append(Edit(missing, begun, row + 1))
            parts.append([])
            begun, missing, at = row + 1, 0, row + 1
            continue
        at = after
        line = f"line {line_of(row + 1)}"
        if lacking > 0:
            told.gaps.append(f"{lacking * step:.4g} s before line {line_of(after)}")
            told.missing += lacking
            room -= lacking
            parts[-1].append(Edit(missing, begun, row + 1))
            begun, missing = row + 1, lacking
        elif lacking < 0:
            parts[-1].append(Edit(missing, begun, row + 1))
            begun, missing = row + 1 - lacking, 0
            told.repeated.append(line)
        elif between:
            told.wrong.append(line)
    parts[-1].append(Edit(missing, begun, len(times)))
    return parts, told


def _anchor(times: Samples, row: int, strange: set[int]) -> int:
    """Return the next row whose time can be trusted, or 0."""
    last = len(times) - 1
    for after in range(row + 1, min(row + LOOK, last) + 1):
        if times[after] >= times[row] and (after == last or after not in strange):
            return after
    return 0


def _over_midnight(times: Samples, steps: Samples) -> Samples:
    """Return times that go on after midnight."""
    drops = [row + 1 for row in places(steps, (-0.9 * DAY).__ge__) if times[row] <= DAY]
    if len(drops) != 1:
        return times
    return array("d", [*times[: drops[0]], *(time + DAY for time in times[drops[0] :])])


def _typical(steps: Samples, resolution: float) -> float:
    """Return the usual step: the middle one, or the mean where the print is coarse."""
    some = sorted(filter(math.isfinite, steps[:: max(1, len(steps) // SAMPLED)]))
    rising = [value for value in some if value > 0.0]
    if len(rising) < 2:
        raise ValueError("The times of this file do not rise: type its sample rate")
    middle = rising[len(rising) // 2]
    near = [value for value in some if 0.0 <= value <= 3.0 * max(middle, resolution)]
    return math.fsum(near) / len(near) if resolution > 0.2 * middle else middle


def _rate(times: Samples, odd: Sequence[int], resolution: float) -> float:
    """Return the sample rate of the longest stretch of even steps: a straight line through it.

    A rate of fewer digits is taken where the print of the times cannot tell it from that.
    """
    ends = (-1, *odd, len(times) - 1)
    first, last = max(pairwise(ends), key=lambda pair: pair[1] - pair[0])
    every = max(1, (last - first) // SAMPLED)
    some = times[first + 1 : last + 1 : every]
    count, begin = len(some), some[0]
    shifted = array("d", map(sub, some, repeat(begin)))
    moment = sum(map(mul, range(count), shifted)) - 0.5 * (count - 1) * sum(shifted)
    rate = every * count * (count * count - 1) / 12.0 / moment
    unsure = 2e-9 + 4.0 * resolution * rate / every / count**1.5
    rounded = (float(f"{rate:.{digits}g}") for digits in range(2, 9))
    return next((near for near in rounded if abs(near - rate) <= unsure * rate), rate)


def _ends(times: Samples) -> tuple[tuple[int, float], tuple[int, float]]:
    known = [(row, time) for row, time in enumerate(times) if math.isfinite(time)]
    return known[0], known[-1]


def _lines(part: Sequence[Edit], line_of: Callable[[int], int]) -> str:
    first, last = line_of(part[0].first), line_of(part[-1].last - 1)
    return f"line {first}" if first == last else f"lines {first} to {last}"


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _some(places: Sequence[str]) -> str:
    more = len(places) - NAMED
    return ", ".join(places[:NAMED]) + (f" and {more} more" if more > 0 else "")
