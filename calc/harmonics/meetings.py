"""Coincidences: where an excitation comes within a margin of a mode or of another excitation.

An excitation is an order of one of two independent shafts, or has a fixed frequency, as a mode
has.  Two lines are within the margin where the ratio of their frequencies lies between 1/q and q,
so that every coincidence is a range of one speed whose ends are constants or are proportional to
the other speed.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import pi
from typing import Annotated, NamedTuple

from calc.declaration import Choice, Name, Table
from calc.quantity import Quantity
from calc.units import FREQUENCY, PER_REV, SHARE

ROUNDING = 1e-12  # so that two lines exactly a margin apart count as within it
ROTOR, SECOND, NONE = "rotor", "second", "none"

SOURCE_NAME = Name("Excitation", "rotor 2/rev")
FOLLOWS = Choice(
    "Shaft",
    {ROTOR: "rotor", SECOND: "propeller (independent speed 2)", NONE: "fixed frequency"},
)
MULTIPLE = Quantity("k", "Order", (PER_REV,), at_least=0.0, example=2.0)
STEADY_FREQUENCY = Quantity(
    "f", "Fixed frequency, of no shaft", FREQUENCY, at_least=0.0, example=0.0
)
MODE_NAME = Name("Mode", "first lateral mode")
MODE_FREQUENCY = Quantity("f_n", "Natural frequency", FREQUENCY, above=0.0, example=12.6)
UNCERTAINTY = Quantity("u", "Frequency tolerance", SHARE, at_least=0.0, below=1.0, example=0.02)
DAMPING = Quantity(r"\zeta", "Damping ratio", SHARE, above=0.0, below=1.0, example=0.03)
MARGIN = Quantity("t", "Margin", SHARE, at_least=0.0, at_most=1.0, example=0.05)


@dataclass(frozen=True, slots=True)
class Source:
    """An excitation: an order of an independent shaft, or a fixed frequency."""

    name: Annotated[str, SOURCE_NAME]
    follows: Annotated[str, FOLLOWS]
    multiple: Annotated[float, MULTIPLE] = 0.0
    frequency: Annotated[float, STEADY_FREQUENCY] = 0.0


@dataclass(frozen=True, slots=True)
class Mode:
    """A mode of the structure, the tolerance of its frequency, and its damping."""

    name: Annotated[str, MODE_NAME]
    frequency: Annotated[float, MODE_FREQUENCY]
    uncertainty: Annotated[float, UNCERTAINTY] = 0.0
    damping_ratio: Annotated[float, DAMPING] = 0.03


SOURCES = Table(
    "Excitations",
    Source,
    (
        Source("rotor 1/rev", ROTOR, 1.0),
        Source("rotor 4/rev", ROTOR, 4.0),
        Source("propeller 1/rev", SECOND, 1.0),
        Source("propeller 3/rev", SECOND, 3.0),
        Source("engine", NONE, 0.0, 83.3),
    ),
    at_least=1,
    at_most=40,
)
MODES = Table(
    "Modes",
    Mode,
    (
        Mode("first lateral mode", 6.1, 0.02),
        Mode("first vertical mode", 18.4, 0.02),
        Mode("tail boom mode", 26.5, 0.03),
    ),
    at_most=40,
)


class Line(NamedTuple):
    """An excitation or a mode: its frequency over the speed of its shaft, Hz/(rad/s), or in Hz."""

    name: str
    follows: str
    rate: float
    spread: float = 0.0


class Meeting(NamedTuple):
    """Two lines within the margin: the limits of the speed of the first.

    The limits are fractions of the speed of the second, or in rad/s where it follows none.  The
    inner limits leave out the frequency tolerance of the second.
    """

    first: Line
    second: Line
    low: float
    high: float
    inner_low: float
    inner_high: float

    @property
    def words(self) -> str:
        """Which excitation crosses which mode, or which two excitations coincide."""
        does = "crosses" if self.with_mode else "coincides with"
        return f"{self.first.name} {does} {self.second.name}"

    @property
    def always(self) -> bool:
        """Whether the two keep their distance whatever the speeds."""
        return self.first.follows == self.second.follows

    @property
    def with_mode(self) -> bool:
        """Whether a mode takes part."""
        return isinstance(self.second, ModeLine)


class ModeLine(Line):
    """A line that is a mode of the structure."""


def meetings(sources: Sequence[Source], modes: Sequence[Mode], margin: float) -> list[Meeting]:
    """Return every pair of lines that are within the margin at some or at all speeds."""
    lines = [*map(source_line, sources)]
    resonances = [ModeLine(m.name, NONE, m.frequency, m.uncertainty) for m in modes]
    pairs = [*((line, mode) for line in lines for mode in resonances), *combinations(lines, 2)]
    return [*_met(pairs, ratio_of(margin))]


def ratio_of(margin: float) -> float:
    r"""Return the ratio of two frequencies whose difference is a margin of their mean.

    $$ q = \frac{1 + t / 2}{1 - t / 2} $$
    """
    return (1.0 + margin / 2.0) / (1.0 - margin / 2.0) * (1.0 + ROUNDING)


def source_line(source: Source) -> Line:
    """Return an excitation as a line; one without a frequency is refused by name."""
    rate = source.frequency if source.follows == NONE else source.multiple / (2.0 * pi)
    if rate == 0.0:
        wanted = "a fixed frequency" if source.follows == NONE else "an order of its shaft"
        raise ValueError(f"{source.name}: it needs {wanted} above 0")
    return Line(source.name, source.follows, rate)


def _met(pairs: Iterable[tuple[Line, Line]], ratio: float) -> Iterator[Meeting]:
    order = (ROTOR, SECOND, NONE)
    for pair in pairs:
        first, second = sorted(pair, key=lambda line: order.index(line.follows))
        equal = second.rate / first.rate
        inner = equal / ratio, equal * ratio
        low, high = inner[0] * (1.0 - second.spread), inner[1] * (1.0 + second.spread)
        if first.follows != second.follows or low <= 1.0 <= high:
            yield Meeting(first, second, low, high, *inner)
