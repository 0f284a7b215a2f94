"""A calculation: from entries as typed to a result or to problems."""

import inspect
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache
from typing import Any

from calc.catalogue import chart, entry, formula, found_modes
from calc.chart import Chart, Panels, Polar
from calc.declaration import (
    Field,
    Name,
    Table,
    arguments,
    inputs,
    nothing,
    outputs,
)
from calc.form.reading import Reading, checked, entry_of, rows_read
from calc.form.shown_in import Same, ShownIn, column_name
from calc.quantity import Quantity
from calc.unit_systems import STARTING
from calc.units import Unit
from calc.working import Run, Step, Text, run, steps

NOTICE = "Analysis, not approval: approved manuals and licensed practice decide."


@dataclass(frozen=True, slots=True)
class Problem:
    """Why there is no result: the input that it is about, if one, and what to do.

    `cells` are rows and columns in a table, counted from zero; `also` are further inputs that the
    same message is about.
    """

    message: str
    field: str = ""
    choices: tuple[str, ...] = ()
    cells: tuple[tuple[int, int], ...] = ()
    also: tuple[str, ...] = ()


@dataclass(frozen=True)
class Calculation:
    """One calculation: what was read, and either the formula as it ran or the problems.

    The formula runs once; result, figure, working, copies and spoken text are made from that run.
    Figure and working are made once as well.
    """

    name: str
    readings: dict[str, Reading] = field(default_factory=dict)
    done: Run | None = None
    problems: tuple[Problem, ...] = ()
    shown_in: ShownIn = field(default_factory=ShownIn)

    @property
    def result(self) -> Any:
        """What the formula returned; None where there is no result."""
        return self.done.result if self.done else None

    @property
    def values(self) -> dict[str, Any]:
        """The inputs by name, in SI units."""
        return {name: reading.value for name, reading in self.readings.items()}

    @property
    def results(self) -> list[tuple[Field, Any]]:
        """The outputs with their values; none when the formula returned None.

        Sentences among them state their numbers in the units that were chosen.
        """
        fields = outputs(formula(self.name))
        if self.result is None:
            return []
        if len(fields) == 1 and fields[0].name == formula(self.name).__name__:
            return [(fields[0], self._worded(fields[0], self.result, fields))]
        return [(f, self._worded(f, getattr(self.result, f.name), fields)) for f in fields]

    def _worded(self, f: Field, value: Any, fields: list[Field]) -> Any:
        """Return a value of an output, its sentences in the units that were chosen."""
        if isinstance(f.declaration, Name):
            return self.shown_in.sentence(f.declaration, value, fields) if value else value
        if not isinstance(f.declaration, Table):
            return value
        said = [c for c in inputs(f.declaration.row) if getattr(c.declaration, "states", ())]
        if not said:
            return value
        return tuple(
            replace(row, **{c.name: self._worded(c, getattr(row, c.name), fields) for c in said})
            for row in value
        )

    @property
    def remark(self) -> str:
        """What it means that the formula returned None; empty when it returned a result."""
        return nothing(formula(self.name)) if self.result is None else ""

    @property
    def warnings(self) -> list[str]:
        """What lies outside the range that the sources cover; it travels with every result."""
        if self.problems:
            return []
        given = [_given_warnings(f, self.readings[f.name]) for f in inputs(formula(self.name))]
        found = [_result_warnings(f, value, self.shown_in) for f, value in self.results]
        return list(dict.fromkeys(text for texts in given + found for text in texts))

    @cached_property
    def chart(self) -> Chart | Panels | Polar | None:
        """The figure of the calculation, if the formula draws one and the numbers can be drawn."""
        draw = chart(self.name)
        if draw is None or self.done is None:
            return None
        try:
            drawn: Chart | Panels | Polar = draw(**_drawn_from(draw, self.done))
        except (ArithmeticError, ValueError):
            return None
        results = outputs(formula(self.name))
        return drawn.read_in(
            (axis.follows, self.shown_in.on_axis(axis, results))
            for axis in drawn.axes
            if axis.follows
        )

    @property
    def modes(self) -> tuple[Any, ...]:
        """The modes that the calculation found, for a data sheet."""
        find = found_modes(self.name)
        if find is None or self.done is None or self.result is None:
            return ()
        return tuple(find(**_drawn_from(find, self.done)))

    def working(self, pen: Text) -> list[Step]:
        """Return the working, written by a pen; none where the numbers are too extreme for it."""
        kind = type(pen)
        if kind not in self._workings:
            try:
                self._workings[kind] = steps(self.done, pen) if self.done else []
            except (ArithmeticError, ValueError):
                self._workings[kind] = []
        return self._workings[kind]

    @cached_property
    def _workings(self) -> dict[type[Text], list[Step]]:
        """The workings that were written, by the kind of pen."""
        return {}


def _drawn_from(draw: Callable[..., Any], done: Run) -> dict[str, Any]:
    """Return what a chart takes by name: inputs, locals of the formula, and its result, `found`.

    So a chart draws what was computed and computes none of it again; so with the modes found.
    """
    parameters = inspect.signature(draw).parameters
    if any(p.kind is p.VAR_KEYWORD for p in parameters.values()):
        return dict(done.values)
    known = {**done.names, **done.values, "found": done.result}
    return {name: known[name] for name in parameters if name in known}


