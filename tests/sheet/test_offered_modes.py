"""Offered modes: what comes with an address is checked, and goes into the row it belongs to."""

import json
import math
import re
from typing import Any
from urllib.parse import unquote

import pytest
from playwright.sync_api import Page, expect

from calc.form.calculation import calculate, start
from calc.form.mode_offer import MOST_MODES, offer_address, offer_html
from calc.sheet.exchange import held, sheet_of
from calc.sheet.file import opened, written
from calc.sheet.offered_modes import LARGEST, offer_read, offer_taken
from calc.sheet.sheet import Value, blank
from calc.survey.ground import ground
from tests.sheet.reader import example, field, press
from tests.survey.crafts import example as craft

FULL = {"name": "full weight", "frequency": ["3.31 Hz", "0.02 Hz"]}
OFFER = {
    "record": "run 12, hub lateral",
    "method": "decay fit",
    "date": "3 March",
    "modes": [FULL],
}


def taken(said: dict[str, Any], sheet: Any = None) -> dict[str, Any]:
    """Return what putting an offer into the Plover's sheet gives, through the JSON of a page."""
    offer = offer_read(json.dumps(said))["offer"]
    return offer_taken(held(sheet or craft("plover")), offer)


def test_mode_replaces_the_row_of_its_state_and_keeps_what_it_does_not_say() -> None:
    """Modal mass and shape stay; frequency, tolerance and test are new, in the file too."""
    found = taken({**OFFER, "section": "measured_modes"})
    before = craft("plover").rows["measured_modes"][1]
    sheet = sheet_of(found["sheet"])
    row = sheet.rows["measured_modes"][1]

    assert found["rows"] == [2]
    assert row["frequency"] == Value("3.31 Hz", "measured", "0.02 Hz")
    assert row["source"] == Value("run 12, hub lateral; decay fit; 3 March")
    assert {name: row[name] for name in ("modal_mass", "shape_y", "damping_ratio")} == {
        name: before[name] for name in ("modal_mass", "shape_y", "damping_ratio")
    }
    assert [one["place"] for one in found["differences"]] == [
        "measured_modes row 2.frequency",
        "measured_modes row 2.source",
    ]
    assert opened(written(sheet).encode()).sheet == sheet


def test_mode_of_no_row_is_a_new_row_whose_rest_is_unknown() -> None:
    """A frequency far from every row of the state is another mode."""
    mode = {"name": "full weight", "frequency": "4.9 Hz"}
    found = taken({**OFFER, "section": "measured_modes", "modes": [mode]})
    rows = sheet_of(found["sheet"]).rows["measured_modes"]

    assert found["rows"] == [0]
    assert len(rows) == len(craft("plover").rows["measured_modes"]) + 1
    assert rows[-1]["modal_mass"] == Value()


def test_tolerance_of_an_airframe_mode_is_its_share_rounded_up() -> None:
    """By hand: 0.02 Hz of 7.1 Hz is 0.0028169, so 0.0029; the avoid bands then widen by it."""
    mode = {"name": "first lateral bending", "frequency": ["7.1 Hz", "0.02 Hz"]}
    found = taken({**OFFER, "section": "airframe_modes", "modes": [mode]})
    row = sheet_of(found["sheet"]).rows["airframe_modes"][2]

    assert row["frequency"] == Value("7.1 Hz", "measured")
    assert row["uncertainty"] == Value("0.0029", "measured")


def test_source_of_a_mode_reaches_no_formula() -> None:
    """The question to the form is the same with and without a word on the test."""
    plain = craft("plover")
    first = {**plain.rows["measured_modes"][0], "source": Value("run 12")}
    rows = {**plain.rows, "measured_modes": (first, *plain.rows["measured_modes"][1:])}
    told = type(plain)(plain.title, plain.note, plain.values, rows)

    assert [asked.entries for asked in ground(told)] == [asked.entries for asked in ground(plain)]


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"record": " "}, "which test or record"),
        ({"date": ""}, "its date"),
        ({"modes": [{"name": "", "frequency": ["3 Hz", ""]}]}, "needs its"),
        ({"modes": [FULL, FULL], "rows": [2, 2]}, "cannot both"),
        ({"tolerance": "2 pounds"}, "Tolerance of the frequency"),
        ({"tolerance": "2 pounds", "section": "airframe_modes"}, "Tolerance of the frequency"),
        ({"name": "x" * 70}, "Modes in each landing-gear state, row "),
    ],
)
def test_offer_that_lacks_something_changes_nothing(change: dict[str, Any], word: str) -> None:
    """What the reader has to put right is said, and there is no sheet to take."""
    offer = offer_read(json.dumps({**OFFER, "section": "measured_modes"}))["offer"]
    for name in ("record", "date", "modes", "section"):
        offer[name] = change.get(name, offer[name])
    offer["modes"] = [dict(mode) for mode in offer["modes"]]
    for mode, row in zip(offer["modes"], change.get("rows", ()), strict=False):
        mode["row"] = row
    offer["modes"][0] |= {"name": change["name"]} if "name" in change else {}
    if "tolerance" in change:
        offer["modes"][0]["frequency"] = ["3.3 Hz", change["tolerance"]]
    found = offer_taken(held(craft("plover")), offer)

    assert found["sheet"] is None
    assert found["differences"] == []
    assert any(word in problem for problem in found["problems"])
    assert "measured_modes" not in "".join(found["problems"])


