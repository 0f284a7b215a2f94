"""The aircraft on its gear from the front: dimensions, springs, and the shapes of its modes."""

import math
from collections.abc import Callable

from calc.ground import body_on_gear as on_gear
from calc.ground.body_on_gear import Body, Gear, HubMode
from scripts.drawings.drawing import Drawing, sign
from scripts.drawings.parts import (
    box,
    dashpot,
    dimension,
    ground,
    leader,
    loop,
    mass_centre,
    spring,
)
from scripts.drawings.pens import AXIS, EMPTY, FINE, FORCE, MOTION, REST, Pen
from scripts.drawings.sheet import Sheet, run

BODY = Body(
    body_mass=on_gear.BODY_MASS.example,
    roll_inertia=on_gear.ROLL_INERTIA.example,
    cg_height=on_gear.CG_HEIGHT.example,
    hub_height=on_gear.HUB_HEIGHT.example,
)
GEAR = Gear(
    track=on_gear.TRACK.example,
    vertical_stiffness=on_gear.VERTICAL_STIFFNESS.example,
    vertical_damping=on_gear.VERTICAL_DAMPING.example,
    lateral_stiffness=on_gear.LATERAL_STIFFNESS.example,
    lateral_damping=on_gear.LATERAL_DAMPING.example,
)
_FUSELAGE = (0.84, 1.4), (0.8, 0.85), (0.5, 0.55), (0.0, 0.5)
_ROOF = (0.68, 2.0), (0.38, 2.25)
_WINDOW = (0.07, 1.42), (0.66, 1.36), (0.6, 1.82), (0.32, 2.02), (0.07, 2.04)
HUB, HALF_TRACK = 3.6, 1.3
"""Height of the hub and half of the track, in units of the outline."""
UNIT = HUB / BODY.hub_height
"""Units of the outline in a metre of the example."""
MOVED = 0.42
"""How far the hub moves in the drawing of a mode, in units of the outline."""

Placed = Callable[[float, float], complex]
"""A place on the sheet of a lateral distance and a height, both in units of the outline."""


def aircraft_on_gear() -> Drawing:
    """Return dimensions, and the springs and dampers of the gear with the motions."""
    return Drawing(
        (_dimensions(), _springs()),
        r"Body on gear. Heights are above the ground. $k_v$ and $c_v$ are tyre and strut of one "
        r"side, $k_l$ and $c_l$ those of both sides together, at the ground. $y$ is the lateral "
        r"motion of the centre of gravity, positive to starboard, and the roll angle $\phi$ "
        r"moves the hub the same way. Each mode rolls about an axis of its own at the height $z$.",
    )


def gear_modes() -> Drawing:
    """Return the two modes of the example."""
    lower, upper = on_gear.body_on_gear(BODY, GEAR).modes
    scale = min(50.0, 272.0 / (HUB + 0.3 - UNIT * min(lower.axis_height, 0.0)))
    return Drawing(
        (_mode("Lower mode", lower, scale), _mode("Upper mode", upper, scale)),
        r"The two modes of the example of the form, each scaled to the same motion of the hub and "
        r"drawn too large. The lower one rolls about an axis below the ground, the upper one about "
        r"an axis in the body. What the hub feels is not the mass of the body but the effective "
        r"mass $M_y$ of the mode.",
    )


