"""Sensitivity: how far the tolerances of a data sheet move a result, and which input decides it."""

import math
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from calc.catalogue import formula
from calc.declaration import Table, inputs, outputs
from calc.form.calculation import Calculation
from calc.form.reading import entry_of
from calc.quantity import Quantity
from calc.sheet.layout import ASSESSMENT, AVOID, FAN, MODES, PROPELLER
from calc.sheet.sheet import Sheet, Value, spread, value_read
from calc.survey.asked import Asked, Feed, Place, changed, spread_field
from calc.survey.flight import ONSET, TIPS
from calc.survey.ground import SUPPORT, near_worst
from calc.survey.survey import Answer, calculated

MOST = {FAN: 6, ASSESSMENT: 6, SUPPORT: 12}
"""Inputs that are varied where an answer takes long; of any other answer at most so many:"""

MOST_OTHERWISE = 24
NOMINAL = "all dampers nominal"


class Figure(NamedTuple):
    """The number of an answer whose sensitivity is looked at: its name, quantity and value."""

    label: str
    quantity: Quantity
    get: Callable[[Any], float | None]


class Bound(NamedTuple):
    """A value that a figure must stay below, or above, and what it is where it does not."""

    value: float
    below: bool
    past: str

    def is_past(self, value: float) -> bool:
        """Return whether a figure is at the bound or past it."""
        return value >= self.value if self.below else value <= self.value


class Effect(NamedTuple):
    """What one input does to a figure at both ends of its tolerance; None for no answer there."""

    place: Place
    label: str
    value: Value
    low: float | None
    high: float | None
    swing: float


class Sensitivity(NamedTuple):
    """The effects on one figure, the greatest first, and how many inputs were not looked at.

    `bound` is what the figure must not pass, if there is such a value.
    """

    figure: Figure
    about: str
    value: float
    effects: tuple[Effect, ...]
    left_out: int
    bound: Bound | None = None


def sensitivity(sheet: Sheet, answer: Answer) -> Sensitivity | None:
    """Return what the tolerances do to an answer, one input at a time at both ends.

    Args:
        sheet: The sheet that the answer is of.
        answer: An answer of `survey`.

    Returns:
        The effects; None where the answer has no figure or no input has a tolerance.
    """
    asked, calculation = answer.asked, answer.calculation
    places = [place for place in asked.reads if _value(sheet, place).tolerance]
    if calculation is None or calculation.result is None or not places:
        return None
    narrow = _narrowed(calculation)
    small = narrow(asked)
    figure = figure_of(small.formula)
    if figure is None:
        return None
    value = figure.get(calculation.result) if small is asked else _found(figure, small)
    if value is None:
        return None
    most = MOST.get(small.formula, MOST_OTHERWISE)
    effects = []
    moved = 0
    for place in filter(spread_field, places):
        ends = [_at(answer, narrow, other) for other in _ends(sheet, place)]
        if all(end is not None and end.entries == small.entries for end in ends):
            continue
        moved += 1
        if moved <= most:
            low, high = (None if end is None else _found(figure, end) for end in ends)
            swings = [math.inf if end is None else abs(end - value) for end in (low, high)]
            own = _value(sheet, place)
            effects.append(Effect(place, _label(place), own, low, high, max(swings)))
    effects.sort(key=lambda effect: -effect.swing)
    about = small.title if small is not asked else ""
    left_out, bound = max(moved - most, 0), _bound(sheet, small.formula, calculation)
    return Sensitivity(figure, about, value, tuple(effects), left_out, bound)


def _bound(sheet: Sheet, name: str, calculation: Calculation) -> Bound | None:
    """Return what the figure of a formula must not pass, or None where nothing is asked of it."""
    if name in (ASSESSMENT, SUPPORT):
        return Bound(0.0, below=True, past="unstable")
    if name == TIPS:
        limit = calculation.values["mach_limit"]
        return Bound(limit, below=True, past="at or above the Mach limit")
    if name in (AVOID, FAN):
        return Bound(calculation.values["margin"], below=False, past="within the margin")
    airspeed = Feed(sheet).reading("flight", "airspeed", needed=False) if name == ONSET else None
    if airspeed is None:
        return None
    past = "stall onset at the tip at or below the airspeed of the sheet"
    return Bound(airspeed.value, below=False, past=past)


