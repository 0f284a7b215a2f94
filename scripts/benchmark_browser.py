"""What a reader waits for in a browser, for the benchmark."""

from __future__ import annotations

import gzip
import threading
import time
from typing import TYPE_CHECKING

from calc.form.calculation import start
from scripts.benchmark_map import browser_seconds
from scripts.benchmark_record import record_seconds
from scripts.browser import browser_program, running_browser
from scripts.measure import Measure, median
from scripts.serve import server

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Page

RUNS = 5
FORM = "rotor/tip_speed.html"
NAME = "rotor.tip_speed.tip_state"
OWN = "5.4321"
"""A radius in m that stands nowhere in the working of the example."""

WHOLE_ANSWERS = (
    ("closed form: tip speed", NAME, "radius", 0.016),
    ("closed form: line against mode", "airframe.separation.separation", "shaft_speed", 0.016),
    ("closed form: single mode", "airframe.single_mode.mode_response", "modal_mass", 0.016),
    ("ground resonance, one sweep", "ground.coleman_diagram.coleman_diagram", "lag_damping", 0.3),
    ("ground resonance, all states", "ground.assessment.assessment", "lag_damping", 2.0),
    ("one damper differs, Floquet", "ground.degraded_damper.degraded_damper", "lag_damping", 2.0),
    ("fan plot", "blades.fan_plot.fan_plot", "operating_high", 0.0),
)
"""Answers with working, figure and tables: what they are, formula, input to change, budget."""

SPECTRA = """
import time
from calc.linalg import cosine_series
from calc.measurement.spectrum import amplitude_spectrum, power_density

def taken(samples, block):
    record = cosine_series([0.1, 1.0, 0.5], samples)
    seconds = []
    for _ in range(6):
        begun = time.perf_counter()
        if block:
            power_density(record, 1000.0, block)
        else:
            amplitude_spectrum(record, 1000.0)
        seconds.append(time.perf_counter() - begun)
    return seconds
"""
"""What is put into the engine's copy of `calc` to time spectra alone."""


def measures(site: Path) -> Iterator[Measure]:
    """Yield what is measured of a built site in an installed browser, if there is one."""
    program = browser_program()
    if program is None:
        print("No Chromium or Chrome is installed: the browser was not measured")
        return
    with server(site, 0) as running, running_browser(program) as browser:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        home = f"http://127.0.0.1:{running.server_port}"
        yield Measure("page, first visit, compressed", _weight(browser, home, site), "kB", 100.0)
        cold = [_cold(browser, home) for _ in range(RUNS)]
        yield Measure(f"focus to first own value, cold, median of {RUNS}", median(cold), "s", 1.3)
        page = browser.new_page()
        page.goto(f"{home}/{FORM}")
        _first_value(page)
        yield Measure("key to value, warm", _key_to_value(page), "s", 0.05)
        for what, name, field, budget in WHOLE_ANSWERS:
            yield Measure(f"{what}, browser", _fresh_answer(page, name, field), "s", budget)
        yield Measure("coincidence map, whole answer, browser", browser_seconds(page), "s", 0.3)
        yield from _spectra(browser, home)
        yield from record_seconds(browser, home)
        yield from _search(browser, page, home)
        running.shutdown()


def _weight(browser: Browser, home: str, site: Path) -> float:
    """Return the kilobytes, compressed, that a first visit loads before a form is touched."""
    loaded: list[str] = []
    page = browser.new_page()
    page.on("request", lambda request: loaded.append(request.url))
    page.goto(f"{home}/{FORM}")
    page.wait_for_timeout(500)
    page.close()
    files = {
        site / url.removeprefix(home).lstrip("/").split("?")[0] for url in loaded if home in url
    }
    return sum(len(gzip.compress(file.read_bytes())) for file in files if file.is_file()) / 1e3


def _cold(browser: Browser, home: str) -> float:
    with browser.new_context() as context:
        page = context.new_page()
        page.goto(f"{home}/{FORM}")
        return _first_value(page)


def _first_value(page: Page) -> float:
    """Return the seconds from the focus on a field, where a number is put in, to its answer.

    They are taken in the page: what drives the browser looks only now and then.
    """
    script = """async (own) => {
      const form = document.querySelector("#tip_state");
      const field = form.querySelector("input[name=radius]");
      const begun = performance.now();
      field.focus();
      field.value = own;
      field.dispatchEvent(new Event("input", { bubbles: true }));
      const shown = () => form.querySelector(".calculator-result").textContent.includes(own);
      while (!shown()) await new Promise(requestAnimationFrame);
      return performance.now() - begun;
    }"""
    spent: float = page.evaluate(script, OWN)
    return spent / 1e3


