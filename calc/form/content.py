"""What a copy of a result holds, whatever its format: inputs, results, tables, closing lines."""

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

from calc import VERSION
from calc.catalogue import formula
from calc.declaration import Choice, Field, Name, Table, inputs
from calc.form.calculation import NOTICE, Calculation, source
from calc.form.reading import Reading, rows_read
from calc.form.showing import in_other_units, shown
from calc.form.shown_in import column_name, row_values
from calc.quantity import Quantity
from calc.units import Unit

LONGEST_TABLE = 100
"""Rows of a table in a copy that is read; the CSV copy has them all."""


class Cells(NamedTuple):
    """A table of a calculation: its columns, and its rows as text."""

    label: str
    columns: list[Field]
    rows: list[list[str]]

    @property
    def heads(self) -> list[str]:
        """The labels of the columns."""
        return [column.declaration.label for column in self.columns]


def given(calculation: Calculation) -> list[tuple[Field, str]]:
    """Return the inputs with their values as typed; a table is one line of text."""
    return [(f, typed(calculation, f)) for f in inputs(formula(calculation.name))]


def typed(calculation: Calculation, f: Field) -> str:
    """Return an input as typed, with its unit."""
    if isinstance(f.declaration, Choice):
        return f.declaration.options[calculation.values[f.name]]
    if isinstance(f.declaration, Table):
        return "; ".join(", ".join(row) for row in _rows_typed(calculation, f.name, f.declaration))
    return calculation.readings[f.name].shown


def given_tables(calculation: Calculation) -> list[Cells]:
    """Return the inputs that are tables."""
    return [
        Cells(
            f.declaration.label,
            inputs(f.declaration.row),
            _rows_typed(calculation, f.name, f.declaration),
        )
        for f in inputs(formula(calculation.name))
        if isinstance(f.declaration, Table)
    ]


def _rows_typed(calculation: Calculation, name: str, table: Table) -> list[list[str]]:
    columns = inputs(table.row)
    return [
        [_cell_typed(column, cell) for column, cell in zip(columns, row, strict=False)]
        for row in rows_read(table, calculation.readings[name].text)
    ]


def _cell_typed(f: Field, reading: Reading) -> str:
    if isinstance(f.declaration, Choice):
        return f.declaration.options[reading.value]
    return reading.shown


def unit_of(calculation: Calculation, f: Field) -> Unit | None:
    """Return the unit that a result is shown in, or None for what is no number."""
    if not isinstance(f.declaration, Quantity):
        return None
    return calculation.shown_in.unit(f.name, f.declaration)


def column_units(calculation: Calculation, f: Field, table: Table) -> list[Unit | None]:
    """Return the units that the columns of a table of results are shown in."""
    columns = inputs(table.row)
    return [unit_of(calculation, c._replace(name=column_name(f, c))) for c in columns]


def result(calculation: Calculation, f: Field, value: Any) -> str:
    """Return a result with its unit and, in brackets, in its other units."""
    unit = unit_of(calculation, f)
    found = shown(f.declaration, value, unit)
    if isinstance(f.declaration, Quantity) and unit:
        others = in_other_units(f.declaration, value, unit)
        found += f" ({', '.join(others)})" if others else ""
    return found


def in_full(calculation: Calculation, f: Field, value: Any) -> str:
    """Return a number to its last digit, in its unit; nothing for what has no more."""
    unit = unit_of(calculation, f)
    if unit is None or value is None or getattr(f.declaration, "whole", False):
        return ""
    return f"{unit.reading(value)!r} {unit.name}".rstrip()


def plain_results(calculation: Calculation) -> list[tuple[Field, Any]]:
    """Return the results that are no tables; a sentence that a formula left empty is none."""
    return [
        (f, v)
        for f, v in calculation.results
        if not isinstance(f.declaration, Table) and (v or not isinstance(f.declaration, Name))
    ]


def result_tables(calculation: Calculation) -> list[Cells]:
    """Return the results that are tables, each number with its unit."""
    found = []
    for f, value in calculation.results:
        if isinstance(f.declaration, Table):
            columns = inputs(f.declaration.row)
            units = column_units(calculation, f, f.declaration)
            declared = [column.declaration for column in columns]
            rows = [list(map(shown, declared, row_values(row), units)) for row in value]
            found.append(Cells(f.declaration.label, columns, rows))
    return found


def rows_left_out(rows: Sequence[Any]) -> list[str]:
    """Return the sentence that says how many rows are not in a copy, if any."""
    if len(rows) <= LONGEST_TABLE:
        return []
    return [f"The first {LONGEST_TABLE} of {len(rows)} rows; the CSV copy has them all."]


def _has_covered_range(calculation: Calculation) -> bool:
    """Return whether any number that went in or came out has a range that its source covers."""
    fields = [*inputs(formula(calculation.name)), *(f for f, _ in calculation.results)]
    rows = [inputs(f.declaration.row) for f in fields if isinstance(f.declaration, Table)]
    return any(
        isinstance(f.declaration, Quantity) and any(map(math.isfinite, f.declaration.covered))
        for f in [*fields, *(column for row in rows for column in row)]
    )


def closing(calculation: Calculation) -> list[str]:
    """Return warnings, source, version and notice."""
    warnings = calculation.warnings
    said = [f"Warnings: {'. '.join(warnings)}."] if warnings else []
    if not warnings and _has_covered_range(calculation):
        said = ["Inside the covered range."]
    return [
        *said,
        f"Source: {source(calculation.name)}",
        f"Rotorcraft vibration handbook {VERSION}, {calculation.name}. {NOTICE}",
    ]
