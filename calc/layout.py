"""A form and its answer as HTML: written at build time, and again for each new calculation."""

import math
from collections.abc import Iterable, Mapping
from html import escape
from typing import Any

from calc import symbol
from calc.catalogue import entry, formula
from calc.declaration import Choice, Declaration, Field, Name, Table, inputs
from calc.digits import significant
from calc.form import Calculation, Problem, calculate, short_name, start
from calc.quantity import Quantity
from calc.reading import cells, entry_of
from calc.working import Step, steps


def answer(name: str, entries: Mapping[str, str], digits: int = 4) -> dict[str, Any]:
    """Return what a page shows for entries: the result as HTML, a spoken sentence, the problems."""
    calculation = calculate(name, entries)
    return {
        "html": result_html(calculation, digits),
        "spoken": spoken(calculation, digits),
        "link": calculation.link,
        "problems": [
            {"message": p.message, "field": p.field, "choices": list(p.choices)}
            for p in calculation.problems
        ],
    }


def figure_files(name: str, entries: Mapping[str, str]) -> dict[str, str]:
    """Return the figure of a calculation as a file of its own, and its data as CSV."""
    chart = calculate(name, entries).chart
    return {} if chart is None else {"svg": chart.file(), "csv": chart.csv()}


def form_html(name: str) -> str:
    """Return a form filled with its first example and its result, readable without scripts."""
    short = short_name(name)
    entries = start(name)
    fields = "\n".join(_field(short, f, entries[f.name]) for f in inputs(formula(name)))
    result = result_html(calculate(name, entries))
    return (
        f'<form class="calculator" id="{short}" data-formula="{name}" data-name="{short}" '
        f'aria-labelledby="{short}-title" novalidate autocomplete="off">\n'
        f'<p class="calculator-title" id="{short}-title">{escape(entry(name).title)}</p>\n'
        '<div class="calculator-problems" tabindex="-1" hidden></div>\n'
        f'<div class="calculator-fields">\n{fields}\n</div>\n'
        f'<output class="calculator-result" aria-live="off">{result}</output>\n'
        f'<p class="calculator-hint" hidden></p>\n'
        '<p class="calculator-status visually-hidden" role="status"></p>\n'
        f"{_ACTIONS}</form>\n{_WITHOUT_SCRIPTS}"
    )


def result_html(calculation: Calculation, digits: int = 4) -> str:
    """Return the result of a calculation with its warnings, working and figure."""
    if calculation.problems:
        return f'<p class="no-result">— {escape(_first_problem(calculation.problems))}</p>'
    numbers = [(f, v) for f, v in calculation.results if isinstance(f.declaration, Quantity)]
    parts = [f'<p class="verdict">{escape(text)}</p>' for text in _verdicts(calculation)]
    if numbers:
        rows = "".join(_result_row(f.declaration, value, digits) for f, value in numbers)
        parts.append(f'<table class="table results"><tbody>{rows}</tbody></table>')
    parts += [
        f'<p class="warning"><strong>Warning</strong> {escape(text)}.</p>'
        for text in calculation.warnings
    ]
    chart = calculation.chart
    if chart is not None:
        identity = f"{short_name(calculation.name)}-figure"
        parts.append(f'<figure class="live">{chart.svg(identity)}{_data(chart.table())}</figure>')
    parts += [
        _result_table(f.declaration, value, digits)
        for f, value in calculation.results
        if isinstance(f.declaration, Table)
    ]
    lines = _working(steps(formula(calculation.name), calculation.values))
    if lines:
        parts.append(
            f'<details class="working" open><summary>Working</summary>{lines}</details>'
        )
    return "\n".join(parts)


def spoken(calculation: Calculation, digits: int = 4) -> str:
    """Return the result as one sentence for a screen reader."""
    if calculation.problems:
        return _first_problem(calculation.problems)
    shown = [
        f"{f.declaration.label} {_number(f.declaration, value, digits)} {_first_words(f)}".strip()
        for f, value in calculation.results
        if isinstance(f.declaration, Quantity)
    ]
    sentences = [*_verdicts(calculation), ", ".join(shown), *calculation.warnings]
    return ". ".join(sentence.rstrip(".") for sentence in sentences if sentence)


def _verdicts(calculation: Calculation) -> list[str]:
    said = [v for f, v in calculation.results if isinstance(f.declaration, Name) and v]
    return [calculation.remark, *said] if calculation.remark else said


