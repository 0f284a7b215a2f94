"""The working of a calculation agrees with its formula."""

import ast
import importlib
import inspect
import math
import pkgutil
from collections.abc import Iterable
from typing import Any
from xml.etree import ElementTree as ET

import pytest

import calc
from calc.catalogue import FORMULAS
from calc.declaration import arguments, inputs
from calc.digits import significant
from calc.form.calculation import calculate, start
from calc.working import LaTeX, MathML, Step, Text, flat, run, steps
from calc.working.scope import declared_outputs
from calc.working.source import parts, statements
from scripts.formulas import formula as typeset
from tests.working.formulas import (
    alike,
    awkward,
    branched,
    cancelling,
    constant,
    doubly,
    helped,
    hidden,
    looped,
    secret,
    state,
    tip_speed,
    whole,
    wrapped,
)


def spoken(formula: Any, values: dict[str, Any]) -> list[Step]:
    """Return the working in plain text."""
    return steps(run(formula, values))


def texts(found: Iterable[Step]) -> list[str]:
    """Return the lines of a working with typed signs for the typographic ones."""
    typed = str.maketrans("\N{MINUS SIGN}\N{MULTIPLICATION SIGN}", "-x")
    return [(step.line or step.heading).translate(typed) for step in flat(found)]


def test_one_line() -> None:
    """Symbols, then numbers with units, then the value with its unit."""
    values = {"radius": 5.5, "rotor_speed": 395.0 * math.pi / 30.0}
    [step] = spoken(tip_speed, values)

    assert texts([step]) == ["V_t = R · Ω = 5.5 m x 41.36 rad/s = 227.5 m/s"]
    assert step.evaluable == "5.5 * 41.36"
    [latex] = steps(run(tip_speed, values), LaTeX())
    assert latex.line == (
        r"V_t &= R \cdot \Omega = 5.5\,\mathrm{m} \times 41.36\,\mathrm{rad/s}"
        r" = 227.5\,\mathrm{m/s}"
    )
    [mathml] = steps(run(tip_speed, values), MathML())
    assert mathml.line.startswith(
        '<math display="block"><msub><mi>V</mi><mi>t</mi></msub><mo>=</mo>'
    )


def test_formula_within_a_formula_stands_before_what_uses_it() -> None:
    """The lines of a formula with one result are read like those of the one that calls it."""
    found = spoken(state, {"radius": 5.5, "rotor_speed": 40.0})

    assert texts(found) == [
        "V_t = R · Ω = 5.5 m x 40 rad/s = 220.0 m/s",
        "μ = V / V_t = 60 m/s / (220 m/s) = 0.2727",
    ]


def test_result_of_another_formula_is_its_working() -> None:
    """A formula that only calls another one shows what that does."""
    assert texts(spoken(whole, {"airspeed": 60.0})) == [
        "V_t = R · Ω = 5.5 m x 40 rad/s = 220.0 m/s",
        "μ = V / V_t = 60 m/s / (220 m/s) = 0.2727",
    ]


def test_result_that_a_private_function_makes_is_shown_by_its_numbers() -> None:
    """What went in stands before under its name; the docstring of the function is not shown."""
    found = spoken(wrapped, {"airspeed": 60.0})

    assert texts(found) == [
        "State",
        "V_t = R · Ω = 5.5 m x 40 rad/s = 220.0 m/s",
        "μ = V / V_t = 60 m/s / (220 m/s) = 0.2727",
        "V_t = 440.0 m/s",
        "μ = 0.5455",
    ]
    assert not any(step.remark for step in flat(found))


@pytest.mark.parametrize(
    ("airspeed", "lines", "condition"),
    [
        (40.0, ["μ = V / 100 = 40 m/s / 100 = 0.4000"], "V ≤ 50"),
        (
            60.0,
            [
                "excess of airspeed = V - 50 = 60 m/s - 50 = 10.00 m/s",
                "μ = 0.5 + excess of airspeed / 200 = 0.5 + 10 m/s / 200 = 0.5500",
            ],
            "V > 50",
        ),
    ],
)
def test_branch_that_holds_is_shown_with_its_reason(
    airspeed: float, lines: list[str], condition: str
) -> None:
    """Only the branch that was taken is shown, and the first line of it says why."""
    found = spoken(branched, {"airspeed": airspeed})

    assert texts(found) == lines
    assert found[0].condition == condition


def test_search_is_one_line_and_its_answer_is_evaluated() -> None:
    """A declared search says how it went, and what it solved is shown at the answer."""
    found = spoken(helped, {"airspeed": 60.0})

    assert texts(found) == ["r = 10.95", "μ = r² = 10.954² = 120.0"]
    assert [step.remark for step in found] == ["by halving an interval", "at the answer"]


def test_constant_has_its_symbol_and_unit() -> None:
    """A declared constant reads like an input."""
    assert texts(spoken(constant, {"radius": 5.0})) == ["μ = R / L_0 = 5 m / 2.5 m = 2.000"]


def test_undeclared_name_is_put_in_where_it_is_used() -> None:
    """The name of a local is never shown."""
    assert texts(spoken(hidden, {"airspeed": 60.0})) == [
        (
            "μ = (V / 2 + 1) / (V / 2 · (V / 2))"
            " = (60 m/s / 2 + 1) / (60 m/s / 2 x (60 m/s / 2)) = 0.03444"
        )
    ]