def _narrowed(calculation: Calculation) -> Callable[[Asked], Asked]:
    """Return what makes of a question the smaller one that is asked many times.

    For measured modes that is the worst landing-gear state with all lag dampers nominal, about its
    worst rotor speed; any other question is itself.
    """
    if calculation.name != MODES:
        return lambda asked: asked
    cases = [case for case in calculation.result.cases if NOMINAL in case.dampers]
    worst = max(cases, key=lambda case: case.growth_rate)
    return lambda asked: near_worst(asked, worst.state, worst.worst_speed)


def _ends(sheet: Sheet, place: Place) -> Iterator[Sheet | None]:
    """Yield the sheet with one value at each end of its tolerance; None where it cannot be."""
    f, value = spread_field(place), _value(sheet, place)
    assert f is not None
    assert isinstance(f.declaration, Quantity)
    middle, half = value_read(f, value).value, spread(f.declaration, value)
    for end in (middle - half, middle + half):
        try:
            f.declaration.check(end)
        except ValueError:
            yield None
        else:
            yield changed(sheet, place, Value(entry_of(f.declaration, end)))


def _at(answer: Answer, narrow: Callable[[Asked], Asked], sheet: Sheet | None) -> Asked | None:
    """Return the question to a changed sheet, or None where it cannot be asked."""
    asked = None if sheet is None else answer.of(sheet)
    return None if asked is None or asked.missing else narrow(asked)


def _found(figure: Figure, asked: Asked) -> float | None:
    calculation = calculated(asked)
    result = calculation.result if calculation else None
    return None if result is None else figure.get(result)


def figure_of(name: str) -> Figure | None:
    """Return the number that stands for the answers of a formula, or None where none does."""
    if name in (ONSET, TIPS, ASSESSMENT, MODES, SUPPORT):
        field = {ONSET: "tip_airspeed", TIPS: "advancing_tip_mach"}.get(name, "growth_rate")
        quantity = _output(name, field)
        return Figure(quantity.label, quantity, lambda result: getattr(result, field))
    if name == PROPELLER:
        quantity = _output(name, outputs(formula(name))[0].name)
        return Figure(quantity.label, quantity, lambda result: result)
    if name == AVOID:
        quantity = _column(name, "closest_modes", "least_separation")
        return Figure("Least separation in operation", quantity, _least_separation)
    if name == FAN:
        quantity = _column(name, "separations", "per_rev")
        return Figure(quantity.label, quantity, _least_per_rev)
    return None


def _least_separation(result: Any) -> float | None:
    rows = [*result.closest_modes, *result.closest_pairs]
    return min((row.least_separation for row in rows), default=None)


def _least_per_rev(result: Any) -> float | None:
    rows = [row for row in result.separations if "always near" not in row.verdict]
    return min((abs(row.per_rev) for row in rows), default=None)


def _output(name: str, field: str) -> Quantity:
    found = next(f.declaration for f in outputs(formula(name)) if f.name == field)
    assert isinstance(found, Quantity)
    return found


def _column(name: str, field: str, column: str) -> Quantity:
    table = next(f.declaration for f in outputs(formula(name)) if f.name == field)
    assert isinstance(table, Table)
    found = next(f.declaration for f in inputs(table.row) if f.name == column)
    assert isinstance(found, Quantity)
    return found


def _value(sheet: Sheet, place: Place) -> Value:
    if place.row < 0:
        return sheet.values[f"{place.section}.{place.name}"]
    return sheet.rows[place.section][place.row][place.name]


def _label(place: Place) -> str:
    field = spread_field(place)
    assert field is not None
    return field.declaration.label
