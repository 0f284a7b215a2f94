"""The danger area of a running rotor from above, and a tied-down aircraft from the front."""

from scripts.drawings.drawing import Drawing
from scripts.drawings.gear import aircraft, wheels
from scripts.drawings.parts import blade, box, ground, hatched, leader, loop, turned
from scripts.drawings.pens import AXIS, BODY, DANGER, EMPTY, FINE, INK, NO_FILL, REST, SOLID, Pen
from scripts.drawings.sheet import Sheet, toward

HUB, RADIUS = 170 + 140j, 62.0
"""Where the hub is drawn from above, and the radius of the rotor disc there."""
DISC, BOUNDARY = Pen(INK, 1.25), Pen(DANGER.colour, 2.0, "8 5")


def danger_area() -> Drawing:
    """Return where nobody stands by a running rotor, and what holds a tied-down aircraft."""
    return Drawing(
        (_from_above(), _tied_down()),
        "Running rotor on the ground; not to scale, and no distance is given here. How far the "
        "danger area reaches, who may be inside it, how the aircraft is approached, and where and "
        "to what it is tied stand in the approved manual and in the plan that the safety officer "
        "of the site has signed. Blades and parts that come off fly farthest near the plane of the "
        "rotor. A tie-down changes the modes of the gear: it is a landing-gear state with a "
        "verdict of its own, it cures no ground resonance, and it makes lifting off deadly.",
    )


def _from_above() -> Sheet:
    sheet = Sheet(
        "Danger area, from above",
        "An aircraft from above with its rotor turning. A hatched area about rotor disc and tail "
        "rotor reaches far beyond both, to a boundary that is kept closed; crew and telemetry are "
        "outside of it.",
        height=346,
    )
    corners = [HUB + toward(angle, 121.0) for angle in range(0, 360, 10)]
    hatched(sheet, corners, DANGER, gap=11.0)
    sheet.circle(HUB, RADIUS, DISC)
    sheet.circle(HUB, 121.0, BOUNDARY)
    body = [-44j, 13 - 34j, 17 - 8j, 12 + 24j, 4 + 46j, 3.5 + 92j, -3.5 + 92j]
    sides = [-4 + 46j, -12 + 24j, -17 - 8j, -13 - 34j]
    sheet.body(loop([HUB + point for point in (*body, *sides)]))
    tail = HUB + 8 + 84j
    sheet.line(tail - 16j, tail + 16j, pen=Pen(INK, 2.5))
    sheet.line(tail - 8, tail, pen=BODY)
    for angle in 20.0, 110.0, 200.0, 290.0:
        sheet.body(turned(blade(RADIUS, 7.0, 12.0), angle, HUB))
    sheet.disc(HUB, 6)
    sheet.circle(HUB, 1.4, FINE, SOLID)
    sheet.turn(HUB, RADIUS + 9, 52, 88)
    sheet.label(338 + 34j, "kept closed", "end")
    leader(sheet, 296 + 43j, HUB + toward(42, 121))
    sheet.label(2 + 34j, "rotor disc", "start")
    leader(sheet, 44 + 43j, HUB + toward(140, RADIUS))
    sheet.label(338 + 262j, "tail rotor", "end")
    leader(sheet, 296 + 254j, tail + 12j)
    for person in -12, 0, 12:
        sheet.circle(60 + person + 292j, 4, FINE, SOLID)
    sheet.label(60 + 314j, "crew, telemetry:\noutside", "middle")
    sheet.label(232 + 300j, "nobody inside while\nthe rotor turns but those\nwhom the plan names")
    return sheet


def _tied_down() -> Sheet:
    sheet = Sheet(
        "Tied down, from the front",
        "The aircraft on its wheels between chocks, tied from its hard points to anchors in the "
        "ground; the plane of the rotor with the bands above and below it is hatched.",
        height=346,
    )
    floor, scale = 300.0, 52.0

    def at(lateral: float, height: float) -> complex:
        return complex(170.0 + scale * lateral, floor - scale * height)

    top, low = at(0, 4.0).imag, at(0, 3.2).imag
    for left, right in ((4.0, 36.0), (304.0, 336.0)):
        plane = [complex(left, top), complex(right, top), complex(right, low), complex(left, low)]
        hatched(sheet, plane, DANGER, gap=9.0)
        sheet.outline(plane, Pen(DANGER.colour, 0.75), NO_FILL)
    ground(sheet, 8 + 1j * floor, 332 + 1j * floor)
    aircraft(sheet, at)
    wheels(sheet, at)
    sheet.line(at(0, 4.1), at(0, 0.2), pen=AXIS)
    for side in -1.0, 1.0:
        hard, anchor = at(0.84 * side, 1.15), at(2.55 * side, 0.0)
        sheet.line(hard, anchor, pen=Pen(INK, 2.2))
        sheet.circle(hard, 3.2, FINE, EMPTY)
        sheet.line(anchor, anchor + 12j, pen=Pen(INK, 3.0))
        sheet.outline(box(at(1.3 * side, 0.09), 22, 9), FINE, SOLID)
        tip, droop = at(2.5 * side, 3.6), at(2.3 * side, 2.86)
        sheet.line(tip - 60 * side, droop, pen=REST)
    sheet.label(170 + 34j, "plane of the rotor: blades and parts fly here")
    leader(sheet, 60 + 43j, complex(22, 0.5 * (top + low)))
    leader(sheet, 280 + 43j, complex(318, 0.5 * (top + low)))
    sheet.label(4 + 172j, "tips droop in wind\nand at low speed", "start")
    leader(sheet, 62 + 152j, at(-2.2, 2.95))
    sheet.label(338 + 196j, "to approved\nhard points", "end")
    leader(sheet, 262 + 205j, at(0.84, 1.15) + 3)
    sheet.label(170 + 330j, "anchors, chocks and straps: approved data only")
    return sheet
