"""Quoting: the numbers of a result in the link that is copied, for a reader who opens it later.

A copied link ends in two keys of its own, which change no entry:

    release=0.2.0&quoted=tip_speed_227.503667997;lines_t3,41.2,0.35

A number is quoted in SI units with twelve digits.  Of a table stand behind the letter t the number
of rows and, for each column of numbers, the sum of its numbers, each times the number of its row.
"""

import math
from collections.abc import Mapping, Sequence
from typing import Any, TypeGuard

from calc import VERSION
from calc.catalogue import formula
from calc.declaration import Declaration, Table, inputs, outputs
from calc.form.calculation import Calculation, latest, short_name
from calc.quantity import Quantity
from calc.unit_systems import STARTING

RELEASE = "release"
QUOTED = "quoted"
"""The keys in a link; no form has inputs of these names."""

NONE = "none"
"""What is quoted where there is no such number."""

Quotable = float | str
"""A number in SI units, `none`, or what stands for a table."""

_SUM = 1e-6
"""Relative difference up to which a column of a table is the same: it is quoted with 7 digits."""

_ZERO = 1e-12
_SMALL = 1e-9
"""In SI units: what rounding leaves of a result that is zero, and of a sum that is, is smaller."""


def numbers(calculation: Calculation) -> dict[str, Quotable]:
    """Return what of a result can be quoted, by name: numbers in SI units, sums of tables.

    A verdict in words is not quoted.
    """
    found: dict[str, Quotable] = {}
    nothing = [(f, None) for f in outputs(formula(calculation.name))]
    for f, value in [] if calculation.problems else calculation.results or nothing:
        if isinstance(f.declaration, Quantity):
            found[f.name] = float(value) if _is_finite(value) else NONE
        elif isinstance(f.declaration, Table) and _columns(f.declaration) and value is not None:
            found[f.name] = _sums(f.declaration, value)
    return found


def is_same(declaration: Declaration, old: Quotable, new: Quotable | None) -> bool:
    """Return whether a result is what was quoted; a column that was added to a table is no change.

    Numbers are the same within the precision that their quantity declares.
    """
    if isinstance(declaration, Quantity) and isinstance(old, float) and isinstance(new, float):
        return math.isclose(old, new, rel_tol=declaration.precision, abs_tol=_ZERO)
    if isinstance(declaration, Table) and isinstance(old, str) and isinstance(new, str):
        return _is_same_table(declaration, old.split(","), new.split(","))
    return old == new


def told_apart(table: Table, old: str, new: str) -> tuple[str, str]:
    """Return in words how two tables differ, old and new.

    It is the number of rows or, if that is the same, nothing and the columns whose sum was not
    there before.
    """
    then, *sums = old.split(",")
    now, *totals = new.split(",")
    if then != now:
        return _rows(then), _rows(now)
    others = [
        f"“{one.label}”"
        for (_, one), total in zip(_columns(table), totals, strict=True)
        if not any(_is_same_sum(one, before, total) for before in sums)
    ]
    return "", " ".join(
        ["other numbers", *(["under"] if others else []), ", ".join(others)]
    ).rstrip()


def linked(
    name: str,
    entries: Mapping[str, str],
    link: str,
    system: str = STARTING,
    results: Mapping[str, str] | None = None,
) -> str:
    """Return the link to a form with its entries, and with the release and what it quotes."""
    return quoting(latest(name, entries, system, results), link)


def quoting(calculation: Calculation, link: str) -> str:
    """Return a link with what it quotes; one without entries, or without a result, as it is."""
    _, _, fragment = link.partition("#")
    if "=" not in fragment or calculation.problems:
        return link
    prefix = f"{short_name(calculation.name)}."
    prefix = prefix if fragment.startswith(prefix) else ""
    told = ";".join(f"{key}_{written(value)}" for key, value in numbers(calculation).items())
    keys = {RELEASE: VERSION, **({QUOTED: told} if told else {})}
    return "&".join([link, *(f"{prefix}{key}={text}" for key, text in keys.items())])


def written(value: Quotable) -> str:
    """Return a number, or what stands for a table, as it is written in a link."""
    return value if isinstance(value, str) else _number(value, 12)


def _columns(table: Table) -> list[tuple[str, Quantity]]:
    declared = [(column.name, column.declaration) for column in inputs(table.row)]
    return [(name, one) for name, one in declared if isinstance(one, Quantity)]


def _sums(table: Table, rows: Sequence[Any]) -> str:
    """Return what stands for a table: where a row is moved or changed, another sum comes out."""
    sums = [
        math.fsum(
            number * getattr(row, name)
            for number, row in enumerate(rows, 1)
            if _is_finite(getattr(row, name))
        )
        for name, _ in _columns(table)
    ]
    return ",".join([f"t{len(rows)}", *(_number(total, 7) for total in sums)])


def _is_same_table(table: Table, old: Sequence[str], new: Sequence[str]) -> bool:
    """Return whether a table has the columns that were quoted, in order; others may be between."""
    now = zip((one for _, one in _columns(table)), new[1:], strict=False)
    return old[0] == new[0] and all(
        any(_is_same_sum(one, then, total) for one, total in now) for then in old[1:]
    )


def _is_same_sum(column: Quantity, old: str, new: str) -> bool:
    tolerance = max(_SUM, column.precision)
    return math.isclose(float(old), float(new), rel_tol=tolerance, abs_tol=_SMALL)


def _rows(count: str) -> str:
    number = count.removeprefix("t")
    return f"{number} row" if number == "1" else f"{number} rows"


def _number(value: float, digits: int) -> str:
    return f"{value:.{digits}g}".replace("e+", "e")


def _is_finite(value: float | None) -> TypeGuard[float]:
    return value is not None and math.isfinite(value)
