"""The Coleman diagram of the example aircraft, with what its lines are."""

import math

from calc.ground.examples import PLOVER_ROTOR, PLOVER_SUPPORT
from calc.ground.model.aircraft import support_frequencies
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.model.mode_tracks import mode_tracks
from calc.ground.stability import unstable_bands
from calc.units import RPM
from scripts.drawings.drawing import Drawing
from scripts.drawings.parts import axes, dimension, hatched, leader
from scripts.drawings.pens import AIR, AXIS, FINE, FORCE, INK, MOTION, WARNING, Pen
from scripts.drawings.sheet import Sheet, place

CORNER = 34 + 330j
WIDE, HIGH = 276.0, 270.0
FASTEST, HIGHEST = 400.0, 9.0
"""Ends of the axes, in rpm and Hz."""


def annotated_coleman() -> Drawing:
    """Return the diagram of the Plover."""
    return Drawing(
        (_diagram(),),
        r"How a Coleman diagram is read, on the example aircraft. In the fixed frame the lag "
        r"frequency $\omega_\xi$ stands below and above the line of once per revolution. Where the "
        r"regressing lag mode meets a mode of the aircraft on its gear, at a coalescence speed, "
        r"the motion may grow; whether it does is for the growth rate to say. Lines are the "
        r"frequencies without coupling, dots those of the coupled system; the hatched range is "
        r"unstable with the dampers of the example.",
    )


def _at(rpm: float, hertz: float) -> complex:
    return CORNER + complex(rpm / FASTEST * WIDE, -hertz / HIGHEST * HIGH)


def _diagram() -> Sheet:
    sheet = Sheet(
        "Coleman diagram, annotated",
        "Frequencies in the fixed frame over rotor speed: once per revolution, progressing lag "
        "above it, regressing lag below it, two nearly level modes of the aircraft on its gear, "
        "the crossings circled and the unstable range hatched.",
        width=360,
        height=372,
    )
    _unstable(sheet)
    _coupled(sheet)
    for factor, pen in (-1.0, MOTION), (1.0, Pen(MOTION.colour, 2.0, "7 3")):
        sheet.line(*(_at(rpm, rpm / 60.0 + factor * _lag(rpm)) for rpm in (0.0, FASTEST)), pen=pen)
    for rate in support_frequencies(PLOVER_ROTOR, PLOVER_SUPPORT):
        level = rate / (2.0 * math.pi)
        sheet.line(_at(0.0, level), _at(FASTEST, level), pen=AIR)
    sheet.line(_at(0.0, 0.0), _at(FASTEST, FASTEST / 60.0), pen=AXIS)
    axes(sheet, CORNER, WIDE + 22, HIGH + 6, ("", "Hz"))
    for rpm in (100.0, 200.0, 300.0, 400.0):
        sheet.line(_at(rpm, 0.0), _at(rpm, 0.0) + 4j, pen=FINE)
        sheet.label(_at(rpm, 0.0) + 13j, f"{rpm:.0f}")
    for hertz in (2.0, 4.0, 6.0, 8.0):
        sheet.line(_at(0.0, hertz), _at(0.0, hertz) - 4, pen=FINE)
        sheet.label(_at(0.0, hertz) - 8, f"{hertz:.0f}", "end")
    for speed in coalescence_speeds(PLOVER_ROTOR, PLOVER_SUPPORT) or ():
        rpm = RPM.reading(speed)
        sheet.circle(_at(rpm, rpm / 60.0 - _lag(rpm)), 7, FORCE)
        leader(sheet, _at(128, 5.05), _at(rpm, rpm / 60.0 - _lag(rpm)) - 5 - 5j)
    sheet.label(CORNER + WIDE + 22 + 32j, "rotor speed, rpm", "end")
    _names(sheet)
    return sheet


def _lag(rpm: float) -> float:
    """Return the lag frequency in the rotating frame, Hz."""
    return PLOVER_ROTOR.lag_frequency(RPM.si(rpm)) / (2.0 * math.pi)


def _unstable(sheet: Sheet) -> None:
    """Hatch the unstable ranges."""
    for low, high in unstable_bands(PLOVER_ROTOR, PLOVER_SUPPORT, RPM.si(10.0), RPM.si(FASTEST)):
        first, last = RPM.reading(low), RPM.reading(high)
        box = [_at(first, 0), _at(last, 0), _at(last, HIGHEST), _at(first, HIGHEST)]
        sheet.outline(box, Pen(WARNING, 0.75), f'fill="{WARNING}" fill-opacity="0.08"')
        hatched(sheet, box, Pen(WARNING, 0.6), gap=12)
        sheet.label(_at((first + last) / 2, HIGHEST) + 14j, "unstable")


def _coupled(sheet: Sheet) -> None:
    """Draw the frequencies of the coupled system as small dots."""
    speeds = [5.0 * step for step in range(2, 80)]
    tracks = mode_tracks(PLOVER_ROTOR, PLOVER_SUPPORT, [RPM.si(rpm) for rpm in speeds])
    dots = [
        f"M{place(_at(rpm, abs(point.frequency) / (2.0 * math.pi)))}h0"
        for rpm, points in zip(speeds, tracks, strict=True)
        for point in points
    ]
    sheet.shape("".join(dots), Pen(INK, 2.4))


def _names(sheet: Sheet) -> None:
    """Write what the lines are."""
    sheet.label(_at(20, 7.6), "progressing\nlag $\\Omega + \\omega_\\xi$", "start")
    leader(sheet, _at(160, 7.5), _at(318, 318 / 60.0 + _lag(318)))
    sheet.label(_at(400, 6.67) + 8, "1/rev", "start")
    sheet.label(_at(20, 5.2), "coalescence", "start")
    sheet.label(_at(6, 3.7), "lateral mode", "start")
    sheet.label(_at(6, 2.62), "longitudinal", "start")
    sheet.label(_at(316, 1.2), "regressing\nlag $\\Omega - \\omega_\\xi$", "start")
    leader(sheet, _at(336, 1.75), _at(336, 336 / 60.0 - _lag(336)))
    for side in -1.0, 1.0:
        ends = _at(378, 378 / 60.0), _at(378, 378 / 60.0 + side * _lag(378))
        dimension(sheet, *ends, "")
        sheet.label(sum(ends) / 2 - 8 + 2j * side, r"$\omega_\xi$", "end")
