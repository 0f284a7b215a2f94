"""What is added to the theme's HTML."""

import pytest

from scripts.markup import with_names, with_scrolling_tables


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


def test_search_is_named() -> None:
    """A screen reader says what the dialogue is for."""
    page = '<div data-md-component="search" role="dialog">'

    assert 'role="dialog" aria-label="Search"' in with_names(page)


def test_changed_theme_is_noticed() -> None:
    """A theme without the part that is named here must be looked at."""
    with pytest.raises(ValueError, match="no longer"):
        with_names("<div>")
