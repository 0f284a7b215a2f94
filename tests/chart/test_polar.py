"""Polar figures: where arrows end, what the table says, and the unit of the dial."""

import math
import re
from xml.etree import ElementTree as ET

import pytest

from calc.chart import Arrows, Axis, Polar
from calc.quantity import Quantity
from calc.units import INCH_PER_SECOND, VIBRATION_VELOCITY

SVG = "{http://www.w3.org/2000/svg}"
AMPLITUDE = Quantity("A", "Amplitude", VIBRATION_VELOCITY)
MIDDLE = 204.0, 210.0


def dial(*points: tuple[float, float], names: tuple[str, ...] = ()) -> Polar:
    """Return a dial up to 10 mm/s with arrows of one kind."""
    return Polar(
        "Two readings",
        "Arrows on a dial.",
        Axis.of(AMPLITUDE, high=0.010),
        "Phase",
        [Arrows(points, "before", 1, names)],
        ring=0.002,
        ring_label="scatter",
    )


def tips(drawn: Polar) -> list[tuple[float, float]]:
    """Return where the heads of the arrows on the dial end, from the middle: right and up."""
    svg = ET.fromstring(drawn.svg("dial"))  # noqa: S314  our own text
    heads = [p.get("d", "") for p in svg.iter(f"{SVG}path") if p.get("d", "").endswith("z")]
    found = [tuple(map(float, re.findall(r"-?[\d.]+", head)[:2])) for head in heads]
    return [(x - MIDDLE[0], MIDDLE[1] - y) for x, y in found if x < 400.0]


@pytest.mark.parametrize(
    ("degrees", "right", "up"), [(0.0, 0.0, 1.0), (90.0, 1.0, 0.0), (180.0, 0.0, -1.0)]
)
def test_zero_is_at_the_top_and_angles_grow_clockwise(
    degrees: float, right: float, up: float
) -> None:
    """An arrow of half the range ends halfway to the rim, on the side where the dial says."""
    (tip,) = tips(dial((0.005, math.radians(degrees))))

    assert tip == pytest.approx((86.0 * right, 86.0 * up), abs=0.01)


def test_table_gives_each_arrow_in_the_unit_of_the_dial() -> None:
    """Names, amplitudes and degrees, in the unit chosen; the ring is at any angle."""
    drawn = dial((0.0254, math.radians(30.0)), names=("left",)).read_in(
        [(AMPLITUDE, INCH_PER_SECOND)]
    )

    assert drawn.table() == [
        ["Arrow", "Amplitude (in/s)", "Phase (deg)"],
        ["before left", "1", "30"],
        ["scatter", "0.0787402", "any"],
    ]
    assert drawn.csv().startswith("Arrow,Amplitude (in/s),Phase (deg)")


def test_drawing_is_named_and_ids_are_unique() -> None:
    """Title and description are said, each id once, and a name stands at the tip of its arrow."""
    svg = ET.fromstring(dial((0.004, 1.0), names=("left",)).svg("one"))  # noqa: S314  our own text
    ids = [element.get("id") for element in svg.iter() if element.get("id")]
    texts = ["".join(text.itertext()) for text in svg.iter(f"{SVG}text")]

    assert svg.get("aria-labelledby") == "one-title"
    assert len(ids) == len(set(ids)) == 2
    assert {"left", "before", "scatter", "330°"} <= set(texts)


def test_arrow_without_length_is_a_dot() -> None:
    """A residual of nothing is drawn in the middle; a file of it has every colour in it."""
    drawn = dial((0.0, 0.0))

    assert tips(drawn) == []
    assert f'cx="{MIDDLE[0]:.3f}" cy="{MIDDLE[1]:.3f}" r="3.5"' in drawn.svg("dot")
    assert "var(" not in drawn.file().replace("var(--figure-font", "")
