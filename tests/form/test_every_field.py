"""A reader types into every field of every form, and goes every way back."""

from collections.abc import Iterator
from concurrent.futures import Executor
from dataclasses import replace

import pytest
from playwright.sync_api import Browser, BrowserContext
from playwright.sync_api import TimeoutError as NothingHappens

from calc.catalogue import FORMULAS, entry
from calc.declaration import Choice, Declaration, Field, Table, inputs
from calc.form.calculation import calculate
from calc.form.reading import read
from calc.quantity import Quantity
from tests.form.model import Entry, new_row
from tests.form.visit import SLOW, Visit
from tests.waiting import PATIENT

BRIEF = {
    "rotor.tip_speed.tip_state",
    "harmonics.hub_filter.hub_filter",
    "harmonics.beats.beat",
}
"""Forms that each run types into; the others, with their tables, take many minutes."""

EACH = [
    name if name in BRIEF else pytest.param(name, marks=pytest.mark.thorough) for name in FORMULAS
]


class Typing(Visit):
    """A reader who types into every field."""

    def type_everything(self) -> None:
        """Type into every field, choose every other unit once, add a row and remove it again."""
        for f in self.model.inputs:
            match f.declaration:
                case Table() as table:
                    self.fill_table(f.name, table)
                case Choice() as choice:
                    self.choose(f.name, choice)
                case _:
                    self.fill_field(f)
        if self.name in SLOW:
            self.look_at_result("in the end")

    def fill_field(self, f: Field) -> None:
        """Type a number and a unit behind it; look at it in another unit; drag its slider."""
        old, unit = self.model.field(f.name)
        old = Entry(old.shown(f.declaration, unit), unit)
        typed = self.fresh(f, old)
        self.model.put(f.name, typed, unit)
        self.reader.type(self.reader.field(f.name), typed.text)
        self.look(f"after typing {f.name}")
        if isinstance(f.declaration, Quantity) and len(f.declaration.units) > 1:
            units = f.declaration.units
            number = (units.index(unit) + 1) % len(units) if unit else 0
            self.model.put(f.name, typed, units[number])
            self.reader.choose(self.reader.unit(f.name), number)
            self.look(f"after another unit of {f.name}")
        if f.name in entry(self.name).sliders:
            self.slide(f)

    def slide(self, f: Field) -> None:
        """Move a slider by its keys: it is in the unit of the field, which takes its number."""
        assert isinstance(f.declaration, Quantity)
        slider = self.reader.form.locator(f"[data-slider={f.name}]")
        slider.focus()
        self.reader.page.keyboard.press("ArrowRight")
        unit = self.model.field(f.name)[1]
        self.model.put(f.name, Entry(slider.input_value(), unit), unit)
        self.look(f"after moving the slider of {f.name}")

    def choose(self, name: str, choice: Choice) -> None:
        """Choose the last option and go back to the first."""
        keys = list(choice.options)
        for number in (len(keys) - 1, 0):
            self.model.put(name, Entry(keys[number]), None)
            self.reader.choose(self.reader.field(name), number)
            self.look(f"after choosing {keys[number]}")

    def fill_table(self, name: str, table: Table) -> None:
        """Type into every cell; choose units; add a row, type into it, remove the first."""
        columns = inputs(table.row)
        for number in range(len(self.model.values.tables[name].rows)):
            self.fill_row(name, columns, number)
        for column, c in enumerate(columns):
            if isinstance(c.declaration, Quantity) and len(c.declaration.units) > 1:
                self.model.put_column(name, column, c.declaration.units[-1])
                number = len(c.declaration.units) - 1
                self.reader.choose(self.reader.column_unit(name, column), number)
                self.look(f"after another unit of column {c.name}")
        rows = self.model.values.tables[name]
        if len(rows.rows) < table.at_most:
            self.add_row(name, columns)
        if len(rows.rows) > table.at_least:
            first_removed = self.model.values.tables[name]
            self.model.put_table(name, replace(first_removed, rows=first_removed.rows[1:]))
            self.reader.table(name).locator(".remove-row").first.click()
            self.look(f"after removing a row of {name}")
            self.model.undo()
            self.reader.page.keyboard.press("Control+z")
            self.look(f"after bringing back a row of {name}")
        if calculate(self.name, self.model.sent()).problems:
            self.remove_last_row(name)

    def remove_last_row(self, name: str) -> None:
        """Remove a row with which there is no result, such as one angle of several that belong."""
        rows = self.model.values.tables[name]
        self.model.put_table(name, replace(rows, rows=rows.rows[:-1]))
        self.reader.table(name).locator(".remove-row").last.click()
        self.look(f"after removing the last row of {name}")

    def fill_row(self, name: str, columns: list[Field], number: int) -> None:
        """Type into every cell of a row, and look at the result at its end."""
        for column, c in enumerate(columns):
            place = (number, column)
            old = self.model.values.tables[name].rows[number][column]
            unit = self.model.columns(name)[column]
            old = Entry(old.shown(c.declaration, unit), unit)
            if isinstance(c.declaration, Choice):
                keys = list(c.declaration.options)
                chosen = keys.index(old.text)
                self.reader.choose(self.reader.cell(name, place), chosen)
                continue
            typed = self.fresh(c, old, (name, *place))
            self.model.put_cell(name, place, typed)
            self.reader.type(self.reader.cell(name, place), typed.text)
            self.look(f"after typing {name} {place}", result=False)
        self.look(f"after row {number + 1} of {name}")

    def add_row(self, name: str, columns: list[Field]) -> None:
        """Add a row and type into it something like the last one."""
        rows = self.model.values.tables[name]
        like = rows.rows[-1] if rows.rows else new_row(columns)
        self.model.put_table(name, replace(rows, rows=(*rows.rows, like)))
        self.reader.table(name).locator(".add-row").click()
        last = len(rows.rows)
        for column, (c, old) in enumerate(zip(columns, like, strict=True)):
            cell = self.reader.cell(name, (last, column))
            if isinstance(c.declaration, Choice):
                self.reader.choose(cell, list(c.declaration.options).index(old.text))
            else:
                unit = self.model.columns(name)[column]
                near = Entry(old.shown(c.declaration, unit).replace(",", "."), unit)
                typed = self.fresh(c, near, (name, last, column))
                self.model.put_cell(name, (last, column), typed)
                self.reader.type(cell, typed.text)
        self.look(f"after a new row of {name}")

    def look_at_ways_back(self) -> None:
        """Press each button that goes back, and look."""
        mine = self.model.values.without_lost_units(self.model.inputs)
        self.model.edit(self.model.example, "example")
        self.reader.press("[type=reset]")
        self.look("back at the example")
        if mine == self.model.example:  # choices alone, and chosen as in the example
            return
        self.model.edit(mine, "mine")
        self.reader.way("Bring back my last numbers")
        self.look("with the last numbers brought back")
        self.model.undo()
        self.reader.press(".undo")
        self.look("after Undo")

    def fresh(self, f: Field, old: Entry, cell: tuple[str, int, int] | None = None) -> Entry:
        """Return another entry for a field that still gives a result, as short as people type."""
        for candidate in candidates(f.declaration, old.text):
            typed = replace(old, text=candidate)
            if self.name in SLOW:  # trying is slow too; a zero may be the only number there is
                if old.text == "0":
                    return replace(old, text="0.0")
                if is_within_limits(f.declaration, typed):
                    return typed
            elif self.has_result(f.name, typed, cell):
                return typed
        return old

    def has_result(self, name: str, typed: Entry, cell: tuple[str, int, int] | None) -> bool:
        """Return whether the form has a result with another entry."""
        before = self.model.values
        if cell:
            row, column = cell[1:]
            rows = [list(old) for old in before.tables[cell[0]].rows]
            rows[row][column] = typed
            table = replace(before.tables[cell[0]], rows=tuple(map(tuple, rows)))
            self.model.values = before.with_(cell[0], table)
        else:
            self.model.values = before.with_(name, (typed, before.fields[name][1]))
        sent = self.model.sent()
        self.model.values = before
        return not calculate(self.name, sent).problems


