"""Links once shared: what they name is there for ever."""

import re
import tomllib
from pathlib import Path

import pytest

from scripts.golden import FOLDER, SUMS, sums, versions
from scripts.link_keys import COMMAND, Keys, each, formula_keys, kept, page_keys

ID = re.compile(r'\bid="([^"]+)"')


def test_no_key_of_a_formula_is_lost() -> None:
    """No formula, input, column, option or unit that a link may hold goes or is renamed."""
    assert each(formulas(kept())) - each(formula_keys()) == set()


def test_new_keys_are_kept() -> None:
    """A key that a link may hold from now on is in the list."""
    assert each(formula_keys()) - each(kept()) == set(), f"Keep them by {COMMAND}"


def test_no_anchor_is_lost(site: Path) -> None:
    """No page, form, equation or figure that a link may name goes or is renamed."""
    assert each(pages(kept())) - each(page_keys(site)) == set()


def test_new_anchors_are_kept(site: Path) -> None:
    """An anchor that a link may name from now on is in the list."""
    assert each(page_keys(site)) - each(kept()) == set(), f"Keep them by {COMMAND}"


@pytest.mark.parametrize("version", versions())
def test_nothing_that_was_released_is_lost(site: Path, version: str) -> None:
    """Whatever a link could name in a release it can name now: pages, forms, keys, anchors.

    The list of a release does not change, so nothing can be taken from both lists.  A form that
    has moved leaves its name on a link to its new place.
    """
    then = tomllib.loads((FOLDER / version / "addresses.toml").read_text("utf-8"))
    assert formulas(then)
    assert each(formulas(then)) - each(formula_keys()) == set()
    assert pages(then)
    for name, entries in pages(then).items():
        page = (site / name).read_text("utf-8")
        assert set(entries["anchors"]) - set(ID.findall(page)) == set(), name


def test_lists_of_releases_are_as_they_were() -> None:
    """The files of an earlier release have the digests that were noted when it was followed."""
    assert SUMS.read_text("utf-8") == sums()


def formulas(keys: Keys) -> Keys:
    """Return those of formulas."""
    return {name: entries for name, entries in keys.items() if not name.endswith(".html")}


def pages(keys: Keys) -> Keys:
    """Return those of pages."""
    return {name: entries for name, entries in keys.items() if name.endswith(".html")}