def _first_problem(problems: tuple[Problem, ...]) -> str:
    return problems[0].message


def _first_words(f: Field) -> str:
    return f.declaration.units[0].words if isinstance(f.declaration, Quantity) else ""


def _number(quantity: Quantity, value: float | None, digits: int, unit_index: int = 0) -> str:
    if value is None:
        return "—"
    if quantity.whole:
        return str(int(value))
    return significant(quantity.units[unit_index].reading(value), digits)


def _result_row(declaration: Declaration, value: float | None, digits: int) -> str:
    assert isinstance(declaration, Quantity)  # noqa: S101 - narrows the type for mypy
    others = [
        f"{_number(declaration, value, digits, index)} {unit.name}"
        for index, unit in enumerate(declaration.units)
        if index and value is not None and math.isfinite(value)
    ]
    return (
        f'<tr><th scope="row">{escape(declaration.label)}</th>'
        f'<td class="symbol">{_symbol(declaration)}</td>'
        f'<td class="number">{_number(declaration, value, digits)}</td>'
        f'<td class="unit">{declaration.units[0].name}</td>'
        f'<td class="others">{" · ".join(others)}</td></tr>'
    )


def _result_table(declaration: Declaration, rows: Iterable[Any], digits: int) -> str:
    assert isinstance(declaration, Table)  # noqa: S101 - narrows the type for mypy
    columns = inputs(declaration.row)
    head = "".join(f'<th scope="col">{_column(c.declaration)}</th>' for c in columns)
    body = "".join(
        f"<tr>{''.join(_cell(c.declaration, getattr(row, c.name), digits) for c in columns)}</tr>"
        for row in rows
    )
    return (
        f'<div class="scroll-box" tabindex="0" role="region" aria-label="{escape(declaration.label)}">'
        f'<table class="table rows"><caption>{escape(declaration.label)}</caption>'
        f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def _column(declaration: Declaration) -> str:
    unit = declaration.units[0].name if isinstance(declaration, Quantity) else ""
    return escape(f"{declaration.label}, {unit}" if unit else declaration.label)


def _cell(declaration: Declaration, value: Any, digits: int) -> str:
    if isinstance(declaration, Quantity):
        return f'<td class="number">{_number(declaration, value, digits)}</td>'
    if isinstance(declaration, Choice):
        value = declaration.options[value]
    return f"<td>{escape(str(value))}</td>"


def _data(table: list[list[str]]) -> str:
    head = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in table[0])
    rows = "".join(
        f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in row)}</tr>" for row in table[1:]
    )
    return (
        '<figcaption><details class="figure-data"><summary>Data of the figure</summary>'
        '<button type="button" data-save="csv">Save as CSV</button> '
        '<button type="button" data-save="svg">Save as SVG</button>'
        '<div class="scroll-box" tabindex="0" role="region" aria-label="Data of the figure">'
        f"<table class=\"table\"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div>"
        "</details></figcaption>"
    )


def _working(found: Iterable[Step]) -> str:
    return "".join(
        f'<div class="step">{step.mathml}{_working(step.inner)}</div>' for step in found
    )


def _symbol(declaration: Declaration) -> str:
    return f"<math>{symbol.mathml(declaration.symbol)}</math>" if declaration.symbol else ""


def _field(short: str, f: Field, typed: str) -> str:
    identity = f"{short}-{f.name}"
    label = escape(f.declaration.label)
    match f.declaration:
        case Table() as table:
            return _table_field(identity, f.name, table, typed)
        case Choice() as choice:
            entry_html = _options(identity, f.name, choice, typed)
            hint, words = "", ""
        case Name():
            entry_html = f'<input id="{identity}" name="{f.name}" value="{escape(typed)}">'
            hint, words = "", ""
        case Quantity() as quantity:
            entry_html = _entry(identity, f.name, quantity, typed)
            hint = _hint(quantity)
            words = f', in <span class="words">{quantity.units[0].words}</span>'
            words = words if quantity.units[0].words else ""
    return (
        f'<div class="field"><label for="{identity}">{label} {_symbol(f.declaration)}{words}</label>'
        f'<span class="entry">{entry_html}</span>'
        f'<span class="hint" id="{identity}-hint">{escape(hint)}</span>'
        f'<span class="field-problem" id="{identity}-problem" hidden></span></div>'
    )


