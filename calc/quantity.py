"""What a number means: its symbol, units and limits, declared once."""

import math
from dataclasses import dataclass
from typing import Self

from calc.digits import plain, readable
from calc.units import NUMBER, Family, Unit, si_unit


@dataclass(frozen=True, slots=True, repr=False)
class Quantity:
    """An input or output of a formula; every number in it is in the SI unit of its family.

    `above`, `at_least`, `at_most` and `below` are limits beyond which the quantity cannot exist.
    `covered` is the range that the source of the formula covers, and `covered_by` names what sets
    that range; a number outside it is computed and carries a warning.  `precision` is the relative
    difference up to which two engines, or two releases, give the same number.
    """

    symbol: str
    label: str
    units: Family = NUMBER
    above: float = -math.inf
    at_least: float = -math.inf
    at_most: float = math.inf
    below: float = math.inf
    covered: tuple[float, float] = (-math.inf, math.inf)
    covered_by: str = ""
    example: float = math.nan
    whole: bool = False
    source: str = ""
    precision: float = 1e-9

    def __repr__(self) -> str:
        """Return a form short enough to read in a signature."""
        return f"<{self.label}, {self.si.name or 'no unit'}>"

    @property
    def si(self) -> Unit:
        """The SI unit, in which formulas compute."""
        return si_unit(self.units)

    def check(self, value: float) -> None:
        """Raise LimitError for a value that cannot exist."""
        inside = self.above < value < self.below and self.at_least <= value <= self.at_most
        if not inside or not math.isfinite(value) or (self.whole and value != int(value)):
            raise LimitError(self, value)

    def refusal(self, value: float, unit: Unit) -> str:
        """Return why a value cannot exist, in the unit that the reader chose."""
        if not math.isfinite(value):
            return f"{self.label} must be a finite number"
        if self.whole and value != int(value):
            return f"{self.label} must be a whole number, not {self.show(value, unit)}"
        limits, shown = self.limits(unit), self.show(value, unit)
        bounds = [(self.show(bound, unit), bound) for _, bound, _ in self._bounds()]
        if any(shown == said and value != bound for said, bound in bounds):
            exact = int(value) if self.whole else unit.reading(value)
            shown = f"{exact!r} {unit.name}".rstrip()
        return f"{self.label} must be {limits}, not {shown}"

    def warning(self, value: float, unit: Unit) -> str:
        """Return a warning on a possible value that the source does not cover, or nothing."""
        outside = self.outside(value, unit)
        return f"{outside}: {self.covered_by}" if outside and self.covered_by else outside

    def outside(self, value: float, unit: Unit) -> str:
        """Return that a value lies outside the covered range, without the reason, or nothing.

        The numbers are rounded to be read, unless that would put the value inside the range.
        """
        low, high = self.covered
        if low <= value <= high:
            return ""

        rounded = readable(unit.reading(value)) != readable(
            unit.reading(low if value < low else high)
        )

        def said(number: float) -> str:
            reading = unit.reading(number)
            return f"{readable(reading) if rounded else plain(reading)} {unit.name}".rstrip()

        bounds = {
            (True, True): f"{said(low)} to {said(high)}",
            (True, False): f"from {said(low)} up",
            (False, True): f"up to {said(high)}",
        }[math.isfinite(low), math.isfinite(high)]
        return f"{self.label} {said(value)} is outside the covered range, {bounds}"

    def limits(self, unit: Unit) -> str:
        """Return the limits in words, such as `at least 0 deg and below 180 deg`."""
        words = [f"{word} {self.show(bound, unit)}" for word, bound, _ in self._bounds()]
        return self._limits(words)

    def readable_limits(self, unit: Unit) -> str:
        """Return the limits in few digits, rounded so that no legal value is left out."""
        words = [
            f"{word} {readable(unit.reading(bound), outward)} {unit.name}".rstrip()
            for word, bound, outward in self._bounds()
        ]
        return self._limits(words)

    def _bounds(self) -> list[tuple[str, float, float]]:
        """Return the limits there are: how each is said, the bound, and the way out of it."""
        bounds = [
            ("above", self.above, -1.0),
            ("at least", self.at_least, -1.0),
            ("at most", self.at_most, 1.0),
            ("below", self.below, 1.0),
        ]
        return [bound for bound in bounds if math.isfinite(bound[1])]

    def _limits(self, words: list[str]) -> str:
        return " and ".join(words) or ("a whole number" if self.whole else "any number")

    def show(self, value: float, unit: Unit) -> str:
        """Return a value as it would be typed, with its unit."""
        return f"{plain(unit.reading(value))} {unit.name}".rstrip()


class Constant(float):
    """A number of nature or of a standard that formulas use, with what it is.

    It is a float in every calculation; the working of a formula shows its symbol and unit.
    """

    quantity: Quantity

    def __new__(cls, value: float, quantity: Quantity) -> Self:
        """Make a constant of a value in SI units."""
        made = super().__new__(cls, value)
        made.quantity = quantity
        return made


PROPER_NAMES = {"Glauert", "Lock", "Mach", "Southwell"}


def in_sentence(label: str) -> str:
    """Return a label as it stands inside a sentence: `Lock number`, but `rotor radius`."""
    first, _, _ = label.partition(" ")
    return label if first in PROPER_NAMES or first.isupper() else label[0].lower() + label[1:]


class LimitError(ValueError):
    """A value that cannot exist; says which quantity, which limit and which value."""

    def __init__(self, quantity: Quantity, value: float) -> None:
        """Word the refusal in the unit that a form starts with."""
        super().__init__(quantity.refusal(value, quantity.units[0]))
        self.quantity = quantity
        self.value = value


class InputsError(ValueError):
    """Inputs that cannot go together, such as a range that does not rise.

    `inputs` are the names of all that are meant, so that a form marks each of their fields.
    """

    def __init__(self, message: str, *inputs: str) -> None:
        """Keep the names of the inputs beside the message."""
        super().__init__(message)
        self.inputs = inputs
