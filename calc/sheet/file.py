"""File: a data sheet as one TOML file, read whole or not at all, and written in one way."""

import json
import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from calc.sheet.layout import Section, sections
from calc.sheet.lines import line_at, lines_of
from calc.sheet.reader import MOST_PROBLEMS, FileProblem, Reader
from calc.sheet.sheet import UNKNOWN, Sheet, Value, filled
from calc.sheet.upgrade import FORMAT, Content, upgraded

LARGEST = 200_000
"""Bytes of a file; a sheet with every row of every table filled has less."""

LONGEST_LINE = 2_100
"""Characters of a line; that of a note of which every character needs an escape has less."""

MOST_DOTS = 50
"""Dots in the key of a line; reading a key takes the longer the more parts it has."""

HEADER = """# Data sheet of a rotorcraft, for the rotorcraft vibration handbook.
# A value is a text with its unit, "unknown", or { value = "…", from = "…", tolerance = "…" }.
# From: measured, drawing, manual, estimate or unknown. Tolerance: on either side, "2 %" or "0.1 m".
"""

_PLACE = re.compile(r"at line (\d+)")
_TWICE = re.compile(r"Cannot declare \((.*)\) twice")
_WORD = re.compile(r"'([^']*)'")


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
    reader = Reader(lines)
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
    if unbounded := _unbounded(text):
        return [unbounded], {}, ""
    try:
        return [], tomllib.loads(text), text
    except RecursionError:
        return [FileProblem(0, "", "brackets are nested too deeply")], {}, ""
    except ValueError as error:
        return [_not_toml(text, str(error))], {}, ""


def _not_toml(text: str, error: str) -> FileProblem:
    """Return in plain words why a text is not TOML, with the line, the last if cut off."""
    place = _PLACE.search(error)
    line = int(place[1]) if place else len(text.rstrip().split("\n"))
    said = error.partition(" (at ")[0]
    if section := _TWICE.match(said):
        key = ".".join(_WORD.findall(section[1]))
        return FileProblem(
            line, "", f"the section {key} begins here a second time; keep one of them"
        )
    if said == "Cannot overwrite a value":
        return FileProblem(line, "", "the same name stands twice in its section; keep one of them")
    ended = "" if place else "; the file ends here and may have been cut off"
    return FileProblem(line, "", f"this is not TOML: {said[:1].lower()}{said[1:]}{ended}")


def _unbounded(text: str) -> FileProblem | None:
    """Return the first line that would take long to read, if there is one."""
    for number, line in enumerate(text.splitlines(), 1):
        if len(line) > LONGEST_LINE:
            message = f"the line is longer than {LONGEST_LINE} characters"
            return FileProblem(number, "", message)
        if line.partition("=")[0].count(".") > MOST_DOTS and not line.lstrip().startswith("#"):
            return FileProblem(number, "", "the key of the line has too many parts")
    return None


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
