"""The drawings: sound SVG, colours of the page, lettering that can be read, symbols that exist."""

import importlib
import math
import pkgutil
import re
from collections import Counter
from xml.etree import ElementTree as ET

import pytest

import calc
from calc.ground.examples import PLOVER_ROTOR
from calc.ground.time_history import centre_of_mass
from calc.quantity import Quantity
from scripts import drawings
from scripts.drawings import DRAWINGS, lag, planetary
from scripts.drawings.sheet import Sheet
from scripts.environment import ROOT
from tests.drawings.lettering import SVG, boxes

SNIPPET = re.compile(r'page\.drawing\("(\w+)"(?:, "([\w-]+)")?\)')
COLOUR = re.compile(r"none|currentColor|var\((--[a-z0-9-]+), #[0-9a-f]{6}\)")
FORMULA = re.compile(r"\$\$?(.+?)\$\$?", re.DOTALL)
STYLES = (ROOT / "docs" / "assets" / "stylesheets" / "handbook.css").read_text("utf-8")
MADE = {name: make() for name, make in DRAWINGS.items()}
NAMED = {
    f"{name}-{number}": (name, sheet)
    for name, made in MADE.items()
    for number, sheet in enumerate(made.sheets, 1)
}
SHEETS = [pytest.param(sheet, id=identity) for identity, (_, sheet) in NAMED.items()]


def parsed(sheet: Sheet) -> ET.Element:
    """Return a sheet as a tree."""
    return ET.fromstring(sheet.svg("sheet"))  # noqa: S314 - made here


def on_pages() -> list[tuple[str, str, str]]:
    """Return page, name and id of each drawing that a page asks for."""
    return [
        (path.relative_to(ROOT).as_posix(), name, identity or f"drawing-{name}")
        for path in sorted((ROOT / "docs").rglob("*.md"))
        for name, identity in SNIPPET.findall(path.read_text("utf-8"))
    ]


def declared() -> set[str]:
    """Return the symbols of all quantities of the package."""
    modules = pkgutil.walk_packages(calc.__path__, "calc.")
    values = [
        value for module in modules for value in vars(importlib.import_module(module.name)).values()
    ]
    return {value.symbol for value in values if isinstance(value, Quantity)}


DECLARED = declared()


@pytest.mark.parametrize("sheet", SHEETS)
def test_sheet_is_sound_and_named(sheet: Sheet) -> None:
    """Well-formed SVG with the role of an image, a title and a description of some length."""
    drawn = parsed(sheet)
    title, text = drawn.find(f"{SVG}title"), drawn.find(f"{SVG}desc")

    assert drawn.get("role") == ("group" if sheet.links else "img")
    assert title is not None
    assert text is not None
    assert title.get("id") == drawn.get("aria-labelledby")
    assert text.get("id") == drawn.get("aria-describedby")
    assert len(title.text or "") > 5
    assert len(text.text or "") > 30
    assert not [element for element in drawn.iter() if element.tag == f"{SVG}image"]


@pytest.mark.parametrize("sheet", SHEETS)
def test_colours_are_those_of_the_page(sheet: Sheet) -> None:
    """Every colour is a variable of the style sheet, for light, dark and paper."""
    drawn = parsed(sheet)
    found = {
        element.get(attribute)
        for element in drawn.iter()
        for attribute in ("fill", "stroke")
        if attribute in element.attrib
    }

    assert "style" not in {attribute for element in drawn.iter() for attribute in element.attrib}
    for colour in found:
        match = COLOUR.fullmatch(colour or "")
        assert match, colour
        assert not match[1] or STYLES.count(f"  {match[1]}: #") >= 2


@pytest.mark.parametrize("sheet", SHEETS)
def test_lettering_stays_on_the_sheet(sheet: Sheet) -> None:
    """No line of text goes over the edge, with the widest face that a reader may have."""
    for box in boxes(parsed(sheet)):
        assert box.left >= 0.0, box
        assert box.right <= sheet.width, box
        assert box.top >= 0.0, box
        assert box.bottom <= sheet.height, box


@pytest.mark.parametrize("sheet", SHEETS)
def test_lettering_does_not_overlap(sheet: Sheet) -> None:
    """No line of text covers another."""
    found = list(boxes(parsed(sheet)))

    assert [
        (one.text, other.text)
        for number, one in enumerate(found)
        for other in found[:number]
        if one.overlaps(other)
    ] == []


