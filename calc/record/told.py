"""Told: what was read of a file, in words and tables for a page."""

from html import escape
from typing import Any

from calc import VERSION
from calc.digits import significant
from calc.form.calculation import NOTICE
from calc.measurement import desk
from calc.record.shown import table
from calc.survey.report.blocks import Grid
from calc.units import RPM


def told() -> dict[str, Any]:
    """Return what the record holds: as HTML, in a sentence, and the channels to choose from."""
    found = desk.opened()
    parts = [_problems(found), _notices(found), _channels(found), _origin()]
    return {
        "html": "\n".join(filter(None, parts)),
        "words": _sentence(found),
        "channels": [
            {"key": channel["name"], "label": _named(channel)} for channel in found["channels"]
        ],
    }


def _sentence(found: dict[str, Any]) -> str:
    rows, bad = found["rows"], found["bad"]
    said = f"{rows} rows in {significant(found['duration'])} s"
    said += f" at {significant(found['sample_rate'])} Hz"
    if bad:
        said += f"; {bad} {'row' if bad == 1 else 'rows'} could not be read"
    if speed := found["rotor_speed"]:
        low, high = (significant(RPM.reading(speed[end])) for end in ("low", "high"))
        said += f"; rotor speed {low} to {high} rpm"
    return f"{said}."


def _problems(found: dict[str, Any]) -> str:
    """Return the rows that could not be read, by line and column."""
    if not found["problems"]:
        return ""
    rows = [
        [str(one.line), str(one.column or "whole line"), one.message] for one in found["problems"]
    ]
    more = found["problem_count"] - len(rows)
    caption = "What could not be read; the rest of each row is kept"
    foot = f'<p class="cut">and {more} more.</p>' if more > 0 else ""
    heads = ["Line", "Column", "What"]
    return f'<div class="record-problems">{table(Grid(caption, heads, rows))}{foot}</div>'


def _notices(found: dict[str, Any]) -> str:
    return "".join(
        f'<p class="warning"><strong>Notice</strong> {escape(notice)}</p>'
        for notice in found["notices"]
    )


def _channels(found: dict[str, Any]) -> str:
    heads = ["Channel", "Unit", "Smallest", "Largest", "Mean", "rms"]
    rows = [
        [
            channel["name"],
            channel["unit"],
            *(significant(channel[key]) for key in ("minimum", "maximum", "mean", "rms")),
        ]
        for channel in found["channels"]
    ]
    return table(Grid(f"{found['name']}: {_sentence(found)}", heads, rows))


def _origin() -> str:
    """Return what a printed sheet says of the handbook."""
    return f'<p class="printed-only">Rotorcraft vibration handbook {VERSION}. {NOTICE}</p>'


def _named(channel: dict[str, Any]) -> str:
    return f"{channel['name']} ({channel['unit']})" if channel["unit"] else channel["name"]
