"""The handbook in a second browser, Firefox: forms, links, search, paper, from server and disk."""

import os
import re
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from calc.form.answer import answer
from calc.form.calculation import short_name, start
from calc.sheet.file import opened
from calc.sheet.sheet import Value
from scripts.browser import firefox_program
from tests.firefox.bidi import Firefox, Tab, running_firefox
from tests.form.reader import RESULT, spaced, words
from tests.waiting import NOTED, becomes

TIP = "rotor/tip_speed.html"
STATE = "rotor.tip_speed.tip_state"
UNFINISHED = "Invalid markup: Incorrect number of children for"
"""Firefox says so of a formula of which it has received a part when it lays out the page."""


@pytest.fixture(scope="module")
def firefox(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Firefox]:
    """Return a running Firefox; without one skip, but fail where CI is set."""
    program = firefox_program()
    if program is None:
        message = "No Firefox is installed: the site was not tried in a second browser"
        if os.environ.get("CI"):
            pytest.fail(message)
        pytest.skip(message)
    with running_firefox(program, tmp_path_factory.mktemp("profile")) as running:
        yield running


@pytest.fixture(params=["server", "disk"])
def home(request: pytest.FixtureRequest, site: Path, served: str) -> str:
    """Return the address of the site, from a server and from a folder on disk."""
    return served if request.param == "server" else site.as_uri()


@pytest.fixture
def tab(firefox: Firefox, home: str) -> Iterator[Tab]:
    """Return a tab of a new reader; the console must stay clean and no request may leave."""
    firefox.events.clear()
    with firefox.reader() as opened:
        yield opened
    told = [event["params"] for event in firefox.events]
    assert [said["text"] for said in told if is_complaint(said)] == []
    asked = [said["request"]["url"] for said in told if "request" in said]
    assert [url for url in asked if not url.startswith((home, "data:", "blob:"))] == []


def is_complaint(said: dict[str, Any]) -> bool:
    """Tell whether something in the console is an error or a warning about a finished page."""
    return said.get("level") in {"warn", "error"} and not said["text"].startswith(UNFINISHED)


def entry(name: str, field: str) -> str:
    """Return the selector of the field of an input."""
    return f"form#{short_name(name)} .entry [name={field}]"


def retype(tab: Tab, selector: str, text: str) -> None:
    """Click into a field and type over what is there."""
    tab.click(selector)
    tab.press("Control+a")
    tab.type(text)


def value(name: str, field: str) -> str:
    """Return the expression of what stands in the field of an input."""
    return f"document.querySelector('{entry(name, field)}').value"


def result(tab: Tab, name: str) -> str:
    """Return the words of the result of a form, when it is that of the entries."""
    form = f"document.querySelector('form#{short_name(name)}')"
    text, _ = tab.wait_for(f"({RESULT})({form})", lambda found: found[1] and found[0].strip())
    return spaced(text)


def sheets(pdf: bytes) -> int:
    """Return the number of sheets of a PDF, whose objects are packed."""
    # A carriage return before the end belongs to what is packed.
    streams = re.findall(rb"stream\r?\n(.*?)\nendstream", pdf, re.DOTALL)
    return sum(len(re.findall(rb"/Type /Page\b", zlib.decompress(packed))) for packed in streams)


def expected(name: str, **entries: str) -> str:
    """Return the words of the result that CPython gives for some entries and the example."""
    return words(answer(name, start(name) | entries)["html"])


def test_numbers_are_answered_printed_and_sent(firefox: Firefox, tab: Tab, home: str) -> None:
    """Numbers with units, on two sheets of paper, and by a link to one who was never here."""
    tab.open(f"{home}/{TIP}")
    retype(tab, entry(STATE, "radius"), "5,25")
    retype(tab, entry(STATE, "rotor_speed"), "41.4 rad/s")
    tab.press("Tab")
    right = expected(STATE, radius="5,25_m", rotor_speed="41.4_rad/s")
    becomes(lambda: result(tab, STATE), right)
    becomes(lambda: tab.value(value(STATE, "rotor_speed")), "41.4")
    assert 1 <= sheets(tab.pdf()) <= 2

    button = "#tip_state [data-copy=link]"
    tab.value(f"window.said = ({NOTED})(document.querySelector('{button}'))")
    tab.click(button)
    tab.wait_for("said", lambda said: "copied" in said)
    tab.click(".find input")
    tab.press("Control+v")
    link = tab.wait_for("document.querySelector('.find input').value")
    with firefox.reader() as other:
        other.open(link)
        becomes(lambda: result(other, STATE), right)
        becomes(lambda: other.value(value(STATE, "radius")), "5,25")


