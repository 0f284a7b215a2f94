"""A form as HTML: the fields, filled with a first example, and its answer."""

from collections.abc import Iterable
from html import escape

from calc.catalogue import entry, formula
from calc.declaration import Choice, Field, Name, Table, inputs
from calc.form.answer import result_html
from calc.form.calculation import calculate, short_name, start
from calc.form.reading import cells, entry_of
from calc.form.result_table import symbol_html
from calc.form.unit_list import limits_hint, slider_scale, system_list, unit_list, unit_phrase
from calc.quantity import Quantity

OF_NO_RECORD = "This calculation"
"""The heading of the inputs that are part of no record, in a form that asks for a record."""


def form_html(name: str) -> str:
    """Return a form filled with its first example and its result, readable without scripts."""
    short = short_name(name)
    entries = start(name)
    ends = entry(name).sliders
    fields = _groups(
        (f, _field(short, f, entries[f.name], ends.get(f.name))) for f in inputs(formula(name))
    )
    result = result_html(calculate(name, entries))
    return (
        f'<form class="calculator" id="{short}" data-formula="{name}" data-name="{short}" '
        f'aria-labelledby="{short}-title" novalidate autocomplete="off" data-search-exclude>\n'
        f'<div class="calculator-head"><p class="calculator-title" id="{short}-title" '
        f'tabindex="-1">{escape(entry(name).title)}</p>{system_list()}</div>\n'
        f"{_WITHOUT_SCRIPTS}"
        '<p class="calculator-owner" hidden></p>\n<div class="calculator-notice" hidden></div>\n'
        '<div class="calculator-problems" tabindex="-1" hidden></div>\n'
        f'<div class="calculator-fields">\n{fields}\n</div>\n'
        '<p class="calculator-hint" hidden></p>\n'
        '<p class="calculator-line" aria-hidden="true" hidden></p>\n'
        '<div class="calculator-waiting"><p class="calculator-progress"></p>'
        '<button type="button" class="stop" hidden></button></div>\n'
        '<p class="calculator-trouble" role="alert" hidden></p>\n'
        f'<output class="calculator-result" aria-live="off">{result}</output>\n'
        '<p class="calculator-status visually-hidden" role="status"></p>\n'
        f"{_ACTIONS}</form>\n"
    )


def _groups(fields: Iterable[tuple[Field, str]]) -> str:
    """Return the fields under the headings of their records; those of no record come last."""
    groups: dict[str, list[str]] = {}
    for f, field_html in fields:
        groups.setdefault(f.heading, []).append(field_html)
    alone = "\n".join(groups.pop("", []))
    if not groups:
        return alone
    headed = [(heading, "\n".join(inside)) for heading, inside in groups.items()]
    headed += [(OF_NO_RECORD, alone)] if alone else []
    return "\n".join(
        f'<fieldset class="field-group"><legend>{escape(heading)}</legend>\n{inside}\n</fieldset>'
        for heading, inside in headed
    )


def _field(short: str, f: Field, typed: str, ends: tuple[float, float] | None) -> str:
    identity = f"{short}-{f.name}"
    label = escape(f.declaration.label)
    of = f' data-record="{f.record}"' if f.record else ""
    slider, hint, words = "", "", ""
    match f.declaration:
        case Table() as table:
            return _table_field(identity, f.name, table, typed, of)
        case Choice() as choice:
            entry_html = _options(f'id="{identity}" name="{f.name}"', choice, typed)
        case Name():
            entry_html = (
                f'<input class="word" id="{identity}" name="{f.name}" value="{escape(typed)}">'
            )
        case Quantity() as quantity:
            entry_html = _entry(identity, f.name, quantity, typed, ends)
            slider = _slider(f.name, quantity, typed, ends) if ends else ""
            hint = limits_hint(quantity, quantity.units[0])
            if any(unit.words for unit in quantity.units):
                words = unit_phrase(quantity.units[0])
                words = f'<span class="words visually-hidden">{words}</span>'
    return (
        f'<div class="field" data-label="{label}"{of}><label for="{identity}">{label} '
        f"{symbol_html(f.declaration)}{words}</label>"
        f'<span class="entry">{entry_html}</span>{slider}'
        f'<span class="hint" id="{identity}-hint">{escape(hint)}</span>'
        f'<span class="field-problem" id="{identity}-problem" hidden></span></div>'
    )


def _entry(
    identity: str, name: str, quantity: Quantity, typed: str, ends: tuple[float, float] | None
) -> str:
    text, _, key = typed.partition("_")
    keyboard = ' inputmode="decimal"' if max(quantity.above, quantity.at_least) >= 0.0 else ""
    return (
        f'<input class="number" id="{identity}" name="{name}" type="text"{keyboard} '
        f'value="{escape(text)}" autocomplete="off" spellcheck="false" '
        f'aria-describedby="{identity}-hint {identity}-problem">{unit_list(quantity, key, ends)}'
    )


