"""Links in a browser: opened, said, changed, and never mixed up with what the reader had."""

import re

import pytest
from playwright.sync_api import Page, expect

from calc.form.answer import answer
from calc.form.calculation import start
from tests.form.reader import FROM_BOTH, FROM_SERVER, Reader, words
from tests.waiting import Gate, at_rest, becomes, box

TIP = "rotor/tip_speed.html"
STATE = "rotor.tip_speed.tip_state"
LOWER = "rotor.tip_speed.tip_speed"
LOWER_LINK = "tip_speed.radius=8_m&tip_speed.rotor_speed=200_rpm"


def expected(name: str, **entries: str) -> str:
    """Return the words of the result of a form for some entries and its example."""
    return words(answer(name, start(name) | entries)["html"])


@FROM_BOTH
def test_link_opens_with_the_same_numbers(page: Page, home: str) -> None:
    """A copied link brings the entries as typed, and leaves what was saved alone."""
    page.goto(f"{home}/{TIP}")
    reader = Reader(page, STATE)
    reader.type(reader.field("radius"), "6,25")
    reader.leave()
    link = reader.copied_link().replace("6%2C25", "7,75").replace("6,25", "7,75")
    saved = page.evaluate("JSON.stringify({...localStorage})")
    page.goto("about:blank")
    page.goto(link)
    reader.shows(radius=["7,75", "m"])
    assert reader.result() == expected(STATE, radius="7,75_m")
    reader.type(reader.field("airspeed"), "50")
    assert reader.result() == expected(STATE, radius="7,75_m", airspeed="50_m/s")
    assert page.evaluate("JSON.stringify({...localStorage})") == saved
    reader.way("Back to mine")
    reader.shows(radius=["6,25", "m"])
    assert reader.result() == expected(STATE, radius="6,25_m")


@FROM_SERVER
def test_link_never_shows_the_result_of_the_example(page: Page, home: str) -> None:
    """From the first moment the entries are the sender's, and no result but theirs is shown."""
    engine = Gate(page)
    page.goto(f"{home}/{TIP}#tip_state.radius=5_m", wait_until="commit")
    page.locator("#tip_state.live").wait_for()
    reader = Reader(page, STATE)
    reader.shows(radius=["5", "m"])
    result = reader.form.locator(".calculator-result")
    expect(result).to_contain_text("the result of these numbers is on its way")
    expect(result).not_to_contain_text("m/s")
    engine.open()
    assert reader.result() == expected(STATE, radius="5_m")


@FROM_SERVER
def test_link_to_the_form_that_stood_on_the_home_page_goes_on(page: Page, home: str) -> None:
    """Its keys had no prefix there; on the page where the form is now they need one."""
    page.goto(f"{home}/index.html#blades=5&rotor_speed=142_rpm&multiple=1")
    page.wait_for_url("**/harmonics/blade_passage.html#*")
    name = "harmonics.blade_passage.blade_passage_frequency"
    assert Reader(page, name).result() == expected(
        name, blades="5", rotor_speed="142_rpm", multiple="1"
    )


@FROM_SERVER
def test_link_to_a_lower_form_opens_there(page: Page, home: str) -> None:
    """The form is in the window, below the header, before and after what comes late."""
    fonts = Gate(page, "**/*.woff*")
    page.goto(f"{home}/{TIP}#{LOWER_LINK}", wait_until="domcontentloaded")
    reader = Reader(page, LOWER)
    header = box(page.locator(".md-header"))
    becomes(lambda: header["height"] <= box(reader.form)["y"] < 200, expected=True)
    fonts.open()
    page.wait_for_load_state()
    becomes(lambda: header["height"] <= box(reader.form)["y"] < 200, expected=True)
    assert reader.result() == expected(LOWER, radius="8_m", rotor_speed="200_rpm")


@FROM_SERVER
def test_reader_who_scrolls_away_from_a_linked_form_is_left_there(page: Page, home: str) -> None:
    """What comes late does not bring the page back to the form."""
    fonts = Gate(page, "**/*.woff*")
    page.goto(f"{home}/{TIP}#{LOWER_LINK}", wait_until="domcontentloaded")
    form = Reader(page, LOWER).form
    becomes(lambda: box(form)["y"] < 200, expected=True)
    page.mouse.move(640, 400)
    page.mouse.wheel(0, -900)
    becomes(lambda: box(form)["y"] > 900, expected=True)
    fonts.open()
    page.wait_for_load_state()
    at_rest(page)
    assert box(form)["y"] > 900


