"""Layout: what stands where in a file, told from its first lines and from what a reader says."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from calc.measurement.reading.cells import GROUPED, is_comment, kind, split
from calc.measurement.reading.heading import Column, columns_of, rate_in
from calc.measurement.reading.settings import Question, Settings

HEAD = 400
"""So many lines are looked at before a file is read."""
WIDEST = 256
"""So many columns may a file have."""

_SEPARATORS = ("\t", ";", "|", ",", " ")
_SEPARATOR = Question(
    "decimal",
    "Are the commas of this file decimal marks, or do they separate columns of whole numbers?",
    ((".", "They separate columns of whole numbers"), (",", "They are decimal marks")),
)
_THOUSANDS = Question(
    "decimal",
    "Is 1,234 in this file one and 234 thousandths, or one thousand two hundred and thirty-four?",
    ((",", "The comma is the decimal mark"), (".", "The comma sets off thousands")),
)
_NO_ROWS = "No rows of numbers were found in this file"
_BOTH = (
    "Commas both separate the columns of this file and mark decimals. "
    "Save it again with semicolons or tabs between the columns"
)


@dataclass(frozen=True, slots=True)
class Layout:
    """What stands where: `width` counts all columns, `header_lines` all lines before numbers.

    `sample_rate` is one that the heading states, Hz, or None.
    """

    separator: str
    decimal: str
    header_lines: int
    width: int
    columns: tuple[Column, ...]
    time_unit: str
    sample_rate: float | None
    questions: tuple[Question, ...]


@dataclass(frozen=True, slots=True)
class _Reading:
    """The first lines read in one way: cells and their kinds, the usual width, and how well."""

    separator: str
    decimal: str
    rows: list[list[str]]
    kinds: list[list[str]]
    width: int
    score: int


def layout(text: str, settings: Settings, *, whole: bool) -> Layout:
    """Return the layout of a file that begins with a text.

    Args:
        text: The beginning of the file, or all of it; line ends of any kind.
        settings: What the reader says; the rest is guessed.
        whole: Whether the text is all there is; else its last line may be cut short.

    Raises:
        ValueError: If there are no rows of numbers, or there are too many columns.
    """
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if not whole and len(lines) > 1:
        del lines[-1]
    skipped = settings.header_lines or 0
    sample = [line for line in lines[skipped:] if line.strip()][:HEAD]
    ways = [
        _read(sample, separator, decimal)
        for separator in ([settings.separator] if settings.separator else _SEPARATORS)
        for decimal in ([settings.decimal] if settings.decimal else (".", ","))
        if (separator, decimal) != (",", ",") or any('"' in line for line in sample)
    ]
    best = max(ways, key=lambda way: way.score, default=None)
    if best is None or best.score <= 0:
        both = settings.decimal == "," and any("," in line for line in sample)
        raise ValueError(_BOTH if both else _NO_ROWS)
    best, questions = _told_by_commas(best, ways, lines, settings)
    if best.width > WIDEST:
        raise ValueError(f"This file has {best.width} columns; at most {WIDEST} are read")
    first = _first_row(lines, skipped, best)
    heading = lines[:first]
    rows = [row for row, kinds in zip(best.rows, best.kinds, strict=True) if _is_row(kinds, best)]
    kinds = [kinds for kinds in best.kinds if _is_row(kinds, best)]
    usual = [_usual([one[index] for one in kinds]) for index in range(best.width)]
    columns, time_unit, asked = columns_of(heading, rows, usual, best.separator, settings)
    rate = settings.sample_rate or rate_in(heading)
    if rate is None and not any(column.role == "time" for column in columns):
        asked = (
            *asked,
            Question("sample_rate", "This file has no time column. Enter its sample rate"),
        )
    return Layout(
        *(best.separator, best.decimal, first, best.width, columns, time_unit, rate),
        (*questions, *asked),
    )


def _read(sample: Sequence[str], separator: str, decimal: str) -> _Reading:
    rows = [split(line, separator) for line in sample]
    kinds = [[kind(cell, decimal) for cell in row] for row in rows]
    widths = Counter(len(one) for one in kinds if "number" in one and "text" not in one)
    widths = widths or Counter(len(one) for one in kinds if "number" in one)
    width = max(widths, key=lambda count: (widths[count], count), default=0)
    fitting = [one for one in kinds if len(one) == width and "number" in one]
    score = 0
    for index in range(width):
        found = Counter(one[index] for one in fitting)
        good = found["number"] + found["clock"]
        score += good - found["text"] if good > found["text"] else -found["text"] // 2
    return _Reading(separator, decimal, rows, kinds, width, score)


def _is_row(kinds: list[str], way: _Reading) -> bool:
    return len(kinds) == way.width and "number" in kinds


def _usual(kinds: Sequence[str]) -> str:
    """Return what most cells of a column hold, but empty ones."""
    found = Counter(one for one in kinds if one != "empty")
    return found.most_common(1)[0][0] if found else "empty"


def _first_row(lines: list[str], skipped: int, way: _Reading) -> int:
    """Return how many lines come before the first row of numbers."""
    if skipped:
        return skipped
    usual = [
        _usual([one[index] for one in way.kinds if _is_row(one, way)]) for index in range(way.width)
    ]
    for number, line in enumerate(lines):
        kinds = [kind(cell, way.decimal) for cell in split(line, way.separator)]
        if is_comment(line) or not _is_row(kinds, way):
            continue
        words = sum(k == "text" != u for k, u in zip(kinds, usual, strict=True))
        if 2 * words < len(kinds) - usual.count("text"):
            return number
    raise ValueError(_NO_ROWS)


def _told_by_commas(
    best: _Reading, ways: Sequence[_Reading], lines: Sequence[str], settings: Settings
) -> tuple[_Reading, tuple[Question, ...]]:
    """Return how the file is read when its commas are looked at, and what they leave open."""
    if settings.decimal is not None:
        return best, ()
    if best.separator != ",":
        other = _way(ways, best.separator, ",")
        if other is not None and other.score == best.score and any("," in c for c in _cells(best)):
            best = other
        marked = [cell for cell in _cells(best) if "," in cell]
        unclear = best.decimal == "," and marked and all(map(GROUPED.fullmatch, marked))
        return best, (_THOUSANDS,) if unclear else ()
    rows = [row for row, kinds in zip(best.rows, best.kinds, strict=True) if _is_row(kinds, best)]
    wholes = [cell.strip() for row in rows for cell in row[::2]]
    parts = [cell.strip() for row in rows for cell in row[1::2]]
    if best.width % 2 or not all(map(str.isdigit, parts)) or not all(map(_is_whole, wholes)):
        return best, ()
    first = _first_row(list(lines), settings.header_lines or 0, best)
    named = next((len(split(line, ",")) for line in reversed(lines[:first]) if line.strip()), 0)
    if named == best.width:
        return best, ()
    sure = (
        named == best.width // 2 or "-0" in wholes or any(len(p) > 1 and p[0] == "0" for p in parts)
    )
    single = next((way for way in ways if way.decimal == "," and way.width == 1), None)
    if sure and best.width == 2 and single is not None:
        return single, ()
    if sure:
        raise ValueError(_BOTH)
    return best, (_SEPARATOR,)


def _way(ways: Sequence[_Reading], separator: str, decimal: str) -> _Reading | None:
    return next((one for one in ways if (one.separator, one.decimal) == (separator, decimal)), None)


def _cells(way: _Reading) -> Iterator[str]:
    """Yield the cells of the rows of numbers."""
    for row, kinds in zip(way.rows, way.kinds, strict=True):
        if _is_row(kinds, way):
            yield from map(str.strip, row)


def _is_whole(cell: str) -> bool:
    return cell.lstrip("+-").isdigit()
