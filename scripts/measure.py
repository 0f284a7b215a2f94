"""What a benchmark measures, beside its budget."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable


class Measure(NamedTuple):
    """What was measured, the value, its unit and the most it may be (or the least, negative).

    A budget of zero is none.
    """

    what: str
    value: float
    unit: str
    budget: float = 0.0

    def __str__(self) -> str:
        """Return a line of the table."""
        limit = f"{'≥' if self.budget < 0 else '≤'} {abs(self.budget):g} {self.unit}"
        line = f"{self.what:52} {self.value:9.4g} {self.unit:3}"
        return f"{line} {limit if self.budget else '':>10}{'  over' if self.is_missed else ''}"

    @property
    def is_missed(self) -> bool:
        """Whether the budget is not kept."""
        return self.value < -self.budget if self.budget < 0 else 0 < self.budget < self.value


def median(values: Iterable[float]) -> float:
    """Return the middle one of some values."""
    ordered = sorted(values)
    return ordered[len(ordered) // 2]
