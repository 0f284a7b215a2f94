"""Values of results as pages and copies show them."""

import math
from typing import Any

from calc.declaration import Choice, Declaration
from calc.digits import significant
from calc.quantity import Quantity
from calc.units import Unit


def number(
    quantity: Quantity, value: float | None, digits: int = 4, unit: Unit | None = None
) -> str:
    """Return a number in a unit, the first one of its quantity unless another is given."""
    if value is None:
        return "—"
    if quantity.whole:
        return str(int(value))
    return significant((unit or quantity.units[0]).reading(value), digits)


def shown(declaration: Declaration, value: Any, digits: int = 4) -> str:
    """Return a value with its unit; the words of a choice; text as it is."""
    if value is None:
        return "—"
    if isinstance(declaration, Quantity):
        return f"{number(declaration, value, digits)} {declaration.units[0].name}".rstrip()
    if isinstance(declaration, Choice):
        return declaration.options[value]
    return str(value)


def in_other_units(quantity: Quantity, value: float | None, digits: int = 4) -> list[str]:
    """Return a number in the other units of its quantity."""
    if value is None or not math.isfinite(value):
        return []
    return [f"{number(quantity, value, digits, u)} {u.name}" for u in quantity.units[1:]]
