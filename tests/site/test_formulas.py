"""Formulas of the pages, set while the site is built."""

import re

import pytest

from scripts.formulas import FormulaError, formula, with_formulas


def marked(tex: str, *, display: bool = True) -> str:
    """Return a formula as the Markdown extension leaves it."""
    if display:
        return rf'<div class="arithmatex">\[{tex}\]</div>'
    return rf'<span class="arithmatex">\({tex}\)</span>'


def test_formula_keeps_its_latex_and_has_mathml() -> None:
    """Readers copy the LaTeX; screen readers use the MathML."""
    page = formula(r"\Omega R")

    assert '<annotation encoding="application/x-tex" data-search-exclude="true">\\Omega R<' in page
    assert '<mi mathvariant="normal">Ω</mi><mi>R</mi>' in page


@pytest.mark.parametrize("display", [False, True])
def test_elements_are_closed(display: bool) -> None:  # noqa: FBT001 - a parameter of the test
    """What is renamed for the search keeps the HTML whole."""
    page = formula(r"\sqrt{\frac{a}{b}}", display=display)

    for tag in "span", "katex-html", "math":
        assert len(re.findall(rf"<{tag}\b", page)) == page.count(f"</{tag}>") > 0


def test_labelled_formulas_are_numbered_and_referred_to() -> None:
    """The anchor is the author's label; the number is counted on the page."""
    page, problems = with_formulas(
        marked(r"\label{eq-tip-speed} V = \Omega R")
        + marked("a = b")
        + marked(r"\label{eq-advance-ratio}\mu = V / \Omega R")
        + marked(r"\eqref{eq-advance-ratio}", display=False)
    )

    assert problems == []
    assert re.findall(r'id="([^"]*)"', page) == ["eq-tip-speed", "eq-advance-ratio"]
    assert re.findall(r'aria-label="([^"]*)"', page) == ["Equation (1)", "Equation (2)"]
    assert page.endswith('<a class="equation-reference" href="#eq-advance-ratio">(2)</a>')
    assert "label{" not in page


def test_escaped_latex_is_read() -> None:
    """The Markdown extension escapes < and &."""
    page, problems = with_formulas(marked(r"a &lt; b", display=False))

    assert problems == []
    assert "<mi>a</mi><mo>&lt;</mo><mi>b</mi>" in page


@pytest.mark.parametrize(
    ("tex", "reason"),
    [
        (r"\frac{1", "end of input"),
        (r"\tipspeed", "Undefined control sequence"),
        ("5 µ", "Unrecognized Unicode character"),
        (r"\label{tip-speed} a", "must be eq-"),
        (r"\label{eq-a}\label{eq-b} a", "one label"),
        (r"\eqref{eq-nowhere}", "no formula of this page"),
    ],
)
def test_bad_formulas_are_reported(tex: str, reason: str) -> None:
    """A formula that cannot be set stays as it is, and the reason comes with it."""
    page, problems = with_formulas(marked(tex))

    assert page == marked(tex)
    assert len(problems) == 1
    assert reason in problems[0]


def test_one_label_for_two_formulas_is_reported() -> None:
    """An anchor leads to one place."""
    _, problems = with_formulas(marked(r"\label{eq-a} a") + marked(r"\label{eq-a} b"))

    assert problems == ["two formulas are labelled eq-a"]


def test_formula_raises_what_is_wrong() -> None:
    """A caller in Python gets the reason as an error."""
    with pytest.raises(FormulaError, match="Undefined control sequence"):
        formula(r"\tipspeed")
