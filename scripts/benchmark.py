"""Measure the site beside its budgets: python3 scripts/benchmark.py."""

from __future__ import annotations

import gzip
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

sys.path[0] = str(Path(__file__).resolve().parents[1])  # the project, not this folder

from scripts.environment import BUILD_LOCK, ROOT, TEST_LOCK, ready

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Page

RUNS = 5
FORM = "rotor/tip_speed.html"
NAME = "rotor.tip_speed.tip_state"

WHOLE_ANSWERS = (
    ("ground resonance, one sweep", "ground.coleman_diagram.coleman_diagram", "lag_damping", 0.3),
    ("ground resonance, all states", "ground.assessment.assessment", "lag_damping", 2.0),
    ("one damper differs, Floquet", "ground.degraded_damper.degraded_damper", "lag_damping", 2.0),
    ("fan plot", "blades.fan_plot.fan_plot", "operating_high", 0.0),
)
"""Answers with figure and tables: what they are, the formula, an input to change, the budget."""


class Measure(NamedTuple):
    """What was measured, the value, its unit and the most it may be (or the least, negative)."""

    what: str
    value: float
    unit: str
    budget: float


def main() -> None:
    """Make the environment, then measure in it."""
    python = ready(BUILD_LOCK, TEST_LOCK)
    if (
        Path(sys.executable).resolve().parent != python.resolve().parent
        or sys.prefix == sys.base_prefix
    ):
        sys.exit(subprocess.run([str(python), __file__], cwd=ROOT, check=False).returncode)
    with tempfile.TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        measures = [*_build(site), *_sizes(site), *_python(), *_browser(site)]
    print(f"{'':52} {'measured':>12} {'budget':>12}")
    for what, value, unit, budget in measures:
        limit = f"{'≥' if budget < 0 else '≤'} {abs(budget):g}" if budget else ""
        missed = budget and (value > budget if budget > 0 else value < -budget)
        mark = "  over" if missed else ""
        print(f"{what:52} {value:9.4g} {unit:2} {limit:>9} {unit if budget else '':2}{mark}")


def _build(site: Path) -> Iterator[Measure]:
    start = time.perf_counter()
    subprocess.run([sys.executable, "-m", "scripts.build", str(site)], cwd=ROOT, check=True)
    spent = time.perf_counter() - start
    pages = len(list(site.rglob("*.html")))
    yield Measure(f"full build, {pages} pages", spent, "s", 0.15 * pages + 2.0)
    yield Measure("build time a page", spent / pages, "s", 0.0)


def _sizes(site: Path) -> Iterator[Measure]:
    engine = site / "assets" / "engine"
    yield Measure("runtime of the calculators", _megabytes([engine / "runtime.js"]), "MB", 7.0)
    yield Measure("sources of calc", (engine / "calc.js").stat().st_size / 1e6, "MB", 0.0)
    files = [path for path in site.rglob("*") if path.is_file()]
    packed = sum(len(gzip.compress(path.read_bytes())) for path in files) / 1e6
    yield Measure("site, compressed file by file", packed, "MB", 15.0)


def _megabytes(files: list[Path]) -> float:
    return sum(path.stat().st_size for path in files) / 1e6


def _python() -> Iterator[Measure]:
    from calc.form.answer import answer  # noqa: PLC0415 - needs the environment
    from calc.form.calculation import start  # noqa: PLC0415

    entries = start(NAME)
    answer(NAME, entries)
    begun = time.perf_counter()
    for _ in range(100):
        answer(NAME, entries)
    yield Measure("answers a second, CPython", 100 / (time.perf_counter() - begun), "", 0.0)
    from scripts.benchmark_map import times  # noqa: PLC0415 - needs the environment

    looped, by_cell, by_row = times()
    yield Measure("coincidence map, plain loop over cells", looped, "s", 0.0)
    yield Measure("coincidence map, numpy: plain loop over it", looped / by_cell, "", -20.0)
    yield Measure("coincidence map, ranges by row, CPython", by_row, "s", 0.0)


