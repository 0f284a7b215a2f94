"""What is printed of a page with forms, looked at as the browser lays it out on paper."""

import re

import pytest
from playwright.sync_api import Page, expect

from calc import VERSION
from tests.form.reader import Reader
from tests.waiting import at_rest, becomes, box

TIP = "rotor/tip_speed.html"
NAME = "rotor.tip_speed.tip_state"
CHOSEN = "list => list.selectedOptions[0].text"
LOOK = """button => {
  const { border, padding, background, color, fontSize, fontFamily } = getComputedStyle(button);
  return [border, padding, background, color, fontSize, fontFamily].join("; ");
}"""
FITTED = re.compile("width")
"""The style of a figure that has been made as large as the window."""
PRINT = """window.printed = [];
window.print = () => window.printed.push(document.documentElement.className.split(" "));"""
PRINTED_AS_FORMS = "window.printed.map((names) => names.includes('print-form'))"


@pytest.fixture
def home(served: str) -> str:
    """Return the address of the site: from disk the same is printed."""
    return served


@pytest.fixture
def reader(page: Page, home: str) -> Reader:
    """Return a reader who has typed a radius into the form and prints."""
    page.add_init_script(PRINT)
    page.goto(f"{home}/{TIP}")
    reader = Reader(page, NAME)
    reader.type(reader.field("radius"), "5.25")
    reader.result()
    return reader


def sheets(pdf: bytes) -> int:
    """Return the number of sheets of a PDF."""
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def test_printed_form_is_short(reader: Reader) -> None:
    """Inputs, result, figure, formulas, sources, caution, version and link; on two sheets."""
    page = reader.page
    assert 1 <= sheets(page.pdf(format="A4")) <= 2
    page.emulate_media(media="print")
    for shown in ("h1", ".admonition.warning", "#formula", "#sources", ".equation >> nth=0"):
        expect(page.locator(f"article > {shown}")).to_be_visible()
    holds = page.locator("article > #holds-when + ul")
    expect(holds).to_be_visible()
    expect(holds).to_contain_text("true airspeed")
    checked = page.locator("article > #checked-against")
    expect(checked).to_be_visible()
    expect(page.locator("#checked-against + .print-reference")).to_contain_text("#checked-against")
    expect(page.locator("#checked-against ~ .scroll-box >> nth=0")).to_be_hidden()
    expect(reader.field("radius")).to_be_visible()
    expect(reader.form.locator("table.results")).to_be_visible()
    expect(reader.form.locator("figure svg")).to_be_visible()
    origin = reader.form.locator(".printed-only")
    expect(origin).to_contain_text(VERSION)
    expect(origin).to_contain_text(f"{TIP}#")
    expect(origin).to_contain_text("radius=5.25_m")
    for hidden in (".working", ".figure-data", ".calculator-actions", ".enlarge", ".hint >> nth=0"):
        expect(reader.form.locator(hidden)).to_be_hidden()
    for hidden in ("#worked-example", "#helical_tip_mach", "#see-also"):
        expect(page.locator(hidden)).to_be_hidden()


def test_chosen_units_and_words_are_printed_as_text(page: Page, home: str) -> None:
    """A list is lost from the head of a table that goes on overleaf, as a long one may, or cut."""
    page.goto(f"{home}/ground/measured_modes.html")
    unit = page.locator("table.rows th:has(select)").first
    words = page.locator(".entry:has(> select[name])").first
    chosen = [part.locator("select").evaluate(CHOSEN) for part in (unit, words)]
    page.pdf()
    page.emulate_media(media="print")
    expect(page.locator(".field-group:has(.entry-table)")).to_have_css("break-inside", "auto")
    for part, text in zip((unit, words), chosen, strict=True):
        expect(part.locator("select")).to_be_hidden()
        assert text
        shown = part.evaluate("e => getComputedStyle(e, '::after').content")
        assert shown.endswith(f' {text}"')


