"""Lines: where in a file the sections and keys stand, for messages that name the line."""

import re

_TABLE = re.compile(r"\s*\[\[\s*\"?([\w-]+)\"?\s*\]\]")
_SECTION = re.compile(r"\s*\[\s*\"?([\w-]+)\"?\s*\]")
_KEY = re.compile(r"\s*\"?([\w-]+)\"?\s*=")

Place = tuple[str, int, str]
"""A section, the number of its row from zero, and a key; empty words for what does not apply."""


def lines_of(text: str) -> dict[Place, int]:
    """Return the line of every section and key, counted from one.

    A key in a text of several lines is taken for a key too, so that a line can be wrong where the
    file is stranger than a sheet ever is; it serves messages alone.
    """
    found: dict[Place, int] = {}
    rows: dict[str, int] = {}
    section, row = "", 0
    for number, line in enumerate(text.splitlines(), 1):
        if table := _TABLE.match(line):
            section = table[1]
            row = rows.get(section, 0)
            rows[section] = row + 1
            found[section, row, ""] = number
        elif single := _SECTION.match(line):
            section, row = single[1], 0
            found.setdefault((section, 0, ""), number)
        elif key := _KEY.match(line):
            found.setdefault((section, row, key[1]), number)
    return found


def line_at(lines: dict[Place, int], section: str, row: int, key: str) -> int:
    """Return the line of a key, else that of its section, else zero for the whole file."""
    places = (section, row, key), (section, row, ""), (section, 0, "")
    return next((lines[place] for place in places if place in lines), 0)