@pytest.mark.parametrize(("name", "sheet"), NAMED.values(), ids=NAMED)
def test_symbols_are_explained(name: str, sheet: Sheet) -> None:
    """Each is declared, or stands in the caption or in a formula of every page that shows it."""
    parts = {part for symbol in sheet.symbols for part in re.split(r"[-+=() /]+|\^\d", symbol)}
    loose = {part for part in parts - DECLARED if part and not part.isdigit()}
    loose -= {part for symbol in DECLARED & set(sheet.symbols) for part in symbol.split("/")}
    pages = [(ROOT / page).read_text("utf-8") for page, asked, _ in on_pages() if asked == name]
    for text in pages:
        formulas = " ".join(FORMULA.findall(text + MADE[name].caption))
        assert [part for part in loose if not _stands(part, formulas)] == []


def _stands(symbol: str, formulas: str) -> bool:
    """Return whether a symbol, and not only its letters, is in some LaTeX."""
    return bool(re.search(rf"(?<![A-Za-z\\_]){re.escape(symbol)}(?![A-Za-z])", formulas))


@pytest.mark.parametrize("name", DRAWINGS)
def test_drawing_is_the_same_twice(name: str) -> None:
    """Two builds give the same bytes; another identity gives other ids and nothing else."""
    first, second, other = (
        DRAWINGS[name]().html(word) for word in ("a-place", "a-place", "b-place")
    )
    ids = re.findall(r' id="([^"]*)"', first)

    assert first == second
    assert len(ids) == len(set(ids)) == 1 + 2 * len(MADE[name].sheets)
    assert other == first.replace("a-place", "b-place")


def test_every_drawing_is_on_a_page_and_its_id_on_one() -> None:
    """Pages ask for drawings that exist, each under an id of its own."""
    asked = on_pages()
    ids = Counter(identity for _, _, identity in asked)

    assert {name for _, name, _ in asked} == set(DRAWINGS)
    assert [identity for identity, count in ids.items() if count > 1] == []


def test_parts_of_the_machine_lead_to_pages() -> None:
    """On a wide and on a narrow screen the same parts are links with a text, to pages that exist.

    The sheet is on the home page, so that its links count from the top of the site.
    """
    wide, narrow = MADE["machine"].sheets
    assert sorted(wide.links) == sorted(set(narrow.links))
    assert {page for page, name, _ in on_pages() if name == "machine"} == {"docs/index.md"}
    for sheet in wide, narrow:
        parts = [
            list(part) for part in parsed(sheet).iter(f"{SVG}g") if part.get("class") == "part"
        ]
        assert len(parts) == 7
        for shape, name in parts:
            assert (ROOT / "docs" / name.attrib["href"].replace(".html", ".md")).is_file()
            assert len("".join(name.itertext())) > 10
            assert shape.attrib == {
                "href": name.attrib["href"],
                "tabindex": "-1",
                "aria-hidden": "true",
            }


@pytest.mark.parametrize("bunch", [-90.0, -30.0, 30.0, 77.0])
def test_blades_bunch_where_the_centre_of_mass_is_drawn(bunch: float) -> None:
    """The equations of motion, with the drawn lag angles, put it in the same direction."""
    lags = [math.radians(angle) for angle in lag.cyclic(0.0, bunch)]
    x, y = centre_of_mass(PLOVER_ROTOR, 0.0, lags)

    assert math.degrees(math.atan2(y, x)) == pytest.approx(bunch, abs=0.5)


@pytest.mark.parametrize("number", range(planetary.PLANETS))
def test_gears_mesh(number: int) -> None:
    """Where planet and ring, and planet and sun touch, a tooth of one is in a gap of the other."""
    angle = planetary.CARRIER - 360.0 * number / planetary.PLANETS
    ring = planetary.RING * angle / 360.0
    planet = planetary.PLANET * (angle - planetary.planet_phase(angle)) / 360.0
    inner = planetary.PLANET * (angle + 180.0 - planetary.planet_phase(angle)) / 360.0
    sun = planetary.SUN * (angle - planetary.sun_phase(planetary.CARRIER)) / 360.0

    assert (ring - planet) % 1.0 == pytest.approx(0.5)
    assert (inner + sun) % 1.0 == pytest.approx(0.5)


def test_drawings_are_listed_in_order() -> None:
    """The list reads like an index."""
    assert list(drawings.DRAWINGS) == sorted(drawings.DRAWINGS)
