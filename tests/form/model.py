"""What a form should show: a second account of its entries, kept by the tests."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from typing import Any
from urllib.parse import quote

from calc.catalogue import formula
from calc.declaration import Choice, Declaration, Field, Name, Table, inputs
from calc.digits import plain
from calc.form.calculation import start
from calc.form.reading import EntryError, cells, read
from calc.form.reading import entry_of as entry_text
from calc.quantity import Quantity
from calc.unit_systems import STARTING, unit_of
from calc.units import Unit


@dataclass(frozen=True)
class Entry:
    """A text in a field, and the unit it was typed in; None for a word or a choice.

    Beside it stands the reader's own choice of a unit, None where it follows the handbook.
    """

    text: str
    unit: Unit | None = None

    def shown(self, declaration: Declaration, unit: Unit | None) -> str:
        """Return what a field shows in a unit: as typed, or the number turned into the unit."""
        if unit == self.unit or self.unit is None or unit is None or not self.text.strip():
            return self.text
        typed = f"{self.text} {self.unit.name}".strip()
        if any(sign.isdecimal() and not sign.isascii() for sign in self.text):
            return typed  # the page turns numbers in the digits of links and keyboards alone
        try:
            value = read(declaration, f"{self.text}_{self.unit.key}").value
        except EntryError:
            return typed
        return plain(unit.reading(value), 10)

    def sent(self, unit: Unit | None) -> str:
        """Return the entry as the engine gets it."""
        if self.unit is None or unit is None:
            return self.text
        keys = self.unit.key if unit == self.unit else f"{self.unit.key}~{unit.key}"
        return self._with(keys)

    def linked(self, declaration: Declaration, own: Unit | None) -> str:
        """Return the entry as a link has it."""
        if self.unit is None or not isinstance(declaration, Quantity):
            return self.text
        starts = self.unit == declaration.units[0]
        if own is None:
            return self._with(self.unit.key + ("" if starts else "~"))
        kept = own == self.unit and not starts
        return self._with(self.unit.key if kept else f"{self.unit.key}~{own.key}")

    def _with(self, keys: str) -> str:
        return f"{self.text}_{keys}" if keys or "_" in self.text else self.text


@dataclass(frozen=True)
class Rows:
    """A table: the reader's own unit of each column, and its rows of entries."""

    own: tuple[Unit | None, ...]
    rows: tuple[tuple[Entry, ...], ...]


@dataclass(frozen=True)
class Values:
    """What stands in a form: an entry and the reader's own unit by input, and its tables."""

    fields: dict[str, tuple[Entry, Unit | None]] = field(default_factory=dict)
    tables: dict[str, Rows] = field(default_factory=dict)

    def of(self, name: str) -> Any:
        """Return what stands in one field or table."""
        return self.tables[name] if name in self.tables else self.fields[name]

    def with_(self, name: str, value: Any) -> "Values":
        """Return the values with another in one field or table."""
        if name in self.tables:
            return replace(self, tables=self.tables | {name: value})
        return replace(self, fields=self.fields | {name: value})

    def without_lost_units(self, declared: list[Field]) -> "Values":
        """Return the values as a link brings them: the columns of an empty table start anew."""
        tables = dict(self.tables)
        for f in declared:
            if isinstance(f.declaration, Table) and not tables[f.name].rows:
                tables[f.name] = Rows((None,) * len(inputs(f.declaration.row)), ())
        return replace(self, tables=tables)


@dataclass
class Fleet:
    """What is kept in a browser: the system, and one rotorcraft by form and by key of a record."""

    system: str = STARTING

    forms: dict[str, Values] = field(default_factory=dict)
    records: dict[tuple[str, str], Any] = field(default_factory=dict)


