"""Links: every entry comes back, and what is doubtful is said."""

from typing import Any
from urllib.parse import quote, unquote

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from calc.catalogue import FORMULAS
from calc.form.calculation import start
from tests.form.scripts import called, shape

TIP = "rotor.tip_speed.tip_state"
BLADE = "rotor.advance_ratio.blade_airspeed"
BEAM = "blades.rotating_beam.uniform_beam"
COINCIDENCE = "harmonics.coincidence.coincidence"
CELLS = st.text(st.characters(exclude_categories=["Cs"]), max_size=8)


def fragment_of(form: dict[str, Any], entries: dict[str, str], prefix: str = "") -> str:
    """Return the link of entries."""
    found: str = called("link.fragment", entries, prefix, form["fields"])
    return found


@pytest.mark.parametrize("prefix", [True, False])
@pytest.mark.parametrize("name", FORMULAS)
def test_link_brings_the_entries(name: str, prefix: bool) -> None:  # noqa: FBT001 - a parameter
    """The example of each form comes back, with the form's name before the keys and without."""
    form = shape(name)
    fragment = fragment_of(form, start(name), f"{form['name']}." if prefix else "")
    (opened,) = called("link.opened", fragment, [form])
    assert opened["entries"] == start(name)
    assert opened["doubts"] == []
    assert "%25" not in fragment


@settings(deadline=None, derandomize=True)
@given(st.lists(st.text(max_size=20), min_size=3, max_size=3))
def test_any_text_comes_back(texts: list[str]) -> None:
    """Whatever was typed is in the link as it was typed."""
    form = shape("rotor.tip_speed.tip_state")
    entries = dict(zip(form["keys"], texts, strict=False))
    (opened,) = called("link.opened", fragment_of(form, entries), [form])
    assert opened["entries"] == entries


@settings(deadline=None, derandomize=True)
@given(st.lists(st.lists(CELLS, min_size=2, max_size=2), min_size=1, max_size=3))
@example([["50%", "%2F"]])
@example([["50%25", "a"]])
@example([["", "%"], ["a,b;c", "é + %41"]])
def test_any_cell_comes_back(rows: list[list[str]]) -> None:
    """A table is as it was typed, from a link of today and from one that encodes it twice."""
    form = shape(COINCIDENCE)
    written = ";".join(",".join(quote(cell, safe="") for cell in row) for row in rows)
    links = [
        fragment_of(form, {"sources": written}),
        f"sources={quote(written, safe=',;')}",
        f"rotor_speed=31_rad%2Fs&amp;sources={quote(written, safe=',;')}&amp;amp;n=1",
    ]
    for link in links:
        (opened,) = called("link.opened", link, [form])
        read = opened["entries"]["sources"].split(";")
        assert [[unquote(cell) for cell in row.split(",")] for row in read] == rows, link


def test_link_that_was_encoded_as_a_whole_is_read() -> None:
    """Some programs encode "=" and "&" too; an anchor without entries stays as it is."""
    for name, entries in (
        (TIP, {"radius": "5,25_m"}),
        (COINCIDENCE, {"sources": "50%25,1_%2Frev"}),
    ):
        form = shape(name)
        fragment = fragment_of(form, entries, f"{form['name']}.")
        received = called("link.received", f"#{quote(fragment, safe='')}")
        assert received == fragment
        assert called("link.received", f"#{fragment}") == fragment
    assert called("link.received", "#eq-tip%20speed") == "eq-tip%20speed"


@pytest.mark.parametrize(
    ("name", "link", "key", "read"),
    [
        (TIP, "radius=5.5_m).", "radius", "5.5_m"),
        (TIP, "radius=5_ft&rotor_speed=395_rpm,", "rotor_speed", "395_rpm"),
        (TIP, "radius=1.5.", "radius", "1.5"),
        (TIP, "radius=1.", "radius", "1."),
        (TIP, "radius=5_parsec.", "radius", "5_parsec."),
        (TIP, "radius=5.5_m).&rotor_speed=395_rpm", "radius", "5.5_m)."),
        (BEAM, "plane=lag.", "plane", "lag"),
        (COINCIDENCE, "sources=pump,none,0,50_Hz).", "sources", "pump,none,0,50_Hz"),
        (COINCIDENCE, "sources=pump,none,0,50_Hz,", "sources", "pump,none,0,50_Hz,"),
    ],
)
def test_end_of_a_sentence_is_no_part_of_a_link(name: str, link: str, key: str, read: str) -> None:
    """Only at the end of a link, only where it is valid without, and never another number."""
    (opened,) = called("link.opened", link, [shape(name)])
    assert opened["entries"][key] == read


