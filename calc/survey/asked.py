"""Asked: a question to a formula of the catalogue, with entries that come from a data sheet."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple
from urllib.parse import quote

from calc.catalogue import formula
from calc.declaration import Field, inputs
from calc.form.reading import Reading, entry_of
from calc.quantity import Quantity
from calc.sheet.layout import Section, section
from calc.sheet.operation import MODE_SOURCE
from calc.sheet.sheet import Sheet, Value, value_read


class Place(NamedTuple):
    """Where a value stands on a sheet: section, row from zero, or -1 for no row, and field.

    Without a field it is all rows of a table.
    """

    section: str
    row: int
    name: str

    @property
    def words(self) -> str:
        """The place as a file has it, such as `lag.lag_damping` or `measured_modes row 2`."""
        numbered = f" row {self.row + 1}" if self.row >= 0 else ""
        return f"{self.section}{numbered}{self.name and '.'}{self.name}"

    @property
    def lack(self) -> str:
        """What a question that needs the place says of it while nothing is known there."""
        part = section(self.section)
        label = part.field(self.name).declaration.label if self.name else part.title
        return f"{label} ({self.words})"


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked, or what is missing so that it cannot be asked.

    `key` names files, `reads` are the places of the sheet that the answer depends on, `notes` say
    what the reader of the answer has to know, and `warnings` where the sheet contradicts
    itself or where what it leaves out makes the answer milder.
    """

    key: str
    title: str
    formula: str
    entries: Mapping[str, str]
    missing: tuple[str, ...] = ()
    reads: tuple[Place, ...] = ()
    notes: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()

    @property
    def link(self) -> str:
        """The address of the form with these entries, relative to the handbook."""
        chapter, topic, short = self.formula.split(".")
        keys = "&".join(
            f"{short}.{name}={quote(text, safe='/,;')}" for name, text in self.entries.items()
        )
        return f"{chapter}/{topic}.html#{keys}"


class Feed:
    """Collects the entries of a question from a sheet, and what the sheet does not know."""

    def __init__(self, sheet: Sheet) -> None:
        """Begin with no entries."""
        self.sheet = sheet
        self.entries: dict[str, str] = {}
        self.missing: list[str] = []
        self.reads: list[Place] = []
        self.notes: list[str] = []
        self.warnings: list[str] = []

    def take(self, key: str, *names: str) -> None:
        """Take single values under their own names."""
        for name in names:
            self.take_as(name, key, name)

    def take_as(self, entry: str, key: str, name: str) -> None:
        """Take a single value for an input of another name; a default needs no entry."""
        found = self.reading(key, name)
        if found is not None:
            self.entries[entry] = entry_typed(found)

    def reading(self, key: str, name: str, *, needed: bool = True) -> Reading | None:
        """Return a single value, or None where the default holds or it is missing."""
        value = self.sheet.value(f"{key}.{name}")
        return None if value is None else self._read(section(key), -1, name, value, needed=needed)

    def in_row(self, key: str, row: int, name: str) -> Reading | None:
        """Return a value of a row, or None where the default holds or it is missing."""
        value = self.sheet.rows[key][row].get(name)
        return None if value is None else self._read(section(key), row, name, value)

    def take_rows(self, entry: str, key: str) -> None:
        """Take a whole table; one without rows is missing."""
        part = section(key)
        rows = self.sheet.rows.get(key, ())
        if not rows:
            self.missing.append(Place(key, -1, "").lack)
        lines = []
        for number in range(len(rows)):
            cells = []
            for f in part.fields:
                if f.declaration is MODE_SOURCE:
                    continue
                found = self.in_row(key, number, f.name)
                cells.append(
                    entry_of(f.declaration, f.start) if found is None else entry_typed(found)
                )
            lines.append(row_of(cells))
        self.entries[entry] = ";".join(lines)

    def put(self, asked: str, name: str, value: float) -> str:
        """Give an input of a formula a number in SI units that was worked out here."""
        declaration = next(f for f in inputs(formula(asked)) if f.name == name).declaration
        self.entries[name] = entry_of(declaration, value)
        return self.entries[name]

    def add(self, other: "Feed") -> None:
        """Depend on what another question depends on."""
        self.missing += [one for one in other.missing if one not in self.missing]
        self.reads += other.reads
        self.notes += [note for note in other.notes if note not in self.notes]
        self.warnings += [one for one in other.warnings if one not in self.warnings]

    def asked(self, key: str, title: str, name: str) -> Asked:
        """Return the question."""
        reads = tuple(dict.fromkeys(self.reads))
        entries = {} if self.missing else dict(self.entries)
        said = tuple(self.notes), tuple(self.warnings)
        return Asked(key, title, name, entries, tuple(self.missing), reads, *said)

    def _read(
        self, part: Section, row: int, name: str, value: Value, *, needed: bool = True
    ) -> Reading | None:
        place, f = Place(part.key, row, name), part.field(name)
        self.reads.append(place)
        if value.is_known:
            return value_read(f, value)
        if needed:
            self.missing.append(place.lack)
        return None


def entry_typed(reading: Reading) -> str:
    """Return what was typed as a link has it, such as `4.8_m`."""
    return f"{reading.text}_{reading.unit.key}" if reading.unit.key else reading.text


def row_of(cells: list[str]) -> str:
    """Return a row of a table as an entry."""
    return ",".join(quote(cell, safe="/ ") for cell in cells)


def spread_field(place: Place) -> Field | None:
    """Return the field at a place if it is a number that can vary, else None."""
    f = section(place.section).field(place.name)
    is_number = isinstance(f.declaration, Quantity) and not f.declaration.whole
    return f if is_number else None


def changed(sheet: Sheet, place: Place, value: Value) -> Sheet:
    """Return a sheet with one value changed."""
    if place.row < 0:
        values = {**sheet.values, f"{place.section}.{place.name}": value}
        return Sheet(sheet.title, sheet.note, values, sheet.rows)
    rows: list[Any] = list(sheet.rows[place.section])
    rows[place.row] = {**rows[place.row], place.name: value}
    return Sheet(sheet.title, sheet.note, sheet.values, {**sheet.rows, place.section: tuple(rows)})
