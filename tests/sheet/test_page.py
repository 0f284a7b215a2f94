"""The page of the data sheet, worked by keyboard and mouse as a reader works it."""

import re
from pathlib import Path

from playwright.sync_api import Page, expect

from calc.sheet.file import opened
from calc.sheet.sheet import Value
from calc.survey.asking import reported
from tests.sheet.reader import EXAMPLES, enter, example, field, press, saved
from tests.waiting import becomes


def test_sheet_is_typed_saved_wiped_and_opened_again(page: Page, tmp_path: Path) -> None:
    """What was typed is in the file; the file brings it back; its report is that of the command."""
    page.locator("[name=title]").fill("Wren")
    enter(field(page, "rotorcraft", "radius"), "4.8", "drawing", "5 mm")
    enter(field(page, "rotorcraft", "blades"), "4")
    enter(field(page, "rotorcraft", "rotor_speed"), "6 Hz", "measured", "1 %")
    mass = field(page, "rotorcraft", "mass")
    mass.locator(".unit-list").select_option("lb")
    enter(mass, "6600")
    mass.locator(".unit-list").select_option("kg")
    expect(mass.locator(".sheet-entry")).to_have_value("2993.709642")
    enter(field(page, "flight", "airspeed"), "120 kt")
    modes = page.locator("[data-section=airframe_modes]")
    modes.locator("summary").first.click()
    modes.get_by_role("button", name="Add a row").click()
    page.keyboard.type("first lateral")
    enter(field(page, "airframe_modes", "frequency", 0), "5.5 Hz", "measured")
    first = saved(page, "Save as a file", tmp_path / "first.toml")
    sheet = opened(first).sheet

    assert sheet is not None
    assert sheet.title == "Wren"
    assert sheet.value("rotorcraft.radius") == Value("4.8 m", "drawing", "5 mm")
    assert sheet.value("rotorcraft.rotor_speed") == Value("6 Hz", "measured", "1 %")
    assert sheet.value("rotorcraft.mass") == Value("6600 lb")
    assert sheet.value("flight.airspeed") == Value("120 kt")
    assert sheet.value("lag.lag_damping") == Value()
    (mode,) = sheet.rows["airframe_modes"]
    assert mode["name"] == Value("first lateral")
    assert mode["frequency"] == Value("5.5 Hz", "measured")

    press(page, "Delete my data")
    press(page, "Delete all my data of the handbook for good")
    expect(page.locator(".sheet-kept")).to_contain_text("is deleted")
    expect(field(page, "rotorcraft", "radius").locator(".sheet-entry")).to_have_value("")
    kept = "Object.keys(localStorage).filter((key) => key.startsWith('handbook'))"
    becomes(lambda: page.evaluate(kept), [])

    page.locator("[type=file]").set_input_files(tmp_path / "first.toml")
    expect(page.locator("[name=title]")).to_have_value("Wren")
    radius = field(page, "rotorcraft", "radius")
    radius.locator(".unit-list").select_option("mm")
    expect(radius.locator(".sheet-entry")).to_have_value("4800")
    assert saved(page, "Save as a file", tmp_path / "second.toml") == first

    press(page, "Compute the survey")
    expect(page.locator(".sheet-progress")).to_contain_text("answers, computed from the sheet")
    report = saved(page, "Save the report", tmp_path / "report.html")
    assert report.decode() == reported(first.decode())

    enter(radius, "16 ft")
    third = opened(saved(page, "Save as a file", tmp_path / "third.toml")).sheet
    assert third is not None
    assert third.value("rotorcraft.radius") == Value("16 ft", "drawing", "5 mm")


