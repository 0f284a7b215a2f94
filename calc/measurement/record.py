"""Record: a file of a logger read piece by piece, with whatever is odd in it named."""

import math
import re
from dataclasses import dataclass

from calc.measurement.reading.cells import unit_of
from calc.measurement.reading.notices import Spread, notices_of, spread
from calc.measurement.reading.pieces import Pieces
from calc.measurement.reading.pulses import doubtful, pulses_of, pulses_of_speed
from calc.measurement.reading.rows import Problem, Rows, time_scale
from calc.measurement.reading.samples import Samples, array, bridged, is_known
from calc.measurement.reading.settings import Settings, UnclearError, settings_of
from calc.measurement.reading.steadiness import speeds_of, unsteady
from calc.measurement.reading.time_axis import Edit, time_axis
from calc.units import ONE, RPM

__all__ = ["Channel", "Problem", "Reader", "Record", "Settings", "UnclearError", "settings_of"]

_LAST_DIGITS = re.compile(
    r"(?:[.,](\d*))?(?:[eE]([-+]?\d{1,2}))?\s*(?:[AP]M|Z)?\s*$", re.IGNORECASE
)
FEWEST = 8
"""A record has at least so many rows."""
FEWEST_PULSES = 3
UNMARKED = (
    "with several pulses a revolution the zero of the phases is open: it may be another pulse in "
    "another record."
)
RATES_DIFFER = 1e-3
"""From this relative difference a typed sample rate and the time column contradict one another."""


@dataclass(frozen=True, slots=True)
class Channel:
    """A channel as it stands in the file; gaps are NaN.

    `quantity` is acceleration, velocity, displacement, rotor_speed or empty; a sample times `size`
    is in the SI unit.
    """

    name: str
    unit: str
    quantity: str
    size: float
    samples: Samples
    spread: Spread


@dataclass(frozen=True, slots=True)
class Record:
    """Equally spaced samples of several channels.

    `sample_rate` in Hz, `start` in s.  `pulse_times` in s are those of `pulse_channel`, or the full
    revolutions of `speed_channel`, which have no angle to count from; None where there is neither.
    `problems` has the first problems in words, `problem_count` counts all.
    """

    name: str
    sample_rate: float
    start: float
    channels: tuple[Channel, ...]
    pulse_times: Samples | None
    pulses_per_revolution: int
    pulse_channel: str | None
    speed_channel: str | None
    notices: tuple[str, ...]
    problems: tuple[Problem, ...]
    problem_count: int
    bad_rows: int

    def __len__(self) -> int:
        """Return how many samples each channel has."""
        return len(self.channels[0].samples)

    @property
    def has_angle(self) -> bool:
        """Whether the pulses mark a direction of the shaft, so that phases can be told."""
        return self.pulse_channel is not None

    @property
    def duration(self) -> float:
        """Length of the record; scalar, s."""
        return len(self) / self.sample_rate

    def channel(self, name: str) -> Channel:
        """Return a channel by its name.

        Raises:
            ValueError: If there is none of that name.
        """
        for channel in self.channels:
            if channel.name == name:
                return channel
        raise ValueError(f"The record has no channel {name}")


class Reader(Pieces):
    r"""Reads a file that comes in pieces of any length.

    Examples:
        >>> reader = Reader()
        >>> lines = [f"{n / 100},{n % 4}\n" for n in range(100)]
        >>> reader.feed("Time [s],Mast x [g]\n" + "".join(lines))
        >>> record = reader.finish()
        >>> record.sample_rate, [(one.name, one.unit) for one in record.channels]
        (100.0, [('Mast x', 'g')])
    """

    def finish(self) -> Record:
        """Take what is left and return the record.

        Raises:
            UnclearError: If the file has two meanings, with what must be asked.
            ValueError: If it has no rows of numbers or too few, or no channel.
        """
        return record_of(self.close(), self.settings)


