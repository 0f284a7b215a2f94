"""Figures and forms over the whole window, as a room sees them at 1280 x 720; all by keyboard."""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, ViewportSize, expect

from tests.form.reader import Reader
from tests.waiting import at_rest, becomes, box

PROJECTOR = ViewportSize(width=1280, height=720)
LETTERS = """(part) => {
  const seen = [...part.querySelectorAll("svg text")].filter((text) => text.checkVisibility());
  const scale = part.querySelector("svg").getScreenCTM().a;
  return Math.min(...seen.map((text) => parseFloat(getComputedStyle(text).fontSize) * scale));
}"""
"""The smallest lettering of a figure on the screen, in px."""

WORDS = """(form) => {
  const parts = form.querySelectorAll("label, .entry :is(input, select), .results td, .results th");
  const seen = [...parts].filter((part) => part.checkVisibility());
  return Math.min(...seen.map((part) => parseFloat(getComputedStyle(part).fontSize)));
}"""

CUT = """(form) => [...form.querySelectorAll(".entry")].flatMap((entry) => {
  const [field, unit] = [entry.querySelector("input.number"), entry.querySelector("select")];
  const edge = entry.closest(".calculator-fields").getBoundingClientRect().right;
  const isCut = field?.scrollWidth > field?.clientWidth;
  return isCut || unit?.getBoundingClientRect().right > edge + 1 ? [field?.name] : [];
})"""
"""The fields whose number is cut, or whose unit leaves the column."""


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """Return a page on a projector."""
    with browser.new_context(viewport=PROJECTOR) as fresh:
        yield fresh.new_page()


def test_form_fills_the_window_and_comes_back(page: Page, served: str) -> None:
    """Type of 24 px or more, the result beside the inputs; Escape leads back, with the entries."""
    page.goto(f"{served}/rotor/tip_speed.html")
    reader = Reader(page, "rotor.tip_speed.tip_state")
    button = reader.form.get_by_role("button", name="Enlarge the form")
    button.focus()
    at_rest(page)
    before = page.evaluate("scrollY")
    page.keyboard.press("Enter")
    expect(page.get_by_role("dialog", name="tip speed")).to_be_visible()
    becomes(lambda: reader.form.evaluate(WORDS) >= 24.0, expected=True)
    fields, result = (reader.form.locator(f".calculator-{part}") for part in ("fields", "result"))
    at_rest(page)
    left, right = box(fields), box(result.locator("table.results"))
    assert right["x"] >= left["x"] + left["width"]
    assert right["y"] < 720 / 2
    reader.field("radius").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("6.25")
    page.keyboard.press("Tab")
    shown = reader.result()
    page.keyboard.press("Escape")
    expect(page.locator("dialog")).to_have_count(0)
    expect(reader.form.get_by_role("button", name="Enlarge the form")).to_be_focused()
    becomes(lambda: page.evaluate("scrollY"), pytest.approx(before, abs=2))
    expect(reader.field("radius")).to_have_value("6.25")
    assert reader.result() == shown


def test_figure_goes_step_by_step(page: Page, served: str) -> None:
    """A still with every sentence; by keys each step with its own, and what is to come hidden."""
    page.goto(f"{served}/ground/coleman_diagram.html")
    figure = page.locator("#steps-coleman")
    sentences = figure.locator("ol.steps > li")
    said = [text.strip() for text in sentences.all_inner_texts()]
    band = figure.locator("svg [data-from='7']").first
    expect(band).to_be_visible()
    expect(sentences.first).to_be_visible()
    figure.get_by_role("button", name="Step by step").focus()
    page.keyboard.press("Enter")
    count, live = figure.locator(".step-count"), figure.locator("[aria-live=polite]")
    expect(count).to_have_text(f"1 of {len(said)}")
    expect(band).to_be_hidden()
    for key, step in (
        ("ArrowRight", 2),
        ("PageDown", 3),
        ("Enter", 4),
        ("ArrowLeft", 3),
        ("PageUp", 2),
        ("End", len(said)),
        ("ArrowRight", len(said)),
        ("Home", 1),
        ("ArrowLeft", 1),
    ):
        page.keyboard.press(key)
        expect(count).to_have_text(f"{step} of {len(said)}")
        expect(live).to_have_text(said[step - 1])
    page.keyboard.press("End")
    expect(band).to_be_visible()
    expect(figure.locator("svg")).to_have_attribute("style", re.compile("width"))
    becomes(lambda: figure.evaluate(LETTERS) >= 22.0, expected=True)
    at_rest(page)
    drawing = box(figure.locator("svg"))
    assert drawing["y"] + drawing["height"] <= 720
    page.keyboard.press("Home")
    page.keyboard.press("Escape")
    expect(page.locator("dialog")).to_have_count(0)
    expect(figure.get_by_role("button", name="Step by step")).to_be_focused()
    expect(band).to_be_visible()
    expect(sentences.first).to_be_visible()


def test_form_keeps_its_caution_in_view_and_its_numbers_whole(page: Page, served: str) -> None:
    """The caution of the page stands in the form, its title also beside a field far below."""
    page.goto(f"{served}/ground/time_history.html")
    reader = Reader(page, "ground.time_history.time_history")
    title = page.locator("article > .danger > .admonition-title").inner_text()
    text = page.locator("article > .danger > p").last.inner_text()
    reader.form.get_by_role("button", name="Enlarge the form").press("Enter")
    inside = page.get_by_role("dialog")
    kept = inside.get_by_text(title, exact=True)
    expect(kept).to_be_in_viewport(ratio=1.0)
    expect(inside.get_by_text(text)).to_be_in_viewport(ratio=1.0)
    size = "(part) => parseFloat(getComputedStyle(part).fontSize)"
    becomes(lambda: inside.get_by_text(text).evaluate(size) >= 22.0, expected=True)
    reader.type(reader.field("stiffness_x"), "600000.25")
    assert reader.form.evaluate(CUT) == []
    reader.field("first_lag").focus()
    reader.result()
    expect(inside.get_by_text(text)).not_to_be_in_viewport()
    expect(kept).to_be_in_viewport(ratio=1.0)
    page.keyboard.press("Escape")
    expect(page.get_by_text(title, exact=True)).to_have_count(1)
