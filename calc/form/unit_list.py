"""The list of units beside a number, with all that a page needs to change the unit by itself."""

from html import escape

from calc.quantity import Quantity
from calc.units import Unit


def unit_list(quantity: Quantity, key: str) -> str:
    """Return a drop-down list of units, the one unit where there is no choice, or nothing."""
    if len(quantity.units) == 1:
        (unit,) = quantity.units
        key = f' data-unit="{unit.key}"'
        facts = key + _facts(quantity, unit)
        return f'<span class="unit"{facts}>{unit.name}</span>' if unit.name else ""
    options = "".join(
        f'<option value="{unit.key}"{_facts(quantity, unit)}'
        f"{' selected' if unit.key == key else ''}>{unit.name or '–'}</option>"
        for unit in quantity.units
    )
    label = escape(f"Unit for {quantity.label.lower()}")
    return f'<select class="unit-list" aria-label="{label}">{options}</select>'


def unit_phrase(unit: Unit) -> str:
    """Return a unit as it follows a label: `, in metres`, but `, per radian`."""
    if not unit.words:
        return ""
    return f", {unit.words}" if unit.words.startswith("per ") else f", in {unit.words}"


def limits_hint(quantity: Quantity, unit: Unit) -> str:
    """Return the limits of a quantity as a hint in a unit; empty if it has none."""
    limits = quantity.limits(unit)
    return limits[0].upper() + limits[1:] if limits != "any number" else ""


def _facts(quantity: Quantity, unit: Unit) -> str:
    """Return the attributes of a unit: size and zero in SI, spellings, words and limits."""
    facts = {
        "size": repr(unit.size) if unit.size != 1.0 else "",
        "zero": repr(unit.zero) if unit.zero else "",
        "also": "|".join(unit.also),
        "words": unit_phrase(unit),
        "hint": limits_hint(quantity, unit),
    }
    return "".join(f' data-{name}="{escape(text)}"' for name, text in facts.items() if text)
