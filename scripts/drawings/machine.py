"""The Curlew from the side: each of its parts leads to a chapter."""

import cmath
import math
from contextlib import AbstractContextManager
from dataclasses import dataclass

from calc.examples import CURLEW
from scripts.drawings.drawing import Drawing
from scripts.drawings.parts import box, ground, leader, loop
from scripts.drawings.pens import BODY, EMPTY, FINE, INK, NO_FILL, SOLID, Pen
from scripts.drawings.sheet import Sheet, number

MAST = 5.6 + 4.6j
"""Place of the hub: metres aft of the nose, and above the ground."""
TILT = 0.11
"""How much of the depth of the disc is seen from the side."""
FUSELAGE = (
    0.0 + 1.4j, 0.5 + 0.95j, 1.6 + 0.72j, 4.0 + 0.65j, 7.0 + 0.7j, 9.0 + 1.15j, 11.5 + 1.75j,
    13.2 + 2.05j, 13.3 + 2.35j, 11.0 + 2.3j, 8.6 + 2.55j, 7.2 + 2.75j, 4.2 + 2.75j, 2.6 + 2.55j,
    1.2 + 1.95j, 0.2 + 1.65j,
)  # fmt: skip
FIN = 11.8 + 2.3j, 12.8 + 4.0j, 13.6 + 4.0j, 13.3 + 2.2j
WINDSCREEN = 1.3 + 1.9j, 2.45 + 2.4j, 3.0 + 2.4j, 3.0 + 1.75j, 1.15 + 1.7j
FAIRING = 4.3 + 2.7j, 4.9 + 3.4j, 6.3 + 3.4j, 7.3 + 2.7j
NACELLE = 4.9 + 1.85j, 5.5 + 2.2j, 7.6 + 2.2j, 8.6 + 2.0j, 8.6 + 1.7j, 7.6 + 1.5j, 5.5 + 1.5j

Name = tuple[str, str, str]
"""Name of a part, what its chapter answers, and the address of its page."""

ROTOR: Name = "Rotor", "tip speed and stall", "rotor/tip_speed.html"
BLADES: Name = "Blades", "modes and fan plot", "blades/rigid_blade.html"
HUB: Name = "Hub", "load transfer", "harmonics/hub_filter.html"
GEARBOX: Name = "Gearbox", "forcing frequencies", "harmonics/sources.html"
PROPELLERS: Name = "Propellers", "avoid bands", "harmonics/coincidence.html"
AIRFRAME: Name = "Airframe", "modes and response", "airframe/single_mode.html"
GEAR: Name = "Undercarriage", "ground resonance", "ground/what_it_is.html"


@dataclass(frozen=True, slots=True)
class Place:
    """Where the name of a part stands, and from where a thin line goes to the part."""

    at: complex
    anchor: str
    start: complex


@dataclass(frozen=True, slots=True)
class Layout:
    """A size of the drawing: scale, place of the hub, and the places of the names."""

    scale: float
    hub: complex
    rotor: Place
    blades: Place
    mast: Place
    gearbox: Place
    propellers: Place
    airframe: Place
    gear: Place

    def at(self, point: complex) -> complex:
        """Return a place of the machine, in metres, as a place on the sheet."""
        return self.hub + self.scale * (point - MAST).conjugate()


WIDE = Layout(
    scale=30.0,
    hub=320 + 124j,
    rotor=Place(8 + 18j, "start", 52 + 44j),
    blades=Place(632 + 18j, "end", 590 + 44j),
    mast=Place(320 + 18j, "middle", 320 + 44j),
    gearbox=Place(8 + 160j, "start", 140 + 162j),
    propellers=Place(632 + 292j, "end", 560 + 284j),
    airframe=Place(8 + 292j, "start", 76 + 284j),
    gear=Place(330 + 292j, "middle", 340 + 282j),
)
NARROW = Layout(
    scale=16.4,
    hub=170 + 158j,
    rotor=Place(4 + 62j, "start", 44 + 88j),
    blades=Place(336 + 62j, "end", 300 + 88j),
    mast=Place(222 + 12j, "middle", 210 + 38j),
    gearbox=Place(4 + 12j, "start", 126 + 36j),
    propellers=Place(336 + 268j, "end", 290 + 260j),
    airframe=Place(4 + 268j, "start", 60 + 260j),
    gear=Place(170 + 306j, "middle", 182 + 296j),
)


def machine() -> Drawing:
    """Return the machine for a wide and for a narrow screen."""
    sheets = []
    for layout, screen, width, height in (WIDE, "wide", 640, 322), (NARROW, "narrow", 340, 336):
        sheet = Sheet(
            "Parts of the aircraft and the chapters they lead to",
            "A compound rotorcraft from the side, with rotor, wing, pusher propellers and wheels. "
            "Each part is a link to a page.",
            width=width,
            height=height,
            headed=False,
            screen=screen,
        )
        _draw(sheet, layout)
        sheets.append(sheet)
    return Drawing(
        tuple(sheets),
        "The Curlew, an invented compound with a wing and two pusher propellers. "
        "Each part leads to the pages about it.",
    )


