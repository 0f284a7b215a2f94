"""While the engine starts, works or fails: what stands on the page is never taken for another's."""

import re
from itertools import product
from pathlib import Path
from typing import Literal

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from calc.form.answer import answer
from calc.form.calculation import short_name, start
from calc.quantity import Quantity
from tests.form.model import Entry, Model
from tests.form.reader import FROM_SERVER, RESULT, Reader, spaced, words
from tests.waiting import HELD, PATIENT, Gate, at_rest

TIP = "rotor/tip_speed.html"
STATE = "rotor.tip_speed.tip_state"
HUMAN = 80.0  # ms between two keys
LIVE = re.compile(r"\blive\b")
COLD = {
    STATE: (TIP, "radius", "27,5"),
    "rotor.stall_onset.stall_onset_airspeed": ("rotor/stall_onset.html", "mass", "9200"),
    "rotor.tip_speed.mach_limited_airspeed": (TIP, "tip_speed", "215"),
    "ground.damper.linear_damper": ("ground/damper.html", "arm", "0.31"),
    "harmonics.coincidence.coincidence": ("harmonics/coincidence.html", "rotor_speed", "31.5"),
    "ground.assessment.assessment": ("ground/assessment.html", "blade_mass", "112"),
}
"""Forms alone on their page, lower on it, with a slider, with tables: a field and what is typed."""


@pytest.mark.parametrize(
    ("home", "name"), [("disk", STATE), *(("server", name) for name in COLD)], indirect=["home"]
)
def test_number_typed_after_a_unit_stays(page: Page, home: str, name: str) -> None:
    """On a cold page: a unit is chosen and a number typed at once; it stays and is answered."""
    address, field, typed = COLD[name]
    page.add_init_script(PATIENT)
    page.goto(f"{home}/{address}")
    reader, model = Reader(page, name, HUMAN), Model(name)
    declaration = next(f.declaration for f in model.inputs if f.name == field)
    assert isinstance(declaration, Quantity)
    unit = declaration.units[1]
    reader.choose(reader.unit(field), 1)
    reader.type(reader.field(field), typed)
    model.put(field, Entry(typed, unit), unit)
    reader.shows(**model.seen())
    assert reader.result() == words(answer(name, model.sent())["html"])
    assert reader.fields() == model.seen()


def test_waiting_is_said(page: Page, home: str) -> None:
    """While the engine starts the old result stays, marked; the new one is spoken."""
    engine = Gate(page)
    page.goto(f"{home}/{TIP}")
    reader = Reader(page, STATE)
    example = reader.result()
    reader.type(reader.field("radius"), "5")
    expect(reader.form.locator(".calculator-progress")).to_contain_text("Starting the calculator")
    expect(reader.form.locator(".calculator-progress")).to_contain_text("entries before")
    expect(reader.form.locator(".calculator-result")).to_have_class("calculator-result stale")
    expect(reader.form.locator("table.results .number").first).to_be_visible()
    engine.open()
    assert reader.result() != example
    expect(reader.form.locator(".calculator-progress")).to_be_empty()
    spoken = answer(STATE, start(STATE) | {"radius": "5_m"})["spoken"]
    expect(reader.form.locator(".calculator-status")).to_have_text(spoken)


@FROM_SERVER
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_result_of_the_entries_before_can_be_read(
    page: Page, home: str, scheme: Literal["light", "dark"]
) -> None:
    """While nothing answers, what stands there is marked, and keeps the contrast of the rules."""
    engine = Gate(page)
    page.emulate_media(color_scheme=scheme)
    page.goto(f"{home}/{TIP}")
    reader = Reader(page, STATE)
    reader.type(reader.field("radius"), "5")
    result = reader.form.locator(".calculator-result")
    expect(result).to_have_class("calculator-result stale")
    expect(result.locator(".result-beside")).not_to_have_css("box-shadow", "none")
    expect(reader.form.locator(".calculator-progress")).to_contain_text("Starting the calculator")
    at_rest(page)  # what fades in has its contrast once it is there
    options = {"runOnly": ["color-contrast"], "resultTypes": ["violations"]}
    found = Axe().run(page, context=f"#{short_name(STATE)}", options=options).response["violations"]
    assert engine.asked()
    assert [node["html"] for violation in found for node in violation["nodes"]] == []


@FROM_SERVER
def test_tab_out_of_the_last_field_goes_on_to_the_result(page: Page, home: str) -> None:
    """The button that stops a calculation goes away; the reader at it is not sent back."""
    engine = Gate(page)
    page.goto(f"{home}/{TIP}")
    reader = Reader(page, STATE)
    reader.type(reader.field("mach_limit"), "0.85")
    page.keyboard.press("Tab")
    expect(reader.form.locator(".stop")).to_be_focused()
    engine.open()
    reader.result()
    expect(reader.form.locator(".calculator-waiting")).to_be_focused()
    page.keyboard.press("Tab")
    expect(reader.form.get_by_label("Unit of the result, tip speed")).to_be_focused()


