"""Where a form shows its result: beside the inputs, or in one line while a reader types."""

import pytest
from playwright.sync_api import Page, ViewportSize, expect

from calc.catalogue import FORMULAS, formula
from calc.declaration import inputs
from tests.form.reader import Reader
from tests.waiting import Gate, at_rest, becomes, box

STALL = "rotor/stall_onset.html"
NAME = "rotor.stall_onset.stall_onset_airspeed"
WIDE = (ViewportSize(width=1366, height=900), ViewportSize(width=1920, height=1080))
PHONE = ViewportSize(width=390, height=844)


@pytest.fixture
def home(served: str) -> str:
    """Return the address of the site: where things stand is the same from disk."""
    return served


def test_every_record_of_a_form_has_a_heading() -> None:
    """It is declared, never made from a docstring, and no two records of a form share one."""
    for name in FORMULAS:
        headings = {f.record: f.heading for f in inputs(formula(name)) if f.record}
        assert all(0 < len(heading) <= 24 for heading in headings.values()), name
        assert len(set(headings.values())) == len(headings), name


@pytest.mark.parametrize("size", WIDE)
def test_result_stays_in_view_beside_every_field(page: Page, home: str, size: ViewportSize) -> None:
    """Whichever field a reader tabs to, the first number stands beside it in the window."""
    page.set_viewport_size(size)
    page.goto(f"{home}/{STALL}")
    reader = Reader(page, NAME)
    number = reader.form.locator("table.results .number").first
    at_rest(page)
    for field in reader.form.locator(".entry [name]").all():
        field.focus()
        at_rest(page)
        left, right = box(field), box(number)
        assert left["x"] + left["width"] < right["x"]
        assert 0 < right["y"] < size["height"] - right["height"]
    expect(reader.form.locator(".calculator-line")).to_be_hidden()
    reader.form.locator("[data-digits]").click(trial=True)  # the result covers nothing below it
    shown, below = (box(reader.form.locator(f".result-{part}")) for part in ("shown", "below"))
    assert shown["y"] + shown["height"] <= below["y"] + 1.0


def test_one_line_of_result_while_typing_on_a_phone(page: Page, home: str) -> None:
    """It follows the result, gives way to it, says why there is none, and covers no field."""
    page.set_viewport_size(PHONE)
    engine = Gate(page)
    page.goto(f"{home}/{STALL}")
    reader = Reader(page, NAME)
    line = reader.form.locator(".calculator-line")
    number = reader.form.locator("table.results .number").first
    expect(line).to_be_hidden()
    example = number.inner_text()
    reader.type(reader.field("mass"), "3400")
    expect(line).to_contain_text("Starting the calculator … (before: ")
    expect(line).to_contain_text(example)
    engine.open()
    reader.result()
    expect(line).to_contain_text(f"{number.inner_text()} m/s")
    at_rest(page)
    edge, field = box(line), box(reader.field("mass"))
    assert edge["y"] + edge["height"] == pytest.approx(PHONE["height"], abs=1.0)
    assert field["y"] + field["height"] <= edge["y"]
    reader.type(reader.field("mass"), "")
    reader.result()
    expect(line).to_have_text("no result: Enter the mass")
    number.or_(reader.form.locator(".no-result")).scroll_into_view_if_needed()
    expect(line).to_be_hidden()


def test_a_reader_who_scrolls_away_from_a_field_is_left_there(page: Page, home: str) -> None:
    """Neither the line at the edge nor an answer that comes then brings the page back."""
    page.set_viewport_size(PHONE)
    page.goto(f"{home}/{STALL}")
    reader = Reader(page, NAME)
    reader.type(reader.field("angle_limit"), "11")
    page.mouse.move(200, 300)
    page.mouse.wheel(0, -20000)
    expect(page.locator("h1")).to_be_in_viewport()
    expect(reader.form.locator(".calculator-progress")).to_be_empty()
    at_rest(page)
    expect(page.locator("h1")).to_be_in_viewport()
    expect(reader.field("angle_limit")).to_be_focused()


def test_limits_are_shown_while_they_matter(page: Page, home: str) -> None:
    """On focus and when broken; a heading stands over the inputs of each record."""
    page.goto(f"{home}/{STALL}")
    reader = Reader(page, NAME)
    hint = reader.form.locator("#stall_onset_airspeed-mass-hint")
    expect(hint).to_be_hidden()
    reader.field("mass").focus()
    expect(hint).to_have_text("Above 0 kg")
    expect(hint).to_be_visible()
    reader.type(reader.field("mass"), "-1")
    reader.press("[data-copy=text]")
    expect(hint).to_be_visible()
    legends = ["Rotorcraft", "Flight condition", "This calculation"]
    expect(reader.form.locator("legend")).to_have_text(legends)


def test_a_wide_table_of_inputs_spans_the_form(page: Page, home: str) -> None:
    """At 1366 px ten columns need no scrolling, nor six; the result is one line meanwhile."""
    page.set_viewport_size(WIDE[0])
    page.goto(f"{home}/ground/run_plan.html")
    reader = Reader(page, "ground.run_plan.plan")
    table = reader.form.locator(".entry-table .scroll-box")
    becomes(lambda: table.evaluate("box => box.scrollWidth <= box.clientWidth"), expected=True)
    reader.field("lag_damping").focus()
    expect(reader.form.locator(".calculator-line")).to_contain_text("full weight is run up to")
    page.goto(f"{home}/measurement/damping_trend.html")
    assert page.locator(".entry-table .scroll-box").evaluate(
        "box => box.scrollWidth <= box.clientWidth && box.clientWidth > 1000"
    )
