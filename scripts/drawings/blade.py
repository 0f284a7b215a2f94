"""The articulated blade: what the symbols of lag, flap and lag damper mean."""

from calc.blades import quantities as blades
from calc.ground import damper
from calc.ground import quantities as ground
from scripts.drawings.drawing import Drawing, sign
from scripts.drawings.parts import (
    blade,
    box,
    dashpot,
    dimension,
    hinge,
    leader,
    mass_centre,
    spiral,
    turned,
)
from scripts.drawings.pens import AXIS, BODY, EMPTY, FINE, MOTION, REST, SIZES, SOLID
from scripts.drawings.sheet import Sheet, place, toward

SHAFT, HINGE = 40 + 118j, 100 + 118j
SPAN, LEAD, FLAP = 222.0, 13.0, 12.0


def articulated_blade() -> Drawing:
    """Return the blade of the ground-resonance chapter."""
    above = _from_above(
        "Lag, from above",
        "A blade on its lag hinge, seen from above. The rotor turns counterclockwise; the blade "
        "leads, which is a positive lag angle. The damper acts on an arm about the hinge.",
    )
    _damper(above)
    centre = HINGE + toward(LEAD, 0.46 * SPAN)
    mass_centre(above, centre)
    above.label(centre - 22j - 2, sign(ground.BLADE_MASS))
    slice_at = HINGE + toward(LEAD, 0.78 * SPAN)
    above.outline(turned(box(5.2j, 5, 26), LEAD, slice_at), FINE, SOLID)
    above.label(slice_at - 24j, "d$m$")
    dimension(above, HINGE, slice_at, "$r$", offset=toward(LEAD - 90, 44))
    above.label(
        206 + 218j,
        f"{sign(ground.FIRST_MOMENT)} = ∫ $r$ d$m$,  {sign(ground.LAG_INERTIA)} = ∫ $r^2$ d$m$",
    )
    side = _from_the_side(
        "Flap, from the side",
        "The same blade from the side, flapping upwards by the flap angle.",
    )
    return Drawing(
        (above, side),
        r"An articulated blade. The lag angle $\xi$ is counted from the line through shaft and "
        r"hinge and is positive in lead, ahead of it in the direction of rotation. The moments "
        r"$S_\xi$ and $I_\xi$ count the distance $r$ of each piece of mass from the lag hinge, not "
        r"from the shaft, and only mass outboard of the hinge. The flap angle $\beta$ is positive "
        r"upwards. All angles are drawn too large.",
    )


def rigid_blade() -> Drawing:
    """Return the blade of the blade chapter, with springs in its hinges."""
    above = _from_above(
        "Lag, from above",
        "A rigid blade on a lag hinge with a torsional spring, seen from above; it leads.",
    )
    spiral(above, HINGE, 19.0, 180.0)
    hinge(above, HINGE)
    above.label(HINGE + 22 + 28j, sign(blades.LAG_HINGE_SPRING))
    _moments(above, LEAD, f"{sign(blades.LAG_MOMENT)}, {sign(blades.LAG_INERTIA)}")
    side = _from_the_side(
        "Flap, from the side",
        "The same blade on a flap hinge with a torsional spring, seen from the side.",
    )
    spiral(side, HINGE, 19.0, 180.0)
    hinge(side, HINGE)
    side.label(HINGE + 22 + 28j, sign(blades.FLAP_HINGE_SPRING))
    _moments(side, FLAP, f"{sign(blades.FLAP_MOMENT)}, {sign(blades.FLAP_INERTIA)}")
    return Drawing(
        (above, side),
        r"A rigid blade on hinges at the offset $e$. Moments count from the hinge outwards. "
        r"Lag $\xi$ is positive in lead, flap $\beta$ positive upwards; the "
        r"angles are drawn too large.",
    )


