"""The record desk, worked by keyboard and mouse as a reader works it."""

import csv
import math
import re
from pathlib import Path

from playwright.sync_api import Locator, Page, expect

from tests.waiting import HELD, at_rest, box

RATE, SECONDS = 250, 20
LINE, AMPLITUDE = 15.0, 1.5
"""Hz and peak amplitude of the one line in the file that a test makes."""


def view(page: Page, name: str) -> Locator:
    """Return a view of the desk."""
    return page.locator(f".record-view[data-view={name}]")


def written(path: Path, rows: int) -> Path:
    """Write a record with semicolons, decimal commas and no units, of a reader's own logger."""
    lines = ["Zeit;Boom;Rotor\n"]
    for n in range(rows):
        value = AMPLITUDE * math.cos(2.0 * math.pi * LINE * n / RATE)
        pulse = 5 if (n * 5.0 / RATE) % 1.0 < 0.2 else 0
        lines.append(f"{n / RATE:.3f};{value:.5f};{pulse}\n".replace(".", ","))
    path.write_text("".join(lines), "utf-8")
    return path


def picked(page: Page, name: str) -> None:
    """Fail unless a name stands in the picker in the end."""
    expect(page.locator("[type=file]")).to_have_value(re.compile(rf"(^|\\){re.escape(name)}$"))


def drag(figure: Locator) -> None:
    """Drag the mouse across a part of a figure."""
    figure.scroll_into_view_if_needed()
    at_rest(figure.page)
    at, mouse = box(figure), figure.page.mouse
    mouse.move(at["x"] + 0.3 * at["width"], at["y"] + 100)
    mouse.down()
    mouse.move(at["x"] + 0.6 * at["width"], at["y"] + 120, steps=4)
    mouse.up()


def test_record_is_read_looked_at_and_taken_away(page: Page, tmp_path: Path) -> None:
    """A file is chosen, a column said to be pulses; zoom, orders, CSV; lost, it is read again."""
    page.locator("[type=file]").set_input_files(written(tmp_path / "own.csv", RATE * SECONDS))
    progress = page.locator(".record-progress")
    expect(progress).to_contain_text("5000 rows in 20.00 s at 250.0 Hz")
    said = page.locator(".record-columns > *").first.element_handle()
    page.get_by_label("What column 3 is").select_option("tachometer pulses")
    said.wait_for_element_state("hidden")  # what the file holds is said anew
    page.get_by_label("Unit of column 2").fill("m/s2")
    page.keyboard.press("Tab")
    expect(progress).to_contain_text("read it again")
    page.get_by_role("button", name="Read the file").click()
    expect(progress).to_contain_text("rotor speed 300.0")

    spectrum = view(page, "spectrum")
    expect(spectrum.locator(".record-words")).to_have_text(
        re.compile(r"^1 peak, the largest 1\.500 m/s2 peak at 15\.000 Hz\.$")
    )
    spectrum.get_by_label("Shown as").select_option("velocity")
    expect(spectrum.locator(".record-words")).to_contain_text("15.92 mm/s peak")
    reader = spectrum.locator(".figure-reader")
    drag(reader)
    high = spectrum.get_by_label("Highest frequency")
    expect(high).to_have_value(re.compile(r"^[67]\d\.\d+$"))
    expect(spectrum.locator(".record-words")).to_contain_text("No peak")
    reader.press("0")
    expect(high).to_have_value("")
    expect(spectrum.locator(".record-words")).to_contain_text("15.92 mm/s peak")
    expect(reader).to_be_focused()

    orders = view(page, "orders")
    orders.locator("summary").click()
    orders.get_by_role("textbox", name="Orders").fill("1, 3")
    expect(orders.locator("tbody tr").last).to_contain_text(re.compile(r"^3\.0001\.50"))
    with page.expect_download() as saved:
        orders.get_by_role("button", name="Save as CSV").click()
    rows = list(csv.reader(Path(saved.value.path()).read_text("utf-8").splitlines()))
    assert abs(float(rows[2][1]) - AMPLITUDE) < 0.002 * AMPLITUDE

    response = view(page, "response")
    response.locator("summary").click()
    expect(response.locator(".record-words")).to_contain_text("Choose the stimulus")
    response.get_by_label("Stimulus, stick or force").select_option("Rotor")
    expect(response.locator("figure.live svg svg")).to_have_count(2)
    expect(response.locator(".record-result")).to_contain_text("7 blocks count as")
    assert ["File", "own.csv"] in rows

    page.evaluate(
        """async () => {
            while (engine.state === "ready") { // what waits is dropped without a new start
                const lost = engine.ask({ key: "lost", call: "record.told.told" });
                engine.stop("lost");
                await lost.catch(() => {});
                await new Promise((done) => setTimeout(done, 50));
            }
        }"""
    )
    expect(progress).to_contain_text("has lost the record; the file is read again. 5000 rows")
    orders.get_by_role("textbox", name="Orders").fill("2")
    expect(orders.locator("tbody tr")).to_have_count(1)
    stored = page.evaluate("JSON.stringify([{ ...localStorage }, { ...sessionStorage }])")
    assert "own.csv" not in stored