def test_point_that_a_reader_typed_comes_back() -> None:
    """The end of a link of ours is never taken for the end of a sentence."""
    entries = {"radius": "5", "rotor_speed": "395 rpm)."}
    (opened,) = called("link.opened", fragment_of(shape(TIP), entries), [shape(TIP)])
    assert opened["entries"] == entries


def test_cells_are_encoded_once() -> None:
    """A link can be read by eye, and keeps its meaning when a mail program encodes all of it."""
    form = shape(COINCIDENCE)
    text = "tail%20boom,second,3_%2Frev,0_Hz"
    assert fragment_of(form, {"sources": text}) == "sources=tail%20boom,second,3_/rev,0_Hz"
    (opened,) = called("link.opened", "sources=tail%20boom%2Csecond%2C3_%2Frev%2C0_Hz", [form])
    assert opened["entries"]["sources"] == "tail boom,second,3_/rev,0_Hz"


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


UNITS = "units=aviation;tip_speed_mph"


def test_units_of_a_form_are_in_its_link() -> None:
    """The system and the units of results come back; an old link has none, and says nothing."""
    text = called("link.unitsText", "aviation", {"tip_speed": "mph"})
    assert f"units={text}" == UNITS
    (opened,) = called("link.opened", f"radius=5_m&{UNITS}", [shape(TIP)])
    assert (opened["system"], opened["results"]) == ("aviation", {"tip_speed": "mph"})
    assert opened["entries"] == {"radius": "5_m"}
    assert opened["doubts"] == opened["strange"] == []
    (old,) = called("link.opened", "radius=5_m", [shape(TIP)])
    assert (old["system"], old["results"], old["strange"]) == (None, {}, [])
    (closed,) = called("link.opened", f"{UNITS}).", [shape(TIP)])
    assert (closed["results"], closed["strange"]) == ({"tip_speed": "mph"}, [])


@pytest.mark.parametrize(
    "text", ["metric", "tip_speed_kg", "tip_loss_mph", "_", "__proto___m", "<b>_m", "constructor_m"]
)
def test_strange_units_in_a_link_are_left_out(text: str) -> None:
    """A system, a result or a unit that the form does not have is named, and nothing else."""
    (opened,) = called("link.opened", f"units={text};tip_speed_mph", [shape(TIP)])
    assert (opened["system"], opened["results"]) == (None, {"tip_speed": "mph"})
    assert opened["strange"] == [text]


@pytest.mark.parametrize("name", FORMULAS)
def test_no_input_is_called_as_what_a_link_says_of_itself(name: str) -> None:
    """The keys of units, release and quoted numbers in a link are nobody else's."""
    assert not {"units", "release", "quoted"} & set(shape(name)["keys"])


def test_what_a_link_quotes_is_no_entry() -> None:
    """Release and numbers are handed on as they stand; an old link has none of them."""
    about = {"release": "0.2.0", "quoted": "tip_speed_227.5"}
    for prefix in "", "tip_state.":
        text = "&".join(f"{prefix}{key}={value}" for key, value in about.items())
        (opened,) = called("link.opened", f"{prefix}radius=5_m&{text}", [shape(TIP)])
        assert opened["entries"] == {"radius": "5_m"}
        assert opened["doubts"] == []
        assert opened["quoted"] == about
    (old,) = called("link.opened", "radius=5_m", [shape(TIP)])
    assert "quoted" not in old


def test_quotation_belongs_to_the_entries_of_its_link() -> None:
    """It goes with the first edit, comes back with Undo, and stays where only units are chosen."""
    form, about = shape(TIP), {"release": "0.2.0", "quoted": "tip_speed_227.5"}
    state = called("state.started", form, start(TIP), "si")
    loaded = called("state.loaded", state, form, start(TIP), "link", {"quoted": about})
    assert loaded["quoted"] == about
    assert called("state.viewed", loaded, {"digits": 6})["quoted"] == about
    place = {"key": "radius"}
    typed = called("state.typed", loaded, place, "5", form["fields"]["radius"]["units"])
    assert typed["quoted"] is None
    assert called("state.undone", typed)["quoted"] == about
    assert called("state.loaded", loaded, form, start(TIP), "example").get("quoted") is None


def test_table_in_a_link_is_bounded() -> None:
    """A table of too many rows or cells is cut, and the cut is said."""
    form = shape("ground.modal_support.modal_support")
    rows = ";".join(["3_Hz,0.03,9000_kg,1,0"] * 9 + ["3_Hz"])
    state = called("state.started", form, start("ground.modal_support.modal_support"), "si")
    loaded = called("state.loaded", state, form, {"modes": rows}, "link")
    assert len(loaded["values"]["modes"]["rows"]) == 8
    (doubt,) = loaded["doubts"]
    assert doubt.endswith(": 10 rows are given, at most 8 are taken")
