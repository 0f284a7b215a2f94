"""The engine in a browser and CPython give the same answers; forms are worked in other files."""

import csv
import io
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext

from calc.catalogue import FORMULAS, formula
from calc.declaration import inputs
from calc.form.answer import answer
from calc.form.calculation import calculate, latest, start
from calc.form.copying import copies
from calc.quantity import Quantity
from tests.waiting import PATIENT

FLAT = {"worst_speed": 1e-5}
"""Where a curve peaks is known only to the root of the rounding of its height, in any engine."""


def entries_in_other_units(name: str) -> dict[str, str]:
    """Return the start of a form with each number 3 % larger and typed in the last of its units."""
    changes = {}
    for f in inputs(formula(name)):
        q = f.declaration
        if isinstance(q, Quantity) and not q.whole:
            unit = q.units[-1]
            changes[f.name] = f"{unit.reading(f.start * 1.03):.9g}_{unit.key}"
    if latest(name, start(name) | changes).problems == ():
        return start(name) | changes
    entries = start(name)
    for key, change in changes.items():  # those that can be changed together
        if calculate(name, entries | {key: change}).problems == ():
            entries |= {key: change}
    return entries


@pytest.mark.parametrize(
    "entries_of", [start, pytest.param(entries_in_other_units, marks=pytest.mark.thorough)]
)
@pytest.mark.usefixtures("troubles")
def test_browser_computes_what_cpython_computes(
    context: BrowserContext, site: Path, entries_of: Callable[[str], dict[str, str]]
) -> None:
    """Every form, at its start or in other units: each displayed digit, and the CSV to 1e-9."""
    page = context.new_page()
    page.add_init_script(PATIENT)
    page.goto(f"{site.as_uri()}/harmonics/blade_passage.html")
    for name in FORMULAS:
        entries = entries_of(name)
        asked = {"name": name, "entries": entries}
        there = page.evaluate(
            "given => engine.ask({call: 'form.answer.answer', arguments: given})", asked
        )
        assert "value" in there, (name, there["error"])
        drawings, words = _parted(there["value"].pop("html"))
        ours = answer(name, entries)
        own_drawings, own_words = _parted(ours.pop("html"))
        assert there["value"] == ours, name
        assert words == own_words, name
        assert drawings == pytest.approx(own_drawings, rel=0.0, abs=0.011), name
        copied = page.evaluate(
            "given => engine.ask({call: 'form.copying.copies', arguments: given})",
            asked | {"link": "page.html"},
        )
        table = copies(name, entries, "page.html")["csv"]
        for row, own in zip(_rows(copied["value"]["csv"]), _rows(table), strict=True):
            close = FLAT.get(row[1], 1e-9)
            assert [_number(cell) for cell in row] == pytest.approx(
                [_number(cell) for cell in own], rel=close, abs=1e-300
            ), (name, row)


def _parted(html: str) -> tuple[list[float], str]:
    """Return the coordinates in the drawings, which are rounded to 0.01, and all that is text."""
    drawings = re.findall(r"<svg.*?</svg>", html, re.DOTALL)
    numbers = [float(n) for drawing in drawings for n in re.findall(r"-?\d+\.\d+", drawing)]
    return numbers, re.sub(r"<svg.*?</svg>", "", html, flags=re.DOTALL)


def _rows(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text)))


def _number(cell: str) -> float:
    """Return a cell as a number; a text counts as zero, for its digits are compared elsewhere."""
    try:
        return float(cell)
    except ValueError:
        return 0.0