def is_within_limits(declaration: Declaration, entry: Entry) -> bool:
    """Return whether a number is one that can be at all."""
    if not isinstance(declaration, Quantity):
        return True
    try:
        declaration.check(read(declaration, entry.sent(entry.unit)).value)
    except ValueError:
        return False
    return True


def candidates(declaration: Declaration, text: str) -> Iterator[str]:
    """Yield other entries near one: another name, a whole number, or one with a decimal comma."""
    if not isinstance(declaration, Quantity):
        yield f"{text} b"
        return
    number = float(text.replace(",", "."))
    if declaration.whole:
        yield from (f"{number + 1:.0f}", f"{number - 1:.0f}")
        return
    for near in (f"{number * 1.03 + (number == 0) * 0.01:.4g}", f"{number * 0.97:.4g}"):
        if "e" not in near and len(near.partition(".")[2]) != 3:
            yield near.replace(".", ",")
        yield near


@pytest.mark.parametrize("name", EACH)
@pytest.mark.usefixtures("troubles")
def test_every_field_of_every_form(
    name: str, browser: Browser, context: BrowserContext, served: str, python: Executor
) -> None:
    """Typed on a warm page: entries and answers are right, by link and by every way back too."""
    page = context.new_page()
    chapter, topic, _ = name.split(".")
    page.add_init_script(PATIENT)
    page.goto(f"{served}/{chapter}/{topic}.html")
    wrong = []
    visit = Typing(page, name, python)
    try:
        visit.type_everything()
        wrong += brought_by(visit.reader.copied_link(), browser, visit, python)
        visit.look_at_ways_back()
    except NothingHappens as error:
        wrong.append(f"{name}: {error}"[:300])
    wrong += visit.findings()
    assert wrong == []


def brought_by(link: str, browser: Browser, visit: Visit, python: Executor) -> list[str]:
    """Return what is different where a link is opened by somebody else."""
    with browser.new_context() as fresh:
        page = fresh.new_page()
        page.add_init_script(PATIENT)
        page.goto(link)
        other = Visit(page, visit.name, python)
        other.model.values = visit.model.values.without_lost_units(other.model.inputs)
        other.look("opened by the link", result=False)
        other.look_at_result("opened by the link")
        return other.findings()
