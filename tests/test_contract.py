"""What holds for every formula that has a form."""

import ast
import inspect
import math
import re
import subprocess
import sys
import textwrap
from dataclasses import is_dataclass
from typing import Any, get_type_hints

import pytest

from calc import symbol
from calc.catalogue import FORMULAS, entry, formula
from calc.declaration import Choice, Field, Name, Table, arguments, inputs, outputs
from calc.form.answer import answer
from calc.form.calculation import calculate, source, start
from calc.form.copying import copies
from calc.form.fields import form_html
from calc.form.reading import entry_of, read
from calc.quantity import LimitError, Quantity

NAMES = list(FORMULAS)


def start_values(name: str) -> dict[str, Any]:
    """Return the inputs that a form starts with, in SI units."""
    return calculate(name, start(name)).values


def call(name: str, values: dict[str, Any]) -> Any:
    """Return the result of a formula for values of its inputs."""
    return formula(name)(**arguments(formula(name), values))


def quantities(name: str) -> list[Field]:
    """Return the inputs of a formula that are numbers."""
    return [f for f in inputs(formula(name)) if isinstance(f.declaration, Quantity)]


@pytest.mark.parametrize("name", NAMES)
def test_start_is_answered_without_a_warning(name: str) -> None:
    """The inputs a form starts with have a result inside the covered range."""
    calculation = calculate(name, start(name))

    assert calculation.problems == ()
    assert calculation.warnings == []
    assert calculation.results or calculation.remark


@pytest.mark.parametrize("name", NAMES)
def test_limits_are_enforced(name: str) -> None:
    """The formula itself refuses a value past each declared limit, by its label."""
    values = start_values(name)
    for f in quantities(name):
        q = f.declaration
        assert isinstance(q, Quantity)
        past = [
            q.above,
            q.below,
            math.nextafter(q.at_least, -math.inf),
            math.nextafter(q.at_most, math.inf),
            math.nan,
        ]
        for value in past:
            with pytest.raises(LimitError, match=re.escape(q.label)):
                call(name, values | {f.name: value})


@pytest.mark.parametrize("name", NAMES)
def test_choices_are_enforced(name: str) -> None:
    """The formula itself refuses a word that is not among the options."""
    values = start_values(name)
    for f in inputs(formula(name)):
        if isinstance(f.declaration, Choice):
            with pytest.raises(ValueError, match=re.escape(f.declaration.label)):
                call(name, values | {f.name: "something else"})


@pytest.mark.parametrize("name", NAMES)
def test_rows_are_checked(name: str) -> None:
    """A number past its limits in a table is refused by its label."""
    values = start_values(name)
    for f in inputs(formula(name)):
        if not isinstance(f.declaration, Table) or not values[f.name]:
            continue
        for column in inputs(f.declaration.row):
            if isinstance(column.declaration, Quantity):
                first = {
                    c.name: getattr(values[f.name][0], c.name) for c in inputs(f.declaration.row)
                }
                bad = f.declaration.row(**first | {column.name: math.nan})
                with pytest.raises(ValueError, match=re.escape(column.declaration.label)):
                    call(name, values | {f.name: (bad, *values[f.name][1:])})


@pytest.mark.parametrize("name", NAMES)
def test_every_unit_is_read_and_shown(name: str) -> None:
    """An entry in any unit of its list reads as the same number that the unit stands for."""
    for f in quantities(name):
        q = f.declaration
        assert isinstance(q, Quantity)
        for unit in q.units:
            for spelling in (unit.name, unit.key, *unit.also):
                assert read(q, f"12.5 {spelling}").value == unit.si(12.5), spelling


@pytest.mark.parametrize("name", NAMES)
def test_docstring_agrees_with_the_declaration(name: str) -> None:
    """The docstring gives every input's meaning and SI unit, a source and an example."""
    text = inspect.getdoc(formula(name)) or ""

    for name_, hint in get_type_hints(formula(name)).items():
        if name_ != "return" and is_dataclass(hint):
            assert re.search(rf"^    {name_}: ", text, re.MULTILINE)
            text += "\n" + (inspect.getdoc(hint) or "")
    for f in inputs(formula(name)):
        assert re.search(rf"^    {f.name}: .*; {_kind(f)}\.$", text, re.MULTILINE), f.name
    for section in ("Args", "Returns", "Raises", "Source", "Examples"):
        assert f"\n{section}:\n" in text, section
    assert source(name)


def _kind(f: Field) -> str:
    match f.declaration:
        case Quantity() as quantity if quantity.si.name:
            return f"scalar, {re.escape(quantity.si.name)}"
        case Quantity():
            return "scalar"
        case Choice():
            return "word"
        case Name():
            return "text"
        case Table():
            return "rows"


@pytest.mark.parametrize("name", NAMES)
def test_symbols_can_be_shown(name: str) -> None:
    """Every declared symbol turns into text and into MathML."""
    for f in [*inputs(formula(name)), *outputs(formula(name))]:
        if f.declaration.symbol:
            assert symbol.text(f.declaration.symbol)
            assert symbol.mathml(f.declaration.symbol).startswith("<m")


