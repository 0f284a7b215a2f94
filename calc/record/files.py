"""Files: what a record holds as CSV, by name; the same bytes each time."""

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, repeat
from operator import sub
from statistics import median
from typing import Any, NamedTuple

from calc import VERSION
from calc.measurement.attribution import MeasuredPeak, ReadSpectrum, measured_peaks
from calc.measurement.orders import order_components
from calc.measurement.peaks import peaks_in
from calc.measurement.reading.samples import Samples, array, bridged
from calc.measurement.record import Channel, Reader, Record, settings_of
from calc.measurement.spectrum import Peak, amplitude_spectrum
from calc.record.expected import expected
from calc.record.explained import check_steady
from calc.record.look import speed_of
from calc.sheet.exchange import held
from calc.sheet.sheet import Sheet
from calc.spreadsheet import rows_of

__all__ = ["Beside", "Reader", "reader_of", "record_files"]

INDEX, EXPLAINED = "index.csv", "explained.csv"
ORDERS = tuple(map(float, range(1, 21)))
"""Orders that are given, as far as the sample rate reaches."""
REACH = 0.45
"""An order is given up to this share of the sample rate."""
ABOVE_NOISE = 8.0
"""A peak is so many times as high as the middle line of its spectrum, which noise seldom is."""
MOST_PEAKS = 40
"""So many peaks of a channel are listed, the largest."""

Row = Sequence[str]


def reader_of(settings: Mapping[str, Any]) -> Reader:
    """Return a reader of a record with settings as a page or a command sends them.

    Raises:
        ValueError: If a setting is wrong.
    """
    return Reader(settings_of(settings))


@dataclass(frozen=True, slots=True)
class _Lines:
    """A channel with its samples less their mean, and the lines and peaks of these."""

    channel: Channel
    samples: Samples
    frequencies: Sequence[float]
    amplitudes: Sequence[float]
    peaks: Sequence[Peak]


class Beside(NamedTuple):
    """A data sheet whose drive train stands beside a record, and the SHA-256 of its file."""

    sheet: Sheet
    digest: str


def record_files(
    record: Record, digest: str, window: str = "hann", beside: Beside | None = None
) -> dict[str, str]:
    """Return the files of a record, by name.

    Spectra are of the whole record with its mean taken off, in peak values; straight lines bridge
    gaps.  Phases are leads at the first sample, in `orders.csv` at the pulse.

    Args:
        record: A record.
        digest: The SHA-256 of the file that it came from, in hexadecimal digits.
        window: Of the spectra; word.
        beside: A data sheet whose drive train explains the peaks; None for none.

    Returns:
        `notices.csv`, `channels.csv`, `spectrum.csv`, `peaks.csv`, `orders.csv` where revolutions
        are known, `explained.csv` where a drive train is given, and `index.csv` with the SHA-256
        of all others.

    Raises:
        ValueError: If there is no such window, or no channel of vibration.
    """
    lines = [
        _lines(record, channel, window)
        for channel in record.channels
        if channel.name not in {record.pulse_channel, record.speed_channel}
        and channel.spread.maximum > channel.spread.minimum
    ]
    if not lines:
        raise ValueError("The record has no channel that varies")
    found = {
        "channels.csv": _text(_channels(record)),
        "spectrum.csv": _text(_spectra(lines)),
        "peaks.csv": _text(_peaks(lines)),
    }
    notices = [*record.notices]
    if record.pulse_times is not None:
        try:
            found["orders.csv"] = _text(_orders(record, lines))
        except ValueError as error:
            notices.append(f"No orders: {error}")
    if beside is not None:
        try:
            found[EXPLAINED] = _text(_explained(record, lines, beside.sheet, notices))
        except ValueError as error:
            notices.append(f"No peaks explained: {error}")
    found["notices.csv"] = _text(_notices(record, notices))
    hashes = [[name, hashlib.sha256(found[name].encode()).hexdigest()] for name in sorted(found)]
    head = [["file", "sha256"], ["record", digest], ["handbook", VERSION], ["window", window]]
    head += [["sheet", beside.digest]] if beside else []
    return {**found, INDEX: _text([*head, *hashes])}


def _lines(record: Record, channel: Channel, window: str) -> _Lines:
    whole = bridged(channel.samples)
    varies = array("d", map(sub, whole, repeat(channel.spread.mean)))
    found = amplitude_spectrum(varies, record.sample_rate, window)
    threshold = ABOVE_NOISE * median(found.amplitudes) or max(found.amplitudes) / 2.0
    peaks = peaks_in(found, len(varies), threshold, window)
    largest = sorted(peaks, key=lambda peak: -peak.amplitude)[:MOST_PEAKS]
    ordered = sorted(largest, key=lambda peak: peak.frequency)
    return _Lines(channel, varies, found.frequencies, found.amplitudes, ordered)


