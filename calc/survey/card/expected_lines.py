"""Expected lines: what rotors and propellers excite at each rotor speed of a ground run."""

import itertools
import math
from collections.abc import Sequence
from typing import NamedTuple

from calc.form.calculation import calculate
from calc.harmonics.drive_train import BLADED, Part, Turning, turning
from calc.sheet.layout import TRAIN
from calc.sheet.sheet import Sheet
from calc.survey import governed
from calc.survey.asked import Feed
from calc.survey.card.dwell import separation_time
from calc.survey.train import drive_train
from calc.units import RPM

MOST = 8
"""Lines that a card has room for."""

NOT_ALIKE = 0.05
"""How far the reference shaft may turn from the rotor speed of the sheet, as a share."""


class Line(NamedTuple):
    """A forcing frequency: in cycles of the rotor, or fixed in Hz where it does not follow it."""

    name: str
    order: float
    fixed: float | None = None

    def at(self, rotor_speed: float) -> float:
        """Return its frequency at a rotor speed in rad/s; Hz."""
        return self.order * rotor_speed / (2.0 * math.pi) if self.fixed is None else self.fixed


class ExpectedLines(NamedTuple):
    """The lines, lowest order first; what the sheet lacks so that there are none; and notes."""

    lines: tuple[Line, ...] = ()
    lacks: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    def at(self, rotor_speed: float) -> list[tuple[str, float]]:
        """Return names and frequencies at a rotor speed in rad/s; Hz."""
        return [(line.name, line.at(rotor_speed)) for line in self.lines]


class Apart(NamedTuple):
    """The two lines that are nearest to one another, and the record that tells them apart, s."""

    one: str
    other: str
    record: float | None


def expected_lines(sheet: Sheet) -> ExpectedLines:
    """Return the lines of everything on a sheet that has blades: once per revolution and passages.

    Of the reference shaft two blade passages, of the others one.  A shaft that does not follow the
    reference turns at the second governed speed of the sheet, if its propellers are on that, or
    else at the speed that the drive train has for it.
    """
    feed = drive_train(sheet)
    rotor_speed = feed.reading("rotorcraft", "rotor_speed")
    if feed.missing or rotor_speed is None:
        return ExpectedLines(lacks=tuple(feed.missing))
    found = calculate(TRAIN, feed.entries)
    if found.problems:
        return ExpectedLines(lacks=tuple(problem.message for problem in found.problems))
    parts, turns = found.values["train"], turning(found.values["train"])
    reference = found.values["reference"]
    own = turns[reference]
    if abs(own.speed / rotor_speed.value - 1.0) > NOT_ALIKE:
        wanted = (
            f"The rotor as reference shaft: {reference} turns at {RPM.reading(own.speed):.1f} rpm"
        )
        return ExpectedLines(lacks=(f"{wanted} (drive.reference)",))
    factors = _second(sheet, turns)
    lines = [
        _line(part, cycles, turns[part.name], own, factors)
        for part in parts
        if part.kind in BLADED
        for cycles in _cycles(part, passages=1 + (turns[part.name] == own))
    ]
    lines.sort(key=lambda line: (line.fixed is not None, line.order, line.fixed or 0.0))
    return ExpectedLines(tuple(lines[:MOST]), (), (*feed.warnings, *_notes(lines)))


def nearest(lines: Sequence[tuple[str, float]]) -> Apart | None:
    """Return the two lines that are nearest to one another; None where there are not two."""
    pairs = list(itertools.combinations(lines, 2))
    if not pairs:
        return None
    (one, first), (other, second) = min(pairs, key=lambda pair: abs(pair[0][1] - pair[1][1]))
    return Apart(one, other, separation_time(first, second))


def _cycles(part: Part, passages: int) -> list[int]:
    """Return cycles per revolution of the lines of a part: imbalance and blade passages."""
    return list(dict.fromkeys([1, *(part.count * number for number in range(1, passages + 1))]))


def _line(part: Part, cycles: int, turns: Turning, own: Turning, factors: dict[str, float]) -> Line:
    name = f"{part.name} {cycles}/rev"
    if turns.follows == own.follows:
        return Line(name, cycles * turns.speed / own.speed)
    fixed = factors.get(turns.follows, 1.0) * cycles * turns.speed / (2.0 * math.pi)
    return Line(name, 0.0, fixed)


def _second(sheet: Sheet, turns: dict[str, Turning]) -> dict[str, float]:
    """Return what the speed of an independent shaft is multiplied with so that it is governed."""
    feed = Feed(sheet)
    part = feed.reading("propeller", "second", needed=False)
    nominal = feed.reading("propeller", "speed", needed=False)
    if not governed.has_propeller(feed) or part is None or nominal is None:
        return {}
    one = turns.get(part.value)
    return {one.follows: nominal.value / one.speed} if one else {}


def _notes(lines: Sequence[Line]) -> list[str]:
    notes = []
    if any(line.fixed is not None for line in lines[:MOST]):
        notes.append(
            "Lines of shafts that do not follow the rotor stand at the nominal speed of the sheet: "
            "write in what they turn at"
        )
    if len(lines) > MOST:
        notes.append(f"{len(lines) - MOST} more lines are in the table of forcing frequencies")
    return notes
