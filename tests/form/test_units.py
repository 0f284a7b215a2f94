"""The units of a form: a system for the whole handbook, own choices, and units of results."""

import csv
import io
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, expect

from calc.catalogue import FORMULAS, formula
from calc.declaration import outputs
from calc.form.answer import answer
from calc.form.calculation import calculate, start
from calc.form.copying import copies
from calc.form.shown_in import ShownIn, named
from calc.unit_systems import SYSTEMS
from tests.form.reader import Reader, words
from tests.form.scripts import called, shape

STATE = "rotor.tip_speed.tip_state"
STALL = "rotor.stall_onset.stall_onset_airspeed"
LINES = "harmonics.sources.source_table"
TIP = "rotor/tip_speed.html"
FEET = {"radius": "27_ft", "airspeed": "160_kt", "pressure_altitude": "8000_ft"}


class Form:
    """The state of a form, worked by the scripts as a page works it."""

    def __init__(self, name: str) -> None:
        """Begin with the example, in SI."""
        self.shape = shape(name)
        self.state: Any = called("state.started", self.shape, start(name), "si")

    def units(self, key: str) -> Any:
        """Return the units of an input."""
        return self.shape["fields"][key]["units"]

    def type(self, key: str, text: str) -> None:
        """Type into a field and leave it."""
        place = {"key": key}
        self.state = called("state.typed", self.state, place, text, self.units(key))
        self.state = called("state.left", self.state, place, self.units(key))

    def choose(self, key: str, unit: str) -> None:
        """Choose a unit for a field."""
        self.state = called("state.unitChosen", self.state, {"key": key}, unit, self.units(key))

    def turn(self, system: str) -> None:
        """Choose a system of units."""
        self.state = called("state.viewed", self.state, {"system": system})

    def load(self, entries: Any) -> None:
        """Put in what was kept."""
        self.state = called("state.loaded", self.state, self.shape, entries, "mine")

    def shown(self, key: str) -> tuple[str, str]:
        """Return what a field shows: its text and its unit."""
        value, units = self.state["values"][key], self.units(key)
        unit = called("entry.unitOf", value["own"], units, self.state["system"])
        return called("entry.shown", value, unit, units), unit

    @property
    def entries(self) -> Any:
        """Return what is linked and kept."""
        return called("state.entries", self.state, self.shape)


def test_system_turns_what_the_reader_did_not_choose() -> None:
    """What was typed follows the system and comes back as typed; a unit that was chosen stays."""
    form = Form(STATE)
    form.type("radius", "5,50")
    form.choose("rotor_speed", "rad/s")
    form.type("airspeed", "90 mph")
    form.turn("aviation")
    assert form.shown("radius") == ("18.04461942", "ft")
    assert form.shown("rotor_speed") == ("37.69911184", "rad/s")
    assert form.shown("airspeed") == ("90", "mph")
    form.type("pressure_altitude", "8000")
    form.turn("si")
    assert form.shown("radius") == ("5,50", "m")
    assert form.shown("pressure_altitude") == ("2438.4", "m")
    form.turn("us")
    assert form.shown("pressure_altitude") == ("8000", "ft")


def test_own_choice_outlives_the_system_that_shares_it() -> None:
    """Feet typed in a form in metres are feet again after a while in aviation units."""
    form = Form(STATE)
    form.type("radius", "27 ft")
    for system in ("aviation", "si"):
        form.turn(system)
        assert form.shown("radius") == ("27", "ft")
    form.choose("radius", "m")
    assert form.shown("radius") == ("8.2296", "m")
    form.turn("aviation")
    assert form.shown("radius") == ("27", "ft")


@pytest.mark.parametrize("system", ["si", "aviation", "us"])
def test_what_is_kept_says_what_follows(system: str) -> None:
    """Numbers typed in one system are shown in that of the next visit, own choices as they were."""
    form = Form(STATE)
    form.turn("aviation")
    form.type("radius", "27")
    form.choose("rotor_speed", "Hz")
    form.choose("pressure_altitude", "m")
    again = Form(STATE)
    again.turn(system)
    again.load(form.entries)
    assert again.entries == form.entries
    assert again.shown("radius") == (("8.2296", "m") if system == "si" else ("27", "ft"))
    assert again.shown("rotor_speed") == ("6", "Hz")
    assert again.shown("pressure_altitude") == ("0", "m")


