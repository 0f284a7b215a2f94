"""A reader who does anything that the page of the data sheet allows, in any order."""

import html
import random
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, expect

from calc.declaration import Choice
from calc.quantity import Quantity
from calc.sheet.exchange import compared, file_made, held
from calc.sheet.file import opened
from calc.sheet.layout import REPORT, sections
from calc.sheet.sheet import ORIGINS
from calc.survey.asking import answered, questions
from calc.unit_systems import STARTING, SYSTEMS
from tests.form.test_random_edits import anything
from tests.sheet.model import EMPTY, UNKNOWN, At, Cell, Model, Row
from tests.sheet.reader import EXAMPLES
from tests.waiting import becomes

HEAR = "addEventListener('storage', ({ newValue }) => (window.heard = newValue))"
KEPT = "localStorage.getItem('handbook data sheet')"
FIELDS = """(root) => {
  const cell = (box) => [
    box.querySelector(".sheet-entry").value,
    box.querySelector(".unit-list")?.value ?? null,
    box.querySelector(".sheet-origin").value,
    box.querySelector(".sheet-tolerance")?.value ?? null,
  ];
  const cells = (around) => Object.fromEntries(
    [...around.querySelectorAll(".sheet-field")].map((box) => [box.dataset.field, cell(box)]));
  const found = {};
  for (const name of ["title", "note"]) found[name] = root.querySelector(`[name=${name}]`).value;
  for (const section of root.querySelectorAll(".sheet-section")) {
    const lines = [...section.querySelectorAll(".sheet-line")].map(cells);
    found[section.dataset.section] = section.dataset.most ? lines : cells(section);
  }
  return found;
}"""
PLACES = (UNKNOWN, *(key for key in ORIGINS if key != UNKNOWN))
TOLERANCES = ("2 %", "0.1 m", "5", "wide", "")
WORDS = ("Wren", "left 2", "Größe 5", '"x" <b>', "", "main rotor, 4 blades")
NAMES = ("plover", "curlew", "dunlin")
Random = random.Random
PATIENCE = 300  # tenths of a second that a file may take on a busy machine
CURRENT = "computed from the sheet as it stands"


