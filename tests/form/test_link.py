"""Links: every entry comes back, and what is doubtful is said."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.catalogue import FORMULAS
from calc.form.calculation import start
from tests.form.scripts import called, shape

TIP = "rotor.tip_speed.tip_state"
BLADE = "rotor.advance_ratio.blade_airspeed"


@pytest.mark.parametrize("prefix", [True, False])
@pytest.mark.parametrize("name", FORMULAS)
def test_link_brings_the_entries(name: str, prefix: bool) -> None:  # noqa: FBT001 - a parameter
    """The example of each form comes back, with the form's name before the keys and without."""
    form = shape(name)
    fragment = called("link.fragment", start(name), f"{form['name']}." if prefix else "")
    (opened,) = called("link.opened", fragment, [form])
    assert opened["entries"] == start(name)
    assert opened["doubts"] == []


@settings(deadline=None, derandomize=True)
@given(st.lists(st.text(max_size=20), min_size=3, max_size=3))
def test_any_text_comes_back(texts: list[str]) -> None:
    """Whatever was typed is in the link as it was typed."""
    form = shape("rotor.tip_speed.tip_state")
    entries = dict(zip(form["keys"], texts, strict=False))
    (opened,) = called("link.opened", called("link.fragment", entries, ""), [form])
    assert opened["entries"] == entries


def test_each_form_takes_its_own() -> None:
    """On a page with several forms each takes the keys with its own name, and those without."""
    fragment = "#tip_state.radius=5_m&blade_airspeed.airspeed=3_kt&airspeed=9_kt"
    tip, blade = called("link.opened", fragment, [shape(TIP), shape(BLADE)])
    assert tip["entries"] == {"radius": "5_m", "airspeed": "9_kt"}
    assert blade["doubts"] == ["The link gives “airspeed” as 3_kt and as 9_kt"]


@pytest.mark.parametrize(
    ("fragment", "doubt"),
    [
        ("tip_loss=3", "Tip speed and tip Mach number has no input called “tip_loss”"),
        ("other.radius=3_m", "This page has no form called “other”"),
        ("radius=5_m&radius=6_m", "The link gives “radius” as 5_m and as 6_m"),
        ("x=" + "1" * 100_000, "The link is longer than it can be, and was not read"),
        ("&".join(["radius=1_m"] * 501), "The link is of more than 500 entries, and was not read"),
    ],
)
def test_doubt_is_said(fragment: str, doubt: str) -> None:
    """An unknown key, an unknown form, a key given twice and too much are not passed over."""
    assert doubt in called("link.opened", fragment, [shape(TIP)])[0]["doubts"]


@pytest.mark.parametrize("fragment", ["", "%", "=", "&&&", "%E0%A4=1", "\x00=\x00", "a.b.c=1"])
def test_damaged_links_are_read(fragment: str) -> None:
    """No fragment makes the page fail, or brings a key that the form does not have."""
    for opened in called("link.opened", fragment, [shape(TIP)]):
        assert set(opened["entries"]) <= set(shape(TIP)["keys"])


def test_table_in_a_link_is_bounded() -> None:
    """A table of too many rows or cells is cut, and the cut is said."""
    form = shape("ground.modal_support.modal_support")
    rows = ";".join(["3_Hz,0.03,9000_kg,1,0"] * 9 + ["3_Hz"])
    state = called("state.started", form, start("ground.modal_support.modal_support"))
    loaded = called("state.loaded", state, form, {"modes": rows}, "link")
    assert len(loaded["values"]["modes"]["rows"]) == 8
    (doubt,) = loaded["doubts"]
    assert doubt.endswith(": 10 rows are given, at most 8 are taken")