def _notices(record: Record, notices: Sequence[str]) -> Iterator[Row]:
    yield ["kind", "line", "column", "text"]
    for text in notices:
        yield ["notice", "", "", text]
    for problem in record.problems:
        place = str(problem.column) if problem.column else ""
        yield ["problem", str(problem.line), place, problem.message]
    more = record.problem_count - len(record.problems)
    if more:
        yield ["problem", "", "", f"{more} more of such places"]


def _channels(record: Record) -> Iterator[Row]:
    yield ["channel", "unit", "quantity", "minimum", "maximum", "mean", "rms about mean", "gaps"]
    for one in record.channels:
        values = (one.spread.minimum, one.spread.maximum, one.spread.mean, one.spread.rms)
        yield [one.name, one.unit, one.quantity, *map(repr, values), str(one.spread.gaps)]
    for what, unit, value in (
        ("sample rate", "Hz", record.sample_rate),
        ("start", "s", record.start),
        ("duration", "s", record.duration),
    ):
        yield [what, unit, "", "", "", repr(value), "", ""]


def _spectra(lines: Sequence[_Lines]) -> Iterator[Row]:
    titles = (f"{one.channel.name} ({one.channel.unit}, peak)" for one in lines)
    yield ["frequency (Hz)", *titles]
    for frequency, *amplitudes in zip(
        lines[0].frequencies, *(one.amplitudes for one in lines), strict=True
    ):
        yield [f"{frequency:.10g}", *(f"{amplitude:.6g}" for amplitude in amplitudes)]


def _peaks(lines: Sequence[_Lines]) -> Iterator[Row]:
    yield ["channel", "unit", "frequency (Hz)", "amplitude (peak)", "phase (rad)"]
    for one in lines:
        for peak in one.peaks:
            values = (peak.frequency, peak.amplitude, peak.phase)
            yield [one.channel.name, one.channel.unit, *(f"{value:.8g}" for value in values)]


def _orders(record: Record, lines: Sequence[_Lines]) -> Iterator[Row]:
    assert record.pulse_times is not None
    pulses = [time - record.start for time in record.pulse_times]
    fastest = min(after - before for before, after in pairwise(pulses))
    highest = REACH * record.sample_rate * fastest * record.pulses_per_revolution
    orders = [order for order in ORDERS if order <= highest]
    rows = [["channel", "unit", "order", "amplitude (peak)", "phase (rad)"]]
    for one in lines:
        found = order_components(
            one.samples, record.sample_rate, pulses, orders, record.pulses_per_revolution
        )
        for part in found:
            phase = f"{part.phase:.8g}" if record.has_angle else ""
            values = (f"{part.order:g}", f"{part.amplitude:.8g}", phase)
            rows.append([one.channel.name, one.channel.unit, *values])
    return iter(rows)


def _explained(
    record: Record, lines: Sequence[_Lines], sheet: Sheet, notices: list[str]
) -> list[Row]:
    """Return the peaks of each channel by the lines of a drive train, and those without a peak.

    The reference shaft turns at the speed of the record where it has one, else as entered.
    """
    speed, drift = speed_of(record, record.start, record.start + record.duration)
    check_steady(drift)
    told = expected("sheet", {"sheet": held(sheet)}, speed)
    if not told.train:
        raise ValueError("; ".join(told.notes))
    notices += told.notes
    heads = ["channel", "unit", "state", "frequency (Hz)", "amplitude (peak)"]
    rows: list[Row] = [[*heads, "sources, nearest first", "peak less nearest (Hz)", "remark"]]
    for one in lines:
        spacing = record.sample_rate / len(one.samples)
        read = ReadSpectrum(spacing, record.sample_rate, speed_drift=drift or 0.0)
        peaks = tuple(MeasuredPeak(peak.frequency, peak.amplitude) for peak in one.peaks)
        answer = measured_peaks(peaks, told.train, (), read)
        about = [one.channel.name, one.channel.unit]
        for peak in answer.peaks:
            apart = "" if peak.difference is None else f"{peak.difference:.4g}"
            place = (f"{peak.frequency:.8g}", f"{peak.amplitude:.8g}")
            rows.append([*about, peak.state, *place, peak.sources, apart, peak.note])
        rows += [
            [*about, "missing", f"{line.seen:.8g}", "", line.name, "", line.reason]
            for line in answer.missing
        ]
    return rows


def _text(rows: Iterator[Row] | Sequence[Row]) -> str:
    return rows_of(rows, "\n")
