"""Moved: how far a number is from what it was, in words, and which rows of a table differ."""

import math
from collections.abc import Iterator, Sequence
from typing import Any

from calc.declaration import Field, Table, inputs
from calc.digits import significant
from calc.form.calculation import Calculation
from calc.form.content import column_units
from calc.form.showing import shown
from calc.form.shown_in import row_values
from calc.quantity import Quantity
from calc.survey.report.blocks import Grid
from calc.units import Unit

MOST_ROWS = 30
"""Rows of a table that are told one by one."""

Cells = list[str]


def in_words(quantity: Quantity, before: float | None, after: float | None, unit: Unit) -> str:
    """Return the change of a number with its sign, and whether that is up or down.

    Examples:
        >>> from calc.vocabulary import ROTOR_SPEED
        >>> in_words(ROTOR_SPEED, 40.0, 44.0, ROTOR_SPEED.si)
        'up, +4.00 rad/s, +10.0 %'
    """
    if before is None or after is None or not (math.isfinite(before) and math.isfinite(after)):
        return ""
    ends = [unit.reading(value) for value in (before, after)]
    change = ends[1] - ends[0]
    if shown(quantity, before, unit) == shown(quantity, after, unit):
        return ""
    has_share = unit.zero == 0.0 and unit.name != "%"
    said = [f"{'up' if change > 0.0 else 'down'}, {_signed(change)} {unit.name}".rstrip()]
    said += [f"{_signed(100.0 * change / abs(ends[0]))} %"] if ends[0] and has_share else []
    crosses = ends[0] * ends[1] < 0.0
    return ", ".join([*said, *(["sign changed"] if crosses else [])])


def rows_moved(before: Calculation, after: Calculation) -> Iterator[Grid]:
    """Yield for each table of results the rows that differ, each cell that moved as was → is.

    Rows are paired by what they begin with, since a table may be sorted by its numbers.
    """
    olds = {f.name: rows for f, rows in before.results if isinstance(f.declaration, Table)}
    for f, rows in after.results:
        if not isinstance(f.declaration, Table):
            continue
        columns = inputs(f.declaration.row)
        units = column_units(after, f, f.declaration)
        old, new = (
            [_cells(columns, row, units) for row in table] for table in (olds.get(f.name, ()), rows)
        )
        moved = [_joined(one, other) for one, other in _paired(old, new) if one != other]
        if moved:
            more = len(moved) - MOST_ROWS
            rest = f", the first {MOST_ROWS} of {len(moved)} that differ" if more > 0 else ""
            heads = [column.declaration.label for column in columns]
            yield Grid(f"{f.declaration.label}{rest}", heads, moved[:MOST_ROWS])


def _cells(columns: list[Field], row: Any, units: list[Unit | None]) -> Cells:
    return [
        shown(column.declaration, value, unit)
        for column, value, unit in zip(columns, row_values(row), units, strict=True)
    ]


def _paired(old: Sequence[Cells], new: Sequence[Cells]) -> list[tuple[Cells, Cells]]:
    """Return rows in pairs; a row without its like is paired with an empty one.

    Rows are alike that have the same first two cells, or else the same first cell; what is left
    is paired in order where both tables have as many left.
    """
    left = list(old)
    found: list[Cells] = [[] for _ in new]
    for cells in (2, 1):
        for place, row in enumerate(new):
            if not found[place]:
                found[place] = next((one for one in left if one[:cells] == row[:cells]), [])
                left = [one for one in left if one is not found[place]]
    if len(left) == found.count([]):
        rest = iter(left)
        found, left = [one or next(rest) for one in found], []
    return [*zip(found, new, strict=True), *((row, []) for row in left)]


def _joined(old: Cells, new: Cells) -> Cells:
    if not old or not new:
        what = "new row" if new else "row gone"
        first, *rest = new or old
        return [f"{first} ({what})", *rest]
    return [a if a == b else f"{a} → {b}" for a, b in zip(old, new, strict=True)]


def _signed(change: float) -> str:
    text = significant(change, 3)
    return text if text.startswith("−") else f"+{text}"
