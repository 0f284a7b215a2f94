"""Rotors from above whose blades lag: patterns, their whirl, and where dampers sit."""

import math
from collections.abc import Sequence

from calc.ground import damper, quantities
from scripts.drawings.drawing import Drawing, sign
from scripts.drawings.parts import blade, dashpot, dimension, hinge
from scripts.drawings.pens import BODY, EMPTY, FORCE, INK, PAPER, REST, SOLID, Pen
from scripts.drawings.sheet import Sheet, toward

BLADES = 4
ARM, SPAN, LAG = 16.0, 50.0, 24.0
"""Hinge offset and span in units of the sheet, and the largest lag angle in degrees."""
SLOWER = 1.0 / 3.0
"""Lag frequency over rotor speed of the rotors that are drawn."""
WHIRL = 26.0
"""How far from the shaft the centre of mass is drawn."""
TURN = 90.0
HUB = 82.5 + 92j


def bunched_blades() -> Drawing:
    """Return a rotor at rest in the ring and one with its blades bunched."""
    even = _small(
        "Evenly spread", "Four blades evenly spread; their centre of mass is on the shaft."
    )
    rotor_from_above(even, 45.0, (0.0,) * BLADES)
    even.label(HUB + 92j, "centre of mass\non the shaft")
    bunched = _small("Bunched", "Blades that lead on one side and lag on the other.")
    rotor_from_above(bunched, 45.0, cyclic(45.0, 0.0))
    bunched.label(HUB + 92j, "centre of mass\noff the shaft")
    return Drawing(
        (even, bunched),
        r"Evenly spread blades have their centre of mass, the diamond, on the shaft. Blades that "
        r"lead on one side and lag on the other push it off by $r$. Angles and offset are drawn "
        r"far too large.",
    )


def lag_patterns() -> Drawing:
    """Return the four patterns of a rotor with four blades."""
    return Drawing(
        (
            _pattern(
                "Collective", (LAG,) * 4, "all lead alike:\nshaft torque,\nno force on the hub"
            ),
            _pattern(
                "Reactionless", (LAG, -LAG) * 2, "neighbours opposed:\nthe hub feels\nnothing"
            ),
            _whirling("Regressing", 1.0 - SLOWER, "pattern falls behind\nthe blades, whirls at"),
            _whirling("Progressing", 1.0 + SLOWER, "pattern runs ahead of\nthe blades, whirls at"),
        ),
        r"Patterns of lag of four blades, seen from above. The regressing and the progressing one "
        r"are the same cyclic pattern, shown after a quarter turn of the rotor: blade 1, the "
        r"filled one, and the centre of mass of the blades, the diamond, both started aft. In the "
        r"fixed frame both whirl with the rotation as long as $\omega_\xi$ is below $\Omega$, here "
        r"a third of it. Angles and offset are drawn far too large.",
    )


def damper_places() -> Drawing:
    """Return dampers from blade to hub and dampers between blades."""
    return Drawing(
        (_to_hub(), _between()),
        r"Two places of a lag damper, seen from above. From blade to hub it feels the lag angle of "
        r"its blade, at the arm $a$ about the lag hinge. Between neighbours it feels the "
        r"difference of their lag angles, and nothing when all blades lead or lag alike.",
    )


def _small(title: str, description: str) -> Sheet:
    return Sheet(title, f"Seen from above. {description}", 165, 226)


def _pattern(title: str, lags: Sequence[float], text: str) -> Sheet:
    sheet = _small(title, f"Four blades in the {title.lower()} pattern.")
    rotor_from_above(sheet, 0.0, lags)
    sheet.label(HUB + 98j, text)
    return sheet


def _whirling(title: str, ratio: float, text: str) -> Sheet:
    """Return the cyclic pattern after a quarter turn of the rotor, with the ways gone."""
    sheet = _small(
        title, f"While the rotor made a quarter turn the centre of mass made {ratio:.2f} of one."
    )
    bunch = -90.0 + ratio * TURN
    rotor_from_above(sheet, 0.0, cyclic(0.0, bunch), marked=0)
    sheet.turn(HUB, ARM + SPAN + 9, -90.0, 0.0)
    sheet.label(HUB + toward(-45, ARM + SPAN + 22), sign(quantities.ROTOR_SPEED))
    sheet.turn(HUB, WHIRL, -90.0, bunch - 20.0, pen=FORCE)
    operator = "+" if ratio > 1.0 else "-"
    sheet.label(HUB + 98j, f"{text}\n$\\Omega {operator} \\omega_\\xi$")
    return sheet


