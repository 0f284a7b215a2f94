"""Tables that a reader fills in: pasted, chosen by typing, rows removed and brought back."""

import re
from urllib.parse import quote

import pytest
from playwright.sync_api import Page, expect

from calc.catalogue import formula
from calc.declaration import Choice, Table, inputs
from calc.form.answer import answer
from tests.form.model import Model
from tests.form.reader import FROM_SERVER, Reader, words
from tests.waiting import becomes

NAME = "harmonics.coincidence.coincidence"
PAGE = "harmonics/coincidence.html"
LATER = 4e9  # s, a time that is yet to come
SOURCES = next(f.declaration for f in inputs(formula(NAME)) if f.name == "sources")
assert isinstance(SOURCES, Table)
FOLLOWS = next(c.declaration for c in inputs(SOURCES.row) if c.name == "follows")
assert isinstance(FOLLOWS, Choice)
OPTIONS = FOLLOWS.options


pytestmark = FROM_SERVER


@pytest.fixture
def reader(page: Page, home: str) -> Reader:
    """Return a reader at a form with two tables."""
    page.goto(f"{home}/{PAGE}")
    return Reader(page, NAME)


def first_words(reader: Reader) -> list[str]:
    """Return the first cell of the first three rows of the first table."""
    return [row[0] for row in reader.fields()["sources"][1:4]]


def paste(reader: Reader, place: tuple[int, int], text: str) -> None:
    """Paste a text into a cell of the first table."""
    reader.page.evaluate("(text) => navigator.clipboard.writeText(text)", text)
    reader.cell("sources", place).focus()
    reader.page.keyboard.press("Control+v")


@pytest.mark.parametrize(
    "text",
    [
        f"gear\t{OPTIONS['second']}\t23\t0\nfan\t{OPTIONS['none'].upper()}\t0\t101,5\n",
        f'gear,"{OPTIONS["second"]}",23,0\r\nfan,none,0,101.5',
        'gear;second;"23";0\nfan;none;0;101,5',
        "what\tdriven by\tper rev\tHz\ngear\tsecond\t23\t0\nfan\tnone\t0\t101.5",
    ],
)
def test_pasted_rows_fill_the_table(reader: Reader, text: str) -> None:
    """Rows of a spreadsheet or of a file, also under a heading, fill as many rows as they are."""
    before = reader.fields()["sources"]
    paste(reader, (len(before) - 2, 0), text)
    becomes(lambda: len(reader.fields()["sources"]), len(before) + 1)
    rows = reader.fields()["sources"]
    assert rows[: len(before) - 1] == before[:-1]
    assert rows[len(before) - 1] == ["gear", "second", "23", "0"]
    assert rows[len(before)][:2] == ["fan", "none"]
    assert rows[len(before)][3] in {"101,5", "101.5"}
    model = Model(NAME)
    sent = model.sent()
    kept = sent["sources"].split(";")[:-1]
    fan = f"fan,none,0_%2Frev,{quote(rows[len(before)][3])}_Hz"
    sources = ";".join([*kept, "gear,second,23_%2Frev,0_Hz", fan])
    assert reader.result() == words(answer(NAME, sent | {"sources": sources})["html"])
    reader.page.keyboard.press("Control+z")
    reader.shows(sources=before)


def test_text_for_one_cell_is_pasted_into_it(reader: Reader) -> None:
    """A decimal comma or a name with a comma is no table."""
    paste(reader, (0, 0), "gear, second stage")
    expect(reader.cell("sources", (0, 0))).to_have_value(re.compile("gear, second stage"))
    paste(reader, (0, 3), "0,5")
    expect(reader.cell("sources", (0, 3))).to_have_value(re.compile("0,5"))


