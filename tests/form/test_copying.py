"""Copies of a result in four formats."""

import csv
import io
from typing import Any

import pytest

from calc import VERSION
from calc.catalogue import FORMULAS, formula
from calc.declaration import Name, Table, inputs
from calc.form import calculation
from calc.form.answer import answer, figure_files
from calc.form.calculation import NOTICE, calculate, start
from calc.form.copying import copies
from calc.quantity import Quantity
from calc.working import run
from scripts.formulas import formula as typeset

TIP = "rotor.tip_speed.tip_state"
LINK = "https://example.org/rotor/tip_speed.html#tip_state.radius=5.5_m"


@pytest.mark.parametrize("kind", ["text", "markdown", "latex", "csv"])
def test_copy_says_all_it_needs(kind: str) -> None:
    """Name, inputs with units, result, source, version, notice and link are in every copy."""
    entries = start(TIP) | {"rotor_speed": "395_rpm", "radius": "5.5_m"}
    written = copies(TIP, entries, LINK)[kind].replace("\\_", "_")
    assert "395" in written
    assert "rpm" in written
    assert "227.5" in written
    assert "Leishman" in written
    assert VERSION in written
    assert NOTICE in written.replace("\\", "")
    assert LINK in written


def test_copies_are_made_of_the_answer_that_is_there(monkeypatch: pytest.MonkeyPatch) -> None:
    """One run of the formula answers, copies and writes the files of the figure."""
    runs = []

    def counted(*given: Any) -> Any:
        runs.append(given)
        return run(*given)

    monkeypatch.setattr(calculation, "run", counted)
    entries = start(TIP) | {"radius": "5.123_m"}
    answer(TIP, entries)
    answer(TIP, entries, 6)
    copies(TIP, entries, LINK)
    figure_files(TIP, entries)
    assert len(runs) == 1


def test_covered_range_is_named_where_there_is_one() -> None:
    """A verdict whose numbers have no covered range is not said to be inside it."""
    inside = "Inside the covered range"
    assert inside in copies(TIP, start(TIP), LINK)["text"]
    name = "harmonics.coincidence.coincidence"
    assert inside not in copies(name, start(name), LINK)["text"]


def test_csv_has_the_full_value() -> None:
    """The CSV holds the value to its last bit, in the first unit of its quantity."""
    entries = start(TIP) | {"rotor_speed": "30_rad/s", "radius": "0.1_m"}
    rows = list(csv.reader(io.StringIO(copies(TIP, entries, LINK)["csv"])))
    assert ["result", "tip_speed", "Tip speed", repr(30.0 * 0.1), "m/s"] in rows


def test_result_is_copied_in_its_other_units() -> None:
    """Cycles a minute and knots are in the copies, as on the page; the CSV has all their digits."""
    entries = start(TIP) | {"rotor_speed": "30_rad/s", "radius": "10_m"}
    written = copies(TIP, entries, LINK)
    for kind in ("text", "markdown", "latex"):
        assert "300.0 m/s" in written[kind]
        assert "583.2 kt" in written[kind]
    rows = list(csv.reader(io.StringIO(written["csv"])))
    knots = next(row for row in rows if row[0] == "in another unit" and row[4] == "kt")
    assert float(knots[3]) == pytest.approx(300.0 * 3600.0 / 1852.0, rel=1e-15)


@pytest.mark.parametrize("kind", ["text", "markdown"])
def test_long_table_is_cut_and_the_copy_says_so(kind: str) -> None:
    """A comment of a thousand lines helps nobody; the CSV copy has every row."""
    name = "harmonics.run_up.run_up"
    entries = start(name)
    for table in ("sources", "modes", "stages"):
        entries[table] = ";".join((entries[table].split(";") * 20)[:20])
    written = copies(name, entries, LINK)
    rows = written["csv"].count("\nrow,")
    assert rows > 100
    assert f"The first 100 of {rows} rows; the CSV copy has them all." in written[kind]


def test_problems_are_not_copied_as_a_result() -> None:
    """Without a result there is nothing to copy."""
    assert copies(TIP, start(TIP) | {"radius": "0_m"}, LINK) == {
        "error": "Rotor radius must be above 0 m, not 0 m"
    }


