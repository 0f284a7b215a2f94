"""The planetary stage: its gears, and what a sensor on the ring receives."""

import math

from calc.harmonics import planetary
from scripts.drawings.drawing import Drawing, sign
from scripts.drawings.parts import box, curve, dimension, leader
from scripts.drawings.pens import EMPTY, FINE, FORCE, INK, NO_FILL, REST, SOLID, TINT, Pen
from scripts.drawings.sheet import Sheet, number, toward

SUN, PLANET, RING = (
    int(q.example) for q in (planetary.SUN_TEETH, planetary.PLANET_TEETH, planetary.RING_TEETH)
)
PLANETS = int(planetary.PLANETS.example)
HUB = 170 + 180j
RING_RADIUS = 112.0
MODULE = 2.0 * RING_RADIUS / RING
CARRIER = 68.0
"""Angle of planet 1, in degrees."""
SENSOR = 90.0
WINDOW = 56.0
"""Angle of the sensor and width of what it receives, in degrees."""
CYCLES = 40
"""Cycles of the mesh that are drawn in a turn of the carrier."""
SEEN = f'fill="{FORCE.colour}" fill-opacity="0.16"'


def planetary_stage() -> Drawing:
    """Return the stage of the form's example, and the signal of a sensor on its ring."""
    return Drawing(
        (_gears(), _signal()),
        r"Planetary stage with the ring fixed, teeth as in the example of the form. The sun drives "
        r"at $f_s$, the carrier is the output and turns the same way at $f_c$; a planet turns the "
        r"other way, at $f_p$ relative to the carrier. A sensor on the ring receives the mesh of a "
        r"planet while that planet passes its window, $N_p$ times in a turn of the carrier. The "
        r"mesh is drawn with fewer cycles than there are.",
    )


def _gears() -> Sheet:
    sheet = Sheet(
        "Gears, along the shaft",
        "A sun in the middle, planets around it on a carrier, a fixed ring about them, and a "
        "sensor on the ring at the top with the window through which it receives.",
        height=318,
    )
    arm = (SUN + PLANET) * MODULE / 2.0
    angles = [CARRIER - 360.0 * count / PLANETS for count in range(PLANETS)]
    pins = [HUB + toward(angle, arm) for angle in angles]
    sheet.disc(HUB, RING_RADIUS + 14)
    sheet.circle(HUB, RING_RADIUS + MODULE, FINE, EMPTY)
    _teeth(sheet, HUB, RING, 0.0)
    for angle, pin in zip(angles, pins, strict=True):
        _gear(sheet, pin, PLANET, planet_phase(angle))
    _gear(sheet, HUB, SUN, sun_phase(CARRIER))
    rim = [HUB + toward(SENSOR + WINDOW * (step / 14.0 - 0.5), RING_RADIUS) for step in range(15)]
    sheet.outline([HUB, *rim], Pen(FORCE.colour, 1.0), SEEN)
    sheet.outline(pins, REST)
    for count, pin in enumerate(pins, 1):
        sheet.circle(pin, 2.5, FINE, SOLID)
        sheet.label(pin - 13, str(count))
    sheet.body(box(HUB - 1j * (RING_RADIUS + 21), 18, 14))
    sheet.label(HUB + 15 - 1j * (RING_RADIUS + 25), "sensor", "start")
    sheet.turn(HUB, 18, 200, 340)
    sheet.label(HUB - 4j, sign(planetary.SUN_FREQUENCY))
    sheet.turn(HUB, arm, angles[1] + 14, CARRIER - 12)
    sheet.label(HUB + toward(24, 90), sign(planetary.CARRIER_FREQUENCY))
    sheet.turn(pins[2], 27, 40, -110)
    sheet.label(pins[2] + 12 - 2j, sign(planetary.SPIN_FREQUENCY))
    sheet.label(4 + 50j, f"planet {sign(planetary.PLANET_TEETH)}", "start")
    leader(sheet, 34 + 60j, pins[3] - 16 - 14j)
    sheet.label(336 + 50j, "carrier", "end")
    leader(sheet, 306 + 60j, (pins[0] + pins[1]) / 2)
    sheet.label(4 + 304j, f"ring {sign(planetary.RING_TEETH)}", "start")
    leader(sheet, 32 + 294j, HUB + toward(222, RING_RADIUS + 8))
    sheet.label(336 + 304j, f"sun {sign(planetary.SUN_TEETH)}", "end")
    leader(sheet, 298 + 297j, HUB + toward(-66, 26))
    return sheet


