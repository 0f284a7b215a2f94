"""A result to paste elsewhere: with its inputs, warnings, source, version and link."""

import csv
import io
from collections.abc import Mapping, Sequence
from typing import Any

from calc import VERSION, symbol
from calc.catalogue import entry, formula
from calc.declaration import Choice, Field, Name, Table, inputs
from calc.form.calculation import NOTICE, Calculation, calculate, source
from calc.form.reading import Reading, rows_read
from calc.form.showing import in_other_units, shown
from calc.quantity import Quantity
from calc.working import LaTeX, Step, Text, flat

LONGEST_TABLE = 100
"""Rows of a table of results in a text or Markdown copy; the CSV copy has them all."""


def copies(
    name: str,
    entries: Mapping[str, str],
    link: str,
    working: bool = False,  # noqa: FBT001, FBT002 - the page names its arguments
) -> dict[str, str]:
    """Return the calculation as text, Markdown, LaTeX and CSV, or the problems as an error.

    Text and LaTeX have the working if it is asked for.
    """
    calculation = calculate(name, entries)
    if calculation.problems:
        return {"error": "; ".join(problem.message for problem in calculation.problems)}
    return {
        "text": _text(calculation, link, working=working),
        "markdown": _markdown(calculation, link),
        "latex": _latex(calculation, link, working=working),
        "csv": _csv(calculation, link),
    }


def _given(calculation: Calculation) -> list[tuple[Field, str]]:
    """Return the inputs with their values as typed."""
    return [(f, _typed(calculation, f)) for f in inputs(formula(calculation.name))]


def _typed(calculation: Calculation, f: Field) -> str:
    if isinstance(f.declaration, Choice):
        return f.declaration.options[calculation.values[f.name]]
    if isinstance(f.declaration, Table):
        rows = rows_read(f.declaration, calculation.readings[f.name].text)
        columns = inputs(f.declaration.row)
        return "; ".join(
            ", ".join(_cell_typed(c, cell) for c, cell in zip(columns, row, strict=False))
            for row in rows
        )
    return calculation.readings[f.name].shown


def _cell_typed(f: Field, reading: Reading) -> str:
    if isinstance(f.declaration, Choice):
        return f.declaration.options[reading.value]
    return reading.shown


def _result(f: Field, value: Any) -> str:
    """Return a result with its unit and, in brackets, in its other units."""
    found = shown(f.declaration, value)
    if isinstance(f.declaration, Quantity):
        others = in_other_units(f.declaration, value)
        found += f" ({', '.join(others)})" if others else ""
    return found


def _plain_results(calculation: Calculation) -> list[tuple[Field, Any]]:
    """Return the results that are no tables; a sentence that a formula left empty is none."""
    return [
        (f, v)
        for f, v in calculation.results
        if not isinstance(f.declaration, Table) and (v or not isinstance(f.declaration, Name))
    ]


def _tables(calculation: Calculation) -> list[tuple[Table, list[list[str]]]]:
    return [
        (
            f.declaration,
            [
                [shown(c.declaration, getattr(row, c.name)) for c in inputs(f.declaration.row)]
                for row in value
            ],
        )
        for f, value in calculation.results
        if isinstance(f.declaration, Table)
    ]


def _heads(table: Table) -> list[str]:
    return [c.declaration.label for c in inputs(table.row)]


def _symbol_is(f: Field) -> str:
    return f" {symbol.text(f.declaration.symbol)} =" if f.declaration.symbol else ""


def _closing(calculation: Calculation) -> list[str]:
    warnings = calculation.warnings
    return [
        f"Warnings: {'. '.join(warnings)}." if warnings else "Inside the covered range.",
        f"Source: {source(calculation.name)}",
        f"Rotorcraft vibration handbook {VERSION}, {calculation.name}. {NOTICE}",
    ]


def _text(calculation: Calculation, link: str, *, working: bool) -> str:
    lines = [entry(calculation.name).title]
    lines += [
        f"  {f.declaration.label}:{_symbol_is(f)} {given}" for f, given in _given(calculation)
    ]
    lines.append("Result")
    lines += [f"  {calculation.remark}"] if calculation.remark else []
    for f, value in _plain_results(calculation):
        full = f", in full {value_in_full}" if (value_in_full := _in_full(f, value)) else ""
        lines.append(f"  {f.declaration.label}:{_symbol_is(f)} {_result(f, value)}{full}")
    for table, rows in _tables(calculation):
        lines.append(f"  {table.label}")
        lines += [f"    {' | '.join(row)}" for row in [_heads(table), *rows[:LONGEST_TABLE]]]
        lines += [f"    {sentence}" for sentence in _rows_left_out(rows)]
    steps = flat(calculation.working(Text())) if working else ()
    worked = [f"  {_worked(step)}" for step in steps]
    lines += ["Working", *worked] if worked else []
    return "\n".join([*lines, *_closing(calculation), link])


def _in_full(f: Field, value: Any) -> str:
    """Return a number to its last digit, in the first unit; nothing for what has no more."""
    if not isinstance(f.declaration, Quantity) or f.declaration.whole or value is None:
        return ""
    unit = f.declaration.units[0]
    return f"{unit.reading(value)!r} {unit.name}".rstrip()


def _worked(step: Step) -> str:
    """Return a line of the working with why it holds and how its number was found."""
    said = [f"as {step.condition}"] if step.condition else []
    said += [step.remark] if step.remark else []
    reasons = f" ({'; '.join(said)})" if said else ""
    return f"{step.heading or step.line}{reasons}"


