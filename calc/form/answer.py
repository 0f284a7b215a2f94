"""The answer to a calculation as HTML: results, warnings, working and figure."""

from collections.abc import Iterable, Mapping
from html import escape
from typing import Any

from calc import VERSION
from calc.declaration import Name, Table, inputs
from calc.form.calculation import NOTICE, Calculation, latest, short_name
from calc.form.coming_back import told
from calc.form.content import unit_of
from calc.form.mode_offer import offer_html
from calc.form.result_table import cut, result_row, result_table, rows_cut
from calc.form.showing import number
from calc.quantity import Quantity
from calc.unit_systems import STARTING
from calc.working import MathML, Step, flat

LARGEST = 190_000
"""Characters of an answer, so that it stays below 200 kB; a figure or working beyond it goes."""

WIDEST_BESIDE = 6
"""Columns of a table of results that stands beside the inputs; a wider one follows below."""

LONGEST_DATA = 40
"""Rows of the data of a figure that a page shows; the CSV file has them all."""

LONGEST_WORKING = 12
"""A working of more lines is folded at first, so that a page stays readable; print unfolds it."""


def answer(
    name: str,
    entries: Mapping[str, str],
    digits: int = 4,
    system: str = STARTING,
    results: Mapping[str, str] | None = None,
    quoted: Mapping[str, str] | None = None,
) -> dict[str, Any]:
    """Return what a page shows for entries: the result as HTML, a spoken sentence, the problems.

    `system` is the system of units and `results` the units chosen beside single results, by the
    name of the result or of `table.column`; `quoted` is what the link of the entries quotes.
    """
    calculation = latest(name, entries, system, results)
    paragraph, sentences = "", [spoken(calculation, digits)]
    if quoted:
        compared = told(calculation, quoted)
        paragraph, sentences = compared.html, [*sentences, *compared.sentences]
    return {
        "html": result_html(calculation, digits, paragraph),
        "spoken": " ".join(sentences),
        "problems": [
            {
                "message": p.message,
                "field": p.field,
                "choices": list(p.choices),
                "cells": [list(cell) for cell in p.cells],
                "also": list(p.also),
            }
            for p in calculation.problems
        ],
    }


def figure_files(
    name: str,
    entries: Mapping[str, str],
    system: str = STARTING,
    results: Mapping[str, str] | None = None,
) -> dict[str, str]:
    """Return the figure of a calculation as a file of its own, and its data as CSV."""
    chart = latest(name, entries, system, results).chart
    return {} if chart is None else {"svg": chart.file(), "csv": chart.csv()}


def result_html(calculation: Calculation, digits: int = 4, quoted: str = "") -> str:
    """Return the result of a calculation with its warnings, working and figure.

    What stands beside the inputs on a wide screen is in one division: all but wide tables, which
    follow over the whole width, and the working.  `quoted` is a paragraph on what a link quotes.
    """
    if calculation.problems:
        return f'<p class="no-result">— {escape(calculation.problems[0].message)}</p>{quoted}'
    numbers = "".join(
        result_row(f, value, calculation.shown_in, digits)
        for f, value in calculation.results
        if isinstance(f.declaration, Quantity)
    )
    parts = [f'<p class="verdict">{escape(text)}</p>' for text in _verdicts(calculation)]
    if numbers:
        parts.append(f'<table class="table results"><tbody>{numbers}</tbody></table>')
    parts += [
        f'<p class="warning"><strong>Warning</strong> {escape(text)}.</p>'
        for text in calculation.warnings
    ]
    parts += [quoted] if quoted else []
    figure = _figure(calculation)
    beside: list[str] = []
    below: list[str] = []
    for f, value in calculation.results:
        if isinstance(f.declaration, Table):
            wide = len(inputs(f.declaration.row)) > WIDEST_BESIDE and bool(parts or figure)
            table = result_table(f, value, calculation.shown_in, digits)
            (parts if f.declaration.leads else below if wide else beside).append(table)
    beside += filter(None, [offer_html(calculation)])
    steps = calculation.working(MathML())
    lines = working_html(steps)
    weight = sum(map(len, (*parts, *beside, *below)))
    if weight + len(figure) > LARGEST:
        figure = cut("The figure has too much in it to be shown")
    if weight + len(figure) + len(lines) > LARGEST:
        lines = ""
    shown = "\n".join(filter(None, [*parts, figure, *beside]))
    if lines:
        unfolded = " open" if len(list(flat(steps))) <= LONGEST_WORKING else ""
        below.append(
            f'<details class="working"{unfolded}><summary>Working</summary>{lines}</details>'
        )
    below.append(_origin(calculation.name))
    rest = "\n".join(below)
    return (
        f'<div class="result-beside"><div class="result-shown">{shown}</div></div>\n'
        f'<div class="result-below">{rest}</div>'
    )


