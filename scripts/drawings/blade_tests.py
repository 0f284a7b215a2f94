"""A blade that is weighed, swung and turned on two wires: what the measured lengths mean."""

from calc.blades import blade_data as data
from calc.blades import blade_swing as swing
from scripts.drawings.drawing import Drawing, sign
from scripts.drawings.parts import blade, box, dimension, ground, hinge, leader, mass_centre, turned
from scripts.drawings.pens import AXIS, BODY, EMPTY, FINE, REST, Pen
from scripts.drawings.sheet import Sheet, toward

SPAN = 250.0
SIDE = [0 - 3j, SPAN - 3 - 3j, SPAN + 0j, SPAN - 3 + 3j, 0 + 3j]


def blade_tests() -> Drawing:
    """Return the blade on two scales, as a pendulum and on two wires."""
    return Drawing(
        (_scales(), _pendulum(), _wires()),
        "Three ways to the moments of a blade. Lengths count from the line of the hinge about "
        "which the moments are wanted. A blade that swings edge on, about a pin through its flat "
        "sides, gives the second moment about the lag hinge; on two wires a blade that lies flat "
        "gives it.",
    )


def _scales() -> Sheet:
    """Return the blade level on two knife edges, each on a scale."""
    sheet = Sheet(
        "On two scales",
        "A blade lies level on two knife edges, each on a scale; distances count from the hinge.",
        height=214,
    )
    start, floor = 44 + 84j, 176.0
    edges = start + 52, start + 214
    for edge, reading in zip(edges, (data.INNER_READING, data.OUTER_READING), strict=True):
        sheet.outline([edge + 4j, edge + 26j - 9, edge + 26j + 9], BODY, EMPTY)
        sheet.body(box(edge + 44j, 56, 34))
        sheet.label(edge + 44j, sign(reading))
    sheet.line(complex(16, floor - 31), complex(324, floor - 31), pen=FINE)
    sheet.body(turned(SIDE, 0.0, start))
    hinge(sheet, start)
    for edge, length, drop in (
        (edges[0], data.INNER_POSITION, 84),
        (edges[1], data.OUTER_POSITION, 112),
    ):
        dimension(sheet, start, edge, sign(length), offset=1j * drop)
    sheet.label(16 + 52j, "hinge", "start")
    leader(sheet, 30 + 60j, start - 5j)
    return sheet


def _pendulum() -> Sheet:
    """Return the blade hung from a knife edge near its root."""
    sheet = Sheet(
        "As a pendulum",
        "A blade hangs from a pivot near its root and swings to both sides by an angle; lengths "
        "count from the pivot and from the hinge to the centre of gravity.",
        height=352,
    )
    pivot, angle = 190 + 92j, -74.0
    along = toward(angle)
    root = pivot - 18 * along
    centre = pivot + 104 * along
    sheet.line(pivot, pivot + 252j, pen=AXIS)
    sheet.body(turned(blade(SPAN, 22, 26), angle, root))
    sheet.line(root, root + (SPAN + 6) * along, pen=REST)
    ground(sheet, pivot + 46 - 42j, pivot - 46 - 42j)
    sheet.line(pivot - 42j, pivot, pen=Pen(BODY.colour, 2.5))
    sheet.circle(pivot, 4.0, BODY, EMPTY)
    hinge(sheet, root)
    mass_centre(sheet, centre)
    sheet.turn(pivot, 214, -90.0, angle)
    sheet.label(pivot + 214j + 34 + 12j, sign(swing.SWING_ANGLE))
    aside = toward(angle - 90.0)
    dimension(sheet, pivot, centre, sign(swing.PIVOT_DISTANCE), offset=34 * aside)
    dimension(
        sheet,
        root,
        centre,
        sign(swing.HINGE_DISTANCE),
        offset=-62 * aside,
        label=(root + centre) / 2 - 84 * aside,
    )
    for text, at, row in (("hinge", root - 5, 66), ("pivot", pivot - 4, 96)):
        sheet.label(complex(16, row), text, "start")
        leader(sheet, complex(52, row), at)
    return sheet


def _wires() -> Sheet:
    """Return the blade level on two wires of the same length."""
    sheet = Sheet(
        "On two wires",
        "A blade hangs level on two vertical wires of the same length, one on each side of its "
        "centre of gravity, and turns to and fro about the vertical line between them.",
        height=262,
    )
    start = 44 + 168j
    centre, top = start + 122, 46.0
    wires = centre - 66, centre + 66
    ground(sheet, complex(306, top), complex(34, top))
    for wire in wires:
        sheet.line(complex(wire.real, top), wire - 3j, pen=Pen(BODY.colour, 1.4))
    sheet.line(complex(centre.real, top + 8), centre + 28j, pen=AXIS)
    sheet.body(turned(SIDE, 0.0, start))
    hinge(sheet, start)
    mass_centre(sheet, centre)
    dimension(
        sheet,
        complex(wires[1].real, top),
        wires[1],
        sign(swing.WIRE_LENGTH),
        offset=34 + 0j,
        label=complex(wires[1].real + 48, (top + start.imag) / 2),
    )
    for wire, length in zip(wires, (swing.INNER_WIRE, swing.OUTER_WIRE), strict=True):
        dimension(
            sheet,
            min(wire, centre, key=_across),
            max(wire, centre, key=_across),
            sign(length),
            offset=-34j,
            label=(wire + centre) / 2 - 48j,
        )
    dimension(sheet, start, centre, sign(swing.HINGE_DISTANCE), offset=44j)
    sheet.label(16 + 132j, "hinge", "start")
    leader(sheet, 30 + 140j, start - 5j)
    sheet.turn(centre + 14j, 26, 205, 335)
    return sheet


def _across(at: complex) -> float:
    return at.real
