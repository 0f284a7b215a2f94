"""The pages of the exercises, worked by keyboard and mouse as a learner and an instructor do."""

import csv
import io
import re
from pathlib import Path

from playwright.sync_api import BrowserContext, expect

from calc.exercises.posing import posed
from calc.exercises.sheets import Order, key_csv, key_page, sheet_page


def test_learner_answers_by_keyboard(context: BrowserContext, served: str) -> None:
    """A link's numbers; a unit forgotten, a mistake named, a hint, the right answer in knots."""
    page = context.new_page()
    page.goto(f"{served}/exercises/rotor.html#tip_speed=703")
    found = posed("tip_speed", 703)
    exercise = page.locator("#tip_speed")
    said = exercise.get_by_role("status")
    expect(exercise.locator(".exercise-question")).to_have_text(found.said(found.exercise.text))

    exercise.get_by_label("Your answer").click()
    page.keyboard.type("1881")
    page.keyboard.press("Enter")
    expect(said).to_contain_text("Type the unit behind the number: m/s, kt")

    as_radians = float(found.numbers["radius"].digits) * float(found.numbers["rotor_speed"].digits)
    page.keyboard.press("Control+a")
    page.keyboard.type(f"{as_radians:.0f} m/s")
    page.keyboard.press("Enter")
    expect(said).to_contain_text("the rotor speed in rpm is put in as if it were rad/s")

    hint = exercise.get_by_text("Hint 1")
    hint.focus()
    page.keyboard.press("Enter")
    expect(exercise.get_by_text(found.exercise.hints[0])).to_be_visible()
    expect(exercise.get_by_text(found.exercise.hints[1])).to_be_hidden()

    exercise.get_by_label("Your answer").fill("")
    exercise.get_by_label("Your answer").click()
    page.keyboard.type(f"{found.answer * 3600.0 / 1852.0:.1f} kt")
    page.keyboard.press("Enter")
    expect(said).to_contain_text("Right: ")

    exercise.get_by_label("Seed of the numbers").click()
    page.keyboard.press("Control+a")
    page.keyboard.type("2")
    exercise.get_by_role("button", name="Check").click()
    other = posed("tip_speed", 2)
    expect(exercise.locator(".exercise-question")).to_have_text(other.said(other.exercise.text))
    expect(said).to_have_text("Type your answer first.")
    expect(page).to_have_url(re.compile("#tip_speed=2$"))
    exercise.get_by_text("Solution").click()
    expect(exercise.locator(".exercise-solution")).to_contain_text(other.exercise.lesson)
    assert page.evaluate("Object.keys(localStorage).filter((k) => k.includes('exercise'))") == []


def test_instructor_gets_the_same_sheets_from_the_link(
    context: BrowserContext, served: str, tmp_path: Path
) -> None:
    """Chosen, made, saved; the link brings the same bytes, and says what a digest says."""
    page = context.new_page()
    page.goto(f"{served}/exercises/sheets.html")
    page.get_by_label("Blade passage frequency,").check()
    page.get_by_label("Coalescence speed,").check()
    page.get_by_label("Seed").fill("7")
    page.get_by_label("Variants").fill("2")
    page.get_by_label("Title").fill("Tuesday")
    page.get_by_role("button", name="Make the sheets").click()
    expect(page.get_by_text("2 variants made, with their key.")).to_be_visible()
    expect(page).to_have_url(re.compile("blade_passage:"))

    order = Order(("blade_passage", "coalescence"), 7, 2, "Tuesday", "A4")
    for label, expected in (
        ("Save the sheets", sheet_page(order)),
        ("Save the key", key_page(order)),
        ("Save the answers as CSV", key_csv(order)),
    ):
        with page.expect_download() as download:
            page.get_by_role("button", name=label).click()
        download.value.save_as(tmp_path / "saved")
        assert (tmp_path / "saved").read_text("utf-8") == expected, label
    assert len(list(csv.reader(io.StringIO(key_csv(order))))) == 5

    again = context.new_page()
    again.goto(page.url.replace("blade_passage:", "blade_passage:0"))
    expect(again.get_by_text("2 variants made, with their key.")).to_be_visible()
    expect(again.locator(".exercise-changed")).to_contain_text("Blade passage frequency: the ques")
    expect(again.locator(".exercise-changed")).not_to_contain_text("Coalescence")
    again.get_by_label("Solidity of a rotor,").check()
    expect(again.locator(".exercise-made")).to_be_hidden()