@pytest.mark.parametrize("home", ["server"], indirect=True)
def test_table_is_answered(tab: Tab, home: str) -> None:
    """A frequency in the first row of a table."""
    name = "airframe.modal_sum.modal_sum"
    tab.open(f"{home}/airframe/modal_sum.html")
    retype(tab, "[data-table=modes] tbody tr:nth-child(1) td:nth-child(2) input", "8.25")
    modes = re.sub(",[^,]*_Hz", ",8.25_Hz", start(name)["modes"], count=1)
    becomes(lambda: result(tab, name), expected(name, modes=modes))


@pytest.mark.parametrize("home", ["disk"], indirect=True)
def test_choice_is_answered(tab: Tab, home: str) -> None:
    """An option of a list, taken with the arrow keys."""
    name = "ground.whirl_view.bunching"
    tab.open(f"{home}/ground/whirl_view.html")
    retype(tab, entry(name, "rotor_speed"), "265")
    tab.value(f"document.querySelector('{entry(name, 'hub_mass')}').focus()")
    tab.press("ArrowDown")
    becomes(lambda: tab.value(value(name, "hub_mass")), "with_blades")
    right = expected(name, rotor_speed="265_rpm", hub_mass="with_blades")
    becomes(lambda: result(tab, name), right)


@pytest.mark.parametrize("home", ["server"], indirect=True)
def test_slider_is_answered(tab: Tab, home: str) -> None:
    """One step of a slider moves its number, and the result follows."""
    name = "airframe.single_mode.mode_response"
    tab.open(f"{home}/airframe/single_mode.html")
    before = tab.value(value(name, "damping_ratio"))
    tab.value("document.querySelector('[data-slider=damping_ratio]').focus()")
    tab.press("ArrowRight")
    after = tab.wait_for(value(name, "damping_ratio"), lambda found: found != before)
    assert float(after) > float(before)
    becomes(lambda: result(tab, name), expected(name, damping_ratio=after))


def test_search_finds_and_opens_a_page(tab: Tab, home: str) -> None:
    """Slash opens the search, arrow and Enter follow the first page that it found."""
    tab.open(f"{home}/index.html")
    tab.press("/")
    tab.type("advance ratio")
    tab.wait_for(
        "document.querySelector('.find-hits a')?.textContent ?? ''",
        lambda title: "Advance ratio" in title,
    )
    tab.press("ArrowDown", "Enter")
    tab.wait_for("location.pathname", lambda path: path.endswith("/rotor/advance_ratio.html"))


@pytest.mark.parametrize("home", ["server"], indirect=True)
def test_data_sheet_is_typed_saved_and_kept(firefox: Firefox, tab: Tab, home: str) -> None:
    """Enter leads from value to value; file and the next visit have what was typed."""
    tab.open(f"{home}/sheet.html")
    tab.click("#data-sheet [name=title]")
    for text in ("Wren", "3000 kg", "16 ft", "0.3"):
        tab.type(text)
        tab.press("Enter")
    tab.click("[data-do=save]")
    file = firefox.saved / "wren.toml"
    tab.wait_for("1", lambda _: file.is_file() and file.stat().st_size > 0)
    sheet = opened(file.read_bytes()).sheet
    assert sheet is not None
    assert sheet.value("rotorcraft.radius") == Value("16 ft")

    tab.open(f"{home}/sheet.html")
    fields = "[...document.querySelectorAll('[data-section=rotorcraft] .sheet-entry')]"
    first = f"{fields}.slice(0, 3).map((field) => field.value)"
    becomes(lambda: tab.value(first), ["3000", "16", "0.3"])
    becomes(lambda: tab.value("document.querySelector('#data-sheet [name=title]').value"), "Wren")
