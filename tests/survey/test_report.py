"""The report: what is selected, in one page and in Markdown that a general reader understands."""

import hashlib
import re
from dataclasses import replace
from html.parser import HTMLParser
from typing import Any

import markdown as general
import pytest
from playwright.sync_api import Browser

from calc import VERSION
from calc.sheet.file import written
from calc.sheet.sheet import Sheet, Value
from calc.survey import asking
from calc.survey.asking import quoted, reported
from calc.survey.files import files
from calc.survey.survey import survey
from tests.survey.crafts import example, random_craft

FOLDER = "https://handbook.example/"
SLOW = {"measured_modes": (), "landing_gear_states": (), "blade_segments": ()}


def small(name: str = "plover", **block: str) -> Sheet:
    """Return an example of which only what is quick is known, with a title block."""
    sheet = example(name)
    values = {f"report.{key}": Value(text) for key, text in block.items()}
    return replace(sheet, rows={**sheet.rows, **SLOW}, values={**sheet.values, **values})


class Page(HTMLParser):
    """Tags, ids, and the cells of each table of a page as a general parser sees them."""

    def __init__(self, text: str) -> None:
        """Read a page."""
        super().__init__()
        self.tags: list[str] = []
        self.ids: list[str] = []
        self.tables: list[list[str]] = []
        self.cell: list[str] | None = None
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a table or a cell."""
        self.tags.append(tag)
        self.ids += [value for name, value in attrs if name == "id" and value]
        if tag == "table":
            self.tables.append([])
        elif tag in ("td", "th"):
            self.cell = []

    def handle_endtag(self, tag: str) -> None:
        """End a cell."""
        if tag in ("td", "th") and self.cell is not None:
            self.tables[-1].append(" ".join("".join(self.cell).split()))
            self.cell = None

    def handle_data(self, data: str) -> None:
        """Go on with a cell."""
        if self.cell is not None:
            self.cell.append(data)


def test_what_a_sheet_leaves_out_is_left_out_and_said() -> None:
    """Parts and answers go, each is named, and no answer that stays loses a warning."""
    whole = reported(written(small()))
    out = "working, data, figures, warnings, sensitivity, advance_ratio, no_such_thing"
    cut = reported(written(small(leave_out=out)))
    kept = [one for one in survey(small()) if one.asked.key != "advance_ratio"]

    assert {"avoid_bands"} <= set(Page(whole).ids)
    assert set(Page(whole).ids) - set(Page(cut).ids) >= {"advance_ratio"}
    for mark in ("<svg", "<summary>Working", "Sensitivity:", "<h2>Data", "<h2>Warnings"):
        assert mark in whole
        assert mark not in cut
    assert "Left out of this report by choice" not in whole
    said = re.search("Left out of this report by choice: ([^<]*)", cut)
    assert said is not None
    assert "Advance ratio at the lowest rotor speed with power on" in said[1]
    assert "Working" in said[1]
    assert "no_such_thing" not in said[1]
    for answer in kept:
        for text in answer.warnings:
            assert f"<strong>Warning</strong> {text}." in cut
    assert sum(len(one.warnings) for one in kept) > 0


def test_answer_with_warnings_that_is_left_out_is_told_with_them() -> None:
    """Nobody takes a report for free of warnings because the answer that has them is left out."""
    warned = next(one for one in survey(small()) if one.warnings)
    cut = reported(written(small(leave_out=warned.asked.key)))

    assert f"{warned.asked.title} (with warnings)" in cut


def test_title_block_is_typed_or_blank() -> None:
    """What the file has stands in the block, what it has not is empty; danger comes first."""
    page = reported(written(small(revision="C", prepared_by="A. Writer")))
    block = Page(page).tables[0]
    pairs = dict(zip(block[::2], block[1::2], strict=True))

    assert pairs == {
        "Aircraft or data sheet": "Plover",
        "Revision": "C",
        "Prepared by": "A. Writer",
        "Checked by": "",
        "Date": "",
        "Signature": "",
    }
    assert page.index('class="danger"') < page.index('class="title-block"') < page.index("<h2>")


def test_title_block_changes_no_answer() -> None:
    """Another name in the title block computes nothing anew."""
    reported(written(small(checked_by="One")))
    before = asking._answer.cache_info().misses  # noqa: SLF001 - counts what was computed
    reported(written(small(checked_by="Another")))

    assert asking._answer.cache_info().misses == before  # noqa: SLF001 - as above


@pytest.mark.parametrize("seed", range(5))
def test_general_reader_of_markdown_finds_each_cell_of_the_page(seed: int) -> None:
    """Python-Markdown, a reader written by others, shows the tables of the HTML report."""
    odd = "A | b * c_d_ <b>e</b> `f` $g$ ~h~ [i](j) # \\ &amp;"
    craft = random_craft(seed, slow=False)
    sheet = replace(craft, title=odd, note="1. first\n- second", values=dict(craft.values))
    text = written(sheet)
    shown = general.markdown(reported(text, "markdown"), extensions=["tables"])
    page, read = Page(reported(text)), Page(shown)

    assert read.tables[0][:2] == ["Title block", "Entry"]
    assert read.tables[0][2:] == page.tables[0]
    assert read.tables[1:] == page.tables[1:]
    assert len(read.tables) > 5
    assert shown.count("<h1>") == 1
    assert "b" not in read.tags
    assert "ol" not in read.tags


def test_files_of_the_command_have_the_bytes_of_the_page() -> None:
    """The report as a page and as Markdown, with title block and selection."""
    sheet = small(revision="2", leave_out="figures")
    text = written(sheet)
    made = files(sheet, text.encode())

    assert made["report.html"] == reported(text)
    assert made["report.md"] == reported(text, "markdown")


def test_title_cannot_leave_its_place() -> None:
    """A title that looks like the end of the style, or of its text, is text on every sheet."""
    sheet = replace(small(), title='</style><script>x</script>"}body{display:none} \\')
    page = reported(written(sheet))

    assert page.count("</style>") == 1
    assert "script" not in Page(page).tags
    assert '"}body' not in page


@pytest.mark.parametrize("kind", ["text", "markdown"])
def test_one_answer_is_quoted_with_all_that_it_stands_on(kind: str) -> None:
    """Title, headline, inputs with units, warnings, source, version, hash and the whole link."""
    sheet = small(revision="C")
    text = written(sheet)
    answer = next(one for one in survey(sheet) if one.asked.key == "altitude_2_stall_low")
    said: Any = quoted(text, answer.asked.key, FOLDER)[kind]
    if kind == "markdown":
        said = re.sub("<[^>]*>", " ", general.markdown(said, extensions=["tables"])).replace(
            "&amp;", "&"
        )

    for part in (
        answer.asked.title,
        "Stall-onset airspeed at the tip",
        "3000 kg",
        "5.7 1/rad",
        "12 deg (usual value)",
        f"handbook {VERSION}",
        hashlib.sha256(text.encode()).hexdigest(),
        "revision C",
        "No airspeed here is a flight limit",
        *(f"{warning}." for warning in answer.warnings),
    ):
        assert part in said
    assert answer.warnings
    assert f"{FOLDER}{answer.asked.link}" in quoted(text, answer.asked.key, FOLDER)[kind]


def test_answer_that_lacks_something_is_quoted_with_what_it_needs() -> None:
    """There is no number, no link and no table of it."""
    sheet = replace(small(), values={**small().values, "rotorcraft.drag_area": Value()})
    said = quoted(written(sheet), "altitude_1_stall", FOLDER)

    assert "Cannot be given. It needs:" in said["text"]
    assert "(rotorcraft.drag_area)" in said["text"]
    assert FOLDER not in said["text"]
    assert said["csv"] == ""


def test_csv_of_an_answer_says_where_the_airspeed_lies() -> None:
    """On either side of the limit, in the words of the report."""
    sheet = small()
    made = files(sheet, written(sheet).encode())
    for answer in survey(sheet):
        if answer.compared:
            lines = made[f"{answer.asked.key}.csv"].splitlines()
            told = [line for line in lines if line.startswith("comparison,")]
            assert len(told) == len(answer.compared)
            assert all(one.words in line for one, line in zip(answer.compared, told, strict=True))


@pytest.mark.parametrize("width", [688, 710], ids=["A4", "Letter"])
def test_nothing_is_wider_than_the_sheet(browser: Browser, width: int) -> None:
    """Between margins of 14 mm: 182 mm of A4 and 188 mm of Letter, at 96 px an inch.

    The sheet is that with the widest tables: drive train, states of the landing gear, modes; and
    it has the longest name without a space.
    """
    sheet = example("plover")
    train = [dict(row) for row in sheet.rows["drive_train"]]
    train[0]["name"] = train[1]["driven_by"] = Value("W" * 60)
    sheet = replace(sheet, rows={**sheet.rows, "drive_train": tuple(train)})
    page = browser.new_page(viewport={"width": width, "height": 900})
    page.emulate_media(media="print")
    page.set_content(reported(written(sheet)))
    wide = page.evaluate(
        "[...document.querySelectorAll('body *')].filter((one) => !one.closest('svg') &&"
        " one.getBoundingClientRect().right > innerWidth + 0.5).map((one) => one.innerText)"
    )
    heads = page.evaluate(
        "[...document.querySelectorAll('thead')].map((one) => getComputedStyle(one).display)"
    )
    page.close()

    assert wide == []
    assert set(heads) == {"table-header-group"}


def test_blank_in_a_file_is_left_to_the_pen() -> None:
    """An empty text of the title block is no problem, and the same as none."""
    text = written(small(revision="C")).replace('revision = "C"', 'revision = ""')

    assert Page(reported(text)).tables == Page(reported(written(small()))).tables