def test_number_typed_before_the_script_runs_stays(page: Page, home: str) -> None:
    """A reader may be faster than the page."""
    scripts = Gate(page, "**/assets/javascripts/*.js")
    page.goto(f"{home}/{TIP}", wait_until="commit")
    reader = Reader(page, STATE)
    reader.type(reader.field("radius"), "5")
    expect(reader.form).not_to_have_class(LIVE)
    scripts.open()
    expect(reader.form).to_have_class(LIVE)
    reader.shows(radius=["5", "m"])
    assert reader.result() == words(answer(STATE, start(STATE) | {"radius": "5_m"})["html"])


def test_without_webassembly_the_example_stays(browser: Browser, served: str) -> None:
    """Where the engine cannot start, the printed example stays with the reason beside it."""
    context = browser.new_context()
    context.add_init_script("delete window.WebAssembly")
    page = context.new_page()
    page.goto(f"{served}/{TIP}")
    reader = Reader(page, STATE)
    example = reader.result()
    reader.form.hover()
    trouble = reader.form.locator(".calculator-trouble")
    expect(trouble).to_contain_text("WebAssembly")
    expect(trouble).to_contain_text("The result below holds")
    assert reader.result() == example
    reader.type(reader.field("radius"), "5")
    expect(trouble).to_contain_text("Your numbers have no result")
    expect(reader.form.locator(".calculator-result")).to_have_class("calculator-result stale")
    reader.press("[type=reset]")
    assert reader.result() == example
    context.close()


FILES, DAMAGES = ("calc", "linalg", "runtime"), ("cut", "replaced", "missing")
ONCE = list(zip(FILES, DAMAGES, strict=True))
OTHERS = sorted(set(product(FILES, DAMAGES)) - set(ONCE))


@pytest.mark.parametrize(
    ("file", "damage"),
    [*ONCE, *(pytest.param(*other, marks=pytest.mark.thorough) for other in OTHERS)],
)
def test_damaged_engine_is_one_plain_sentence(
    browser: Browser, site: Path, served: str, file: str, damage: str
) -> None:
    """A file cut short or replaced is named as damaged; with the whole file it works.

    The usual run tries each file and each damage once, the thorough run all other pairs.
    """
    context = browser.new_context()
    page = context.new_page()
    script = (site / "assets" / "engine" / f"{file}.js").read_text(encoding="utf-8")
    bodies = {"cut": script[: len(script) // 2], "replaced": "<!doctype html>", "missing": ""}
    status = 404 if damage == "missing" else 200
    page.route(
        f"**/engine/{file}.js",
        lambda route: route.fulfill(
            body=bodies[damage], status=status, content_type="text/javascript"
        ),
        times=1,
    )
    page.goto(f"{served}/{TIP}")
    reader = Reader(page, STATE)
    reader.type(reader.field("radius"), "5")
    trouble = reader.form.locator(".calculator-trouble")
    expect(trouble).to_contain_text(f"{file}.js")
    expect(trouble).to_contain_text("cannot load" if damage == "missing" else "damaged")
    assert len(trouble.inner_text()) < 250
    reader.way("Try again")
    assert reader.result() == words(answer(STATE, start(STATE) | {"radius": "5_m"})["html"])
    expect(trouble).to_be_hidden()
    context.close()


@FROM_SERVER
def test_calculation_is_stopped(page: Page, home: str) -> None:
    """Escape or the button stops a slow one: the old result stays, marked, and can be redone.

    The engine gets no question here, and so is not done before the reader stops it.
    """
    page.add_init_script(HELD)
    page.add_init_script(PATIENT)
    page.goto(f"{home}/ground/measured_modes.html")
    reader = Reader(page, "ground.measured_modes.measured_modes")
    stop = reader.form.locator(".stop")
    progress = reader.form.locator(".calculator-progress")
    example = reader.result()
    expect(stop).to_be_hidden()
    reader.type(reader.field("blade_mass"), "101")
    expect(stop).to_be_visible()
    expect(progress).to_contain_text("Working")
    page.keyboard.press("Escape")
    expect(progress).to_contain_text("The calculation was stopped. The result below is that of")
    expect(reader.form.locator(".calculator-status")).to_contain_text("was stopped")
    assert reader.result_at_once() == ""
    assert example == spaced(reader.form.evaluate(RESULT)[0])
    reader.way("Calculate again")
    expect(progress).to_contain_text("Working")
    reader.way("Stop (Esc)")
    expect(progress).to_contain_text("was stopped")
    page.keyboard.press("Control+z")
    assert reader.result() == example
    expect(stop).to_be_hidden()


def test_endless_calculation_is_said(browser: Browser, served: str) -> None:
    """A calculation that takes too long is stopped too; asked again with time, it is answered."""
    page = browser.new_page()
    page.add_init_script(HELD)
    page.goto(f"{served}/{TIP}")
    reader = Reader(page, STATE)
    page.evaluate("engine.limit = 0.1")
    reader.type(reader.field("radius"), "5")
    expect(reader.form.locator(".calculator-progress")).to_contain_text("took longer than")
    assert reader.result_at_once() == ""
    page.evaluate("engine.limit = 600; goOn()")
    reader.way("Calculate again")
    assert reader.result() == words(answer(STATE, start(STATE) | {"radius": "5_m"})["html"])
    page.close()


def test_every_cold_form_is_where_it_is_said_to_be(site: Path) -> None:
    """The pages above have the forms above."""
    for name, (address, _, _) in COLD.items():
        assert f'id="{short_name(name)}"' in (site / address).read_text(encoding="utf-8")
