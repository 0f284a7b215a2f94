"""The axes of a figure: limits, places for tick marks, and where a value lies."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from calc.digits import plain, significant
from calc.quantity import Quantity
from calc.units import DEGREE, ONE, Unit

_MOST_TICKS = 8
_QUARTERS = (15.0, 30.0, 45.0, 90.0)


@dataclass(frozen=True, slots=True)
class Axis:
    """An axis in a reader's unit; its limits, and all values on it, are in the SI unit.

    A limit left out is set by the data. `ticks` replaces the numbers by named places. `follows` is
    the quantity whose unit, as the reader has chosen it in the form, the axis takes over.
    """

    label: str
    unit: Unit = ONE
    low: float = math.nan
    high: float = math.nan
    log: bool = False
    ticks: tuple[tuple[float, str], ...] = ()
    follows: Quantity | None = None

    @classmethod
    def of(
        cls,
        quantity: Quantity,
        low: float = math.nan,
        high: float = math.nan,
        unit: Unit | None = None,
    ) -> "Axis":
        """Return an axis for a quantity, in the unit that its form starts with if none is given."""
        return cls(quantity.label, unit or quantity.units[0], low, high, follows=quantity)

    @property
    def title(self) -> str:
        """The label with the unit, such as `Airspeed (kt)`."""
        return f"{self.label} ({self.unit.name})" if self.unit.name else self.label

    def fitted(self, values: Iterable[float]) -> "Axis":
        """Return the axis with both limits; those left out are round numbers about the values."""
        seen = [value for value in values if math.isfinite(value) and (value > 0.0 or not self.log)]
        low = self.low if math.isfinite(self.low) else min(seen, default=self.high)
        high = self.high if math.isfinite(self.high) else max(seen, default=self.low)
        if not (math.isfinite(low) and math.isfinite(high)):
            low, high = (1.0, 10.0) if self.log else (0.0, 1.0)
        if low >= high:
            low, high = (
                (low / 2.0, low * 2.0)
                if self.log
                else (low - (abs(low) / 2.0 or 0.5), low + (abs(low) / 2.0 or 0.5))
            )
        if self.log:
            low_step, high_step = (
                10.0 ** math.floor(math.log10(low)),
                10.0 ** math.ceil(math.log10(high)),
            )
            limits = low_step, high_step
        else:
            limits = self._round(low, high)
        return replace(
            self,
            low=self.low if math.isfinite(self.low) else limits[0],
            high=self.high if math.isfinite(self.high) else limits[1],
        )

    def at(self, value: float) -> float:
        """Return where a value lies on a fitted axis: 0 at the low limit, 1 at the high one."""
        if self.log:
            return (
                math.log(value / self.low) / math.log(self.high / self.low)
                if value > 0
                else math.nan
            )
        return (value - self.low) / (self.high - self.low)

    def marked(self) -> list[tuple[float, str]]:
        """Return the tick marks of a fitted axis: where each lies, from 0 to 1, and its text."""
        if self.ticks:
            named = [(self.at(value), text) for value, text in self.ticks]
        elif self.log:
            named = self._decades()
        else:
            named = self._steps()
        return [(place, text) for place, text in named if -1e-9 <= place <= 1.0 + 1e-9]

    def _round(self, low: float, high: float) -> tuple[float, float]:
        """Return limits in SI that are whole steps in the unit; from zero where that is near."""
        ends = self.unit.reading(low), self.unit.reading(high)
        first, last = (0.0, ends[1]) if 0.0 < ends[0] < 0.5 * ends[1] else ends
        step = self._step(last - first)
        first, last = math.floor(first / step + 1e-9) * step, math.ceil(last / step - 1e-9) * step
        return self.unit.si(first), self.unit.si(last)

    def _step(self, span: float) -> float:
        """Return the distance between tick marks: 1, 2 or 5 times a power of ten, or eighths."""
        if self.unit is DEGREE and 90.0 <= span <= 720.0:
            return next(step for step in _QUARTERS if span / step <= _MOST_TICKS + 1e-9)
        power = 10.0 ** math.floor(math.log10(span / _MOST_TICKS))
        return next(
            n * power for n in (1.0, 2.0, 5.0, 10.0) if span / (n * power) <= _MOST_TICKS + 1e-9
        )

    def _steps(self) -> list[tuple[float, str]]:
        first, last = self.unit.reading(self.low), self.unit.reading(self.high)
        step = self._step(last - first)
        whole = range(math.ceil(first / step - 1e-9), math.floor(last / step + 1e-9) + 1)
        power, most = (math.floor(math.log10(n) + 1e-9) for n in (step, max(abs(first), abs(last))))
        marks = []
        for n in whole:
            if power >= -4 and (most < 6 or most - power > 4):
                text = f"{n * step:,.{max(0, -power)}f}".replace(",", "\u202f")
                text = text.replace("-", "\N{MINUS SIGN}")
            else:
                text = significant(n * step, 1 + most - power)
            marks.append((self.at(self.unit.si(n * step)), text))
        return marks

    def _decades(self) -> list[tuple[float, str]]:
        first, last = self.unit.reading(self.low), self.unit.reading(self.high)
        powers = range(math.floor(math.log10(first) + 1e-9), math.ceil(math.log10(last) - 1e-9) + 1)
        digits = (1, 2, 5) if last <= 1000.0 * first else (1,)
        numbers = [n * 10.0**power for power in powers for n in digits]
        return [
            (
                self.at(self.unit.si(number)),
                plain(number) if 1e-4 < number < 1e6 else significant(number, 1),
            )
            for number in numbers
        ]