@pytest.mark.parametrize(
    ("section", "says"),
    [
        ("airframe_modes", "Each mode needs its name in the column Name"),
        ("measured_modes", "Each mode needs its landing-gear state in the column Name"),
    ],
)
def test_mode_without_a_name_is_told_its_column(section: str, says: str) -> None:
    """The column where it is missing is named, by its head."""
    found = taken({**OFFER, "section": section, "modes": [{"frequency": "3 Hz"}]})

    assert found["problems"] == [says]


def test_value_without_a_tolerance_is_told_and_keeps_nothing_back() -> None:
    """A blank tolerance is no error, but a reader should know of it."""
    bare = {"name": "roll", "frequency": "3 Hz", "damping_ratio": ["0.02", "0.001"]}
    found = taken({**OFFER, "section": "airframe_modes", "modes": [FULL, bare, bare]})
    whole = taken({**OFFER, "section": "airframe_modes"})

    assert found["remark"] == "No tolerance stated: natural frequency of modes 2, 3."
    assert found["sheet"] is not None
    assert whole["remark"] == ""


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[" * 5000,
        "[]",
        '{"modes": []}',
        '{"modes": [1]}',
        '{"modes": [{"name": "a"}]}',
        '{"modes": [{"frequency": "3 m"}]}',
        '{"modes": [{"frequency": "-3 Hz"}]}',
        '{"modes": [{"frequency": "3"}]}',
        '{"modes": [{"frequency": ["3 Hz", "2 %", "1"]}]}',
        '{"modes": [{"frequency": ["3 Hz", "wide"]}]}',
        '{"modes": [{"frequency": 3}]}',
        '{"modes": [{"frequency": "3 Hz", "name": "a\\u0007"}]}',
        '{"modes": [{"frequency": "3 Hz", "mass": "3 kg"}]}',
        '{"modes": [{"frequency": "3 Hz"}], "date": {"a": 1}}',
        '{"modes": [{"frequency": "3 Hz"}], "title": "x"}',
        json.dumps({"modes": [{"frequency": "3 Hz"}] * (MOST_MODES + 1)}),
        json.dumps({"modes": [{"frequency": "3 Hz"}], "record": "x" * LARGEST}),
    ],
)
def test_damaged_offer_is_refused_in_words(text: str) -> None:
    """Nothing is raised, nothing is taken by halves."""
    found = offer_read(text)

    assert found["offer"] is None
    assert found["problem"]


def test_full_table_takes_no_more() -> None:
    """A mode more than a table can have is said, not dropped."""
    part = craft("plover").rows["measured_modes"][:1] * 39
    full = type(blank())("", "", {}, {**blank().rows, "measured_modes": part})
    modes = [{"name": f"state {number}", "frequency": "3 Hz"} for number in range(2)]
    found = taken({**OFFER, "section": "measured_modes", "modes": modes}, full)

    assert found["sheet"] is None
    assert "at most 40 rows" in found["problems"][0]


@pytest.mark.parametrize(
    "name", ["ground.shake_test.hub_data", "ground.measured_modes.measured_modes"]
)
def test_form_offers_the_modes_that_it_found(name: str) -> None:
    """The address of its answer is one that the data sheet reads, to the digits shown."""
    calculation = calculate(name, start(name))
    address = offer_address(calculation.modes, "a test")
    page, _, text = address.partition("#modes=")
    offer = offer_read(unquote(text))["offer"]

    assert page == "sheet.html"
    assert offer["section"] == "measured_modes"
    for said, mode in zip(offer["modes"], calculation.modes, strict=True):
        assert float(said["frequency"][0].split()[0]) == pytest.approx(mode.frequency, rel=1e-5)
        assert float(said["shape_y"][0]) == pytest.approx(mode.shape_y, rel=1e-5, abs=1e-12)


@pytest.mark.parametrize("name", ["half_power", "circle_of_points"])
def test_damping_forms_offer_their_mode_to_the_airframe_modes(name: str) -> None:
    """One mode with frequency and damping, which has no mass and no shape."""
    calculation = calculate(f"measurement.response.{name}", start(f"measurement.response.{name}"))
    _, _, text = offer_address(calculation.modes, "a test").partition("#modes=")
    offer = offer_read(unquote(text))["offer"]

    assert offer["section"] == "airframe_modes"
    assert set(offer["modes"][0]) == {"name", "frequency", "damping_ratio"}


