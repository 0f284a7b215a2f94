"""The rotor from above: azimuth, advancing and retreating side, and the speeds of the air."""

import math

from calc.rotor import advance_ratio, quantities, tip_speed
from scripts.drawings.drawing import Drawing, sign
from scripts.drawings.parts import box, curve, dimension, leader, turned
from scripts.drawings.pens import (
    AIR,
    AXIS,
    DANGER,
    FINE,
    FORCE,
    INK,
    MOTION,
    REST,
    SIZES,
    SOLID,
    WARNING,
    Pen,
)
from scripts.drawings.sheet import Sheet, toward

MU = 0.4
"""The advance ratio that is drawn."""
REVERSED = f'fill="{WARNING}" fill-opacity="0.18"'


def azimuth() -> Drawing:
    """Return the azimuth, and the speed of the air over the blades at 90 and 270 degrees."""
    return Drawing(
        (_disc(), _speeds()),
        r"Azimuth, seen from above, of a rotor that turns counterclockwise. $\psi$ is counted from "
        r"aft in the direction of rotation: 90° on the advancing, 270° on the retreating side. "
        r"Inside the circle of diameter $\mu R$ the air meets the blade from its trailing edge. Of "
        r"a rotor that turns clockwise everything is the mirror image: it advances on the left. "
        r"Drawn for $\mu$ = 0.4.",
    )


def tip_speeds() -> Drawing:
    """Return the speeds of advancing and retreating tip, and of a propeller's tip."""
    return Drawing(
        (_tips(), _propeller()),
        r"Speeds of tips. Seen from above, a rotor tip meets air at $V_t + V \cos \alpha$ on the "
        r"advancing and at $V_t - V \cos \alpha$ on the retreating side. The tip of a propeller "
        r"flies a helix: its own speed and the airspeed stand at right angles.",
    )


def _disc() -> Sheet:
    sheet = Sheet(
        "Azimuth, from above",
        "The disc from above, flight up the page: azimuth 0 aft, 90 on the advancing side at the "
        "right, 180 ahead, 270 on the retreating side with the circle of reversed flow.",
        height=306,
    )
    hub, radius = 170 + 168j, 94.0
    sheet.circle(hub, radius, FINE)
    sheet.line(hub - radius - 12, hub + radius + 12, pen=AXIS)
    sheet.line(hub - 1j * (radius + 12), hub + 1j * (radius + 12), pen=AXIS)
    sheet.circle(hub - MU * radius / 2.0, MU * radius / 2.0, DANGER, REVERSED)
    outline = [6 - 3j, radius - 3j, radius + 5j, 6 + 5j]
    for number in range(4):
        sheet.body(turned(outline, 50.0 - 90.0 + 90.0 * number, hub))
    sheet.disc(hub, 8)
    sheet.circle(hub, 1.6, FINE, SOLID)
    sheet.turn(hub, 62, -90.0, -40.0)
    sheet.label(hub + toward(-66, 75), sign(advance_ratio.AZIMUTH))
    sheet.turn(hub, 106, 118, 152)
    sheet.label(hub + toward(135, 120), sign(quantities.ROTOR_SPEED))
    sheet.arrow(hub + 84 - 96j, hub + 84 - 136j, pen=Pen(INK, 2))
    sheet.label(hub + 92 - 122j, "flight", "start")
    sheet.label(hub + 118j, "0°, aft")
    sheet.label(hub - 117j, "180°")
    sheet.label(hub + 100 - 12j, "90°", "start")
    sheet.label(hub + 100 + 14j, "advancing", "start")
    sheet.label(hub - 100 - 12j, "270°", "end")
    sheet.label(hub - 100 + 14j, "retreating", "end")
    sheet.label(4 + 278j, "reversed\nflow", "start")
    leader(sheet, 44 + 264j, hub - MU * radius / 2.0 + 8j)
    return sheet


