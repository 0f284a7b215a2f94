"""A result as CSV: every number is one that a spreadsheet can go on with."""

import csv
import io
from collections.abc import Iterable, Sequence
from typing import Any

from calc import VERSION
from calc.declaration import Field, Table, inputs
from calc.form.calculation import NOTICE, Calculation, source
from calc.form.content import column_units, given, plain_results, typed, unit_of
from calc.form.showing import number, shown
from calc.form.shown_in import row_values
from calc.quantity import Quantity
from calc.spreadsheet import cell, is_number
from calc.units import Unit

_TYPED = str.maketrans("−⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "--0123456789")


def csv_copy(calculation: Calculation, link: str, said: Iterable[Sequence[str]] = ()) -> str:
    """Return a calculation as CSV: a line for each number, and for each row of a table.

    `said` are more lines for it, each with its kind and a text, that stand after the warnings.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["kind", "name", "label", "value", "unit"])
    for f, _ in given(calculation):
        writer.writerow(["input", f.name, f.declaration.label, *_input(calculation, f)])
    for f, value in plain_results(calculation):
        unit = unit_of(calculation, f)
        writer.writerow(["result", f.name, f.declaration.label, *_result(f, value, unit)])
        for other in _in_other_units(f, value, unit):
            writer.writerow(["in another unit", f.name, f.declaration.label, *other])
    for f, rows in calculation.results:
        if isinstance(f.declaration, Table):
            columns = inputs(f.declaration.row)
            units = column_units(calculation, f, f.declaration)
            writer.writerow(["table", "", f.declaration.label, *map(_head, columns, units)])
            for row in rows:
                writer.writerow(["row", "", "", *map(_in_row, columns, row_values(row), units)])
    for warning in calculation.warnings:
        writer.writerow(["warning", "", cell(warning), "", ""])
    for kind, text in said:
        writer.writerow([kind, "", cell(text), "", ""])
    if calculation.remark:
        writer.writerow(["remark", "", calculation.remark, "", ""])
    writer.writerow(["source", "", source(calculation.name), "", ""])
    writer.writerow(["version", calculation.name, NOTICE, VERSION, ""])
    writer.writerow(["link", "", cell(link), "", ""])
    return out.getvalue()


def _input(calculation: Calculation, f: Field) -> list[str]:
    if isinstance(f.declaration, Quantity):
        reading = calculation.readings[f.name]
        return [reading.number, reading.shown_in.name]
    return [cell(typed(calculation, f)), ""]


def _result(f: Field, value: Any, unit: Unit | None) -> list[str]:
    if unit and value is not None:
        return [repr(unit.reading(value)), unit.name]
    return [cell(shown(f.declaration, value)), ""]


def _in_other_units(f: Field, value: Any, unit: Unit | None) -> list[list[str]]:
    if not isinstance(f.declaration, Quantity) or value is None:
        return []
    others = [other for other in f.declaration.units if other != unit]
    return [[repr(other.reading(value)), other.name] for other in others]


def _head(column: Field, unit: Unit | None) -> str:
    """Return the head of a column, with the unit of its numbers."""
    label = column.declaration.label
    return cell(f"{label}, {unit.name}" if unit and unit.name else label)


def _in_row(column: Field, value: Any, unit: Unit | None) -> str:
    """Return what stands in a row: a number with the digits of the page, written to be read in."""
    if not isinstance(column.declaration, Quantity) or unit is None:
        return cell(shown(column.declaration, value))
    written = number(column.declaration, value, unit).replace("×10", "e").replace("∞", "inf")
    written = written.translate(_TYPED)
    return written if is_number(written) else ""
