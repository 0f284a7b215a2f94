"""The set-up of a shake test, on the gear and suspended."""

from scripts.drawings.drawing import Drawing
from scripts.drawings.gear import aircraft, wheels
from scripts.drawings.parts import box, ground, leader, spring
from scripts.drawings.pens import AXIS, BODY, FINE, FORCE, INK, SOLID, Pen
from scripts.drawings.sheet import Sheet

AT, SCALE = 198.0, 46.0
"""Where the middle of the aircraft is drawn, and units of the sheet in a metre."""


def shake_test() -> Drawing:
    """Return the aircraft under test on its gear and hung from soft springs."""
    return Drawing(
        (_on_gear(), _suspended()),
        "Shake test with a shaker at the hub, seen from the front. Blades are replaced by dummy "
        "masses at the lag hinges, lag dampers are off. The shaker hangs free and pushes through "
        "a thin rod and a force gauge; accelerometers stand at the hub and wherever else the shape "
        "is wanted. For ground resonance the aircraft stands on its own gear, in the state of "
        "interest; suspended on soft springs it shows its free modes, which are not those on the "
        "gear.",
    )


def _on_gear() -> Sheet:
    sheet = Sheet(
        "On its gear",
        "The aircraft stands on its wheels; a shaker that hangs on ropes pushes its hub sideways "
        "through a rod; dummy masses at the lag hinges stand for the blades.",
        height=318,
    )
    ground(sheet, 84 + 290j, 332 + 290j)
    _aircraft(sheet, 290.0)
    return sheet


def _suspended() -> Sheet:
    sheet = Sheet(
        "Suspended",
        "The same aircraft off the ground, hung at its hub from a soft spring.",
        height=318,
    )
    ground(sheet, 84 + 306j, 332 + 306j)
    _aircraft(sheet, 290.0)
    spring(sheet, AT + 42j, AT + 100j, turns=6, wide=8)
    for side in -11, 11:
        sheet.line(AT + 100j, AT + side + 122j, pen=FINE)
    ground(sheet, AT + 48 + 42j, AT - 48 + 42j)
    sheet.label(AT + 16 + 76j, "soft spring", "start")
    return sheet


def _aircraft(sheet: Sheet, floor: float) -> None:
    """Draw the aircraft above a floor, with shaker, dummy masses and accelerometers."""

    def at(lateral: float, height: float) -> complex:
        return complex(AT + SCALE * lateral, floor - SCALE * height)

    aircraft(sheet, at, blades=False)
    wheels(sheet, at)
    sheet.line(at(0, 3.0), at(0, 0.6), pen=AXIS)
    for side in -1, 1:
        sheet.circle(at(0.6 * side, 3.605), 8, BODY, SOLID)
    push = at(-0.1, 3.3)
    shaker = complex(50, push.imag)
    for rope in -14, 14:
        sheet.line(shaker + rope - 12j, shaker + rope + 1j * (48 - shaker.imag), pen=FINE)
    ground(sheet, 86 + 48j, 14 + 48j)
    sheet.line(shaker, push, pen=Pen(INK, 1.5))
    sheet.body(box(shaker, 46, 26))
    sheet.body(box(complex(128, push.imag), 12, 12))
    sheet.arrow(shaker + 30 - 20j, shaker + 70 - 20j, pen=FORCE, both=True)
    sheet.label(shaker + 26j, "shaker")
    sheet.label(complex(128, push.imag + 20), "force gauge")
    places = at(0, 3.76), at(0.3, 2.42), at(0, 0.58), at(1.3, 0.66)
    for place in places:
        sheet.outline(box(place, 8, 8), Pen(FORCE.colour, 0.5), f'fill="{FORCE.colour}"')
    sheet.label(338 + 130j, "dummy\nmasses", "end")
    leader(sheet, complex(298, 126), at(0.6, 3.605) + 8 + 3j)
    sheet.label(338 + 190j, "accelerometers", "end")
    leader(sheet, complex(280, 181), places[1] + 4)
    leader(sheet, complex(286, 199), places[3] - 4j)
