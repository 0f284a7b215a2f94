"""The coincidence map of 200 x 200 speeds, 30 sources and 20 modes, for the benchmark."""

from __future__ import annotations

import time
from itertools import combinations
from math import pi
from typing import TYPE_CHECKING

from calc.form.calculation import start
from calc.form.reading import entry_of
from calc.harmonics.coincidence_map import meeting_counts
from calc.harmonics.meetings import MODES, NONE, ROTOR, SECOND, SOURCES, Mode, Source, meetings
from scripts.coincidence_grid import grid_counts
from scripts.measure import median

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page

FORMULA = "harmonics.coincidence.coincidence"
MARGIN = 0.02
HARMONICS = range(1, 15)
CASE_SOURCES = (
    *(Source(f"rotor {k}/rev", ROTOR, float(k)) for k in HARMONICS),
    *(Source(f"propeller {k}/rev", SECOND, float(k)) for k in HARMONICS),
    Source("pump", NONE, 0.0, 50.0),
    Source("generator", NONE, 0.0, 57.0),
)
CASE_MODES = tuple(Mode(f"mode {k}", 3.0 + 1.7 * k, 0.01) for k in range(20))
ROTOR_SPEEDS = [20.0 + 0.1493 * step for step in range(200)]
SECOND_SPEEDS = [80.0 + 0.4987 * step for step in range(200)]


def times() -> tuple[float, float, float]:
    """Return the seconds of a plain loop over cells, of numpy by cell, and of ranges by row."""
    met = meetings(CASE_SOURCES, CASE_MODES, MARGIN)
    grid_counts(met, ROTOR_SPEEDS, SECOND_SPEEDS)
    by_cell, cells = _timed(lambda: grid_counts(met, ROTOR_SPEEDS, SECOND_SPEEDS))
    by_row, rows = _timed(lambda: meeting_counts(met, ROTOR_SPEEDS, SECOND_SPEEDS))
    looped, plain = _timed(_plain_loop)
    assert plain == cells == rows
    return looped, by_cell, by_row


def browser_seconds(page: Page) -> float:
    """Return the seconds of a whole answer, with map, table and words, in the browser."""
    entries = start(FORMULA) | {
        "sources": entry_of(SOURCES, CASE_SOURCES),
        "modes": entry_of(MODES, CASE_MODES),
        "margin": str(MARGIN),
    }
    script = """async ([name, entries]) => {
      const times = [];
      for (let i = 0; i < 6; i++) {
        const margin = String(Number(entries.margin) * (1 + i / 1000)); // an answer is kept
        const given = { name, entries: { ...entries, margin } };
        const begun = performance.now();
        const { value } = await engine.ask({ call: "form.answer.answer", arguments: given });
        times.push(performance.now() - begun);
        if (value?.problems.length !== 0) throw new Error(`${name} has no answer`);
      }
      return times.slice(1);
    }"""
    times_of_answers: list[float] = page.evaluate(script, [FORMULA, entries])
    return median(times_of_answers) / 1e3


def _timed(work: Callable[[], list[list[int]]]) -> tuple[float, list[list[int]]]:
    begun = time.perf_counter()
    found = work()
    return time.perf_counter() - begun, found


def _plain_loop() -> list[list[int]]:
    """Return the counts from the definition of the margin, pair by pair and cell by cell."""
    counts = []
    for second in SECOND_SPEEDS:
        row = []
        for rotor in ROTOR_SPEEDS:
            turns = {ROTOR: rotor / (2.0 * pi), SECOND: second / (2.0 * pi)}
            heard = [s.frequency or s.multiple * turns[s.follows] for s in CASE_SOURCES]
            near = sum(_near(a, b) for a, b in combinations(heard, 2))
            for mode in CASE_MODES:
                low = mode.frequency * (1.0 - mode.uncertainty)
                high = mode.frequency * (1.0 + mode.uncertainty)
                near += sum(_near(f, min(max(f, low), high)) for f in heard)
            row.append(near)
        counts.append(row)
    return counts


def _near(first: float, second: float) -> bool:
    return 2.0 * abs(first - second) <= MARGIN * (first + second)