def planet_phase(angle: float) -> float:
    """Return where a planet has the middle of a tooth so that it fits the ring at an angle."""
    return angle - (RING * angle / 360.0 + 0.5) % 1.0 * 360.0 / PLANET


def sun_phase(angle: float) -> float:
    """Return where the sun has the middle of a tooth so that it fits the planet at an angle."""
    tooth = (angle + 180.0 - planet_phase(angle)) * PLANET / 360.0
    return angle + (tooth + 0.5) % 1.0 * 360.0 / SUN


def _gear(sheet: Sheet, centre: complex, teeth: int, middle: float) -> None:
    """Draw a gear that has the middle of a tooth at an angle."""
    radius = teeth * MODULE / 2.0 - MODULE
    sheet.circle(centre, radius, FINE, EMPTY)
    sheet.circle(centre, radius, FINE, TINT)
    _teeth(sheet, centre, teeth, middle)


def _teeth(sheet: Sheet, centre: complex, teeth: int, middle: float) -> None:
    """Draw teeth as the dashes of a pitch circle, which runs clockwise from the right."""
    shift = (0.25 + middle * teeth / 360.0) % 1.0
    sheet.add(
        f'<circle cx="{number(centre.real)}" cy="{number(centre.imag)}" '
        f'r="{teeth * MODULE / 2.0:.2f}" pathLength="{teeth}" stroke-dasharray=".5" '
        f'stroke-dashoffset="{shift:.3f}" stroke="{INK}" stroke-width="{2.0 * MODULE:.1f}" '
        f'stroke-linecap="butt" {NO_FILL}/>'
    )


def _signal() -> Sheet:
    sheet = Sheet(
        "What the sensor receives",
        "Over one turn of the carrier the mesh swells and fades once for each planet that passes.",
        height=318,
    )
    left, wide, high, base = 18.0, 304.0, 62.0, 148.0

    def window(turn: float) -> float:
        """Return what the sensor receives of a planet, of one at the sensor."""
        away = abs((turn + 0.5) % 1.0 - 0.5) * 360.0
        return math.cos(math.pi / 2.0 * away / WINDOW) ** 2 if away < WINDOW else 0.0

    sheet.arrow(left - 8 + 1j * base, left + wide + 14 + 1j * base)
    for count in range(PLANETS):
        passing = (count + 0.5) / PLANETS
        turns = [passing + step / 360.0 for step in range(int(-WINDOW), int(WINDOW) + 1, 4)]
        top = [complex(left + wide * t, base - high * window(t - passing)) for t in turns]
        bottom = [complex(point.real, 2.0 * base - point.imag) for point in reversed(top)]
        sheet.shape(f"{curve(top)}{curve(bottom).replace('M', 'L')}z", Pen(FORCE.colour, 1.0), SEEN)
        sheet.label(complex(left + wide * passing, base - high - 14), str(count + 1))
    steps = 720
    mesh = [
        complex(
            left + wide * step / steps,
            base
            - high
            * sum(window(step / steps - (n + 0.5) / PLANETS) for n in range(PLANETS))
            * math.sin(2.0 * math.pi * CYCLES * step / steps),
        )
        for step in range(0, steps + 1, 3)
    ]
    sheet.line(*mesh, pen=FINE)
    gap = wide / PLANETS
    first = complex(left + 0.5 * gap, base + high + 10)
    one_pass, one_turn = (
        f"1/{sign(quantity)}"
        for quantity in (planetary.PASS_FREQUENCY, planetary.CARRIER_FREQUENCY)
    )
    dimension(sheet, first, first + gap, one_pass, offset=22j, label=first + gap / 2 + 40j)
    start = complex(left, base + high + 10)
    dimension(sheet, start, start + wide, one_turn, offset=62j, label=start + wide / 2 + 80j)
    sheet.label(complex(left + wide / 2, 44), "planet at the sensor")
    return sheet
