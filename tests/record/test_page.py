"""The record desk, worked by keyboard and mouse as a reader works it."""

import csv
import math
import re
from pathlib import Path

from playwright.sync_api import Locator, Page, expect

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


def picked(page: Page) -> str:
    """Return the name that stands in the picker, or nothing."""
    return str(page.locator("[type=file]").evaluate("e => e.value.split('\\\\').pop()"))


def test_record_is_read_looked_at_and_taken_away(page: Page, tmp_path: Path) -> None:
    """A file is chosen, a column said to be pulses; zoom, orders, CSV; lost, it is read again."""
    page.locator("[type=file]").set_input_files(written(tmp_path / "own.csv", RATE * SECONDS))
    progress = page.locator(".record-progress")
    expect(progress).to_contain_text("5000 rows in 20.00 s at 250.0 Hz")
    page.get_by_label("What column 3 is").select_option("tachometer pulses")
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
    spectrum.locator(".figure-reader").scroll_into_view_if_needed()
    box = spectrum.locator(".figure-reader").bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + 0.3 * box["width"], box["y"] + 100)
    page.mouse.down()
    page.mouse.move(box["x"] + 0.6 * box["width"], box["y"] + 120, steps=4)
    page.mouse.up()
    high = spectrum.get_by_label("Highest frequency")
    expect(high).to_have_value(re.compile(r"^[67]\d\.\d+$"))
    expect(spectrum.locator(".record-words")).to_contain_text("No peak")
    reader = spectrum.locator(".figure-reader")
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
            const lost = engine.ask({ key: "lost", call: "record.told.told" });
            engine.stop("lost");
            await lost.catch(() => {});
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
    assert picked(page) == "damaged.csv"
    expect(page.locator(".record-progress")).to_contain_text("2000 rows")


def test_reading_is_stopped(page: Page, tmp_path: Path) -> None:
    """A long file can be stopped while it is read; nothing of it is kept, another can be read."""
    path = written(tmp_path / "long.csv", 1000)
    head, *rows = path.read_text("utf-8").splitlines(keepends=True)
    path.write_text(head + "".join(rows) * 1200, "utf-8")
    page.locator("[type=file]").set_input_files(path)
    page.get_by_role("button", name="Stop reading").click(timeout=60_000)
    expect(page.locator(".record-progress")).to_contain_text("nothing of it is kept")
    expect(page.locator(".record-views")).to_be_hidden()
    page.locator("[data-example=plover_decay]").click()
    expect(page.locator(".record-progress")).to_contain_text("1400 rows in 14.00 s")
    assert picked(page) == "plover_decay.csv"
