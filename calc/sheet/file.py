"""File: a data sheet as one TOML file, read whole or not at all, and written in one way."""

import json
import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.sheet.layout import Section, sections
from calc.sheet.lines import Place, line_at, lines_of
from calc.sheet.sheet import ORIGINS, UNKNOWN, Row, Sheet, Value, filled, value_read
from calc.sheet.upgrade import FORMAT, Content, upgraded

LARGEST = 200_000
"""Bytes of a file; a sheet with every row of every table filled has less."""

LONGEST_LINE = 2_000
MOST_PROBLEMS = 50
LONGEST_TEXT = {"title": 120, "note": 1_000}
HEADER = """# Data sheet of a rotorcraft, for the rotorcraft vibration handbook.
# A value is a text with its unit, "unknown", or { value = "…", from = "…", tolerance = "…" }.
# From: measured, drawing, manual, estimate or unknown. Tolerance: on either side, "2 %" or "0.1 m".
"""

_PLACE = re.compile(r"at line (\d+)")


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


@dataclass(frozen=True, slots=True)
class Opened:
    """What a file gives: a whole sheet with the changes of an upgrade, or problems alone."""

    sheet: Sheet | None
    problems: tuple[FileProblem, ...] = ()
    changes: tuple[str, ...] = ()


def opened(data: bytes) -> Opened:
    """Return the sheet in a file, or what is wrong with it; nothing is raised.

    Args:
        data: The bytes of the file.

    Returns:
        The sheet and the changes, in words, that an older format needed; or at most fifty
        problems and no sheet.
    """
    problems, content, text = _content(data)
    if problems:
        return Opened(None, tuple(problems))
    number = content.pop("format", None)
    lines = lines_of(text)
    if refused := _refused(number, line_at(lines, "", 0, "format")):
        return Opened(None, (refused,))
    changes = upgraded(content, number)
    reader = _Reader(lines)
    sheet = reader.sheet(content)
    if reader.problems:
        return Opened(None, _cut(sorted(reader.problems, key=lambda problem: problem.line)))
    return Opened(sheet, (), tuple(changes))


def written(sheet: Sheet) -> str:
    """Return the text of the file of a sheet: the same sheet gives the same text.

    Examples:
        >>> from calc.sheet.sheet import blank
        >>> written(blank("Wren")).splitlines()[3:6]
        ['format = 2', 'title = "Wren"', 'note = ""']
    """
    head = f"{HEADER}format = {FORMAT}\ntitle = {_quoted(sheet.title)}\nnote = "
    return head + _quoted(sheet.note) + "\n" + "".join(_written(sheet))


def _written(sheet: Sheet) -> Iterator[str]:
    for part in sections():
        rows = sheet.rows.get(part.key, ())
        if rows or not part.is_table:
            yield f"\n# {part.title}"
        if part.is_table:
            yield "\n" if rows else ""
            yield "\n".join(f"[[{part.key}]]\n{_entries(part, row)}" for row in rows)
        else:
            own = {
                f.name: value
                for f in part.fields
                if (value := sheet.value(f"{part.key}.{f.name}")) is not None
            }
            yield f"\n[{part.key}]\n{_entries(part, own)}"


def _entries(part: Section, values: Mapping[str, Value]) -> str:
    return "".join(f"{name} = {_entry(value)}\n" for name, value in filled(part, values).items())


def _entry(value: Value) -> str:
    if value.origin == UNKNOWN and not value.tolerance:
        return _quoted(value.text)
    said = [f"value = {_quoted(value.text)}"]
    said += [f"from = {_quoted(value.origin)}"] if value.origin != UNKNOWN else []
    said += [f"tolerance = {_quoted(value.tolerance)}"] if value.tolerance else []
    return f"{{ {', '.join(said)} }}"


def _quoted(text: str) -> str:
    """Return text between quotation marks, in the escapes that JSON and TOML share."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _content(data: bytes) -> tuple[list[FileProblem], Content, str]:
    """Return what is wrong with a file as TOML, or its content and its text."""
    if len(data) > LARGEST:
        message = f"the file has {len(data)} bytes; a data sheet has at most {LARGEST}"
        return [FileProblem(0, "", message)], {}, ""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        return [FileProblem(line, "", "the file is not text in UTF-8")], {}, ""
    for number, line_text in enumerate(text.splitlines(), 1):
        if len(line_text) > LONGEST_LINE:
            message = f"the line is longer than {LONGEST_LINE} characters"
            return [FileProblem(number, "", message)], {}, ""
    try:
        return [], tomllib.loads(text), text
    except RecursionError:
        return [FileProblem(0, "", "brackets are nested too deeply")], {}, ""
    except ValueError as error:
        place = _PLACE.search(str(error))
        said = str(error).partition(" (at ")[0]
        message = f"this is not TOML: {said[:1].lower()}{said[1:]}"
        return [FileProblem(int(place[1]) if place else 0, "", message)], {}, ""


def _refused(number: Any, line: int) -> FileProblem | None:
    """Return why a format cannot be read, if it cannot."""
    if isinstance(number, bool) or not isinstance(number, int) or number < 1:
        message = f"a data sheet begins with its format, such as format = {FORMAT}"
        return FileProblem(line, "format", message)
    if number > FORMAT:
        message = (
            f"the file has format {number}, from a newer version of the handbook; this version "
            f"reads formats 1 to {FORMAT}. Open it with the newer version, or ask for format "
            f"{FORMAT}"
        )
        return FileProblem(line, "format", message)
    return None


def _cut(problems: list[FileProblem]) -> tuple[FileProblem, ...]:
    """Return problems, of many the first with how many there are."""
    if len(problems) <= MOST_PROBLEMS:
        return tuple(problems)
    more = len(problems) - MOST_PROBLEMS
    return (*problems[:MOST_PROBLEMS], FileProblem(0, "", f"and {more} more problems"))


class _Reader:
    """Reads the content of a file and keeps every problem, with its line."""

    def __init__(self, lines: dict[Place, int]) -> None:
        self.lines = lines
        self.problems: list[FileProblem] = []

    def sheet(self, content: Content) -> Sheet:
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
        return Sheet(texts["title"], texts["note"], values, rows)

    def _say(self, place: Place, message: str) -> None:
        section, row, key = place
        own = next((part for part in sections() if part.key == section), None)
        numbered = f"{section} row {row + 1}" if own and own.is_table else section
        field = ".".join(filter(None, (numbered, key)))
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
        self._unwanted(part.key, row, content, (f.name for f in part.fields))
        for f in part.fields:
            value = given.get(f.name)
            if value is not None and value.is_known:
                try:
                    value_read(f, value)
                except ValueError as error:
                    self._say((part.key, row, f.name), str(error))
        return filled(part, given)

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
        for name in list(left)[:MOST_PROBLEMS]:
            is_section = not section and isinstance(left[name], dict | list)
            place = (name, 0, "") if is_section else (section, row, name)
            self._say(place, f"has no meaning here; there are {', '.join(known)}")
