"""Cells of a record: numbers with a point or a comma, clock times, and units of channels."""

import csv
import math
import re

from calc.units import (
    ACCELERATION,
    FOOT_PER_SECOND,
    HERTZ,
    HOUR,
    INCH,
    METRE,
    METRE_PER_SECOND,
    MILLIMETRE,
    MINUTE,
    ROTATION,
    SECOND,
    Unit,
    find_unit,
)

NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?", re.ASCII)
GROUPED = re.compile(r"[-+]?[1-9]\d{0,2}(?:,\d{3})+", re.ASCII)
"""A number that may be a decimal with three places or a whole number in groups of three."""

GROUPED_BY_POINTS = re.compile(r"[-+]?[1-9]\d{0,2}(?:\.\d{3})+,\d*", re.ASCII)
"""A number with a decimal comma whose points can only set off thousands."""
EMPTY = frozenset({"", "nan", "n/a", "na", "null", "none", "-", "--", "#n/a"})
"""What loggers write where there is no value, without regard to case."""

LARGEST = 1e100
"""No logger means a number as large as this."""
COMMENTS = ("#", "%", "//")
"""How lines begin that loggers mean for people."""

_CLOCK = re.compile(
    r"(?:.*[ T])?(\d{1,3}):([0-5]?\d):([0-5]?\d(?:[.,]\d*)?)Z?(?:\s?([AaPp])[Mm])?", re.ASCII
)
_MINUTES = re.compile(r"(\d{1,4}):([0-5]\d(?:[.,]\d*)?)", re.ASCII)

MILLISECOND = Unit("ms", "ms", "milliseconds", 1e-3, also=("msec", "milliseconds"))
MICROSECOND = Unit("µs", "us", "microseconds", 1e-6, also=("μs", "usec", "microseconds"))
TIMES = (
    Unit(SECOND.name, SECOND.key, SECOND.words, also=("sec", "seconds", "second", "secs")),
    MILLISECOND,
    MICROSECOND,
    MINUTE,
    HOUR,
)

QUANTITIES: dict[str, tuple[Unit, ...]] = {
    "acceleration": (
        *ACCELERATION,
        Unit("m/s²", "m/s2", "metres per second squared", also=("m/s**2", "m/sec2", "m/s/s")),
        Unit("g", "g", "standard gravity", ACCELERATION[1].size, also=("g's", "gn", "g_n")),
        Unit("mg", "mg", "thousandths of standard gravity", ACCELERATION[1].size / 1000.0),
        Unit("mm/s²", "mm/s2", "millimetres per second squared", 1e-3, also=("mm/s^2",)),
        Unit("ft/s²", "ft/s2", "feet per second squared", 0.3048, also=("ft/s^2",)),
    ),
    "velocity": (
        METRE_PER_SECOND,
        Unit("mm/s", "mm/s", "millimetres per second", 1e-3, also=("mm/sec",)),
        Unit("cm/s", "cm/s", "centimetres per second", 1e-2),
        Unit("in/s", "in/s", "inches per second", INCH.size, also=("ips", "in/sec")),
        FOOT_PER_SECOND,
    ),
    "displacement": (
        METRE,
        MILLIMETRE,
        Unit("µm", "um", "micrometres", 1e-6, also=("μm", "micron", "microns")),
        INCH,
        Unit("mil", "mil", "thousandths of an inch", INCH.size / 1000.0, also=("mils", "thou")),
    ),
    "rotor_speed": (*ROTATION, HERTZ),
}
"""Units that a channel may have, by what it measures; sizes in SI."""


def number(text: str, decimal: str, *, grouped: bool = False) -> float:
    """Return the number in a cell, or NaN for an empty one.

    Args:
        text: The cell.
        decimal: The decimal mark, a point or a comma.
        grouped: Whether commas may set off groups of three digits before a decimal point.

    Returns:
        The number; scalar.

    Raises:
        ValueError: If the cell holds something else, or a number that is too large.

    Examples:
        >>> number(" 1,5e3", ","), number("1.234,5", ","), number("-.5", "."), number("n/a", ".")
        (1500.0, 1234.5, -0.5, nan)
    """
    cell = text.strip().replace("\N{MINUS SIGN}", "-")
    if cell.casefold() in EMPTY:
        return math.nan
    if decimal == "," and GROUPED_BY_POINTS.fullmatch(cell):
        cell = cell.replace(".", "").replace(",", ".")
    elif decimal == ",":
        cell = cell.replace(".", "?").replace(",", ".")
    elif grouped and GROUPED.fullmatch(cell.partition(".")[0]):
        cell = cell.replace(",", "")
    if NUMBER.fullmatch(cell) and abs(value := float(cell)) < LARGEST:
        return value
    raise ValueError(f"{text[:40]!r} is no number")


def clock(text: str) -> float:
    """Return the seconds that a clock shows, with or without a date before it.

    Args:
        text: Such as `10:15:00.125`, `2031-05-04T10:15:00,125`, `12:15:00 AM`, or `07:30.5` in
            minutes.

    Returns:
        Seconds after midnight, or after the start of a stopwatch; scalar, s.

    Raises:
        ValueError: If it is no such time.

    Examples:
        >>> clock("10:15:00.125"), clock("4.5.2031 12:00:01,5 AM"), clock("07:30.5")
        (36900.125, 1.5, 450.5)
    """
    cell = text.strip()
    if found := _CLOCK.fullmatch(cell):
        hours, minutes, seconds, half = found.groups()
        whole = int(hours) if half is None else int(hours) % 12 + 12 * (half in "Pp")
        return 3600.0 * whole + 60.0 * int(minutes) + float(seconds.replace(",", "."))
    if found := _MINUTES.fullmatch(cell):
        return 60.0 * int(found[1]) + float(found[2].replace(",", "."))
    raise ValueError(f"{text[:40]!r} is no time of a clock")


def kind(text: str, decimal: str) -> str:
    """Return what a cell looks like: `number`, `clock`, `empty` or `text`."""
    if ":" in text:
        try:
            clock(text)
        except ValueError:
            return "text"
        return "clock"
    try:
        value = number(text, decimal, grouped=decimal == ".")
    except ValueError:
        return "text"
    return "empty" if math.isnan(value) else "number"


def split(line: str, separator: str) -> list[str]:
    """Return the cells of a line; quotes around a cell are taken off.

    Examples:
        >>> split('1;"2;3";4', ";"), split(" 1  2 ", " ")
        (['1', '2;3', '4'], ['1', '2'])
    """
    if '"' in line:
        plain = " ".join(line.split()) if separator == " " else line
        return next(csv.reader([plain], delimiter=separator, skipinitialspace=True), [])
    return line.split() if separator == " " else line.split(separator)


def is_comment(line: str) -> bool:
    """Return whether a line is one that loggers mark as a comment."""
    return line.lstrip().startswith(COMMENTS)


def time_unit(text: str) -> Unit | None:
    """Return a unit of time by its name or spelling, or None."""
    return find_unit(text, TIMES)


def unit_of(text: str) -> tuple[str, Unit] | None:
    """Return what a unit measures and the unit, or None for one that is not of vibration.

    Examples:
        >>> what, unit = unit_of("ips")
        >>> what, unit.name, unit.size
        ('velocity', 'in/s', 0.0254)
    """
    for what, family in QUANTITIES.items():
        if (unit := find_unit(text, family)) is not None:
            return what, unit
    return None