def test_system_is_no_edit() -> None:
    """Choosing units keeps the example an example, and Undo takes back what was typed before."""
    form = Form(STATE)
    form.turn("us")
    assert form.state["origin"] == "example"
    assert form.entries == start(STATE)
    form.type("radius", "27")
    form.turn("aviation")
    form.state = called("state.resultUnitChosen", form.state, "tip_speed", "mph")
    form.state = called("state.undone", form.state)
    assert (form.state["system"], form.state["results"]) == ("aviation", {"tip_speed": "mph"})
    assert form.entries == start(STATE)


def test_columns_follow_too() -> None:
    """A column of a table turns with the system, cell by cell from what was typed."""
    name = "ground.modal_support.modal_support"
    form = Form(name)
    form.turn("us")
    sent = called("state.request", form.state, form.shape)["modes"]
    assert "_kg~lb" in sent.replace("%7E", "~")
    assert form.entries == start(name)


@pytest.mark.parametrize("name", FORMULAS)
def test_result_is_the_same_in_every_system(name: str) -> None:
    """No number changes: the CSV has each in the same units, whichever of them comes first."""
    copied = {}
    for system in ("si", "aviation", "us"):
        text = copies(name, start(name), "", system=system)["csv"]
        rows = csv.reader(io.StringIO(text))
        copied[system] = sorted(r[1:] for r in rows if r[0] in {"result", "in another unit"})
        calculation = calculate(name, start(name), ShownIn(system))
        assert calculation.result == calculate(name, start(name)).result
    assert copied["si"] == copied["aviation"] == copied["us"]


@pytest.mark.parametrize(
    ("system", "unit", "size"), [("aviation", "kt", 1852 / 3600), ("us", "ft/s", 0.3048)]
)
def test_result_comes_in_the_unit_of_the_system(system: str, unit: str, size: float) -> None:
    """A tip speed in knots, or in feet per second, by the definitions of the two."""
    rows = csv.reader(io.StringIO(copies(STATE, start(STATE), "", system=system)["csv"]))
    (row,) = (row for row in rows if row[:2] == ["result", "tip_speed"])
    assert row[4] == unit
    metres = calculate(STATE, start(STATE)).result.tip_speed
    assert float(row[3]) * size == pytest.approx(metres, rel=1e-15)


def test_unit_beside_a_result_goes_everywhere() -> None:
    """Chosen for one result: page, speech, copies and the axis of the figure; others stay."""
    chosen = {"tip_airspeed": "kt"}
    found = answer(STALL, start(STALL), results=chosen)
    metres = calculate(STALL, start(STALL)).result.tip_airspeed
    knots = f"{metres * 3600.0 / 1852.0:.1f}"
    assert f'<td class="number">{knots}</td>' in found["html"]
    assert f"{knots} knots" in found["spoken"]
    assert "True airspeed (kt)" in found["html"]
    written = copies(STALL, start(STALL), "", results=chosen)
    assert all(f"{knots} kt" in written[kind] for kind in ("text", "markdown", "latex"))
    rows = csv.reader(io.StringIO(written["csv"]))
    (row,) = (row for row in rows if row[:2] == ["result", "tip_airspeed"])
    assert row[4] == "kt"
    assert float(row[3]) == pytest.approx(metres * 3600.0 / 1852.0, rel=1e-15)


def test_column_of_results_has_its_unit() -> None:
    """Chosen at the head of a column: every number of it, on the page and in the copies."""
    (table,) = (key for key in shape(LINES)["results"] if key.endswith(".frequency"))
    hertz, minute = (
        [
            row
            for row in csv.reader(io.StringIO(copies(LINES, start(LINES), "", results=own)["csv"]))
            if row[0] in {"table", "row"}
        ]
        for own in ({}, {table: "cpm"})
    )
    place = next(place for place, head in enumerate(hertz[0]) if head.endswith(", Hz"))
    assert minute[0][place].endswith(", cpm")
    for one, other in zip(hertz[1:], minute[1:], strict=True):
        assert float(other[place]) == pytest.approx(60.0 * float(one[place]), rel=2e-3)


@pytest.mark.parametrize("results", [{"tip_speed": "kg"}, {"nothing": "kt"}, {"tip_speed": "<b>"}])
def test_strange_unit_of_a_result_is_not_taken(results: dict[str, str]) -> None:
    """What a link may bring leaves the answer as it was."""
    assert answer(STATE, start(STATE), 4, "metric", results) == answer(STATE, start(STATE))


