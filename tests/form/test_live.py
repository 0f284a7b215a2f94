"""A live form in a browser: numbers typed, units, problems, the ways back."""

import re
import time

import pytest
from playwright.sync_api import Browser, Page, expect

from calc.digits import significant
from calc.form.calculation import calculate, start
from tests.form.reader import FROM_BOTH, FROM_SERVER, Reader
from tests.site.test_pages import faults
from tests.waiting import Gate, at_rest, noted

TIP = "rotor/tip_speed.html"
STATE = "rotor.tip_speed.tip_state"
START = start(STATE)
RULES = ("aria-allowed-attr", "aria-valid-attr", "aria-valid-attr-value", "color-contrast")
RADIUS = START["radius"].split("_")


@pytest.fixture
def reader(page: Page, home: str) -> Reader:
    """Return a reader at the form of the tip speed page."""
    page.goto(f"{home}/{TIP}")
    return Reader(page, STATE)


def expected(digits: int = 4, **entries: str) -> str:
    """Return the tip speed of the example with other entries."""
    return significant(calculate(STATE, START | entries).result.tip_speed, digits)


def tip_speed(reader: Reader) -> str:
    """Return the tip speed that stands in the result, when it is that of the entries."""
    reader.result()
    row = reader.form.locator("table.results tr", has_text="Tip speed").first
    return row.locator(".number").inner_text()


@FROM_BOTH
def test_typed_numbers_are_answered(reader: Reader) -> None:
    """Typing, a unit behind the number, another unit, and back to the text as typed."""
    speed = reader.field("rotor_speed")
    reader.type(reader.field("radius"), "5.5")
    reader.type(speed, "395 rpm")
    assert tip_speed(reader) == "227.5"
    reader.type(speed, "395,0")
    reader.choose(reader.unit("rotor_speed"), 1)
    reader.shows(rotor_speed=["41.36430327", "rad/s"])
    assert tip_speed(reader) == "227.5"
    reader.choose(reader.unit("rotor_speed"), 0)
    reader.shows(rotor_speed=["395,0", "rpm"])
    reader.type(speed, "41.4 rad/s")
    reader.leave()
    reader.shows(rotor_speed=["41.4", "rad/s"])
    assert tip_speed(reader) == expected(radius="5.5_m", rotor_speed="41.4_rad/s")


@FROM_SERVER
@pytest.mark.parametrize(
    ("name", "typed", "shown"),
    [
        ("temperature_offset", "20 C", ["20", "degC"]),
        ("airspeed", "160kts", ["160", "kt"]),
        ("radius", "27 cubits", ["27 cubits", "m"]),
    ],
)
def test_any_spelling_of_a_unit_moves_into_the_list(
    reader: Reader, name: str, typed: str, shown: list[str]
) -> None:
    """What is read as a unit moves into the list on leaving the field; what is not stays."""
    reader.type(reader.field(name), typed)
    reader.leave()
    reader.shows(**{name: shown})


@FROM_SERVER
def test_hint_and_label_follow_the_unit(reader: Reader) -> None:
    """Limits and the unit in words are those of the unit in the list."""
    reader.choose(reader.unit("pressure_altitude"), 1)
    field = reader.form.locator(".field:has([name=pressure_altitude])")
    expect(field.locator(".hint")).to_have_text(
        "At least −16\u202f410 ft and at most 65\u202f620 ft"
    )
    expect(field.locator("label")).to_contain_text(", in feet")


@FROM_SERVER
def test_unfinished_entry_has_no_result(reader: Reader) -> None:
    """An empty field takes the result away and says what is missing, without red."""
    reader.type(reader.field("radius"), "")
    assert reader.result() == "— Enter the rotor radius"
    expect(reader.form.locator(".calculator-problems")).to_be_hidden()


@FROM_SERVER
def test_field_is_marked_once_it_is_left(reader: Reader) -> None:
    """While somebody types nothing turns red; after that the field says itself what is wrong."""
    reader.type(reader.field("radius"), "-1")
    assert reader.result().startswith("— Rotor radius must be above 0 m")
    expect(reader.field("radius")).not_to_have_attribute("aria-invalid", "true")
    reader.leave()
    expect(reader.field("radius")).to_have_attribute("aria-invalid", "true")
    beside = reader.form.locator(".field-problem:visible")
    expect(beside).to_have_text("Rotor radius must be above 0 m, not -1 m")
    expect(reader.form.locator(".calculator-problems")).to_be_hidden()
    reader.type(reader.field("radius"), "5")
    assert tip_speed(reader) == expected(radius="5_m")
    expect(beside).to_have_count(0)
    expect(reader.field("radius")).not_to_have_attribute("aria-invalid", "true")


@FROM_SERVER
def test_both_fields_are_marked_where_either_can_be_wrong(page: Page, home: str) -> None:
    """A lower half-power frequency above the upper one turns both red, and one cures both."""
    page.goto(f"{home}/measurement/response.html")
    reader = Reader(page, "measurement.response.half_power")
    said = "The upper half-power frequency must be above the lower one"
    reader.type(reader.field("lower"), "3.2")
    assert reader.result() == f"— {said}"
    reader.leave()
    for name in ("lower", "upper"):
        expect(reader.field(name)).to_have_attribute("aria-invalid", "true")
        beside = reader.form.locator(f"#half_power-{name}-problem")
        expect(beside).to_have_text(said)
        expect(beside).to_be_visible()
    reader.type(reader.field("upper"), "3.4")
    assert "Damping ratio" in reader.result()
    expect(reader.form.locator(".field-problem:visible, [aria-invalid]")).to_have_count(0)


