"""Expressions written by each pen: the brackets must keep the meaning."""

import ast
import math
import re
from xml.etree import ElementTree as ET

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calc.quantity import Quantity
from calc.units import ANGLE, DENSITY, LENGTH, SPEED
from calc.working.expression import Expression, UnreadableError, put_in
from calc.working.latex import LaTeX
from calc.working.mathml import MathML
from calc.working.pens import Python, Text
from calc.working.scope import Scope

NAMES = {"a": 1.25, "b": -0.75, "c": 3e-5, "n": 2}
QUANTITIES = {
    "a": Quantity("a", "Length", LENGTH),
    "b": Quantity("b", "Speed", SPEED),
    "c": Quantity("c", "Density", DENSITY),
    "n": Quantity("n", "Angle", ANGLE),
}
RAISED = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")


def scope() -> Scope:
    """Return what the names below stand for."""
    return Scope({**NAMES, "math": math}, dict(QUANTITIES))


def parsed(source: str) -> ast.expr:
    """Return the tree of an expression."""
    return ast.parse(source, mode="eval").body


def pair(values: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    """Return expressions one level larger."""
    return st.one_of(
        st.tuples(values, st.sampled_from("+-*/"), values).map(lambda v: f"({v[0]} {v[1]} {v[2]})"),
        st.tuples(values, st.sampled_from(["2", "3", "n"])).map(lambda v: f"({v[0]})**{v[1]}"),
        values.map(lambda v: f"(-{v})"),
        st.sampled_from(["abs(b)", "abs(b - a)"]),
        values.map(lambda v: f"math.cos({v})"),
        values.map(lambda v: f"math.sqrt({v} * {v} + 1.0)"),
        st.tuples(values, values).map(lambda v: f"math.hypot({v[0]}, {v[1]})"),
    )


EXPRESSIONS = st.recursive(st.sampled_from([*NAMES, "2.0", "0.5", "math.pi"]), pair, max_leaves=12)


def value_of(source: str) -> float:
    """Return the value of an expression, or leave out one without a moderate value."""
    try:
        value = float(eval(source, {**NAMES, "math": math}))  # noqa: S307  made above
    except ArithmeticError:
        value = math.nan
    assume(1e-6 < abs(value) < 1e6)
    return value


@settings(deadline=5_000)  # ms; a busy machine is no fault
@given(EXPRESSIONS)
def test_python_line_has_the_value_of_the_source(source: str) -> None:
    """The line with all digits put in has the very value of the source, but for the last bits."""
    value = value_of(source)
    line = Expression(Python(), scope(), 17, numbers=True).write(parsed(source)).text

    assert eval(line, {"math": math}) == pytest.approx(value, rel=1e-9)  # noqa: S307  ours


@pytest.mark.parametrize("numbers", [False, True])
@settings(deadline=5_000)  # ms; a busy machine is no fault
@given(source=EXPRESSIONS)
def test_text_reads_like_the_source(source: str, *, numbers: bool) -> None:
    """Read back as a reader would, the plain text has the value of the source."""
    value = value_of(source)
    text = Expression(Text(), scope(), 17, numbers=numbers).write(parsed(source)).text

    assert read_as_text(text) == pytest.approx(value, rel=1e-9)


def read_as_text(text: str) -> float:
    """Return the value of plain text: units dropped, signs and raised numbers turned to Python."""
    for unit in (" kg/m³", " m/s", " rad", " m"):
        text = re.sub(rf"(?<=[0-9⁰¹²³⁴⁵⁶⁷⁸⁹]){unit}(?![a-z])", "", text)
    text = re.sub("×10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)", lambda m: f"e{m[1].translate(RAISED)}", text)
    text = re.sub("(?<=[0-9a-zπ|)])([⁰¹²³⁴⁵⁶⁷⁸⁹]+)", lambda m: f"**{m[1].translate(RAISED)}", text)
    text = re.sub(r"√(\w+(?:\.\w+)?|π)", r"sqrt(\1)", text).replace("√(", "sqrt(")
    while "|" in text:
        text = re.sub(r"\|([^|]*)\|", r"abs(\1)", text, count=1)
    for sign, python in {"·": "*", "\N{MULTIPLICATION SIGN}": "*", "^": "**", "π": "pi"}.items():
        text = text.replace(sign, python)
    text = text.replace("\N{MINUS SIGN}", "-")
    return float(eval(text, {**NAMES, **vars(math)}))  # noqa: S307  made above


@settings(deadline=5_000)  # ms; a busy machine is no fault
@given(EXPRESSIONS)
def test_mathml_is_well_formed_and_latex_balanced(source: str) -> None:
    """MathML parses, powers and fractions have two children each, and LaTeX closes its braces."""
    for numbers in (False, True):
        piece = Expression(MathML(), scope(), numbers=numbers).write(parsed(source))
        tree = ET.fromstring(f"<math>{piece.text}</math>")  # noqa: S314  our own text
        assert all(len(part) == 2 for tag in ("mfrac", "msup") for part in tree.iter(tag))
        latex = Expression(LaTeX(), scope(), numbers=numbers).write(parsed(source)).text
        assert latex.count("{") == latex.count("}")
        assert latex.count(r"\left") == latex.count(r"\right")


@pytest.mark.parametrize(
    ("source", "symbols", "numbers"),
    [
        ("a * b / (a * b)", "a · b / (a · b)", "1.25 m × (−0.75 m/s) / (1.25 m × (−0.75 m/s))"),
        ("a - (b - a)", "a − (b − a)", "1.25 m − (−0.75 m/s − 1.25 m)"),
        ("-a**2", "−a²", "−(1.25 m)²"),
        ("(-a)**2", "(−a)²", "(−1.25 m)²"),
        ("a**-2", "a^(−2)", "(1.25 m)^(−2)"),
        ("a**b**2", "a^(b²)", "(1.25 m)^((−0.75 m/s)²)"),
        ("2.0 * c", "2 · c", "2 × 3×10⁻⁵ kg/m³"),
        ("a / c", "a / c", "1.25 m / (3×10⁻⁵ kg/m³)"),
        ("math.atan2(a, b)", "atan2(a, b)", "atan2(1.25 m, −0.75 m/s)"),
        ("math.fsum((a, b, a))", "a + b + a", "1.25 m + (−0.75 m/s) + 1.25 m"),
        ("math.pow(a, 3)", "a³", "(1.25 m)³"),
        ("math.acos(a - 1)", "arccos(a − 1)", "arccos(1.25 m − 1)"),
        ("a if a > 0 else b", "a", "1.25 m"),
    ],
)
def test_signs_and_brackets(source: str, symbols: str, numbers: str) -> None:
    """Brackets stand where a reader needs them, and nowhere else."""
    assert Expression(Text(), scope()).write(parsed(source)).text == symbols
    written = Expression(Text(), scope(), numbers=True).write(parsed(source))
    assert written.text == numbers


@pytest.mark.parametrize(
    "source", ["[a, b]", "'word'", "a @ b", "a < b < n", "not a", "(lambda: a)()", "1j * a"]
)
def test_what_is_not_arithmetic_is_refused(source: str) -> None:
    """The caller is told, and can show the value alone."""
    with pytest.raises(UnreadableError):
        Expression(Text(), scope()).write(parsed(source))


def test_latex_of_a_fraction_with_units() -> None:
    """Units stand upright, with raised numbers and thin spaces."""
    numbers = Expression(LaTeX(), scope(), numbers=True).write(parsed("b**2 / c"))

    assert numbers.text == (
        r"\frac{{\left(-0.75\,\mathrm{m/s}\right)}^{2}}{3 \times 10^{-5}\,\mathrm{kg/m^{3}}}"
    )


def test_symbol_that_is_a_fraction_is_bracketed_in_a_power() -> None:
    """Blade loading, whose symbol is a fraction itself, stays whole."""
    known = scope()
    known.quantities["a"] = Quantity(r"C_T/\sigma", "Blade loading")

    assert Expression(Text(), known).write(parsed("a**2")).text == "(C_T/σ)²"
    assert Expression(Text(), known).write(parsed("b / a")).text == "b / (C_T/σ)"


def test_words_are_bracketed_in_a_power() -> None:
    """Without brackets the last word alone would seem to be raised."""
    known = Scope(
        {"one": 2.0, "two": 2.0},
        {"one": Quantity("", "Spring part"), "two": Quantity("", "Part")},
    )

    assert Expression(Text(), known).write(parsed("one**2")).text == "(spring part)²"
    assert Expression(Text(), known).write(parsed("two**2")).text == "part²"


@pytest.mark.parametrize(
    ("value", "digits", "shown"),
    [
        (219.911486, 4, "219.9"),
        (53936.575, 4, "53937"),
        (288.15, 4, "288.15"),
        (0.0065, 4, "0.0065"),
        (1.25e-7, 4, "1.25e-07"),
        (1.23456789e-7, 4, "1.235e-7"),
        (640000.0, 4, "640000"),
        (2, 4, "2"),
        (1 / 3, 17, "0.3333333333333333"),
    ],
)
def test_number_is_put_in_with_a_sensible_number_of_digits(
    value: float, digits: int, shown: str
) -> None:
    """A short number stays as it is; a long one is rounded, but never before its units."""
    assert put_in(value, digits) == shown


def test_long_equation_has_a_row_for_each_part() -> None:
    """What is too long for a page is broken at its signs of equality."""
    pen = MathML()
    short = pen.line([pen.words("a"), pen.number("1")])
    long = pen.line([pen.words("a" * 40), pen.words("b" * 40), pen.number("1")])

    assert "<mtable" not in short
    assert len(list(ET.fromstring(long).iter("mtr"))) == 2  # noqa: S314  our own text