def test_survey_is_out_of_date_as_soon_as_an_input_changes(page: Page) -> None:
    """It says so, is marked, and cannot be saved; what it lacks is named; a stop leaves it open."""
    example(page, "Dunlin")
    press(page, "Compute the survey")
    progress, answers = page.locator(".sheet-progress"), page.locator(".sheet-answers")
    expect(progress).to_contain_text("answers, computed from the sheet as it stands")
    expect(answers.locator(".lacking").first).to_contain_text("Cannot be given")
    expect(answers).to_contain_text("rotorcraft.drag_area")
    expect(page.locator("[data-do=report]")).to_have_attribute("aria-disabled", "false")

    told = answers.locator("[data-key=advance_ratio]")
    expect(told).to_contain_text(re.compile(r"The airspeed of the sheet, [0-9.]+ m/s"))
    page.locator(".system-list").select_option("us")
    expect(told).to_contain_text(re.compile(r"The airspeed of the sheet, [0-9.]+ ft/s"))
    expect(progress).to_contain_text("answers, computed from the sheet as it stands")

    enter(field(page, "rotorcraft", "drag_area"), "1 m2")

    expect(progress).to_contain_text("Out of date")
    expect(answers).to_have_class("sheet-answers stale")
    expect(page.locator("[data-do=report]")).to_have_attribute("aria-disabled", "true")
    example_with_much_to_do(page)
    press(page, "Compute the survey")
    page.keyboard.press("Escape")
    expect(progress).to_contain_text("Stopped: the survey is not whole")
    expect(page.locator("[data-do=report]")).to_have_attribute("aria-disabled", "true")


def example_with_much_to_do(page: Page) -> None:
    """Replace the sheet by one whose survey takes seconds."""
    press(page, "Plover")
    press(page, "Replace the sheet here")
    expect(page.locator("[name=title]")).to_have_value("Plover")


def test_differences_are_told_before_a_changed_sheet_is_replaced(page: Page) -> None:
    """Keeping leaves all as it was, replacing can be undone."""
    example(page, "Plover")
    mass = field(page, "rotorcraft", "mass")
    enter(mass, "3333 kg", "estimate")
    press(page, "Curlew")
    compare = page.locator(".sheet-compare")
    expect(compare).to_contain_text("Rotorcraft and main rotor")
    expect(compare).not_to_contain_text("rotorcraft.mass")
    expect(compare).to_contain_text("3333 kg ± 100 kg (estimate)")
    press(page, "Keep the sheet here")
    expect(compare).to_be_hidden()
    expect(page.locator("[name=title]")).to_have_value("Plover")
    press(page, "Curlew")
    press(page, "Replace the sheet here")
    expect(page.locator("[name=title]")).to_have_value("Curlew")
    press(page, "Undo")
    expect(page.locator("[name=title]")).to_have_value("Plover")
    expect(mass.locator(".sheet-entry")).to_have_value("3333")


def test_damaged_file_is_refused_by_line_and_changes_nothing(page: Page, tmp_path: Path) -> None:
    """Each problem is listed with its line; a wrong entry is told beside its field."""
    example(page, "Plover")
    text = (EXAMPLES / "curlew.toml").read_text("utf-8")
    line = text[: text.index("radius =")].count("\n") + 1
    damaged = tmp_path / "damaged.toml"
    damaged.write_text(text.replace('radius = { value = "', 'radius = { value = "about ', 1))
    page.locator("[type=file]").set_input_files(damaged)
    problems = page.locator(".sheet-problems")
    expect(problems).to_contain_text("damaged.toml was not opened")
    told = problems.get_by_role("listitem").first
    expect(told).to_have_text(re.compile(rf"^line {line}: rotorcraft\.radius"))
    expect(page.locator("[name=title]")).to_have_value("Plover")

    chord = field(page, "rotorcraft", "chord")
    enter(chord, "wide")
    press(page, "Save as a file")
    expect(problems).to_contain_text("The sheet is not saved yet")
    expect(chord.locator(".field-problem")).to_be_visible()
    problems.get_by_role("button").first.click()
    expect(chord.locator(".sheet-entry")).to_be_focused()
