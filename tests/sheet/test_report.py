"""Report and review in the page, chosen, blocked, printed, copied, compared."""

from pathlib import Path

from playwright.sync_api import BrowserContext, Page, expect

from calc import VERSION
from calc.sheet.file import opened
from calc.survey.asking import reported
from calc.survey.files import Before, files
from calc.survey.survey import survey
from tests.sheet.reader import EXAMPLES, enter, example, field, press, saved
from tests.waiting import noted

PRINTED = """window.print = () => {
  const cells = [...document.querySelectorAll(".title-block :is(th, td)")];
  const revision = cells[cells.findIndex((cell) => cell.textContent === "Revision") + 1];
  top.document.title = `printed ${document.title}, revision ${revision.textContent}`;
};"""
"""What the frame would print tells the page what it holds."""


def surveyed(page: Page) -> None:
    """Compute the survey and wait for all of it."""
    press(page, "Compute the survey")
    expect(page.locator(".sheet-progress")).to_contain_text("computed from the sheet as it stands")


def test_report_holds_what_was_chosen_and_waits_for_a_survey(page: Page, tmp_path: Path) -> None:
    """Boxes and title block end up in the file, and its report is that of the page, in each form.

    While the survey is out of date the buttons say so and do nothing.
    """
    page.context.add_init_script(PRINTED)
    page.reload()
    example(page, "Dunlin")
    surveyed(page)
    page.locator(".report-choice summary").click()
    page.get_by_label("Working").uncheck()
    page.get_by_label("Fan plot over the whole operating range").uncheck()
    enter(field(page, "report", "revision"), "B")
    expect(page.locator(".sheet-progress")).to_contain_text("computed from the sheet as it stands")

    html = saved(page, "Save the report", tmp_path / "report.html").decode()
    markdown = saved(page, "Save the report as Markdown", tmp_path / "report.md").decode()
    sheet = saved(page, "Save as a file", tmp_path / "sheet.toml").decode()
    assert 'leave_out = "working, fan_plot"' in sheet
    assert html == reported(sheet)
    assert markdown == reported(sheet, "markdown")
    assert "Left out of this report by choice: Working; Fan plot" in html
    press(page, "Print the report")
    expect(page).to_have_title("printed Dunlin: survey, revision B")
    expect(page.locator(".print-frame")).to_have_attribute("srcdoc", html)

    enter(field(page, "rotorcraft", "mass"), "1600 kg")
    page.locator("[data-do=reportMarkdown]").click(force=True)
    expect(page.locator(".sheet-trouble")).to_contain_text("compute the survey first")
    expect(page.locator("[data-do=print]")).to_have_attribute("aria-disabled", "true")


def test_one_answer_is_copied_with_its_link(context: BrowserContext, page: Page) -> None:
    """What is pasted by the keyboard names file, inputs and the link to the form with them."""
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    example(page, "Dunlin")
    surveyed(page)
    answer = page.locator("[data-key=altitude_1_tips]")
    answer.locator("summary").first.click()
    headline = "Advancing-tip Mach number 0.7222"
    expect(answer).to_contain_text(headline)
    said = noted(answer.locator("[data-do=quote][data-kind=text]"))
    answer.get_by_role("button", name="Copy for a review").click()
    said("copied")
    elsewhere = context.new_page()
    elsewhere.set_content("<textarea autofocus></textarea>")
    elsewhere.locator("textarea").click()
    elsewhere.keyboard.press("Control+v")
    expect(elsewhere.locator("textarea")).not_to_be_empty()
    pasted = elsewhere.locator("textarea").input_value()
    assert headline in pasted
    assert "90 kt" in pasted
    assert "SHA-256" in pasted
    link = pasted.split("Form with these entries: ")[1].split("\n")[0]
    sheet = opened((EXAMPLES / "dunlin.toml").read_bytes()).sheet
    assert sheet is not None
    asked = next(one.asked for one in survey(sheet) if one.asked.key == "altitude_1_tips")
    address, _, quoted = link.partition("&tip_state.release=")
    assert address == f"{page.url.removesuffix('sheet.html')}{asked.link}"
    assert quoted.startswith(f"{VERSION}&tip_state.quoted=")
    assert ";advancing_tip_mach_0.7221" in quoted


def test_sheet_is_compared_with_the_one_that_was_here(page: Page, tmp_path: Path) -> None:
    """Inputs and results side by side, the same bytes as the command; out of date with an edit."""
    example(page, "Dunlin")
    press(page, "Curlew")
    expect(page.locator("[name=title]")).to_have_value("Curlew")
    page.locator("[type=file]").set_input_files(EXAMPLES / "dunlin.toml")
    expect(page.locator("[name=title]")).to_have_value("Dunlin")
    mass = field(page, "rotorcraft", "mass")
    changed = tmp_path / "changed.toml"
    enter(mass, "1600 kg")
    enter(field(page, "rotorcraft", "drag_area"), "1 m²")
    new = saved(page, "Save as a file", changed)
    page.locator("[type=file]").set_input_files(EXAMPLES / "dunlin.toml")
    expect(mass.locator(".sheet-entry")).to_have_value("1500")
    page.locator("[type=file]").set_input_files(changed)
    expect(mass.locator(".sheet-entry")).to_have_value("1600")

    press(page, "Compare with the sheet before: Dunlin (dunlin.toml)")
    expect(page.locator(".review-progress")).to_contain_text("Compared with the sheet before")
    review = page.locator(".sheet-review")
    expect(review).to_contain_text("given now")
    expect(review.locator("tr", has_text="rotorcraft.mass")).to_contain_text("1600 kg")
    found = saved(page, "Save the comparison", tmp_path / "comparison.html").decode()
    old = (EXAMPLES / "dunlin.toml").read_bytes()
    before, after = opened(old).sheet, opened(new).sheet
    assert before is not None
    assert after is not None
    assert found == files(after, new, Before(before, old))["comparison.html"]

    enter(mass, "1700 kg")
    expect(page.locator(".review-progress")).to_contain_text("out of date")
    expect(page.get_by_role("button", name="Save the comparison", exact=True)).to_be_hidden()
