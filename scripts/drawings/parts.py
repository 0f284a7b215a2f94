"""What machines are drawn with: springs, dampers, hinges, masses, ground, dimensions."""

import math
from collections.abc import Sequence

from scripts.drawings.pens import BODY, EMPTY, FINE, INK, NO_FILL, SIZES, SOFT, SOLID, Pen
from scripts.drawings.sheet import Sheet, bow, place, run, toward

WIRE = Pen(INK, 1.4)
HATCHING = Pen(SOFT, 0.9)


def spring(
    sheet: Sheet, start: complex, end: complex, *, turns: int = 5, wide: float = 7.0
) -> None:
    """Draw a spring from place to place."""
    along = end - start
    unit = along / abs(along)
    lead = min(8.0, 0.15 * abs(along))
    length = abs(along) - 2.0 * lead
    zigzag = [
        start
        + unit * (lead + length * (step + 0.5) / (2 * turns))
        + unit * 1j * wide * (-1) ** step
        for step in range(2 * turns)
    ]
    sheet.line(start, start + unit * lead, *zigzag, end - unit * lead, end, pen=WIRE)


def dashpot(sheet: Sheet, start: complex, end: complex, *, wide: float = 7.0) -> None:
    """Draw a damper from place to place: the cylinder at the start, the piston at the end."""
    along = end - start
    unit = along / abs(along)
    side = unit * 1j * wide
    middle = start + along / 2.0
    length = min(0.42 * abs(along), 26.0)
    bottom, mouth = middle - unit * length / 2.0, middle + unit * length / 2.0
    piston = middle + unit * length * 0.06
    sheet.line(start, bottom, pen=WIRE)
    sheet.line(mouth + side, bottom + side, bottom - side, mouth - side, pen=WIRE)
    sheet.line(piston + side * 0.8, piston - side * 0.8, pen=Pen(INK, 2.2))
    sheet.line(piston, end, pen=WIRE)


def spiral(sheet: Sheet, centre: complex, radius: float, start: float = 0.0) -> None:
    """Draw a torsional spring about a hinge, its outer end at an angle."""
    arms = [
        centre + toward(start - 15.0 * step, radius * (1.0 - 0.62 * step / 48.0))
        for step in range(49)
    ]
    sheet.line(*arms, pen=Pen(INK, 1.2))


def hinge(sheet: Sheet, at: complex, radius: float = 5.0) -> None:
    """Draw a hinge seen along its pin."""
    sheet.circle(at, radius, BODY, EMPTY)
    sheet.circle(at, 1.2, FINE, SOLID)


def mass_centre(sheet: Sheet, at: complex, radius: float = 6.0) -> None:
    """Draw the sign of a centre of mass: a disc with two dark quarters."""
    sheet.circle(at, radius, FINE, EMPTY)
    for angle in 0.0, 180.0:
        quarter = f"M{place(at)}L{bow(at, radius, angle, angle + 90.0)[1:]}z"
        sheet.shape(quarter, Pen(INK, 0.5), SOLID)
    sheet.circle(at, radius, FINE, NO_FILL)


def ground(sheet: Sheet, start: complex, end: complex, *, depth: float = 7.0) -> None:
    """Draw a fixed line; its hatching lies to the right of the way from start to end."""
    along = end - start
    unit = along / abs(along)
    back = (unit * 1j - unit) * depth
    count = max(2, round(abs(along) / 8.0))
    feet = [start + along * (step + 0.75) / count for step in range(count)]
    sheet.shape("".join(run([foot, foot + back]) for foot in feet), HATCHING)
    sheet.line(start, end, pen=BODY)


