"""Numbers of a rotorcraft: typed once, offered by every form that takes them, never lost."""

import pytest
from playwright.sync_api import Page, expect

from calc.catalogue import FORMULAS, entry, formula
from calc.declaration import inputs
from calc.form.answer import answer
from calc.form.calculation import start
from tests.form.reader import FROM_SERVER, Reader, words
from tests.waiting import becomes

FIRST = ("ground.assessment.assessment", "ground/assessment.html")
SECOND = ("ground.coleman_diagram.coleman_diagram", "ground/coleman_diagram.html")
ROTOR = [f.name for f in inputs(formula(FIRST[0])) if f.record.endswith(".Rotor")]
MINE = "Use the numbers of “my rotorcraft”"


def at(page: Page, home: str, form: tuple[str, str], fragment: str = "") -> Reader:
    """Go to a form of the site."""
    page.goto("about:blank")
    page.goto(f"{home}/{form[1]}{fragment}")
    return Reader(page, form[0])


def is_of(reader: Reader, owner: str) -> None:
    """Fail unless a form says in the end that the numbers in it are those of an owner."""
    expect(reader.form.locator(".owner-list option:checked")).to_have_text(owner)


def shows(reader: Reader, **expected: str) -> None:
    """Fail unless a form shows these texts in the end, in whatever units."""
    for name, text in expected.items():
        expect(reader.field(name)).to_have_value(text)


def another(reader: Reader, name: str) -> None:
    """Give the numbers in a form to another rotorcraft."""
    owners = reader.form.locator(".owner-list")
    reader.choose(owners, owners.locator("option").count() - 1)
    reader.form.get_by_label("Name of the rotorcraft").press_sequentially(name)
    reader.page.keyboard.press("Enter")


def test_records_are_entered_once(page: Page, home: str) -> None:
    """What was typed for a rotor on one page is offered on another, and the example is one way."""
    reader = at(page, home, FIRST)
    is_of(reader, "the example")
    reader.type(reader.field("blade_mass"), "61,5")
    is_of(reader, "my rotorcraft")
    reader = at(page, home, SECOND)
    example = start(SECOND[0])
    shows(reader, blade_mass=example["blade_mass"].partition("_")[0])
    reader.way(MINE)
    reader.shows(blade_mass=["61,5", "kg"])
    is_of(reader, "my rotorcraft")
    assert reader.result() == words(answer(SECOND[0], example | {"blade_mass": "61,5_kg"})["html"])
    reader.choose(reader.form.locator(".owner-list"), 0)
    shows(reader, blade_mass=example["blade_mass"].partition("_")[0])
    is_of(reader, "the example")


@FROM_SERVER
def test_edit_of_an_example_keeps_what_was_typed_elsewhere(page: Page, home: str) -> None:
    """Who passes the offer by, types one number and chooses a unit loses none of the others."""
    reader = at(page, home, FIRST)
    reader.type(reader.field("blade_mass"), "61.5")
    reader = at(page, home, SECOND)
    reader.type(reader.field("lag_damping"), "1234")
    reader.choose(reader.unit("blade_mass"), 1)
    reader = at(page, home, FIRST)
    reader.way("Bring back my last numbers")
    shows(reader, blade_mass="61.5", lag_damping="1234")


@FROM_SERVER
def test_example_changed_anew_loses_no_numbers(page: Page, home: str) -> None:
    """Who changes the example at the next visit gets the numbers of the last one back."""
    reader = at(page, home, SECOND)
    reader.type(reader.field("blade_mass"), "61")
    reader.type(reader.field("lag_damping"), "1234")
    mine = reader.fields()
    reader = at(page, home, SECOND)
    reader.type(reader.field("blade_mass"), "72")
    reader.press(".undo")
    reader.type(reader.field("blade_mass"), "73")
    becomes(lambda: reader.fields() == mine, expected=False)
    reader.way("Bring back the numbers before these")
    reader.shows(**mine)
    expect(reader.form.get_by_text("Bring back the numbers before these")).to_have_count(0)


def test_several_rotorcraft_have_each_their_numbers(page: Page, home: str) -> None:
    """A name, another name, and back again, on this page and on the next."""
    reader = at(page, home, FIRST)
    reader.type(reader.field("blade_mass"), "61")
    another(reader, "Trial two")
    is_of(reader, "Trial two")
    reader.type(reader.field("blade_mass"), "72")
    reader = at(page, home, SECOND)
    reader.way("Use the numbers of “Trial two”")
    shows(reader, blade_mass="72")
    reader.choose(reader.form.locator(".owner-list"), 1)
    is_of(reader, "my rotorcraft")
    shows(reader, blade_mass="61")
    reader.way("Rename")
    reader.page.keyboard.press("Control+a")
    reader.page.keyboard.type("Trial one")
    reader.way("Keep this name")
    is_of(reader, "Trial one")
    reader.way("Remove")
    reader.way("Remove these numbers for good")
    is_of(reader, "the example")
    options = ["the example", "Trial two", "another rotorcraft …"]
    expect(reader.form.locator(".owner-list option")).to_have_text(options)