def _dimensions() -> Sheet:
    sheet = Sheet(
        "Dimensions, from the front",
        "The aircraft from the front on its wheels: track, heights of hub, centre of gravity and "
        "roll axis above the ground.",
        height=300,
    )

    def at(lateral: float, height: float) -> complex:
        return complex(170.0 + 50.0 * lateral, 238.0 - 50.0 * height)

    ground(sheet, 30 + 238j, 310 + 238j)
    aircraft(sheet, at)
    wheels(sheet, at)
    sheet.line(at(0, 3.75), at(0, -0.1), pen=AXIS)
    upper = on_gear.body_on_gear(BODY, GEAR).modes[1]
    centre, axis = at(0, UNIT * BODY.cg_height), at(0, UNIT * upper.axis_height)
    sheet.circle(axis, 4, Pen(MOTION.colour, 1.75), EMPTY)
    mass_centre(sheet, centre)
    dimension(sheet, at(-1.3, 0), at(1.3, 0), sign(on_gear.TRACK), offset=34j)
    dimension(sheet, at(0, 0), at(0, HUB), sign(on_gear.HUB_HEIGHT), offset=-148 + 0j)
    dimension(sheet, at(0, 0), centre, sign(on_gear.CG_HEIGHT), offset=112 + 0j)
    dimension(sheet, at(0, 0), axis, sign(on_gear.AXIS_HEIGHT), offset=148 + 0j)
    sheet.label(56 + 126j, "roll axis")
    leader(sheet, 86 + 127j, axis - 5)
    sheet.label(56 + 168j, "c.g.")
    leader(sheet, 72 + 167j, centre - 7 + 0.2j)
    sheet.label(at(0.2, 3.3), "hub", "start")
    return sheet


def _springs() -> Sheet:
    sheet = Sheet(
        "Springs, dampers and motion",
        "The body on the vertical springs and dampers of both sides, which stand on a slide that "
        "a lateral spring and damper hold; y and the roll angle are positive as the arrows show.",
        height=300,
    )

    def at(lateral: float, height: float) -> complex:
        return complex(150.0 + 44.0 * lateral, 196.0 - 44.0 * (height - 0.75))

    ground(sheet, 40 + 266j, 316 + 266j)
    ground(sheet, 316 + 266j, 316 + 220j)
    sheet.body(box(150 + 252j, 150, 8))
    for wheel in -46, 0, 46:
        sheet.circle(150 + wheel + 261j, 4.2, FINE, EMPTY)
    sheet.line(225 + 252j, 236 + 252j)
    sheet.line(236 + 230j, 236 + 256j)
    spring(sheet, 236 + 232j, 316 + 232j, turns=4, wide=6)
    dashpot(sheet, 316 + 253j, 236 + 253j, wide=6)
    for lateral in -HALF_TRACK, HALF_TRACK:
        foot = at(lateral, 0.75)
        spring(sheet, foot - 11, complex(foot.real - 11, 248), turns=4, wide=6)
        dashpot(sheet, complex(foot.real + 11, 248), foot + 11, wide=6)
    sheet.body(box(at(0, 0.78), 2 * HALF_TRACK * 44 + 34, 9))
    aircraft(sheet, at)
    centre = at(0, UNIT * BODY.cg_height)
    sheet.line(at(0, 3.75), at(0, 0.6), pen=AXIS)
    mass_centre(sheet, centre)
    sheet.arrow(centre - 7, centre - 62, pen=MOTION)
    sheet.label(centre - 56 - 15j, "$y$")
    sheet.turn(centre, 74, 66, 116)
    sheet.label(centre + 46 - 76j, r"$\phi$")
    sheet.label(66 + 222j, sign(on_gear.VERTICAL_STIFFNESS), "end")
    sheet.label(126 + 222j, sign(on_gear.VERTICAL_DAMPING))
    sheet.label(276 + 213j, sign(on_gear.LATERAL_STIFFNESS))
    sheet.label(276 + 283j, sign(on_gear.LATERAL_DAMPING))
    hub = at(0, HUB) - 16j
    sheet.arrow(hub, hub - 44, pen=FORCE)
    sheet.label(hub - 52, "$y + (h - h_{cg}) \\phi$", "end")
    sheet.label(centre - 112, "starboard", soft=True)
    sheet.label(centre + 112, "port", soft=True)
    return sheet