@pytest.mark.parametrize("name", NAMES)
def test_warning_travels_with_every_copy(name: str) -> None:
    """A value outside the covered range is answered, and each copy of the result says so."""
    for f in quantities(name):
        q = f.declaration
        assert isinstance(q, Quantity)
        for edge, step in zip(q.covered, (-1.0, 1.0), strict=True):
            outside = edge + step * max(abs(edge), 1.0) * 1e-3
            entries = start(name) | {f.name: entry_of(q, outside)}
            calculation = calculate(name, entries)
            if not math.isfinite(edge) or calculation.problems:
                continue
            warning = next(w for w in calculation.warnings if w.startswith(q.label))
            written = copies(name, entries, "page.html")
            assert all(warning[:40] in written[kind].replace("\\", "") for kind in written)
            assert warning.split("–")[0][:30] in answer(name, entries)["html"]


@pytest.mark.parametrize("name", NAMES)
def test_form_reads_without_scripts(name: str) -> None:
    """The form as built shows every input, every result and what scripts would add."""
    html = form_html(name)

    for f in inputs(formula(name)):
        assert f'"{f.name}"' in html
    assert "<noscript>" in html
    assert "no-result" not in html


@pytest.mark.parametrize("name", [name for name in NAMES if entry(name).chart])
def test_figure_is_drawn(name: str) -> None:
    """A formula with a figure draws it at its start, with a title, a description and its data."""
    drawn = calculate(name, start(name)).chart

    assert drawn is not None
    assert drawn.title
    assert drawn.description
    assert len(drawn.table()) > 1
    assert "<svg" in form_html(name)


@pytest.mark.parametrize("name", NAMES)
def test_title_is_not_the_function_name(name: str) -> None:
    """A form has a title in the words of the trade."""
    assert entry(name).title
    assert "_" not in entry(name).title


@pytest.mark.parametrize("name", NAMES)
def test_formula_neither_prints_nor_rounds(name: str) -> None:
    """A formula has no input or output of its own and does not round."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(formula(name))))
    called = {
        n.func.id
        for n in ast.walk(tree)
        if isinstance(n, ast.Call) and isinstance(n.func, ast.Name)
    }

    assert not called & {"print", "round", "open", "input"}


def test_forms_need_no_numpy() -> None:
    """Every form is answered where numpy cannot be imported, as in a browser.

    There linear algebra has another engine; here it is the one thing that may ask for numpy, so
    that a form either is answered or stops in `calc.linalg`.
    """
    code = (
        "import sys, traceback; sys.modules['numpy'] = None\n"
        "from calc.catalogue import FORMULAS, chart\n"
        "from calc.form import copying, fields\n"
        "from calc.form.answer import answer\n"
        "from calc.form.calculation import start\n"
        "answered = 0\n"
        "for name in FORMULAS:\n"
        "    chart(name)\n"
        "    try:\n"
        "        answered += not answer(name, start(name))['problems']\n"
        "    except ModuleNotFoundError as error:\n"
        "        last = traceback.extract_tb(error.__traceback__)[-1]\n"
        "        assert last.filename.endswith('linalg.py'), (name, last)\n"
        "assert answered > len(FORMULAS) / 2\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_one_symbol_has_one_meaning_in_a_form() -> None:
    """No two quantities of a form share a symbol.

    The modal mass of a shape that is one at the hub is the effective hub mass: one letter for both.
    """
    one_thing = {"Modal mass of this shape", "Effective hub mass"}
    for name in NAMES:
        meant: dict[str, str] = {}
        fields = [*inputs(formula(name)), *outputs(formula(name))]
        for table in [f.declaration for f in fields if isinstance(f.declaration, Table)]:
            fields += inputs(table.row)
        for f in fields:
            if isinstance(f.declaration, Quantity) and f.declaration.symbol:
                label = meant.setdefault(f.declaration.symbol, f.declaration.label)
                is_one = label == f.declaration.label or {label, f.declaration.label} == one_thing
                assert is_one, f"{name}: {f.declaration.symbol}"


def test_inputs_of_a_form_have_labels_of_their_own() -> None:
    """A reader, and above all one who hears the form, can tell every input from the others."""
    for name in NAMES:
        labels = [f.declaration.label for f in inputs(formula(name))]
        assert len(labels) == len(set(labels)), name


def test_one_label_has_one_symbol() -> None:
    """Number of blades, rotor speed, damping ratio and all others are written in one way."""
    written: dict[str, set[str]] = {}
    for name in NAMES:
        fields = [*inputs(formula(name)), *outputs(formula(name))]
        for table in [f.declaration for f in fields if isinstance(f.declaration, Table)]:
            fields += inputs(table.row)
        for f in fields:
            if isinstance(f.declaration, Quantity):
                written.setdefault(f.declaration.label, set()).add(f.declaration.symbol)

    assert {label: symbols for label, symbols in written.items() if len(symbols) > 1} == {}
    assert written["Number of blades"] == {"N_b"}
    assert written["Damping ratio"] == {r"\zeta"}
