"""Heading: the names, units and roles of columns, and a sample rate that is stated."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from calc.measurement.reading.cells import number, time_unit
from calc.measurement.reading.settings import CLOCK, ColumnSetting, Question, Settings
from calc.measurement.reading.titles import TIME, titles_of

_COUNTER = re.compile(
    r"#|n|no\.?|nr\.?|idx|index|row|line|point|samples?(?: ?(?:no|number|index)\.?)?", re.IGNORECASE
)
_PULSES = re.compile(
    r"tach|puls|trigger|1/rev|1p\b|once[ -_]per[ -_]rev|per[ -_]?rev|marker", re.IGNORECASE
)
_SPEED = re.compile(
    r"(?:rotor|shaft|propeller|main rotor|n_?r)?[\s_]*(?:speed|rpm)|rotor[\s_]rpm", re.IGNORECASE
)
_SPEED_UNITS = {"rpm", "1/min", "rev/min", "r/min"}
_RATE = re.compile(
    r"(?:sampl\w*[\s_]*(?:rate|freq\w*)|\bfs\b|f_s)\D{0,12}?(\d+(?:[.,]\d+)?)\s*(k?)(?:hz|sps|s/s)?",
    re.IGNORECASE,
)
_COUNTED = Question(
    "time_unit",
    "The time column has no unit. In which unit is it?",
    (("s", "seconds"), ("ms", "milliseconds"), ("us", "microseconds")),
)
SLOWEST = 0.05
"""A step in s from which a time column without a unit is asked about: vibration is faster."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column by its index from 0; `first` has the texts of its first rows."""

    index: int
    name: str
    unit: str
    role: str
    first: tuple[str, ...]


def columns_of(
    heading: Sequence[str],
    rows: Sequence[Sequence[str]],
    kinds: Sequence[str],
    separator: str,
    settings: Settings,
) -> tuple[tuple[Column, ...], str, tuple[Question, ...]]:
    """Return the columns, the unit of time, and what must be asked.

    Args:
        heading: The lines before the first row of numbers.
        rows: The cells of the first rows.
        kinds: What most cells of each column hold.
        separator: What stands between cells.
        settings: What the reader says; the rest is guessed.
    """
    titles = titles_of(heading, len(kinds), separator)
    columns = [
        Column(
            *(index, name, unit),
            "skip" if one == "text" or (one == "empty" and not name) else "channel",
            tuple(row[index].strip() for row in rows[:3]),
        )
        for index, ((name, unit), one) in enumerate(zip(titles, kinds, strict=True))
    ]
    _give_roles(columns, rows, kinds)
    columns = [_as_told(column, settings.columns.get(column.index)) for column in columns]
    taken: set[str] = set()
    for index, column in enumerate(columns):
        columns[index] = replace(column, name=_unlike(column.name or f"Column {index + 1}", taken))
    timed = next((column for column in columns if column.role == "time"), None)
    if timed is None:
        return tuple(columns), "", ()
    unit, asked = _unit_of_time(timed, rows, kinds, settings)
    return tuple(columns), unit, asked


def rate_in(heading: Sequence[str]) -> float | None:
    """Return the sample rate in Hz that a heading states, or None.

    Examples:
        >>> rate_in(["# Sample rate: 2.5 kHz"])
        2500.0
    """
    for line in heading:
        if (found := _RATE.search(line)) and float(found[1].replace(",", ".")) > 0.0:
            return float(found[1].replace(",", ".")) * (1000.0 if found[2] else 1.0)
    return None


def _give_roles(columns: list[Column], rows: Sequence[Sequence[str]], kinds: Sequence[str]) -> None:
    """Set the roles of time, pulses and rotor speed, each once."""
    found: set[str] = set()
    for index, column in enumerate(columns):
        if column.role == "skip":
            continue
        role = _role(column, [row[index] for row in rows], kinds[index])
        if role in {"time", "pulses", "rotor_speed"}:
            role = ("skip" if role == "time" else "channel") if role in found else role
            found.add(role)
        columns[index] = replace(column, role=role)


def _role(column: Column, texts: Sequence[str], what: str) -> str:
    if what != "number":
        return "time" if what == "clock" else "channel"
    values = _numbers(texts)
    steps = [after - before for before, after in pairwise(values)]
    counts = bool(steps) and steps.count(1.0) >= 0.9 * len(steps)
    bare = not column.name and column.index == 0
    if counts and (bare or _COUNTER.fullmatch(column.name)):
        return "skip"
    is_named = TIME.fullmatch(column.name) or time_unit(column.unit)
    if _rises(steps) and (is_named or ((bare or time_unit(column.name)) and _is_even(steps))):
        return "time"
    if column.name and _PULSES.search(column.name):
        return "pulses"
    is_speed = column.unit.casefold() in _SPEED_UNITS or _SPEED.fullmatch(column.name)
    return "rotor_speed" if is_speed else "channel"


def _rises(steps: Sequence[float]) -> bool:
    return bool(steps) and sum(step >= 0.0 for step in steps) >= 0.9 * len(steps) and sum(steps) > 0


def _is_even(steps: Sequence[float]) -> bool:
    """Return whether most steps are about as long as the middle one."""
    usual = sorted(steps)[len(steps) // 2]
    near = sum(0.4 * usual < step < 1.6 * usual for step in steps)
    return len(steps) > 1 and usual > 0.0 and near > 0.8 * len(steps)


def _numbers(texts: Sequence[str]) -> list[float]:
    values = []
    for text in texts:
        for mark in ".", ",":
            try:
                value = number(text, mark)
            except ValueError:
                continue
            if value == value:  # noqa: PLR0124 - an empty cell is NaN
                values.append(value)
            break
    return values


def _unit_of_time(
    column: Column, rows: Sequence[Sequence[str]], kinds: Sequence[str], settings: Settings
) -> tuple[str, tuple[Question, ...]]:
    """Return the key of the unit of the time column, and the question where it is not told."""
    if settings.time_unit:
        return settings.time_unit, ()
    if kinds[column.index] == "clock":
        return CLOCK, ()
    if unit := time_unit(column.unit) or time_unit(column.name):
        return unit.key, ()
    values = _numbers([row[column.index] for row in rows])
    steps = sorted(after - before for before, after in pairwise(values))
    slow = bool(steps) and steps[len(steps) // 2] > SLOWEST
    return "s", (_COUNTED,) if slow else ()


def _as_told(column: Column, told: ColumnSetting | None) -> Column:
    if told is None:
        return column
    return replace(
        column,
        role=column.role if told.role is None else told.role,
        name=column.name if told.name is None else told.name.strip(),
        unit=column.unit if told.unit is None else told.unit.strip(),
    )


def _unlike(name: str, taken: set[str]) -> str:
    """Return a name that no column before has."""
    own, count = name, 1
    while own in taken:
        count += 1
        own = f"{name} ({count})"
    taken.add(own)
    return own
