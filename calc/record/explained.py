"""Explained: the peaks of a stretch, each by one expected line, several, or none."""

from typing import Any, get_type_hints

from calc.declaration import Choice, inputs
from calc.digits import significant
from calc.form.showing import number
from calc.measurement.attribution import (
    MeasuredPeak,
    ReadSpectrum,
    measured_peaks,
    measured_peaks_chart,
)
from calc.measurement.known_lines import KnownLine
from calc.quantity import Quantity
from calc.record.lines import band_of, lines_of, many, peaks_of
from calc.record.look import Look
from calc.record.shown import Seen
from calc.survey.report.blocks import Block, Grid, Words

STEADY = 0.1
"""Drift of the rotor speed over its mean beyond which no peak is explained."""


def check_steady(drift: float | None) -> None:
    """Refuse a rotor speed that drifts so far that its lines are no peaks.

    Raises:
        ValueError: If it does.
    """
    if drift and drift > STEADY:
        raise ValueError(
            f"The rotor speed drifts by {significant(100.0 * drift, 2)} % in the stretch, so "
            "that its lines are no peaks: choose a steady stretch with From and To, or look at "
            "Orders or Waterfall"
        )


def peaks(look: Look) -> Seen:
    """Return each peak of a stretch by one expected line, several, or none."""
    check_steady(look.drift)
    lines = lines_of(look)
    low, high = band_of(look)
    listed = peaks_of(look, lines)
    found = [peak for peak in listed if low <= peak[0] <= high and peak[0] > 0.0]
    if not found:
        raise ValueError("No peak reaches the threshold between these frequencies")
    largest = max(amplitude for _, amplitude in found)
    read = ReadSpectrum(
        line_spacing=lines.spacing,
        sample_rate=look.rate,
        above_half=look.values["above_half"],
        speed_accuracy=look.values["speed_accuracy"],
        speed_drift=look.drift or 0.0,
        noise=look.values["threshold"] * largest,
    )
    rows = tuple(MeasuredPeak(*peak) for peak in found)
    answer = measured_peaks(rows, look.expected.train, (), read)
    known = [
        KnownLine(line.source, line.frequency, line.frequency * read.relative_tolerance)
        for line in look.expected.lines
    ]
    said = [*many(listed), *look.notes]
    if not look.expected.train:
        said.append("No drive train is chosen above, so that no line is expected")
    said.append(
        f"Each line is expected within {significant(100.0 * read.relative_tolerance, 3)} % of "
        f"its frequency, and each peak within {significant(read.peak_tolerance, 3)} Hz"
    )
    blocks: list[Block] = [Words(f"{text}.") for text in said]
    tables = [grid_of(answer, name) for name in ("peaks", "missing", "speeds", "together")]
    blocks += [table for table in tables if table.rows]
    numbers = [row for table in tables for row in ([table.caption], table.heads, *table.rows)]
    chart = measured_peaks_chart(answer, known, read)
    title = f"Peaks of {look.channel.name} explained"
    told = [[str(cell) for cell in row] for row in numbers]
    return Seen(title, answer.verdict, blocks, chart, lambda: told)


def grid_of(answer: Any, name: str) -> Grid:
    """Return a table of an answer, with labels and units of its declaration."""
    (hint,) = (
        note
        for note in get_type_hints(type(answer), include_extras=True)[name].__metadata__
        if hasattr(note, "row")
    )
    columns = inputs(hint.row)
    heads = []
    for column in columns:
        units = column.declaration.units if isinstance(column.declaration, Quantity) else ()
        unit = units[0].name if units else ""
        heads.append(f"{column.declaration.label} ({unit})" if unit else column.declaration.label)
    rows = [
        [_cell(column.declaration, getattr(row, column.name)) for column in columns]
        for row in getattr(answer, name)
    ]
    return Grid(hint.label, heads, rows)


def _cell(declaration: Any, value: Any) -> str:
    if isinstance(declaration, Quantity):
        return number(declaration, value, declaration.units[0])
    return declaration.options[value] if isinstance(declaration, Choice) else str(value)
