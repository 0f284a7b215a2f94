"""Symbols as text and as MathML."""

import importlib
import pkgutil
from xml.etree import ElementTree as ET

import pytest

import calc
from calc import symbol
from calc.declaration import Choice, Name, Table
from calc.quantity import Quantity
from scripts.formulas import formula as typeset


@pytest.mark.parametrize(
    ("latex", "text", "mathml"),
    [
        ("V_t", "V_t", "<msub><mi>V</mi><mi>t</mi></msub>"),
        (r"\Omega", "Ω", "<mi>Ω</mi>"),
        (
            "M_{1,90}",
            "M_1,90",
            "<msub><mi>M</mi><mrow><mn>1</mn><mo>,</mo><mn>90</mn></mrow></msub>",
        ),
        (r"\beta_{1c}", "β_1c", "<msub><mi>β</mi><mrow><mn>1</mn><mi>c</mi></mrow></msub>"),
        (
            r"\bar{M}_x",
            "M\u0304_x",
            '<msub><mover accent="true"><mi>M</mi><mo>¯</mo></mover><mi>x</mi></msub>',
        ),
        (
            r"V_{\mathrm{max}}^2",
            "V_max²",
            "<msubsup><mi>V</mi><mi>max</mi><mn>2</mn></msubsup>",
        ),
        (r"\mathrm{d}", "d", '<mi mathvariant="normal">d</mi>'),
        ("x'", "x\N{PRIME}", "<msup><mi>x</mi><mo>\N{PRIME}</mo></msup>"),
        (
            "K''",
            "K\N{PRIME}\N{PRIME}",
            "<msup><mi>K</mi><mrow><mo>\N{PRIME}</mo><mo>\N{PRIME}</mo></mrow></msup>",
        ),
        (
            r"\frac{1}{2} k_v",
            "1/2k_v",
            "<mrow><mfrac><mn>1</mn><mn>2</mn></mfrac><msub><mi>k</mi><mi>v</mi></msub></mrow>",
        ),
        (r"\Delta T", "ΔT", "<mrow><mi>Δ</mi><mi>T</mi></mrow>"),
    ],
)
def test_symbol_is_shown(latex: str, text: str, mathml: str) -> None:
    """The text and the MathML are those that a typesetter would write by hand."""
    assert symbol.text(latex) == text
    assert symbol.mathml(latex) == mathml


def test_phi_and_epsilon_have_the_forms_of_latex() -> None:
    """LaTeX draws the straight phi and the lunate epsilon without `var`; HTML the other way."""
    assert symbol.text(r"\phi\varphi\epsilon\varepsilon") == "\u03d5\u03c6\u03f5\u03b5"


@pytest.mark.parametrize(
    ("latex", "message"),
    [
        ("", "must not be empty"),
        (r"\sqrt{a}", r"\\sqrt, which is not covered"),
        ("V_", "ends too early"),
        ("_t", "nothing stands before _"),
        ("{a", "lacks a closing brace"),
        ("a}", "}, which is not covered"),
        ("a^2^3", "two scripts in one place"),
        ("V<script>", "'<', which is not covered"),
    ],
)
def test_what_is_not_covered_is_refused(latex: str, message: str) -> None:
    """Anything beyond the restricted LaTeX is refused by name, never passed on."""
    with pytest.raises(ValueError, match=message):
        symbol.mathml(latex)
    with pytest.raises(ValueError, match=message):
        symbol.text(latex)


def declared_symbols() -> list[str]:
    """Return the symbols of all declarations in the package."""
    found = set()
    for module in pkgutil.walk_packages(calc.__path__, "calc."):
        for value in vars(importlib.import_module(module.name)).values():
            if isinstance(value, Quantity | Choice | Name | Table) and value.symbol:
                found.add(value.symbol)
    return sorted(found)


@pytest.mark.parametrize("latex", declared_symbols())
def test_every_declared_symbol_can_be_shown(latex: str) -> None:
    """Each can be set by LaTeX, as MathML of one element, and as text without LaTeX in it."""
    assert typeset(latex)
    ET.fromstring(symbol.mathml(latex))  # noqa: S314  our own text
    assert not set(symbol.text(latex)) & set("\\{}")
