"""How ground resonance works: a rotor from above, and the loop of two motions beside it."""

import math
from dataclasses import replace

from calc.ground import quantities
from calc.ground.examples import PLOVER_ROTOR, PLOVER_SUPPORT
from calc.ground.model.coalescence import coalescence_speeds
from calc.ground.stability import growth_rate
from calc.units import RPM, TURN_PER_SECOND
from scripts.drawings.drawing import sign
from scripts.drawings.lag import BLADES, WHIRL, cyclic, rotor_from_above
from scripts.drawings.parts import box, dashpot, ground
from scripts.drawings.pens import EMPTY, FORCE, MOTION
from scripts.drawings.sheet import Sheet
from scripts.stepped.figure import Stepped

HUB = 104 + 132j
BLADES_BOX, HUB_BOX = 320 + 92j, 320 + 200j
LAST = 8


def mechanism() -> Stepped:
    """Return the mechanism with the numbers of the Plover at its lateral coalescence."""
    sheet = Sheet(
        "How ground resonance works, step by step",
        "A rotor from above whose blades bunch, so that their centre of mass leaves the shaft, "
        "whirls and pulls the hub; beside it the loop of two motions that drive each other, with a "
        "damper at each and the drive that feeds them.",
        width=440,
        height=286,
        headed=False,
    )
    _rotor(sheet)
    _loop(sheet)
    return Stepped(sheet.title, sheet.svg, _captions())


def _rotor(sheet: Sheet) -> None:
    """Draw the rotor, evenly spread and then bunched, its whirl, its pull and the hub's motion."""
    with sheet.step(1, 1):
        rotor_from_above(sheet, 45.0, (0.0,) * BLADES, hub=HUB)
        sheet.label(HUB + 104j, "centre of mass on the shaft")
    with sheet.step(2):
        rotor_from_above(sheet, 45.0, cyclic(45.0, 0.0), hub=HUB)
    with sheet.step(2, 2):
        sheet.label(HUB + 104j, "centre of mass off the shaft")
    with sheet.step(3):
        sheet.turn(HUB, 80, 62, 118)
        sheet.label(HUB - 96j, sign(quantities.ROTOR_SPEED))
        sheet.turn(HUB, WHIRL, -100.0, -20.0, pen=FORCE)
        sheet.label(HUB + 104j, r"whirls at $\Omega - \omega_\xi$")
    with sheet.step(4):
        sheet.arrow(HUB + 36, HUB + 78, pen=FORCE)
        sheet.label(HUB + 96, "pull")
    with sheet.step(5):
        sheet.arrow(HUB - 72, HUB - 14, pen=MOTION, both=True)
        sheet.label(HUB - 46 - 14j, "hub")


def _loop(sheet: Sheet) -> None:
    """Draw the two motions, how each drives the other, the dampers and the drive."""
    for centre, name in (BLADES_BOX, "lag of the blades"), (HUB_BOX, "motion of the hub"):
        sheet.outline(box(centre, 150, 36), fill=EMPTY)
        sheet.label(centre, name)
    aside = 44.0
    with sheet.step(4):
        sheet.arrow(BLADES_BOX - aside + 20j, HUB_BOX - aside - 20j, pen=FORCE)
        sheet.label((BLADES_BOX + HUB_BOX) / 2.0 - aside - 8, "pulls", "end")
    with sheet.step(6):
        sheet.arrow(HUB_BOX + aside - 20j, BLADES_BOX + aside + 20j, pen=MOTION)
        sheet.label((BLADES_BOX + HUB_BOX) / 2.0 + aside + 8, "swings", "start")
    with sheet.step(7):
        sheet.label((BLADES_BOX + HUB_BOX) / 2.0 + 12j, "energy from\nthe drive")
        sheet.arrow(BLADES_BOX + 44j, BLADES_BOX + 20j, pen=FORCE)
    with sheet.step(LAST):
        dashpot(sheet, BLADES_BOX - 66j, BLADES_BOX - 18j)
        ground(sheet, BLADES_BOX + 24 - 66j, BLADES_BOX - 24 - 66j)
        sheet.label(BLADES_BOX + 16 - 42j, f"lag damper {sign(quantities.LAG_DAMPING)}", "start")
        dashpot(sheet, HUB_BOX + 66j, HUB_BOX + 18j)
        ground(sheet, HUB_BOX - 24 + 66j, HUB_BOX + 24 + 66j)
        sheet.label(HUB_BOX + 16 + 42j, f"gear {sign(quantities.DAMPING_Y)}", "start")


def _captions() -> tuple[str, ...]:
    """Return what is new in each step."""
    speed = coalescence_speeds(PLOVER_ROTOR, PLOVER_SUPPORT)[1]
    whirl = speed - PLOVER_ROTOR.lag_frequency(speed)
    offset = PLOVER_ROTOR.first_moment * math.radians(1.0) / (2.0 * PLOVER_ROTOR.blade_mass)
    force = PLOVER_ROTOR.blades * PLOVER_ROTOR.blade_mass * offset * whirl**2
    at = f"{RPM.reading(speed):.1f} rpm"
    hertz = TURN_PER_SECOND.reading(whirl)
    turning = TURN_PER_SECOND.reading(speed)
    return (
        "Four blades evenly spread: their centre of mass lies on the shaft, and nothing pulls.",
        (
            f"Blades that lead and lag bunch on one side: one degree moves the centre of mass "
            f"{1000.0 * offset:.0f} mm off the shaft."
        ),
        (
            f"At {at} the bunch goes round {hertz:.2f} times a second, with the rotor but "
            f"more slowly than its {turning:.2f}."
        ),
        f"It pulls the hub round with it: {force / 1000.0:.1f} kN for one degree.",
        (
            f"The aircraft on its gear has the same {hertz:.2f} Hz sideways: a small pull makes a "
            "large motion."
        ),
        "The moving hub swings the blades in step with their bunch: each motion drives the other.",
        "The drive, which holds the rotor speed, gives the energy: undamped, both motions grow.",
        f"Dampers take energy at both ends: at {at} the growth rate is {_growth(1.0, speed):+.2f} "
        f"1/s as built, {_growth(2.0, speed):+.2f} 1/s with twice the lag damping.".replace(
            "-", "−"
        ),
    )


def _growth(lag: float, speed: float) -> float:
    """Return the growth rate at a rotor speed with the lag damping multiplied."""
    rotor = replace(PLOVER_ROTOR, lag_damping=lag * PLOVER_ROTOR.lag_damping)
    return growth_rate(rotor, PLOVER_SUPPORT, speed)
