"""Figures in steps: every step brings something, its sentence is true, its lettering is clear."""

import math
import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from calc.chart import Axis, Chart, Line, Mark, Rule
from calc.examples import CURLEW
from calc.flight.curlew_flight import OUT
from calc.flight.examples import CURLEW_ROTOR, CURLEW_WING
from calc.flight.stages import STAGES, TransitionLimits
from calc.flight.transition import flown
from calc.ground.examples import PLOVER_ROTOR, PLOVER_SUPPORT
from calc.ground.stability import growth_rate
from calc.ground.time_history import time_history
from calc.units import METRE, RPM
from scripts.stepped import STEPPED
from scripts.stepped.figure import Stepped
from tests.drawings.lettering import SVG, boxes
from tests.ground.example import HUB, ROTOR

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


def test_only_regressing_lag_makes_a_disturbance_grow() -> None:
    """Next to no damping, one direction at a time: stable where 1/rev or progressing lag meets it.

    Coleman and Feingold (1958), from memory: self-excited motion lies about the crossing of the
    hub with the lower lag line, that of whirl slower than the rotor, and about no other.
    """
    rotor = replace(PLOVER_ROTOR, lag_damping=2.0)
    nu = math.sqrt(rotor.hinge_offset * rotor.first_moment / rotor.lag_inertia)
    support = replace(PLOVER_SUPPORT, damping_x=6.0, damping_y=4.0)
    sizes = (support.stiffness_x, support.mass_x), (support.stiffness_y, support.mass_y)
    for held, (stiffness, mass) in zip(("stiffness_y", "stiffness_x"), sizes, strict=True):
        alone = replace(support, **{held: 1e11})
        frequency = math.sqrt(stiffness / (mass + rotor.blades * rotor.blade_mass))
        progressing, once, regressing = (
            growth_rate(rotor, alone, frequency / line) for line in (1.0 + nu, 1.0, 1.0 - nu)
        )
        assert progressing < 0.0
        assert once < 0.0
        assert regressing > 1.0


def test_growth_of_the_mechanism_is_that_of_a_motion_marched_at_its_speed() -> None:
    """Both rates hold at the speed of the sentence: full equations of motion, stepped in time."""
    last = MADE["mechanism"].captions[-1].replace("−", "-")
    found = re.search(r"at ([\d.]+) rpm .* (\S+) 1/s as built, (\S+) 1/s with twice", last)
    assert found is not None
    assert f"At {found[1]} rpm" in MADE["mechanism"].captions[2]
    speed = RPM.si(float(found[1]))
    for lag, said in (1.0, found[2]), (2.0, found[3]):
        rotor = replace(ROTOR, lag_damping=lag * ROTOR.lag_damping)
        early, late = (
            time_history(rotor, HUB, speed, 1e-4, turns).hub_amplitude for turns in (40, 60)
        )
        rate = math.log(late / early) / (20 * 2.0 * math.pi / speed)
        assert float(said) == pytest.approx(rate, abs=0.01), lag


def test_sentences_of_the_transition_are_true_of_its_history() -> None:
    """Mean flow through the disc, its largest lean back, and what torque is taken off when.

    Glauert (1926), from memory: the flow through the disc is the part of the airspeed across it
    and the induced speed; here as the inflow of the blade angles, which is solved apart.
    """
    past = flown(CURLEW_ROTOR, CURLEW_WING, OUT, TransitionLimits(), STAGES.example).instants
    _, leans, drives, *_ = (text.replace("−", "-") for text in MADE["transition"].captions)
    found = re.search(r"from (\S+)° to (\S+)° at (\d+) s; from (\d+) s on", leans)
    assert found is not None
    angles = [math.degrees(at.rotor.disc_incidence) for at in past]
    assert float(found[1]) == pytest.approx(angles[0], abs=0.05)
    assert float(found[2]) == pytest.approx(min(angles), abs=0.05)
    assert float(found[3]) == pytest.approx(past[angles.index(min(angles))].time, abs=0.5)
    upward = int(found[4])
    assert all(at.blade.inflow < 0.0 for at in past if at.time > upward + 0.5)
    assert all(at.blade.inflow > 0.0 for at in past if at.time < upward - 0.5)
    found = re.search(r"at (.+) s, from .* at the first the disc is still at (\S+)°", drives)
    assert found is not None
    times = [int(time) for time in re.findall(r"\d+", found[1])]
    level = [at for at in past if at.time < times[0]][-1]
    assert float(found[2]) == pytest.approx(math.degrees(level.rotor.disc_incidence), abs=0.05)
    for time in times:
        before = [at.stage.shaft_torque for at in past if at.time < time - 0.1]
        after = [at.stage.shaft_torque for at in past if at.time > time + 0.1]
        assert before[-1] > after[0]
    assert len(times) == len({at.stage.shaft_torque for at in past}) - 1


def test_crossings_of_a_run_up_are_where_the_lines_are_even() -> None:
    """An order that rises evenly from rest to its end in 60 s crosses a mode at its share of that.

    By proportion: the rotor order k reaches f after 60 s times f over k times rotor speed.
    """
    caption = next(c for c in MADE["run_up"].captions if c.startswith("Rotor 6/rev"))
    found = re.search(r"most is ([a-z ,]+), at (\d+) s:", caption)
    assert found is not None
    frequency = {"first lateral bending": 6.25, "roll on the gear": 1.82, "pitch on the gear": 2.24}
    frequency |= {
        "nacelle, backward whirl": 8.11,
        "nacelle, forward whirl": 8.71,
        "first vertical bending": 11.0,
    }
    top = CURLEW.blades * CURLEW.rotor_speed / (2.0 * math.pi)
    assert float(found[2]) == pytest.approx(60.0 * frequency[found[1]] / top, abs=0.5)
