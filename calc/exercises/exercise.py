"""Exercise: what a learner is asked, which numbers vary, what the usual mistakes are."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from calc.exercises.number import Number

LEVELS: Mapping[int, str] = {1: "one step", 2: "with a catch", 3: "small case"}
"""How much an exercise asks, by its level."""


@dataclass(frozen=True, slots=True)
class Draw:
    """A number that the seed chooses: from low to high in equal steps, in one unit."""

    low: str
    high: str
    step: str
    unit: str = ""

    def at(self, share: float) -> Number:
        """Return the number at a share of the way, from 0 up to 1, which is not reached."""
        return Number.between(self.low, self.high, self.step, share, self.unit)


@dataclass(frozen=True, slots=True)
class Step:
    """A calculation of an exercise: a formula of the catalogue, its entries, the result wanted.

    An input takes the number of its own name; `entries` says what any other input takes.  `asks`
    names a result, or `table.row.column`.  Later steps find the result under `name`.
    """

    formula: str
    asks: str
    entries: Mapping[str, str] = field(default_factory=dict)
    name: str = ""


@dataclass(frozen=True, slots=True)
class Mistake:
    """A usual mistake as the same calculation with other entries.

    `says` ends the sentence "That number comes out when ...".  `changed` gives numbers of the
    exercise another value; the result is raised to `power` and multiplied by `times`; `asks` takes
    another result of the last formula.
    """

    says: str
    changed: Mapping[str, str] = field(default_factory=dict)
    times: float = 1.0
    asks: str = ""
    power: float = 1.0


@dataclass(frozen=True, slots=True)
class Exercise:
    """A question whose numbers come from a seed; `key` is part of its address and stays for ever.

    `given` are the numbers by name: an entry such as `4.8_m`, one made of those before it, or a
    draw.  `text` and `hints` name them in braces; what `text` does not name is listed under it.
    The answer is right within `tolerance` of itself, and lies `between` two entries for every
    seed.  `lesson` is what the result is to teach.
    """

    key: str
    title: str
    level: int
    text: str
    given: Mapping[str, str | Draw]
    steps: tuple[Step, ...]
    between: tuple[str, str]
    hints: tuple[str, ...]
    mistakes: tuple[Mistake, ...]
    lesson: str
    tolerance: float = 0.01
