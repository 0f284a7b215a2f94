"""Comma-separated values: read back by the standard library, and harmless in a spreadsheet."""

import csv
import io

import pytest

from calc.spreadsheet import cell, rows_of


def test_rows_are_read_back() -> None:
    """Commas, quotes and line ends within a cell stay what they are."""
    rows = [["a, b", 'say "c"', "two\nlines"], ["", "−3", "1e-9"]]
    assert list(csv.reader(io.StringIO(rows_of(rows), newline=""))) == rows


@pytest.mark.parametrize("text", ["=1+2", "+cmd", "-", "@sum", "\t=1"])
def test_what_a_spreadsheet_would_compute_is_marked_as_text(text: str) -> None:
    """A cell that begins like a formula and is no number gets a quote."""
    assert cell(text) == f"'{text}"


@pytest.mark.parametrize("text", ["-3", "+1.5e-9", "-inf", "speed", ""])
def test_numbers_and_words_stay_as_they_are(text: str) -> None:
    """A negative number is no formula."""
    assert cell(text) == text
