"""How a typed or linked entry becomes a number in SI units, or a clear question."""

import re
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote, unquote

from calc import units
from calc.declaration import Choice, Declaration, Field, Name, Table, inputs
from calc.digits import plain
from calc.quantity import Quantity, in_sentence
from calc.units import Unit, find_unit

LONGEST = 60
"""An entry longer than this is no number; it is refused before it is looked at."""

_SPACES = dict.fromkeys(map(ord, "\u00a0\u2007\u2009\u202f"), " ")
_SIGNS = {ord("−"): "-", ord("–"): "-"}
_RAISED = str.maketrans("⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹", "-+0123456789")
_POWER = re.compile(r"\s*[×x·*]\s*10\s*\^?\s*([-+]?\d+)")
_NUMBER = re.compile(
    r"([-+]?)\s*(\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d.,])|[\d.,]*\d[.,]?)([eE][-+]?\d+)?(.*)",
    re.DOTALL,
)


class EntryError(ValueError):
    """An entry that is not understood; `choices` are the readings to choose from, if any."""

    def __init__(self, message: str, choices: tuple[str, ...] = ()) -> None:
        """Keep the choices beside the message."""
        super().__init__(message)
        self.choices = choices


@dataclass(frozen=True, slots=True)
class Reading:
    """An entry that was understood: its value in SI, and the number and unit as typed."""

    value: Any
    text: str
    unit: Unit = units.ONE

    @property
    def entry(self) -> str:
        """The entry as a link holds it, such as `395_rpm`."""
        return f"{self.text}_{self.unit.key}" if self.unit.key else self.text

    @property
    def shown(self) -> str:
        """The entry as a sentence holds it, such as `395 rpm`."""
        return f"{self.text} {self.unit.name}".rstrip()


def read(declaration: Declaration, entry: str) -> Reading:
    """Return the reading of an entry, such as `395`, `395 rpm`, `395_rpm` or `395,5`."""
    if isinstance(declaration, Table):
        return Reading(read_rows(declaration, entry), entry)
    if isinstance(declaration, Choice):
        declaration.check(entry)
        return Reading(entry, entry)
    if len(entry) > LONGEST:
        raise EntryError(f"{declaration.label} must be at most {LONGEST} characters long")
    if isinstance(declaration, Name):
        return Reading(_name(declaration, entry), entry)
    return _number(declaration, entry)


def entry_of(declaration: Declaration, value: Any) -> str:
    """Return the entry that reads as a value, in the unit that a form starts with."""
    if isinstance(declaration, Table):
        columns = inputs(declaration.row)
        return ";".join(
            ",".join(
                quote(entry_of(c.declaration, getattr(row, c.name)), safe="/ ") for c in columns
            )
            for row in value
        )
    if isinstance(declaration, Quantity):
        unit = declaration.units[0]
        return Reading(value, plain(unit.reading(value), 12), unit).entry
    return str(value)


def cells(entry: str) -> list[list[str]]:
    """Return the cells of a table entry, row by row."""
    return [[unquote(cell) for cell in row.split(",")] for row in entry.split(";") if row]


def read_rows(table: Table, entry: str) -> tuple[Any, ...]:
    """Return the rows of a table entry: rows end in a semicolon, cells in a comma.

    A row may end early where the columns that are left have defaults: a link from before these
    columns were added is read as it was meant.
    """
    columns = inputs(table.row)
    rows = cells(entry)
    if len(rows) > table.at_most:
        raise EntryError(f"{table.label} must have at most {table.at_most} rows, not {len(rows)}")
    return tuple(_row(table, columns, number, row) for number, row in enumerate(rows, 1))


def _row(table: Table, columns: list[Field], number: int, row: list[str]) -> Any:
    needed = sum(column.default is None for column in columns)
    if not needed <= len(row) <= len(columns):
        raise EntryError(f"{table.label}, row {number}: {len(columns)} cells, not {len(row)}")
    values = {}
    for column, cell in zip(columns, row, strict=False):
        try:
            values[column.name] = read(column.declaration, cell).value
        except ValueError as error:
            choices = getattr(error, "choices", ())
            raise EntryError(f"{table.label}, row {number}: {error}", choices) from None
    return table.row(**values)


def _name(name: Name, entry: str) -> str:
    text = " ".join(entry.split())
    if not text or not text.isprintable():
        raise EntryError(f"Enter the {in_sentence(name.label)}")
    return text


def _number(quantity: Quantity, entry: str) -> Reading:
    label = quantity.label
    body, _, key = entry.partition("_")
    unit = _unit(quantity, key) if key else quantity.units[0]
    typed = body.translate(_SPACES).translate(_SIGNS).strip()
    if not typed:
        raise EntryError(f"Enter the {in_sentence(label)}")
    simple = _POWER.sub(r"e\1", typed.translate(_RAISED)) if "10" in typed else typed
    found = _NUMBER.fullmatch(simple)
    if found is None:
        raise _not_a_number(label, typed)
    sign, digits, exponent, rest = found.groups(default="")
    if rest.strip():
        if rest.strip()[0] in "0123456789.," and find_unit(rest, quantity.units) is None:
            raise _not_a_number(label, typed)
        unit = _unit(quantity, rest.strip())
    text = sign + _decimal(label, digits.replace(" ", ""), typed, rest) + exponent
    value: float = unit.si(float(text))
    if quantity.whole and value.is_integer():
        value = int(value)
    return Reading(value, text, unit)


def _unit(quantity: Quantity, typed: str) -> Unit:
    unit = find_unit(typed, quantity.units)
    if unit is not None:
        return unit
    use = ", ".join(unit.name for unit in quantity.units if unit.name)
    advice = f"Use {use}" if use else "It has no unit"
    everything = tuple(value for value in vars(units).values() if isinstance(value, Unit))
    other = find_unit(typed, everything)
    if other is not None and other.words:
        raise EntryError(f"{quantity.label} cannot be in {other.words}. {advice}")
    raise EntryError(f"{quantity.label} has an unknown unit, “{typed}”. {advice}")


def _decimal(label: str, digits: str, typed: str, rest: str) -> str:
    """Return digits with at most a decimal point, from digits with any common separators."""
    marks = [mark for mark in digits if mark in ".,"]
    if len(marks) == 1 and re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        choices = tuple(f"{digits.replace(',', mark)}{rest}" for mark in ("", "."))
        raise EntryError(f"“{typed}” can mean {choices[0]} or {choices[1]}. Choose one", choices)
    whole, fraction = digits, ""
    if len(marks) == 1 or (marks and marks[-1] not in marks[:-1]):
        whole, _, fraction = digits.rpartition(marks[-1])
    for mark in set(marks):
        if mark in whole and not re.fullmatch(rf"\d{{1,3}}(\{mark}\d{{3}})+", whole):
            raise _not_a_number(label, typed)
        whole = whole.replace(mark, "")
    return f"{whole or '0'}.{fraction}" if fraction else whole or "0"


def _not_a_number(label: str, typed: str) -> EntryError:
    return EntryError(f"{label} must be a number, not “{typed}”")
