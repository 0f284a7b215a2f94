"""Values of results as pages and copies show them."""

import math
from typing import Any

from calc.declaration import Choice, Declaration
from calc.digits import significant
from calc.quantity import Quantity
from calc.units import Unit


def number(quantity: Quantity, value: float | None, unit: Unit, digits: int = 4) -> str:
    """Return a number in a unit."""
    if value is None:
        return "—"
    if quantity.whole:
        return str(int(value))
    return significant(unit.reading(value), digits)


def shown(declaration: Declaration, value: Any, unit: Unit | None = None) -> str:
    """Return a value with its unit, the first one if none is given; the words of a choice; text."""
    if value is None:
        return "—"
    if isinstance(declaration, Quantity):
        own = unit or declaration.units[0]
        return f"{number(declaration, value, own)} {own.name}".rstrip()
    if isinstance(declaration, Choice):
        return declaration.options[value]
    return str(value)


def in_other_units(
    quantity: Quantity, value: float | None, unit: Unit, digits: int = 4
) -> list[str]:
    """Return a number in the other units of its quantity."""
    if value is None or not math.isfinite(value):
        return []
    return [
        f"{number(quantity, value, other, digits)} {other.name}".rstrip()
        for other in quantity.units
        if other != unit
    ]
