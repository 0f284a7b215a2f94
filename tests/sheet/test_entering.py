"""Entering a rotorcraft from paper: by the keyboard alone, in the units of the paper."""

from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page, expect

from calc.sheet.file import opened
from calc.sheet.sheet import Value
from tests.sheet.reader import EXAMPLES, enter, example, field, press, saved
from tests.waiting import Gate, at_rest, becomes, box


def has(page: Page, section: str, *expected: str) -> None:
    """Fail unless the first fields of a section hold these texts in the end."""
    fields = page.locator(f"[data-section={section}] .sheet-entry")
    script = "(fields, count) => fields.slice(0, count).map((field) => field.value)"
    becomes(lambda: fields.evaluate_all(script, len(expected)), list(expected))


def test_enter_leads_from_value_to_value(page: Page) -> None:
    """From the title on no other key is needed: sections open, rows are added."""
    keys = page.keyboard
    page.locator("[name=title]").focus()
    for text in ("Wren", "3000", "4.8", "", "4", "6 Hz", "-8", "", "1.3", "370", "390"):
        keys.type(text)
        keys.press("Enter")
    has(page, "rotorcraft", "3000", "4.8", "", "4", "6", "-8", "", "1.3")
    has(page, "rotor_speeds", "370", "390")
    expect(page.locator("[data-field=power_off_low] .sheet-entry").first).to_be_focused()

    page.locator("[data-section=drive_train] > summary").focus()
    keys.press("Enter")
    keys.press("Tab")  # to the button that adds a row
    for text in ("", "Engine", "", "", "6000", "1"):
        keys.type(text)
        keys.press("Enter")
    has(page, "drive_train", "Engine", "", "", "6000", "1")

    page.locator("[data-section=altitudes] > summary").focus()
    keys.press("Enter")
    keys.press("Tab")
    for text in ("", "1000", "10", "", "2000 ft"):  # Enter after a row leads to another
        keys.type(text)
        keys.press("Enter")
    has(page, "altitudes", "1000", "10", "2000", "")
    expect(page.locator("[data-section=altitudes] .sheet-entry")).to_have_count(4)


def test_clicks_on_what_stands_below_a_field_are_not_missed(page: Page) -> None:
    """What is told of a field with the focus moves nothing when the field is left.

    The engine does not start here: it would tell what the answers still need.
    """
    Gate(page)
    field(page, "rotorcraft", "mass").locator(".sheet-entry").click()
    below = page.locator("[data-section=rotor_speeds]")
    expect(page.locator("[data-field=mass] .hint")).to_be_visible()
    where = "(section) => section.getBoundingClientRect().top + scrollY"
    at_rest(page)
    before = below.evaluate(where)
    page.locator("[data-section=rotorcraft] [data-field=drag_area] .sheet-entry").click()
    at_rest(page)
    assert below.evaluate(where) == before
    below.locator("> summary").click()
    expect(below).to_have_attribute("open", "")


def test_what_answers_still_need_is_told_and_led_to(page: Page) -> None:
    """The count falls as values come in, and each thing that is missing leads to its field."""
    example(page, "Dunlin")
    needs = page.locator(".sheet-needs")
    expect(needs.locator("p")).to_contain_text("answers can be given from the sheet as it stands")
    needs.locator("summary").click()
    line = needs.locator("li", has_text="Airspeed limits against altitude")
    expect(line).to_contain_text("needs 1 more")
    before = needs.locator("p").inner_text()
    line.get_by_role("button", name="rotorcraft.drag_area").click()
    area = page.locator("[data-section=rotorcraft] [data-field=drag_area]")
    expect(area.locator(".sheet-entry")).to_be_focused()
    expect(area.locator(".sheet-use")).to_contain_text("Needed for: Airspeed limits")
    expect(page.locator("[data-section=rotorcraft] > summary")).to_contain_text("1 needed")
    page.keyboard.type("1 m2")
    expect(line).to_have_count(0)
    expect(needs.locator("p")).not_to_have_text(before)