def test_inputs_are_copied_as_they_are_shown() -> None:
    """A number that the reader has turned into another unit is copied in that unit."""
    written = copies(TIP, start(TIP) | {"rotor_speed": "395_rpm~Hz"}, LINK)
    assert all("6.583333333" in written[kind] for kind in written)
    table = "ground.modal_support.modal_support"
    entries = start(table) | {"modes": "3.1415_Hz~cpm,0.03,9000_kg,1,0"}
    assert "188.49 cpm" in copies(table, entries, LINK)["text"]


@pytest.mark.parametrize(("kind", "sign"), [("text", "Working"), ("latex", r"\frac")])
def test_working_is_copied_where_it_is_wanted(kind: str, sign: str) -> None:
    """Results are always in the copy; the working is there for those who ask."""
    entries = start(TIP) | {"rotor_speed": "395_rpm", "radius": "5.5_m"}
    written = [copies(TIP, entries, LINK, working=asked)[kind] for asked in (False, True)]
    assert [sign in text for text in written] == [False, True]
    assert all("227.5" in text for text in written)


@pytest.mark.parametrize("name", FORMULAS)
def test_numbers_of_tables_can_be_computed_with(name: str) -> None:
    """A spreadsheet reads each number of a row, in the unit at the head of its column."""
    rows = csv.reader(io.StringIO(copies(name, start(name), LINK)["csv"]))
    copied = [row[3:] for row in rows if row[0] in {"table", "row"}]
    for f, value in calculate(name, start(name)).results:
        if isinstance(f.declaration, Table):
            columns = inputs(f.declaration.row)
            heads, cells, copied = copied[0], copied[1 : len(value) + 1], copied[len(value) + 1 :]
            for place, column in enumerate(columns):
                if not isinstance(column.declaration, Quantity):
                    continue
                unit = column.declaration.units[0]
                assert heads[place].endswith(unit.name)
                for row, written in zip(value, cells, strict=True):
                    exact = getattr(row, column.name)
                    if exact is None:
                        assert written[place] == ""
                    else:
                        own = pytest.approx(unit.reading(exact), rel=5e-4, abs=0.0, nan_ok=True)
                        assert float(written[place]) == own
    assert copied == []


@pytest.mark.parametrize("name", FORMULAS)
def test_latex_has_sentences_and_tables(name: str) -> None:
    """What is no number is typeset too: verdicts, and every table with each of its rows."""
    calculation = calculate(name, start(name))
    lines = copies(name, start(name), LINK)["latex"].splitlines()
    text = [line for line in lines if not line.startswith("%")]
    tables = "\n".join(text).split(r"\begin{tabular}")[1:]
    shown = [
        (f.declaration, calculation.values[f.name])
        for f in inputs(formula(name))
        if isinstance(f.declaration, Table)
    ]
    shown += [
        (f.declaration, v) for f, v in calculation.results if isinstance(f.declaration, Table)
    ]
    assert len(tables) == len(shown)
    for (declaration, rows), table in zip(shown, tables, strict=True):
        body = table.partition("\\hline\n")[2].partition(r"\end{tabular}")[0].splitlines()
        assert len(body) == len(rows)
        assert all(line.count(" & ") == len(inputs(declaration.row)) - 1 for line in body)
        assert all(line.endswith(r" \\") for line in body)
    for f, value in calculation.results:
        if isinstance(f.declaration, Name) and value:
            assert any(line.startswith(f.declaration.label) for line in text)


@pytest.mark.parametrize("name", FORMULAS)
def test_equations_of_the_latex_can_be_set(name: str) -> None:
    """KaTeX, which stops at whatever it does not know, sets the equations with their working."""
    written = copies(name, start(name), LINK, working=True)["latex"]
    _, begun, rest = written.partition(r"\begin{align*}")
    equations, ended, _ = rest.partition(r"\end{align*}")
    assert bool(begun) == bool(ended)
    if begun:
        typeset(rf"\begin{{aligned}}{equations}\end{{aligned}}", display=True)
