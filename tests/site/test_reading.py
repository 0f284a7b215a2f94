"""Scripts of the pages: equations, boxes that scroll, and paper."""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from scripts.build import build
from scripts.environment import ROOT
from tests.waiting import at_rest, becomes

TEXT = r"""# Tip speed

$$
\label{eq-tip-speed}
V = \Omega R
$$

??? note "A fold"
    Folded text.

| Quantity | Value | Remark |
| - | -: | - |
| Speed | 220 m/s | averylongwordthatcannotbebrokenanywhereatall |

A [source](https://doi.org/10.1000/1).
"""


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    """Return the address of a page with an equation, a fold, a wide table and a link."""
    docs = tmp_path_factory.mktemp("reading") / "docs"
    shutil.copytree(ROOT / "docs" / "assets", docs / "assets")
    (docs / "index.md").write_text(TEXT)
    build(docs.parent / "site", docs, nav=["index.md"])
    return (docs.parent / "site" / "index.html").as_uri()


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    """Return the page, opened from disk."""
    page = browser.new_page(viewport={"width": 320, "height": 700})
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.goto(address)
    yield page
    page.context.close()


def test_number_of_an_equation_links_to_it(page: Page) -> None:
    """The link in the address bar can be shared."""
    page.get_by_role("link", name="Equation (1)").click()

    expect(page).to_have_url(re.compile("/index.html#eq-tip-speed$"))


def test_equation_is_copied_as_latex(page: Page) -> None:
    """What is copied is what the author wrote, without the label."""
    page.get_by_role("button", name="Copy LaTeX of equation (1)").click()
    page.get_by_text("Copied").first.wait_for()

    assert page.evaluate("navigator.clipboard.readText()") == r"V = \Omega R"


def test_link_to_an_equation_is_copied(page: Page, address: str) -> None:
    """A link without a reader's own numbers."""
    page.get_by_role("button", name="Copy link to equation (1)").click()
    page.get_by_text("Copied").first.wait_for()

    assert page.evaluate("navigator.clipboard.readText()") == f"{address}#eq-tip-speed"


def test_copying_works_without_the_clipboard_interface(page: Page) -> None:
    """A plain-http intranet has none."""
    page.evaluate("Object.defineProperty(navigator, 'clipboard', { value: undefined })")
    page.evaluate("document.addEventListener('copy', () => (window.said = `${getSelection()}`))")
    page.get_by_role("button", name="Copy LaTeX of equation (1)").click()
    page.get_by_text("Copied").first.wait_for()

    assert page.evaluate("said") == r"V = \Omega R"


def test_box_that_scrolls_takes_the_keyboard_only_when_it_scrolls(page: Page) -> None:
    """On a narrow screen the table can be reached and moved; on a wide one it is no stop."""
    box = page.locator(".scroll-box:has(table)")
    page.wait_for_selector(".scroll-box.scrolls:has(table)[tabindex='0']")
    box.focus()
    page.keyboard.press("ArrowRight")
    becomes(lambda: box.evaluate("box => box.scrollLeft > 0"), expected=True)

    page.set_viewport_size({"width": 1280, "height": 700})
    page.wait_for_selector(".scroll-box:not(.scrolls):has(table):not([tabindex])")


@pytest.mark.parametrize("key", ["Enter", "Space"])
def test_menu_opens_by_keyboard(page: Page, key: str) -> None:
    """On a narrow screen, or at 400 % on a wide one, the menu is a button; closed it is no stop."""
    entry = page.locator(".md-nav--primary > .md-nav__list > .md-nav__item > a")
    expect(entry).to_be_hidden()

    page.get_by_role("button", name="Menu").focus()
    page.keyboard.press(key)

    expect(entry).to_be_visible()


def test_colours_follow_the_system_until_chosen(page: Page) -> None:
    """The reader's choice is kept for the next page."""
    body = page.locator("body")
    page.emulate_media(color_scheme="dark")
    expect(body).to_have_attribute("data-md-color-scheme", "slate")

    page.get_by_title("Change to light").click()
    expect(body).to_have_attribute("data-md-color-scheme", "default")
    page.keyboard.press("Tab")
    page.keyboard.press("Shift+Tab")
    shown = page.locator(".md-option:checked + .md-header__button")
    expect(shown).to_have_css("outline-style", "solid")  # the stop of the keyboard can be seen
    page.reload()
    expect(body).to_have_attribute("data-md-color-scheme", "default")


def test_damaged_link_leaves_the_page_working(page: Page, address: str) -> None:
    """A fragment that cannot be decoded is no error, and folded text is still printed."""
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.goto("about:blank")
    page.goto(f"{address}#radius=5%2&rotor_speed=300%_rpm")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    expect(page.get_by_text("Folded text.")).to_be_visible()
    assert errors == []


def test_paper_has_the_text_alone(page: Page) -> None:
    """Printed: folds open, addresses of links, no menus and no buttons, black on white."""
    page.emulate_media(media="print", color_scheme="dark")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")

    expect(page.get_by_text("Folded text.")).to_be_visible()
    for hidden in ".md-header", ".md-sidebar", ".md-footer", ".equation-tools", ".headerlink":
        expect(page.locator(hidden).first).to_be_hidden()
    at_rest(page)
    after = "getComputedStyle(document.querySelector('a[href^=http]'), '::after').content"
    assert page.evaluate(after) == '" <https://doi.org/10.1000/1>"'
    expect(page.locator("body")).to_have_css("color", "rgb(0, 0, 0)")

    page.evaluate("dispatchEvent(new Event('afterprint'))")
    expect(page.locator("details[open]")).to_have_count(0)


@pytest.mark.parametrize(("size", "width"), [("A4", 595), ("Letter", 612)])
def test_page_prints(page: Page, tmp_path: Path, size: str, width: int) -> None:
    """A page becomes a PDF of either paper size."""
    path = tmp_path / "page.pdf"
    page.pdf(path=path, format=size, prefer_css_page_size=False)

    assert path.read_bytes().startswith(b"%PDF")
    assert f"/MediaBox [0 0 {width}".encode() in path.read_bytes()
