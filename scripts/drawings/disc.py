"""The disc from the side: its planes and angles, and the flow through it."""

import math

from calc.rotor import inflow, quantities, retreating_tip
from scripts.drawings.drawing import Drawing, sign
from scripts.drawings.parts import box, dimension, turned
from scripts.drawings.pens import AIR, AXIS, FINE, FORCE, INK, REST, Pen
from scripts.drawings.sheet import Sheet, toward

INCIDENCE, CONTROL, SHAFT = 12.0, 25.0, 6.0
"""Angles below the flight path at the front: tip-path, no-feathering and hub plane, in degrees."""


def disc_planes() -> Drawing:
    """Return the planes of the disc and the flow through it."""
    return Drawing(
        (_planes(), _flow()),
        r"Disc planes and inflow, seen from port, flight to the left. The disc incidence $\alpha$ "
        r"is the angle from the flight path to the tip-path plane, positive nose down. The thrust "
        r"$T$ stands square to the tip-path plane. Longitudinal flapping $\beta_{1c}$ is counted "
        r"from the no-feathering plane and is negative where the disc is tilted back from it, as "
        r"here. The inflow $\lambda$ is positive down through the disc and is counted in tip "
        r"speeds $V_t$: "
        r"$\lambda = \mu \tan \alpha + \lambda_i$. Angles are drawn too large, coning is left out.",
    )


def _planes() -> Sheet:
    sheet = Sheet(
        "Planes and angles, from the side",
        "Flight to the left. Through the hub go the flight path, the tip-path plane, nose down by "
        "the disc incidence, and further nose down the no-feathering plane; the thrust is square "
        "to the tip-path plane.",
        height=272,
    )
    hub = 160 + 148j
    sheet.line(hub - 156, hub + 176, pen=AXIS)
    sheet.line(hub - toward(CONTROL, 150), hub + toward(CONTROL, 88), pen=REST)
    sheet.line(hub + toward(270.0 + SHAFT, 116), hub + toward(90.0 + SHAFT, 40), pen=AXIS)
    sheet.body(turned(box(54j, 12, 92), SHAFT, hub))
    sheet.body(turned(edge(132), INCIDENCE, hub))
    sheet.line(hub + toward(INCIDENCE, 134), hub + toward(INCIDENCE, 172), pen=FINE)
    sheet.body(turned(box(0j, 30, 12), SHAFT, hub))
    sheet.arrow(hub, hub + toward(90.0 + INCIDENCE, 100), pen=FORCE)
    sheet.label(hub + toward(90.0 + INCIDENCE, 92) - 14, sign(quantities.THRUST))
    sheet.arrow(50 + 108j, 10 + 108j, pen=Pen(INK, 2))
    sheet.label(56 + 108j, "flight", "start")
    sheet.turn(hub, 118, 180.0, 180.0 + INCIDENCE)
    sheet.label(hub + toward(180.0 + INCIDENCE / 2.0, 132), sign(quantities.DISC_INCIDENCE))
    sheet.turn(hub, 84, 180.0 + CONTROL, 180.0 + INCIDENCE)
    sheet.label(hub - 68 + 60j, f"{sign(retreating_tip.FLAPPING)} < 0")
    sheet.label(338 + 162j, "flight path", "end")
    sheet.label(338 + 94j, "tip-path plane", "end")
    sheet.label(4 + 231j, "no-feathering plane", "start")
    sheet.label(hub + toward(270.0 + SHAFT, 92) + 16, "shaft", "start")
    return sheet


def _flow() -> Sheet:
    sheet = Sheet(
        "Flow through the disc",
        "The airspeed, arriving level at a disc that is tilted nose down, taken apart along the "
        "disc and down through it; with the induced speed the latter is the inflow.",
        height=272,
    )
    start, speed = 24 + 138j, 184.0
    along, down = toward(INCIDENCE), toward(INCIDENCE - 90.0)
    end = start + speed
    corner = start + along * speed * math.cos(math.radians(INCIDENCE))
    foot = end + down * 40
    sheet.body(turned(edge(160), INCIDENCE, start + along * 150))
    sheet.arrow(start, end, pen=AIR)
    sheet.arrow(start, corner, pen=AIR)
    sheet.arrow(corner, end, pen=AIR)
    sheet.arrow(end, foot, pen=AIR)
    sheet.turn(start, 92, 0.0, INCIDENCE)
    sheet.label(start + toward(INCIDENCE / 2.0, 106), sign(quantities.DISC_INCIDENCE))
    v, tip = sign(quantities.AIRSPEED), sign(quantities.TIP_SPEED)
    incidence, ratio = sign(quantities.DISC_INCIDENCE), sign(quantities.ADVANCE_RATIO)
    sheet.label(start + 84 + 17j, v)
    sheet.label(start + along * 78 - 40j, f"{v} cos {incidence} = {ratio} {tip}")
    sheet.label((corner + end) / 2 + 10, f"{v} sin {incidence}", "start")
    sheet.label((end + foot) / 2 + 10, f"{sign(inflow.INDUCED_INFLOW)} {tip}", "start")
    dimension(
        sheet,
        corner,
        foot,
        f"{sign(quantities.INFLOW)} {tip}",
        offset=along * 72,
        label=(corner + foot) / 2 + along * 72 + 22,
    )
    sheet.label(338 + 56j, "tip-path plane", "end")
    sheet.label(
        170 + 240j,
        f"{sign(quantities.INFLOW)} = {ratio} tan {incidence} + {sign(inflow.INDUCED_INFLOW)}",
    )
    return sheet


def edge(half: float) -> list[complex]:
    """Return a disc seen on edge, its middle at zero."""
    return [-half + 0j, 3 - half - 3j, half - 3 - 3j, half + 0j, half - 3 + 3j, 3 - half + 3j]
