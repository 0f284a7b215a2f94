"""Live forms in a browser, from a server and from a folder on disk."""

import csv
import io
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from calc.catalogue import FORMULAS, formula
from calc.declaration import inputs
from calc.form.answer import answer
from calc.form.calculation import calculate, start
from calc.form.copying import copies
from calc.quantity import Quantity

TIP = "rotor/tip_speed.html"
COPY = "navigator.clipboard.writeText = async (text) => { window.copied = text; }"
FLAT = {"worst_speed": 1e-5}
"""Where a curve peaks is known only to the root of the rounding of its height, in any engine."""
STARTING = 30_000  # ms that a first answer may take on a busy machine


@pytest.fixture(params=["server", "disk"])
def page(
    request: pytest.FixtureRequest, browser: Browser, site: Path, served: str
) -> Iterator[Page]:
    """Return a page of the site that fails the test on a console error or an outside request."""
    home = served if request.param == "server" else site.as_uri()
    context = browser.new_context(base_url=f"{home}/")
    opened = context.new_page()
    troubles: list[str] = []
    opened.on("console", lambda m: troubles.append(m.text) if m.type == "error" else None)
    opened.on("pageerror", lambda error: troubles.append(str(error)))
    opened.on(
        "request",
        lambda r: None if r.url.startswith((home, "data:", "blob:")) else troubles.append(r.url),
    )
    yield opened
    context.close()
    assert troubles == []


def entries_in_other_units(name: str) -> dict[str, str]:
    """Return the start of a form with each number 3 % larger and typed in the last of its units."""
    entries = start(name)
    for f in inputs(formula(name)):
        q = f.declaration
        if isinstance(q, Quantity) and not q.whole:
            unit = q.units[-1]
            changed = entries | {f.name: f"{unit.reading(f.start * 1.03):.9g}_{unit.key}"}
            if calculate(name, changed).problems == ():
                entries = changed
    return entries


def open_form(page: Page, address: str) -> None:
    """Open a page of the site and wait until its form is live."""
    page.goto(address)
    expect(page.locator("form.calculator.live").first).to_be_visible()