def dimension(
    sheet: Sheet,
    start: complex,
    end: complex,
    text: str,
    *,
    offset: complex = 0j,
    label: complex | None = None,
    anchor: str = "middle",
) -> None:
    """Draw a length between two places, moved aside by an offset, with its name on the line.

    A length too short for its heads has them outside; `label` puts the name elsewhere.
    """
    first, last = start + offset, end + offset
    unit = (last - first) / abs(last - first)
    if offset:
        beyond = offset / abs(offset) * 4.0
        for foot, tip in (start, first), (end, last):
            sheet.line(foot + beyond, tip + beyond, pen=SIZES)
    if abs(last - first) < 24.0:
        sheet.arrow(first - 16.0 * unit, first, pen=SIZES)
        sheet.arrow(last + 16.0 * unit, last, pen=SIZES)
        sheet.line(first, last, pen=SIZES)
    else:
        sheet.arrow(first, last, pen=SIZES, both=True)
    sheet.label((first + last) / 2.0 if label is None else label, text, anchor)


def leader(sheet: Sheet, at: complex, *corners: complex) -> None:
    """Draw a thin line from a label to what it names, with a dot there."""
    sheet.line(at, *corners, pen=SIZES)
    sheet.circle(corners[-1], 1.6, Pen(SIZES.colour, 0.5), f'fill="{SIZES.colour}"')


def turned(points: Sequence[complex], angle: float, about: complex = 0j) -> list[complex]:
    """Return places turned about one of them and counted from it."""
    return [about + point * toward(angle) for point in points]


def blade(length: float, chord: float, cuff: float = 22.0) -> list[complex]:
    """Return the outline of a blade from above: its hinge at zero, its leading edge up."""
    front, back, neck = -0.3 * chord, 0.7 * chord, 0.22 * chord
    return [
        complex(0.0, -neck),
        complex(cuff, -neck),
        complex(cuff + 12.0, front),
        complex(length - 3.0, front),
        complex(length, front + 3.0),
        complex(length, back - 3.0),
        complex(length - 3.0, back),
        complex(cuff + 16.0, back),
        complex(cuff, neck),
        complex(0.0, neck),
    ]


def box(centre: complex, wide: float, high: float) -> list[complex]:
    """Return the corners of a rectangle."""
    half = complex(wide, high) / 2.0
    return [centre - half, centre + half.conjugate(), centre + half, centre - half.conjugate()]


def curve(points: Sequence[complex]) -> str:
    """Return a smooth line through places as a path of SVG."""
    return _smooth([points[0], *points, points[-1]])


def loop(points: Sequence[complex]) -> str:
    """Return a smooth closed line through places as a path of SVG."""
    return f"{_smooth([points[-1], *points, *points[:2]])}z"


def _smooth(points: Sequence[complex]) -> str:
    """Return a smooth line through all but the first and the last of some places."""
    pieces = [f"M{place(points[1])}"]
    for before, start, end, after in zip(points, points[1:], points[2:], points[3:], strict=False):
        near, far = start + (end - before) / 6.0, end - (after - start) / 6.0
        pieces.append(f"C{place(near)} {place(far)} {place(end)}")
    return "".join(pieces)


def hatched(sheet: Sheet, corners: Sequence[complex], pen: Pen, *, gap: float = 8.0) -> None:
    """Fill a figure with straight sides with slanting lines."""
    sides = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    levels = [corner.real + corner.imag for corner in corners]
    level = gap * math.ceil(min(levels) / gap) + 0.01
    lines = []
    while level < max(levels):
        met = []
        for start, end in sides:
            first, last = start.real + start.imag, end.real + end.imag
            if (first - level) * (last - level) < 0.0:
                met.append(start + (end - start) * (level - first) / (last - first))
        met.sort(key=lambda point: point.real)
        lines += [run(pair) for pair in zip(met[::2], met[1::2], strict=True)]
        level += gap
    sheet.shape("".join(lines), pen)


def axes(sheet: Sheet, corner: complex, wide: float, high: float, names: tuple[str, str]) -> None:
    """Draw a pair of axes from their lower left corner, with the names of what they show."""
    sheet.arrow(corner, corner + wide, pen=FINE)
    sheet.arrow(corner, corner - 1j * high, pen=FINE)
    sheet.label(corner + wide + 16j, names[0], "end")
    sheet.label(corner - 1j * (high + 12) - 6, names[1], "start")
