"""Answers one form for extreme entries, in a process of its own whose memory is limited."""

import math
import random
import time
from contextlib import suppress
from typing import NamedTuple

from calc.catalogue import formula
from calc.declaration import Table, inputs
from calc.form.answer import answer
from calc.form.calculation import start
from calc.quantity import Quantity

MEMORY = 1_000_000_000
"""Bytes; a browser gives a page some times as much."""

TRIES = 12
NUMBERS = ("0", "-1", "1e-300", "1e300", "-1e300", "1e999", "1e-9", "1e9", "0.001", "123456789")
TEXTS = ("", "<b>", "nan", "∞", "x" * 10_000, "1;2;3", "_", "%ff")


class Extremes(NamedTuple):
    """The largest answer in bytes of HTML, the longest time in s, and the entries that took it."""

    largest: int
    longest: float
    worst: str


def limit_memory() -> None:
    """Limit the memory of this process, where the system can."""
    with suppress(ImportError, OSError, ValueError):
        import resource  # noqa: PLC0415 - Windows has none

        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))


def extremes(name: str) -> Extremes:
    """Answer for extreme entries, one and two at a time."""
    entries, fields = start(name), inputs(formula(name))
    dice = random.Random(name)  # noqa: S311 - the same entries each time
    largest, longest, worst = 0, 0.0, ""
    for _ in range(TRIES):
        changed = {
            f.name: _extreme(f.declaration, entries[f.name], dice)
            for f in dice.sample(fields, min(len(fields), dice.choice((1, 1, 2))))
        }
        begun = time.process_time()
        found = answer(name, entries | changed)
        spent = time.process_time() - begun
        assert found["html"]
        assert "<b>" not in found["html"]
        assert all(problem["message"] for problem in found["problems"])
        largest = max(largest, len(found["html"].encode()))
        if spent > longest:
            longest, worst = spent, str(changed)[:200]
    return Extremes(largest, longest, worst)


def _extreme(declaration: object, entry: str, dice: random.Random) -> str:
    if isinstance(declaration, Table):
        rows = entry.split(";")
        cells = rows[0].split(",")
        cells[dice.randrange(len(cells))] = dice.choice(NUMBERS)
        count = dice.choice((1, len(rows), declaration.at_most, 300))
        return ";".join(",".join(_varied(cell, row) for cell in cells) for row in range(count))
    if isinstance(declaration, Quantity):
        unit = entry.partition("_")[2]
        number = dice.choice((*NUMBERS, *NUMBERS, *TEXTS))
        return f"{number}_{unit}" if unit and dice.random() < 0.8 else number
    return dice.choice((entry, *TEXTS))


def _varied(cell: str, row: int) -> str:
    """Return a number a little larger in each row, so that no row is that of another."""
    number, mark, unit = cell.partition("_")
    with suppress(ValueError):
        if math.isfinite(value := float(number)):
            return f"{value * (1.0 + 0.001 * row):.9g}{mark}{unit}"
    return cell