def test_result_follows_the_input_of_its_name() -> None:
    """An airspeed that comes out is shown in the unit of the one that went in."""
    name = "rotor.stall_onset.stall_state"
    entries = start(name) | {"airspeed": f"{start(name)['airspeed']}~mph"}
    calculation = calculate(name, entries)
    airspeed = dict(named(outputs(formula(name))))["airspeed"]
    assert calculation.shown_in.unit("airspeed", airspeed).key == "mph"
    chosen = calculate(name, entries, ShownIn("us", {"airspeed": "kt"}))
    assert chosen.shown_in.unit("airspeed", airspeed).key == "kt"


@pytest.fixture
def reader(context: BrowserContext, served: str, troubles: list[str]) -> Iterator[Reader]:
    """Return a reader at the form of the tip speed page."""
    page = context.new_page()
    page.goto(f"{served}/{TIP}")
    yield Reader(page, STATE)
    assert troubles == []


def system(reader: Reader, key: str) -> None:
    """Choose a system of units by the keyboard."""
    reader.choose(reader.form.locator(".system-list"), list(SYSTEMS).index(key))
    expect(reader.form.locator(".system-list")).to_have_value(key)


def test_reader_chooses_units_once(reader: Reader, served: str) -> None:
    """Fields and results turn, on paper too; the example stays one; the next page follows."""
    example = reader.fields()
    system(reader, "aviation")
    reader.shows(airspeed=["97.19222462", "kt"])
    expect(reader.form.locator(".owner-list")).to_have_value("example")
    out_of_view = reader.page.locator("#tip_speed [data-result=tip_speed]")
    expect(out_of_view).to_have_value("m/s")
    reader.page.evaluate("window.print = () => {}")
    reader.press("[data-print=page]")
    expect(out_of_view).to_have_value("kt")
    for name, text in (("radius", "27"), ("airspeed", "160"), ("pressure_altitude", "8000")):
        reader.type(reader.field(name), text)
    shown = answer(STATE, start(STATE) | FEET | {"temperature_offset": "0_K~degC"}, 4, "aviation")
    assert reader.result() == words(shown["html"])
    reader.page.goto(f"{served}/rotor/atmosphere.html")
    expect(reader.page.locator(".system-list").first).to_have_value("aviation")
    reader.page.goto(f"{served}/{TIP}")
    system(reader, "si")
    reader.shows(**example)
    reader.way("Bring back my last numbers")
    reader.shows(radius=["8.2296", "m"])
    system(reader, "us")
    reader.shows(radius=["27", "ft"])


def test_unit_of_a_result_is_chosen_by_keyboard(reader: Reader, browser: Browser) -> None:
    """The list keeps the focus; the link brings the unit to somebody else, who saved nothing."""
    unit = reader.form.locator("[data-result=tip_speed]")
    unit.focus()
    reader.page.keyboard.type("k")
    shown = words(answer(STATE, start(STATE), results={"tip_speed": "kt"})["html"])
    assert reader.result() == shown
    expect(unit).to_be_focused()
    expect(unit).to_have_value("kt")
    system(reader, "aviation")
    link = reader.copied_link()
    other = browser.new_context(viewport={"width": 390, "height": 844}).new_page()
    other.goto(link)
    second = Reader(other, STATE)
    second.shows(**reader.fields())
    assert second.result() == reader.result()
    expect(second.form.locator("[data-result=tip_speed]")).to_be_visible()
    assert other.evaluate("localStorage.length") == 0
    other.context.close()


def test_per_cent_sets_no_trap(context: BrowserContext, served: str) -> None:
    """After 30 % the list is as it was, and 0.3 is the same share."""
    page = context.new_page()
    page.goto(f"{served}/rotor/stall_onset.html")
    reader = Reader(page, STALL)
    found = []
    for text in ("30 %", "0.3"):
        reader.type(reader.field("wing_lift_share"), text)
        reader.leave()
        reader.shows(wing_lift_share=[text, ""])
        found.append(reader.result())
    assert found[0] == found[1]


def test_units_without_storage(context: BrowserContext, served: str, troubles: list[str]) -> None:
    """Where nothing can be kept the choice holds for the page, and nothing fails."""
    page = context.new_page()
    page.add_init_script(
        "Object.defineProperty(self, 'localStorage', { get() { throw new Error('denied'); } });"
    )
    page.goto(f"{served}/{TIP}")
    reader = Reader(page, STATE)
    system(reader, "aviation")
    expect(reader.unit("radius")).to_have_value("ft")
    assert [text for text in troubles if "denied" not in text] == []
    troubles.clear()
