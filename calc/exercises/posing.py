"""Posing: an exercise with the numbers of a seed, its answer, and what the mistakes give."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from string import Formatter
from typing import Any

from calc.catalogue import formula
from calc.declaration import Table, inputs, outputs
from calc.exercises.book import exercise
from calc.exercises.exercise import Draw, Exercise, Mistake, Step
from calc.exercises.number import Number, share
from calc.form.calculation import Calculation, calculate
from calc.form.reading import read
from calc.quantity import Quantity

LARGEST_SEED = 999_999_999
ATTEMPTS = 60
"""How often numbers are drawn until the answer lies in its range and apart from every mistake."""

KEPT = 1000
"""Exercises with numbers that are kept, so that a set of sheets is computed once."""


@dataclass(frozen=True, slots=True)
class Wrong:
    """A mistake and the number that it gives, in SI."""

    mistake: Mistake
    value: float


@dataclass(frozen=True, slots=True)
class Posed:
    """An exercise with its numbers: calculations, answer in SI, and the numbers of the mistakes."""

    exercise: Exercise
    seed: int
    numbers: Mapping[str, Number]
    calculations: tuple[Calculation, ...]
    quantity: Quantity
    answer: float
    wrong: tuple[Wrong, ...]

    def said(self, text: str) -> str:
        """Return a text of the exercise with the numbers put in."""
        return text.format_map({k: replace(n, said=True) for k, n in self.numbers.items()})

    @property
    def listed(self) -> list[str]:
        """The names of the given numbers that the text does not say."""
        named = {name for _, name, _, _ in Formatter().parse(self.exercise.text) if name}
        return [name for name in self.exercise.given if name not in named]

    def is_near(self, value: float, goal: float) -> bool:
        """Return whether a number counts as another, within the tolerance of the exercise."""
        return abs(value - goal) <= self.exercise.tolerance * abs(goal) * (1.0 + 1e-9)


def checked_seed(seed: int) -> int:
    """Return a seed; refuse one that is none."""
    if isinstance(seed, bool) or not isinstance(seed, int) or not 1 <= seed <= LARGEST_SEED:
        raise ValueError(f"A seed is a whole number from 1 to {LARGEST_SEED}")
    return seed


def posed(key: str, seed: int) -> Posed:
    """Return an exercise with the numbers of a seed.

    Raises:
        ValueError: If there is no such exercise or seed, or no numbers that make sense.
    """
    return _posed(key, checked_seed(seed))


@lru_cache(maxsize=KEPT)
def _posed(key: str, seed: int) -> Posed:
    asked = exercise(key)
    for attempt in range(ATTEMPTS):
        found = _attempted(asked, seed, attempt)
        if found and _makes_sense(found):
            return found
    raise ValueError(f"The exercise {asked.title} has no numbers for the seed {seed}")


def _attempted(asked: Exercise, seed: int, attempt: int) -> Posed | None:
    """Return an exercise with numbers, or None where they have no answer."""
    numbers: dict[str, Number] = {}
    for name, given in asked.given.items():
        if isinstance(given, Draw):
            numbers[name] = given.at(share(asked.key, seed, name, attempt))
        else:
            numbers[name] = Number.of(given.format_map(numbers))
    try:
        calculations, found = _computed(asked, numbers)
        quantity, answer = wanted(calculations[-1], asked.steps[-1].asks)
        wrong = tuple(Wrong(m, _mistaken(asked, numbers, m)) for m in asked.mistakes)
    except _NoAnswerError:
        return None
    return Posed(asked, seed, numbers | found, calculations, quantity, answer, wrong)


def _makes_sense(found: Posed) -> bool:
    """Return whether the answer is covered, in its range, and can be told from every mistake."""
    low, high = (read(found.quantity, entry).value for entry in found.exercise.between)
    apart = 2.5 * found.exercise.tolerance
    return (
        low <= found.answer <= high
        and not any(calculation.warnings for calculation in found.calculations)
        and all(
            abs(w.value - found.answer) > apart * max(abs(w.value), abs(found.answer))
            for w in found.wrong
        )
    )


class _NoAnswerError(ValueError):
    """The numbers of an exercise have no answer."""


def _computed(
    asked: Exercise, numbers: Mapping[str, Number], changed: Mapping[str, str] | None = None
) -> tuple[tuple[Calculation, ...], dict[str, Number]]:
    """Return the calculations of an exercise and the numbers that its steps found by name."""
    known = dict(numbers)
    other = {
        name: text.format_map(known) for name, text in (changed or {}).items() if name in known
    }
    known |= {name: Number.of(text) for name, text in other.items()}
    found: dict[str, Number] = {}
    calculations = []
    for step in asked.steps:
        calculation = calculate(step.formula, entries_of(step, known))
        if calculation.problems:
            raise _NoAnswerError(calculation.problems[0].message)
        calculations.append(calculation)
        if step.name:
            quantity, value = wanted(calculation, step.asks)
            unit = quantity.units[0]
            found[step.name] = Number(f"{unit.reading(value):.12g}", unit.key)
            if changed and step.name in changed:
                found[step.name] = Number.of(changed[step.name].format_map(known | found))
            known |= found
    return tuple(calculations), found


def entries_of(step: Step, known: Mapping[str, Number]) -> dict[str, str]:
    """Return the entries of a form for a step: the numbers of its inputs, or what it says."""
    entries = {}
    for f in inputs(formula(step.formula)):
        if f.name in step.entries:
            entries[f.name] = step.entries[f.name].format_map(known)
        elif f.name in known:
            entries[f.name] = format(known[f.name])
    return entries


def wanted(calculation: Calculation, asks: str) -> tuple[Quantity, float]:
    """Return a result of a calculation with its declaration, by its name or table.row.column."""
    name, *place = asks.split(".")
    values: dict[str, Any] = {f.name: value for f, value in calculation.results}
    (f,) = (f for f in outputs(formula(calculation.name)) if f.name == name)
    value = values.get(name)
    declaration = f.declaration
    if place and isinstance(declaration, Table):
        row, column = int(place[0]), place[1]
        if not value or row >= len(value):
            raise _NoAnswerError("the table has no such row")
        value = getattr(value[row], column)
        (declaration,) = (c.declaration for c in inputs(declaration.row) if c.name == column)
    if value is None or not isinstance(declaration, Quantity):
        raise _NoAnswerError("there is no such number")
    return declaration, float(value)


def _mistaken(asked: Exercise, numbers: Mapping[str, Number], mistake: Mistake) -> float:
    """Return the number that a mistake gives, in SI."""
    calculations, _ = _computed(asked, numbers, mistake.changed)
    _, value = wanted(calculations[-1], mistake.asks or asked.steps[-1].asks)
    return float(value**mistake.power) * mistake.times
