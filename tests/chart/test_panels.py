"""Panels: figures over one axis, one below the other."""

from xml.etree import ElementTree as ET

from calc.chart import Axis, Chart, Line, Panels
from calc.quantity import Quantity
from calc.units import KNOT, SPEED

SVG = "{http://www.w3.org/2000/svg}"
AIRSPEED = Quantity("V", "Airspeed", SPEED)


def stacked() -> Panels:
    """Return two panels whose numbers need more and less room on the left, one with a label."""
    across = Axis("Time", low=0.0, high=10.0)
    return Panels(
        "Two things over time",
        "Two rising lines.",
        [
            Chart("Speed", "A line.", across, Axis.of(AIRSPEED), [Line([(0, 1), (10, 2)])]),
            Chart("Force", "A line.", across, Axis("Force"), [Line([(0, 1e5), (10, 3e5)], "far")]),
        ],
    )


def drawn() -> ET.Element:
    """Return the drawing."""
    return ET.fromstring(stacked().svg("two"))  # noqa: S314  our own text


def test_plot_areas_stand_in_line_below_one_another() -> None:
    """Both panels have their plot area between the same places across, at heights of their own."""
    panels = drawn().findall(f"{SVG}svg")
    areas = [panel.find(f".//{SVG}clipPath/{SVG}rect") for panel in panels]

    assert [panel.get("y") for panel in panels] == ["0", "190"]
    first, second = (
        (float(area.get("x", "")), float(area.get("width", "")))
        for area in areas
        if area is not None
    )
    assert first == second


def test_ids_are_unique() -> None:
    """No id is given twice, so that each panel is clipped by its own plot area."""
    found = [element.get("id") for element in drawn().iter() if element.get("id")]

    assert len(found) == len(set(found)) >= 8


def test_data_of_all_panels_stand_beside_one_another() -> None:
    """The table has the columns of every panel, and the copy as text the same."""
    head, first, *_ = stacked().table()

    assert head == ["Time", "Airspeed (m/s)", "Time", "far: Force"]
    assert first == ["0", "1", "0", "100000"]
    assert stacked().csv().startswith("Time,Airspeed (m/s),Time,far: Force")


def test_unit_of_the_form_reaches_each_panel() -> None:
    """A panel whose axis follows a quantity is read in the unit chosen for it."""
    read = stacked().read_in([(AIRSPEED, KNOT)])

    assert [axis.title for axis in read.axes] == ["Time", "Airspeed (kt)", "Time", "Force"]


def test_file_has_its_paper_once_and_no_colour_of_the_page() -> None:
    """As a file the figure lies on one sheet, and takes nothing from a style sheet."""
    text = stacked().file()

    assert text.count('width="100%" height="100%"') == 1
    assert "var(--data" not in text
