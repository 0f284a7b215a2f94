"""Compare: what differs between two data sheets, value by value."""

from collections.abc import Iterator
from typing import NamedTuple

from calc.sheet.layout import Section, sections
from calc.sheet.sheet import ORIGINS, UNKNOWN, Row, Sheet, Value

NOT_GIVEN = "not given"


class Difference(NamedTuple):
    """One value that differs: where, what it is called, and how it stands on each sheet."""

    place: str
    label: str
    before: str
    after: str


def differences(before: Sheet, after: Sheet) -> list[Difference]:
    """Return every value that differs, in the order of a file.

    A row is compared with the row of the same number.

    Examples:
        >>> from calc.sheet.sheet import blank
        >>> differences(blank("Wren"), blank("Robin"))
        [Difference(place='title', label='Title', before='Wren', after='Robin')]
    """
    texts = [
        Difference(name, name.capitalize(), getattr(before, name), getattr(after, name))
        for name in ("title", "note")
    ]
    return [one for one in (*texts, *_values(before, after)) if one.before != one.after]


def _values(before: Sheet, after: Sheet) -> Iterator[Difference]:
    for part in sections():
        if part.is_table:
            old, new = before.rows.get(part.key, ()), after.rows.get(part.key, ())
            for number in range(max(len(old), len(new))):
                place = f"{part.key} row {number + 1}"
                rows = (table[number] if number < len(table) else {} for table in (old, new))
                yield from _row(part, place, *rows)
        else:
            rows = (
                {
                    f.name: value
                    for f in part.fields
                    if (value := sheet.value(f"{part.key}.{f.name}"))
                }
                for sheet in (before, after)
            )
            yield from _row(part, part.key, *rows)


def _row(part: Section, place: str, old: Row, new: Row) -> Iterator[Difference]:
    for f in part.fields:
        words = (_words(row.get(f.name)) for row in (old, new))
        yield Difference(f"{place}.{f.name}", f.declaration.label, *words)


def _words(value: Value | None) -> str:
    """Return a value with its tolerance and where it came from."""
    if value is None:
        return NOT_GIVEN
    words = value.text
    if value.tolerance:
        words += f" ± {value.tolerance}"
    return words if value.origin == UNKNOWN else f"{words}, {ORIGINS[value.origin]}"
