"""Number: a number of an exercise with its unit, as the text says it and as a form reads it.

    {speed}           375_rpm in an entry, 375 rpm in a sentence
    {speed:rad/s}     the same digits taken for another unit
    {speed:*0.5}      half of it
    {speed:+15}       15 more in its unit
    {speed:^2}        its square
    {speed:=1}        with one decimal
    {speed:*{ratio}}  times another number, which has no unit
    {speed:bare}      the digits alone

Which numbers a seed stands for must never change, so they are not left to a library: a number is
made of the first four bytes of the SHA-256 of exercise, seed and name.
"""

import hashlib
from dataclasses import dataclass
from decimal import Decimal

from calc import units
from calc.digits import plain

_NAMES = {unit.key: unit.name for unit in vars(units).values() if isinstance(unit, units.Unit)}


@dataclass(frozen=True, slots=True)
class Number:
    """Digits and the key of a unit; `said` tells whether they stand in a sentence."""

    digits: str
    unit: str = ""
    said: bool = False

    @classmethod
    def of(cls, entry: str) -> "Number":
        """Return the number of an entry such as `4.8_m`; the word of a choice has no unit."""
        digits, _, unit = entry.partition("_")
        return cls(digits, unit) if digits[-1:].isdigit() else cls(entry)

    @classmethod
    def between(cls, low: str, high: str, step: str, share: float, unit: str) -> "Number":
        """Return one of the numbers from low to high in equal steps, by a share from 0 to 1."""
        first, size = Decimal(low), Decimal(step)
        steps = int((Decimal(high) - first) / size)
        return cls(format(first + size * int(share * (steps + 1)), "f"), unit)

    def __format__(self, spec: str) -> str:
        """Return the number as the specification in the braces asks."""
        digits, unit = self.digits, self.unit
        for part in spec.split():
            if part == "bare":
                unit = ""
            elif part[0] == "*":
                digits = plain(float(digits) * float(part[1:]), 12)
            elif part[0] == "^":
                digits = plain(float(digits) ** float(part[1:]), 12)
            elif part[0] == "=":
                digits = f"{float(digits):.{part[1:]}f}"
            elif part[0] == "+":
                digits = plain(float(digits) + float(part[1:]), 12)
            else:
                unit = part
        if self.said:
            return f"{digits}\N{NO-BREAK SPACE}{_NAMES[unit]}".rstrip().replace("-", "−")
        return f"{digits}_{unit}" if unit else digits


def share(key: str, seed: int, name: str, attempt: int) -> float:
    """Return a number from 0 up to 1, which is not reached, that depends on the arguments alone.

    Examples:
        >>> 0.0 <= share("tip_speed", 1, "radius", 0) < 1.0
        True
        >>> share("tip_speed", 1, "radius", 0) == share("tip_speed", 1, "radius", 0)
        True
    """
    text = f"{key} {seed} {name} {attempt}".encode()
    return int.from_bytes(hashlib.sha256(text).digest()[:4], "big") / 2.0**32
