"""Mode offer: the address at which the data sheet takes the modes that a form has found."""

import json
from html import escape
from typing import Any
from urllib.parse import quote

from calc.catalogue import entry
from calc.digits import plain
from calc.form.calculation import Calculation

UNITS = {
    "frequency": "Hz",
    "damping_ratio": "",
    "modal_mass": "kg",
    "shape_x": "",
    "shape_y": "",
    "lift_share": "",
}
"""What the data sheet takes of a mode, with the SI unit of it."""

DIGITS = 6
MOST_MODES = 50
LONGEST_METHOD = 40


def offer_html(calculation: Calculation) -> str:
    """Return the way from the modes that were found to the data sheet, or nothing without any.

    The link holds the modes alone; the reader says there which test they are from.  Modes that
    are not what the form shows first say in `method` how they were found.
    """
    modes = calculation.modes
    if not 1 <= len(modes) <= MOST_MODES:
        return ""
    words = "this mode" if len(modes) == 1 else f"these {len(modes)} modes"
    method = getattr(modes[0], "method", "")
    words += f" ({method})" if method else ""
    address = escape(offer_address(modes, method or entry(calculation.name).title))
    link = f'<a href="../{address}">Take {escape(words)} into the data sheet</a>'
    return f'<p class="no-print">{link}</p>'


def offer_address(modes: tuple[Any, ...], method: str) -> str:
    """Return the address of the data sheet that offers modes to it.

    Args:
        modes: Rows with `frequency`, in Hz, and perhaps the other values of `UNITS`, in SI units,
            and `name` or `state`; a tolerance is a field of its own, as `damping_ratio_error`.
        method: How the modes were found.

    Examples:
        >>> from types import SimpleNamespace
        >>> offer_address((SimpleNamespace(frequency=3.4),), "by hand")[:26]
        'sheet.html#modes=%7B%22met'
    """
    told = {"method": method[:LONGEST_METHOD], "modes": [_mode(mode) for mode in modes]}
    return f"sheet.html#modes={quote(json.dumps(told, ensure_ascii=False), safe='')}"


def _mode(mode: Any) -> dict[str, str | list[str]]:
    name = getattr(mode, "state", getattr(mode, "name", ""))
    values = {
        key: value for key, unit in UNITS.items() if (value := _value(mode, key, unit)) is not None
    }
    return {"name": name, **values}


def _value(mode: Any, key: str, unit: str) -> str | list[str] | None:
    """Return a value of a mode with its unit, a pair with its tolerance, or None without one."""
    value, error = getattr(mode, key, None), getattr(mode, f"{key}_error", None)
    if value is None:
        return None
    text = f"{plain(value, DIGITS)} {unit}".rstrip()
    return text if error is None else [text, f"{plain(error, 2)} {unit}".rstrip()]
