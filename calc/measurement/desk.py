"""Desk: the one record that a page reads and asks about.

`begin` takes what a reader says of a file, `feed` one piece of it after the other, and `opened`
says what the record holds.  Frequencies are in Hz, times in s, rotor speeds in rad/s; samples and
amplitudes are in the unit of their channel and angles in rad.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from calc.measurement.reading.samples import Samples
from calc.measurement.reading.steadiness import speeds_of
from calc.measurement.record import Reader, Record, UnclearError, settings_of


@dataclass(slots=True)
class _Desk:
    """What lies on the desk: the reader of a file under way, and its record once it is whole."""

    reader: Reader | None = None
    record: Record | None = None
    told: int = 0


_DESK = _Desk()


def begin(settings: Mapping[str, Any] | None = None) -> None:
    """Begin a new record; what lay on the desk is dropped.

    Args:
        settings: Whatever the reader says of the file, all of it optional: `name`, `separator`,
            `decimal`, `header_lines`, `sample_rate` in Hz, `time_unit` (`s`, `ms`, `us`, `min`,
            `h`, `clock`), `pulses_per_revolution`, `threshold`, `edge` (`rising`, `falling`),
            `columns`: a list of objects with `index` from 0 and any of `role` (`time`, `channel`,
            `pulses`, `rotor_speed`, `skip`), `name`, `unit`.

    Raises:
        ValueError: If a setting is wrong.
    """
    _DESK.record, _DESK.told = None, 0
    _DESK.reader = Reader(settings_of(settings))


def feed(text: str, last: bool = False) -> dict[str, Any]:  # noqa: FBT001, FBT002 - from JSON
    """Take the next piece of the file.

    Args:
        text: The piece, of any length; it may end inside a line.
        last: Whether it is the last.

    Returns:
        `rows` read so far, `bad` rows among them, `problems` that are new (each `line`, `column`,
        `message`; column 0 is the whole line), `problem_count` of all, and `questions` (each
        `setting`, `text`, `choices`: pairs of value and words, none where the answer is a number),
        which end the reading until `begin` is called with an answer.

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


def opened() -> dict[str, Any]:
    """Return what the record holds.

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
