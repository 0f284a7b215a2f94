"""Published cases: what was printed elsewhere, beside what `calc` finds."""

import tomllib
from dataclasses import dataclass
from decimal import Decimal
from functools import cache, cached_property
from importlib import import_module
from pathlib import Path
from typing import Any

from calc.declaration import Field, Table, arguments, inputs, outputs
from calc.digits import significant
from calc.form.reading import LONGEST, Reading, read
from calc.quantity import Quantity
from scripts.environment import ROOT

STATUSES = ("read", "secondary", "memory")
"""How a printed value was obtained: in the work itself, in one that quotes it, or remembered."""

NOISE = 1e-3
"""A difference of less than this share of the last printed digit is rounding, and shown as 0."""


@dataclass(frozen=True)
class Case:
    """One published case and the file that it stands in.

    `row` counts from 1, for a formula that returns rows.  `definition` marks a case that only puts
    numbers into a definition: it does not count.
    """

    topic: str
    source: str
    where: str
    formula: str
    inputs: dict[str, str]
    printed: str
    status: str = "read"
    output: str = ""
    row: int = 0
    given: str = ""
    tolerance: str = ""
    reason: str = ""
    note: str = ""
    definition: bool = False

    @property
    def title(self) -> str:
        """A short name of the case for a test report."""
        return f"{self.topic}: {self.source}, {self.where}, {self.printed}"

    @property
    def quantity(self) -> Quantity:
        """The output that was printed."""
        fields = outputs(self._function)
        if self.row and isinstance(table := fields[0].declaration, Table):
            fields = inputs(table.row)
        found = next((f for f in fields if f.name == self.output), fields[0])
        assert isinstance(found.declaration, Quantity), self.title
        return found.declaration

    @cached_property
    def expected(self) -> Reading:
        """The printed value."""
        return read(self.quantity, self.printed)

    @cached_property
    def value(self) -> float:
        """What `calc` finds, in SI units."""
        values = {f.name: self._input(f) for f in inputs(self._function) if f.name in self.inputs}
        result = self._function(**arguments(self._function, values))
        row = result[self.row - 1] if self.row else result
        return float(getattr(row, self.output) if self.output else row)

    @property
    def allowed(self) -> float:
        """The allowed difference in SI: the stated tolerance, or half of the last printed digit."""
        unit = self.expected.unit
        if self.tolerance:
            return float(read(self.quantity, self.tolerance).value - unit.si(0.0))
        return 0.5 * self._last_digit * unit.size * (1.0 + 1e-9)

    @property
    def ours(self) -> str:
        """What `calc` finds, in the printed unit, with two digits more than were printed."""
        digits = len(Decimal(self.expected.text).as_tuple().digits)
        unit = self.expected.unit
        return f"{significant(unit.reading(self.value), digits + 2)} {unit.name}".rstrip()

    @property
    def difference(self) -> str:
        """Our value less the printed one, in the printed unit; rounding noise is none."""
        unit = self.expected.unit
        found = unit.reading(self.value) - unit.reading(self.expected.value)
        if abs(found) < NOISE * self._last_digit:
            return "0"
        sign = "+" if found > 0.0 else ""
        return f"{sign}{significant(found, 2)} {unit.name}".rstrip()

    @property
    def _last_digit(self) -> float:
        """One unit of the last printed digit, in the printed unit."""
        exponent = Decimal(self.expected.text).as_tuple().exponent
        assert isinstance(exponent, int), self.title
        return 10.0**exponent

    @property
    def _function(self) -> Any:
        module, _, name = self.formula.rpartition(".")
        return getattr(import_module(f"calc.{module}"), name)

    def _input(self, f: Field) -> Any:
        typed = self.inputs[f.name]
        assert len(typed) <= LONGEST or not isinstance(f.declaration, Quantity), self.title
        return read(f.declaration, typed).value


def topics() -> list[str]:
    """Return the topics that have published cases, such as `rotor/tip_speed`."""
    folder = ROOT / "tests"
    found = (
        path.relative_to(folder).with_suffix("").as_posix() for path in folder.glob("*/*.toml")
    )
    pages = ROOT / "docs"
    return sorted(topic for topic in found if (pages / f"{topic}.md").exists())


def topic_of(name: str) -> str:
    """Return the topic of a formula, such as `rotor/tip_speed`."""
    chapter, module, _ = name.split(".")
    return f"{chapter}/{module}"


@cache
def methods(topic: str) -> tuple[str, ...]:
    """Return the independent methods that a topic is compared with, besides printed numbers."""
    chapter, _, module = topic.partition("/")
    path = ROOT / "tests" / chapter / "methods.toml"
    return tuple(_table(path).get(module, ())) if path.exists() else ()


def compared() -> set[str]:
    """Return the formulas that are compared with a number that was printed elsewhere."""
    found = (case for topic in topics() for case in cases(topic))
    return {case.formula for case in found if not case.definition}


@cache
def cases(topic: str) -> tuple[Case, ...]:
    """Return the published cases of a topic, in the order of their file."""
    path = ROOT / "tests" / f"{topic}.toml"
    found = _table(path).get("case", []) if path.exists() else []
    return tuple(Case(topic=topic, **entry) for entry in found)


@cache
def sources() -> dict[str, dict[str, Any]]:
    """Return every source by its key, in the order of keys."""
    found: dict[str, dict[str, Any]] = {}
    for path in sorted((ROOT / "docs" / "sources").glob("*.toml")):
        for key, source in _table(path).items():
            assert found.get(key, source) == source, f"two sources are called {key}"
            found[key] = source
    return dict(sorted(found.items()))


def _table(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))
