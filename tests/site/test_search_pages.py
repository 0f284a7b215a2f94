"""What the search knows of a page: its sections in plain text."""

import pytest

from scripts.formulas import formula as typeset
from scripts.search import Section, sections

PAGE = """<p>Before.</p>
<h1 id="top">Tip speed<a class="headerlink" href="#top">¶</a></h1>
<p>Speed of the <em>tips</em>: &Omega;R</p><ul><li>one</li><li>two</li></ul>
<div data-search-exclude><div>typed</div><p>left out</p></div>
<style>p { top: 0 }</style>
<h2 id="range">Range</h2>
<p>All<br>speeds</p>
"""


def test_sections_are_the_text_under_each_heading() -> None:
    """Text before the first heading goes by the title of the page; what is marked is left out."""
    assert sections(PAGE, "Speeds") == [
        Section("", "Speeds", "Before."),
        Section("top", "Tip speed", "Speed of the tips: ΩR one two"),
        Section("range", "Range", "All speeds"),
    ]


@pytest.mark.parametrize(
    ("formula", "shown"),
    [
        ("x^2 + y_i", "x^2+y_i"),
        (r"\frac{a + b}{2 c}", "(a+b)/(2c)"),
        (r"e^{-\sigma t}", "e^(−σt)"),
        (r"\sqrt{1 - \zeta^2}", "√(1−ζ^2)"),
        (r"\sqrt[3]{x}", "x^(1/3)"),
        (r"\dot{x} < \sum_{n=1}^N x_n'", "x\u0307<∑_(n=1)^Nx_n\N{PRIME}"),
        (r"\Omega_\mathrm{max}", "Ω_max"),
    ],
)
def test_formulas_keep_powers_indices_and_fractions(formula: str, shown: str) -> None:
    """A formula on one line: what is raised, lowered or divided is not run together."""
    (section,) = sections(f"<p>Here {typeset(formula)} stands.</p>", "Title")
    assert section.text == f"Here {shown} stands."


def test_page_without_a_heading_is_one_section() -> None:
    """Its title is that of the page."""
    assert sections("<p>Text</p>", "Title") == [Section("", "Title", "Text")]
