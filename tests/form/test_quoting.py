"""Quoting: the numbers that a copied link carries."""

import math
from dataclasses import dataclass
from typing import Annotated

import pytest

from calc import VERSION
from calc.declaration import Table
from calc.form.calculation import calculate, start
from calc.form.copying import copies
from calc.form.quoting import is_same, linked, numbers
from calc.quantity import Quantity
from calc.units import FREQUENCY

TIP = "rotor.tip_speed.tip_state"
LINK = (
    "https://example.org/rotor/tip_speed.html#tip_state.radius=5.5_m&tip_state.rotor_speed=395_rpm"
)
ENTRIES = start(TIP) | {"radius": "5.5_m", "rotor_speed": "395_rpm"}


@dataclass(frozen=True)
class Line:
    """A row of a table of results."""

    frequency: Annotated[float | None, Quantity("f", "Frequency", FREQUENCY)]
    share: Annotated[float, Quantity("s", "Second frequency", FREQUENCY)]


TABLE = Table("Lines", Line)
ROWS = (Line(4.0, 1e-4), Line(None, 2e-4), Line(0.5, -3e-4))


def test_link_carries_release_and_numbers() -> None:
    """Tip speed is 2π × 395 / 60 × 5.5, in SI units whatever the units of the page."""
    for system in "si", "aviation", "us":
        quoted = linked(TIP, ENTRIES, LINK, system)
        begun = f"{LINK}&tip_state.release={VERSION}&tip_state.quoted="
        assert quoted.startswith(begun)
        first, _, _ = quoted.removeprefix(begun).partition(";")
        name, _, value = first.rpartition("_")
        assert name == "tip_speed"
        assert float(value) == pytest.approx(2 * math.pi * 395 / 60 * 5.5, rel=1e-11)


def test_keys_have_the_prefix_of_the_link() -> None:
    """A page with one form has links without its name, and the keys are like the others."""
    assert f"&release={VERSION}&quoted=" in linked(TIP, ENTRIES, "p.html#radius=5.5_m")


@pytest.mark.parametrize("link", ["page.html", "page.html#tip_state", "#"])
def test_link_without_entries_quotes_nothing(link: str) -> None:
    """Without its entries a number stands for nothing."""
    assert linked(TIP, ENTRIES, link) == link


def test_link_of_refused_entries_quotes_nothing() -> None:
    """Where there is no result there is no number."""
    assert linked(TIP, ENTRIES | {"radius": "-1_m"}, LINK) == LINK


@pytest.mark.parametrize("kind", ["text", "markdown", "latex", "csv"])
def test_every_copy_has_the_link_that_quotes(kind: str) -> None:
    """Whatever is pasted into a report leads back to the number and its release."""
    assert f"tip_state.release={VERSION}&tip_state.quoted=tip_speed_227.5" in (
        copies(TIP, ENTRIES, LINK)[kind].replace("\\", "")
    )


def table(*rows: Line) -> str:
    """Return what stands for a table in a link, by the definition of the sums."""
    sums = (
        sum(n * (row.frequency or 0.0) for n, row in enumerate(rows, 1)),
        sum(n * row.share for n, row in enumerate(rows, 1)),
    )
    return ",".join([f"t{len(rows)}", *(f"{total:.7g}" for total in sums)])


def test_tables_are_told_apart() -> None:
    """A number, a missing number, a sign, an order or a count that is another is seen."""
    others = {
        "number": (*ROWS[:2], Line(0.50002, -3e-4)),
        "missing": (ROWS[0], Line(1.0, 2e-4), ROWS[2]),
        "small number": (*ROWS[:2], Line(0.5, -3.0001e-4)),
        "sign": (*ROWS[:2], Line(0.5, 3e-4)),
        "order": (ROWS[1], ROWS[0], ROWS[2]),
        "count": ROWS[:2],
        "zeros": (*ROWS, Line(0.0, 0.0)),
    }
    for what, rows in others.items():
        assert not is_same(TABLE, table(*ROWS), table(*rows)), what


def test_rounding_and_a_new_column_are_no_change() -> None:
    """What differs between two engines is none, nor is what rounding leaves of a zero."""
    near = [
        Line(row.frequency and row.frequency * (1 + 1e-9), row.share * (1 - 1e-9)) for row in ROWS
    ]
    assert is_same(TABLE, table(*ROWS), table(*near))
    assert is_same(TABLE, table(Line(0.0, 0.0)), table(Line(1e-16, -1e-17)))
    assert is_same(TABLE, table(*ROWS).rpartition(",")[0], table(*ROWS))
    assert not is_same(TABLE, table(*ROWS), table(*ROWS).rpartition(",")[0])


@pytest.mark.parametrize("precision", [1e-9, 1e-5])
def test_numbers_are_compared_within_their_precision(precision: float) -> None:
    """Half of it is the same number, twice of it another; no number is not zero."""
    speed = Quantity("v", "Speed", FREQUENCY, precision=precision)
    assert is_same(speed, 100.0, 100.0 * (1 + precision / 2))
    assert not is_same(speed, 100.0, 100.0 * (1 + precision * 2))
    assert is_same(speed, "none", "none")
    for old, new in ("none", 0.0), (0.0, "none"), (0.0, None):
        assert not is_same(speed, old, new)


def test_table_is_quoted_by_its_sums() -> None:
    """The multiples of blade passage: each row n is n times the first, so sums are of squares."""
    name = "harmonics.blade_passage.multiples"
    calculation = calculate(name, start(name))
    ((field, rows),) = calculation.results
    (quoted,) = numbers(calculation).values()
    assert field.name in numbers(calculation)
    count, *sums = str(quoted).removeprefix("t").split(",")
    assert int(count) == len(rows)
    squares = sum(n * n for n in range(1, len(rows) + 1))
    assert f"{squares * rows[0].frequency:.7g}" in sums
