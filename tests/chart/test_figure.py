"""Figures as SVG, and their data."""

import csv
import io
import json
import math
import re
from dataclasses import replace
from itertools import pairwise
from typing import Any
from xml.etree import ElementTree as ET

import pytest

from calc.chart import (
    Axis,
    Band,
    Bars,
    Chart,
    Label,
    Line,
    Mark,
    Points,
    Region,
    Rule,
    Stems,
)
from calc.chart.frame import WIDTH, plot_area
from calc.chart.lettering import width
from calc.quantity import Quantity
from calc.units import (
    HERTZ,
    KNOT,
    METRE,
    METRE_PER_SECOND,
    RADIAN_PER_SECOND,
    ROTATION,
    RPM,
    SPEED,
)

SVG = "{http://www.w3.org/2000/svg}"
SPEEDS = [float(speed) for speed in range(51)]


def fan() -> Chart:
    """Return a figure with a mark of nearly every kind."""
    marks: tuple[Mark, ...] = (
        *(Line([(0.0, 0.0), (50.0, 8.0 * n)], f"{n}/rev", 0) for n in range(1, 9)),
        *(
            Line([(x, math.hypot(first, x * rise / 6.3)) for x in SPEEDS], name, style)
            for style, (first, rise, name) in enumerate(
                [(1.5, 1.1, "1st flap"), (6.0, 2.6, "2nd flap"), (14.0, 1.0, "1st torsion")], 1
            )
        ),
        Band(38.0, 43.0, "x", "operating range"),
        Band(2.0, 3.0, "y", "body modes", hatched=True),
        Region([(5.0, 20.0), (10.0, 20.0), (10.0, 25.0)], "region", hatched=True),
        Rule(41.4, "x", "normal"),
        Rule(28.0, "y", "limit"),
        Points([(41.4, 7.5), (41.4, 18.1)], "whirl test", 4, "diamond"),
        Label(20.0, 29.0, "R&D <only>"),
    )
    x = Axis("Rotor speed", RPM, 0.0, 50.0)
    y = Axis("Frequency", HERTZ, 0.0, 30.0)
    return Chart("Fan plot", "Frequencies", x, y, marks)


def simple(*marks: Mark) -> Chart:
    """Return a figure of some marks on plain axes."""
    return Chart("Title", "", Axis("x", low=0.0, high=10.0), Axis("y", low=0.0, high=1.0), marks)


def tree(chart: Chart, identity: str = "figure") -> ET.Element:
    """Return a figure as a tree."""
    return ET.fromstring(chart.svg(identity))  # noqa: S314  our own text


def test_figure_is_well_formed_and_named_for_those_who_do_not_see_it() -> None:
    """An image with a title and a description that its attributes point to."""
    svg = tree(fan(), "fan")
    named = {element.get("id"): element.text for element in svg.iter() if element.get("id")}

    assert svg.get("role") == "img"
    assert named[svg.get("aria-labelledby")] == "Fan plot"
    assert named[svg.get("aria-describedby")] == "Frequencies"


def test_ids_are_unique_between_figures_and_each_reference_is_met() -> None:
    """Two figures on one page share no id, and none points to what is not there."""
    texts = [fan().svg("one"), fan().svg("two")]
    ids = [re.findall(r'\bid="([^"]*)"', text) for text in texts]
    references = [re.findall(r"url\(#([^)]*)\)", text) for text in texts]

    assert len({*ids[0], *ids[1]}) == len(ids[0]) + len(ids[1])
    assert set(references[0]) <= set(ids[0])
    assert all(name.startswith("two-") for name in ids[1])


def test_same_figure_is_the_same_text() -> None:
    """A build is repeated to the byte."""
    assert fan().svg("fan") == fan().svg("fan")


def test_labels_are_text_never_markup() -> None:
    """A name that a reader typed cannot add an element or an attribute."""
    hostile = '"><script>alert(1)</script>'
    chart = simple(Line([(0.0, 0.0), (10.0, 1.0)], hostile), Rule(0.5, "y", hostile))
    svg = tree(Chart(hostile, hostile, Axis(hostile), Axis(hostile), chart.marks), hostile)

    assert not list(svg.iter(f"{SVG}script"))
    assert svg.findtext(f"{SVG}title") == hostile


def test_no_style_sheet_and_no_style_attribute() -> None:
    """A strict security policy allows neither; colours are presentation attributes."""
    text = fan().svg("fan")

    assert "style" not in text
    assert 'stroke="var(--data-1, #273505)"' in text


def test_colours_follow_the_page_and_a_file_has_its_own() -> None:
    """On a page colours come from its style sheet; a file of its own holds them, and paper."""
    file = fan().file()

    assert "var(" not in file
    assert "currentColor" not in file
    assert 'stroke="#273505"' in file
    assert '<rect width="100%" height="100%" fill="#fbfaf7"/>' in file
    ET.fromstring(file)  # noqa: S314  our own text