def _rows_left_out(rows: Sequence[Any]) -> list[str]:
    """Return the sentence that says how many rows are not in a copy, if any."""
    if len(rows) <= LONGEST_TABLE:
        return []
    return [f"The first {LONGEST_TABLE} of {len(rows)} rows; the CSV copy has them all."]


def _markdown(calculation: Calculation, link: str) -> str:
    rows = [("Input", f, typed) for f, typed in _given(calculation)]
    rows += [("Result", f, _result(f, value)) for f, value in _plain_results(calculation)]
    lines = [f"**{entry(calculation.name).title}**", ""]
    lines += [f"{calculation.remark}", ""] if calculation.remark else []
    lines += ["| | Quantity | Symbol | Value |", "| - | - | - | -: |"]
    for kind, f, text in rows:
        sign = f"${f.declaration.symbol}$" if f.declaration.symbol else ""
        lines.append(f"| {kind} | {f.declaration.label} | {sign} | {_escaped(text)} |")
    for table, cells in _tables(calculation):
        heads = _heads(table)
        lines += ["", f"*{table.label}*", "", f"| {' | '.join(heads)} |", "| - " * len(heads) + "|"]
        lines += [f"| {' | '.join(map(_escaped, row))} |" for row in cells[:LONGEST_TABLE]]
        lines += [part for sentence in _rows_left_out(cells) for part in ("", sentence)]
    closing = [f"- {_escaped(line)}" for line in _closing(calculation)]
    return "\n".join([*lines, "", *closing, f"- <{link}>"])


def _escaped(text: str) -> str:
    """Return text in which no character is Markdown or HTML."""
    for mark in "\\`*_{}[]<>|#~$":
        text = text.replace(mark, f"\\{mark}")
    return text


def _latex(calculation: Calculation, link: str, *, working: bool) -> str:
    given = [
        rf"{f.declaration.symbol or _words(f.declaration.label)} &= {_words(typed)}"
        for f, typed in _given(calculation)
        if not isinstance(f.declaration, Table)
    ]
    found = [
        rf"{f.declaration.symbol or _words(f.declaration.label)} &= {_words(_result(f, value))}"
        for f, value in _plain_results(calculation)
        if not isinstance(f.declaration, Name)
    ]
    said = [calculation.remark] if calculation.remark else []
    said += [
        f"{f.declaration.label}: {value}"
        for f, value in _plain_results(calculation)
        if isinstance(f.declaration, Name) and value
    ]
    comments = [entry(calculation.name).title, *said, *_closing(calculation), link]
    steps = flat(calculation.working(LaTeX())) if working else ()
    worked = [step.line for step in steps if step.line]
    body = " \\\\\n".join([*given, *worked, *found])
    return "\n".join(
        [*(f"% {line}" for line in comments), rf"\begin{{align*}}{body}\end{{align*}}"]
    )


def _words(text: str) -> str:
    for mark, written in _LATEX.items():
        text = text.replace(mark, written)
    return rf"\text{{{text}}}"


_LATEX = {
    "\\": r"\textbackslash ",
    **{mark: f"\\{mark}" for mark in "%&#_${}"},
    "~": r"\textasciitilde ",
    "^": r"\textasciicircum ",
    "−": "-",
    "²": r"$^2$",
    "³": r"$^3$",
    "·": r"$\cdot$",
    "°": r"$^\circ$",
}


def _csv(calculation: Calculation, link: str) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["kind", "name", "label", "value", "unit"])
    for f, _ in _given(calculation):
        writer.writerow(["input", f.name, f.declaration.label, *_csv_input(calculation, f)])
    for f, value in _plain_results(calculation):
        writer.writerow(["result", f.name, f.declaration.label, *_csv_result(f, value)])
        for other in _csv_in_other_units(f, value):
            writer.writerow(["in another unit", f.name, f.declaration.label, *other])
    for table, rows in _tables(calculation):
        writer.writerow(["table", "", table.label, *map(_cell, _heads(table))])
        writer.writerows(["row", "", "", *map(_cell, row)] for row in rows)
    for warning in calculation.warnings:
        writer.writerow(["warning", "", _cell(warning), "", ""])
    if calculation.remark:
        writer.writerow(["remark", "", calculation.remark, "", ""])
    writer.writerow(["source", "", source(calculation.name), "", ""])
    writer.writerow(["version", calculation.name, NOTICE, VERSION, ""])
    writer.writerow(["link", "", _cell(link), "", ""])
    return out.getvalue()


def _csv_input(calculation: Calculation, f: Field) -> list[str]:
    if isinstance(f.declaration, Quantity):
        reading = calculation.readings[f.name]
        return [reading.number, reading.shown_in.name]
    return [_cell(_typed(calculation, f)), ""]


def _csv_result(f: Field, value: Any) -> list[str]:
    if isinstance(f.declaration, Quantity) and value is not None:
        unit = f.declaration.units[0]
        return [repr(unit.reading(value)), unit.name]
    return [_cell(shown(f.declaration, value)), ""]


def _csv_in_other_units(f: Field, value: Any) -> list[list[str]]:
    if not isinstance(f.declaration, Quantity) or value is None:
        return []
    return [[repr(unit.reading(value)), unit.name] for unit in f.declaration.units[1:]]


def _cell(text: str) -> str:
    """Return text that a spreadsheet does not take for a formula."""
    return f"'{text}" if text[:1] in "=+-@\t" and not _is_number(text) else text


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
