"""What is added to the theme's HTML."""

import pytest

from calc.catalogue import FORMULAS
from scripts import page
from scripts.markup import (
    with_names,
    with_scrolling_tables,
    without_neighbours,
    without_scripts_of_the_theme,
)


def test_markdown_table_gets_a_box() -> None:
    """A wide table scrolls by itself; a table made by a snippet with a class keeps its own."""
    page = "<table><tr><th>a</th></tr></table><table class='own'><tr></tr></table>"

    assert with_scrolling_tables(page) == (
        '<div class="scroll-box"><table class="table"><tr><th>a</th></tr></table></div>'
        "<table class='own'><tr></tr></table>"
    )


def test_empty_corner_is_no_heading() -> None:
    """A heading that says nothing is not read out."""
    page = '<table><tr><th style="text-align: right;"></th><th>a</th></tr></table>'

    assert '<td style="text-align: right;"></td><th>a</th>' in with_scrolling_tables(page)


def test_parts_of_the_theme_are_named() -> None:
    """A keyboard reaches what opens the menu, and a screen reader says what it is."""
    page = with_names('<label class="md-header__button md-icon" for="__drawer">')

    assert 'for="__drawer" role="button" tabindex="0" aria-label="Menu"' in page


def test_changed_theme_is_noticed() -> None:
    """A theme without the part that is named here must be looked at."""
    with pytest.raises(ValueError, match="no longer"):
        with_names("<div>")
    with pytest.raises(ValueError, match="no longer"):
        without_scripts_of_the_theme("<div>")


def test_neighbouring_pages_are_not_named_in_the_head() -> None:
    """Nothing is fetched ahead; a link that a reader follows stays."""
    kept = '<link rel="icon" href="a.svg"><a rel="next" href="c.html">Next</a>'
    page = f'<link rel="prev" href="a.html">\n  <link rel="next" href="../b/c.html">{kept}'

    assert without_neighbours(page) == kept


def test_formula_as_heading_is_named() -> None:
    """A heading that is a formula alone is read out as its LaTeX."""
    math = '<span class="katex"><annotation encoding="x">\\nu_\\beta</annotation><b>ν</b></span>'
    page = with_scrolling_tables(f"<table><tr><th>{math}</th><th>a</th></tr></table>")

    name = '<span class="visually-hidden">\\nu_\\beta</span>'
    assert f"<th>{name}{math}</th><th>a</th>" in page


def test_every_row_of_a_symbol_table_has_its_cells() -> None:
    """A bar in a symbol, as in the size of a complex number, ends no cell."""
    for table, bars in (page.symbols(*FORMULAS), 6), (page.symbol_list(), 5):
        assert "vert" in table
        assert [row for row in table.split("\n") if row.count("|") != bars] == []