def _origin(name: str) -> str:
    """Return where a printed result comes from; its link stands last and alone, without a stop."""
    chapter, topic, short = name.split(".")
    return (
        f'<p class="printed-only">{NOTICE} Rotorcraft vibration handbook {VERSION}, '
        f'{escape(name)}, <span data-printed="link">{chapter}/{topic}.html#{short}</span></p>'
    )


def spoken(calculation: Calculation, digits: int = 4) -> str:
    """Return the result as one sentence for a screen reader."""
    if calculation.problems:
        return calculation.problems[0].message
    shown = [
        f"{f.declaration.label} {number(f.declaration, value, unit, digits)} {unit.words}".strip()
        for f, value in calculation.results
        if isinstance(f.declaration, Quantity) and (unit := unit_of(calculation, f))
    ]
    sentences = [*_verdicts(calculation), ", ".join(shown), *calculation.warnings]
    return ". ".join(sentence.rstrip(".") for sentence in sentences if sentence)


def _verdicts(calculation: Calculation) -> list[str]:
    said = [
        f"{f.declaration.label}: {value}"
        for f, value in calculation.results
        if isinstance(f.declaration, Name) and value
    ]
    return [calculation.remark, *said] if calculation.remark else said


def _figure(calculation: Calculation) -> str:
    """Return the figure with its data, or nothing where there is none or its numbers overflow."""
    chart = calculation.chart
    if chart is None:
        return ""
    try:
        drawing, data = chart.svg(f"{short_name(calculation.name)}-figure"), chart.table()
    except (ArithmeticError, ValueError):
        return ""
    identity = f"{short_name(calculation.name)}-figure"
    link = f'<a class="headerlink" href="#{identity}" title="Link to this figure">¶</a>'
    return (
        f'<figure class="live" id="{identity}"><div class="scroll-box">{drawing}</div>'
        f'<figcaption><span class="figure-title">{escape(chart.title)}</span> {link}'
        f"{_data(data)}</figcaption></figure>"
    )


def _data(table: list[list[str]]) -> str:
    heads, *body = table
    head = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in heads)
    rows = "".join(
        f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in row)}</tr>"
        for row in body[:LONGEST_DATA]
    )
    return (
        '<details class="figure-data"><summary>Data of the figure</summary>'
        '<button type="button" data-save="csv">Save as CSV</button> '
        '<button type="button" data-save="svg">Save as SVG</button>'
        '<div class="scroll-box" tabindex="0">'
        f'<table class="table"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div>'
        f"{rows_cut(len(body), LONGEST_DATA, 'the CSV file')}</details>"
    )


def working_html(found: Iterable[Step]) -> str:
    """Return the lines of a working, written by the pen for MathML."""
    return "".join(map(_step, found))


def _step(step: Step) -> str:
    """Return a line of the working, or a heading with the lines under it, which can be folded."""
    if step.heading:
        inner = working_html(step.inner)
        return (
            f'<details class="step" open><summary>{escape(step.heading)}</summary>{inner}</details>'
        )
    said = [f"as <math>{step.condition}</math>"] if step.condition else []
    said += [escape(step.remark)] if step.remark else []
    remark = f'<span class="remark">{"; ".join(said)}</span>' if said else ""
    return f'<div class="step">{step.line}{remark}</div>'