def _browser(site: Path) -> Iterator[Measure]:
    from scripts.browser import browser_program, running_browser  # noqa: PLC0415
    from scripts.serve import server  # noqa: PLC0415

    program = browser_program()
    if program is None:
        print("No Chromium or Chrome is installed: the browser was not measured")
        return
    with server(site, 0) as running, running_browser(program) as browser:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        home = f"http://127.0.0.1:{running.server_port}"
        page = browser.new_page()
        yield Measure("page, first visit, compressed", _page_weight(page, home, site), "kB", 120.0)
        page.close()
        cold = []
        for _ in range(RUNS):
            context = browser.new_context()
            page = context.new_page()
            page.goto(f"{home}/{FORM}")
            cold.append(_first_value(page))
            if len(cold) < RUNS:
                context.close()
        yield Measure(f"focus to first own value, cold, median of {RUNS}", _median(cold), "s", 1.5)
        yield Measure("key to value, warm", _key_to_value(page), "s", 0.05)
        yield Measure("answers a second, browser", _answers_a_second(page), "", 0.0)
        from scripts.benchmark_map import browser_seconds  # noqa: PLC0415 - needs the environment

        yield Measure("coincidence map, whole answer, browser", browser_seconds(page), "s", 0.3)
        for what, name, field, budget in WHOLE_ANSWERS:
            yield Measure(f"{what}, browser", _fresh_answer(page, name, field), "s", budget)
        yield Measure("search, first use", _search(page, home), "s", 0.5)
        running.shutdown()


def _page_weight(page: Page, home: str, site: Path) -> float:
    """Return the kilobytes, compressed, that a first visit loads before a form is touched."""
    loaded: list[str] = []
    page.on("request", lambda request: loaded.append(request.url))
    page.goto(f"{home}/{FORM}")
    page.wait_for_timeout(500)
    files = {
        site / url.removeprefix(home).lstrip("/").split("?")[0] for url in loaded if home in url
    }
    return sum(len(gzip.compress(file.read_bytes())) for file in files if file.is_file()) / 1e3


def _first_value(page: Page) -> float:
    start = time.perf_counter()
    page.locator("#tip_state input[name=radius]").fill("5.5")
    page.locator("#tip_state .working", has_text="5.5").first.wait_for()
    return time.perf_counter() - start


def _key_to_value(page: Page) -> float:
    script = """() => new Promise((resolve) => {
      const field = document.querySelector("#tip_state input[name=radius]");
      const result = document.querySelector("#tip_state .calculator-result");
      const start = performance.now();
      const watch = new MutationObserver(() => {
        watch.disconnect();
        resolve(performance.now() - start);
      });
      watch.observe(result, { childList: true });
      field.value = "5." + Math.floor(1e6 * Math.random());
      field.dispatchEvent(new Event("input", { bubbles: true }));
    })"""
    return _median([float(page.evaluate(script)) for _ in range(21)]) / 1e3


def _answers_a_second(page: Page) -> float:
    from calc.form.calculation import start  # noqa: PLC0415 - needs the environment

    question = {
        "call": "form.answer.answer",
        "arguments": {"name": NAME, "entries": start(NAME)},
    }
    script = """async (question) => {
      const start = performance.now();
      for (let i = 0; i < 100; i++) await engine.ask(question);
      return 100 / (performance.now() - start) * 1000;
    }"""
    return float(page.evaluate(script, question))


def _fresh_answer(page: Page, name: str, field: str) -> float:
    """Return the seconds of an answer to numbers that were not asked for before; median of five."""
    from calc.form.calculation import start  # noqa: PLC0415 - needs the environment

    script = """async ([name, entries, field]) => {
      const times = [];
      const [text, unit] = entries[field].split("_");
      for (let i = 0; i < 6; i++) {
        const changed = { ...entries, [field]: `${Number(text) * (1 + i / 1000)}_${unit}` };
        const begun = performance.now();
        await engine.ask({ call: "form.answer.answer", arguments: { name, entries: changed } });
        times.push(performance.now() - begun);
      }
      return times.slice(1).sort((a, b) => a - b)[2] / 1000;
    }"""
    return float(page.evaluate(script, [name, start(name), field]))


def _search(page: Page, home: str) -> float:
    page.goto(f"{home}/index.html")
    start = time.perf_counter()
    page.locator(".find input").fill("tip speed")
    page.locator(".find-hits a").first.wait_for()
    return time.perf_counter() - start


def _median(values: list[float]) -> float:
    return sorted(values)[len(values) // 2]


if __name__ == "__main__":
    main()
