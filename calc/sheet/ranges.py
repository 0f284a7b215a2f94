"""Ranges: statements of a data sheet about a governed speed that contradict one another."""

from collections.abc import Iterator
from typing import NamedTuple

from calc.form.reading import Reading
from calc.quantity import in_sentence
from calc.sheet.layout import section

GOVERNED = {"rotor_speeds": ("rotorcraft", "rotor_speed"), "propeller": ("propeller", "speed")}
"""Sections with the ranges of a governed speed, and where its nominal speed stands."""

CONDITIONS = ("power_on", "power_off", "transient")
ROUNDED = 1e-3
"""How far a nominal speed may lie beyond the range with power on, as a share: one of the two may
be typed in another unit and rounded."""

Known = dict[tuple[str, str], Reading]
"""What was read of single values, by section and field."""


class Contradiction(NamedTuple):
    """A field that cannot be as it stands beside another one, and what to do."""

    section: str
    name: str
    message: str


def contradictions(known: Known) -> Iterator[Contradiction]:
    """Yield each lowest speed above its highest, and each nominal speed outside power on."""
    for key, nominal in GOVERNED.items():
        found = [_reversed(known, key, condition) for condition in CONDITIONS]
        yield from (one for one in found if one)
        if found[0] is None:
            yield from _outside(known, key, nominal)


def _reversed(known: Known, key: str, condition: str) -> Contradiction | None:
    low, high = f"{condition}_low", f"{condition}_high"
    lowest, highest = known.get((key, low)), known.get((key, high))
    if lowest is None or highest is None or lowest.value <= highest.value:
        return None
    return _said((key, low), lowest, "above", (key, high), highest)


def _outside(known: Known, key: str, nominal: tuple[str, str]) -> Iterator[Contradiction]:
    speed = known.get(nominal)
    for end, side in (("power_on_low", "below"), ("power_on_high", "above")):
        limit = known.get((key, end))
        if speed is None or limit is None:
            continue
        sign = 1.0 if side == "above" else -1.0
        if sign * (speed.value - limit.value) > ROUNDED * limit.value:
            yield _said(nominal, speed, side, (key, end), limit)


def _said(
    own: tuple[str, str], typed: Reading, side: str, other: tuple[str, str], limit: Reading
) -> Contradiction:
    labels = [section(key).field(name).declaration.label for key, name in (own, other)]
    message = (
        f"{labels[0]}, {typed.shown}, is {side} the {in_sentence(labels[1])}, {limit.shown} "
        f"({'.'.join(other)}). Correct one of the two"
    )
    return Contradiction(*own, message)
