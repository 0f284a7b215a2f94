"""Sheet: the values of one rotorcraft as they were typed, each with where it came from."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from calc.declaration import Choice, Declaration, Field
from calc.form.reading import EntryError, Reading, checked, read
from calc.quantity import Quantity, in_sentence
from calc.sheet.layout import Section, sections
from calc.units import PERCENT

UNKNOWN: Final = "unknown"
"""What stands for a value, or for where it came from, that nobody knows."""

ORIGINS: Final = {
    "measured": "measured on the aircraft",
    "drawing": "from a drawing",
    "manual": "from a manual",
    "estimate": "estimated",
    UNKNOWN: "not said",
}
"""Where a value can come from, and what a report says of it."""

_BARE = re.compile(r"[-+−–]?[\s\d.,]*\d[.,]?([eE][-+]?\d+|\s*[×x·*]\s*10\S*)?")
_SHARE = Quantity("", "Tolerance", (PERCENT,), at_least=0.0, at_most=1.0)


@dataclass(frozen=True, slots=True)
class Value:
    """What was typed, with its unit; where it came from; how far it may be off on either side."""

    text: str = UNKNOWN
    origin: str = UNKNOWN
    tolerance: str = ""

    @property
    def is_known(self) -> bool:
        """Whether there is a value at all."""
        return self.text != UNKNOWN


Row = Mapping[str, Value]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A data sheet: single values under `section.name`, and the rows of each table.

    A value that is missing has the default of its declaration; one that is `unknown` has none.
    """

    title: str = ""
    note: str = ""
    values: Mapping[str, Value] = field(default_factory=dict)
    rows: Mapping[str, tuple[Row, ...]] = field(default_factory=dict)

    def value(self, place: str) -> Value | None:
        """Return the value at `section.name`, or None where the default holds."""
        return self.values.get(place)


def filled(part: Section, given: Mapping[str, Value]) -> dict[str, Value]:
    """Return values of a section in the order of its fields: what was not given is unknown.

    A field with a default that was not given stays out.
    """
    return {
        f.name: given.get(f.name, Value())
        for f in part.fields
        if f.name in given or f.default is None
    }


def blank(title: str = "") -> Sheet:
    """Return a sheet on which nothing is known."""
    values = {
        f"{part.key}.{name}": value
        for part in sections()
        if not part.is_table
        for name, value in filled(part, {}).items()
    }
    return Sheet(title, "", values, {part.key: () for part in sections() if part.is_table})


def value_read(f: Field, value: Value) -> Reading:
    """Return the reading of a known value.

    Raises:
        ValueError: If it cannot be read, cannot exist, has no unit where there are units, or has
            a tolerance that cannot be read.
    """
    reading = number_read(f, value)
    tolerance_read(f, value)
    return reading


def number_read(f: Field, value: Value) -> Reading:
    """Return the reading of a known value, whatever its tolerance.

    Raises:
        ValueError: If it cannot be read, cannot exist, or has no unit where there are units.
    """
    reading = checked(f.declaration, value.text)
    if isinstance(f.declaration, Quantity) and f.declaration.units[0].name:
        _demand_unit(f.declaration, value.text)
    return reading


def tolerance_read(f: Field, value: Value) -> float | None:
    """Return the tolerance of a value in the SI unit, or None where it has none.

    Raises:
        ValueError: If the tolerance cannot be read, is negative, or belongs to no number.
    """
    return spread(f.declaration, value) if value.tolerance else None


def spread(declaration: Declaration, value: Value) -> float:
    """Return the tolerance of a value in the SI unit: how far it may be off on either side.

    `2 %` is a fraction of the value; of a quantity that has per cent among its units it is so
    many hundredths.  Anything else is an amount with a unit of the quantity.

    Raises:
        ValueError: If the tolerance cannot be read, is negative, or belongs to no number.
    """
    if not isinstance(declaration, Quantity):
        raise EntryError(f"{declaration.label} is no number and has no tolerance")
    own = PERCENT in declaration.units
    if not own and _is_bare(value.tolerance.removesuffix("%")) and value.tolerance.endswith("%"):
        share: float = checked(_SHARE, value.tolerance).value
        return share * abs(float(read(declaration, value.text).value))
    label = f"Tolerance of the {in_sentence(declaration.label)}"
    amount = replace(declaration, label=label)
    if amount.units[0].name:
        _demand_unit(amount, value.tolerance)
    reading = read(amount, value.tolerance)
    found = reading.unit.size * float(reading.text)
    if found < 0.0:
        raise EntryError(f"{label} is negative")
    return found


def in_words(f: Field, value: Value) -> str:
    """Return a value as a report shows it: as typed, or the words of a choice."""
    if isinstance(f.declaration, Choice) and value.is_known:
        return f.declaration.options.get(value.text, value.text)
    return value.text


def _demand_unit(quantity: Quantity, text: str) -> None:
    """Refuse a bare number: in a file that others read, nothing may depend on a usual unit."""
    if _is_bare(text):
        units = ", ".join(unit.name for unit in quantity.units)
        raise EntryError(f"{quantity.label} needs its unit, one of {units}")


def _is_bare(text: str) -> bool:
    """Return whether a text is a number and nothing more."""
    return _BARE.fullmatch(text.strip()) is not None
