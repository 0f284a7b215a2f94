"""Reader: what the content of a file says of a sheet, and every problem with its line."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from calc.declaration import Field
from calc.sheet.layout import Section, sections
from calc.sheet.lines import Place, line_at
from calc.sheet.ranges import Known, contradictions
from calc.sheet.sheet import (
    ORIGINS,
    UNKNOWN,
    Row,
    Sheet,
    Value,
    filled,
    number_read,
    tolerance_read,
)
from calc.sheet.upgrade import Content

MOST_PROBLEMS = 50
LONGEST_TEXT = {"title": 120, "note": 1_000}


@dataclass(frozen=True, slots=True)
class FileProblem:
    """What is wrong in a file: the line, zero for the whole file, the field, and what to do."""

    line: int
    field: str
    message: str

    def __str__(self) -> str:
        """Return the problem in one line."""
        place = [f"line {self.line}"] if self.line else []
        return ": ".join([*place, *filter(None, [self.field]), self.message])


class Reader:
    """Reads the content of a file and keeps every problem, with its line."""

    def __init__(self, lines: dict[Place, int]) -> None:
        """Begin with where the keys of the file stand."""
        self.lines = lines
        self.problems: list[FileProblem] = []
        self._known = Known()

    def sheet(self, content: Content) -> Sheet:
        """Return the sheet; with problems it is not whole and nobody may use it."""
        texts = {key: self._text(key, content.pop(key, "")) for key in LONGEST_TEXT}
        values: dict[str, Value] = {}
        rows: dict[str, tuple[Row, ...]] = {}
        for part in sections():
            if part.is_table:
                rows[part.key] = self._rows(part, content.pop(part.key, []))
            else:
                found = self._section(part, content.pop(part.key, {}), 0)
                values |= {f"{part.key}.{name}": value for name, value in found.items()}
        self._unwanted("", 0, content, (part.key for part in sections()))
        for one in contradictions(self._known):
            self._say((one.section, 0, one.name), one.message)
        return Sheet(texts["title"], texts["note"], values, rows)

    def _say(self, place: Place, message: str, of_value: str = "") -> None:
        """Keep a problem of a value, or of what is said beside it, such as its tolerance."""
        section, row, key = place
        own = next((part for part in sections() if part.key == section), None)
        numbered = f"{section} row {row + 1}" if own and own.is_table else section
        field = ".".join(filter(None, (numbered, key, of_value)))
        self.problems.append(FileProblem(line_at(self.lines, *place), field, message))

    def _text(self, key: str, text: Any) -> str:
        if not isinstance(text, str):
            self._say(("", 0, key), "must be a text between quotation marks")
            return ""
        if len(text) > LONGEST_TEXT[key] or not text.replace("\n", "").isprintable():
            self._say(("", 0, key), f"must be at most {LONGEST_TEXT[key]} printable characters")
        return text

    def _rows(self, part: Section, content: Any) -> tuple[Row, ...]:
        if not isinstance(content, list):
            self._say((part.key, 0, ""), f"must be rows, each under [[{part.key}]]")
            return ()
        if len(content) > part.most:
            message = f"must have at most {part.most} rows, not {len(content)}"
            self._say((part.key, part.most, ""), message)
            return ()
        return tuple(self._section(part, row, number) for number, row in enumerate(content))

    def _section(self, part: Section, content: Any, row: int) -> dict[str, Value]:
        if not isinstance(content, dict):
            self._say((part.key, row, ""), "must hold names and values")
            return {}
        content = dict(content)
        given = {
            f.name: self._value((part.key, row, f.name), content.pop(f.name))
            for f in part.fields
            if f.name in content
        }
        for f in part.fields:
            if f.default == "" and f.name in given and not given[f.name].text.strip():
                del given[f.name]
        self._unwanted(part.key, row, content, (f.name for f in part.fields))
        for f in part.fields:
            value = given.get(f.name)
            if value is not None and value.is_known:
                self._check(part, row, f, value)
        return filled(part, given)

    def _check(self, part: Section, row: int, f: Field, value: Value) -> None:
        """Read a known value, then its tolerance, each of which may be a problem of its own."""
        place = (part.key, row, f.name)
        try:
            reading = number_read(f, value)
        except ValueError as error:
            self._say(place, str(error))
            return
        if not part.is_table:
            self._known[part.key, f.name] = reading
        try:
            tolerance_read(f, value)
        except ValueError as error:
            self._say(place, str(error), "tolerance")

    def _value(self, place: Place, content: Any) -> Value:
        """Return a value, written as a text or with where it came from and its tolerance."""
        said = {"value": content} if isinstance(content, str) else content
        if not isinstance(said, dict):
            self._say(
                place, 'must be a text with its unit between quotation marks, such as "4.8 m"'
            )
            return Value()
        allowed = ("value", "from", "tolerance")
        if set(said) - set(allowed) or not all(isinstance(word, str) for word in said.values()):
            self._say(place, f"may have {', '.join(allowed)}, each a text between quotation marks")
            return Value()
        origin = said.get("from", UNKNOWN)
        if origin not in ORIGINS:
            self._say(place, f"from must be one of {', '.join(ORIGINS)}")
        return Value(said.get("value", UNKNOWN), origin, said.get("tolerance", ""))

    def _unwanted(self, section: str, row: int, left: Content, known: Iterable[str]) -> None:
        """Say that names have no meaning, and which have."""
        allowed = ", ".join(known)
        for name in list(left)[:MOST_PROBLEMS]:
            is_section = not section and isinstance(left[name], dict | list)
            place = (name, 0, "") if is_section else (section, row, name)
            self._say(place, f"has no meaning here; there are {allowed}")
