"""The unit in which each result is shown: chosen beside it, that of an input, or of the system."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from calc.chart import Axis
from calc.declaration import Field, Name, Table, inputs
from calc.digits import significant
from calc.quantity import Quantity
from calc.unit_systems import STARTING, unit_of
from calc.units import Family, Unit

Same = tuple[str, Family]
"""What makes two quantities the same for a reader: the label, and the units to choose from."""


@dataclass(frozen=True, slots=True)
class ShownIn:
    """What a reader chose: a system of units, and by name the unit of a result.

    A column of a table of results has the name `table.column`.  `given` are the units that the
    inputs are shown in.  A unit that a result cannot be shown in, as a link may bring one, counts
    as not chosen.
    """

    system: str = STARTING
    results: Mapping[str, str] = field(default_factory=dict)
    given: Mapping[Same, Unit] = field(default_factory=dict)

    def unit(self, name: str, quantity: Quantity) -> Unit:
        """Return the unit of a result: the one chosen, or else the one it starts with."""
        chosen = self.results.get(name)
        found = next((unit for unit in quantity.units if unit.key == chosen), None)
        return found or self.start(quantity)

    def start(self, quantity: Quantity) -> Unit:
        """Return the unit that an input of the same declaration is shown in, or the system's."""
        return self.given.get((quantity.label, quantity.units)) or unit_of(
            quantity.units, self.system
        )

    def on_axis(self, axis: Axis, results: Iterable[Field]) -> Unit:
        """Return the unit of an axis of a figure.

        It follows a result or an input of its label; where no input has it, also any result with
        the same units to choose from, of which one that was chosen comes first.  A form may
        declare a quantity more narrowly than the figure does: its label identifies it.
        """
        return axis.unit if axis.follows is None else self.alike(axis.follows, results)

    def alike(self, follows: Quantity, results: Iterable[Field]) -> Unit:
        """Return the unit of a quantity that is no result itself, as `on_axis` finds it."""
        alike = [(name, q) for name, q in named(results) if q.units == follows.units]
        if (follows.label, follows.units) in self.given:
            alike = [(name, q) for name, q in alike if q.label == follows.label]
        alike.sort(key=lambda one: (one[0] not in self.results, one[1].label != follows.label))
        for name, quantity in alike:
            return self.unit(name, quantity)
        return self.start(follows)

    def sentence(self, name: Name, text: str, results: Sequence[Field]) -> str:
        """Return a sentence of a result with the numbers that it states in the units chosen.

        They have one digit more than the sentence gives, so that none is far from what it was.
        """
        shown = {q.units[0].name: (q.units[0], self.alike(q, results)) for q in name.states}
        if not shown:
            return text

        def turned(found: re.Match[str]) -> str:
            told, unit = shown[found[2]]
            if unit == told:
                return found[0]
            digits = 1 + len(found[1].replace(".", "").lstrip("0"))
            return f"{significant(unit.reading(told.si(float(found[1]))), digits)} {unit.name}"

        names = "|".join(map(re.escape, shown))
        return re.sub(rf"(\d+(?:\.\d+)?) ({names})(?![\w/])", turned, text)


def named(results: Iterable[Field]) -> list[tuple[str, Quantity]]:
    """Return the quantities among results and in the columns of their tables, with their names."""
    found: list[tuple[str, Quantity]] = []
    for f in results:
        if isinstance(f.declaration, Quantity):
            found.append((f.name, f.declaration))
        elif isinstance(f.declaration, Table):
            found += [
                (column_name(f, column), column.declaration)
                for column in inputs(f.declaration.row)
                if isinstance(column.declaration, Quantity)
            ]
    return found


def row_values(row: Any) -> list[Any]:
    """Return what stands in the columns of a row of a table of results."""
    kind: Any = type(row)
    return [getattr(row, column.name) for column in inputs(kind)]


def column_name(table: Field, column: Field) -> str:
    """Return the name under which a reader chooses the unit of a column of a table of results."""
    return f"{table.name}.{column.name}"
