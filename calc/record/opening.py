"""Opening: what a file is taken to hold, as fields that a reader changes, and the reading of it."""

from collections.abc import Mapping
from html import escape
from typing import Any

from calc.digits import plain
from calc.measurement import desk, synthetic
from calc.measurement.reading.heading import Column
from calc.measurement.reading.layout import Layout, layout
from calc.measurement.reading.settings import (
    CLOCK,
    DECIMALS,
    EDGES,
    ROLES,
    SEPARATORS,
    TIME_UNITS,
    Settings,
    settings_of,
)

FIRST_ROWS = 3


def guessed(text: str, whole: bool, changed: Mapping[str, str]) -> dict[str, Any]:  # noqa: FBT001 - from JSON
    """Return what a file is taken to hold as fields, and whether it can be read so.

    Args:
        text: The beginning of the file.
        whole: Whether that is all of it.
        changed: What the reader has entered, by the name of the field; the rest is guessed.
    """
    try:
        settings = _settings("", changed)
        found = layout(text, settings, whole=whole)
    except ValueError as error:
        told = f'<p class="warning"><strong>Cannot be read so</strong> {escape(str(error))}</p>'
        return {"html": told + _fields(None, changed), "readable": False}
    asked = "".join(
        f'<p class="warning"><strong>Question</strong> {escape(question.text)}.</p>'
        for question in found.questions
    )
    asked = asked.replace("?.", "?")
    return {
        "html": asked + _fields(found, changed) + _columns(found.columns),
        "readable": not found.questions,
    }


def begun(entries: Mapping[str, str], name: str) -> None:
    """Begin to read a file; what was read before is dropped.

    Args:
        entries: What the reader has entered, by the name of the field.
        name: The name of the file.

    Raises:
        ValueError: If an entry cannot be.
    """
    desk.begin(_settings_given(name, entries))


def example(key: str) -> dict[str, str]:
    """Return an example record as a file: its name and its text.

    Raises:
        ValueError: If there is none under that key.
    """
    return {"name": f"{key}.csv", "text": synthetic.example(key)}


def _settings(name: str, entries: Mapping[str, str]) -> Settings:
    return settings_of(_settings_given(name, entries))


def _settings_given(name: str, entries: Mapping[str, str]) -> dict[str, Any]:
    """Return entries as settings; a column is entered field by field, as `role.3`."""
    given: dict[str, Any] = {"name": name}
    columns: dict[int, dict[str, Any]] = {}
    for key, text in entries.items():
        what, dot, index = key.partition(".")
        if dot:
            columns.setdefault(int(index), {"index": int(index)})[what] = text
        elif text.strip() or what == "edge":
            given[what] = text if what in {"separator", "edge"} else text.strip()
    for key in ("sample_rate", "threshold"):
        if key in given:
            given[key] = _number(key, given[key])
    return {**given, "columns": list(columns.values())}


def _number(key: str, text: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise ValueError(
            f"{key.capitalize().replace('_', ' ')} must be a number, not {text}"
        ) from None


def _fields(found: Layout | None, changed: Mapping[str, str]) -> str:
    """Return the fields about the whole file, as guessed or as entered."""
    separator = found.separator if found else changed.get("separator", "")
    decimal = found.decimal if found else changed.get("decimal", "")
    heading = str(found.header_lines) if found else changed.get("header_lines", "")
    parts = [
        _choice("separator", "Columns are set apart by", SEPARATORS, separator, "?"),
        _choice("decimal", "Decimal mark", DECIMALS, decimal, "?"),
        _entry("header_lines", "Lines before the numbers", heading),
    ]
    if found is None:
        return f'<div class="record-fields">{"".join(parts)}</div>'
    roles = {column.role for column in found.columns}
    if "time" in roles:
        kinds = TIME_UNITS if found.time_unit == CLOCK else _without_clock()
        parts.append(_choice("time_unit", "Unit of time", kinds, found.time_unit))
    else:
        rate = changed.get("sample_rate") or (plain(found.sample_rate) if found.sample_rate else "")
        parts.append(_entry("sample_rate", "Sample rate (Hz)", rate))
    if "pulses" in roles:
        pulses = changed.get("pulses_per_revolution", "1")
        parts.append(_entry("pulses_per_revolution", "Pulses a revolution", pulses))
        level = changed.get("threshold", "")
        parts.append(_entry("threshold", "Level of a pulse", level, "half way"))
        parts.append(_choice("edge", "Edge of a pulse", EDGES, changed.get("edge", "")))
    return f'<div class="record-fields">{"".join(parts)}</div>'


def _without_clock() -> dict[str, str]:
    return {key: words for key, words in TIME_UNITS.items() if key != CLOCK}


def _columns(columns: tuple[Column, ...]) -> str:
    """Return a table with a row for each column: its first values, what it is, name and unit."""
    rows = "".join(map(_column, columns))
    heads = "".join(
        f'<th scope="col">{words}</th>'
        for words in ("Column", "First values", "Is", "Name", "Unit")
    )
    return (
        '<div class="scroll-box"><table class="table rows"><caption>Columns</caption>'
        f"<thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>"
    )


def _column(column: Column) -> str:
    number = column.index + 1
    first = " · ".join(column.first[:FIRST_ROWS])
    name = _bare(f"name.{column.index}", f"Name of column {number}", column.name)
    unit = _bare(f"unit.{column.index}", f"Unit of column {number}", column.unit)
    role = "".join(
        f'<option value="{key}"{" selected" if key == column.role else ""}>{words}</option>'
        for key, words in ROLES.items()
    )
    return (
        f'<tr><th scope="row">{number}</th><td>{escape(first)}</td>'
        f'<td><select name="role.{column.index}" aria-label="What column {number} is">{role}'
        f"</select></td><td>{name}</td><td>{unit}</td></tr>"
    )


def _bare(name: str, label: str, text: str) -> str:
    return (
        f'<input name="{name}" aria-label="{label}" value="{escape(text)}" spellcheck="false" '
        'autocomplete="off">'
    )


def _entry(name: str, label: str, text: str, empty: str = "") -> str:
    return (
        f'<label>{label} <input name="{name}" value="{escape(text)}" placeholder="{empty}" '
        'inputmode="decimal" spellcheck="false" autocomplete="off"></label>'
    )


def _choice(name: str, label: str, options: Mapping[str, str], now: str, none: str = "") -> str:
    listed = {"": none, **options} if none and now not in options else options
    shown = "".join(
        f'<option value="{escape(key)}"{" selected" if key == now else ""}>{escape(words)}</option>'
        for key, words in listed.items()
    )
    return f'<label>{label} <select name="{name}">{shown}</select></label>'
