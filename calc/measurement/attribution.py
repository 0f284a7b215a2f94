"""Attribution: each measured peak by one source, by several or by none, with what is missing."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Annotated

from calc.declaration import Table
from calc.digits import significant
from calc.harmonics.closest_lines import per_cent
from calc.harmonics.drive_train import TRAIN, Part, turning
from calc.harmonics.meetings import MARGIN
from calc.harmonics.sources import SourceLine, source_table
from calc.measurement.attribution_figure import measured_peaks_chart
from calc.measurement.common_speed import CommonSpeed, common_speed
from calc.measurement.known_lines import (
    EXPLAINED,
    SHARED,
    UNEXPLAINED,
    Explanation,
    KnownLine,
    PeaksExplained,
    explain_peaks,
    seen_at,
    source_tolerance,
)
from calc.measurement.lines_together import lines_together
from calc.measurement.peak_notes import MeasuredPeak, PeakNotes
from calc.measurement.peak_rows import Attribution, MissingRow, PeakRow
from calc.measurement.read_spectrum import ReadSpectrum

__all__ = [
    "Attribution",
    "Explanation",
    "KnownLine",
    "MeasuredPeak",
    "PeaksExplained",
    "ReadSpectrum",
    "explain_peaks",
    "measured_peaks",
    "measured_peaks_chart",
    "source_tolerance",
]

PEAKS = Table(
    "Measured peaks",
    MeasuredPeak,
    (
        MeasuredPeak(6.01, 0.052),
        MeasuredPeak(16.93, 0.009),
        MeasuredPeak(18.03, 0.012),
        MeasuredPeak(23.84, 0.031),
        MeasuredPeak(24.04, 0.310),
        MeasuredPeak(30.05, 0.015),
        MeasuredPeak(37.42, 0.007),
        MeasuredPeak(48.08, 0.064),
        MeasuredPeak(71.51, 0.022),
        MeasuredPeak(100.45, 0.018),
    ),
    at_least=1,
    at_most=60,
)
"""The example is invented: the Plover, a little faster than the speed that was entered."""
SHAFTS = replace(TRAIN, at_least=0)
OTHERS = Table(
    "Lines of no shaft, such as modes and the electrical supply",
    KnownLine,
    (KnownLine("tail boom, second bending", 16.8, 0.5),),
    at_most=30,
)


def measured_peaks(
    peaks: Annotated[tuple[MeasuredPeak, ...], PEAKS],
    train: Annotated[tuple[Part, ...], SHAFTS],
    others: Annotated[tuple[KnownLine, ...], OTHERS],
    spectrum: ReadSpectrum,
    margin: Annotated[float, MARGIN] = 0.05,
) -> Attribution:
    r"""Return for each measured peak the lines that it can be, and the lines that have no peak.

    $$ |f_p - f_{seen}| \le f_k \left(\epsilon_\Omega + \frac{d}{2}\right) + r_p \Delta f $$

    A peak in reach of several lines is shared, and its amplitude is not divided.  One in reach of
    none stays unexplained; a whole order of a shaft up to the twentieth, and a pair of sidebands
    one revolution about a stronger peak, are told beside it.  Of the lines that no peak can be,
    those that are certain or likely count as missing.

    Args:
        peaks: As read from the spectrum, with amplitudes in any one unit; rows.
        train: Every part that turns, at its speed in the record; rows.
        others: Lines of no shaft with a tolerance of their own; rows.
        spectrum: Line spacing, sample rate, and what is known of the speed; record.
        margin: Difference of two lines over their mean that counts as a coincidence; scalar.

    Returns:
        The peaks, the missing lines, the speed that the peaks of each independent shaft agree on,
        and the coincidences of lines that were measured.

    Raises:
        ValueError: If an argument breaks its limits, or the drive train cannot turn or mesh.

    Source:
        `explain_peaks`; the forcing frequencies of the drive train.

    Examples:
        >>> rotor = Part("Rotor", "rotor", speed=37.7, count=4)
        >>> read = (MeasuredPeak(6.0, 0.1), MeasuredPeak(24.02, 0.8), MeasuredPeak(31.5, 0.2))
        >>> found = measured_peaks(read, (rotor,), (), ReadSpectrum(0.1, 0.0))
        >>> [(row.frequency, row.sources) for row in found.peaks]
        [(6.0, 'Rotor 1/rev'), (24.02, 'Rotor 4/rev'), (31.5, '')]
    """
    PEAKS.check(peaks)
    SHAFTS.check(train)
    OTHERS.check(others)
    MARGIN.check(margin)
    lines = _lines(train)
    known = _known(lines, others, spectrum)
    matched = explain_peaks(
        [peak.frequency for peak in peaks],
        [line for line in known if spectrum.reaches(line.frequency)],
        spectrum.peak_tolerance,
        spectrum.folded_at,
    )
    named = {name for peak in matched.explanations for name in peak.names}
    speeds = tuple(_speeds(peaks, train, lines, spectrum))
    notes = PeakNotes(peaks, train, lines, speeds, spectrum)
    rows = tuple(
        _row(peak, explained, known, notes, spectrum)
        for peak, explained in zip(peaks, matched.explanations, strict=True)
    )
    expected = {line.source for line in lines if line.confidence != "possible"}
    expected |= {other.name for other in others}
    missing = [line for line in known if line.name in expected and line.name not in named]
    return Attribution(
        verdict=_verdict(rows, [spectrum.reaches(line.frequency) for line in missing])
        + _of_speeds(speeds, spectrum.relative_tolerance),
        peaks=rows,
        missing=tuple(_missing(line, spectrum) for line in missing),
        speeds=speeds,
        together=lines_together(
            [line for line in known if line.name in named], margin, spectrum.line_spacing
        ),
    )


def _lines(train: tuple[Part, ...]) -> list[SourceLine]:
    """Return the lines of a drive train that an airframe can show."""
    if not train:
        return []
    return [line for line in source_table(train, train[0].name) if line.frame == "airframe"]


def _known(
    lines: Sequence[SourceLine], others: Sequence[KnownLine], spectrum: ReadSpectrum
) -> list[KnownLine]:
    """Return all expected lines with their tolerances."""
    relative = spectrum.relative_tolerance
    turning_lines = [KnownLine(x.source, x.frequency, x.frequency * relative) for x in lines]
    return [*turning_lines, *others]


def _row(
    peak: MeasuredPeak,
    explained: Explanation,
    known: Sequence[KnownLine],
    notes: PeakNotes,
    spectrum: ReadSpectrum,
) -> PeakRow:
    places: Mapping[str, float] = {
        line.name: seen_at(line.frequency, spectrum.folded_at) for line in known
    }
    nearest = explained.names[0] if explained.names else None
    return PeakRow(
        frequency=peak.frequency,
        amplitude=peak.amplitude,
        state=explained.state,
        sources="; ".join(explained.names),
        difference=None if nearest is None else peak.frequency - places[nearest],
        note="; ".join(filter(None, notes.of(peak, explained))),
    )


def _missing(line: KnownLine, spectrum: ReadSpectrum) -> MissingRow:
    """Return a line without a peak, with the reason as far as it can be told."""
    place = seen_at(line.frequency, spectrum.folded_at)
    if not spectrum.reaches(line.frequency):
        reason = "above half the sample rate: the record cannot show it"
    elif spectrum.noise:
        reason = f"below {significant(spectrum.noise, 3)}, the level read down to, or not excited"
    else:
        reason = "below the level that was read down to, or not excited"
    return MissingRow(line.name, place, reason)


def _speeds(
    peaks: Sequence[MeasuredPeak],
    train: tuple[Part, ...],
    lines: Sequence[SourceLine],
    spectrum: ReadSpectrum,
) -> Iterator[CommonSpeed]:
    """Yield what the peaks say of the speed of each independent shaft."""
    turns = turning(train) if train else {}
    for name in dict.fromkeys(turn.follows for turn in turns.values()):
        own = {
            line.frequency
            for line in lines
            if line.follows == name
            and line.confidence != "possible"
            and (not spectrum.sample_rate or line.frequency <= spectrum.sample_rate / 2.0)
        }
        row = common_speed(
            (name, turns[name].speed),
            [peak.frequency for peak in peaks],
            sorted(own),
            spectrum.relative_tolerance,
            spectrum.peak_tolerance,
        )
        if row:
            yield row


def _verdict(rows: Sequence[PeakRow], missing: Sequence[bool]) -> str:
    """Return in words how many peaks are explained, and how many lines are missing."""
    counts = {
        state: sum(row.state == state for row in rows) for state in (EXPLAINED, SHARED, UNEXPLAINED)
    }
    beyond = len(missing) - sum(missing)
    above = f", {beyond} more above half the sample rate" if beyond else ""
    peaks = "1 peak" if len(rows) == 1 else f"{len(rows)} peaks"
    return (
        f"{peaks}: {counts[EXPLAINED]} by one source, {counts[SHARED]} by several, "
        f"{counts[UNEXPLAINED]} by none; {sum(missing)} expected without a peak{above}"
    )


def _of_speeds(speeds: Sequence[CommonSpeed], accuracy: float) -> str:
    """Return in words which shaft turned at another speed than the one entered, or nothing."""
    return "".join(
        f"; check the speed of {row.shaft}: the peaks agree on {per_cent(abs(row.correction))} "
        f"{'more' if row.correction > 0.0 else 'less'}"
        for row in speeds
        if abs(row.correction) > accuracy
    )