@FROM_SERVER
def test_link_overwrites_no_rotorcraft(page: Page, home: str) -> None:
    """Not when it is opened, not when it is changed; kept, its numbers stand beside mine."""
    reader = at(page, home, FIRST)
    reader.type(reader.field("blade_mass"), "61")
    reader = at(page, home, SECOND, "#blade_mass=99_kg")
    is_of(reader, "a link")
    reader.type(reader.field("lag_damping"), "1234")
    reader.way("Keep these beside mine")
    is_of(reader, "from a link")
    shows(reader, blade_mass="99")
    reader = at(page, home, FIRST)
    owners = ["the example", "my rotorcraft", "from a link", "another rotorcraft …"]
    expect(reader.form.locator(".owner-list option")).to_have_text(owners)
    reader.choose(reader.form.locator(".owner-list"), 1)
    shows(reader, blade_mass="61", lag_damping=start(FIRST[0])["lag_damping"].partition("_")[0])


@FROM_SERVER
def test_numbers_of_the_version_before_are_offered(page: Page, home: str) -> None:
    """What was kept under the name of a form is still there."""
    reader = at(page, home, SECOND)
    old = start(SECOND[0]) | {"blade_mass": "61_kg"}
    page.evaluate(
        "([name, old]) => localStorage.setItem(`handbook ${name}`, JSON.stringify(old))",
        [SECOND[0], old],
    )
    page.reload()
    reader.way("Bring back my last numbers")
    reader.shows(blade_mass=["61", "kg"])


@FROM_SERVER
@pytest.mark.parametrize("kept", ["", "null", "[]", '{"list": 3}', '{"list": [{"id": "x"}]}', "{"])
def test_damaged_storage_is_no_trouble(page: Page, home: str, kept: str) -> None:
    """Whatever another program left there, the form works."""
    reader = at(page, home, SECOND)
    page.evaluate("(kept) => localStorage.setItem('handbook rotorcraft', kept)", kept)
    page.reload()
    reader.type(reader.field("blade_mass"), "61")
    is_of(reader, "my rotorcraft")
    expect(reader.form.locator(".owner-list option")).to_have_count(3)


def test_records_say_their_forms() -> None:
    """The rotor in lag is taken by several forms, with the same names of its fields."""
    takers = {
        name: [f.name for f in inputs(formula(name)) if f.record.endswith(".Rotor")]
        for name in FORMULAS
    }
    assert sum(fields == ROTOR for fields in takers.values()) > 5


def test_home_page_lists_the_forms_used_last(page: Page, home: str) -> None:
    """The newest first, by title; each leads to its form; the list is cleared, the numbers stay."""
    page.goto(f"{home}/index.html")
    box = page.locator(".recent-forms")
    expect(box).to_be_hidden()
    for form in (FIRST, SECOND, FIRST):
        reader = at(page, home, form)
        reader.type(reader.field("blade_mass"), "61.5")
    page.goto(f"{home}/index.html")
    links = box.get_by_role("link")
    expect(links).to_have_text([entry(FIRST[0]).title, entry(SECOND[0]).title])
    links.last.click()
    page.wait_for_url(f"**/{SECOND[1]}#coleman_diagram")
    page.go_back()
    box.get_by_role("button", name="Clear this list").click()
    expect(box).to_be_hidden()
    page.reload()
    expect(box).to_be_hidden()
    reader = at(page, home, SECOND)
    reader.way("Bring back my last numbers")
    reader.shows(blade_mass=["61.5", "kg"])


def test_damaged_list_of_forms_is_left_out(page: Page, home: str) -> None:
    """What another program put into the browser's storage becomes no link."""
    page.goto(f"{home}/index.html")
    page.evaluate(
        """() => localStorage.setItem("handbook rotorcraft", JSON.stringify({ list: [], recent: [
          { page: "javascript:alert(1)//a/b.html", name: "a", title: "a" }, null, 3,
          { page: "rotor/tip_speed.html", name: "tip_state", title: "<b>tip</b>" }] }))"""
    )
    page.reload()
    expect(page.locator(".recent-forms a")).to_have_text(["<b>tip</b>"])
