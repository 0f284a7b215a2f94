"""Search: what readers ask finds the page that answers, from a server and from disk."""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect
from py_mini_racer import MiniRacer

from scripts.environment import ROOT
from tests.waiting import at_rest, becomes

QUESTIONS = tomllib.loads((ROOT / "tests" / "site" / "questions.toml").read_text("utf-8"))["pages"]
LEAST = 0.97
"""So large a share of the questions must find their page among the first three."""


@pytest.fixture(scope="module", params=["served", "disk"])
def page(
    request: pytest.FixtureRequest, site: Path, served: str, browser: Browser
) -> Iterator[Page]:
    """Return a page of the handbook, from a server and from disk."""
    start = served if request.param == "served" else site.as_uri()
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto(f"{start}/rotor/tip_speed.html")
    yield page
    page.close()


SERVED = pytest.mark.parametrize("page", ["served"], indirect=True)
"""Marks a test of what the same script answers from the same index, wherever they come from."""


def found(page: Page, question: str) -> list[str]:
    """Return the pages that a question finds, best first, without `.html`."""
    field = page.get_by_role("combobox", name="Search")
    field.fill("")
    field.fill(question)
    expect(page.locator(".find-hits")).to_be_visible()
    looking = "document.querySelector('.find-hits p').textContent.endsWith('…')"
    becomes(lambda: page.evaluate(looking), expected=False)
    top = page.url.rpartition("/rotor/")[0]
    addresses = page.locator(".find-hits a").evaluate_all("links => links.map(link => link.href)")
    return [a.removeprefix(f"{top}/").partition("#")[0].removesuffix(".html") for a in addresses]


def test_questions_find_their_pages(site: Path) -> None:
    """Of more than a hundred questions, 97 in a hundred find their page among the first three.

    They are asked of the scripts and the index of the site, without a page; the tests below type
    into the field of a page.
    """
    engine = MiniRacer()
    engine.eval("globalThis.window = globalThis")
    for name in ("minisearch", "find", "pages"):
        engine.eval((site / "assets" / "search" / f"{name}.js").read_text("utf-8"))
    engine.eval("globalThis.find = handbookFinder(MiniSearch, handbookPages)")
    engine.eval("globalThis.hits = (asked) => find(asked).map(({ page }) => page.address)")
    asked = [
        (question, f"{wanted}.html")
        for wanted, questions in QUESTIONS.items()
        for question in questions
    ]
    missed = {
        question: (wanted, hits)
        for question, wanted in asked
        if wanted not in (hits := [*engine.call("hits", question)][:3])
    }

    assert len(asked) >= 100
    assert len(missed) <= (1.0 - LEAST) * len(asked), missed


@SERVED
@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("balancing", "balance"),
        ("tire", "tyre"),
        ("color", "colour"),
        ("stabilization", "stabilisation"),
        ("μ", "mu"),
        ("how to measure damping?", "damping measurement"),
        ("dampers", "damper"),
        ("cpm to Hz", "units"),
        ("what rpm should I stay away from", "avoid bands"),
    ],
)
def test_spellings_and_endings_find_the_same(page: Page, one: str, other: str) -> None:
    """American and British spellings, endings, Greek letters and small words make no difference."""
    first, second = found(page, one), found(page, other)

    assert set(first[:3]) & set(second[:3]) or first == second == []


@pytest.mark.parametrize(
    ("question", "wanted"),
    [
        ("regresing lag mode", "blades/fixed_frame"),
        ("retreting blade", "rotor/stall_onset"),
        ("epicylic", "harmonics/planetary"),
        ("colem", "ground/coleman_diagram"),
        ("densi", "rotor/density_altitude"),
    ],
)
def test_misspelt_and_unfinished_words_find_their_page(
    page: Page, question: str, wanted: str
) -> None:
    """A letter wrong, or a word begun, is enough."""
    assert wanted in found(page, question)[:3]


def test_nonsense_finds_nothing(page: Page) -> None:
    """The hits above are hits for what was asked."""
    assert found(page, "zyxwvq") == []
    expect(page.get_by_role("status").filter(has_text="Nothing found")).to_be_visible()


def test_found_page_opens_by_keyboard(page: Page) -> None:
    """Slash opens the search, arrows choose, Enter follows, Escape closes."""
    start = page.url
    page.reload()
    page.keyboard.press("/")
    page.keyboard.type("advance ratio")
    hits = page.locator(".find-hits")
    expect(hits.locator("a").first).to_contain_text("Advance ratio")
    page.keyboard.press("Escape")
    expect(hits).to_be_hidden()
    page.keyboard.type("s")
    expect(hits).to_be_visible()
    page.keyboard.press("Backspace")
    expect(hits.locator("a").first).to_contain_text("Advance ratio")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.wait_for_url("**/rotor/advance_ratio.html*")
    page.goto(start)


def test_nothing_is_loaded_before_the_search_is_used(site: Path, browser: Browser) -> None:
    """The index weighs more than a page: who does not search does not wait for it."""
    page = browser.new_page()
    loaded: list[str] = []
    page.on("request", lambda request: loaded.append(request.url))
    page.goto(f"{site.as_uri()}/rotor/tip_speed.html")
    page.wait_for_load_state("networkidle")
    assert not [address for address in loaded if "/search/" in address or "worker" in address]

    page.get_by_role("combobox", name="Search").click()
    becomes(lambda: page.evaluate("window.handbookPages !== undefined"), expected=True)
    page.close()


def test_phone_has_the_search_behind_a_button(site: Path, browser: Browser) -> None:
    """On a narrow screen the field opens over the header."""
    page = browser.new_page(viewport={"width": 360, "height": 740})
    page.goto(f"{site.as_uri()}/rotor/tip_speed.html")
    field = page.get_by_role("combobox", name="Search")
    expect(field).to_be_hidden()
    page.get_by_role("button", name="Search").click()
    expect(field).to_be_focused()
    field.fill("blade passage")
    expect(page.locator(".find-hits a").first).to_be_visible()
    fits = "document.documentElement.scrollWidth <= innerWidth"
    becomes(lambda: page.evaluate(fits), expected=True)
    page.close()


@pytest.mark.parametrize(("scheme", "name"), [("light", "default"), ("dark", "slate")])
def test_hits_are_accessible(page: Page, scheme: Literal["light", "dark"], name: str) -> None:
    """The open search breaks no accessibility rule."""
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", name)
    assert found(page, "mu")
    at_rest(page)

    violations = Axe().run(page).response["violations"]
    assert [node["html"] for violation in violations for node in violation["nodes"]] == []
