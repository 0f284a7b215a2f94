"""Compare: what differs between two data sheets, value by value."""

from collections.abc import Iterator
from typing import NamedTuple

from calc.declaration import Field
from calc.sheet.layout import Section, sections
from calc.sheet.sheet import UNKNOWN, Row, Sheet, Value, in_words

USUAL = "usual value"
NO_ROW = "no row"


class Difference(NamedTuple):
    """One value that differs: where, what it is called, and how it stands on each sheet."""

    place: str
    label: str
    before: str
    after: str


def differences(before: Sheet, after: Sheet) -> list[Difference]:
    """Return every value that differs, in the order of a file.

    A row is compared with the row of the same number; one that only one sheet has is told whole.

    Examples:
        >>> from calc.sheet.sheet import blank
        >>> differences(blank("Wren"), blank("Robin"))
        [Difference(place='title', label='Title', before='Wren', after='Robin')]
    """
    texts = [
        Difference(name, name.capitalize(), getattr(before, name), getattr(after, name))
        for name in ("title", "note")
    ]
    return [one for one in texts if one.before != one.after] + list(_values(before, after))


def where(place: str) -> str:
    """Return the part of a sheet that a place is in, by the title that a page shows, and the row.

    Examples:
        >>> where("airframe_modes row 2.frequency"), where("rotorcraft.mass"), where("title")
        ('Modes, row 2', 'Rotorcraft and main rotor', 'Data sheet')
    """
    key, _, row = place.partition(".")[0].partition(" row ")
    title = next((part.title for part in sections() if part.key == key), "Data sheet")
    return f"{title}, row {row}" if row else title


def _values(before: Sheet, after: Sheet) -> Iterator[Difference]:
    for part in sections():
        if not part.is_table:
            for f in part.fields:
                place = f"{part.key}.{f.name}"
                yield from _difference(f, place, before.value(place), after.value(place))
            continue
        olds, news = before.rows.get(part.key, ()), after.rows.get(part.key, ())
        for number in range(max(len(olds), len(news))):
            place = f"{part.key} row {number + 1}"
            if number < min(len(olds), len(news)):
                old, new = olds[number], news[number]
                for f in part.fields:
                    own = f"{place}.{f.name}"
                    yield from _difference(f, own, old.get(f.name), new.get(f.name))
            else:
                told = [
                    _in_short(part, rows[number]) if number < len(rows) else NO_ROW
                    for rows in (olds, news)
                ]
                yield Difference(place, part.title, *told)


def _difference(
    f: Field, place: str, before: Value | None, after: Value | None
) -> Iterator[Difference]:
    if before != after:
        yield Difference(place, f.declaration.label, _words(f, before), _words(f, after))


def _words(f: Field, value: Value | None) -> str:
    """Return a value with its tolerance and where it came from, in a line."""
    if value is None:
        return "blank" if f.default == "" else USUAL
    said = [in_words(f, value)]
    said += [f"± {value.tolerance}"] if value.tolerance else []
    said += [f"({value.origin})"] if value.origin != UNKNOWN else []
    return " ".join(said)


def _in_short(part: Section, row: Row) -> str:
    """Return what is known of a row: the label of each field and its value."""
    known = [f for f in part.fields if f.name in row and row[f.name].is_known]
    told = [f"{f.declaration.label}: {_words(f, row[f.name])}" for f in known]
    return "; ".join(told) or "a row in which nothing is known"
