"""An exercise as HTML: the question with what is given, and the solution with its working."""

from collections.abc import Iterator
from html import escape
from urllib.parse import quote

from calc.catalogue import entry, formula
from calc.declaration import Choice, Declaration, inputs
from calc.exercises.judging import in_words
from calc.exercises.posing import Posed, wanted
from calc.form.answer import working_html
from calc.form.calculation import Calculation
from calc.form.result_table import symbol_html
from calc.form.showing import shown
from calc.working import MathML


def question_html(posed: Posed) -> str:
    """Return the question: its sentences, and a table of the numbers that they leave out."""
    rows = "".join(
        f'<tr><th scope="row">{escape(declaration.label)} {symbol_html(declaration)}</th>'
        f"<td>{escape(value)}</td></tr>"
        for declaration, value in given(posed)
    )
    table = f'<table class="table exercise-given"><tbody>{rows}</tbody></table>' if rows else ""
    return f"<p>{escape(posed.said(posed.exercise.text))}</p>{table}"


def given(posed: Posed) -> Iterator[tuple[Declaration, str]]:
    """Yield what the text leaves out: the declaration of each input and its value in words."""
    declared = {
        f.name: f.declaration
        for step in posed.exercise.steps
        for f in inputs(formula(step.formula))
    }
    for name in posed.listed:
        if name not in declared:
            continue  # a number that others are made of
        declaration = declared[name]
        said = posed.said(f"{{{name}:bare}}")
        if isinstance(declaration, Choice):
            yield declaration, declaration.options[said]
        else:
            yield declaration, posed.said(f"{{{name}}}")


def hints_html(posed: Posed) -> list[str]:
    """Return the hints, from the first push to the last."""
    return [escape(posed.said(hint)) for hint in posed.exercise.hints]


def solution_html(posed: Posed, root: str | None = None) -> str:
    """Return the solution: the working of each calculation, the answer, what it teaches.

    `root` leads to the top of the handbook; without one the forms are named and not linked.
    """
    parts = [_calculation(calculation, said, root) for calculation, said in _different(posed)]
    warnings = dict.fromkeys(w for c in posed.calculations for w in c.warnings)
    parts += [f"<p><strong>Warning</strong> {escape(text)}.</p>" for text in warnings]
    parts.append(f"<p><strong>Answer: {escape(in_words(posed))}.</strong></p>")
    parts.append(f"<p>{escape(posed.exercise.lesson)}</p>")
    return "".join(parts)


def mistakes_html(posed: Posed) -> str:
    """Return the usual mistakes with the numbers that they give, for a key."""
    quantity = posed.quantity
    unit = quantity.units[0]
    rows = "".join(
        f"<li>{escape(quantity.show(float(f'{wrong.value:.4g}'), unit))}: when "
        f"{escape(wrong.mistake.says)}</li>"
        for wrong in posed.wrong
    )
    return f"<p>Usual mistakes:</p><ul>{rows}</ul>"


def _different(posed: Posed) -> list[tuple[Calculation, list[str]]]:
    """Return each calculation once, with the results that steps take from it."""
    found: dict[str, tuple[Calculation, list[str]]] = {}
    for step, calculation in zip(posed.exercise.steps, posed.calculations, strict=True):
        _, said = found.setdefault(_address(calculation), (calculation, []))
        quantity, value = wanted(calculation, step.asks)
        said.append(f"{quantity.label} {shown(quantity, value)}")
    return list(found.values())


def _calculation(calculation: Calculation, said: list[str], root: str | None) -> str:
    """Return one calculation: which formula it is, and its working or what its form gives."""
    title = escape(entry(calculation.name).title)
    if root is not None:
        title = f'<a href="{escape(root + _address(calculation))}">{title}</a>'
    steps = calculation.working(MathML())
    lines = working_html(steps) or f"<p>The form gives: {escape('; '.join(said))}.</p>"
    return f'<p class="exercise-formula">{title}</p><div class="working">{lines}</div>'


def _address(calculation: Calculation) -> str:
    """Return the address of the form with the entries of a calculation."""
    chapter, topic, short = calculation.name.split(".")
    keys = "&".join(
        f"{short}.{name}={quote(_typed(calculation, name), safe='/,;')}"
        for name in calculation.readings
    )
    return f"{chapter}/{topic}.html#{keys}"


def _typed(calculation: Calculation, name: str) -> str:
    reading = calculation.readings[name]
    unit = reading.unit.key
    return f"{reading.text}_{unit}" if unit else str(reading.text)
