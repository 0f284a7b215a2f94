"""A result to paste elsewhere: with its inputs, warnings, source, version and link."""

from collections.abc import Mapping

from calc import symbol
from calc.catalogue import entry
from calc.declaration import Field
from calc.form.calculation import Calculation, latest
from calc.form.content import (
    LONGEST_TABLE,
    closing,
    given,
    in_full,
    plain_results,
    result,
    result_tables,
    rows_left_out,
)
from calc.form.csv_copy import csv_copy
from calc.form.latex_copy import latex_copy
from calc.form.quoting import quoting
from calc.markdown import escaped
from calc.unit_systems import STARTING
from calc.working import Step, Text, flat


def copies(
    name: str,
    entries: Mapping[str, str],
    link: str,
    working: bool = False,  # noqa: FBT001, FBT002 - the page names its arguments
    system: str = STARTING,
    results: Mapping[str, str] | None = None,
) -> dict[str, str]:
    """Return the calculation as text, Markdown, LaTeX and CSV, or the problems as an error.

    Text and LaTeX have the working if it is asked for.  Units are those of the page, as `answer`
    takes them.  The link in them says which release gave which numbers.
    """
    calculation = latest(name, entries, system, results)
    if calculation.problems:
        return {"error": "; ".join(problem.message for problem in calculation.problems)}
    link = quoting(calculation, link)
    return {
        "text": _text(calculation, link, working=working),
        "markdown": _markdown(calculation, link),
        "latex": latex_copy(calculation, link, working=working),
        "csv": csv_copy(calculation, link),
    }


def _symbol_is(f: Field) -> str:
    return f" {symbol.text(f.declaration.symbol)} =" if f.declaration.symbol else ""


def _text(calculation: Calculation, link: str, *, working: bool) -> str:
    lines = [entry(calculation.name).title]
    lines += [f"  {f.declaration.label}:{_symbol_is(f)} {text}" for f, text in given(calculation)]
    lines.append("Result")
    lines += [f"  {calculation.remark}"] if calculation.remark else []
    for f, value in plain_results(calculation):
        full = (
            f", in full {value_in_full}"
            if (value_in_full := in_full(calculation, f, value))
            else ""
        )
        lines.append(
            f"  {f.declaration.label}:{_symbol_is(f)} {result(calculation, f, value)}{full}"
        )
    for table in result_tables(calculation):
        lines.append(f"  {table.label}")
        lines += [f"    {' | '.join(row)}" for row in [table.heads, *table.rows[:LONGEST_TABLE]]]
        lines += [f"    {sentence}" for sentence in rows_left_out(table.rows)]
    steps = flat(calculation.working(Text())) if working else ()
    worked = [f"  {_worked(step)}" for step in steps]
    lines += ["Working", *worked] if worked else []
    return "\n".join([*lines, *closing(calculation), link])


def _worked(step: Step) -> str:
    """Return a line of the working with why it holds and how its number was found."""
    said = [f"as {step.condition}"] if step.condition else []
    said += [step.remark] if step.remark else []
    reasons = f" ({'; '.join(said)})" if said else ""
    return f"{step.heading or step.line}{reasons}"


def _markdown(calculation: Calculation, link: str) -> str:
    rows = [("Input", f, text) for f, text in given(calculation)]
    rows += [
        ("Result", f, result(calculation, f, value)) for f, value in plain_results(calculation)
    ]
    lines = [f"**{entry(calculation.name).title}**", ""]
    lines += [f"{calculation.remark}", ""] if calculation.remark else []
    lines += ["| | Quantity | Symbol | Value |", "| - | - | - | -: |"]
    for kind, f, text in rows:
        sign = f"${f.declaration.symbol}$" if f.declaration.symbol else ""
        lines.append(f"| {kind} | {f.declaration.label} | {sign} | {escaped(text)} |")
    for table in result_tables(calculation):
        head = f"| {' | '.join(table.heads)} |"
        lines += ["", f"*{table.label}*", "", head, "| - " * len(table.heads) + "|"]
        lines += [f"| {' | '.join(map(escaped, row))} |" for row in table.rows[:LONGEST_TABLE]]
        lines += [part for sentence in rows_left_out(table.rows) for part in ("", sentence)]
    said = [f"- {escaped(line)}" for line in closing(calculation)]
    return "\n".join([*lines, "", *said, f"- <{link}>"])