def _hint(quantity: Quantity) -> str:
    unit = quantity.units[0]
    limits = quantity.limits(unit)
    return limits[0].upper() + limits[1:] if limits != "any number" else ""


def _entry(identity: str, name: str, quantity: Quantity, typed: str) -> str:
    text, _, key = typed.partition("_")
    keyboard = ' inputmode="decimal"' if max(quantity.above, quantity.at_least) >= 0.0 else ""
    return (
        f'<input id="{identity}" name="{name}" type="text"{keyboard} value="{escape(text)}" '
        f'autocomplete="off" spellcheck="false" aria-describedby="{identity}-hint">'
        f"{_unit_select(quantity, key)}"
    )


def _unit_select(quantity: Quantity, key: str) -> str:
    if len(quantity.units) == 1:
        return f'<span class="unit">{quantity.units[0].name}</span>'
    options = "".join(
        f'<option value="{u.key}" data-words="{u.words}"{" selected" if u.key == key else ""}>'
        f"{u.name or '–'}</option>"
        for u in quantity.units
    )
    return f'<select aria-label="Unit for {escape(quantity.label.lower())}">{options}</select>'


def _options(identity: str, name: str, choice: Choice, typed: str) -> str:
    options = "".join(
        f'<option value="{key}"{" selected" if key == typed else ""}>{escape(shown)}</option>'
        for key, shown in choice.options.items()
    )
    return f'<select id="{identity}" name="{name}">{options}</select>'


def _table_field(identity: str, name: str, table: Table, typed: str) -> str:
    columns = inputs(table.row)
    head = "".join(
        f'<th scope="col">{escape(c.declaration.label)}'
        + (_unit_select(c.declaration, c.declaration.units[0].key) if _has_units(c) else "")
        + "</th>"
        for c in columns
    )
    rows = "".join(_entry_row(columns, row) for row in cells(typed))
    empty = [entry_of(c.declaration, c.start) for c in columns]
    return (
        f'<fieldset class="entry-table" id="{identity}" data-table="{name}">'
        f"<legend>{escape(table.label)}</legend>"
        f'<div class="scroll-box"><table class="table"><thead><tr>{head}<th scope="col">'
        '<span class="visually-hidden">Remove</span></th></tr></thead>'
        f"<tbody>{rows}</tbody></table></div>"
        f"<template>{_entry_row(columns, empty)}</template>"
        '<button type="button" class="add-row">Add a row</button>'
        f'<span class="field-problem" id="{identity}-problem" hidden></span></fieldset>'
    )


def _has_units(column: Field) -> bool:
    return isinstance(column.declaration, Quantity) and column.declaration.units[0].name != ""


def _entry_row(columns: list[Field], row: list[str]) -> str:
    found = "".join(
        f"<td>{_entry_cell(c, typed)}</td>" for c, typed in zip(columns, row, strict=True)
    )
    return (
        f'<tr>{found}<td><button type="button" class="remove-row" aria-label="Remove this row">'
        "×</button></td></tr>"
    )


def _entry_cell(column: Field, typed: str) -> str:
    label = escape(column.declaration.label)
    if isinstance(column.declaration, Choice):
        options = _options("", column.name, column.declaration, typed)
        return options.replace('id=""', f'aria-label="{label}"')
    text = typed.partition("_")[0] if isinstance(column.declaration, Quantity) else typed
    return f'<input aria-label="{label}" value="{escape(text)}" spellcheck="false">'


_ACTIONS = """<div class="calculator-actions">
<span class="action-group">Copy the result as
<button type="button" data-copy="text">text</button>
<button type="button" data-copy="markdown">Markdown</button>
<button type="button" data-copy="latex">LaTeX</button>
<button type="button" data-copy="csv">CSV</button></span>
<button type="button" data-copy="link">Copy link</button>
<label class="digits">Digits <select data-digits>
<option selected>4</option><option>6</option><option>10</option></select></label>
<button type="reset">Back to the example</button>
</div>
"""

_WITHOUT_SCRIPTS = (
    '<noscript><p class="warning"><strong>Note</strong> Your own numbers need JavaScript and '
    "WebAssembly, and one of them is switched off here. The example above was computed when "
    "this page was made and still holds.</p></noscript>\n"
)
