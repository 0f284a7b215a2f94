"""Figures in steps: every step brings something, its sentence is true, its lettering is clear."""

import math
import re
from xml.etree import ElementTree as ET

import pytest

from calc.chart import Axis, Chart, Line, Mark, Rule
from calc.examples import CURLEW
from calc.ground.examples import PLOVER_ROTOR, PLOVER_SUPPORT
from calc.units import METRE
from scripts.stepped import STEPPED
from scripts.stepped.figure import Stepped
from tests.drawings.lettering import SVG, boxes

TWO_LINES = 135
"""Characters of a sentence that keep to two lines beside the buttons at 1280 px."""
MADE = {name: make() for name, make in STEPPED.items()}


def drawn(made: Stepped) -> ET.Element:
    """Return the drawing as a tree."""
    return ET.fromstring(made.draw("figure"))  # noqa: S314 - made here


def at_step(made: Stepped, step: int) -> ET.Element:
    """Return the drawing as it is in a step."""
    found = drawn(made)
    for parent in list(found.iter()):
        for part in list(parent):
            first, last = int(part.get("data-from", 1)), float(part.get("data-until", math.inf))
            if not first <= step <= last:
                parent.remove(part)
    return found


@pytest.mark.parametrize("made", MADE.values(), ids=MADE)
def test_every_step_brings_something_and_has_a_sentence(made: Stepped) -> None:
    """Steps are counted from 1 without a gap; what goes is hidden in the still, and all else seen.

    What goes belongs to the page only while the steps are shown.
    """
    parts = list(drawn(made).iter())
    begins = {int(part.attrib["data-from"]) for part in parts if "data-from" in part.attrib}
    assert begins | {1} == set(range(1, len(made.captions) + 1))
    for part in parts:
        assert ("visibility" in part.attrib) == ("data-until" in part.attrib)
    html = made.html("here")
    assert re.findall(r"<li>(.*?)</li>", html) == list(made.captions)
    assert all(caption.endswith(".") and len(caption) < TWO_LINES for caption in made.captions)


def test_lettering_of_the_mechanism_is_clear_in_each_step() -> None:
    """No line of text covers another or leaves the sheet, with the widest face of a reader."""
    made = MADE["mechanism"]
    width = float(drawn(made).attrib["viewBox"].split()[2])
    for step in range(1, len(made.captions) + 1):
        found = list(boxes(at_step(made, step)))
        for number, one in enumerate(found):
            assert one.left >= 0.0, one
            assert one.right <= width, one
            assert not [other for other in found[:number] if one.overlaps(other)], (step, one)


def test_a_mark_and_its_label_appear_together() -> None:
    """Line, leader and label of a chart belong to the step of the mark; what has none stays."""
    marks: list[Mark] = [Line([(0.0, 0.0), (1.0, 1.0)], "late"), Rule(0.5, "y", "level"), Rule(0.2)]
    axes = Axis("Aside", METRE, 0.0, 1.0), Axis("Up", METRE, 0.0, 1.0)
    chart = Chart("Two", "A line and a level.", *axes, marks, steps=[2, 1, 0])
    root = ET.fromstring(chart.svg("two"))  # noqa: S314 - made here
    words = {
        "".join(text.itertext()): text.get("data-from")
        for text in root.iter(f"{SVG}text")
        if text.get("data-from")
    }
    assert words == {"late": "2", "level": "1"}
    begun = {part.get("data-from") for part in root.iter(f"{SVG}g")}
    assert begun == {"1", "2", None}
    leaders = [part for part in root.iter(f"{SVG}path") if part.get("data-from") == "2"]
    assert len(leaders) == 1
    plain = Chart("Two", "A line and a level.", *axes, marks)
    assert "data-from" not in plain.svg("two")


def test_coalescence_of_the_sentence_is_the_closed_form() -> None:
    """Without a lag spring the lines meet at a support frequency over 1 - nu.

    Coleman and Feingold (1958), the diagram; nu is the root of e S / I, rigid-blade kinematics.
    """
    rotor, support = PLOVER_ROTOR, PLOVER_SUPPORT
    nu = math.sqrt(rotor.hinge_offset * rotor.first_moment / rotor.lag_inertia)
    blades = rotor.blades * rotor.blade_mass
    speeds = [
        math.sqrt(stiffness / (mass + blades)) / (1.0 - nu) * 30.0 / math.pi
        for stiffness, mass in (
            (support.stiffness_x, support.mass_x),
            (support.stiffness_y, support.mass_y),
        )
    ]
    assert f"at {speeds[0]:.0f} and {speeds[1]:.0f} rpm" in MADE["coleman"].captions[5]


def test_crossings_of_a_run_up_are_where_the_lines_are_even() -> None:
    """An order that rises evenly from rest to its end in 60 s crosses a mode at its share of that.

    By proportion: the rotor order k reaches f after 60 s times f over k times rotor speed.
    """
    caption = next(c for c in MADE["run_up"].captions if c.startswith("Rotor 6/rev"))
    found = re.search(r"at (\d+) s, ([a-z ,]+):", caption)
    assert found is not None
    frequency = {"first lateral bending": 6.25, "roll on the gear": 1.82, "pitch on the gear": 2.24}
    frequency |= {
        "nacelle, backward whirl": 8.11,
        "nacelle, forward whirl": 8.71,
        "first vertical bending": 11.0,
    }
    top = CURLEW.blades * CURLEW.rotor_speed / (2.0 * math.pi)
    assert float(found[1]) == pytest.approx(60.0 * frequency[found[2]] / top, abs=0.5)
