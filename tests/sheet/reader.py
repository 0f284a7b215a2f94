"""A reader at the page of the data sheet, who types and clicks."""

from pathlib import Path

from playwright.sync_api import Locator, Page, expect

from scripts.environment import ROOT
from tests.waiting import PATIENCE

EXAMPLES = ROOT / "docs" / "examples"


def field(page: Page, section: str, name: str, row: int | None = None) -> Locator:
    """Return the line of a value, in a section that is open."""
    around = page.locator(f"[data-section={section}]")
    if around.get_attribute("open") is None:
        around.locator("summary").first.click()
    if row is not None:
        around = around.locator(".sheet-line").nth(row)
        if around.get_attribute("open") is None:
            around.locator("summary").click()
    return around.locator(f"[data-field={name}]")


def enter(line: Locator, text: str, origin: str = "", tolerance: str = "") -> None:
    """Type a value over the old one, say where it came from, and how far it may be off."""
    line.locator(".sheet-entry").click()
    line.page.keyboard.press("Control+a")
    line.page.keyboard.type(text)
    line.page.keyboard.press("Tab")
    if origin:
        line.locator(".sheet-origin").select_option(origin)
    if tolerance:
        line.locator(".sheet-tolerance").click()
        line.page.keyboard.type(tolerance)


def press(page: Page, name: str) -> None:
    """Press a button."""
    page.get_by_role("button", name=name, exact=True).click()


def example(page: Page, name: str) -> None:
    """Open an example in one click."""
    press(page, name)
    expect(page.locator("[name=title]")).to_have_value(name)


def saved(page: Page, name: str, to: Path) -> bytes:
    """Press a button that saves a file, and return the file."""
    with page.expect_download(timeout=1000.0 * PATIENCE) as download:
        press(page, name)
    download.value.save_as(to)
    return to.read_bytes()
