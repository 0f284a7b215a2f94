"""The ground-run card on the page of the data sheet: shown, printed, saved, never out of date."""

from pathlib import Path

from playwright.sync_api import BrowserContext, expect

from calc.survey.asking import carded
from tests.sheet.reader import enter, example, field, press, saved
from tests.waiting import becomes

PRINT = "window.print = () => { top.printedPage = document.documentElement.outerHTML; }"


def test_card_is_shown_printed_and_saved_and_goes_with_a_change(
    context: BrowserContext, served: str, tmp_path: Path
) -> None:
    """It waits for a whole survey, has the bytes of the command, and goes once a field changes."""
    context.add_init_script(PRINT)
    page = context.new_page()
    page.goto(f"{served}/sheet.html")
    example(page, "Dunlin")
    button, panel = page.locator("[data-do=card]"), page.locator(".sheet-card")
    expect(button).to_have_attribute("aria-disabled", "true")
    press(page, "Compute the survey")
    expect(button).to_have_attribute("aria-disabled", "false")

    press(page, "Ground-run card")
    frame = page.frame_locator(".sheet-card iframe")
    expect(frame.locator(".danger")).to_contain_text("Anyone may call STOP")
    expect(frame.locator(".needs")).to_contain_text("lag.lag_damping")
    press(page, "Print the card")
    printed = "window.printedPage?.includes('Ground-run card: Dunlin')"
    becomes(lambda: page.evaluate(printed), expected=True)
    file = saved(page, "Save as a file", tmp_path / "dunlin.toml")
    card = saved(page, "Save the card", tmp_path / "card.html")
    assert card.decode() == carded(file.decode())

    enter(field(page, "rotorcraft", "mass"), "640 kg")
    expect(panel).to_be_hidden()
    expect(panel.locator("iframe")).to_have_count(0)
    expect(button).to_have_attribute("aria-disabled", "true")
    button.click(force=True)
    expect(page.locator(".sheet-trouble")).to_contain_text("compute the survey first")
    expect(panel).to_be_hidden()
