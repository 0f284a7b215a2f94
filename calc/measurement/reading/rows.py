"""Rows: lines of a file as columns of numbers; a bad cell is named and nothing else is lost."""

import math
from bisect import bisect_right
from dataclasses import dataclass, field
from itertools import chain
from operator import mul

from calc.measurement.reading.cells import EMPTY, clock, is_comment, number, split, time_unit
from calc.measurement.reading.layout import Layout
from calc.measurement.reading.samples import Samples, array
from calc.measurement.reading.settings import CLOCK

BATCH = 512
"""So many lines are converted at once; where there is a problem they are looked at singly."""
LISTED = 200
"""So many problems are kept in words; all are counted."""
SHOWN = 40
"""So many characters of a cell are quoted."""


@dataclass(frozen=True, slots=True)
class Problem:
    """What could not be read: line and column from 1, 0 for the whole line, and what was done."""

    line: int
    column: int
    message: str

    def __str__(self) -> str:
        """Return it in words."""
        place = f"Line {self.line}, column {self.column}" if self.column else f"Line {self.line}"
        return f"{place}: {self.message}"


@dataclass(slots=True)
class Rows:
    """Columns of numbers that grow line by line; NaN stands where no value could be read.

    `columns` holds the values of the columns in `kept`, as they stand in the file, but clock times
    in seconds.  `empty` counts empty cells of each.  A line of `headings` is no row.
    """

    layout: Layout
    kept: list[int] = field(init=False)
    timed: int = field(init=False)
    columns: list[Samples] = field(init=False)
    empty: list[int] = field(init=False)
    problems: list[Problem] = field(default_factory=list)
    problem_count: int = 0
    bad_rows: int = 0
    lines: int = 0
    headings: set[str] = field(default_factory=set)
    _starts: list[int] = field(default_factory=list)
    _offsets: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Make empty columns."""
        roles = {column.index: column.role for column in self.layout.columns}
        self.kept = [index for index, role in roles.items() if role != "skip"]
        self.timed = next((index for index, role in roles.items() if role == "time"), -1)
        self.columns = [array("d") for _ in self.kept]
        self.empty = [0 for _ in self.kept]
        self.lines = self.layout.header_lines

    def __len__(self) -> int:
        """Return how many rows there are."""
        return len(self.columns[0]) if self.columns else 0

    def take(self, lines: list[str]) -> None:
        """Take whole lines that follow those taken before."""
        for start in range(0, len(lines), BATCH):
            some = lines[start : start + BATCH]
            if not self._clean(some):
                for offset, line in enumerate(some, 1):
                    self._single(line, self.lines + offset)
            self.lines += len(some)

    def leave_out(self, message: str) -> None:
        """Pass over a line that was not kept."""
        self.lines += 1
        self.bad_rows += 1
        self.refuse(self.lines, 0, message)

    def refuse(self, line: int, column: int, message: str) -> None:
        """Count a problem, and keep it in words if there are not too many."""
        self.problem_count += 1
        if len(self.problems) < LISTED:
            self.problems.append(Problem(line, column, message))

    def line_of(self, row: int) -> int:
        """Return the line of the file that a row came from."""
        at = bisect_right(self._starts, row) - 1
        return row + self._offsets[at]

    def _clean(self, lines: list[str]) -> bool:
        """Take lines without anything unusual in them, all at once; else take none."""
        text = "\n".join(lines)
        if self._is_unusual(text):
            return False
        if self.layout.decimal == ",":
            text = text.replace(",", ".")
        separator, width = self.layout.separator, self.layout.width
        if separator == " ":
            rows = [line.split() for line in text.split("\n")]
            fits = all(len(row) == width for row in rows)
            cells = list(chain.from_iterable(rows))
        else:
            cells = text.replace("\n", f"{separator}\n").split(separator)
            firsts = "".join(cells[::width])  # each line but the first begins with its line end
            fits = len(cells) == width * len(lines) and firsts.count("\n") == len(lines) - 1
        try:
            found = [self._column(cells[index::width], index) for index in self.kept if fits]
        except ValueError:
            return False
        if not found:
            return False
        self._note(self.lines + 1)
        for place, (values, gaps) in enumerate(found):
            self.columns[place].extend(values)
            self.empty[place] += gaps
        return True

    def _column(self, cells: list[str], index: int) -> tuple[Samples, int]:
        """Return the values of clean cells, and how many of them are empty.

        Raises:
            ValueError: If a cell is neither a number of any use nor empty.
        """
        read = clock if self._is_clock(index) else float
        known = cells if all(cells) else [cell for cell in cells if cell.strip()]
        values = array("d", map(read, known))
        if not math.isfinite(sum(map(mul, values, values))):
            raise ValueError("There is a number that is too large")
        if len(known) == len(cells):
            return values, 0
        rest = iter(values)
        whole = array("d", (next(rest) if cell.strip() else math.nan for cell in cells))
        return whole, len(cells) - len(known)

    def _is_unusual(self, text: str) -> bool:
        """Return whether there may be what `float` reads in another way than a logger means it."""
        mixed = self.layout.decimal == "," and "." in text and self.layout.time_unit != CLOCK
        return mixed or not text.isascii() or '"' in text or "_" in text

    def _is_clock(self, index: int) -> bool:
        return index == self.timed and self.layout.time_unit == CLOCK

    def _note(self, line: int) -> None:
        """Note that the next row comes from a line."""
        offset = line - len(self)
        if not self._offsets or self._offsets[-1] != offset:
            self._starts.append(len(self))
            self._offsets.append(offset)

    def _single(self, line: str, at: int) -> None:
        """Take one line, whatever is in it."""
        if not line.strip() or is_comment(line):
            return
        if line in self.headings:
            self.refuse(at, 0, "the heading stands here again and is left out")
            self.bad_rows += 1
            return
        cells = split(line, self.layout.separator)
        width = self.layout.width
        while len(cells) > width and not cells[-1].strip():
            del cells[-1]
        values, wrong = self._values(cells)
        fits = len(cells) == width
        if wrong or not fits:
            self.bad_rows += 1
        if not fits and all(map(math.isnan, values)):
            self.refuse(at, 0, f"{shown(line)!r} is no row of numbers and is left out")
            return
        self._note(at)
        if not fits:
            values = self._of_wrong_width(cells, values, at, broken=bool(wrong))
        if wrong and fits:
            wrong = sorted([*wrong, *self._lost_beside(wrong, values)])
        for column, message in wrong if fits else ():
            self.refuse(at, column, f"{message}; a gap is left in its place")
        for place, value in enumerate(values):
            self.empty[place] += fits and not wrong and math.isnan(value)
            self.columns[place].append(value)

    def _values(self, cells: list[str]) -> tuple[list[float], list[tuple[int, str]]]:
        """Return the values of the cells, and column from 1 and message of each bad one."""
        values = [math.nan] * len(self.kept)
        wrong = []
        for place, index in enumerate(self.kept):
            if index < len(cells):
                try:
                    values[place] = self._value(cells[index], index)
                except ValueError as error:
                    wrong.append((index + 1, str(error)))
        return values, wrong

    def _lost_beside(
        self, wrong: list[tuple[int, str]], values: list[float]
    ) -> list[tuple[int, str]]:
        """Return the empty cells of a damaged row, but for channels that have had empty ones."""
        named = {column for column, _ in wrong}
        return [
            (index + 1, "an empty cell in a damaged row")
            for place, index in enumerate(self.kept)
            if math.isnan(values[place]) and index + 1 not in named and not self.empty[place]
        ]

    def _value(self, cell: str, index: int) -> float:
        if self._is_clock(index):
            return math.nan if cell.strip().casefold() in EMPTY else clock(cell)
        grouped = self.layout.decimal == "." and self.layout.separator != ","
        return number(cell, self.layout.decimal, grouped=grouped)

    def _of_wrong_width(
        self, cells: list[str], values: list[float], at: int, *, broken: bool
    ) -> list[float]:
        """Return what a row with too few or too many cells is trusted for.

        A short row whose cells can all be read has lost its end; in any other the cells may stand
        under wrong headings, and only a time before them is kept.
        """
        width, count = self.layout.width, len(cells)
        what = f"{count} column{'s' if count > 1 else ''} where {width} are expected"
        if count < width and not broken:
            self.refuse(at, 0, f"{what}; gaps are left for those at the end")
            return values
        self.refuse(at, 0, f"{what}; a gap is left in all channels")
        return [
            value if index == self.timed == 0 else math.nan
            for index, value in zip(self.kept, values, strict=True)
        ]


def time_scale(layout: Layout) -> float:
    """Return how many seconds one unit of the time column is; clocks are read in seconds."""
    unit = time_unit(layout.time_unit)
    return 1.0 if unit is None else unit.size


def shown(text: str) -> str:
    """Return the beginning of a text, with a dot for what cannot be printed."""
    return "".join(one if one.isprintable() else "·" for one in text.strip()[:SHOWN])
