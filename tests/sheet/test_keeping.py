"""How the data sheet is kept: beside other tabs, and in a storage that is off, full or cleared."""

from playwright.sync_api import BrowserContext, Page, expect

from tests.sheet.reader import enter, example, field, press

FILL = """() => {
  for (let size = 2 ** 23; size >= 1; size /= 2) {
    for (let number = 0; ; number++) {
      try { localStorage.setItem(`filler ${size} ${number}`, "x".repeat(size)); } catch { break; }
    }
  }
}"""
"""Fills what the browser gives to a site, to the last letter."""

OFF = """for (const name of ["getItem", "setItem", "removeItem"]) {
  const own = Storage.prototype[name];
  Storage.prototype[name] = function (key, ...rest) {
    if (key.startsWith("handbook")) throw new DOMException("off");
    return own.call(this, key, ...rest);
  };
}"""
"""Refuses what the handbook keeps; the theme's own script for colours may go on."""


def test_two_tabs_lose_nothing(context: BrowserContext, page: Page, served: str) -> None:
    """A change in one tab is shown in the other, where Undo brings back what stood there."""
    example(page, "Dunlin")
    other = context.new_page()
    other.goto(f"{served}/sheet.html")
    expect(other.locator("[name=title]")).to_have_value("Dunlin")
    enter(field(other, "rotorcraft", "mass"), "700 kg")
    other.locator("[name=note]").fill("the last that is heard of the other tab")
    expect(page.locator("[name=note]")).to_have_value("the last that is heard of the other tab")
    expect(page.locator(".sheet-trouble")).to_contain_text("Another tab has changed the sheet")
    mass = field(page, "rotorcraft", "mass").locator(".sheet-entry")
    expect(mass).to_have_value("700")
    press(page, "Undo")
    expect(mass).to_have_value("1500")


def test_storage_that_is_off_is_said(context: BrowserContext, served: str) -> None:
    """The line beside the sheet says that nothing is kept, and the sheet works all the same."""
    context.add_init_script(OFF)
    page = context.new_page()
    page.goto(f"{served}/sheet.html")
    kept = page.locator(".sheet-kept")
    expect(kept).to_contain_text("NOT kept")
    mass = field(page, "rotorcraft", "mass")
    enter(mass, "700 kg")
    expect(kept).to_contain_text("NOT kept")
    expect(mass.locator(".sheet-entry")).to_have_value("700")


def test_storage_that_is_full_is_said_until_there_is_room(page: Page) -> None:
    """With no letter of room left nothing is kept; with room again the whole sheet is."""
    page.evaluate(FILL)
    mass, kept = field(page, "rotorcraft", "mass"), page.locator(".sheet-kept")
    enter(mass, "700 kg")
    expect(kept).to_contain_text("NOT kept")
    page.evaluate("localStorage.clear()")
    enter(field(page, "rotorcraft", "radius"), "5 m")
    expect(kept).not_to_contain_text("NOT kept")
    page.reload()
    expect(field(page, "rotorcraft", "mass").locator(".sheet-entry")).to_have_value("700")


def test_storage_that_was_cleared_is_noticed(page: Page) -> None:
    """A browser that clears its storage meanwhile loses nothing that stands in the page."""
    enter(field(page, "rotorcraft", "mass"), "700 kg")
    expect(page.locator(".sheet-kept")).to_contain_text("Kept in the local storage")
    page.evaluate("localStorage.clear()")
    enter(field(page, "rotorcraft", "radius"), "5 m")
    expect(page.locator(".sheet-kept")).to_contain_text("had been cleared")
    page.reload()
    expect(field(page, "rotorcraft", "mass").locator(".sheet-entry")).to_have_value("700")


def test_reload_is_no_edit(page: Page) -> None:
    """After a reload there is nothing to undo: Undo would empty the sheet."""
    enter(field(page, "rotorcraft", "mass"), "700 kg")
    page.reload()
    expect(page.locator("[data-do=undo]")).to_have_attribute("aria-disabled", "true")
    page.locator("[name=title]").focus()
    page.keyboard.press("Control+z")
    expect(field(page, "rotorcraft", "mass").locator(".sheet-entry")).to_have_value("700")
