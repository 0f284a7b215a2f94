"""The hub from above: its axes and the direction of rotation, its masses, springs and dampers."""

from calc.ground import quantities as hub
from scripts.drawings.drawing import Drawing, sign
from scripts.drawings.parts import box, dashpot, ground, loop, spring, turned
from scripts.drawings.pens import FAINT, FINE, INK, MOTION, SIZES, SOLID, Pen
from scripts.drawings.sheet import Sheet, toward

AZIMUTH = 38.0


def hub_axes() -> Drawing:
    """Return axes and azimuth, and what holds the hub."""
    return Drawing(
        (_axes(), _support()),
        r"Hub axes. For a rotor that turns counterclockwise seen from above, $x$ points aft and "
        r"$y$ to starboard, and the azimuth $\psi_k$ of a blade is counted from aft, as in the "
        r"rotor chapter. For a rotor that turns clockwise $y$ points to port. What matters is "
        r"that the rotation goes from $x$ to $y$. The effective masses are those of the aircraft "
        r"at the hub, without the blades.",
    )


def _axes() -> Sheet:
    """Return the axes and the azimuth on the aircraft from above."""
    sheet = Sheet(
        "Axes, from above",
        "The aircraft from above with its nose up the page: x points aft, y to starboard, the "
        "rotor turns counterclockwise, from x towards y.",
        height=312,
    )
    centre = 170 + 152j
    right = [
        0 - 122j,
        18 - 112j,
        29 - 84j,
        31 - 30j,
        25 + 20j,
        9 + 52j,
        6 + 100j,
        4 + 142j,
        0 + 143j,
    ]
    left = [-point.conjugate() for point in right[-2:0:-1]]
    sheet.shape(loop([centre + point for point in (*right, *left)]), FAINT)
    sheet.line(centre + 126j - 30, centre + 126j - 5, pen=FAINT)
    sheet.line(centre + 126j + 5, centre + 126j + 30, pen=FAINT)
    sheet.circle(centre, 104, SIZES)
    for number in range(4):
        outline = [6 - 3j, 104 - 3j, 104 + 5j, 6 + 5j]
        sheet.body(turned(outline, AZIMUTH - 90.0 + 90.0 * number, centre))
    sheet.arrow(centre, centre + 152j, pen=Pen(INK, 1.5))
    sheet.arrow(centre, centre + 132, pen=Pen(INK, 1.5))
    sheet.disc(centre, 9)
    sheet.circle(centre, 1.6, FINE, SOLID)
    sheet.label(centre + 12 + 146j, "$x$, aft", "start")
    sheet.label(centre + 126 - 16j, "$y$, starboard")
    sheet.turn(centre, 70, -90.0, AZIMUTH - 90.0)
    sheet.label(centre + toward(AZIMUTH / 2.0 - 90.0, 84), r"$\psi_k$")
    sheet.label(centre + toward(AZIMUTH - 92.0, 120), "blade $k$")
    sheet.turn(centre, 116, 118, 158)
    sheet.label(centre + toward(137, 130), sign(hub.ROTOR_SPEED))
    sheet.label(centre + 50 - 128j, "nose", "end", soft=True)
    return sheet


def _support() -> Sheet:
    """Return the springs and dampers of the hub."""
    sheet = Sheet(
        "What holds the hub, from above",
        "The hub as a mass on a spring and a damper in each direction, x and y.",
        height=312,
    )
    centre = 118 + 118j
    spring(sheet, centre - 15 + 30j, centre - 15 + 128j)
    dashpot(sheet, centre + 15 + 128j, centre + 15 + 30j)
    ground(sheet, centre - 44 + 128j, centre + 44 + 128j)
    spring(sheet, centre + 30 - 15j, centre + 148 - 15j)
    dashpot(sheet, centre + 148 + 15j, centre + 30 + 15j)
    ground(sheet, centre + 148 + 44j, centre + 148 - 44j)
    sheet.body(box(centre, 64, 64))
    for number in range(4):
        sheet.line(
            centre + toward(AZIMUTH + 90.0 * number, 8),
            centre + toward(AZIMUTH + 90.0 * number, 70),
            pen=SIZES,
        )
    sheet.disc(centre, 8)
    sheet.circle(centre, 1.6, FINE, SOLID)
    sheet.label(centre - 42, f"{sign(hub.MASS_X)}, {sign(hub.MASS_Y)}", "end")
    sheet.label(centre - 28 + 79j, sign(hub.STIFFNESS_X), "end")
    sheet.label(centre + 28 + 79j, sign(hub.DAMPING_X), "start")
    sheet.label(centre + 89 - 32j, sign(hub.STIFFNESS_Y))
    sheet.label(centre + 89 + 34j, sign(hub.DAMPING_Y))
    sheet.turn(centre, 58, 60, 112)
    sheet.label(centre + toward(86, 72), sign(hub.ROTOR_SPEED))
    corner = 258 + 214j
    sheet.arrow(corner, corner + 52j, pen=MOTION)
    sheet.arrow(corner, corner + 52, pen=MOTION)
    sheet.label(corner + 12 + 46j, "$x$")
    sheet.label(corner + 48 - 14j, "$y$")
    return sheet
