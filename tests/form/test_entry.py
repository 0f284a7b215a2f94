"""Entries in the page: read as in Python, turned to another unit, and back as typed."""

import math
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.digits import plain
from calc.form.reading import EntryError, read
from calc.quantity import Quantity
from calc.unit_systems import SYSTEMS, unit_of
from calc.units import FAMILIES, LENGTH, SHARE, Family
from tests.form.scripts import called, unit_facts

SIGNS = "0123456789.,eE+-−– _×x·*^⁻⁺²³⁸mftkrads/%°CF"
OF_INPUTS = [family for family in FAMILIES if all(unit.key for unit in family[1:])]
NUMBERS = st.from_regex(
    r"[-+−]?[0-9]{1,3}([., ]?[0-9]{1,3}){0,3}([eE][-+]?[0-9]{1,2})?", fullmatch=True
)


def quantity(family: Family) -> Quantity:
    """Return a quantity of a family of units, without limits."""
    return Quantity("", "Number", family)


@st.composite
def entries(draw: st.DrawFn) -> tuple[Family, str]:
    """Return a family of units and what somebody may type there."""
    family = draw(st.sampled_from(FAMILIES))
    unit = draw(st.sampled_from(family))
    spelled = draw(st.sampled_from(["", unit.name, unit.key, f" {unit.name}", *unit.also]))
    typed = draw(NUMBERS | st.text(SIGNS, max_size=12))
    return family, f"{typed}{spelled}"


@settings(deadline=None, max_examples=2000, derandomize=True)
@given(entries())
def test_numbers_are_read_as_in_python(given_: tuple[Family, str]) -> None:
    """The page reads a text as the very number that Python reads, or not at all."""
    family, typed = given_
    ours = called("entry.read", typed, unit_facts(family))
    expected = None
    with suppress(EntryError):
        if "_" not in typed:
            expected = read(quantity(family), typed)
    if expected is None:
        assert ours is None
    elif math.isfinite(float(expected.text)):
        assert ours is not None
        assert float(ours["number"]) == float(expected.text)
        assert (ours["unit"] or unit_facts(family)[0])["key"] == expected.unit.key
        again = read(quantity(family), f"{ours['text']}_{expected.unit.key}")
        assert again.value == expected.value


@settings(deadline=None, max_examples=500, derandomize=True)
@given(st.sampled_from(FAMILIES), st.data())
def test_units_are_changed_as_in_python(family: Family, data: st.DataObject) -> None:
    """A number in another unit has the ten digits that Python gives it; back, it is as typed."""
    there, here = (data.draw(st.sampled_from(family)) for _ in range(2))
    typed = data.draw(st.floats(-1e12, 1e12)).__repr__()
    entry = {"text": typed, "unit": there.key, "own": here.key}
    expected = plain(here.reading(there.si(float(typed))), 10) if here != there else typed
    assert called("entry.shown", entry, here.key, unit_facts(family)) == expected
    assert called("entry.shown", entry, there.key, unit_facts(family)) == typed


@pytest.mark.parametrize("typed", ["abc", "1,234", "٣", "7 furlongs"])
def test_what_is_no_number_keeps_its_unit(typed: str) -> None:
    """What cannot be turned into another unit shows the unit it was typed with."""
    units = unit_facts(LENGTH)
    entry = {"text": typed, "unit": "m", "own": "ft"}
    assert called("entry.shown", entry, "ft", units) == f"{typed} m"


@settings(deadline=None, derandomize=True)
@given(st.text(), st.sampled_from(FAMILIES), st.data())
def test_entry_comes_back_from_its_text(typed: str, family: Family, data: st.DataObject) -> None:
    """What is linked and kept holds the text as typed, its unit, and the reader's own choice."""
    units = unit_facts(family)
    there = data.draw(st.sampled_from(family)).key
    own = data.draw(st.sampled_from([None, *(unit.key for unit in family if unit.key)]))
    entry = {"text": typed, "unit": there, "own": own}
    text = called("entry.joined", entry, own, units)
    if "_" in text:
        assert called("entry.parsed", text, units) == entry


@settings(deadline=None, derandomize=True)
@given(st.floats(-1e6, 1e6), st.sampled_from(OF_INPUTS), st.data())
def test_engine_reads_what_a_field_shows(
    number: float, family: Family, data: st.DataObject
) -> None:
    """Python reads from a request the number, the unit it was typed in, and the one it shows."""
    units = unit_facts(family)
    there = data.draw(st.sampled_from(family))
    system = data.draw(st.sampled_from(list(SYSTEMS)))
    shown = called("entry.unitOf", None, units, system)
    assert shown == unit_of(family, system).key
    text = called("entry.sent", {"text": repr(number), "unit": there.key}, shown)
    found = read(quantity(family), text)
    assert (found.value, found.shown_in.key) == (there.si(number), shown)


def test_per_cent_stays_beside_its_number() -> None:
    """The list of a share is at per cent only where it was chosen: 0.3 typed later is 0.3."""
    units = unit_facts(SHARE)
    typed = {"text": "30 %", "unit": "", "own": None}
    assert called("entry.adopted", typed, "", units, "si") == typed
    assert called("entry.inUnit", typed, "", units) == 0.3
    assert read(quantity(SHARE), called("entry.sent", typed, "")).value == 0.3
    chosen = {"text": "30 %", "unit": "pct", "own": "pct"}
    assert called("entry.adopted", chosen, "pct", units, "si") == chosen | {"text": "30"}


def test_old_entries_are_read() -> None:
    """Entries of links made before units could be changed: with a unit, without, and typed."""
    units = unit_facts(LENGTH)
    found = {text: called("entry.parsed", text, units) for text in ("5.5_ft", "5.5 ft", "5.5ft")}
    assert all(
        (entry["text"], entry["unit"], entry["own"]) == ("5.5", "ft", "ft")
        for entry in found.values()
    )
    assert called("entry.parsed", "0.35", unit_facts(SHARE))["text"] == "0.35"
    assert called("entry.parsed", "8", units)["bare"]
    assert called("entry.parsed", "5.5_ft~m", units)["own"] == "m"
