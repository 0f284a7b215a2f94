"""Lessons: every unit is whole, and the fourth is taught by keyboard from disk."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from scripts import page as snippets
from tests.form.reader import Reader

UNITS = (
    "rotor_lines",
    "mode_crossing",
    "two_speeds",
    "ground_growth",
    "measured_decay",
    "fast_end",
)
PARTS = {
    "what one can do afterwards": "<strong>Afterwards</strong>",
    "a figure": '<figure class="drawn" id="lesson-',
    "a form with set values": ".html#",
    "an answer to uncover": "<summary>Answer</summary>",
    "the usual mistake": 'id="the-usual-mistake"',
    "an exercise": 'href="../exercises/',
    "the plan": 'href="plan.html"',
}


def test_units_are_whole(site: Path) -> None:
    """The plan leads to six units, and each has all its parts; a heading alone is not a figure."""
    plan = (site / "lessons" / "plan.html").read_text("utf-8")
    for unit in UNITS:
        assert f'href="{unit}.html"' in plan
        text = (site / "lessons" / f"{unit}.html").read_text("utf-8")
        article = text.partition("<article")[2].partition("</article>")[0]
        assert [part for part, sign in PARTS.items() if sign not in article] == []


def test_set_form_refuses_what_a_form_does_not_answer() -> None:
    """A link with a wrong name or an impossible value would open a form without an answer."""
    form = "ground.time_history.time_history"
    with pytest.raises(ValueError, match="no input rotor"):
        snippets.set_form(form, "words", rotor=1.0)
    with pytest.raises(ValueError, match="Rotor speed"):
        snippets.set_form(form, "words", rotor_speed=-1.0)


def test_unit_four_by_keyboard_from_disk(site: Path, browser: Browser) -> None:
    """Without network or mouse: the figure fills the window, the answer opens, the form answers.

    Physics outside the project: with ample damping on both sides a disturbance dies out (Coleman
    and Feingold, 1958), so that the growth rate changes its sign with a stronger damper.
    """
    context = browser.new_context(offline=True, viewport={"width": 1280, "height": 720})
    page = context.new_page()
    page.goto(f"{site.as_uri()}/lessons/ground_growth.html")
    to(page, "#lesson-growth .enlarge")
    page.keyboard.press("Enter")
    box = page.locator("dialog.enlarged svg").first.bounding_box()
    assert box is not None
    assert box["height"] > 0.6 * 720
    page.keyboard.press("Escape")
    assert page.locator("dialog").count() == 0
    to(page, "details:not(.figure-data) > summary")
    hidden = page.get_by_text("the largest growth rate is")
    assert not hidden.is_visible()
    page.keyboard.press("Enter")
    assert hidden.is_visible()
    to(page, "article a[href*='time_history.html#time_history.']", "Shift+Tab")
    page.keyboard.press("Enter")
    page.wait_for_url("**/time_history.html#**")
    reader = Reader(page, "ground.time_history.time_history")
    assert growth(reader) > 0.0
    to(page, "form#time_history [name=lag_damping]")
    page.keyboard.press("Control+a")
    page.keyboard.type("4000")
    page.keyboard.press("Tab")
    assert growth(reader) < 0.0
    context.close()


def growth(reader: Reader) -> float:
    """Return the growth rate that the answer shows."""
    found = re.search(r"Growth rate[^−\d]*(−?\d+\.\d+)", reader.result())
    assert found is not None
    return float(found[1].replace("−", "-"))


def to(page: Page, place: str, key: str = "Tab") -> None:
    """Press Tab until a place has the focus."""
    for _ in range(150):
        page.keyboard.press(key)
        if page.evaluate("(place) => document.activeElement.matches(place)", place):
            return
    pytest.fail(f"{key} does not come to {place}")
