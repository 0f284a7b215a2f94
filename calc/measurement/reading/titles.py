"""Titles: the name and the unit of each column, from the lines before the numbers."""

import re
from collections.abc import Sequence

from calc.measurement.reading.cells import split, time_unit, unit_of

TIME = re.compile(
    r"t|time|zeit|temps|sec|seconds?|elapsed|(?:.*[\s_])?time(?:[\s_].*)?|time\w*", re.IGNORECASE
)
"""Names of a column of time."""

_BRACKETS = re.compile(r"(.*?)[\s_,]*[\[({]([^\])}]*)[\])}]\s*")
_AFTER_UNIT = re.compile(r"(?<=[\])])\s+")
_TITLES = re.compile(r"[^\s\[(]+(?:\s*[\[(][^\])]*[\])])?")
_BETWEEN = re.compile(r"[\s_/,]+")
_BARE_UNIT = re.compile(r"[\[({]?([^\])}]*)[\])}]?")
_WORDS_FOR_UNITS = {"in", "m", "h", "min", "s"}
"""Units that, without brackets, are as likely the last word of a name."""
_OTHER_UNIT = re.compile(
    r"[mµμ]?[VA]|[km]?N|lbf|k?N[·*]?m|[kM]?Pa|m?bar|psi|(?:°|deg|rad)(?:/s)?|°[CF]|K|%|‰|-|"
    r"[µμu]m/m|[µμ][εe]|ue|kg|dB|k?Hz|rpm|(?:U|1|rev)/min"
)
"""A unit of a logger that is not of vibration; a name may be spelled like one."""
_LONGEST_UNIT = 8
"""So many characters has a unit that is not known, at most."""


def titles_of(heading: Sequence[str], width: int, separator: str) -> list[tuple[str, str]]:
    """Return the name and the unit of each column.

    Args:
        heading: The lines before the first row of numbers.
        width: The number of columns.
        separator: What stands between cells.

    Returns:
        Name and unit, each empty where there is none; shape (width,).

    Examples:
        >>> titles_of(["Zeit;Sitz vertikal;Puls", "s;m/s²;V"], 3, ";")
        [('Zeit', 's'), ('Sitz vertikal', 'm/s²'), ('Puls', 'V')]
    """
    last = [line for line in heading if line.strip()][-6:]
    lines = [cells for line in last if (cells := _cells(line, width, separator))]
    names = lines[-1] if lines else [""] * width
    above = lines[-2] if len(lines) > 1 else [""] * width
    units = [m[1].strip() if (m := _BARE_UNIT.fullmatch(cell)) else cell for cell in names]
    if _are_units(units, above):
        names = above
    else:
        units = [""] * width
    titles = map(named, names)
    return [(name, unit or below) for (name, unit), below in zip(titles, units, strict=True)]


def named(title: str) -> tuple[str, str]:
    """Return the name and the unit in the title of a column.

    Examples:
        >>> named("Mast x [m/s2]"), named("Tail (g)"), named("time_ms"), named("Seat / mm/s")
        (('Mast x', 'm/s2'), ('Tail', 'g'), ('time', 'ms'), ('Seat', 'mm/s'))
        >>> named("Boom in"), named("Acc z m/s^2"), named("1/rev")
        (('Boom in', ''), ('Acc z', 'm/s^2'), ('1/rev', ''))
    """
    title = title.strip()
    if found := _BRACKETS.fullmatch(title):
        return found[1].strip() or title, found[2].strip()
    for found in _BETWEEN.finditer(title):
        name, unit = title[: found.start()], title[found.end() :]
        is_known = _is_known(unit)
        if name and is_known and (unit not in _WORDS_FOR_UNITS or TIME.fullmatch(name)):
            return name, unit
    return title, ""


def _cells(line: str, width: int, separator: str) -> list[str]:
    """Return the cells of a line of the heading, or none where they are not one a column."""
    bare = line.strip().lstrip("#%/ ").strip('"') if line.lstrip()[:1] in "#%/" else line
    cells = [cell.strip() for cell in split(bare, separator)]
    if separator == " ":
        ways = (cells, re.split(r"\s{2,}|\t", bare.strip()), _AFTER_UNIT.split(bare.strip()))
        cells = next((way for way in ways if len(way) == width), _TITLES.findall(bare))
    if len(cells) == width - 1 and separator != " ":
        cells.append("")
    return cells if len(cells) == width and any(cells) else []


def _are_units(cells: Sequence[str], above: Sequence[str]) -> bool:
    """Return whether a line holds units: known ones alone, or mostly under a line of names.

    Units of other things alone, such as of force, are a line of units under names that are none.
    """
    filled = [cell for cell in cells if cell]
    known = sum(map(_is_known, filled))
    if len(filled) > 1 and all(not cell or _is_known(cell) for cell in cells[1:]):
        return True
    is_time = time_unit(cells[0]) is not None
    has_names = TIME.fullmatch(cells[0]) is not None and not is_time
    are_named = all(name for name, cell in zip(above, cells, strict=True) if cell)
    if has_names or not are_named:
        return False
    listed = sum(map(_is_listed, filled))
    if listed == len(filled) and not any(map(_is_listed, above)):
        return True
    if known <= sum(map(_is_known, above)):
        return False
    are_short = all(len(cell) <= _LONGEST_UNIT and " " not in cell for cell in filled)
    under_time = TIME.fullmatch(above[0]) is not None and is_time
    return are_short and (under_time or 2 * listed > len(filled))


def _is_listed(text: str) -> bool:
    """Return whether a text is a unit that a logger writes, of vibration or not."""
    return _is_known(text) or _OTHER_UNIT.fullmatch(text) is not None


def _is_known(text: str) -> bool:
    """Return whether a text is a unit of time or of vibration."""
    return time_unit(text) is not None or unit_of(text) is not None