def _speeds() -> Sheet:
    sheet = Sheet(
        "Air over the blades at 90° and 270°",
        "The speed of the air over the advancing blade grows from the airspeed at the shaft; over "
        "the retreating blade it falls through zero at the edge of the reversed flow.",
        height=306,
    )
    hub, radius, scale = 170 + 206j, 138.0, 92.0
    v, tip = sign(quantities.AIRSPEED), sign(quantities.TIP_SPEED)
    edge = hub - MU * radius
    sheet.outline([hub, hub - 1j * MU * scale, edge], Pen(DANGER.colour, 0.75), REVERSED)
    for step in range(-10, 11):
        foot, speed = hub + radius * step / 10.0, step / 10.0 + MU
        if step and abs(speed) > 0.06:
            sheet.arrow(foot - 1j * scale * speed, foot, pen=Pen(AIR.colour, 1.25))
    ends = [hub + radius * side - 1j * scale * (MU + side) for side in (-1.0, 1.0)]
    sheet.line(*ends, pen=AIR)
    sheet.line(hub - radius, hub + radius, pen=Pen(INK, 3.5))
    sheet.line(hub - 80j, hub + 68j, pen=AXIS)
    sheet.label(ends[1] - 16j + 4, f"{tip} + {v} cos {sign(quantities.DISC_INCIDENCE)}", "end")
    sheet.label(ends[0] + 16j - 4, f"{tip} − {v} cos {sign(quantities.DISC_INCIDENCE)}", "start")
    sheet.label(hub + 1.07 * radius + 16j, "90°", "end")
    sheet.label(hub - 1.07 * radius - 16j, "270°", "start")
    dimension(
        sheet,
        edge,
        hub,
        f"{sign(quantities.ADVANCE_RATIO)} {sign(quantities.RADIUS)}",
        offset=34j,
        label=(edge + hub) / 2 + 50j,
    )
    sheet.label(20 + 130j, "air from the\ntrailing edge", "start")
    leader(sheet, 84 + 148j, hub - 22 - 10j)
    sheet.label(hub + 12 + 60j, "shaft axis", "start", soft=True)
    return sheet


def _tips() -> Sheet:
    sheet = Sheet(
        "Rotor tips, from above",
        "The advancing tip at the right has its own speed and the airspeed in one direction, the "
        "retreating tip at the left has them opposed.",
        height=292,
    )
    hub, radius = 170 + 176j, 100.0
    v, tip = (
        f"{sign(quantities.AIRSPEED)} cos {sign(quantities.DISC_INCIDENCE)}",
        sign(quantities.TIP_SPEED),
    )
    sheet.circle(hub, radius, SIZES)
    for angle in 0.0, 90.0, 180.0, 270.0:
        sheet.body(turned([6 - 3j, radius - 3j, radius + 5j, 6 + 5j], angle, hub))
    sheet.disc(hub, 8)
    sheet.circle(hub, 1.6, FINE, SOLID)
    right, left = hub + radius + 8, hub - radius - 8
    sheet.arrow(right, right - 70j, pen=MOTION)
    sheet.arrow(right - 70j, right - 104j, pen=AIR)
    sheet.label(right + 8 - 36j, tip, "start")
    sheet.label(right + 8 - 92j, v, "start")
    sheet.arrow(left, left + 70j, pen=MOTION)
    sheet.arrow(left - 12 + 70j, left - 12 + 36j, pen=AIR)
    sheet.label(left + 8 + 60j, tip, "start")
    sheet.label(left - 18 + 92j, v)
    sheet.label(right + 10 + 14j, "90°", "start")
    sheet.label(left - 10 - 14j, "270°", "end")
    sheet.turn(hub, 40, 20, 70)
    sheet.label(hub + toward(45, 54), sign(quantities.ROTOR_SPEED))
    sheet.arrow(60 + 96j, 60 + 48j, pen=Pen(INK, 2))
    sheet.label(68 + 64j, "flight", "start")
    return sheet


def _propeller() -> Sheet:
    sheet = Sheet(
        "Propeller tip, from the side",
        "A propeller flying to the left; its tip follows a helix, and its speed is the hypotenuse "
        "of its own speed of rotation and the airspeed.",
        height=292,
    )
    hub, radius, pitch = 130 + 160j, 88.0, 2.0 * math.pi * 62.0
    track = [hub + x - 1j * radius * math.sin(2.0 * math.pi * x / pitch) for x in range(0, 204, 6)]
    sheet.line(hub - 84, hub + 204, pen=AXIS)
    sheet.shape(curve(track), REST)
    sheet.body(turned(box(0j, 2 * radius, 8), 90.0, hub))
    sheet.body([hub + c for c in (-34 + 0j, -22 - 9j, 12 - 9j, 12 + 9j, -22 + 9j)])
    ahead, own = hub - 62, 1j * radius
    sheet.arrow(hub, hub + own, pen=MOTION)
    sheet.arrow(hub + own, hub + own - 62, pen=AIR)
    sheet.arrow(hub, ahead + own, pen=FORCE)
    sheet.label(hub + own - 31 + 16j, sign(quantities.AIRSPEED))
    sheet.label(hub + 14 + 62j, "own speed\nof the tip", "start")
    sheet.label(hub - 50 + 34j, "through\nthe air", "end")
    sheet.label(hub + 128 - 100j, "path of the tip")
    sheet.arrow(52 + 60j, 8 + 60j, pen=Pen(INK, 2))
    sheet.label(58 + 60j, "flight", "start")
    dimension(
        sheet,
        hub + 1j * radius,
        hub - 1j * radius,
        sign(tip_speed.DIAMETER),
        offset=190 + 0j,
        label=hub + 190 + 40j,
    )
    return sheet