def _from_above(title: str, description: str) -> Sheet:
    """Return shaft, hub arm and a blade that leads."""
    sheet = Sheet(title, description, 340, 236)
    sheet.line(SHAFT - 34, SHAFT + 290, pen=AXIS)
    sheet.line(SHAFT - 26j, SHAFT + 26j, pen=AXIS)
    sheet.body(box((SHAFT + HINGE) / 2, 60, 15))
    sheet.disc(SHAFT, 15)
    sheet.circle(SHAFT, 1.6, FINE, SOLID)
    sheet.body(turned(blade(SPAN, 26), LEAD, HINGE))
    sheet.line(HINGE, HINGE + toward(LEAD, SPAN + 12), pen=REST)
    hinge(sheet, HINGE)
    sheet.turn(SHAFT, 30, 118, 205)
    sheet.label(SHAFT - 30 - 33j, sign(ground.ROTOR_SPEED))
    sheet.turn(HINGE, 186, 0.0, LEAD)
    sheet.label(HINGE + 193 - 13j, r"$\xi$ > 0", "start")
    dimension(sheet, SHAFT, HINGE, sign(ground.HINGE_OFFSET), offset=-50j, label=70 + 52j)
    sheet.label(112 + 82j, "lag hinge", "start")
    leader(sheet, 122 + 90j, HINGE + 3.5 - 4j)
    return sheet


def _damper(sheet: Sheet) -> None:
    """Draw the lag damper between the hub and an arm of the blade."""
    arm = HINGE + toward(LEAD - 90.0, 36.0)
    foot = complex(SHAFT.real + 6.0, arm.imag)
    sheet.line(SHAFT + 6 + 14j, foot + 5j)
    sheet.line(HINGE + toward(LEAD - 90.0, 5.0), arm + toward(LEAD - 90.0, 4.0), pen=BODY)
    dashpot(sheet, foot, arm)
    sheet.circle(foot, 2.2, FINE, EMPTY)
    sheet.circle(arm, 2.2, FINE, EMPTY)
    sheet.label(complex(8, arm.imag + 24), f"lag damper {sign(ground.LAG_DAMPING)}", "start")
    sheet.line(arm, complex(HINGE.real + 34, arm.imag), pen=SIZES)
    bottom = complex(HINGE.real + 28, arm.imag)
    dimension(sheet, HINGE + 28, bottom, sign(damper.ARM), label=HINGE + 38 + 21j)


def _moments(sheet: Sheet, angle: float, names: str) -> None:
    """Mark the centre of mass of the blade and name its moments."""
    centre = HINGE + toward(angle, 0.5 * SPAN)
    mass_centre(sheet, centre)
    sheet.label(centre + 46j, names)
    leader(sheet, centre + 37j, centre + 7j)


def _from_the_side(title: str, description: str) -> Sheet:
    """Return the mast, the hub and a blade that flaps up."""
    sheet = Sheet(title, description, 340, 236)
    sheet.line(SHAFT - 58j, SHAFT + 92j, pen=AXIS)
    sheet.line(SHAFT + 20, SHAFT + 290, pen=AXIS)
    sheet.body(box(SHAFT + 43j, 16, 78))
    sheet.body(box((SHAFT + HINGE) / 2 - 6, 76, 13))
    thin = [0 - 3j, SPAN - 3 - 3j, SPAN + 0j, SPAN - 3 + 3j, 0 + 3j]
    sheet.body(turned(thin, FLAP, HINGE))
    hinge(sheet, HINGE)
    sheet.shape(f"M{place(SHAFT - 17 - 44j)}A20 6 0 1 0 {place(SHAFT + 17 - 44j)}", MOTION)
    sheet.head(SHAFT + 17 - 44j, -2 - 6j, MOTION)
    sheet.label(SHAFT + 34 - 50j, sign(ground.ROTOR_SPEED))
    sheet.turn(HINGE, 186, 0.0, FLAP)
    sheet.label(HINGE + 193 - 16j, r"$\beta$ > 0", "start")
    dimension(sheet, SHAFT, HINGE, sign(ground.HINGE_OFFSET), offset=84j, label=70 + 202j)
    sheet.label(SHAFT + 16 + 46j, "shaft", "start")
    sheet.label(118 + 78j, "flap hinge", "start")
    leader(sheet, 126 + 86j, HINGE + 3.5 - 4j)
    return sheet
