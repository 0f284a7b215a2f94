"""What a data sheet in a page should show: a second account of its values, kept by the tests."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any

from calc.declaration import Field
from calc.form.reading import EntryError, read
from calc.quantity import Quantity
from calc.sheet.exchange import Held
from calc.sheet.layout import section, sections
from calc.unit_systems import STARTING, unit_of
from calc.units import Unit, find_unit
from tests.form.model import Entry

UNKNOWN = "unknown"


@dataclass(frozen=True)
class Cell:
    """One value: what was typed, what a file holds of it, the reader's own unit, and what is said.

    `own` is None where the value is shown in the unit of the system.
    """

    entry: Entry
    in_file: str
    own: Unit | None = None
    origin: str = UNKNOWN
    tolerance: str = ""

    @property
    def is_known(self) -> bool:
        """Whether there is a value at all."""
        return self.in_file not in (UNKNOWN, "")


Row = dict[str, Cell]


@dataclass(frozen=True)
class Content:
    """A whole sheet: values by place, and the rows of each table."""

    title: str = ""
    note: str = ""
    values: dict[str, Cell] = field(default_factory=dict)
    rows: dict[str, tuple[Row, ...]] = field(default_factory=dict)


@dataclass(frozen=True)
class At:
    """Where a value stands: section, field, and the number of its row in a table."""

    section: str
    name: str
    row: int | None = None

    @property
    def field(self) -> Field:
        """The declared field."""
        return section(self.section).field(self.name)


class Model:
    """The content of one tab, and those before its last edits."""

    def __init__(self) -> None:
        """Begin with a sheet on which nothing is known, in a browser that was never here."""
        self.system = STARTING
        self.content = self.loaded(EMPTY)
        self.past: list[Content] = []
        self.followed = False  # whether the last edit was made in another tab
        self.filed = self.held()

    def edit(self, content: Content) -> None:
        """Put in another content, which Undo takes back."""
        self.past.append(self.content)
        self.content = content
        self.followed = False

    def follow(self, content: Content) -> None:
        """Show what another tab has made; all that it makes in a row is one edit."""
        if not self.followed:
            self.edit(content)
        self.content = content
        self.followed = True

    def undo(self) -> None:
        """Take back the last edit, if there is one."""
        self.followed = False
        if self.past:
            self.content = self.past.pop()

    def reload(self) -> None:
        """Load the page anew: what was held is there, and nothing else."""
        self.content = self.kept()
        self.past = []
        self.followed = False
        self.filed = self.held()

    def take(self, held: Held) -> None:
        """Open a whole sheet."""
        self.edit(self.loaded(held))
        self.filed = self.held()

    # The values, one by one.

    def of(self, at: At) -> Cell:
        """Return the value at a place."""
        if at.row is None:
            return self.content.values[f"{at.section}.{at.name}"]
        return self.content.rows[at.section][at.row][at.name]

    def with_(self, at: At, cell: Cell) -> Content:
        """Return the content with another value at a place."""
        content = self.content
        if at.row is None:
            place = f"{at.section}.{at.name}"
            return replace(content, values=content.values | {place: cell})
        rows = list(content.rows[at.section])
        rows[at.row] = rows[at.row] | {at.name: cell}
        return replace(content, rows=content.rows | {at.section: tuple(rows)})

    def put(self, at: At, cell: Cell) -> None:
        """Edit one value."""
        self.edit(self.with_(at, cell))

    def type(self, at: At, text: str) -> None:
        """Type over a value and leave it; what is typed is in the unit that is shown."""
        old = self.of(at)
        if text == self.shown(at.field, old)[0]:
            if text:  # typed anew, letter by letter
                self.put(at, self.typed(at.field, old, text))
            return
        self.put(at, self.left(at.field, self.typed(at.field, old, text)))

    def typed(self, f: Field, old: Cell, text: str) -> Cell:
        """Return a value after a text was typed over it, before its field is left."""
        unit = self.shown_in(f, old.own)
        return replace(old, entry=Entry(text, unit), in_file=in_file(f, text, unit))

    def left(self, f: Field, cell: Cell) -> Cell:
        """Return a value after its field was left: a unit behind its number goes into the list."""
        number, unit = split(f, cell.entry.text)
        shown = self.shown_in(f, cell.own)
        if unit is None or shown is None or not isinstance(f.declaration, Quantity):
            return cell
        if unit != shown and f.declaration.units[0].key == "":
            return cell  # a per cent stays beside its number
        own = cell.own if unit == shown else self.chosen(f, unit)
        return replace(cell, entry=Entry(number, unit), own=own, in_file=in_file(f, number, unit))

    def chosen(self, f: Field, unit: Unit) -> Unit | None:
        """Return a unit as a choice of the reader; the one of the system is none."""
        return None if unit == self.shown_in(f, None) else unit

    def shown_in(self, f: Field, own: Unit | None) -> Unit | None:
        """Return the unit that a value is shown in; None for a word."""
        if not isinstance(f.declaration, Quantity):
            return None
        return own or unit_of(f.declaration.units, self.system)

    def shown(self, f: Field, cell: Cell) -> list[str | None]:
        """Return what a reader sees of a value: text, unit in the list, origin, tolerance."""
        unit = self.shown_in(f, cell.own)
        quantity = f.declaration
        has_list = isinstance(quantity, Quantity) and len(quantity.units) > 1
        tolerance = cell.tolerance if isinstance(quantity, Quantity) else None
        text = cell.entry.shown(quantity, unit)
        return [text, unit.key if unit and has_list else None, cell.origin, tolerance]

    def seen(self) -> dict[str, Any]:
        """Return what a reader sees of the whole sheet, by place."""
        found: dict[str, Any] = {"title": self.content.title, "note": self.content.note}
        for part in sections():
            if part.is_table:
                found[part.key] = [
                    {f.name: self.shown(f, row[f.name]) for f in part.fields}
                    for row in self.content.rows[part.key]
                ]
            else:
                cells = {f.name: self.content.values[f"{part.key}.{f.name}"] for f in part.fields}
                found[part.key] = {f.name: self.shown(f, cells[f.name]) for f in part.fields}
        return found

    # The sheet as it is kept.

    def held(self) -> Held:
        """Return the content as Python has it from a page."""
        content = self.content
        return {
            "title": content.title,
            "note": content.note,
            "values": {
                f"{part.key}.{f.name}": told
                for part in sections()
                if not part.is_table
                for f in part.fields
                if (told := triple(f, content.values[f"{part.key}.{f.name}"]))
            },
            "rows": {
                part.key: [
                    {f.name: told for f in part.fields if (told := triple(f, row[f.name]))}
                    for row in content.rows[part.key]
                ]
                for part in sections()
                if part.is_table
            },
        }

    def kept(self) -> Content:
        """Return the content as another visit finds it: as held, in the units chosen."""
        old, content = self.content, self.loaded(self.held())

        def same(cell: Cell, before: Cell) -> Cell:
            return replace(cell, own=before.own)

        return replace(
            content,
            values={place: same(cell, old.values[place]) for place, cell in content.values.items()},
            rows={
                key: tuple(
                    {name: same(cell, was[name]) for name, cell in row.items()}
                    for row, was in zip(rows, old.rows[key], strict=True)
                )
                for key, rows in content.rows.items()
            },
        )

    def loaded(self, held: Held) -> Content:
        """Return the content of a sheet in a file."""
        values = {
            f"{part.key}.{f.name}": self.cell(f, held["values"].get(f"{part.key}.{f.name}"))
            for part in sections()
            if not part.is_table
            for f in part.fields
        }
        rows = {
            part.key: tuple(
                {f.name: self.cell(f, row.get(f.name)) for f in part.fields}
                for row in held["rows"].get(part.key, [])
            )
            for part in sections()
            if part.is_table
        }
        return Content(held["title"], held["note"], values, rows)

    def cell(self, f: Field, told: list[str] | None = None) -> Cell:
        """Return a value of a file; one in the unit that a sheet starts with follows the system."""
        text, origin, tolerance = told or ("", UNKNOWN, "")
        shown = "" if text == UNKNOWN else text
        if not isinstance(f.declaration, Quantity):
            return Cell(Entry(shown), text, None, origin, tolerance)
        first = f.declaration.units[0]
        number, unit = split(f, shown)
        if unit is None or (unit != first and first.key == ""):
            return Cell(Entry(shown, first), text, None, origin, tolerance)
        own = None if unit == first else self.chosen(f, unit)
        return Cell(Entry(number, unit), text, own, origin, tolerance)

    def change_rows(self, key: str, change: Callable[[list[Row]], None]) -> None:
        """Edit the rows of a table."""
        rows = list(self.content.rows[key])
        change(rows)
        self.edit(replace(self.content, rows=self.content.rows | {key: tuple(rows)}))


EMPTY: Held = {"title": "", "note": "", "values": {}, "rows": {}}


def split(f: Field, text: str) -> tuple[str, Unit | None]:
    """Return the number in a text as typed, and the unit that stands behind it, if one does."""
    quantity = f.declaration
    if isinstance(quantity, Quantity):
        for cut in range(1, len(text)):
            behind = text[cut:].strip()
            unit = find_unit(behind, quantity.units) if behind else None
            if unit is not None and is_number(f, text[:cut]):
                return text[:cut].strip(), unit
    return text, None


def is_number(f: Field, text: str) -> bool:
    """Return whether a text is a number with nothing behind it."""
    if text.strip()[-1:] not in tuple("0123456789.,⁰¹²³⁴⁵⁶⁷⁸⁹"):
        return False
    try:
        read(f.declaration, text)
    except EntryError:
        return False
    return "_" not in text


def in_file(f: Field, text: str, unit: Unit | None) -> str:
    """Return what a file holds of a text that was typed: a number with its unit."""
    plain = text.strip()
    if unit is None or not is_number(f, plain):
        return plain
    return f"{plain} {unit.name}".strip()


def triple(f: Field, cell: Cell) -> list[str] | None:
    """Return text, origin and tolerance, or None where the usual value holds."""
    told = [cell.in_file or UNKNOWN, cell.origin, cell.tolerance]
    silent = cell.in_file == "" and told[1:] == [UNKNOWN, ""]
    return None if silent and f.default is not None else told
