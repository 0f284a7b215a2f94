"""Copies of a result in four formats."""

import csv
import io

import pytest

from calc import VERSION
from calc.form.calculation import start
from calc.form.copying import NOTICE, copies

TIP = "rotor.tip_speed.tip_state"
LINK = "https://example.org/rotor/tip_speed.html"


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
    assert f"{LINK}#tip_state.radius=5.5_m&tip_state.rotor_speed=395_rpm" in written


def test_csv_has_the_full_value() -> None:
    """The CSV holds the value to its last bit, in the first unit of its quantity."""
    entries = start(TIP) | {"rotor_speed": "30_rad/s", "radius": "0.1_m"}
    rows = list(csv.reader(io.StringIO(copies(TIP, entries, LINK)["csv"])))
    assert ["result", "tip_speed", "Tip speed", repr(30.0 * 0.1), "m/s"] in rows


def test_problems_are_not_copied_as_a_result() -> None:
    """Without a result there is nothing to copy."""
    assert copies(TIP, start(TIP) | {"radius": "0_m"}, LINK) == {
        "error": "Rotor radius must be above 0 m, not 0 m"
    }


def test_link_of_the_page_loses_its_old_fragment() -> None:
    """The address of a page that was itself opened by a link is cut at its fragment."""
    assert copies(TIP, start(TIP), f"{LINK}#radius=1_m")["link"].count("#") == 1
