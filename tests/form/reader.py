"""A reader at a form: works it by keyboard and mouse, and sees what stands in it.

Nothing here calls a function of the page; a test that did would leave the interface untested.
"""

import html
import re
import time
from typing import Any

import pytest
from playwright.sync_api import Locator, Page

from calc.form.calculation import short_name
from tests.waiting import PATIENCE, becomes

FIELDS = """(form) => {
  const key = (list) => list?.value ?? null;
  const found = {};
  for (const field of form.querySelectorAll(".entry [name]")) {
    const list = field.closest(".entry").querySelector("select:not([name])");
    found[field.name] = [field.value, key(list)];
  }
  for (const table of form.querySelectorAll("[data-table]")) {
    const heads = [...table.querySelectorAll("thead th")];
    const units = heads.map((head) => key(head.querySelector("select")));
    const rows = [...table.querySelectorAll("tbody tr")];
    const cells = (row) => [...row.querySelectorAll("input, select")].map((cell) => cell.value);
    found[table.dataset.table] = [units.slice(0, -1), ...rows.map(cells)];
  }
  return found;
}"""
RESULT = """(form) => {
  const result = form.querySelector(".calculator-result");
  const copy = result.cloneNode(true);
  for (const other of copy.querySelectorAll("figure, .printed-only, .quoted")) other.remove();
  return [copy.textContent, !result.matches(".stale, .pending")];
}"""
HEARD = """() => {
  const heard = { press: false };
  const hear = ({ target }) => (heard.press ||= target.closest("button") !== null);
  document.addEventListener("click", hear, { capture: true });
  return heard;
}"""
FROM_SERVER = pytest.mark.parametrize("home", ["server"], indirect=True)
"""Marks a test of what is the same from disk, where it is never tried."""
FROM_BOTH = pytest.mark.parametrize("home", ["server", "disk"], indirect=True)
"""Marks a test that each run tries from disk too: typing, what is kept, and links.

A test without a mark is tried from disk by the thorough run alone.
"""


def words(text: str) -> str:
    """Return the words in HTML, without its figures and what is for paper alone."""
    text = re.sub(r"<figure.*?</figure>", "", text, flags=re.DOTALL)
    text = re.sub(r'<p class="printed-only">.*?</p>', "", text, flags=re.DOTALL)
    return spaced(html.unescape(re.sub(r"<[^>]*>", "", text)))


def spaced(text: str) -> str:
    """Return a text with single spaces."""
    return " ".join(text.split())


class Reader:
    """A reader at one form of a page."""

    def __init__(self, page: Page, name: str, delay: float = 0.0) -> None:
        """Sit down at a form; `delay` is the time between keys, in ms."""
        self.page = page
        self.delay = delay
        self.form = page.locator(f"form#{short_name(name)}")

    def fields(self) -> dict[str, Any]:
        """Return what stands in the fields, in the lists of units and in the tables."""
        found: dict[str, Any] = self.form.evaluate(FIELDS)
        return found

    def shows(self, **expected: Any) -> None:
        """Fail unless fields show, in the end, a text and its unit; tables their units and rows."""
        becomes(lambda: {name: self.fields()[name] for name in expected}, expected)

    def result(self) -> str:
        """Return the words of the result, when it is that of the entries.

        What the page says of a number that a link quotes is no part of them.
        """
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            # Again and again: a browser may still be on its way back to the field that was left.
            self.form.scroll_into_view_if_needed()
            text, current = self.form.evaluate(RESULT)
            if current and text.strip():
                return spaced(text)
            self.page.wait_for_timeout(15)
        return "no answer"

    def result_at_once(self) -> str:
        """Return the words of the result as it stands, or nothing if it is marked as old."""
        text, current = self.form.evaluate(RESULT)
        return (spaced(text) or "nothing") if current else ""

    def field(self, name: str) -> Locator:
        """Return the field of an input."""
        return self.form.locator(f".entry [name={name}]")

    def unit(self, name: str) -> Locator:
        """Return the list of units of an input."""
        return self.form.locator(f".entry:has([name={name}]) select:not([name])")

    def table(self, name: str) -> Locator:
        """Return a table."""
        return self.form.locator(f"[data-table={name}]")

    def cell(self, name: str, place: tuple[int, int]) -> Locator:
        """Return the field in a cell, by its row and column."""
        row = self.table(name).locator("tbody tr").nth(place[0])
        return row.locator("td").nth(place[1]).locator("input, select")

    def column_unit(self, name: str, column: int) -> Locator:
        """Return the list of units of a column."""
        return self.table(name).locator("thead th").nth(column).locator("select")

    def type(self, field: Locator, text: str) -> None:
        """Click into a field and type over what is there; the field keeps the focus."""
        field.click()
        self.page.keyboard.press("Control+a")
        if text:
            self.page.keyboard.type(text, delay=self.delay)
        else:
            self.page.keyboard.press("Delete")

    def leave(self) -> None:
        """Go on to the next field."""
        self.page.keyboard.press("Tab")

    def choose(self, choice: Locator, number: int) -> None:
        """Choose an option by its number, with the arrow keys."""
        choice.focus()
        self.page.keyboard.press("Home")
        for _ in range(number):
            self.page.keyboard.press("ArrowDown")

    def press(self, selector: str) -> None:
        """Press a button with the mouse."""
        self.click(self.form.locator(selector))

    def way(self, name: str) -> None:
        """Press one of the buttons that say where to go, such as `Back to mine`."""
        self.click(self.form.get_by_role("button", name=name))

    def click(self, button: Locator) -> None:
        """Press a button, and again where an answer that came just then moved it away."""
        heard = self.page.evaluate_handle(HEARD)
        for _ in range(3):
            button.click()
            if heard.evaluate("(heard) => heard.press"):
                break

    def copied_link(self) -> str:
        """Press the button that copies a link, and return what was copied."""
        self.page.evaluate("navigator.clipboard.writeText('')")
        self.press("[data-copy=link]")
        text = "navigator.clipboard.readText()"
        becomes(lambda: self.page.evaluate(text) == "", expected=False)
        found: str = self.page.evaluate(text)
        return found