def paths(chart: Chart) -> list[str]:
    """Return the paths inside the plot area."""
    [group] = [g for g in tree(chart).iter(f"{SVG}g") if g.get("clip-path")]
    return [path.get("d", "") for path in group.iter(f"{SVG}path")]


def test_line_breaks_where_a_value_is_not_finite() -> None:
    """A resonance without damping leaves a gap, not a stroke across it."""
    heights = [0.1, 0.2, math.inf, 0.2, math.nan, 0.1, 0.3]
    [path] = paths(simple(Line(list(enumerate(heights)))))

    assert path.count("M") == 3
    assert path.count("L") == 2
    assert "nan" not in path
    assert "inf" not in path


@pytest.mark.parametrize("log", [False, True])
def test_values_can_be_read_back_from_the_drawing(*, log: bool) -> None:
    """The axes say what a place on the drawing means, to four digits down to a tenth of the top."""
    points = [(float(n), 1.0 + 9.0 * (n / 7.0) ** 2) for n in range(8)]
    x, y = Axis("Speed", RPM), Axis("Height", METRE, 1.0, 10.0, log=log)
    svg = tree(Chart("Read", "Read back.", x, y, [Line(points, "one"), Points(points[3:4], "two")]))
    across, up = json.loads(svg.get("data-axes", ""))
    assert (across[4:], up[4:]) == (["Speed", "rpm", False], ["Height", "m", log])

    def value(axis: list[Any], place: str) -> float:
        first, last, low, high = axis[:4]
        share = (float(place) - first) / (last - first)
        return float(low * (high / low) ** share if axis[6] else low + (high - low) * share)

    [curve] = [p for p in svg.iter(f"{SVG}path") if p.get("data-curve") == "one"]
    [dot] = [p for p in svg.iter(f"{SVG}path") if p.get("data-dots") == "two"]
    places = re.findall(r"[ML]([\d.]+) ([\d.]+)", curve.get("d", ""))
    assert [value(across, a) for a, _ in places] == pytest.approx(
        [RPM.reading(a) for a, _ in points], abs=5e-4
    )
    assert [value(up, b) for _, b in places] == pytest.approx([b for _, b in points], rel=5e-5)
    assert dot.get("d", "").startswith(f"M{places[3][0]} {places[3][1]}m")


def test_last_number_of_an_axis_stays_in_the_figure() -> None:
    """At the end of a scale to a million half of the number stands beyond the axis."""
    axis = Axis("Frequency", HERTZ, 1.0, 1e6, log=True)
    chart = Chart("c", "d", axis, Axis("Level", low=0.0, high=1.0), (Points([(10.0, 0.5)]),))
    numbers = [row for row in tree(chart).iter(f"{SVG}tspan") if row.text == "1000000"]
    assert numbers
    for number in numbers:
        assert float(number.attrib["x"]) + width("1000000") / 2.0 <= WIDTH


def test_axes_are_written_alike_by_every_engine() -> None:
    """Places have three decimals and ends nine digits, beyond which engines round otherwise."""
    y = Axis("Height", METRE, 0.0, 1.0)
    line = Line([(0.0, 0.0), (0.2, 1.0)], "a long label at its end")
    svg = tree(Chart("Alike", "Alike.", Axis("Speed", RPM, 0.0, 1.0 / 3.0), y, [line]))
    across, up = json.loads(svg.get("data-axes", ""))

    assert across[2:4] == [0.0, 3.18309886]
    for place in (*across[:2], *up[:2]):
        assert place == round(place, 3)


def test_coordinates_stay_small_and_have_three_decimals() -> None:
    """A value far outside the figure does not upset a renderer."""
    [path] = paths(simple(Line([(0.0, 0.0), (5.0, 1e300), (10.0, 0.0)])))
    numbers = re.findall(r"-?[\d.]+", path)

    assert all(re.fullmatch(r"-?\d+\.\d{3}", number) for number in numbers)
    assert max(abs(float(number)) for number in numbers) <= 10000.0


@pytest.mark.parametrize(
    ("points", "place", "side"),
    [
        ([(0.0, 0.0), (10.0, 0.5)], (1.0, 0.5), "right"),
        ([(0.0, 0.0), (5.0, 2.0)], (0.25, 1.0), "top"),
        ([(0.0, 0.0), (5.0, 0.5)], (0.5, 0.5), "inside"),
        ([(-5.0, 0.25), (15.0, 0.75)], (1.0, 0.625), "right"),
        ([(0.0, 0.5), (5.0, 0.5), (6.0, math.nan)], (0.5, 0.5), "inside"),
    ],
)
def test_label_stands_where_the_visible_line_ends(
    points: list[tuple[float, float]], place: tuple[float, float], side: str
) -> None:
    """At the right edge, at the top, or where the line stops: found by plane geometry."""
    chart = simple()
    _, [end] = plot_area("p", chart.x, chart.y, [(Line(points, "name"), 0)], keyed=False)

    assert (end.x, end.y) == pytest.approx(place)
    assert end.side == side


