"""The glossary: terms that the pages explain, under symbols that the formulas declare."""

import pytest

from scripts.environment import ROOT
from scripts.glossary import TERMS, anchor, glossary
from scripts.page import glossary_terms


@pytest.mark.parametrize("term", TERMS)
def test_page_that_explains_a_term_uses_it(term: str) -> None:
    """A reader who follows the link finds the word there."""
    page = (ROOT / "docs" / f"{TERMS[term]['page']}.md").read_text("utf-8").lower()
    assert term.lower() in page.replace("\n", " ")


@pytest.mark.parametrize("term", TERMS)
def test_term_has_one_sentence(term: str) -> None:
    """A term is said in a sentence, neither more nor less."""
    means = TERMS[term]["means"]
    assert means[0].isupper()
    assert means.count(".") == 1
    assert means.endswith(".")


def test_terms_stand_in_the_order_of_the_alphabet() -> None:
    """A reader can look a term up, and each has an anchor of its own."""
    assert list(TERMS) == sorted(TERMS, key=str.lower)
    assert len({anchor(term) for term in TERMS}) == len(TERMS)


def test_symbol_is_the_declared_one() -> None:
    """A term shows the letter that its form shows."""
    assert '<strong id="term-advance-ratio">Advance ratio</strong> ($\\mu$)' in glossary_terms()


def test_quantity_that_nothing_declares_is_refused() -> None:
    """A label that was changed in a declaration stops the build."""
    with pytest.raises(KeyError):
        glossary({})
