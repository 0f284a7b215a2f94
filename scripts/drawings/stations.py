"""Where accelerometers stand: stations along the aircraft, and at mast and gear from the front."""

from scripts.drawings.drawing import Drawing
from scripts.drawings.gear import aircraft, wheels
from scripts.drawings.machine import FAIRING, FIN, FUSELAGE, MAST, NACELLE
from scripts.drawings.parts import ground, leader, loop
from scripts.drawings.pens import AXIS, EMPTY, FINE, FORCE, INK, Pen
from scripts.drawings.sheet import Sheet

SCALE = 20.0
NOSE = 28.0
FLOOR = 212.0
STATIONS = {
    "1": (5.6 + 4.35j, 60 + 62j),
    "2": (5.9 + 3.3j, 56 + 142j),
    "3": (2.2 + 1.0j, 40 + 240j),
    "4": (5.0 + 0.9j, 110 + 240j),
    "5": (6.6 + 0.75j, 166 + 240j),
    "6": (10.4 + 1.9j, 262 + 240j),
    "7": (12.9 + 3.5j, 318 + 96j),
    "8": (8.3 + 1.85j, 214 + 240j),
}
"""Number of each station: its place in metres aft of the nose and above the ground, and where its
number stands on the sheet."""

AT, FRONT = 170.0, 46.0
"""Middle of the aircraft from the front, and units of the sheet in a metre there."""


def stations() -> Drawing:
    """Return the stations from the side, and the channels of mast and gear from the front."""
    return Drawing(
        (_side(), _front()),
        "Stations of the invented Curlew. 1 top of the mast, on a part that does not turn; 2 foot "
        "of the gearbox; 3 crew seat; 4 cabin floor; 5 attachment of the landing gear; 6 tail "
        "boom; 7 fin; 8 nacelle, at the bearing of the propeller. From the front: two "
        "heights on mast and gearbox tell lateral motion from roll, verticals at both wheels tell "
        "roll from heave.",
    )


def _side() -> Sheet:
    sheet = Sheet(
        "From the side",
        "The aircraft from the side with eight numbered stations: mast, gearbox, crew seat, cabin, "
        "landing gear, tail boom, fin and nacelle.",
        height=262,
    )

    def at(point: complex) -> complex:
        return complex(NOSE + SCALE * point.real, FLOOR - SCALE * point.imag)

    ground(sheet, at(-1.0 + 0j), at(14.6 + 0j))
    for wheel, leg, size in ((1.9 + 0.3j, 1.9 + 0.85j, 0.3), (6.6 + 0.38j, 6.4 + 0.85j, 0.38)):
        sheet.line(at(wheel), at(leg), pen=Pen(INK, 3.0))
        sheet.disc(at(wheel), size * SCALE)
    sheet.body([at(point) for point in FIN])
    sheet.body(
        [at(point) for point in (MAST - 0.09, MAST - 0.09 - 1.8j, MAST + 0.09 - 1.8j, MAST + 0.09)]
    )
    sheet.body([at(point) for point in FAIRING])
    sheet.body(loop([at(point) for point in FUSELAGE]))
    sheet.body(loop([at(point) for point in NACELLE]))
    sheet.line(at(8.75 + 0.4j), at(8.75 + 3.3j), pen=Pen(INK, 3.0))
    sheet.line(at(MAST - 5.5), at(MAST + 5.5), pen=Pen(INK, 3.0))
    for number, (place, label) in STATIONS.items():
        _station(sheet, at(place), label, number)
    return sheet


def _front() -> Sheet:
    sheet = Sheet(
        "From the front",
        "Lateral accelerometers at the top of the mast and at the foot of the gearbox, and "
        "vertical ones above both wheels, with the direction that each measures.",
        height=300,
    )

    def at(lateral: float, height: float) -> complex:
        return complex(AT + FRONT * lateral, 268.0 - FRONT * height)

    ground(sheet, at(-2.6, 0.0), at(2.6, 0.0))
    aircraft(sheet, at)
    wheels(sheet, at)
    sheet.line(at(0, 4.0), at(0, 0.4), pen=AXIS)
    for lateral, height, step in (
        (0.0, 3.3, 0.8),
        (0.0, 2.4, 0.8),
        (1.0, 0.75, 0.8j),
        (-1.0, 0.75, 0.8j),
    ):
        place = at(lateral, height)
        _sensor(sheet, place)
        sheet.arrow(place + 6 * step / abs(step), place + FRONT * step.conjugate(), pen=FORCE)
    sheet.label(at(0.98, 3.16), "mast,\nlateral", "start")
    sheet.label(at(0.98, 2.34), "gearbox,\nlateral", "start")
    sheet.label(at(1.5, 1.2), "wheel,\nvertical", "start")
    sheet.label(at(-1.5, 1.2), "wheel,\nvertical", "end")
    return sheet


def _station(sheet: Sheet, place: complex, label: complex, number: str) -> None:
    """Draw a station with its number in a circle."""
    _sensor(sheet, place)
    along = place - label
    leader(sheet, label + along / abs(along) * 9.0, place)
    sheet.circle(label, 9, FINE, EMPTY)
    sheet.label(label, number, bold=True)


def _sensor(sheet: Sheet, place: complex) -> None:
    corners = [place + step for step in (-4 - 4j, 4 - 4j, 4 + 4j, -4 + 4j)]
    sheet.outline(corners, Pen(FORCE.colour, 0.5), f'fill="{FORCE.colour}"')