def _draw(sheet: Sheet, layout: Layout) -> None:
    at, scale = layout.at, layout.scale
    ground(sheet, at(-1.6 + 0j), at(14.4 + 0j))
    with _part(sheet, GEAR, layout.gear):
        _wheel(sheet, at(1.9 + 0.3j), at(1.9 + 0.85j), 0.3 * scale)
        _wheel(sheet, at(6.6 + 0.38j), at(6.4 + 0.85j), 0.38 * scale)
        leader(sheet, layout.gear.start, at(6.6 + 0.1j))
    with _part(sheet, AIRFRAME, layout.airframe):
        sheet.body([at(point) for point in FIN])
        sheet.body(loop([at(point) for point in FUSELAGE]))
        sheet.outline([at(point) for point in WINDSCREEN], FINE, EMPTY)
        sheet.body([at(point) for point in (12.0 + 2.1j, 12.2 + 2.2j, 13.5 + 2.2j, 13.5 + 2.1j)])
        leader(sheet, layout.airframe.start, at(2.4 + 1.1j))
    with _part(sheet, PROPELLERS, layout.propellers):
        sheet.body(loop([at(point) for point in NACELLE]))
        _disc(sheet, at(8.75 + 1.85j), 1.45 * scale, CURLEW.propellers[0].blades, upright=True)
        sheet.body(loop([at(point) for point in (8.6 + 2.0j, 9.1 + 1.85j, 8.6 + 1.7j)]))
        leader(sheet, layout.propellers.start, at(8.75 + 0.75j))
    with _part(sheet, ROTOR, layout.rotor):
        rim = [_seen(layout.hub, CURLEW.radius * scale, 5.0 * step) for step in range(72)]
        sheet.outline(rim, FINE, 'fill="currentColor" fill-opacity="0.04"')
        leader(sheet, layout.rotor.start, _seen(layout.hub, CURLEW.radius * scale, 212.0))
    with _part(sheet, BLADES, layout.blades):
        _disc(sheet, layout.hub, CURLEW.radius * scale, CURLEW.blades)
        leader(sheet, layout.blades.start, _seen(layout.hub, 0.82 * CURLEW.radius * scale, 12.0))
    with _part(sheet, GEARBOX, layout.gearbox):
        sheet.body([at(point) for point in FAIRING])
        for centre, radius, teeth in (5.6 + 3.05j, 0.24, 18), (6.02 + 3.05j, 0.15, 11):
            _gear(sheet, at(centre), radius * scale, teeth)
        leader(sheet, layout.gearbox.start, at(4.75 + 3.0j))
    with _part(sheet, HUB, layout.mast):
        sheet.body([at(point) for point in (5.5 + 3.4j, 5.5 + 4.5j, 5.7 + 4.5j, 5.7 + 3.4j)])
        sheet.body(box(layout.hub, 1.1 * scale, 0.34 * scale))
        leader(sheet, layout.mast.start, layout.hub - 0.17j * scale)


def _part(sheet: Sheet, name: Name, place: Place) -> AbstractContextManager[None]:
    """Return the drawing of a part that leads to a page."""
    return sheet.part(name[2], place.at, place.anchor, name[0], name[1])


def _wheel(sheet: Sheet, centre: complex, top: complex, radius: float) -> None:
    sheet.line(centre, top, pen=Pen(INK, 3.5))
    sheet.circle(centre, radius, BODY, SOLID)
    sheet.circle(centre, 0.4 * radius, FINE, EMPTY)


def _gear(sheet: Sheet, centre: complex, radius: float, teeth: int) -> None:
    sheet.circle(centre, radius, FINE, EMPTY)
    sheet.add(
        f'<circle cx="{number(centre.real)}" cy="{number(centre.imag)}" r="{radius:.2f}" '
        f'pathLength="{teeth}" stroke-dasharray=".5" stroke="{INK}" '
        f'stroke-width="{0.35 * radius:.1f}" stroke-linecap="butt" {NO_FILL}/>'
    )
    sheet.circle(centre, 0.2 * radius, FINE, SOLID)


def _disc(sheet: Sheet, hub: complex, radius: float, blades: int, *, upright: bool = False) -> None:
    """Draw the blades of a rotor that is seen nearly on edge, level or upright."""
    for blade in range(blades):
        turn = cmath.rect(1.0, math.radians(14.0 + 360.0 * blade / blades))
        half = (0.06, 0.02), (0.2, 0.035), (1.0, 0.035)
        edge = [*half, *((along, -across) for along, across in reversed(half))]
        corners = [complex(*corner) * radius * turn for corner in edge]
        seen = [complex(corner.real, TILT * corner.imag) for corner in corners]
        sheet.body([hub + (point * 1j if upright else point) for point in seen])


def _seen(hub: complex, radius: float, angle: float) -> complex:
    """Return a place on the level disc as it is seen from the side."""
    point = cmath.rect(radius, math.radians(angle))
    return hub + complex(point.real, -TILT * point.imag)