def test_what_does_not_fit_is_said(reader: Reader) -> None:
    """More rows than the table takes, and a word that is no choice."""
    paste(reader, (0, 0), "\n".join(f"line {n}\tsecond\t{n + 1}\t0" for n in range(60)))
    notice = reader.table("sources").locator(".table-notice")
    expect(notice).to_contain_text("at most 40 rows; 20 were left out")
    expect(notice).to_be_in_viewport(ratio=1)
    assert len(reader.fields()["sources"]) == 41
    add = reader.table("sources").locator(".add-row")
    expect(add).to_have_attribute("aria-disabled", "true")
    paste(reader, (0, 0), "a\tthe third speed\t1\t0\nb\tsecond\t2\t0")
    expect(notice).to_contain_text("“the third speed” is no choice")


def test_each_wrong_cell_of_a_paste_is_marked(reader: Reader) -> None:
    """The message is about the first, counts the others, and follows as they are mended."""
    paste(
        reader,
        (0, 0),
        "line\tdriven by\tper rev\tHz\na\tsecond\tabc\t0\nb\tsecond\t2\t0\nc\tsecond\t1e400\t0",
    )
    becomes(lambda: first_words(reader), ["a", "b", "c"])
    problem = reader.table("sources").locator(".field-problem")
    expect(problem).to_contain_text("row 1: ")
    expect(problem).to_contain_text("must be a number, not “abc” (and 1 more cell)")
    wrong = reader.table("sources").locator("[aria-invalid]")
    expect(wrong).to_have_count(2)
    assert [cell.input_value() for cell in wrong.all()] == ["abc", "1e400"]
    expect(reader.form.locator(".no-result")).to_be_in_viewport(ratio=1)
    reader.press("[data-copy=text]")
    summary = reader.form.locator(".calculator-problems a")
    expect(summary).to_contain_text("row 1: ")
    reader.type(reader.cell("sources", (0, 2)), "1")
    reader.leave()
    for said in (problem, summary):
        expect(said).to_contain_text("row 3: ")
        expect(said).to_contain_text("lies beyond what can be computed: 1e400")
    expect(wrong).to_have_count(1)
    reader.click(reader.table("sources").locator("tbody tr").first.locator(".remove-row"))
    expect(summary).to_contain_text("row 2: ")
    summary.click()
    expect(reader.cell("sources", (1, 2))).to_be_focused()


def test_the_cell_that_is_typed_in_is_not_blamed(reader: Reader) -> None:
    """With another cell wrong, nothing is said of the one in which a number is begun."""
    reader.type(reader.cell("sources", (2, 2)), "abc")
    reader.leave()
    problem = reader.table("sources").locator(".field-problem")
    expect(problem).to_contain_text("row 3: ")
    reader.type(reader.cell("sources", (0, 2)), "-")
    expect(reader.form.locator(".calculator-result")).to_contain_text("row 1: ")
    expect(problem).to_be_hidden()
    expect(reader.table("sources").locator("[aria-invalid]")).to_have_count(1)


def test_choice_in_a_cell_is_made_by_typing(reader: Reader) -> None:
    """The beginning of any word of a choice chooses it, though they begin alike.

    Letters belong to one word while less than a second goes by, so the clock of the page stands
    still while a word is typed.
    """
    cell = reader.cell("sources", (0, 1))
    last_words = {key: text.split()[-1].strip("()") for key, text in OPTIONS.items()}
    assert len(set(last_words.values())) == len(OPTIONS)
    reader.page.clock.install()
    reader.page.clock.pause_at(LATER)
    for key, typed in last_words.items():
        cell.focus()
        reader.page.keyboard.type(typed)
        expect(cell, typed).to_have_value(key)
        reader.page.clock.run_for(1100)  # ms, after which another word begins


def test_focus_goes_to_the_field_that_follows_a_removed_row(reader: Reader) -> None:
    """A second Enter removes no second row; at the end the focus stays in the table."""
    table = reader.table("sources")
    rows = table.locator("tbody tr")
    before = reader.fields()["sources"]
    rows.nth(0).locator(".remove-row").focus()
    reader.page.keyboard.press("Enter")
    expect(reader.cell("sources", (0, 0))).to_be_focused()
    reader.page.keyboard.press("Enter")
    reader.shows(sources=[before[0], *before[2:]])
    for _ in range(len(before) - 2):
        reader.click(rows.last.locator(".remove-row"))
    expect(table.locator(".add-row")).to_be_focused()
    reader.page.keyboard.press("Control+z")
    reader.shows(sources=[before[0], before[2]])


