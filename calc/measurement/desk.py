"""Desk: the one record that a page reads and asks about; every answer is plain JSON.

A page calls `guess` with the beginning of a file, `begin` with what its reader says of it, `feed`
with one piece after the other, and then `opened` and the views.  Frequencies are in Hz, times in s,
rotor speeds in rad/s; samples and amplitudes are in the unit of their channel and angles in rad.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from calc.measurement.reading.layout import layout
from calc.measurement.reading.samples import Samples
from calc.measurement.reading.steadiness import speeds_of
from calc.measurement.record import (
    Reader,
    Record,
    UnclearError,
    record_of,
    settings_of,
)
from calc.measurement.synthetic import example

__all__ = ["begin", "example", "feed", "guess", "history", "opened"]

POINTS = 2000
"""A view has at most so many points."""


@dataclass(slots=True)
class _Desk:
    """What lies on the desk: the reader of a file under way, and its record once it is whole."""

    reader: Reader | None = None
    record: Record | None = None
    told: int = 0


_DESK = _Desk()


def guess(
    text: str, settings: Mapping[str, Any] | None = None, *, whole: bool = False
) -> dict[str, Any]:
    """Return what the beginning of a file seems to hold, and what must be asked.

    Args:
        text: The beginning of a file; its last line may be cut short.
        settings: What the reader has said already, as for `begin`.
        whole: Whether the text is the whole file.

    Returns:
        `separator`, `decimal`, `header_lines`, `time_unit` (a key, `clock`, or empty without a time
        column), `sample_rate` (typed, or stated in the heading, or None), `columns` (each `index`
        from 0, `name`, `unit`, `role`, `first`: the texts of three rows), and `questions` (each
        `setting`, `text`, `choices`: pairs of value and words, none where the
        answer is a number).

    Raises:
        ValueError: If there are no rows of numbers.
    """
    found = layout(text, settings_of(settings), whole=whole)
    return {
        "separator": found.separator,
        "decimal": found.decimal,
        "header_lines": found.header_lines,
        "time_unit": found.time_unit,
        "sample_rate": found.sample_rate,
        "columns": found.columns,
        "questions": found.questions,
    }


def begin(settings: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """Begin a new record; what lay on the desk is dropped.

    Args:
        settings: Whatever the reader says of the file, all of it optional: `name`, `separator`,
            `decimal`, `header_lines`, `sample_rate` in Hz, `time_unit` (`s`, `ms`, `us`, `min`,
            `h`, `clock`), `pulses_per_revolution`, `threshold`, `edge` (`rising`, `falling`),
            `columns`: a list of objects with `index` from 0 and any of `role` (`time`, `channel`,
            `pulses`, `rotor_speed`, `skip`), `name`, `unit`.

    Returns:
        Nothing but an empty object.

    Raises:
        ValueError: If a setting is wrong.
    """
    _DESK.record, _DESK.told = None, 0
    _DESK.reader = Reader(settings_of(settings))
    return {}


def feed(text: str, last: bool = False) -> dict[str, Any]:  # noqa: FBT001, FBT002 - from JSON
    """Take the next piece of the file.

    Args:
        text: The piece, of any length; it may end inside a line.
        last: Whether it is the last.

    Returns:
        `rows` read so far, `bad` rows among them, `problems` that are new (each `line`, `column`,
        `message`; column 0 is the whole line), `problem_count` of all, and `questions` (as for
        `guess`), which end the reading until `begin` is called with an answer.

    Raises:
        ValueError: If the file cannot be read, in words for the reader.
    """
    reader = _DESK.reader
    if reader is None:
        raise ValueError("No file is being read")
    questions: Sequence[Any] = ()
    try:
        reader.feed(text)
        if last:
            _DESK.record = reader.finish()
    except UnclearError as unclear:
        questions = unclear.questions
        _DESK.reader = None
    rows = reader.rows
    problems = rows.problems[_DESK.told :] if rows else []
    _DESK.told += len(problems)
    return {
        "rows": len(rows) if rows else 0,
        "bad": rows.bad_rows if rows else 0,
        "problems": problems,
        "problem_count": rows.problem_count if rows else 0,
        "questions": questions,
    }


def opened(settings: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """Return what the record holds.

    Args:
        settings: As for `begin`, where pulses or a typed sample rate are changed after reading.

    Returns:
        `name`, `rows`, `bad`, `problems`, `problem_count`, `sample_rate`, `start`, `duration`,
        `notices` (texts), `channels` (each `index` from 0, `name`, `unit`, `quantity`:
        acceleration, velocity, displacement, rotor_speed or empty, `size`: SI units in one of the
        unit, `minimum`, `maximum`, `mean`, `rms` of what varies about the mean, `gaps`), `pulses`
        (how many, 0 for none), `has_angle` (whether phases count from a pulse), and `rotor_speed`
        (`low`, `high`, `mean`) or None.

    Raises:
        ValueError: If no record is open.
    """
    if settings is not None and _DESK.reader is not None and _DESK.reader.rows is not None:
        _DESK.record = record_of(_DESK.reader.rows, settings_of(settings))
    record = the_record()
    return {
        "name": record.name,
        "rows": len(record),
        "bad": record.bad_rows,
        "problems": record.problems,
        "problem_count": record.problem_count,
        "sample_rate": record.sample_rate,
        "start": record.start,
        "duration": record.duration,
        "notices": record.notices,
        "channels": [
            {
                "index": index,
                "name": channel.name,
                "unit": channel.unit,
                "quantity": channel.quantity,
                "size": channel.size,
                "minimum": channel.spread.minimum,
                "maximum": channel.spread.maximum,
                "mean": channel.spread.mean,
                "rms": channel.spread.rms,
                "gaps": channel.spread.gaps,
            }
            for index, channel in enumerate(record.channels)
        ],
        "pulses": 0 if record.pulse_times is None else len(record.pulse_times),
        "has_angle": record.has_angle,
        "rotor_speed": speed_range(record),
    }


def history(
    channel: str, begin: float | None = None, end: float | None = None, points: int = 600
) -> dict[str, Any]:
    """Return a channel over time, with the least and the greatest value of each short span.

    Args:
        channel: Its name.
        begin: From this time in s, or from the start.
        end: To this time in s, or to the end.
        points: So many spans at most.

    Returns:
        `unit`, and `spans`: rows of time in the middle, least and greatest value; spans without a
        value are left out.  Where there are few samples each is a span of its own.

    Raises:
        ValueError: If there is no such channel, or no sample between the times.
    """
    record = the_record()
    samples, first = stretch(record, channel, begin, end)
    step = max(1, math.ceil(len(samples) / min(max(points, 10), POINTS)))
    spans = []
    for row in range(0, len(samples), step):
        some = samples[row : row + step]
        known = [value for value in some if not math.isnan(value)]
        if known:
            middle = record.start + (first + row + 0.5 * (len(some) - 1)) / record.sample_rate
            spans.append((middle, min(known), max(known)))
    return {"unit": record.channel(channel).unit, "spans": spans}


def the_record() -> Record:
    """Return the record that is open.

    Raises:
        ValueError: If there is none.
    """
    if _DESK.record is None:
        raise ValueError("No record is open: choose a file first")
    return _DESK.record


def stretch(
    record: Record, channel: str, begin: float | None, end: float | None
) -> tuple[Samples, int]:
    """Return the samples of a channel between two times, and the index of the first.

    Raises:
        ValueError: If there is no such channel, or no sample between the times.
    """
    samples = record.channel(channel).samples
    rate = record.sample_rate
    first = 0 if begin is None else max(0, math.ceil((begin - record.start) * rate - 1e-6))
    last = (
        len(samples)
        if end is None
        else min(len(samples), math.floor((end - record.start) * rate + 1e-6) + 1)
    )
    if first >= last:
        raise ValueError("There is no sample between these times")
    return samples[first:last], first


def speed_range(record: Record) -> dict[str, float] | None:
    """Return lowest, highest and mean rotor speed in rad/s, or None where none was measured."""
    if record.speed_channel is not None:
        channel = record.channel(record.speed_channel)
        size, found = channel.size, channel.spread
        if found.gaps < len(channel.samples):
            ends = {"low": found.minimum, "high": found.maximum, "mean": found.mean}
            return {key: size * value for key, value in ends.items()}
    times = record.pulse_times
    if times is None or len(times) < 2:
        return None
    mean, speeds = speeds_of(times, record.pulses_per_revolution, record.sample_rate)
    return {"low": min(speeds), "high": max(speeds), "mean": mean}
