"""The pitch link on its horn and swashplate, and the blade that twists on them."""

import math

from calc.blades import quantities, torsion
from scripts.drawings.drawing import Drawing, sign
from scripts.drawings.parts import box, curve, dimension, ground, hinge, spring
from scripts.drawings.pens import AXIS, EMPTY, FINE, FORCE, INK, MOTION, TINT, Pen
from scripts.drawings.sheet import Sheet


def pitch_link() -> Drawing:
    """Return the control system of a blade, and the blade as a rod on its stiffness."""
    return Drawing(
        (_controls(), _rod()),
        r"Pitch link and control stiffness. Pitching the blade pushes the link by the arm $h$; "
        r"the link yields by $k_l$ and the swashplate under it by $k_s$, one after the other. "
        r"The blade is a rod whose root is held by what both are worth about the pitch axis, "
        r"$k_c$. How far the swashplate yields depends on its motion: collective, cyclic, or a "
        r"pattern that loads no actuator.",
    )


def _controls() -> Sheet:
    sheet = Sheet(
        "Controls, along the blade",
        "A blade section on its pitch axis with a horn ahead of it; a pitch link goes down to the "
        "rotating swashplate, which lies on the fixed one, which stands on actuators.",
        height=318,
    )
    axis, joint = 212 + 86j, 104 + 86j
    section = [
        axis + point
        for point in (
            -36 + 1j,
            -30 - 9j,
            -10 - 13j,
            20 - 12j,
            60 - 5j,
            96 + 2j,
            60 + 5j,
            10 + 9j,
            -26 + 8j,
        )
    ]
    upper, lower = section[:6], [section[5], *section[6:], section[0]]
    sheet.line(joint, axis, pen=Pen(INK, 5.0))
    sheet.body(f"{curve(upper)}{curve(lower).replace('M', 'L')}z")
    hinge(sheet, axis)
    rim = joint + 116j
    sheet.line(joint, joint + 26j)
    spring(sheet, joint + 24j, rim - 22j, turns=5)
    sheet.line(rim - 24j, rim)
    sheet.line(200 + 112j, 200 + 236j, pen=AXIS)
    sheet.body(box(200 + 207j, 214, 10))
    for ball in 116, 158, 242, 284:
        sheet.circle(ball + 216.5j, 3.4, FINE, EMPTY)
    sheet.body(box(200 + 226j, 190, 10))
    hinge(sheet, joint, 4.5)
    hinge(sheet, rim, 4.5)
    spring(sheet, 114 + 231j, 114 + 290j, turns=4)
    spring(sheet, 286 + 231j, 286 + 290j, turns=4)
    ground(sheet, 84 + 290j, 316 + 290j)
    dimension(sheet, joint, axis, sign(torsion.HORN_ARM), offset=-38j)
    sheet.turn(axis, 62, 158, 196, both=True)
    sheet.label(88 + 144j, sign(torsion.LINK_STIFFNESS), "end")
    sheet.label(98 + 262j, sign(torsion.SUPPORT_STIFFNESS), "end")
    sheet.label(122 + 128j, "pitch link", "start")
    sheet.label(300 + 66j, "pitch axis", "end")
    sheet.label(338 + 186j, "rotating swashplate", "end")
    sheet.label(200 + 246j, "fixed swashplate")
    sheet.label(200 + 270j, "actuators")
    return sheet


def _rod() -> Sheet:
    sheet = Sheet(
        "The blade as a rod",
        "The blade from the side, held at its root by a torsional spring, and the twist along it.",
        height=318,
    )
    root, tip, level = 74.0, 322.0, 84.0
    ground(sheet, 24 + 1j * (level + 30), 24 + 1j * (level - 30))
    for turn in range(5):
        middle = 38.0 + 6.0 * turn
        sheet.shape(
            f"M{middle - 3:g} {level - 13:g}C{middle + 9:g} {level - 13:g} {middle + 9:g} "
            f"{level + 13:g} {middle + 3:g} {level + 13:g}",
            Pen(INK, 1.4),
        )
    sheet.line(24 + 1j * level, 38 + 1j * level, pen=Pen(INK, 1.4))
    sheet.line(66 + 1j * level, root + 1j * level, pen=Pen(INK, 1.4))
    sheet.body(box(complex((root + tip) / 2, level), tip - root, 22))
    sheet.line(complex(root - 6, level), complex(tip + 10, level), pen=AXIS)
    sheet.label(50 + 1j * (level + 32), sign(torsion.CONTROL_STIFFNESS))
    sheet.label(
        complex((root + tip) / 2, level + 27),
        f"{sign(torsion.TORSIONAL_STIFFNESS)}, {sign(torsion.TORSIONAL_INERTIA)}",
    )
    dimension(
        sheet,
        complex(root, level),
        complex(tip, level),
        sign(quantities.BLADE_LENGTH),
        offset=-32j,
    )
    floor, high, factor = 268.0, 84.0, 1.1
    twist = [
        complex(root + (tip - root) * n / 20, floor - high * math.cos(factor * (1.0 - n / 20)))
        for n in range(21)
    ]
    sheet.outline([*twist, complex(tip, floor), complex(root, floor)], Pen(INK, 0.1), TINT)
    sheet.shape(curve(twist), MOTION)
    sheet.line(complex(root, floor), complex(tip, floor), pen=FINE)
    sheet.arrow(complex(root, floor), twist[0], pen=FORCE)
    sheet.label(complex(root - 8, (floor + twist[0].imag) / 2), "in the\ncontrols", "end")
    sheet.label(complex(tip - 8, floor - high - 14), "twist along the blade", "end")
    sheet.label(complex(root, floor + 16), "root", soft=True)
    sheet.label(complex(tip, floor + 16), "tip", "end", soft=True)
    return sheet