class Model:
    """The entries of one form, and those before the last edits."""

    def __init__(self, name: str, fleet: Fleet | None = None) -> None:
        """Begin with the example, in a browser that may keep numbers of other forms."""
        self.name = name
        self.fleet = fleet or Fleet()
        self.inputs = inputs(formula(name))
        self.example = self.of(start(name))
        self.values = self.example
        self.origin = "example"
        self.past: list[tuple[Values, str]] = []

    def of(self, entries: dict[str, str]) -> Values:
        """Return the values that entries as typed stand for."""
        found = Values()
        for f in self.inputs:
            if isinstance(f.declaration, Table):
                found.tables[f.name] = rows_of(f.declaration, entries[f.name])
            else:
                entry = entry_of(f.declaration, entries[f.name])
                found.fields[f.name] = (entry, None)
        return found

    def edit(self, values: Values, origin: str = "") -> None:
        """Put in other values, of another origin if it is given; Undo takes them back."""
        self.past.append((self.values, self.origin))
        self.become(values, origin or ("link" if self.origin == "link" else "mine"))

    def undo(self) -> None:
        """Take back the last edit, if there is one."""
        if self.past:
            self.become(*self.past.pop())

    def become(self, values: Values, origin: str) -> None:
        """Keep in the browser what the reader typed, but not what came with a link."""
        old, before, self.values, self.origin = self.linked(), self.values, values, origin
        if origin != "mine":
            return
        new, kept = self.linked(), values.without_lost_units(self.inputs)
        self.fleet.forms[self.name] = kept
        for f in self.inputs:
            if f.record and old[f.name] != new[f.name] and not self.only_seen(f, before, kept):
                self.fleet.records[f.record, f.name] = kept.of(f.name)

    def only_seen(self, f: Field, before: Values, after: Values) -> bool:
        """Return whether only units were chosen, beside numbers not those kept for a record."""
        if (f.record, f.name) not in self.fleet.records:
            return False
        mine = self.fleet.records[f.record, f.name]
        old, now, mine = (typed_part(v) for v in (before.of(f.name), after.of(f.name), mine))
        return bool(old == now and mine != now)

    def kept(self) -> Values | None:
        """Return what is kept for this form, by itself and by others with the same records."""
        found = self.fleet.forms.get(self.name)
        for f in self.inputs:
            if (f.record, f.name) in self.fleet.records:
                value = self.fleet.records[f.record, f.name]
                found = (found or self.example).with_(f.name, value)
        return found

    @property
    def system(self) -> str:
        """The system of units that the reader chose for the whole handbook."""
        return self.fleet.system

    def shown_in(self, declaration: Declaration, own: Unit | None) -> Unit | None:
        """Return the unit that a field shows; None for a word."""
        if not isinstance(declaration, Quantity):
            return None
        return own or unit_of(declaration.units, self.system)

    def field(self, name: str) -> tuple[Entry, Unit | None]:
        """Return what stands in a field, and the unit that it shows."""
        entry, own = self.values.fields[name]
        return entry, self.shown_in(self.declared(name), own)

    def columns(self, name: str) -> list[Unit | None]:
        """Return the units that the columns of a table show."""
        table = self.declared(name)
        assert isinstance(table, Table)
        own = self.values.tables[name].own
        return [
            self.shown_in(c.declaration, u) for c, u in zip(inputs(table.row), own, strict=True)
        ]

    def declared(self, name: str) -> Declaration:
        """Return the declaration of an input."""
        return next(f.declaration for f in self.inputs if f.name == name)

    def put(self, name: str, entry: Entry, unit: Unit | None) -> None:
        """Edit one field, which then shows a unit; the one of the system is no choice."""
        own = self.chosen(self.declared(name), self.values.fields[name][1], unit)
        self.edit(replace(self.values, fields=self.values.fields | {name: (entry, own)}))

    def chosen(self, declaration: Declaration, own: Unit | None, unit: Unit | None) -> Unit | None:
        """Return the reader's own unit, once a field that had another shows this one."""
        if unit == self.shown_in(declaration, own):
            return own
        return None if unit == self.shown_in(declaration, None) else unit

    def put_column(self, name: str, column: int, unit: Unit) -> None:
        """Choose the unit of a column."""
        table, declared = self.values.tables[name], self.declared(name)
        assert isinstance(declared, Table)
        own = list(table.own)
        own[column] = self.chosen(inputs(declared.row)[column].declaration, own[column], unit)
        self.put_table(name, replace(table, own=tuple(own)))

    def put_table(self, name: str, rows: Rows) -> None:
        """Edit one table."""
        self.edit(replace(self.values, tables=self.values.tables | {name: rows}))

    def put_cell(self, name: str, place: tuple[int, int], entry: Entry) -> None:
        """Edit one cell of a table."""
        table = self.values.tables[name]
        rows = [list(row) for row in table.rows]
        rows[place[0]][place[1]] = entry
        self.put_table(name, replace(table, rows=tuple(map(tuple, rows))))

    @contextmanager
    def same_edit(self) -> Iterator[None]:
        """Make what is done meanwhile a part of the edit before."""
        before = self.past[:]
        yield
        self.past = before

    def sent(self) -> dict[str, str]:
        """Return the entries as the engine gets them."""
        return self.texts(lambda d, entry, own: entry.sent(self.shown_in(d, own)))

    def linked(self) -> dict[str, str]:
        """Return the entries as links have them."""
        return self.texts(lambda d, entry, own: entry.linked(d, own))

    def texts(self, text: Callable[[Declaration, Entry, Unit | None], str]) -> dict[str, str]:
        """Return the entries as texts."""
        found = {}
        for f in self.inputs:
            if isinstance(f.declaration, Table):
                table, columns = self.values.tables[f.name], inputs(f.declaration.row)
                found[f.name] = ";".join(
                    ",".join(
                        quote(text(c.declaration, entry, own), safe="")
                        for c, entry, own in zip(columns, row, table.own, strict=True)
                    )
                    for row in table.rows
                )
            else:
                found[f.name] = text(f.declaration, *self.values.fields[f.name])
        return found

    def seen(self) -> dict[str, Any]:
        """Return what a reader sees in the form: texts, and the keys of units in lists."""
        found: dict[str, Any] = {}
        for f in self.inputs:
            if isinstance(f.declaration, Table):
                table, columns = self.values.tables[f.name], inputs(f.declaration.row)
                units = self.columns(f.name)
                found[f.name] = [
                    [in_list(c.declaration, u) for c, u in zip(columns, units, strict=True)],
                    *(
                        [
                            entry.shown(c.declaration, unit)
                            for c, entry, unit in zip(columns, row, units, strict=True)
                        ]
                        for row in table.rows
                    ),
                ]
            else:
                entry, unit = self.field(f.name)
                found[f.name] = [entry.shown(f.declaration, unit), in_list(f.declaration, unit)]
        return found