def _key_to_value(page: Page) -> float:
    return _changes(
        page,
        [str(5.0 + number / 1000.0) for number in range(21)],
        "#tip_state input[name=radius]",
        "#tip_state .calculator-result",
    )


def _changes(page: Page, texts: list[str], field: str, shown: str) -> float:
    """Return the seconds from a text in a field to a change of what is shown; the median."""
    script = """async ([texts, field, shown]) => {
      const [from, to] = [field, shown].map((selector) => document.querySelector(selector));
      const times = [];
      for (const text of texts) {
        times.push(await new Promise((resolve) => {
          const start = performance.now();
          const watch = new MutationObserver(() => {
            watch.disconnect();
            resolve(performance.now() - start);
          });
          watch.observe(to, { childList: true });
          from.value = text;
          from.dispatchEvent(new Event("input", { bubbles: true }));
        }));
      }
      return times;
    }"""
    return median(page.evaluate(script, [texts, field, shown])) / 1e3


def _fresh_answer(page: Page, name: str, field: str) -> float:
    """Return the seconds of an answer to numbers that were not asked for before; the median."""
    script = """async ([name, entries, field]) => {
      const times = [];
      const [text, unit] = entries[field].split("_");
      for (let i = 0; i < 6; i++) {
        const changed = { ...entries, [field]: `${Number(text) * (1 + i / 1000)}_${unit}` };
        const begun = performance.now();
        const given = { name, entries: changed };
        const { value } = await engine.ask({ call: "form.answer.answer", arguments: given });
        times.push(performance.now() - begun);
        if (value?.problems.length !== 0) throw new Error(`${name} has no answer`);
      }
      return times.slice(1);
    }"""
    return median(page.evaluate(script, [name, start(name), field])) / 1e3


def _spectra(browser: Browser, home: str) -> Iterator[Measure]:
    """Yield the times of spectra in a warm engine: of one record, and by blocks of a long one."""
    page = browser.new_page()
    page.goto(f"{home}/{FORM}")
    page.add_script_tag(url=f"{home}/assets/engine/calc.js")
    page.evaluate(
        """(source) => {
          const { calc } = engineFiles;
          calc["calc/timed.py"] = source;
          calc["calc/browser.py"] += '\\nALLOWED = (*ALLOWED, "timed.taken")\\n';
        }""",
        SPECTRA,
    )
    for what, samples, block, budget in (
        ("spectrum of 65,536 samples", 65_536, 0, 0.05),
        ("spectrum of 60,000 samples", 60_000, 0, 0.0),
        ("density of a million samples in blocks of 2,000", 1_000_000, 2000, 0.0),
    ):
        request = {"call": "timed.taken", "arguments": {"samples": samples, "block": block}}
        answer = page.evaluate("(request) => engine.ask(request)", request)
        yield Measure(f"{what}, browser", median(answer["value"][1:]), "s", budget)
    page.close()


def _first_search(browser: Browser, home: str) -> float:
    """Return the seconds from the first text in the search to its first hit, library and all."""
    with browser.new_context() as context:
        page = context.new_page()
        page.goto(f"{home}/{FORM}")
        begun = time.perf_counter()
        page.locator(".find input").fill("tip speed")
        page.locator(".find-hits a").first.wait_for()
        return time.perf_counter() - begun


def _search(browser: Browser, page: Page, home: str) -> Iterator[Measure]:
    from tests.site.test_search import QUESTIONS, found  # noqa: PLC0415 - the tests ask the same

    first = [_first_search(browser, home) for _ in range(RUNS)]
    yield Measure(f"search, first use, median of {RUNS}", median(first), "s", 0.5)
    page.goto(f"{home}/{FORM}")
    found(page, "tip speed")
    question = "retreating blade stall"
    keys = [question[:end] for end in range(1, len(question) + 1) if question[end - 1] != " "]
    yield Measure("search, a key", _changes(page, keys, ".find input", ".find-hits ol"), "s", 0.05)
    asked = [(question, wanted) for wanted, some in QUESTIONS.items() for question in some]
    right = sum(wanted in found(page, question)[:3] for question, wanted in asked)
    what = f"page among the first three, of {len(asked)} questions"
    yield Measure(what, 100.0 * right / len(asked), "%", -97.0)
