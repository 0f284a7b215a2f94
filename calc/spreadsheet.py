"""Spreadsheet: rows as comma-separated values that a program for tables reads as they are meant."""

import csv
import io
from collections.abc import Iterable, Sequence


def rows_of(rows: Iterable[Sequence[str]], line_end: str = "\r\n") -> str:
    r"""Return rows as comma-separated values, each cell guarded by `cell`.

    Args:
        rows: Rows of cells.
        line_end: What ends a line.

    Returns:
        The text of a file.

    Examples:
        >>> rows_of([["a, b", "=1+2", "-3"]], "|")
        '"a, b",\'=1+2,-3|'
    """
    out = io.StringIO()
    csv.writer(out, lineterminator=line_end).writerows(
        [[cell(text) for text in row] for row in rows]
    )
    return out.getvalue()


def cell(text: str) -> str:
    """Return text that is not taken for something to compute: what might be gets a quote first."""
    return f"'{text}" if text[:1] in {"=", "+", "-", "@", "\t"} and not is_number(text) else text


def is_number(text: str) -> bool:
    """Return whether a cell is a number."""
    try:
        float(text)
    except ValueError:
        return False
    return True
