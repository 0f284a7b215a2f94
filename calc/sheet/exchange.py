"""Exchange: a data sheet as a page of the browser holds it, and what differs between two."""

from collections.abc import Mapping
from typing import Any

from calc.sheet.compare import differences, where
from calc.sheet.file import Opened, opened, written
from calc.sheet.layout import Section, sections
from calc.sheet.sheet import UNKNOWN, Row, Sheet, Value

Held = dict[str, Any]
"""A sheet made of what JSON knows: title, note, values by `section.name`, rows by section."""

MOST_TOLD = 200
"""Differences that are told one by one."""


def file_opened(content: str) -> Held:
    """Return the sheet of a file for a page, or its problems, and the changes of an upgrade.

    Args:
        content: The bytes of the file, each as the character of its number.
    """
    return _told(opened(content.encode("latin-1")))


def file_made(sheet: Held) -> Held:
    """Return the text of the file of a sheet that a page holds, and what is wrong with it."""
    text = written(sheet_of(sheet))
    return {"text": text, **_told(opened(text.encode("utf-8")))}


def compared(before: Held, after: Held) -> list[dict[str, str]]:
    """Return what differs between two sheets that a page holds: where, label, before and after."""
    found = differences(sheet_of(before), sheet_of(after))
    told = [one._asdict() | {"where": where(one.place)} for one in found[:MOST_TOLD]]
    if len(found) > MOST_TOLD:
        more = f"and {len(found) - MOST_TOLD} more differences"
        told.append({"place": "", "where": "", "label": more, "before": "", "after": ""})
    return told


def held(sheet: Sheet) -> Held:
    """Return a sheet as a page holds it."""
    return {
        "title": sheet.title,
        "note": sheet.note,
        "values": {place: _triple(value) for place, value in sheet.values.items()},
        "rows": {key: list(map(_row_held, rows)) for key, rows in sheet.rows.items()},
    }


def sheet_of(content: Held) -> Sheet:
    """Return the sheet that a page holds; what it cannot hold is left out."""
    values = {
        f"{part.key}.{f.name}": _value(content["values"][f"{part.key}.{f.name}"])
        for part in sections()
        for f in part.fields
        if not part.is_table and f"{part.key}.{f.name}" in content["values"]
    }
    rows = {
        part.key: tuple(_row_of(part, row) for row in content["rows"].get(part.key, ()))
        for part in sections()
        if part.is_table
    }
    return Sheet(str(content["title"]), str(content["note"]), values, rows)


def _told(found: Opened) -> Held:
    """Return what was opened, with problems by field and line."""
    return {
        "sheet": None if found.sheet is None else held(found.sheet),
        "problems": [
            {"line": problem.line, "field": problem.field, "message": problem.message}
            for problem in found.problems
        ],
        "changes": list(found.changes),
    }


def _triple(value: Value) -> list[str]:
    return [value.text, value.origin, value.tolerance]


def _value(triple: Any) -> Value:
    text, origin, tolerance = map(str, triple)
    return Value(text if text.strip() else UNKNOWN, origin or UNKNOWN, tolerance)


def _row_held(row: Row) -> dict[str, list[str]]:
    return {name: _triple(value) for name, value in row.items()}


def _row_of(part: Section, row: Mapping[str, Any]) -> Row:
    return {f.name: _value(row[f.name]) for f in part.fields if f.name in row}