def short_name(name: str) -> str:
    """Return the last part of a formula's name, which prefixes its inputs in a link."""
    return name.rpartition(".")[2]


def start(name: str) -> dict[str, str]:
    """Return the entries a form starts with."""
    return {f.name: entry_of(f.declaration, f.start) for f in inputs(formula(name))}


def source(name: str) -> str:
    """Return the sources of a formula, from its docstring."""
    _, _, rest = (inspect.getdoc(formula(name)) or "").partition("\nSource:\n")
    lines = rest.partition("\n\n")[0].splitlines()
    return " ".join(line.strip() for line in lines)


def calculate(
    name: str, entries: Mapping[str, str], shown_in: ShownIn | None = None
) -> Calculation:
    """Return the calculation that entries ask for; problems are reported, never raised.

    `shown_in` is what the reader chose for the units of the results.
    """
    entry(name)
    fields = inputs(formula(name))
    known = {f.name for f in fields}
    problems = [
        Problem(f"{entry(name).title} has no input called “{key}”")
        for key in entries
        if key not in known
    ]
    readings: dict[str, Reading] = {}
    for f in fields:
        typed = entries.get(f.name)
        if typed is None and f.default is not None:
            typed = entry_of(f.declaration, f.default)
        try:
            readings[f.name] = checked(f.declaration, typed or "")
        except ValueError as error:
            choices, places = getattr(error, "choices", ()), getattr(error, "cells", ())
            problems.append(Problem(str(error), f.name, choices, places))
    if problems:
        return Calculation(name, readings, problems=tuple(problems))
    try:
        given = {key: reading.value for key, reading in readings.items()}
        done = run(formula(name), arguments(formula(name), given))
    except (ValueError, ArithmeticError) as error:
        message = str(error) if isinstance(error, ValueError) else "The numbers are too extreme"
        about = getattr(error, "inputs", ())
        own, *also = [f.name for f in fields if f.name in about] or [""]
        return Calculation(name, readings, problems=(Problem(message, own, also=tuple(also)),))
    chosen = replace(shown_in or ShownIn(), given=_units_given(fields, readings))
    return Calculation(name, readings, done, shown_in=chosen)


def _units_given(fields: list[Field], readings: Mapping[str, Reading]) -> dict[Same, Unit]:
    """Return the units that the inputs are shown in; of two inputs alike, that of the first."""
    found: dict[Same, Unit] = {}
    for f in fields:
        columns = [(f, readings[f.name])]
        if isinstance(f.declaration, Table):
            rows = rows_read(f.declaration, readings[f.name].text)
            columns = list(zip(inputs(f.declaration.row), rows[0], strict=False)) if rows else []
        for column, reading in columns:
            if isinstance(column.declaration, Quantity):
                same = (column.declaration.label, column.declaration.units)
                found.setdefault(same, reading.shown_in)
    return found


def latest(
    name: str,
    entries: Mapping[str, str],
    system: str = STARTING,
    results: Mapping[str, str] | None = None,
) -> Calculation:
    """Return the calculation of entries; the last one is kept, so that its copies cost no other.

    `system` is the system of units and `results` the units chosen beside results, by name.
    """
    return _latest(name, tuple(entries.items()), system, tuple((results or {}).items()))


@lru_cache(maxsize=1)
def _latest(
    name: str,
    entries: tuple[tuple[str, str], ...],
    system: str,
    results: tuple[tuple[str, str], ...],
) -> Calculation:
    return calculate(name, dict(entries), ShownIn(system, dict(results)))


def _given_warnings(f: Field, reading: Reading) -> list[str]:
    """Return the warnings on an input, in the unit that it is shown in."""
    if not isinstance(f.declaration, Table):
        return _warnings(f, reading.value, reading.shown_in)
    return [
        f"{f.declaration.label}, row {number}: {text}"
        for number, row in enumerate(rows_read(f.declaration, reading.text), 1)
        for column, cell in zip(inputs(f.declaration.row), row, strict=False)
        for text in _given_warnings(column, cell)
    ]


def _result_warnings(f: Field, value: Any, shown_in: ShownIn) -> list[str]:
    """Return the warnings on a result, in the unit that it is shown in."""
    if isinstance(f.declaration, Quantity):
        return _warnings(f, value, shown_in.unit(f.name, f.declaration))
    if not isinstance(f.declaration, Table):
        return []
    return [
        f"{f.declaration.label}, row {number}: {text}"
        for column in inputs(f.declaration.row)
        if isinstance(column.declaration, Quantity)
        for unit in [shown_in.unit(column_name(f, column), column.declaration)]
        for number, row in enumerate(value, 1)
        for text in _warnings(column, getattr(row, column.name), unit)
    ]


def _warnings(f: Field, value: Any, unit: Unit) -> list[str]:
    """Return the warnings on a number in a unit; a word or no number has none."""
    if not isinstance(f.declaration, Quantity) or not isinstance(value, (int, float)):
        return []
    text = "" if math.isnan(value) else f.declaration.warning(value, unit)
    return [text] if text else []
