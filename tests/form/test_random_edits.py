"""A thousand edits in random order, over all forms: no entry is lost, no result is another's."""

import random
from collections.abc import Callable
from concurrent.futures import Executor
from dataclasses import replace
from urllib.parse import quote

import pytest
from playwright.sync_api import BrowserContext, Locator, Page
from playwright.sync_api import TimeoutError as NothingHappens

from calc.catalogue import entry, formula
from calc.declaration import Choice, Declaration, Field, Name, Table, inputs
from calc.form.calculation import short_name
from calc.quantity import Quantity
from calc.unit_systems import SYSTEMS
from calc.units import Unit, find_unit
from tests.form.conftest import PAGES, forms_of
from tests.form.model import Entry, Fleet, Rows, new_row
from tests.form.visit import SLOW, Visit

EDITS = 500 // PAGES + 1  # on each page, in each of two runs
WAITS = 0.5  # how often the reader waits for a result before going on
Random = random.Random


class Wanderer(Visit):
    """A reader who does anything that a form allows, in any order."""

    def __init__(
        self, page: Page, name: str, python: Executor, fleet: Fleet, chance: Random
    ) -> None:
        """Sit down at a form."""
        super().__init__(page, name, python, fleet)
        self.chance = chance
        self.declared = {f.name: f.declaration for f in inputs(formula(name))}
        self.tables = [k for k, d in self.declared.items() if isinstance(d, Table)]
        self.chosen = [k for k, d in self.declared.items() if isinstance(d, Choice)]
        self.typed = [k for k, d in self.declared.items() if isinstance(d, Quantity | Name)]

    def step(self) -> None:
        """Do one thing, and look."""
        does = self.chance.choice(self.possible())
        after = f"after {does.__name__}: {does()}"
        self.look(after, result=False)
        self.glance(after)
        if self.name not in SLOW and self.chance.random() < WAITS:
            self.look_at_result(after)

    def possible(self) -> list[Callable[[], str]]:
        """Return what can be done now, the usual more often."""
        found: list[Callable[[], str]] = [
            self.undo,
            self.back_to_example,
            self.open_link,
            self.digit,
            self.change_system,
        ]
        if self.typed:
            found += [self.type_number] * 6 + [self.change_unit] * 3
        if self.chosen:
            found += [self.choose_word] * 2
        if entry(self.name).sliders:
            found += [self.move_slider] * 2
        if self.tables:
            found += [self.type_cell] * 6 + [self.change_column] * 2
            found += [self.add_row, self.remove_row, self.move_row, self.paste]
        if self.way_back():
            found += [self.back_to_mine] * 3
        return found

    # The things a reader does; each returns what it was, for the report.

    def type_number(self) -> str:
        """Type into a field and leave it."""
        name = self.chance.choice(self.typed)
        declaration = self.declared[name]
        old, unit = self.model.field(name)
        typed, number, named = anything(self.chance, declaration, old)
        if typed or old.text:
            self.model.put(name, Entry(typed, unit), unit)
        self.reader.type(self.reader.field(name), typed)
        self.look(f"while {typed!r} is typed into {name}", result=False)
        self.glance(f"while {typed!r} is typed into {name}")
        self.reader.leave()
        stays = isinstance(declaration, Quantity) and declaration.units[0].key == ""
        if named and (named == unit or not stays):  # a per cent stays beside its number
            with self.model.same_edit():
                self.model.put(name, Entry(number, named), named)
        return f"{typed!r} into {name}"

    def change_unit(self) -> str:
        """Choose another unit for a field."""
        name = self.chance.choice(self.typed)
        declaration = self.declared[name]
        old, unit = self.model.field(name)
        if not isinstance(declaration, Quantity) or len(declaration.units) == 1 or unit is None:
            return "nothing"
        chosen, first = self.chance.choice(declaration.units), declaration.units[0]
        if (unit, chosen) != (first, first):
            self.model.put(name, old, first)  # where the keys go by on their way
            with self.model.same_edit():
                self.model.put(name, old, chosen)
        self.choose(self.reader.unit(name), declaration.units.index(chosen))
        return f"{chosen.key!r} for {name}"

    def choose_word(self) -> str:
        """Choose a word."""
        name = self.chance.choice(self.chosen)
        declaration = self.declared[name]
        assert isinstance(declaration, Choice)
        keys = list(declaration.options)
        number = self.chance.randrange(len(keys))
        if (self.model.values.fields[name][0].text, number) != (keys[0], 0):
            self.model.put(name, Entry(keys[number]), None)
        self.choose(self.reader.field(name), number)
        return f"{keys[number]!r} for {name}"

    def move_slider(self) -> str:
        """Move a slider by one step."""
        name = self.chance.choice(list(entry(self.name).sliders))
        declaration = self.declared[name]
        assert isinstance(declaration, Quantity)
        slider = self.reader.form.locator(f"[data-slider={name}]")
        before = slider.input_value()
        slider.focus()
        self.reader.page.keyboard.press(self.chance.choice(["ArrowLeft", "ArrowRight"]))
        if slider.input_value() != before:
            unit = self.model.field(name)[1]
            self.model.put(name, Entry(slider.input_value(), unit), unit)
        self.reader.leave()
        return f"slider of {name}"

    def choose(self, choice: Locator, number: int) -> None:
        """Choose an option and leave the list: what is chosen there next is an edit of its own."""
        self.reader.choose(choice, number)
        self.reader.leave()

    def a_cell(self) -> tuple[str, int, int] | None:
        """Return some cell of some table."""
        name = self.chance.choice(self.tables)
        rows = self.model.values.tables[name].rows
        if not rows:
            return None
        return name, self.chance.randrange(len(rows)), self.chance.randrange(len(rows[0]))

    def columns(self, name: str) -> list[Field]:
        """Return the columns of a table."""
        table = self.declared[name]
        assert isinstance(table, Table)
        return inputs(table.row)

    def type_cell(self) -> str:
        """Type into a cell, or choose in it."""
        place = self.a_cell()
        if place is None:
            return "nothing"
        name, row, column = place
        declaration = self.columns(name)[column].declaration
        table = self.model.values.tables[name]
        cell = self.reader.cell(name, (row, column))
        old, unit = table.rows[row][column], self.model.columns(name)[column]
        if isinstance(declaration, Choice):
            keys = list(declaration.options)
            number = self.chance.randrange(len(keys))
            if (old.text, number) != (keys[0], 0):
                self.model.put_cell(name, (row, column), Entry(keys[number]))
            self.choose(cell, number)
            return f"{keys[number]!r} for {place}"
        typed, text, named = anything(self.chance, declaration, old)
        if typed or old.text:
            self.model.put_cell(name, (row, column), Entry(typed, unit))
        self.reader.type(cell, typed)
        self.look(f"while {typed!r} is typed into {place}", result=False)
        self.reader.leave()
        if named:
            with self.model.same_edit():
                self.model.put_cell(name, (row, column), Entry(text, named))
        return f"{typed!r} into {place}"

    def change_column(self) -> str:
        """Choose another unit for a column."""
        name = self.chance.choice(self.tables)
        column, f = self.chance.choice(list(enumerate(self.columns(name))))
        if not isinstance(f.declaration, Quantity) or len(f.declaration.units) == 1:
            return "nothing"
        chosen, shown = self.chance.choice(f.declaration.units), self.model.columns(name)[column]
        first = f.declaration.units[0]
        if (shown, chosen) != (first, first):
            self.model.put_column(name, column, first)  # where the keys go by on their way
            with self.model.same_edit():
                self.model.put_column(name, column, chosen)
        self.choose(self.reader.column_unit(name, column), f.declaration.units.index(chosen))
        return f"{chosen.key!r} for column {column} of {name}"

    def add_row(self) -> str:
        """Add a row, which starts with the example of each column."""
        name = self.chance.choice(self.tables)
        table, declaration = self.model.values.tables[name], self.declared[name]
        assert isinstance(declaration, Table)
        if len(table.rows) < declaration.at_most:
            self.model.put_table(
                name, replace(table, rows=(*table.rows, new_row(self.columns(name))))
            )
            self.reader.click(self.reader.table(name).locator(".add-row"))
        return f"to {name}"

    def remove_row(self) -> str:
        """Remove a row."""
        place = self.a_cell()
        if place is None:
            return "nothing"
        name, row, _ = place
        table = self.model.values.tables[name]
        rows = (*table.rows[:row], *table.rows[row + 1 :])
        self.model.put_table(name, replace(table, rows=rows))
        self.reader.click(self.reader.table(name).locator(".remove-row").nth(row))
        return f"{row} of {name}"

    def move_row(self) -> str:
        """Move a row up or down."""
        place = self.a_cell()
        if place is None:
            return "nothing"
        name, row, _ = place
        kind, by = self.chance.choice([("raise", -1), ("lower", 1)])
        table = self.model.values.tables[name]
        rows = list(table.rows)
        if 0 <= row + by < len(rows):
            rows[row], rows[row + by] = rows[row + by], rows[row]
            self.model.put_table(name, replace(table, rows=tuple(rows)))
            self.reader.click(self.reader.table(name).locator(f".{kind}-row").nth(row))
        return f"{kind} {row} of {name}"

    def paste(self) -> str:
        """Paste two rows from a spreadsheet into the first cell of a row."""
        place = self.a_cell()
        if place is None:
            return "nothing"
        name, row, _ = place
        table, columns, declaration = (
            self.model.values.tables[name],
            self.columns(name),
            self.declared[name],
        )
        assert isinstance(declaration, Table)
        rows, texts = list(table.rows), []
        for number in range(row, row + 2):
            old = rows[number] if number < len(rows) else new_row(self.columns(name))
            cells = [
                ordinary(self.chance, c.declaration, entry, unit)
                for c, entry, unit in zip(columns, old, self.model.columns(name), strict=True)
            ]
            texts.append("\t".join(text for text, _ in cells))
            if number < declaration.at_most:
                rows[number : number + 1] = [tuple(entry for _, entry in cells)]
        self.model.put_table(name, Rows(table.own, tuple(rows)))
        text = "\n".join(texts)
        self.reader.page.evaluate("(text) => navigator.clipboard.writeText(text)", text)
        self.reader.cell(name, (row, 0)).focus()
        self.reader.page.keyboard.press("Control+v")
        return f"{text!r} into row {row} of {name}"

    def undo(self) -> str:
        """Take back the last edit, by the keyboard or by the button."""
        if not self.model.past:
            return "nothing"
        by_key = self.chance.random() < 0.5
        if by_key:
            self.reader.form.locator(".entry-table .add-row, .entry [name]").first.focus()
            self.reader.page.keyboard.press("Control+z")
        else:
            self.reader.press(".undo")
        self.model.undo()
        return "by keyboard" if by_key else "by button"

    def back_to_example(self) -> str:
        """Press the button."""
        self.model.edit(self.model.example, "example")
        self.reader.press("[type=reset]")
        return ""

    def way_back(self) -> str:
        """Return the button that brings back what was typed before, if there is one."""
        kept = self.model.kept()
        if kept is None or self.model.origin == "mine":
            return ""
        if self.model.origin == "link":
            return "Back to mine"
        if kept == self.model.example:
            return ""
        known = self.name in self.model.fleet.forms
        return "Bring back my last numbers" if known else "Use the numbers of “my rotorcraft”"

    def back_to_mine(self) -> str:
        """Press that button."""
        way = self.way_back()
        kept = self.model.kept()
        assert kept is not None
        self.model.edit(kept, "mine")
        self.reader.way(way)
        return way

    def open_link(self) -> str:
        """Follow a link to this form with the present numbers, or with those of the example."""
        page, model = self.reader.page, self.model
        linked = self.chance.choice([model.values, model.example])
        kept, model.values = model.values, linked.without_lost_units(model.inputs)
        parts = model.linked().items()
        model.values = kept
        model.edit(linked.without_lost_units(model.inputs), "link")
        link = "&".join(
            f"{short_name(self.name)}.{key}={quote(text, safe='/,;')}" for key, text in parts
        )
        address = f"{page.url.partition('#')[0]}#{link}"
        page.goto(address + "&" * (page.url == address))  # the same address would not open again
        return link[:60]

    def digit(self) -> str:
        """Choose how many digits are shown."""
        self.digits = self.chance.choice([4, 6])  # engines agree to fewer digits than ten
        self.reader.choose(self.reader.form.locator("[data-digits]"), self.digits // 6)
        return str(self.digits)

    def change_system(self) -> str:
        """Choose another system of units, for every form of the handbook."""
        number = self.chance.randrange(len(SYSTEMS))
        self.model.fleet.system = list(SYSTEMS)[number]
        self.reader.choose(self.reader.form.locator(".system-list"), number)
        return self.model.system


STRANGE = (
    "", "abc", "1,234", "1_000", "-5", "1e300", "3 furlongs", "½", "0x10", " 7 ", "1.2×10³", "NaN",
    "٣", "<b>", "1e", "7,", "a, b; c_d & 5 % #?",
)  # fmt: skip


def anything(chance: Random, declaration: Declaration, old: Entry) -> tuple[str, str, Unit | None]:
    """Return what somebody may type, its number, and the unit behind it if there is one."""
    if not isinstance(declaration, Quantity) or chance.random() < 0.15:
        text = chance.choice(STRANGE)
        return text, text, None
    unit = chance.choice(declaration.units)
    spelled = chance.choice([unit.name, unit.key, *unit.also])
    if not spelled or chance.random() < 0.75:
        number = near(chance, declaration, old.unit)
        return number, number, None
    number = near(chance, declaration, unit)
    between = " " if spelled[0].isdigit() else chance.choice(["", " "])
    return f"{number}{between}{spelled}", number, find_unit(spelled, declaration.units)


def near(chance: Random, quantity: Quantity, unit: Unit | None) -> str:
    """Return a number near the example in a unit, in one of the ways to write it."""
    example = 0.0 if quantity.example != quantity.example else quantity.example
    if quantity.whole:
        return str(max(0, int(example) + chance.randint(-1, 3)))
    reading = (unit or quantity.units[0]).reading(example * chance.uniform(0.7, 1.4))
    text = f"{reading:.{chance.randint(2, 6)}g}"
    fraction = text.partition(".")[2].partition("e")[0]
    return text.replace(".", ",") if fraction and len(fraction) != 3 else text


def ordinary(
    chance: Random, declaration: Declaration, old: Entry, unit: Unit | None
) -> tuple[str, Entry]:
    """Return a cell of a spreadsheet, and the entry that it becomes."""
    if isinstance(declaration, Choice):
        key = chance.choice(list(declaration.options))
        return chance.choice([key, declaration.options[key]]), Entry(key)
    if isinstance(declaration, Quantity):
        text = near(chance, declaration, unit)
        return text, Entry(text, unit)
    return f"{old.text} c".strip(), Entry(f"{old.text} c".strip())


@pytest.mark.thorough
@pytest.mark.parametrize("number", range(PAGES))
@pytest.mark.parametrize("seed", [1, 2])
def test_random_edits(
    seed: int,
    number: int,
    context: BrowserContext,
    forms_together: str,
    python: Executor,
    troubles: list[str],
) -> None:
    """After each edit the entries are those typed, and a result that is not marked is theirs."""
    page = context.new_page()
    page.goto(f"{forms_together}/{number}.html")
    page.evaluate("engine.limit = 60")  # s; the machine may be busy with other tests
    chance = Random(f"{seed} {number}")
    fleet = Fleet()
    readers = [Wanderer(page, name, python, fleet, chance) for name in forms_of(number)]
    wrong: list[str] = []
    for _ in range(EDITS):
        wanderer = chance.choice(readers)
        try:
            for _ in range(1 if wanderer.name in SLOW else 3):
                wanderer.step()
        except NothingHappens as error:
            wrong.append(f"{wanderer.name}: {error}"[:300])
            readers.remove(wanderer)
    for wanderer in readers:
        wanderer.look_at_result("in the end")
        wrong += wanderer.findings()
    assert wrong == []
    assert troubles == []
