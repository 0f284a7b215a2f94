"""Results as rows of HTML: single ones in one table, and tables of their own."""

from collections.abc import Sequence
from functools import partial
from html import escape
from typing import Any

from calc import symbol
from calc.declaration import Choice, Declaration, Field, Table, inputs
from calc.form.showing import in_other_units, number
from calc.form.shown_in import ShownIn, column_name, row_values
from calc.form.unit_list import result_units
from calc.quantity import Quantity

LONGEST_TABLE = 100
"""Rows of a table of results that a page shows; the CSV copy has them all."""


def symbol_html(declaration: Declaration) -> str:
    """Return the symbol of a quantity as MathML, or nothing if it has none."""
    return f"<math>{symbol.mathml(declaration.symbol)}</math>" if declaration.symbol else ""


def result_row(f: Field, value: float | None, shown_in: ShownIn, digits: int) -> str:
    """Return the row of one result: label, symbol, number, unit, and the number in other units."""
    quantity = f.declaration
    assert isinstance(quantity, Quantity)
    unit = shown_in.unit(f.name, quantity)
    others = in_other_units(quantity, value, unit, digits)
    return (
        f'<tr><th scope="row">{escape(quantity.label)}</th>'
        f'<td class="symbol">{symbol_html(quantity)}</td>'
        f'<td class="number">{number(quantity, value, unit, digits)}</td>'
        f'<td class="unit">{result_units(f.name, quantity, shown_in)}</td>'
        f'<td class="others">{" · ".join(others)}</td></tr>'
    )


def result_table(f: Field, rows: Sequence[Any], shown_in: ShownIn, digits: int) -> str:
    """Return a table of results, of which no more than `LONGEST_TABLE` rows are shown."""
    assert isinstance(f.declaration, Table)
    label = escape(f.declaration.label)
    columns = [c._replace(name=column_name(f, c)) for c in inputs(f.declaration.row)]
    head = "".join(_column(column, shown_in) for column in columns)
    body = "".join(
        f"<tr>{''.join(map(partial(_cell, shown_in, digits), columns, row_values(row)))}</tr>"
        for row in rows[:LONGEST_TABLE]
    )
    return (
        '<div class="scroll-box" tabindex="0">'
        f'<table class="table rows"><caption>{label}</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>"
        f"{rows_cut(len(rows), LONGEST_TABLE, 'the CSV copy')}"
    )


def rows_cut(rows: int, shown: int, file: str) -> str:
    """Return the sentence that says how many rows are not shown, if any."""
    return cut(f"The first {shown} of {rows} rows; {file} has them all") if rows > shown else ""


def cut(sentence: str) -> str:
    """Return a sentence about what is not shown as a paragraph."""
    return f'<p class="cut">{sentence}.</p>'


def _column(column: Field, shown_in: ShownIn) -> str:
    label = escape(column.declaration.label)
    if not isinstance(column.declaration, Quantity):
        return f'<th scope="col">{label}</th>'
    units = result_units(column.name, column.declaration, shown_in)
    return f'<th scope="col" class="number">{label}{f", {units}" if units else ""}</th>'


def _cell(shown_in: ShownIn, digits: int, column: Field, value: Any) -> str:
    match column.declaration:
        case Quantity() as quantity:
            unit = shown_in.unit(column.name, quantity)
            return f'<td class="number">{number(quantity, value, unit, digits)}</td>'
        case Choice() as choice:
            value = choice.options[value]
    return f"<td>{escape(str(value))}</td>"
