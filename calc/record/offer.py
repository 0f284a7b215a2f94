"""Offer: a mode that was read from a record, handed to the data sheet."""

import json
from urllib.parse import quote

from calc.digits import plain
from calc.record.look import Look
from calc.survey.report.blocks import Link


def mode_offer(
    look: Look, method: str, frequency: float, ratio: float, apart: float | None
) -> Link:
    """Return the address of the data sheet that offers the mode to it, for a reader to name.

    Args:
        look: What was looked at.
        method: How the mode was read.
        frequency: Of the mode; scalar, Hz.
        ratio: Damping ratio of the mode; scalar.
        apart: By how much a second reading of the damping ratio differs, or None without one.
    """
    mode = {
        "name": "",
        "frequency": f"{plain(frequency)} Hz",
        "damping_ratio": [plain(ratio, 4), "" if apart is None else plain(apart, 2)],
    }
    told = {
        "record": f"{look.record.name}, {look.channel.name}"[:60],
        "method": method,
        "modes": [mode],
    }
    address = f"../sheet.html#modes={quote(json.dumps(told, ensure_ascii=False), safe='')}"
    return Link("Take this mode into the data sheet", address)