@FROM_SERVER
def test_action_without_a_result_shows_the_problems(reader: Reader) -> None:
    """Copying with a wrong entry moves the focus to a summary that links to the field."""
    reader.type(reader.field("radius"), "-1")
    reader.press("[data-copy=text]")
    summary = reader.form.locator(".calculator-problems")
    expect(summary).to_be_focused()
    expect(summary).to_contain_text("Rotor radius must be above 0 m, not -1 m")
    expect(reader.field("radius")).to_have_attribute("aria-invalid", "true")
    expect(reader.page).to_have_title(re.compile("^Error: "))
    at_rest(reader.page)
    if reader.page.url.startswith("http"):  # from disk the rules cannot read the style sheets
        assert faults(reader.page, *RULES) == []
    summary.locator("a").click()
    expect(reader.field("radius")).to_be_focused()
    reader.type(reader.field("radius"), "5")
    assert tip_speed(reader) == expected(radius="5_m")
    expect(summary).to_be_hidden()
    expect(reader.page).not_to_have_title(re.compile("^Error: "))


@FROM_SERVER
def test_unit_of_a_result_is_chosen_by_typing(reader: Reader) -> None:
    """Letter by letter, though each letter brings a new result; k alone is the knot.

    To a browser letters are one word while they are less than a second apart, so the times at which
    they are struck are said, however long the answer takes.
    """
    reader.type(reader.field("radius"), "5.5")
    reader.result()
    unit = reader.form.get_by_label("Unit of the result, tip speed")
    unit.focus()
    hand, begun = reader.page.context.new_cdp_session(reader.page), time.time()
    for number, letter in enumerate("km"):
        stroke = {"key": letter, "text": letter, "timestamp": begun + 0.2 * number}
        for kind in ("keyDown", "keyUp"):
            hand.send("Input.dispatchKeyEvent", {"type": kind, **stroke})
        reader.result()
    expect(unit).to_be_focused()
    expect(unit).to_have_value("km/h")
    own = calculate(STATE, START | {"radius": "5.5_m"}).result
    assert tip_speed(reader) == significant(own.tip_speed * 3.6)


@FROM_SERVER
def test_copy_waits_for_the_answer(reader: Reader, page: Page, troubles: list[str]) -> None:
    """Pressed while the engine starts, it is that of the entries; without an engine it says so."""
    engine = Gate(page)
    page.reload()
    copy = reader.form.locator("[data-copy=text]")
    said = noted(copy)
    for radius in ("5.25", "5.75"):
        page.evaluate("navigator.clipboard.writeText('as before')")
        reader.type(reader.field("radius"), radius)
        reader.click(copy)
        expect(reader.form.locator(".calculator-progress")).to_contain_text("Starting")
        if radius == "5.25":
            engine.asked().abort()
            said("not copied")
            assert page.evaluate("navigator.clipboard.readText()") == "as before"
    engine.asked().continue_()
    said("copied")
    assert "Rotor radius: R = 5.75 m" in page.evaluate("navigator.clipboard.readText()")
    assert troubles == ["Failed to load resource: net::ERR_FAILED"]
    troubles.clear()


@FROM_SERVER
def test_two_meanings_get_two_buttons(reader: Reader) -> None:
    """An entry that can mean two numbers is asked about."""
    reader.type(reader.field("rotor_speed"), "1,234")
    reader.result()
    reader.way("1.234")
    reader.shows(rotor_speed=["1.234", "rpm"])
    expect(reader.field("rotor_speed")).to_be_focused()
    assert tip_speed(reader) == expected(rotor_speed="1.234_rpm")


@FROM_SERVER
def test_digits_are_kept(reader: Reader) -> None:
    """The digits that were chosen hold for every result that follows, that of the example too."""
    reader.form.locator("[data-digits]").focus()
    reader.page.keyboard.type("10")
    assert tip_speed(reader) == expected(10)
    reader.type(reader.field("radius"), "5")
    assert tip_speed(reader) == expected(10, radius="5_m")
    reader.press("[type=reset]")
    assert tip_speed(reader) == expected(10)
    reader.way("Bring back my last numbers")
    assert tip_speed(reader) == expected(10, radius="5_m")
    expect(reader.form.locator("[data-digits]")).to_have_value("10")


@FROM_BOTH
def test_numbers_are_kept_for_the_next_visit(reader: Reader) -> None:
    """Also numbers that never had a result."""
    reader.type(reader.field("radius"), "-5,5")
    reader.page.reload()
    reader.shows(radius=RADIUS)
    reader.way("Bring back my last numbers")
    reader.shows(radius=["-5,5", "m"])


def test_undo_takes_back_one_edit_after_the_other(reader: Reader) -> None:
    """By keyboard and by button; typing in one field is one edit, leaving it begins another."""
    undo = reader.form.locator(".undo")
    expect(undo).to_have_attribute("aria-disabled", "true")
    reader.type(reader.field("radius"), "5.25")
    reader.leave()
    reader.type(reader.field("radius"), "6.75 ft")
    reader.leave()
    reader.press("[type=reset]")
    for by_key, shown in ((False, ["6.75", "ft"]), (True, ["5.25", "m"]), (False, RADIUS)):
        if by_key:
            reader.page.keyboard.press("Control+z")
        else:
            reader.click(undo)
        reader.shows(radius=shown)
    expect(undo).to_have_attribute("aria-disabled", "true")
    assert tip_speed(reader) == expected()


def test_example_reads_without_scripts(browser: Browser, served: str) -> None:
    """Without JavaScript the example is there and the page says what is missing, above it."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{served}/{TIP}")
    expect(page.locator("#tip_state table.results .number").first).to_be_visible()
    expect(page.locator("#tip_state .calculator-actions")).to_be_hidden()
    texts = page.locator("#tip_state").inner_text()
    assert texts.index("JavaScript") < texts.index("Rotor radius")
    context.close()