class Wanderer:
    """A reader at the page, with a model of what it should show and all that was wrong."""

    def __init__(self, page: Page, seed: int, folder: Path) -> None:
        """Sit down at a page that was never used; files go to a folder."""
        self.page = page
        self.folder = folder
        self.chance = Random(seed)
        self.model = Model()
        self.root = page.locator("#data-sheet")
        self.surveyed: Any = None  # the sheet that the survey was computed from
        self.wrong: list[str] = []
        self.steps = 0
        self.files: list[Path] = []

    def step(self, does: Callable[[], str]) -> None:
        """Do one thing, and look."""
        self.steps += 1
        after = f"step {self.steps}, {does.__name__} {does()}"
        self.look(after)

    def any(self) -> Callable[[], str]:
        """Return something that can be done, the usual more often."""
        usual = [self.type_value] * 10 + [self.choose_unit] * 3 + [self.say_origin] * 2
        rows = [self.add_row, self.add_row, self.remove_row, self.move_row]
        rest = [self.say_tolerance, self.say_origin_of_all, self.type_title, self.change_system]
        ways = [self.undo] * 3 + [self.save, self.open_file, self.open_example, self.reload]
        return self.chance.choice([*usual, *rows, *rest, *ways, self.other_tab, self.start_anew])

    def look(self, after: str) -> None:
        """Compare what the page shows with the model, and the survey with the sheet."""
        seen, expected = self.root.evaluate(FIELDS), self.model.seen()
        self.wrong += [
            f"after {after}: {key} {different(seen[key], expected[key])}"
            for key in expected
            if seen[key] != expected[key]
        ]
        says = self.root.locator(".sheet-progress").text_content() or ""
        if CURRENT in says and self.surveyed != self.asked_of():
            self.wrong.append(f"after {after}: the survey of another sheet is called current")

    def asked_of(self) -> dict[str, Any]:
        """Return what answers depend on: all but the title block of the report."""
        values: dict[str, Any] = self.model.held()["values"]
        data = {place: told for place, told in values.items() if not place.startswith(f"{REPORT}.")}
        return {**self.model.held(), "values": data}

    # The places of values.

    def place(self, *, numbers: bool = False, origins: bool = False) -> At | None:
        """Return the place of a value: a number, or one with an origin, if that is asked."""
        places = [
            At(part.key, f.name, row)
            for part in sections()
            for f in part.fields
            if f.name != "leave_out" and not (origins and part.key == REPORT)
            for row in (self.row_numbers(part.key) if part.is_table else [None])
            if not numbers or (isinstance(f.declaration, Quantity) and len(f.declaration.units) > 1)
        ]
        return self.chance.choice(places) if places else None

    def row_numbers(self, key: str) -> list[int | None]:
        """Return the numbers of the rows of a table."""
        return list(range(len(self.model.content.rows[key])))

    def table(self, *, filled: bool) -> str | None:
        """Return a table, one that has rows if that is asked for."""
        keys = [
            part.key
            for part in sections()
            if part.is_table and (self.model.content.rows[part.key] or not filled)
        ]
        return self.chance.choice(keys) if keys else None

    def box(self, at: At) -> Locator:
        """Return the line of a value, with all that folds around it open."""
        around = self.section(at.section)
        if at.row is not None:
            around = self.unfolded(around.locator(".sheet-line").nth(at.row))
        return around.locator(f"[data-field={at.name}]")

    def section(self, key: str) -> Locator:
        """Return a section, open."""
        return self.unfolded(self.root.locator(f"[data-section={key}]"))

    def unfolded(self, fold: Locator) -> Locator:
        """Open a fold by its head."""
        if fold.get_attribute("open") is None:
            fold.locator("> summary").click()
        return fold

    def press(self, name: str) -> None:
        """Press a button by its name."""
        self.page.get_by_role("button", name=name, exact=True).click()

    def type(self, field: Locator, text: str) -> None:
        """Type over what stands in a field, and leave it."""
        field.click()
        self.page.keyboard.press("Control+a")
        if text:
            self.page.keyboard.type(text)
        else:
            self.page.keyboard.press("Delete")
        self.page.keyboard.press(self.chance.choice(["Tab", "Enter"]))

    def choose(self, field: Locator, number: int) -> bool:
        """Choose an option by its number, with the arrow keys; return whether anything changed."""
        before: int = field.evaluate("(list) => list.selectedIndex")
        field.focus()
        self.page.keyboard.press("Home")
        for _ in range(number):
            self.page.keyboard.press("ArrowDown")
        self.page.keyboard.press("Tab")
        return before > 0 or number > 0

    # What a reader does; each returns what it was, for the report.

    def type_value(self) -> str:
        """Type into a field, or choose a word."""
        at = self.place()
        if at is None:
            return ""
        field, cell = self.box(at).locator(".sheet-entry"), self.model.of(at)
        if isinstance(at.field.declaration, Choice):
            keys = ["", *at.field.declaration.options]
            key = self.chance.choice(keys)
            if self.choose(field, keys.index(key)):
                self.model.put(at, self.model.typed(at.field, cell, key))
            return f"{key} at {at}"
        text = self.chance.choice(WORDS)
        if isinstance(at.field.declaration, Quantity):
            unit = self.model.shown_in(at.field, cell.own)
            entry = replace(cell.entry, unit=unit)
            text = anything(self.chance, at.field.declaration, entry)[0]
        self.type(field, text)
        self.model.type(at, text)
        return f"{text!r} at {at}"

    def choose_unit(self) -> str:
        """Choose the unit that a value is shown in."""
        at = self.place(numbers=True)
        if at is None:
            return ""
        quantity, cell = at.field.declaration, self.model.of(at)
        assert isinstance(quantity, Quantity)
        unit = self.chance.choice(quantity.units)
        if self.choose(self.box(at).locator(".unit-list"), quantity.units.index(unit)):
            self.model.put(at, replace(cell, own=self.model.chosen(at.field, unit)))
        return f"{unit.key} at {at}"

    def say_origin(self) -> str:
        """Say where a value came from."""
        at = self.place(origins=True)
        if at is None:
            return ""
        origin = self.chance.choice(PLACES)
        if self.choose(self.box(at).locator(".sheet-origin"), PLACES.index(origin)):
            self.model.put(at, replace(self.model.of(at), origin=origin))
        return f"{origin} at {at}"

    def say_origin_of_all(self) -> str:
        """Say where all values of a section came from that do not say it."""
        part = self.chance.choice([p for p in sections() if p.key != REPORT])
        origin = self.chance.choice(PLACES[1:])
        self.section(part.key).locator(".sheet-origins").select_option(origin)

        def said(cell: Cell) -> Cell:
            quiet = cell.is_known and cell.origin == UNKNOWN
            return replace(cell, origin=origin) if quiet else cell

        content = self.model.content
        values = {
            place: said(cell) if place.startswith(f"{part.key}.") else cell
            for place, cell in content.values.items()
        }
        rows = dict(content.rows)
        if part.is_table:
            rows[part.key] = tuple(
                {name: said(cell) for name, cell in row.items()} for row in rows[part.key]
            )
        self.model.edit(replace(content, values=values, rows=rows))
        return f"{origin} in {part.key}"

    def say_tolerance(self) -> str:
        """Say how far a value may be off."""
        at = self.place(numbers=True)
        if at is None:
            return ""
        text, cell = self.chance.choice(TOLERANCES), self.model.of(at)
        self.type(self.box(at).locator(".sheet-tolerance"), text)
        if text or cell.tolerance:
            self.model.put(at, replace(cell, tolerance=text))
        return f"{text!r} at {at}"

    def type_title(self) -> str:
        """Type another title."""
        text = self.chance.choice(WORDS)
        self.type(self.root.locator("[name=title]"), text)
        if text or self.model.content.title:
            self.model.edit(replace(self.model.content, title=text))
        return repr(text)

    def change_system(self) -> str:
        """Choose other units for the handbook."""
        number = self.chance.randrange(len(SYSTEMS))
        self.model.system = list(SYSTEMS)[number]
        self.choose(self.root.locator(".system-list"), number)
        return self.model.system

    def add_row(self) -> str:
        """Add a row, if one more is taken."""
        key = self.table(filled=False)
        assert key is not None
        part = next(part for part in sections() if part.key == key)
        if len(self.model.content.rows[key]) >= part.most:
            return ""
        self.section(key).locator("> [data-do=add]").click()
        row = {f.name: self.model.cell(f) for f in part.fields}
        self.model.change_rows(key, lambda rows: rows.append(row))
        return key

    def remove_row(self) -> str:
        """Remove a row."""
        return self.with_row("remove", lambda rows, number: rows.pop(number))

    def move_row(self) -> str:
        """Move a row up or down; at an end it stays."""
        by = self.chance.choice([-1, 1])

        def move(rows: list[Row], number: int) -> None:
            if 0 <= number + by < len(rows):
                rows.insert(number + by, rows.pop(number))

        return self.with_row("raise" if by < 0 else "lower", move)

    def with_row(self, does: str, change: Callable[[list[Row], int], Any]) -> str:
        """Press a button of some row; return what was done."""
        key = self.table(filled=True)
        if key is None:
            return ""
        number = self.chance.randrange(len(self.model.content.rows[key]))
        line = self.unfolded(self.section(key).locator(".sheet-line").nth(number))
        line.locator(f"[data-do={does}]").click()
        before = self.model.content
        self.model.change_rows(key, lambda rows: change(rows, number))
        if self.model.content.rows[key] == before.rows[key] and does != "remove":
            last = number == (0 if does == "raise" else len(before.rows[key]) - 1)
            if last:
                self.model.past.pop()  # it stays, and that is no edit
        return f"{does} {number} of {key}"

    def undo(self) -> str:
        """Take back the last edit, by the keyboard or by the button."""
        if not self.model.past:
            return "nothing"
        by_key = self.chance.random() < 0.5
        if by_key:
            self.root.locator("[name=title]").focus()
            self.page.keyboard.press("Control+z")
        else:
            self.press("Undo")
        self.model.undo()
        return "by keyboard" if by_key else "by button"

    def save(self) -> str:
        """Save the sheet as a file, unless something is wrong with it, which is said."""
        made = file_made(self.model.held())
        if made["problems"]:
            self.press("Save as a file")
            expect(self.root.locator(".sheet-problems")).to_contain_text("not saved yet")
            return "refused"
        path = self.folder / f"{len(self.files)}.toml"
        with self.page.expect_download() as download:
            self.press("Save as a file")
        download.value.save_as(path)
        if path.read_bytes() != made["text"].encode():
            self.wrong.append(f"the file {path} is not that of the sheet")
        self.files.append(path)
        self.model.filed = self.model.held()
        return path.name

    def open_file(self) -> str:
        """Open a file that was saved before."""
        if not self.files:
            return ""
        path = self.chance.choice(self.files)
        self.root.locator("[type=file]").set_input_files(path)
        return self.taken(held(opened_sheet(path)), path.name)

    def open_example(self) -> str:
        """Open an example."""
        name = self.chance.choice(NAMES)
        self.press(name.capitalize())
        return self.taken(held(opened_sheet(EXAMPLES / f"{name}.toml")), name)

    def taken(self, sheet: Any, name: str) -> str:
        """Wait for a sheet to be there, or answer which of two to keep."""
        now = self.model.held()
        if now != self.model.filed and compared(now, sheet):
            if self.chance.random() < 0.5:
                self.press("Keep the sheet here")
                return f"{name}, and keep what was there"
            self.press("Replace the sheet here")
        self.model.take(sheet)
        for _ in range(PATIENCE):
            if self.root.evaluate(FIELDS) == self.model.seen():
                break
            self.page.wait_for_timeout(100)
        return name

    def start_anew(self) -> str:
        """Empty the sheet, or delete all that is kept."""
        if self.chance.random() < 0.6:
            self.press("Empty sheet")
            self.model.take(EMPTY)
            return "empty"
        self.press("Delete my data")
        self.press("Delete all my data of the handbook for good")
        system = self.model.system
        self.model = Model()
        self.model.system = system
        self.page.reload()
        self.model.system = STARTING
        return "deleted"

    def reload(self) -> str:
        """Load the page anew."""
        self.page.reload()
        self.model.reload()
        return ""

    def other_tab(self) -> str:
        """Change a value in another tab, which this one then shows."""
        self.page.evaluate(HEAR)
        before = self.page.evaluate(KEPT)
        other = Wanderer(self.page.context.new_page(), self.chance.randrange(10**6), self.folder)
        other.page.goto(self.page.url)
        other.model.system = self.model.system
        other.model.content = self.model.kept()
        other.look("opening it in another tab")
        done = other.type_value()
        other.look(f"in another tab {done}")
        self.wrong += other.wrong
        if other.model.held() != self.model.held():
            told = self.root.locator(".sheet-trouble")
            expect(told).to_contain_text("Another tab has changed the sheet")
            self.model.follow(other.model.kept())
        if (last := other.page.evaluate(KEPT)) != before:
            becomes(lambda: self.page.evaluate("window.heard"), last)
        self.model.content = other.model.kept()
        other.page.close()
        self.root.locator("[name=title]").focus()
        self.root.locator("[name=note]").focus()
        return done

    def survey(self) -> str:
        """Compute the survey; it is that of CPython, or the page says what is wrong first."""
        made = file_made(self.model.held())
        self.press("Compute the survey")
        if made["problems"]:
            expect(self.root.locator(".sheet-problems")).to_contain_text("There is no survey yet")
            return "refused"
        expect(self.root.locator(".sheet-progress")).to_contain_text(CURRENT)
        self.surveyed = self.asked_of()
        system = self.model.system
        for asked in questions(made["text"]):
            seen = self.root.locator(f".sheet-answer[data-key={asked['key']}] > summary")
            known = answered(made["text"], asked["key"], tolerances=True, system=system)
            line = html.unescape(re.sub(r"<[^>]*>", "", known["headline"]))
            if line not in (seen.text_content() or ""):
                self.wrong.append(f"{asked['key']}: {seen.text_content()}, not {line}")
        return f"of {len(self.surveyed['values'])} values"


def different(seen: Any, expected: Any) -> str:
    """Return what differs, as short as it can be told."""
    if isinstance(seen, dict) and isinstance(expected, dict):
        pairs = [(key, seen.get(key), expected.get(key)) for key in expected]
    elif isinstance(seen, list) and isinstance(expected, list) and len(seen) == len(expected):
        pairs = [(number, *pair) for number, pair in enumerate(zip(seen, expected, strict=True))]
    else:
        return f"is {seen}, not {expected}"
    return "; ".join(f"{key} {different(one, other)}" for key, one, other in pairs if one != other)


def opened_sheet(path: Path) -> Any:
    """Return the sheet in a file that has no problems."""
    sheet = opened(path.read_bytes()).sheet
    assert sheet is not None
    return sheet
