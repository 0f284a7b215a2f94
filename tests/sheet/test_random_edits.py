"""Random edits of the data sheet by typing: no value is lost, no survey is another sheet's."""

from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.sheet.wanderer import Wanderer


def test_short_walk(page: Page, tmp_path: Path) -> None:
    """Some edits in random order, and some that are taken back one after the other."""
    reader = Wanderer(page, 5, tmp_path)
    for _ in range(25):
        reader.step(reader.any())
    for does in (reader.open_example, reader.type_value, reader.type_title, reader.save):
        reader.step(does)
    for _ in range(3):
        reader.step(reader.undo)
    assert reader.wrong == []


@pytest.mark.thorough
@pytest.mark.parametrize("seed", range(1, 9))
def test_long_walk(seed: int, page: Page, tmp_path: Path) -> None:
    """A hundred and fifty edits in random order, with surveys between them, eight times."""
    reader = Wanderer(page, seed, tmp_path)
    for number in range(150):
        reader.step(reader.survey if number % 50 == 49 else reader.any())
    assert reader.wrong == []