def test_number_from_nowhere_is_not_put_in() -> None:
    """A line with a number that nothing declares is shown by its value alone."""
    assert texts(spoken(secret, {"airspeed": 60.0})) == [
        "V_t = 2 · V = 2 x 60 m/s = 120.0 m/s",
        "μ = 2.000",
    ]


def test_what_is_no_arithmetic_is_shown_by_its_value() -> None:
    """Tuples, lists, comprehensions, loops and local functions do not stop the working."""
    assert texts(spoken(awkward, {"airspeed": 60.0})) == [
        "V_t = 146.0 m/s",
        "μ = V / (V + 10) = 60 m/s / (60 m/s + 10) = 0.8571",
    ]


def test_nothing_is_shown_twice() -> None:
    """A formula that is called twice with the same numbers is shown once."""
    assert texts(spoken(doubly, {"radius": 5.0})) == [
        "V_t = R · Ω = 5 m x 40 rad/s = 200.0 m/s",
        "tip speed = V_t + 1 = 200 m/s + 1 = 201.0 m/s",
        "μ = V_t / 10 = 200 m/s / 10 = 20.00",
    ]


def test_what_cannot_be_followed_has_no_working() -> None:
    """A value alone is no working; the result says it already."""
    assert spoken(looped, {"airspeed": 60.0}) == []


def test_formula_without_source_has_no_working() -> None:
    """A formula typed at a prompt has no source to read, but it runs."""
    names: dict[str, Any] = {**tip_speed.__globals__}
    exec(inspect.getsource(tip_speed).replace("tip_speed", "typed"), names)  # noqa: S102  above
    done = run(names["typed"], {"radius": 2.0, "rotor_speed": 3.0})

    assert done.result == 6.0
    assert steps(done) == []


def test_line_that_cancels_has_the_digits_it_needs() -> None:
    """Four digits would lose the difference; as many are put in as it takes."""
    [step] = spoken(cancelling, {"airspeed": 1.0})

    assert step.evaluable == "1 / 3 + 10000000 - 10000000"


def test_local_does_not_take_the_symbol_of_an_input() -> None:
    """A number that is the same quantity as an input goes by its label; its unit stays."""
    assert texts(spoken(alike, {"density": 1.2, "radius": 2.0})) == [
        "density = 2.400 kg/m³",
        "m = (density - d) · R³ = (2.4 kg/m³ - 1.2 kg/m³) x (2 m)³ = 9.600 kg",
    ]


def test_refused_input_is_refused() -> None:
    """The run checks what the formula checks."""
    with pytest.raises(ValueError, match="Radius must be above 0 m"):
        run(tip_speed, {"radius": -1.0, "rotor_speed": 40.0})


def formulas() -> list[Any]:
    """Return every public formula of the package whose inputs all have an example."""
    found = []
    for module in pkgutil.walk_packages(calc.__path__, "calc."):
        for value in vars(importlib.import_module(module.name)).values():
            own = inspect.isfunction(value) and value.__module__ == module.name
            if own and declared_outputs(value) and inputs(value):
                found.append(value)
    return found


@pytest.mark.parametrize("formula", formulas(), ids=lambda f: f"{f.__module__}.{f.__name__}")
def test_every_formula_agrees_with_its_working(formula: Any) -> None:
    """The run is the formula; each line gives its value as shown, and can be set in each notation.

    A reader who types the numbers of a line finds every digit that it shows.
    """
    values = {field.name: field.start for field in inputs(formula)}
    given = arguments(formula, values)
    done = run(formula, given)
    assert repr(done.result) == repr(formula(**given))

    for step in flat(steps(done)):
        if step.evaluable:
            value = eval(step.evaluable, {"math": math})  # noqa: S307  the line under test
            assert significant(value) == significant(step.value), step.line
    for step in flat(steps(done, MathML())):
        assert step.heading or ET.fromstring(step.line).tag == "math"  # noqa: S314  our own text
    for step in flat(steps(done, LaTeX())):
        assert step.heading or typeset(
            rf"\begin{{aligned}}{step.line}\end{{aligned}}", display=True
        )


@pytest.mark.parametrize("name", FORMULAS)
def test_working_reads_well(name: str) -> None:
    """No line stands twice, none is too long, and a value that stands alone says where from."""
    found = [step for step in flat(calculate(name, start(name)).working(Text())) if step.line]
    lines = [step.line for step in found]

    assert len(lines) == len(set(lines))
    for line in lines:
        assert len(line) <= 250, line
    alone = [step for step in found if step.line.count(" = ") == 1]
    assert not alone or alone[0].remark, alone[0].line


@pytest.mark.parametrize("formula", formulas(), ids=lambda f: f"{f.__module__}.{f.__name__}")
def test_constants_are_declared(formula: Any) -> None:
    """A number of a module that a formula uses in its arithmetic has a symbol and a unit."""
    used = {
        part.id
        for statement in statements(formula)
        for whole in parts(statement)
        if isinstance(whole, ast.BinOp)
        for part in (whole.left, whole.right)
        if isinstance(part, ast.Name) and isinstance(part.ctx, ast.Load)
    }
    bare = [n for n in used if type(formula.__globals__.get(n)) is float]

    assert bare == []