def test_line_out_of_sight_has_no_label() -> None:
    """What is not drawn is not named."""
    assert "name" not in simple(Line([(0.0, 2.0), (10.0, 3.0)], "name")).svg("p")


def boxes(chart: Chart) -> list[tuple[str, float, float]]:
    """Return each line of text with its place."""
    return [
        (span.text or "", float(span.get("x", "")), float(span.get("y", "")))
        for span in tree(chart).iter(f"{SVG}tspan")
    ]


def test_labels_at_the_right_are_at_least_a_line_apart() -> None:
    """Six lines that end in one place have six labels that can be read."""
    chart = simple(*(Line([(0.0, 0.0), (10.0, 0.5)], f"line {n}", n) for n in range(1, 7)))
    rows = sorted(y for text, _, y in boxes(chart) if text.startswith("line"))

    assert all(b - a >= 16.9 for a, b in pairwise(rows))


def test_every_mark_is_labelled() -> None:
    """Each label of the figure can be found in it, long ones on several lines."""
    shown = " ".join(text for text, _, _ in boxes(fan()))

    for label in ("3/rev", "1st torsion", "operating range", "limit", "whirl test", "R&D <only>"):
        assert label in shown


def test_spectrum_stands_on_zero_and_has_keys() -> None:
    """Stems and bars begin at zero although the axis was left to the data."""
    lines = [(5.0, 0.8), (10.0, 0.9)]
    marks = (Stems(lines, "seat", 3), Bars(lines, 0.8, "floor", 2))
    chart = Chart("Spectrum", "", Axis("Frequency", HERTZ, 0.0, 20.0), Axis("Level"), marks)

    assert "0.0" in [text for text, _, _ in boxes(chart)]
    assert {"seat", "floor"} <= {text for text, _, _ in boxes(chart)}


def test_columns_of_equal_x_are_shared() -> None:
    """Two lines over one range make three columns; a third over another range adds two."""
    chart = simple(
        Line([(0.0, 0.1), (1.0, 0.2)], "first"),
        Line([(0.0, 0.3), (1.0, math.inf)], "second"),
        Line([(2.0, 0.5)], "third"),
        Rule(0.7, "y", "limit"),
    )

    assert chart.table() == [
        ["x", "first: y", "second: y", "x", "third: y", "limit: y"],
        ["0", "0.1", "0.3", "2", "0.5", "0.7"],
        ["1", "0.2", "", "", "", ""],
    ]


def test_table_is_in_the_units_of_the_axes() -> None:
    """Headings name the unit, and numbers are read in it."""
    line = Line([(KNOT.size * 100.0, 10.0)])
    chart = Chart("", "", Axis("Airspeed", KNOT), Axis("Rate", RADIAN_PER_SECOND), [line])

    assert chart.table() == [["Airspeed (kt)", "Rate (rad/s)"], ["100", "10"]]


def test_axes_take_the_units_of_what_they_follow() -> None:
    """An axis follows a quantity, whatever it is called; one that follows none keeps its unit."""
    airspeed, lowest = Quantity("V", "Airspeed", SPEED), Quantity("n_1", "Lowest speed", ROTATION)
    line = Line([(KNOT.size * 100.0, 10.0)])
    x, y = Axis.of(airspeed, unit=KNOT), Axis("Rate", RADIAN_PER_SECOND, follows=lowest)
    chosen = [(replace(airspeed, above=0.0), METRE_PER_SECOND), (lowest, RPM)]

    again = Chart("", "", x, y, [line]).read_in(chosen)
    assert again.table() == [["Airspeed (m/s)", "Rate (rpm)"], ["51.4444", "95.493"]]
    kept = Chart("", "", Axis("Airspeed", KNOT), y, [line]).read_in(chosen[:1])
    assert kept.table()[0] == ["Airspeed (kt)", "Rate (rad/s)"]


def test_csv_is_read_back_by_the_standard_library() -> None:
    """Commas and quotes in a label survive, and a spreadsheet computes nothing."""
    chart = simple(Line([(0.0, -0.1), (1.0, 1e-9)], 'first, "second"'), Rule(1.0, "y", "=1+1"))
    rows = list(csv.reader(io.StringIO(chart.csv())))

    assert rows[0] == ["x", 'first, "second": y', "'=1+1: y"]
    assert rows[1:] == [["0", "-0.1", "1"], ["1", "1e-09", ""]]