def record_of(rows: Rows, settings: Settings) -> Record:
    """Return the record that rows make.

    Raises:
        ValueError: If there are too few rows or no channel.
    """
    if len(rows) < FEWEST:
        raise ValueError(f"A record needs at least {FEWEST} rows of numbers; {len(rows)} were read")
    rate, start, edits, notices = _timed(rows, settings)
    columns = dict(zip(rows.kept, rows.columns, strict=True))
    channels: dict[str, Channel] = {}
    roles: dict[str, Channel] = {}
    for column in rows.layout.columns:
        if column.role in {"skip", "time"}:
            continue
        what, size = unit_of(column.unit) or ("", ONE)
        if (what == "rotor_speed") != (column.role == "rotor_speed"):
            what, size = ("rotor_speed", RPM) if column.role == "rotor_speed" else ("", ONE)
        samples = _edited(columns[column.index], edits)
        channel = Channel(column.name, column.unit, what, size.size, samples, spread(samples))
        channels[channel.name] = roles[column.role] = channel
        if column.role == "channel":
            notices += notices_of(channel.name, channel.unit, samples, channel.spread, start, rate)
    if not channels:
        raise ValueError("This file has no channel beside time")
    pulses, speed = roles.get("pulses"), roles.get("rotor_speed")
    times, told = (
        _turn_times(speed, rate, start)
        if pulses is None
        else _pulse_times(pulses, rate, start, settings)
    )
    per_turn = 1 if pulses is None else settings.pulses_per_revolution
    if times is not None and len(times) > FEWEST_PULSES:
        words = unsteady(speeds_of(times, per_turn, rate)[1])
        told += [words] if words else []
    return Record(
        name=settings.name,
        sample_rate=rate,
        start=start,
        channels=tuple(channels.values()),
        pulse_times=times,
        pulses_per_revolution=per_turn,
        pulse_channel=pulses.name if pulses else None,
        speed_channel=speed.name if speed else None,
        notices=(*notices, *told),
        problems=tuple(rows.problems),
        problem_count=rows.problem_count,
        bad_rows=rows.bad_rows,
    )


def _timed(rows: Rows, settings: Settings) -> tuple[float, float, tuple[Edit, ...], list[str]]:
    """Return sample rate, start, the rows in order and what was noticed of time."""
    shape = rows.layout
    if rows.timed < 0:
        assert shape.sample_rate is not None
        return shape.sample_rate, 0.0, (Edit(0, 0, len(rows)),), []
    times, size = rows.columns[rows.kept.index(rows.timed)], time_scale(shape)
    times = times if size == 1.0 else array("d", (size * time for time in times))
    axis = time_axis(times, _resolution(rows), rows.line_of)
    notices = [*axis.notices]
    stated = shape.sample_rate
    if stated is not None and abs(axis.sample_rate / stated - 1.0) > RATES_DIFFER:
        notices.append(
            f"A sample rate of {stated:.6g} Hz is {'typed' if settings.sample_rate else 'stated'} "
            f"and the time column gives {axis.sample_rate:.6g} Hz: one of them is wrong, and all "
            f"frequencies with it. The {'typed one' if settings.sample_rate else 'column'} is used."
        )
    return settings.sample_rate or axis.sample_rate, axis.start, axis.edits, notices


def _edited(values: Samples, edits: tuple[Edit, ...]) -> Samples:
    if edits == (Edit(0, 0, len(values)),):
        return values
    found = array("d")
    for edit in edits:
        found.extend(array("d", [math.nan]) * edit.missing)
        found.extend(values[edit.first : edit.last])
    return found


def _resolution(rows: Rows) -> float:
    """Return the last printed digit of the times in s; with exponents, that of the longest time."""
    places, powers = 0, 0
    for text in rows.layout.columns[rows.timed].first:
        if (found := _LAST_DIGITS.search(text)) is not None:
            places = max(places, len(found[1] or ""))
            if found[2]:
                last = rows.columns[rows.kept.index(rows.timed)][-FEWEST:]
                largest = max(filter(is_known, map(abs, last)), default=0.0)
                powers = math.floor(math.log10(largest or 1.0))
    return 10.0 ** (powers - places) * time_scale(rows.layout)


def _pulse_times(
    channel: Channel, rate: float, start: float, settings: Settings
) -> tuple[Samples | None, list[str]]:
    """Return the pulses of a tachometer channel and what is to be said of them."""
    found = pulses_of(channel.samples, channel.spread, rate, start, settings)
    level = f"{found.level:.4g} {channel.unit}".rstrip()
    if len(found.times) < FEWEST_PULSES:
        return None, [f"{channel.name}: too few pulses pass {level}."]
    told = (
        f"{len(found.times)} pulses at {level}, {found.edge} edge, "
        f"{settings.pulses_per_revolution} a revolution."
    )
    unmarked = [UNMARKED] if settings.pulses_per_revolution > 1 else []
    said = (told, *unmarked, *doubtful(found.times))
    return found.times, [f"{channel.name}: {text}" for text in said]


def _turn_times(
    channel: Channel | None, rate: float, start: float
) -> tuple[Samples | None, list[str]]:
    """Return the full revolutions of a channel of rotor speed and what is to be said of them."""
    if channel is None or channel.spread.gaps == len(channel.samples):
        return None, []
    speeds = array("d", (channel.size * value for value in bridged(channel.samples)))
    if not 0.0 <= min(speeds) <= max(speeds) < math.pi * rate:
        return None, [f"{channel.name}: below zero or above half the sample rate; not used."]
    told = "revolutions are counted from it; phases have no direction to count from."
    return pulses_of_speed(speeds, rate, start), [f"{channel.name}: {told}"]
