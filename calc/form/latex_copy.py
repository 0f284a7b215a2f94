"""A result as LaTeX: numbers as equations, sentences as text, tables as tables."""

from calc.catalogue import entry
from calc.declaration import Name, Table
from calc.form.calculation import Calculation
from calc.form.content import (
    LONGEST_TABLE,
    Cells,
    closing,
    given,
    given_tables,
    plain_results,
    result,
    result_tables,
    rows_left_out,
)
from calc.quantity import Quantity
from calc.working import LaTeX, flat

_SUPERSCRIPTS = dict(zip("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789", strict=True))
_WRITTEN = {
    "\\": r"\textbackslash ",
    **{mark: f"\\{mark}" for mark in "%&#_${}"},
    "~": r"\textasciitilde ",
    "^": r"\textasciicircum ",
    "−": "$-$",
    "×": r"$\times$",
    "·": r"$\cdot$",
    "°": r"$^\circ$",
    "µ": r"$\mu$",
    "∞": r"$\infty$",
    **{sign: f"$^{{{digit}}}$" for sign, digit in _SUPERSCRIPTS.items()},
}


def latex_copy(calculation: Calculation, link: str, *, working: bool) -> str:
    """Return a calculation as LaTeX; the working is in it if it is asked for.

    What says where the result comes from stands in comments at its head.
    """
    comments = [entry(calculation.name).title, *closing(calculation), link]
    steps = flat(calculation.working(LaTeX())) if working else ()
    numbers = [
        rf"{f.declaration.symbol or _in_equation(f.declaration.label)} &= {_in_equation(text)}"
        for f, text in given(calculation)
        if not isinstance(f.declaration, Table)
    ]
    numbers += [step.line for step in steps if step.line]
    numbers += [
        rf"{f.declaration.symbol or _in_equation(f.declaration.label)} "
        rf"&= {_in_equation(result(calculation, f, value))}"
        for f, value in plain_results(calculation)
        if not isinstance(f.declaration, Name)
    ]
    said = [calculation.remark] if calculation.remark else []
    said += [
        f"{f.declaration.label}: {value}"
        for f, value in plain_results(calculation)
        if isinstance(f.declaration, Name)
    ]
    body = " \\\\\n".join(numbers)
    return "\n".join(
        [
            *(f"% {line}" for line in comments),
            *(line for table in given_tables(calculation) for line in _table(table)),
            *([rf"\begin{{align*}}{body}\end{{align*}}"] if numbers else []),
            *(line for sentence in said for line in ("", _words(sentence))),
            *(line for table in result_tables(calculation) for line in _table(table)),
        ]
    )


def _table(table: Cells) -> list[str]:
    """Return the lines of a table under its title; columns of numbers stand to the right."""
    sides = "".join("r" if isinstance(c.declaration, Quantity) else "l" for c in table.columns)
    rows = [table.heads, *table.rows[:LONGEST_TABLE]]
    lines = [rf"{' & '.join(map(_words, row))} \\" for row in rows]
    return [
        "",
        rf"{_words(table.label)}:",
        "",
        rf"\begin{{tabular}}{{{sides}}}",
        *[lines[0], r"\hline", *lines[1:]],
        r"\end{tabular}",
        *(line for sentence in rows_left_out(table.rows) for line in ("", _words(sentence))),
    ]


def _in_equation(text: str) -> str:
    return rf"\text{{{_words(text)}}}"


def _words(text: str) -> str:
    return "".join(_WRITTEN.get(mark, mark) for mark in text)
