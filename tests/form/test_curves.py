"""Curves of a figure, read at the pointer and by keyboard; the formula says what they should be.

The airspeed shown is rounded to four digits, and between its points a curve is drawn straight:
together these change the Mach number by less than 3e-4.
"""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from calc.form.calculation import calculate, start
from calc.rotor.atmosphere import standard_atmosphere
from calc.rotor.quantities import AIRSPEED
from calc.rotor.tip_speed import advancing_tip_mach
from calc.units import KNOT
from tests.form.reader import Reader
from tests.waiting import at_rest, box

TIP = "rotor/tip_speed.html"
STATE = "rotor.tip_speed.tip_state"
LATER = 4e9  # s, a time that is yet to come


class Figure:
    """A reader at the figure of the tip speed form."""

    def __init__(self, page: Page) -> None:
        """Find the figure and what is said of it."""
        self.page = page
        self.form = Reader(page, STATE)
        self.reader = page.locator("#tip_state .figure-reader")
        self.values = page.locator("#tip_state-figure .figure-values, dialog .figure-values")
        self.said = page.locator("#tip_state-figure [role=status]")

    def point(self, share: float) -> None:
        """Bring the pointer to a place across the figure."""
        self.reader.scroll_into_view_if_needed()
        at = box(self.reader)
        self.page.mouse.move(at["x"] + share * at["width"], at["y"] + at["height"] / 2.0)

    def read(self, unit: str = "m/s") -> tuple[float, float]:
        """Return the airspeed and the Mach number that are shown."""
        expect(self.values).to_be_visible()
        text = self.values.inner_text()
        place = re.search(rf"^True airspeed ([\d.]+) {re.escape(unit)}$", text, re.MULTILINE)
        mach = re.search(r"^advancing tip\s+(\d\.\d{4})$", text, re.MULTILINE)
        assert place, text
        assert mach, text
        return float(place[1]), float(mach[1])


@pytest.fixture
def figure(page: Page, served: str) -> Figure:
    """Return a reader at a figure."""
    page.goto(f"{served}/{TIP}")
    return Figure(page)


@pytest.fixture
def home(served: str) -> str:
    """From a server alone: the figure is the same from disk."""
    return served


def expected(entries: dict[str, str]) -> Callable[[float], float]:
    """Return the Mach number of the advancing tip by airspeed, from the formulas."""
    done = calculate(STATE, start(STATE) | entries)
    air = standard_atmosphere(done.values["pressure_altitude"], done.values["temperature_offset"])
    return lambda airspeed: advancing_tip_mach(done.result.tip_speed, airspeed, air.speed_of_sound)


def test_curves_are_read_by_keyboard(figure: Figure) -> None:
    """Arrow keys go from point to point; the values are spoken when the movement has ended.

    The clock of the page goes a tenth of a second for each movement, however long it takes.
    """
    mach = expected({})
    figure.page.clock.install()
    figure.page.clock.pause_at(LATER)
    figure.reader.focus()
    seen = []
    figure.page.keyboard.press("Home")
    for _ in range(6):
        figure.page.keyboard.press("ArrowRight")
        figure.page.clock.run_for(100)  # ms; after half a second of rest the values are spoken
        seen.append(figure.read())
    expect(figure.said).to_be_empty()
    figure.page.clock.resume()
    assert [place for place, _ in seen] == sorted({place for place, _ in seen})
    for airspeed, shown in seen:
        assert shown == pytest.approx(mach(airspeed), abs=2e-4)
    airspeed, shown = seen[-1]
    expect(figure.said).to_contain_text(f"{airspeed:.4g}")
    expect(figure.said).to_contain_text(f"advancing tip {shown:.4f}")
    figure.page.keyboard.press("ArrowLeft")
    assert figure.read() == seen[-2]
    figure.page.keyboard.press("Escape")
    expect(figure.values).to_be_hidden()


def test_curves_are_read_at_the_pointer(figure: Figure) -> None:
    """Over the figure of own entries, in the unit chosen; nothing else on the page moves."""
    form = figure.form
    form.type(form.field("radius"), "5.2")
    form.choose(form.unit("airspeed"), AIRSPEED.units.index(KNOT))
    assert form.result()
    below = form.form.locator(".calculator-actions")
    figure.reader.scroll_into_view_if_needed()
    at_rest(figure.page)
    before = box(below)
    figure.point(0.4)
    airspeed, shown = figure.read("kt")
    assert shown == pytest.approx(expected({"radius": "5.2_m"})(KNOT.si(airspeed)), abs=3e-4)
    assert before == box(below)
    figure.page.emulate_media(media="print")
    expect(figure.values).to_be_hidden()
    expect(figure.page.locator(".figure-rule").first).to_be_hidden()
    figure.page.emulate_media(media="screen")
    figure.page.mouse.move(2, 2)
    expect(figure.values).to_be_hidden()


def test_list_of_many_curves_leaves_the_figure_in_view(page: Page, served: str) -> None:
    """The nearest curves are listed and how many are not; the keys up and down list others."""
    page.goto(f"{served}/blades/fan_plot.html")
    reader = page.locator("#fan_plot .figure-reader")
    values = page.locator("#fan_plot-figure .figure-values")
    reader.focus()
    page.keyboard.press("End")
    expect(values.locator(".figure-value")).to_have_count(6)
    expect(values).to_contain_text(re.compile(r"and \d+ farther off"))
    at_rest(page)
    whole, part = box(reader), box(values)
    assert part["width"] * part["height"] < 0.25 * whole["width"] * whole["height"]
    tops = []
    for key in ("Shift+ArrowUp", "Shift+ArrowDown", "Shift+ArrowDown"):
        page.keyboard.press(key)
        tops.append(sorted(map(float, values.locator("b").all_inner_texts())))
    assert tops[0] > tops[1] > tops[2]


def test_enlarged_figure_is_read(figure: Figure) -> None:
    """In the figure that fills the window Escape ends the reading first, then the enlargement."""
    figure.page.locator("#tip_state-figure .enlarge").click()
    dialog: Locator = figure.page.locator("dialog.enlarged")
    dialog.locator(".figure-reader").focus()
    figure.page.keyboard.press("End")
    airspeed, shown = figure.read()
    assert shown == pytest.approx(expected({})(airspeed), abs=2e-4)
    figure.page.keyboard.press("Escape")
    expect(figure.values).to_be_hidden()
    expect(dialog).to_be_visible()
    figure.page.keyboard.press("Escape")
    expect(dialog).to_be_hidden()


def test_curves_are_read_by_touch(browser: Browser, served: str) -> None:
    """A finger on the figure shows the values, which stay when it is lifted."""
    with browser.new_context(has_touch=True, viewport={"width": 390, "height": 844}) as context:
        page = context.new_page()
        page.goto(f"{served}/{TIP}")
        figure = Figure(page)
        figure.reader.scroll_into_view_if_needed()
        at_rest(page)
        at = box(figure.reader)
        page.touchscreen.tap(at["x"] + 0.5 * at["width"], at["y"] + 0.5 * at["height"])
        airspeed, shown = figure.read()
        assert shown == pytest.approx(expected({})(airspeed), abs=3e-4)