def typed_part(value: Any) -> Any:
    """Return what was typed into a field or a table, without the units that were chosen."""
    return value.rows if isinstance(value, Rows) else value[0]


def in_list(declaration: Declaration, unit: Unit | None) -> str | None:
    """Return the key that a list of units shows, or None where there is no list."""
    if isinstance(declaration, Quantity) and len(declaration.units) > 1 and unit:
        return unit.key
    return None


def entry_of(declaration: Declaration, text: str) -> Entry:
    """Return the entry in a text such as `395_rpm`."""
    if isinstance(declaration, Choice | Name):
        return Entry(text)
    assert isinstance(declaration, Quantity)
    body, _, key = text.partition("_")
    return Entry(body, next(unit for unit in declaration.units if unit.key == key))


def rows_of(table: Table, text: str) -> Rows:
    """Return the rows in the entry of a table that nobody has edited."""
    columns: list[Field] = inputs(table.row)
    rows = tuple(
        tuple(entry_of(c.declaration, cell) for c, cell in zip(columns, row, strict=True))
        for row in cells(text)
    )
    return Rows((None,) * len(columns), rows)


def new_row(columns: list[Field]) -> tuple[Entry, ...]:
    """Return the entries of a row that was added."""
    return tuple(entry_of(c.declaration, entry_text(c.declaration, c.start)) for c in columns)