@FROM_SERVER
def test_old_links_without_the_name_of_the_form_open(page: Page, home: str) -> None:
    """On a page with several forms the first that has such an input takes them."""
    page.goto(f"{home}/{TIP}#radius=5.5_m&rotor_speed=395_rpm&airspeed=0_kt")
    reader = Reader(page, STATE)
    entries = {"radius": "5.5_m", "rotor_speed": "395_rpm", "airspeed": "0_kt"}
    assert reader.result() == expected(STATE, **entries)


def test_saved_numbers_win_over_a_link_that_is_loading(page: Page, home: str) -> None:
    """What the reader presses last is what stays."""
    page.goto(f"{home}/{TIP}")
    reader = Reader(page, STATE)
    reader.type(reader.field("radius"), "6")
    page.goto("about:blank")
    page.goto(f"{home}/{TIP}#tip_state.radius=5_m")
    reader.way("Back to mine")
    assert reader.result() == expected(STATE, radius="6_m")
    reader.shows(radius=["6", "m"])


@FROM_BOTH
def test_address_follows_what_is_changed(page: Page, home: str) -> None:
    """The address never holds other numbers than the form it filled; kept numbers leave it."""
    page.goto(f"{home}/{TIP}#tip_state.radius=5_m")
    reader = Reader(page, STATE)
    reader.type(reader.field("radius"), "5.5")
    page.wait_for_url(re.compile(r"#tip_state\.radius=5\.5_m&"))
    page.reload()
    reader.shows(radius=["5.5", "m"])
    reader.type(reader.field("radius"), "5.75")
    reader.way("Keep these as mine")
    page.wait_for_url(re.compile(f"/{TIP}$"))
    page.reload()
    reader.way("Bring back my last numbers")
    reader.shows(radius=["5.75", "m"])


@FROM_SERVER
@pytest.mark.parametrize(
    ("fragment", "said"),
    [
        ("tip_state.radius=5_m&tip_state.tip_loss=3", "no input called “tip_loss”"),
        ("tip_state.radius=5_m&old_form.x=3", "no form called “old_form”"),
        ("tip_state.radius=5_m&tip_state.radius=6_m", "“radius” as 5_m and as 6_m"),
    ],
)
def test_doubt_stays_until_the_reader_goes_on(
    page: Page, home: str, fragment: str, said: str
) -> None:
    """What a link gives too much is said, also after the next edit, and there is no result."""
    page.goto(f"{home}/{TIP}#{fragment}")
    reader = Reader(page, STATE)
    assert said in reader.result()
    reader.type(reader.field("airspeed"), "50")
    assert said in reader.result()
    expect(reader.form.locator(".calculator-problems")).to_contain_text(said)
    reader.way("Go on with the numbers shown")
    radius = reader.fields()["radius"][0]
    assert reader.result() == expected(STATE, radius=f"{radius}_m", airspeed="50_m/s")
    expect(reader.form.locator(".calculator-problems")).to_be_hidden()


@FROM_SERVER
def test_what_a_link_leaves_open_is_said(page: Page, home: str) -> None:
    """A number without its unit, and inputs that the link does not give."""
    page.goto(f"{home}/{TIP}#tip_state.radius=5&tip_state.rotor_speed=200_rpm")
    notice = page.locator("#tip_state .calculator-notice")
    expect(notice).to_contain_text("Rotor radius 5 came without a unit and is taken in metres")
    expect(notice).to_contain_text("as in the example: True airspeed,")
    assert Reader(page, STATE).result() == expected(STATE, radius="5_m", rotor_speed="200_rpm")


@FROM_SERVER
def test_wrong_entry_of_a_link_is_shown(page: Page, home: str) -> None:
    """A unit of another kind is said in red at once, for the reader cannot know."""
    page.goto(f"{home}/{TIP}#tip_state.rotor_speed=200_kt")
    summary = page.locator("#tip_state .calculator-problems")
    expect(summary).to_contain_text("Rotor speed cannot be in knots")
    Reader(page, STATE).shows(rotor_speed=["200 kt", "rpm"])


def test_hostile_link_injects_nothing(page: Page, home: str) -> None:
    """Markup in a link is shown as text in a clear error."""
    hostile = "#tip_state.radius=<img src=x onerror=window.hacked=1>&tip_state.<b>=1"
    page.goto(f"{home}/{TIP}{hostile}")
    summary = page.locator("#tip_state .calculator-problems")
    expect(summary).to_contain_text("Rotor radius must be")
    assert page.evaluate("window.hacked") is None
    expect(page.locator("#tip_state img")).to_have_count(0)
