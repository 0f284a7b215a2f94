"""Copies of a result in four formats."""

import csv
import io

import pytest

from calc import VERSION
from calc.form.calculation import NOTICE, start
from calc.form.copying import copies

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
