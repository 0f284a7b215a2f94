"""The lists of units beside numbers, with all that a page needs to change the unit by itself."""

import math
from html import escape

from calc.digits import plain
from calc.form.shown_in import ShownIn
from calc.quantity import Quantity, in_sentence
from calc.unit_systems import SYSTEMS, systems_of
from calc.units import Unit

STEPS = 200
"""About as many steps has a slider."""


def unit_list(quantity: Quantity, key: str, ends: tuple[float, float] | None = None) -> str:
    """Return a drop-down list of units, the one unit where there is no choice, or nothing.

    `ends` are those of the slider of the field, if it has one.
    """
    if len(quantity.units) == 1:
        (unit,) = quantity.units
        facts = f' data-unit="{unit.key}"' + _facts(quantity, unit, ends)
        return f'<span class="unit"{facts}>{unit.name}</span>' if unit.name else ""
    options = "".join(
        f'<option value="{unit.key}"{_facts(quantity, unit, ends)}'
        f"{' selected' if unit.key == key else ''}>{unit.name or '–'}</option>"
        for unit in quantity.units
    )
    label = escape(f"Unit for {in_sentence(quantity.label)}")
    return f'<select class="unit-list" aria-label="{label}">{options}</select>'


def result_units(name: str, quantity: Quantity, shown_in: ShownIn) -> str:
    """Return the list in which the unit of a result is chosen; its name where there is no choice.

    `name` is that of the result, or `table.column`.
    """
    shown = shown_in.unit(name, quantity)
    if len(quantity.units) == 1:
        return shown.name
    options = "".join(
        f'<option value="{unit.key}"{" selected" if unit == shown else ""}>{unit.name or "–"}'
        "</option>"
        for unit in quantity.units
    )
    label = escape(f"Unit of the result, {in_sentence(quantity.label)}")
    start = shown_in.start(quantity).key
    return (
        f'<select class="result-unit" data-result="{name}" data-start="{start}" '
        f'aria-label="{label}">{options}</select>'
    )


def system_list() -> str:
    """Return the list in which a reader chooses the units of the whole handbook."""
    options = "".join(f'<option value="{key}">{name}</option>' for key, name in SYSTEMS.items())
    return (
        f'<label class="units-choice">Units <select class="system-list">{options}</select></label>'
    )


def unit_phrase(unit: Unit) -> str:
    """Return a unit as it follows a label: `, in metres`, but `, per radian`."""
    if not unit.words:
        return ""
    return f", {unit.words}" if unit.words.startswith("per ") else f", in {unit.words}"


def limits_hint(quantity: Quantity, unit: Unit) -> str:
    """Return the limits of a quantity as a hint in a unit, to be read; empty if it has none."""
    limits = quantity.readable_limits(unit)
    return limits[0].upper() + limits[1:] if limits != "any number" else ""


def slider_scale(quantity: Quantity, unit: Unit, ends: tuple[float, float]) -> tuple[str, str, str]:
    """Return the ends and the step of a slider in a unit, all of them round numbers.

    The step is 1, 2 or 5 times a power of ten, and both ends are whole numbers of steps inside
    the ends given.
    """
    low, high = sorted(unit.reading(end) for end in ends)
    power = 10.0 ** math.floor(math.log10((high - low) / STEPS))
    step = max(n * power for n in (1.0, 2.0, 5.0) if n * power <= (high - low) / STEPS * 1.001)
    if quantity.whole:
        step = 1.0
    first, last = math.ceil(low / step - 1e-6), math.floor(high / step + 1e-6)
    return plain(first * step), plain(last * step), plain(step)


def _facts(quantity: Quantity, unit: Unit, ends: tuple[float, float] | None) -> str:
    """Return the attributes of a unit: size and zero in SI, spellings, words, limits and so on."""
    facts = {
        "size": repr(unit.size) if unit.size != 1.0 else "",
        "zero": repr(unit.zero) if unit.zero else "",
        "also": "|".join(unit.also),
        "words": unit_phrase(unit),
        "hint": limits_hint(quantity, unit),
        "systems": " ".join(systems_of(unit, quantity.units)) if unit != quantity.units[0] else "",
        "scale": " ".join(slider_scale(quantity, unit, ends)) if ends else "",
    }
    return "".join(f' data-{name}="{escape(text)}"' for name, text in facts.items() if text)
