"""Judging: a typed answer is right, or a usual mistake gives it, or it is not understood."""

from dataclasses import dataclass, replace

from calc.exercises.posing import Posed
from calc.form.reading import read
from calc.form.showing import in_other_units, shown
from calc.quantity import Quantity
from calc.units import CENTIMETRE, FOOT, INCH, METRE, MILLIMETRE, PER_REV, Family, Unit

UNTYPED = Unit("", "", "")
"""Stands for the unit of a number that was typed without one."""
LENGTHS = (METRE, CENTIMETRE, MILLIMETRE, FOOT, INCH)
"""A length is taken in any of these, whichever of them a form offers for it."""


@dataclass(frozen=True, slots=True)
class Judgement:
    """Whether an answer is right, and what a page says of it."""

    right: bool
    says: str


def judged(posed: Posed, typed: str) -> Judgement:
    """Return what is to be said of an answer as typed, such as `181 m/s`.

    Raises:
        ValueError: If the answer is no number with a unit of the quantity that was asked for.
    """
    quantity = posed.quantity
    reading = read(replace(quantity, units=(UNTYPED, *_typable(quantity.units))), typed)
    if reading.unit is UNTYPED:
        if all(unit.name for unit in quantity.units if unit != PER_REV):
            units = ", ".join(unit.name for unit in quantity.units)
            if quantity.units != (PER_REV,):
                raise ValueError(f"Type the unit behind the number: {units}")
        reading = replace(reading, unit=next(u for u in quantity.units if u.size == 1.0))
    value = float(reading.value)
    if posed.is_near(value, posed.answer):
        return Judgement(right=True, says=f"Right: {in_words(posed)}.")
    said = [w.mistake.says for w in posed.wrong if posed.is_near(value, w.value)]
    said += _slips(posed, quantity, reading.unit, value)
    if said:
        return Judgement(right=False, says=f"Not right. That number comes out when {_or(said)}.")
    return Judgement(
        right=False,
        says="Not right, and none of the usual mistakes of this exercise gives that number.",
    )


def in_words(posed: Posed) -> str:
    """Return the answer with its unit, its other units, and how near counts as right."""
    quantity = posed.quantity
    unit = quantity.units[0]
    others = in_other_units(quantity, posed.answer, unit)
    more = f" ({', '.join(others)})" if others else ""
    return f"{shown(quantity, posed.answer)}{more}{within(posed)}"


def within(posed: Posed) -> str:
    """Return how near to the answer counts as right, in words that follow it."""
    if posed.quantity.whole:
        return ""
    return f", within {100.0 * posed.exercise.tolerance:g}\N{NO-BREAK SPACE}%"


def _typable(units: Family) -> Family:
    """Return the units that an answer may have."""
    more = LENGTHS if METRE in units else ()
    return (*units, *(unit for unit in more if unit not in units))


def _slips(posed: Posed, quantity: Quantity, unit: Unit, value: float) -> list[str]:
    """Return what any exercise can go wrong by: the unit behind the number, and its sign."""
    typed = unit.reading(value)
    said = [
        f"the number is in {_named(other)} and {_named(unit)} is typed behind it"
        for other in quantity.units
        if other != unit and posed.is_near(other.si(typed), posed.answer)
    ]
    if posed.is_near(-value, posed.answer):
        said.append("the sign is turned round")
    return said


def _named(unit: Unit) -> str:
    return unit.name or "no unit"


def _or(said: list[str]) -> str:
    return ", or when ".join(dict.fromkeys(said))