def test_decay_offers_its_mode_once_the_frequency_is_known() -> None:
    """Peaks 8, 4, 2, 1 at 3 Hz: ζ = ln 2 / sqrt(4π² + ln² 2), and two standard errors of 1 %.

    The natural frequency is the hypotenuse of 2π 3 rad/s and the growth rate -3 ln 2 1/s; the
    standard error of the decrement is 0.01 sqrt(12 / (4 * 15)).
    """
    name = "measurement.decay.peaks_decay"
    peaks = {"peaks": "8;4;2;1", "peak_error": "1_pct", "noise": "0"}
    assert calculate(name, start(name) | peaks).modes == ()
    growing = calculate(name, peaks | {"peaks": "1;2;4", "frequency": "3_Hz"})
    assert growing.modes == ()
    found = calculate(name, peaks | {"frequency": "3_Hz"})
    (mode,) = offer_read(unquote(offer_address(found.modes, "a test").partition("#modes=")[2]))[
        "offer"
    ]["modes"]
    log, full = math.log(2.0), 2.0 * math.pi
    error = 2.0 * full**2 * 0.01 * math.sqrt(0.2) / math.hypot(full, log) ** 3
    assert float(mode["damping_ratio"][0]) == pytest.approx(log / math.hypot(full, log), rel=1e-5)
    assert float(mode["damping_ratio"][1]) == pytest.approx(error, rel=0.05)
    natural = float(mode["frequency"][0].removesuffix(" Hz"))
    assert natural == pytest.approx(3.0 * math.hypot(full, log) / full, rel=1e-5)
    growth = calculate(
        "measurement.decay.damping_from_growth",
        {"growth_rate": f"{-3.0 * log!r}_1/s", "frequency": "3_Hz"},
    )
    (same,) = growth.modes
    assert (same.frequency, same.damping_ratio) == (
        pytest.approx(natural, rel=1e-5),
        pytest.approx(float(mode["damping_ratio"][0]), rel=1e-5),
    )


def test_half_power_says_which_damping_ratio_goes_to_the_sheet() -> None:
    """The form shows the ratio as read first; link and provenance say that another one goes."""
    name = "measurement.response.half_power"
    calculation = calculate(name, start(name))
    told = offer_html(calculation)
    words, _, _ = told.partition("</a>")
    offer = offer_read(unquote(words.partition("#modes=")[2].partition('"')[0]))["offer"]

    assert offer["method"] == "half power, window width taken off"
    assert f"Take this mode ({offer['method']}) into the data sheet" in words
    ratio = float(offer["modes"][0]["damping_ratio"][0])
    assert ratio == pytest.approx(calculation.result.resolved_ratio, rel=1e-5)
    assert ratio < 0.99 * calculation.result.damping_ratio


def test_modes_of_a_form_are_put_into_the_sheet_and_taken_back(page: Page) -> None:
    """A reader goes from form to sheet, says which test, sees what changes, and undoes it."""
    example(page, "Plover")
    page.goto(page.url.replace("sheet.html", "ground/shake_test.html"))
    page.get_by_role("link", name="Take these 3 modes into the data sheet").click()
    offered = page.locator(".sheet-modes")
    expect(offered).to_contain_text("Say which test or record the modes are from")
    button = page.get_by_role("button", name="Put these modes into the sheet")
    expect(button).to_have_attribute("aria-disabled", "true")
    offered.locator("[name=record]").click()
    page.keyboard.type("shake test 4")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.type("3 March")
    for line in offered.locator("tbody tr").all():
        line.locator("[name=name]").click()
        page.keyboard.type("full weight")
    offered.locator("tbody tr").nth(1).locator("[name=frequency]").click()
    page.keyboard.type("1 %")
    expect(offered.locator(".modes-changes")).to_contain_text(
        "Modes in each landing-gear state, row 2"
    )
    expect(offered.locator(".modes-remark")).to_contain_text(
        "No tolerance stated: frequency of modes 1, 3"
    )
    expect(offered).not_to_contain_text("measured_modes")
    expect(offered.locator(".modes-changes")).to_contain_text("shake test 4; Hub data from a shake")
    expect(button).to_have_attribute("aria-disabled", "false")
    button.click()
    expect(offered).to_be_hidden()
    mode = field(page, "measured_modes", "frequency", 1)
    expect(mode.locator(".sheet-tolerance")).to_have_value("1 %")
    expect(field(page, "measured_modes", "source", 1).locator(".sheet-entry")).to_have_value(
        "shake test 4; Hub data from a shake test; 3 March"
    )
    expect(page).to_have_url(re.compile("^[^#]*$"))
    new = mode.locator(".sheet-entry").input_value()
    press(page, "Undo")
    expect(mode.locator(".sheet-entry")).to_have_value("3.4")
    assert new.startswith("3.40")

    page.goto(f"{page.url}#modes=%7B%22modes%22%3A%5B%5D%7D")
    expect(page.locator(".sheet-trouble")).to_contain_text("cannot be read: it must have 1 to 50")
    expect(offered).to_be_hidden()
