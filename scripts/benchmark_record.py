"""How long a reader waits for a record of 10 MB, for the benchmark."""

from __future__ import annotations

import math
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

from calc.measurement.synthetic import noise
from scripts.measure import Measure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser

SIZE = 10_000_000
RATE = 500.0
TURNS = 6.0
"""Revolutions a second of the rotor in the record."""
VIEWS = ("spectrum", "orders", "peaks")
BUDGET = 5.0


def record_seconds(browser: Browser, home: str) -> Iterator[Measure]:
    """Yield the seconds from a chosen file to its spectrum, orders and explained peaks."""
    with tempfile.TemporaryDirectory() as folder, browser.new_context() as context:
        file = Path(folder) / "record.csv"
        file.write_text(_record(), encoding="utf-8")
        page = context.new_page()
        page.goto(f"{home}/measurement/desk.html")
        page.evaluate("engine.start()")
        for view in VIEWS:
            page.locator(f"[data-view={view}]").evaluate("(view) => { view.open = true; }")
        page.locator("[name=lines]").evaluate("(list) => { list.value = 'example'; }")
        begun = time.perf_counter()
        page.locator("[type=file]").set_input_files(file)
        for view in VIEWS:
            page.locator(f"[data-view={view}] table").first.wait_for()
        yield Measure("record of 10 MB, three views", time.perf_counter() - begun, "s", BUDGET)


def _record() -> str:
    """Return a record of three channels and a tachometer."""
    rows = ["Time [s],Mast x [m/s2],Cabin y [m/s2],Tail z [m/s2],Tachometer [V]\n"]
    scatter = noise(1000, 0.1)
    size, sample = 0, 0
    while size < SIZE:
        turn = TURNS * sample / RATE
        angle, odd = 2.0 * math.pi * turn, scatter[sample % len(scatter)]
        values = math.cos(angle) + odd, math.cos(4.0 * angle) - odd, 5.0 * odd
        pulse = 5.0 if turn % 1.0 < 0.1 else 0.0
        told = ",".join(f"{value:.5f}" for value in values)
        rows.append(f"{sample / RATE:.4f},{told},{pulse:.2f}\n")
        size, sample = size + len(rows[-1]), sample + 1
    return "".join(rows)
