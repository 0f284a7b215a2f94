"""How a typed or linked entry becomes a number in SI units, or a clear question."""

import math
import re
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote, unquote

from calc import units
from calc.declaration import Choice, Declaration, Field, Name, Table, inputs
from calc.digits import plain
from calc.quantity import LimitError, Quantity, in_sentence
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
    """An entry that is not understood.

    `choices` are the readings to choose from, if any; `cells` are the rows and the columns of a
    table where there is something to mend, counted from zero; the message is about the first.
    """

    def __init__(
        self, message: str, choices: tuple[str, ...] = (), cells: tuple[tuple[int, int], ...] = ()
    ) -> None:
        """Keep the choices and the places beside the message."""
        super().__init__(message)
        self.choices = choices
        self.cells = cells


@dataclass(frozen=True, slots=True)
class Reading:
    """An entry that was understood: its value in SI, the number and the unit as typed.

    `shown_in` is the unit that the reader has since chosen to see the number in.
    """

    value: Any
    text: str
    unit: Unit = units.ONE
    shown_in: Unit = units.ONE

    @property
    def number(self) -> str:
        """The number that a form shows: as typed, or turned into the unit that was chosen since."""
        if self.shown_in == self.unit:
            return self.text
        return plain(self.shown_in.reading(self.value), 10)

    @property
    def shown(self) -> str:
        """The entry as a form shows it, such as `395 rpm`."""
        return f"{self.number} {self.shown_in.name}".rstrip()


def read(declaration: Declaration, entry: str) -> Reading:
    """Return the reading of an entry, such as `395`, `395 rpm`, `395_rpm` or `395,5`.

    `395_rpm~Hz` is a number that was typed in rpm and is shown in Hz.
    """
    if isinstance(declaration, Table):
        return Reading(read_rows(declaration, entry), entry)
    if isinstance(declaration, Choice):
        if entry not in declaration.options:
            words = " or ".join(f"“{word}”" for word in declaration.options.values())
            raise EntryError(f"{declaration.label} must be {words}, not “{entry[:LONGEST]}”")
        return Reading(entry, entry)
    if isinstance(declaration, Quantity):
        return _number(declaration, entry)
    _check_length(declaration.label, entry, declaration.longest)
    return Reading(_name(declaration, entry), entry)


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
        number = plain(unit.reading(value), 12)
        return f"{number}_{unit.key}" if unit.key else number
    return str(value)


def cells(entry: str) -> list[list[str]]:
    """Return the cells of a table entry, row by row."""
    return [[unquote(cell) for cell in row.split(",")] for row in entry.split(";") if row]


def read_rows(table: Table, entry: str) -> tuple[Any, ...]:
    """Return the rows of a table entry: rows end in a semicolon, cells in a comma.

    A row may end early where the columns that are left have defaults: a link from before these
    columns were added is read as it was meant.
    """
    names = [column.name for column in inputs(table.row)]
    return tuple(
        table.row(**{name: reading.value for name, reading in zip(names, row, strict=False)})
        for row in rows_read(table, entry)
    )


def rows_read(table: Table, entry: str) -> list[list[Reading]]:
    """Return the readings of the cells of a table entry, row by row."""
    columns = inputs(table.row)
    rows = cells(entry)
    if len(rows) > table.at_most:
        raise EntryError(f"{table.label} must have at most {table.at_most} rows, not {len(rows)}")
    wrong: list[EntryError] = []
    found = [_row(table, columns, number, row, wrong) for number, row in enumerate(rows)]
    if not wrong:
        return found
    message, choices, more = str(wrong[0]), wrong[0].choices, len(wrong) - 1
    if more and not choices:
        message += f" (and {more} more cell{'s' if more > 1 else ''})"
    raise EntryError(message, choices, tuple(cell for error in wrong for cell in error.cells))


def _row(
    table: Table, columns: list[Field], number: int, row: list[str], wrong: list[EntryError]
) -> list[Reading]:
    """Return the readings of a row; what is wrong with its cells is added to a list."""
    label = f"{table.label}, row {number + 1}"
    needed = sum(column.default is None for column in columns)
    found: list[Reading] = []
    if not needed <= len(row) <= len(columns):
        wrong.append(EntryError(f"{label}: {len(columns)} cells, not {len(row)}"))
        return found
    for place, (column, cell) in enumerate(zip(columns, row, strict=False)):
        try:
            found.append(checked(column.declaration, cell))
        except ValueError as error:
            choices = getattr(error, "choices", ())
            wrong.append(EntryError(f"{label}: {error}", choices, ((number, place),)))
    return found


def checked(declaration: Declaration, entry: str) -> Reading:
    """Return the reading of an entry; refuse an impossible number in the unit it is shown in."""
    reading = read(declaration, entry)
    if isinstance(declaration, Quantity):
        try:
            declaration.check(reading.value)
        except LimitError as error:
            if math.isinf(reading.value):
                typed = f"{reading.text} {reading.unit.name}".rstrip()
                beyond = f"{declaration.label} lies beyond what can be computed: {typed}"
                raise EntryError(beyond) from None
            raise EntryError(declaration.refusal(error.value, reading.shown_in)) from None
    return reading


def _check_length(label: str, typed: str, longest: int = LONGEST) -> None:
    if len(typed) > longest:
        raise EntryError(f"{label} must be at most {longest} characters long")


def _name(name: Name, entry: str) -> str:
    text = " ".join(entry.split())
    if not text:
        raise EntryError(f"Enter the {in_sentence(name.label)}")
    if refused := next((sign for sign in text if not sign.isprintable()), ""):
        number = f"U+{ord(refused):04X}"
        raise EntryError(f"{name.label} may have only signs that can be printed, not {number}")
    return text


def _number(quantity: Quantity, entry: str) -> Reading:
    label = quantity.label
    body, _, keys = entry.rpartition("_") if "_" in entry else (entry, "", "")
    _check_length(label, body)
    key, changed, shown_key = keys.partition("~")
    unit = _unit(quantity, key) if key else quantity.units[0]
    shown_in = unit
    if changed:
        shown_in = _unit(quantity, shown_key) if shown_key else quantity.units[0]
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
        named = _unit(quantity, rest.strip())
        unit, shown_in = named, shown_in if changed else named
    digits = digits.replace(" ", "")
    _ask_if_two(typed, sign, digits, exponent + rest)
    text = sign + _decimal(label, digits, typed) + exponent
    value: float = unit.si(float(text))
    if quantity.whole and value.is_integer():
        value = int(value)
    return Reading(value, text, unit, shown_in)


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


def _ask_if_two(typed: str, sign: str, digits: str, after: str) -> None:
    """Raise EntryError for a comma that may mark thousands or decimals, with both as choices."""
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        choices = tuple(f"{sign}{digits.replace(',', mark)}{after}" for mark in ("", "."))
        raise EntryError(f"“{typed}” can mean {choices[0]} or {choices[1]}. Choose one", choices)


def _decimal(label: str, digits: str, typed: str) -> str:
    """Return digits with at most a decimal point, from digits with any common separators."""
    marks = [mark for mark in digits if mark in ".,"]
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