def _slider(name: str, quantity: Quantity, typed: str, ends: tuple[float, float]) -> str:
    unit = quantity.units[0]
    low, high, step = slider_scale(quantity, unit, ends)
    return (
        f'<input type="range" min="{low}" max="{high}" step="{step}" '
        f'value="{typed.partition("_")[0]}" data-slider="{name}" data-unit="{unit.key}" '
        f'aria-label="{escape(quantity.label)}">'
    )


def _options(attributes: str, choice: Choice, typed: str) -> str:
    options = "".join(
        f'<option value="{key}"{" selected" if key == typed else ""}>{escape(shown)}</option>'
        for key, shown in choice.options.items()
    )
    return f"<select {attributes}>{options}</select>"


def _table_field(identity: str, name: str, table: Table, typed: str, of: str) -> str:
    columns = inputs(table.row)
    head = "".join(map(_column_head, columns))
    rows = "".join(_entry_row(columns, row) for row in cells(typed))
    empty = [entry_of(c.declaration, c.start) for c in columns]
    label = escape(table.label)
    least = sum(c.default is None for c in columns)  # links from before the others were added
    return (
        f'<fieldset class="entry-table" id="{identity}" data-table="{name}" data-label="{label}" '
        f'data-at-most="{table.at_most}" data-least-cells="{least}"{of}><legend>{label}</legend>'
        f'<div class="scroll-box"><table class="table"><thead><tr>{head}<th scope="col">'
        '<span class="visually-hidden">Row</span></th></tr></thead>'
        f'<tbody>{rows}</tbody></table></div><div class="table-notice" hidden></div>'
        f"<template>{_entry_row(columns, empty)}</template>"
        '<button type="button" class="add-row">Add a row</button>'
        f'<span class="field-problem" id="{identity}-problem" hidden></span></fieldset>'
    )


def _column_head(column: Field) -> str:
    label = escape(column.declaration.label)
    units = ""
    if isinstance(column.declaration, Quantity):
        units = unit_list(column.declaration, column.declaration.units[0].key)
    return f'<th scope="col" data-label="{label}">{label}{units}</th>'


def _entry_row(columns: list[Field], row: list[str]) -> str:
    found = "".join(
        f"<td>{_entry_cell(c, typed)}</td>" for c, typed in zip(columns, row, strict=True)
    )
    tools = "".join(
        f'<button type="button" class="{kind}-row" aria-label="{does}">{sign}</button>'
        for kind, does, sign in _ROW_TOOLS
    )
    return f'<tr>{found}<td class="row-tools">{tools}</td></tr>'


def _entry_cell(column: Field, typed: str) -> str:
    label = escape(column.declaration.label)
    if isinstance(column.declaration, Choice):
        return _options(f'aria-label="{label}"', column.declaration, typed)
    if isinstance(column.declaration, Quantity):
        text, kind = typed.partition("_")[0], "number"
    else:
        text, kind = typed, "word"
    return f'<input class="{kind}" aria-label="{label}" value="{escape(text)}" spellcheck="false">'


_ROW_TOOLS = (
    ("raise", "Move row up", "↑"),
    ("lower", "Move row down", "↓"),
    ("remove", "Remove row", "×"),
)
"""Of a button at the end of each row: class, name, to which scripts add which row, and sign."""

_ACTIONS = """<div class="calculator-actions">
<span class="action-group">Copy the result as
<button type="button" data-copy="text">text</button>
<button type="button" data-copy="markdown">Markdown</button>
<button type="button" data-copy="latex">LaTeX</button>
<button type="button" data-copy="csv">CSV</button>
<button type="button" data-copy="link">link</button></span>
<span class="action-group">Print
<button type="button" data-print="form">this form</button>
<button type="button" data-print="page">the whole page</button></span>
<label class="with-working"><input type="checkbox" data-working> with the working</label>
<label class="digits">Digits <select data-digits>
<option selected>4</option><option>6</option><option>10</option></select></label>
<button type="button" class="undo" aria-disabled="true">Undo</button>
<button type="reset">Back to the example</button>
</div>
"""

_WITHOUT_SCRIPTS = (
    '<noscript><p class="warning" data-search-exclude><strong>Note</strong> Your own numbers need '
    "JavaScript and WebAssembly, and one of them is switched off here. The example below was "
    "computed when this page was made and still holds.</p></noscript>\n"
)