def test_browser_computes_what_cpython_computes(page: Page) -> None:
    """Every form, at its start and in other units: each displayed digit, and the CSV to 1e-9."""
    open_form(page, "harmonics/blade_passage.html")
    for name in FORMULAS:
        for entries in (start(name), entries_in_other_units(name)):
            given = {"name": name, "entries": entries}
            there = page.evaluate(
                "given => engine.ask({call: 'form.answer.answer', arguments: given})", given
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
                given | {"address": "page.html"},
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


def test_typed_numbers_are_answered(page: Page) -> None:
    """Typing, a unit behind the number, another unit, and back to the text as typed."""
    open_form(page, TIP)
    form = page.locator("#tip_state")
    speed = form.locator("input[name=rotor_speed]")
    unit = form.locator(".field:has(input[name=rotor_speed]) select")
    result = form.locator("table.results tr", has_text="Tip speed").first.locator(".number")

    form.locator("input[name=radius]").fill("5.5")
    speed.fill("395 rpm")
    expect(result).to_have_text("227.5", timeout=STARTING)
    speed.fill("395,0")
    unit.select_option("rad/s")
    expect(speed).to_have_value("41.36430327")
    expect(result).to_have_text("227.5")
    unit.select_option("rpm")
    expect(speed).to_have_value("395,0")
    speed.fill("41.4 rad/s")
    speed.blur()
    expect(unit).to_have_value("rad/s")
    expect(speed).to_have_value("41.4")
    expect(result).to_have_text("227.7")


def test_stale_result_never_stands_beside_new_inputs(page: Page) -> None:
    """An unfinished entry takes the result away and says what is missing, without red."""
    open_form(page, TIP)
    form = page.locator("#tip_state")
    form.locator("input[name=radius]").fill("")
    expect(form.locator(".no-result")).to_have_text("— Enter the rotor radius", timeout=STARTING)
    expect(form.locator("table.results")).to_have_count(0)
    expect(form.locator(".calculator-problems")).to_be_hidden()


def test_action_without_a_result_shows_the_problems(page: Page) -> None:
    """Copying with a wrong entry moves the focus to a summary that links to the field."""
    open_form(page, TIP)
    form = page.locator("#tip_state")
    form.locator("input[name=radius]").fill("-1")
    form.locator("[data-copy=text]").click()
    summary = form.locator(".calculator-problems")
    expect(summary).to_be_focused(timeout=STARTING)
    expect(summary).to_contain_text("Rotor radius must be above 0 m, not -1 m")
    expect(form.locator("input[name=radius]")).to_have_attribute("aria-invalid", "true")
    assert page.title().startswith("Error: ")
    summary.locator("a").click()
    expect(form.locator("input[name=radius]")).to_be_focused()
    expect(form.locator("input[name=radius]")).to_have_value("-1")


def test_two_meanings_get_two_buttons(page: Page) -> None:
    """An entry that can mean two numbers is asked about."""
    open_form(page, TIP)
    form = page.locator("#tip_state")
    form.locator("input[name=rotor_speed]").fill("1,234")
    form.get_by_role("button", name="1.234").click(timeout=STARTING)
    expect(form.locator("input[name=rotor_speed]")).to_have_value("1.234")
    expect(form.locator("table.results")).to_be_visible()


def test_link_opens_with_the_same_numbers(page: Page) -> None:
    """A copied link brings the entries as typed, and leaves what was saved alone."""
    open_form(page, TIP)
    form = page.locator("#tip_state")
    form.locator("input[name=radius]").fill("6,25")
    expect(form.locator(".working")).to_contain_text("6.25", timeout=STARTING)
    page.evaluate(COPY)
    form.locator("[data-copy=link]").click()
    expect(form.locator("[data-copy=link]")).to_have_text("copied")
    link = page.evaluate("window.copied").replace("6.25", "7.75")
    saved = page.evaluate("JSON.stringify({...localStorage})")

    page.goto("about:blank")
    page.goto(link)
    expect(form.locator("input[name=radius]")).to_have_value("7.75", timeout=STARTING)
    expect(form.locator(".calculator-notice")).to_contain_text("What you saved is unchanged")
    expect(form.locator(".working")).to_contain_text("7.75", timeout=STARTING)
    assert page.evaluate("JSON.stringify({...localStorage})") == saved
    form.get_by_role("button", name="Back to mine").click()
    expect(form.locator("input[name=radius]")).to_have_value("6,25")


def test_hostile_link_injects_nothing(page: Page) -> None:
    """Markup in a link is shown as text in a clear error."""
    hostile = "#tip_state.radius=<img src=x onerror=window.hacked=1>&tip_state.<b>=1"
    page.goto(f"{TIP}{hostile}")
    summary = page.locator("#tip_state .calculator-problems")
    expect(summary).to_contain_text("Rotor radius must be", timeout=STARTING)
    assert page.evaluate("window.hacked") is None
    expect(page.locator("#tip_state img")).to_have_count(0)


def test_example_reads_without_scripts(browser: Browser, served: str) -> None:
    """Without JavaScript the example is there and the page says what is missing."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{served}/{TIP}")
    expect(page.locator("#tip_state table.results .number").first).to_be_visible()
    expect(page.locator("noscript + *, noscript").first).to_be_attached()
    assert "JavaScript" in page.content()
    expect(page.locator("#tip_state .calculator-actions")).to_be_hidden()
    context.close()


def test_without_webassembly_the_page_says_so(browser: Browser, served: str) -> None:
    """Where WebAssembly is switched off a changed number is answered with what is missing."""
    context = browser.new_context()
    context.add_init_script("delete window.WebAssembly")
    page = context.new_page()
    page.goto(f"{served}/{TIP}")
    page.locator("#tip_state input[name=radius]").fill("5")
    expect(page.locator("#tip_state .no-result")).to_contain_text("WebAssembly", timeout=STARTING)
    context.close()