def test_row_is_moved(reader: Reader) -> None:
    """By keyboard, focus on the row that moves; the link has the new order, Undo the old one."""
    before = reader.fields()["sources"]
    first, second, third = before[1:4]
    rows = reader.table("sources").locator("tbody tr")
    expect(rows.nth(0).locator(".raise-row")).to_have_attribute("aria-disabled", "true")
    rows.nth(0).locator(".lower-row").focus()
    reader.page.keyboard.press("Enter")
    reader.page.keyboard.press("Enter")
    becomes(lambda: reader.fields()["sources"][1:4], [second, third, first])
    lower = reader.form.get_by_role("button", name=f"Move row 3 down: {first[0]}")
    expect(lower).to_be_focused()
    expect(reader.form.get_by_role("button", name=f"Remove row 3: {first[0]}")).to_be_visible()
    reader.type(reader.cell("sources", (2, 0)), "fan")
    reader.way("Move row 3 up: fan")
    becomes(lambda: first_words(reader), [second[0], "fan", third[0]])
    sources = Model(NAME).sent()["sources"].split(";")
    moved = [sources[1], ",".join(["fan", *sources[0].split(",")[1:]]), *sources[2:]]
    assert reader.result() == words(
        answer(NAME, Model(NAME).sent() | {"sources": ";".join(moved)})["html"]
    )
    link = reader.copied_link()
    reader.page.goto("about:blank")
    reader.page.goto(link)
    becomes(lambda: first_words(reader), [second[0], "fan", third[0]])


def test_moved_row_is_moved_back(reader: Reader) -> None:
    """Each move is one step of Undo."""
    before = reader.fields()["sources"]
    second = reader.table("sources").locator("tbody tr").nth(1)
    for _ in range(2):
        reader.click(second.locator(".raise-row"))
        reader.click(second.locator(".lower-row"))
    becomes(lambda: reader.fields()["sources"] == before, expected=False)
    for _ in range(4):
        reader.page.keyboard.press("Control+z")
    reader.shows(sources=before)


def test_unit_typed_in_a_cell_is_turned_to_its_column(reader: Reader) -> None:
    """The column keeps its unit, the number keeps its meaning."""
    model = Model(NAME)
    reader.type(reader.cell("modes", (0, 1)), "300 cpm")
    reader.leave()
    expect(reader.cell("modes", (0, 1))).to_have_value("5")
    sent = model.sent()["modes"].split(";")
    cells = sent[0].split(",")
    entries = model.sent() | {
        "modes": ";".join([",".join([cells[0], "5_Hz", *cells[2:]]), *sent[1:]])
    }
    assert reader.result() == words(answer(NAME, entries)["html"])


def test_table_without_a_result_is_kept(reader: Reader) -> None:
    """What was typed is offered at the next visit, though it never had a result."""
    reader.type(reader.cell("sources", (0, 2)), "abc")
    reader.page.reload()
    reader.way("Bring back my last numbers")
    expect(reader.cell("sources", (0, 2))).to_have_value("abc")


def test_problem_in_a_cell_leads_to_it(reader: Reader) -> None:
    """The summary's link goes to the very cell, and two meanings get two buttons."""
    reader.type(reader.cell("modes", (1, 1)), "1,234")
    reader.press("[data-copy=text]")
    reader.form.locator(".calculator-problems a").click()
    expect(reader.cell("modes", (1, 1))).to_be_focused()
    reader.way("1.234")
    expect(reader.cell("modes", (1, 1))).to_have_value("1.234")
    assert "can mean" not in reader.result()
