"""The plan of the house: which room of `calc` uses which, read from the imports.

    .venv/bin/python -m scripts.rooms      prints the plan that stands in DEVELOPERS.md

A room is a package or a module at the top of `calc`.  Imports by name, as the catalogue makes
them, are no arrows: they are how machinery reaches a chapter that it does not know.
"""

import ast
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from scripts.environment import ROOT

CHAPTERS = ("rotor", "harmonics", "blades", "airframe", "ground", "flight", "measurement")
"""The rooms that hold topics; every other room is machinery."""


@cache
def arrows(calc: Path = ROOT / "calc") -> dict[str, set[str]]:
    """Return for each room the rooms that it uses."""
    found: dict[str, set[str]] = {}
    for path in sorted(calc.rglob("*.py")):
        room = _room(path.relative_to(calc).with_suffix("").parts)
        if room:
            found.setdefault(room, set()).update(_used(path, room))
    return {room: used & set(found) for room, used in found.items()}


def floors(plan: dict[str, set[str]]) -> list[list[str]]:
    """Return the rooms floor by floor: each uses only rooms below it.

    Raises:
        ValueError: If rooms use each other in a circle.
    """
    built: list[list[str]] = []
    below: set[str] = set()
    while len(below) < len(plan):
        floor = sorted(room for room, used in plan.items() if room not in below and used <= below)
        if not floor:
            raise ValueError(f"a circle among {sorted(set(plan) - below)}")
        built.append(floor)
        below.update(floor)
    return built[::-1]


def drawn() -> str:
    """Return the plan as text, the top floor first; chapters stand in capitals."""
    plan = arrows()
    lines = []
    for floor in floors(plan):
        for room in floor:
            name = room.upper() if room in CHAPTERS else room
            lines.append(f"{name:12} {', '.join(sorted(plan[room]))}".rstrip())
        lines.append("")
    return "\n".join(lines).rstrip()


def _used(path: Path, room: str) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("calc"):
            parts = tuple(node.module.split(".")[1:])
            for target in [parts] if parts else [(name.name,) for name in node.names]:
                other = _room(target)
                if other and other != room:
                    yield other


def _room(parts: tuple[str, ...]) -> str:
    return "" if parts in {(), ("__init__",)} else parts[0]


if __name__ == "__main__":
    sys.stdout.write(drawn() + "\n")