def test_working_and_whole_page_on_request(reader: Reader) -> None:
    """The box adds working and data to the form; the other button prints the whole page."""
    page = reader.page
    reader.form.locator("[data-working]").check()
    reader.press("[data-print=form]")
    becomes(lambda: page.evaluate(PRINTED_AS_FORMS), [True])
    page.pdf()
    page.emulate_media(media="print")
    expect(reader.form.locator(".working")).to_be_visible()
    expect(reader.form.locator(".figure-data")).to_be_visible()
    page.emulate_media(media="screen")
    reader.press("[data-print=page]")
    becomes(lambda: page.evaluate(PRINTED_AS_FORMS), [True, False])
    page.emulate_media(media="print")
    expect(page.locator("#worked-example")).to_be_visible()
    expect(page.locator("#helical_tip_mach")).to_be_visible()
    expect(reader.form.locator(".figure-data")).to_be_visible()
    reader.form.locator("[data-working]").evaluate("box => { box.checked = false; }")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    expect(reader.form.locator(".figure-data")).to_be_hidden()


def test_data_of_a_figure_is_not_printed_on_a_page_without_forms(page: Page, home: str) -> None:
    """Hundreds of rows wider than the sheet; nobody asked for them."""
    page.goto(f"{home}/flight/test_flight.html")
    expect(page.locator(".figure-data").first).to_be_visible()
    page.emulate_media(media="print")
    expect(page.locator("form.calculator")).to_have_count(0)
    expect(page.locator(".figure-data:visible")).to_have_count(0)


def test_figure_of_panels_is_read_on_paper_and_enlarged(page: Page, home: str) -> None:
    """Letters of seven points or more on A4; enlarged it is as wide as the window and scrolls.

    Close looks as it does at a figure that is not live, without the sign of the link before it.
    """
    page.set_viewport_size({"width": 672, "height": 987})  # A4 within its margins
    page.goto(f"{home}/flight/transition.html")
    page.emulate_media(media="print")
    figure = page.locator("figure.live")
    drawing = figure.locator(".scroll-box > svg")
    at_rest(page)
    paper = box(drawing)
    points = 14.0 * min(paper["width"] / 640.0, paper["height"] / 1100.0) * 72.0 / 96.0
    assert points > 7.0
    assert paper["height"] < 900  # px, with its caption on one sheet of Letter
    page.emulate_media(media="screen")
    page.set_viewport_size({"width": 1280, "height": 720})
    figure.get_by_role("button", name="Enlarge").click()
    expect(drawing).to_have_attribute("style", FITTED)
    becomes(lambda: box(drawing)["width"] > 1200, expected=True)
    enlarged = box(drawing)
    assert enlarged["height"] == pytest.approx(enlarged["width"] * 1100 / 640, rel=0.01)
    assert figure.locator("> .scroll-box").evaluate("e => e.scrollHeight > e.clientHeight")
    expect(figure.locator(".headerlink")).to_be_hidden()
    at_rest(page)
    live = figure.get_by_role("button", name="Close").evaluate(LOOK)
    page.goto(f"{home}/flight/test_flight.html")
    page.locator("figure:not(.live) .enlarge").first.click()
    expect(page.locator("dialog svg").first).to_have_attribute("style", FITTED)
    becomes(lambda: page.get_by_role("button", name="Close").evaluate(LOOK), live)


def test_sheet_is_filled_and_a_root_hides_no_condition(page: Page, home: str) -> None:
    """A long list of results goes on overleaf; a section with a square root is no figure."""
    page.goto(f"{home}/measurement/measurement_plan.html")
    assert sheets(page.pdf(format="A4")) <= 2
    page.goto(f"{home}/measurement/uncertainty.html")
    page.emulate_media(media="print")
    expect(page.locator("article > #holds-when + ul")).to_contain_text("A bound")


def test_figure_is_enlarged_to_the_window(page: Page, home: str) -> None:
    """For a projector: as large as the window, in larger type; Escape brings it back."""
    page.set_viewport_size({"width": 1280, "height": 720})
    page.goto(f"{home}/{TIP}")
    figure = page.locator("#tip_state figure")
    label = figure.locator("svg text").first
    at_rest(page)
    before = box(label)["height"]
    figure.get_by_role("button", name="Enlarge").click()
    expect(figure.locator("svg")).to_have_attribute("style", FITTED)
    becomes(lambda: box(figure.locator("svg"))["height"] > 600, expected=True)
    becomes(lambda: box(label)["height"] > 1.4 * before, expected=True)
    page.keyboard.press("Escape")
    expect(page.locator("dialog")).to_have_count(0)
    expect(figure.get_by_role("button", name="Enlarge")).to_be_focused()
    as_laid_out = pytest.approx(before, abs=0.5)  # px
    becomes(lambda: box(label)["height"], as_laid_out)