def _mode(name: str, mode: HubMode, scale: float) -> Sheet:
    """Return the body at rest and turned about the roll axis of a mode."""
    sheet = Sheet(
        f"{name}, {mode.frequency:.2f} Hz",
        f"The aircraft from the front, turned about an axis at {mode.axis_height:.2f} m above the "
        "ground, with its place of rest dashed.",
        height=342,
    )
    height = UNIT * mode.axis_height
    slope = MOVED / (HUB - height)

    def rest(lateral: float, height: float) -> complex:
        return complex(180.0 + scale * lateral, 46.0 + scale * (HUB + 0.3 - height))

    axis = rest(0.0, height)

    def moved(lateral: float, height: float) -> complex:
        return axis + (rest(lateral, height) - axis) * complex(1.0, -slope) / abs(1.0 + 1j * slope)

    ground(sheet, rest(0.0, 0.0) - 140, rest(0.0, 0.0) + 140)
    outline(sheet, rest)
    sheet.line(rest(0.0, 2.3), rest(0.0, HUB), pen=REST)
    aircraft(sheet, moved)
    wheels(sheet, moved)
    sheet.line(axis, moved(0.0, 3.9), pen=AXIS)
    sheet.circle(axis, 4, Pen(MOTION.colour, 1.75), EMPTY)
    hub = rest(0.0, HUB)
    sheet.arrow(hub - 16j, moved(0.0, HUB).real + 1j * hub.imag - 16j, pen=FORCE)
    sheet.label(hub + 14 + 18j, f"{sign(on_gear.LATERAL_MASS)} = {mode.hub_mass:.0f} kg", "start")
    shown = f"{mode.axis_height:.2f} m".replace("-", "\N{MINUS SIGN}")
    middle = complex(336, axis.imag + math.copysign(14, -mode.axis_height))
    foot = rest(0.0, 0.0)
    dimension(sheet, foot, axis, "", offset=128 + 0j)
    sheet.label(middle, f"{sign(on_gear.AXIS_HEIGHT)} = {shown}", "end")
    sheet.label(complex(68, axis.imag), "roll axis", "end")
    leader(sheet, complex(74, axis.imag), axis - 5)
    return sheet


def aircraft(sheet: Sheet, at: Placed, *, blades: bool = True) -> None:
    """Draw body, mast and rotor from the front, with its blades or with the hub alone."""
    sheet.body(
        f"{run([at(*point) for point in ((-0.09, 2.2), (-0.09, 3.6), (0.09, 3.6), (0.09, 2.2))])}z"
    )
    sheet.body([at(*point) for point in ((-0.4, 2.2), (-0.3, 2.62), (0.3, 2.62), (0.4, 2.2))])
    sheet.body(loop([at(*point) for point in _around()]))
    for side in -1.0, 1.0:
        sheet.shape(f"{run([at(side * y, z) for y, z in _WINDOW])}z", FINE, EMPTY)
    half = 2.5 if blades else 0.6
    sheet.body([at(*point) for point in ((-half, 3.58), (-half, 3.63), (half, 3.63), (half, 3.58))])
    sheet.body([at(*point) for point in ((-0.26, 3.52), (-0.26, 3.7), (0.26, 3.7), (0.26, 3.52))])


def outline(sheet: Sheet, at: Placed) -> None:
    """Draw the outline of the body at rest."""
    sheet.shape(loop([at(*point) for point in _around()]), REST)


def wheels(sheet: Sheet, at: Placed) -> None:
    """Draw the legs and wheels of both sides."""
    for side in -1.0, 1.0:
        sheet.line(at(side * 0.72, 0.78), at(side * 1.3, 0.3), pen=Pen("currentColor", 3.0))
        corners = (1.19, 0.02), (1.19, 0.56), (1.41, 0.56), (1.41, 0.02)
        sheet.body([at(side * y, z) for y, z in corners])


def _around() -> list[tuple[float, float]]:
    """Return the section of the body, counterclockwise from its starboard side."""
    right = [*reversed(_FUSELAGE), *_ROOF]
    return [*right, (0.0, 2.3), *[(-y, z) for y, z in reversed(right) if y]]