def test_damaged_file_is_read_but_for_what_is_wrong(page: Page, tmp_path: Path) -> None:
    """A bad cell is named by line and column and nothing else is lost; no text is refused."""
    path = written(tmp_path / "damaged.csv", 2000)
    lines = path.read_text("utf-8").splitlines(keepends=True)
    lines[700] = lines[700].replace(";", ";oh", 1)
    path.write_text("".join(lines), "utf-8")
    page.locator("[type=file]").set_input_files(path)
    expect(page.locator(".record-progress")).to_contain_text("2000 rows in 8.000 s")
    problem = page.locator(".record-problems tbody tr")
    expect(problem).to_have_count(1)
    expect(problem).to_contain_text(re.compile("^7012"))

    picture = tmp_path / "picture.csv"
    picture.write_bytes(b"PK\x03\x04\x00\x00\x00")
    page.locator("[type=file]").set_input_files(picture)
    expect(page.locator(".record-trouble")).to_contain_text("picture.csv is no text")
    picked(page, "damaged.csv")
    expect(page.locator(".record-progress")).to_contain_text("2000 rows")


def test_text_typed_while_the_fields_are_made_anew_stays(page: Page, tmp_path: Path) -> None:
    """The file is looked at anew for one field; what is typed into another meanwhile is kept."""
    page.add_init_script(HELD)
    page.reload()
    page.evaluate("goOn()")
    page.locator("[type=file]").set_input_files(written(tmp_path / "own.csv", 2000))
    expect(page.locator(".record-progress")).to_contain_text("2000 rows")
    said = page.locator(".record-columns > *").first.element_handle()
    page.evaluate("held = 'record.opening.guessed'")
    page.get_by_label("What column 3 is").select_option("tachometer pulses")
    unit = page.get_by_label("Unit of column 2")
    unit.click()
    page.keyboard.type("m/s")
    page.evaluate("goOn()")
    said.wait_for_element_state("hidden")
    expect(unit).to_be_focused()
    page.keyboard.type("2")
    expect(unit).to_have_value("m/s2")
    page.keyboard.press("Tab")
    expect(page.locator(".record-progress")).to_contain_text("read it again")
    expect(unit).to_have_value("m/s2")


def test_reading_is_stopped(page: Page, tmp_path: Path) -> None:
    """A long file can be stopped while it is read; nothing of it is kept, another can be read.

    The engine gets no piece of the file before the reader stops it.
    """
    page.add_init_script(HELD)
    page.reload()
    page.evaluate("held = 'measurement.desk.feed'")
    path = written(tmp_path / "long.csv", 1000)
    head, *rows = path.read_text("utf-8").splitlines(keepends=True)
    path.write_text(head + "".join(rows) * 120, "utf-8")
    page.locator("[type=file]").set_input_files(path)
    page.get_by_role("button", name="Stop reading").click()
    expect(page.locator(".record-progress")).to_contain_text("nothing of it is kept")
    page.evaluate("goOn()")
    expect(page.locator(".record-views")).to_be_hidden()
    page.locator("[data-example=plover_decay]").click()
    expect(page.locator(".record-progress")).to_contain_text("1400 rows in 14.00 s")
    picked(page, "plover_decay.csv")