def cyclic(first: float, bunch: float) -> list[float]:
    """Return the lag angles that move the centre of mass towards an angle."""
    return [
        LAG * math.sin(math.radians(bunch - first - 360.0 * number / BLADES))
        for number in range(BLADES)
    ]


def rotor_from_above(
    sheet: Sheet, first: float, lags: Sequence[float], marked: int = -1, hub: complex = HUB
) -> None:
    """Draw blades with lag angles, and their centre of mass far too far out."""
    centre = 0j
    for number, lag in enumerate(lags):
        angle = first + 360.0 * number / BLADES
        root = hub + toward(angle, ARM)
        sheet.line(root, hub + toward(angle, ARM + SPAN + 4), pen=REST)
        corners = -3j, SPAN - 3j, SPAN + 4j, 4j
        outline = [root + point * toward(angle + lag) for point in corners]
        if number == marked:
            sheet.outline(outline, BODY, SOLID)
        else:
            sheet.body(outline)
        sheet.line(hub, root, pen=Pen(INK, 4.0))
        sheet.circle(root, 3.2, Pen(INK, 1.5), EMPTY)
        centre += (root + toward(angle + lag, SPAN / 2.0) - hub) / BLADES
    sheet.disc(hub, 7)
    at = hub + (WHIRL * centre / abs(centre) if abs(centre) > 1.0 else 0j)
    corners = at - 6.5, at - 6.5j, at + 6.5, at + 6.5j
    sheet.outline(corners, Pen(PAPER, 1.5), f'fill="{FORCE.colour}"')


def _to_hub() -> Sheet:
    sheet, hub = _large("From blade to hub", "A damper from the hub to an arm of each blade.")
    for number in range(BLADES):
        step = toward(90.0 * number)
        root, aside = hub + 58 * step, 34j * step
        arm, foot = root + aside, hub + 2 * step + aside
        sheet.line(hub + 2 * step, foot)
        sheet.line(hub, root, pen=Pen(INK, 9))
        sheet.body([root + point * step for point in blade(80, 20, 14)])
        sheet.line(root, arm)
        dashpot(sheet, foot, arm, wide=6)
        for pin in foot, arm:
            sheet.circle(pin, 2.4, Pen(INK, 1.25), EMPTY)
        hinge(sheet, root, 4.5)
    sheet.disc(hub, 17)
    sheet.label(hub + 36 + 54j, sign(quantities.LAG_DAMPING))
    dimension(
        sheet, hub + 58, hub + 58 + 34j, sign(damper.ARM), offset=22 + 0j, label=hub + 92 + 23j
    )
    return sheet


def _between() -> Sheet:
    sheet, hub = _large("Between blades", "A damper from each blade to its neighbour.")
    for number in range(BLADES):
        step = toward(90.0 * number)
        root = hub + 44 * step
        sheet.line(hub, root, pen=Pen(INK, 9))
        sheet.body([root + point * step for point in blade(94, 20, 30)])
        hinge(sheet, root, 4.5)
    for number in range(BLADES):
        step = toward(90.0 * number)
        first, last = hub + (66 - 6j) * step, hub + (6 - 66j) * step
        dashpot(sheet, first, last)
        for pin in first, last:
            sheet.circle(pin, 2.4, Pen(INK, 1.25), EMPTY)
    sheet.disc(hub, 17)
    sheet.label(hub + 60 - 54j, sign(damper.INTERBLADE_DAMPING), "start")
    return sheet


def _large(title: str, description: str) -> tuple[Sheet, complex]:
    """Return a sheet for a large rotor, and the place of its hub."""
    sheet = Sheet(title, f"A rotor with four blades seen from above. {description}", height=310)
    hub = 170 + 168j
    sheet.turn(hub, 108, 28, 62)
    sheet.label(hub + toward(45, 122), sign(quantities.ROTOR_SPEED))
    sheet.label(hub + 132 - 17j, "blade $k$")
    sheet.label(hub + 16 - 130j, "blade $k + 1$", "start")
    return sheet, hub
