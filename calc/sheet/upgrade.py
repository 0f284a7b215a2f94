"""Upgrade: what an older format of a file becomes, step by step, with a list of changes."""

from collections.abc import Callable
from typing import Any

FORMAT = 2
"""The number of the format that is written."""

Content = dict[str, Any]


def upgraded(content: Content, number: int) -> list[str]:
    """Bring the content of a file from an older format to the one that is written.

    Args:
        content: What a file holds; it is changed.
        number: The format of the file, at least 1.

    Returns:
        The changes in words.
    """
    changes: list[str] = []
    for step in range(number, FORMAT):
        changes += _STEPS[step](content)
    return changes


def _altitudes_are_rows(content: Content) -> list[str]:
    """Make a row of the one altitude that the first drafts of the format had under `flight`."""
    flight = content.get("flight")
    if not isinstance(flight, dict):
        return []
    names = [name for name in ("pressure_altitude", "temperature_offset") if name in flight]
    moved = {name: flight.pop(name) for name in names}
    if not moved:
        return []
    content.setdefault("altitudes", [moved])
    return [f"flight.{name} is now in the first row of altitudes" for name in moved]


_STEPS: dict[int, Callable[[Content], list[str]]] = {1: _altitudes_are_rows}
