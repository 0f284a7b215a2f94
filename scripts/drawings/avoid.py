"""An avoid band and a wedge of the map of two speeds, explained."""

from scripts.drawings.drawing import Drawing
from scripts.drawings.parts import axes, dimension, hatched, leader
from scripts.drawings.pens import (
    AXIS,
    DANGER,
    FINE,
    INK,
    MOTION,
    PAPER,
    REST,
    SOLID,
    TINT,
    WARNING,
    Pen,
)
from scripts.drawings.sheet import Sheet

FACTOR, UNCERTAINTY = 1.1, 0.08
"""Factor of the margin and tolerance of the mode, both drawn larger than usual."""
BAND = f'fill="{WARNING}" fill-opacity="0.1"'


def avoid_band() -> Drawing:
    """Return how a band and how a wedge come about."""
    return Drawing(
        (_band(), _wedge()),
        r"How an avoid band comes about. An order $k$ of the rotor crosses a mode whose frequency "
        r"$f_n$ is known to a fraction $u$; the margin widens the crossing by the factor $q$ on "
        r"both sides. Two orders of independent speeds coincide along a line, and the margin makes "
        r"a wedge of it: at each propeller speed $n$ there is a band of rotor speed, which moves "
        r"with $n$. Margin and tolerance are drawn too large.",
    )


def _band() -> Sheet:
    sheet = Sheet(
        "An order crosses a mode",
        "A ray of an order over rotor speed crosses the range of a mode's frequency; the band of "
        "rotor speed about the crossing is hatched.",
        height=316,
    )
    corner, slope, mode = 40 + 272j, 0.78, 128.0
    first, last = (mode * (1.0 + side * UNCERTAINTY) * FACTOR**side / slope for side in (-1, 1))
    edges = [mode * (1.0 + side * UNCERTAINTY) for side in (-1, 1)]
    box = [corner + first, corner + last, corner + last - 200j, corner + first - 200j]
    sheet.outline(box, Pen(WARNING, 0.1), BAND)
    hatched(sheet, box, Pen(WARNING, 0.8))
    strip = [
        corner - 1j * edges[0],
        corner + 278 - 1j * edges[0],
        corner + 278 - 1j * edges[1],
        corner - 1j * edges[1],
    ]
    sheet.outline(strip, Pen(INK, 0.1), TINT)
    sheet.line(corner - 1j * mode, corner + 278 - 1j * mode, pen=AXIS)
    for edge, place in zip(edges, (first, last), strict=True):
        sheet.line(corner - 1j * edge, corner + 278 - 1j * edge, pen=FINE)
        sheet.line(corner + place, corner + place - 200j, pen=DANGER)
    sheet.line(corner, corner + 262 - 262j * slope, pen=MOTION)
    axes(sheet, corner, 290, 226, (r"rotor speed $\Omega$", "frequency"))
    sheet.label(corner + 232 - 166j, r"$k \Omega / 2 \pi$", "start")
    sheet.label(corner + 6 - 1j * (edges[1] + 12), "mode $f_n (1 + u)$", "start")
    sheet.label(corner + 6 - 1j * (edges[0] - 14), "mode $f_n (1 - u)$", "start")
    dimension(sheet, corner + first, corner + last, "avoid", offset=-36j)
    sheet.label(corner + 240 - 20j, "free")
    sheet.label(corner + 56 - 20j, "free")
    return sheet


def _wedge() -> Sheet:
    sheet = Sheet(
        "Two orders coincide: one wedge of the map",
        "Over rotor speed and propeller speed two orders are equal along a line; the margin makes "
        "a wedge of it, and the speeds in it are avoided.",
        height=316,
    )
    corner, ratio, top = 40 + 272j, 0.98, 200.0
    left, right = top * ratio / FACTOR, top * ratio * FACTOR
    wedge = [corner, corner + left - 1j * top, corner + right - 1j * top]
    sheet.outline(wedge, Pen(WARNING, 0.1), BAND)
    hatched(sheet, wedge, Pen(WARNING, 0.8))
    sheet.line(corner, wedge[1], pen=DANGER)
    sheet.line(corner, wedge[2], pen=DANGER)
    sheet.line(corner, corner + top * ratio - 1j * top, pen=MOTION)
    axes(sheet, corner, 290, 226, (r"rotor speed $\Omega$", "propeller speed $n$"))
    level = 138.0
    sheet.line(corner - 1j * level, corner + 284 - 1j * level, pen=REST)
    first, last = (corner + level * ratio * FACTOR**side for side in (-1, 1))
    for place in first, last:
        sheet.line(place - 1j * level, place, pen=REST)
    sheet.label((first + last) / 2 - 18j, "avoid")
    sheet.arrow(first - 18 - 34j, first - 34j)
    sheet.arrow(last + 18 - 34j, last - 34j)
    point = corner + 232 - 1j * level
    sheet.circle(point, 4.5, Pen(PAPER, 1.5), SOLID)
    sheet.label(point + 54 + 16j, "operating point", "end")
    sheet.label(corner + 164 - 214j, r"$k_1 \Omega = k_2 n$", "start")
    sheet.label(corner + 6 - 178j, r"$\Omega / n = k_2 / (k_1 q)$", "start")
    leader(sheet, corner + 92 - 166j, corner + 150 * ratio / FACTOR - 150j)
    sheet.label(corner + 182 - 90j, r"$\Omega / n = k_2 q / k_1$", "start")
    leader(sheet, corner + 178 - 92j, corner + 104 * ratio * FACTOR - 104j)
    sheet.label(corner + 240 - 40j, "free")
    sheet.label(corner + 36 - 104j, "free")
    return sheet