def test_contradiction_marks_its_field_and_is_counted(page: Page) -> None:
    """A lowest speed above the highest is marked; then a tolerance that cannot be read is."""
    example(page, "Plover")
    head = page.locator("[data-section=rotor_speeds] > summary")
    low = field(page, "rotor_speeds", "power_on_low")
    enter(low, "395")
    expect(low.locator(".field-problem")).to_contain_text("367 rpm (rotor_speeds.power_on_high)")
    expect(low.locator(".sheet-entry")).to_have_attribute("aria-invalid", "true")
    expect(head).to_contain_text("given, 1 wrong")

    enter(low, "355", tolerance="2 pounds")
    expect(low.locator(".field-problem")).to_contain_text("Tolerance of the lowest speed")
    expect(low.locator(".sheet-tolerance")).to_have_attribute("aria-invalid", "true")
    expect(low.locator(".sheet-entry")).not_to_have_attribute("aria-invalid", "true")
    low.locator(".sheet-tolerance").fill("")
    expect(head).not_to_contain_text("wrong")


def test_origin_is_said_of_a_whole_section_at_once(page: Page, tmp_path: Path) -> None:
    """Values that say where they came from keep it, and what is unknown stays so."""
    enter(field(page, "rotorcraft", "mass"), "3000 kg", "measured")
    enter(field(page, "rotorcraft", "radius"), "5 m")
    page.locator("[data-section=rotorcraft] .sheet-origins").select_option("manual")
    sheet = opened(saved(page, "Save as a file", tmp_path / "one.toml")).sheet

    assert sheet is not None
    assert sheet.value("rotorcraft.mass") == Value("3000 kg", "measured")
    assert sheet.value("rotorcraft.radius") == Value("5 m", "manual")
    assert sheet.value("rotorcraft.chord") == Value()


def test_sheet_is_shown_in_the_units_of_the_handbook(page: Page, tmp_path: Path) -> None:
    """Feet and pounds are shown once they are chosen, on any page; a file keeps what was typed.

    By hand: 4.8 m / 0.3048 is 15.748031496 ft, and 4000 lb at 0.45359237 kg are 1814.36948 kg.
    """
    page.locator("[data-section=rotorcraft] > summary").click()
    radius, mass = field(page, "rotorcraft", "radius"), field(page, "rotorcraft", "mass")
    enter(radius, "4.8 m")
    page.locator(".system-list").select_option("aviation")
    expect(radius.locator(".sheet-entry")).to_have_value("15.7480315")
    expect(radius.locator(".unit-list")).to_have_value("ft")
    enter(mass, "4000")
    speed = field(page, "flight", "airspeed")
    enter(speed, "100")
    page.goto(page.url.replace("sheet.html", "rotor/tip_speed.html"))
    lists = page.locator(".system-list").first
    expect(lists).to_have_value("aviation")
    lists.select_option("si")
    page.go_back()
    expect(mass.locator(".sheet-entry")).to_have_value("1814.36948")
    expect(radius.locator(".sheet-entry")).to_have_value("4.8")
    sheet = opened(saved(page, "Save as a file", tmp_path / "one.toml")).sheet

    assert sheet is not None
    assert sheet.value("rotorcraft.mass") == Value("4000 lb")
    assert sheet.value("rotorcraft.radius") == Value("4.8 m")
    assert sheet.value("flight.airspeed") == Value("100 kt")


def test_file_is_dropped_on_the_page(context: BrowserContext, page: Page) -> None:
    """A file is taken that is dragged over the sheet and dropped, as the browser does it."""
    head = box(page.locator(".sheet-head"))
    files = [str(EXAMPLES / "curlew.toml")]
    data = {"items": [], "files": files, "dragOperationsMask": 1}
    hand = context.new_cdp_session(page)
    for kind in ("dragEnter", "dragOver", "drop"):
        place = {"type": kind, "x": head["x"] + 20, "y": head["y"] + 20}
        hand.send("Input.dispatchDragEvent", {**place, "data": data})
    expect(page.locator("[name=title]")).to_have_value("Curlew")
    press(page, "Undo")
    expect(page.locator("[name=title]")).to_have_value("")


def open_all(page: Page) -> None:
    """Open every section, with a row in each table."""
    for section in page.locator(".sheet-section").all():
        section.locator("> summary").click()
        if section.get_attribute("data-most"):
            section.locator("> [data-do=add]").click()


def test_open_sheet_has_names_and_fits_the_screen(page: Page) -> None:
    """With all open every field and button has a name, and a telephone need not scroll sideways."""
    open_all(page)
    for width in (1366, 390):
        page.set_viewport_size({"width": width, "height": 844})
        becomes(lambda: page.evaluate("innerWidth"), width)
        at_rest(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    options = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa"]}
    found = Axe().run(page, context="#data-sheet", options=options).response["violations"]
    assert [(one["id"], node["target"]) for one in found for node in one["nodes"]] == []
