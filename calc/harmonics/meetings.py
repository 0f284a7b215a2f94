"""Coincidences: where an excitation comes within a margin of a mode or of another excitation.

An excitation is an order of one of two independent shafts, or has a fixed frequency, as a mode
has.  Two lines are within the margin where the ratio of their frequencies lies between 1/q and q,
so that every coincidence is a range of one speed whose ends are constants or are proportional to
the other speed.  The examples are the strong orders and the modes of the invented Curlew.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from math import pi
from typing import Annotated, NamedTuple

from calc.declaration import Choice, Name, Table
from calc.quantity import Quantity
from calc.units import FREQUENCY, PER_REV, SHARE

ROUNDING = 1e-12  # so that two lines exactly a margin apart count as within it
ROTOR, SECOND, NONE = "rotor", "second", "none"
CANCELS = "cancels at the hub if the blades are equal"

SOURCE_NAME = Name("Excitation", "rotor 2/rev")
HUB_BLADES = Quantity(
    "N_b",
    "Number of blades of the rotor, 0 where not asked",
    at_least=0,
    at_most=20,
    whole=True,
    example=0,
)
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
        Source("rotor 6/rev", ROTOR, 6.0),
        Source("propeller 1/rev", SECOND, 1.0),
        Source("propeller 5/rev", SECOND, 5.0),
    ),
    at_least=1,
    at_most=40,
)
MODES = Table(
    "Modes",
    Mode,
    (
        Mode("roll on the gear", 1.82, 0.05, 0.10),
        Mode("pitch on the gear", 2.24, 0.05, 0.08),
        Mode("first lateral bending", 6.25, 0.03, 0.02),
        Mode("nacelle, backward whirl", 8.11, 0.06, 0.03),
        Mode("nacelle, forward whirl", 8.71, 0.06, 0.03),
        Mode("first vertical bending", 11.0, 0.02, 0.02),
        Mode("second vertical bending", 31.0, 0.02, 0.02),
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


def seen_through_the_hub(sources: Sequence[Source], blades: int) -> tuple[Source, ...]:
    """Return the excitations, those orders of the rotor named that equal blades cancel at the hub.

    Equal and equally spaced blades transmit only whole multiples of their number.  Once per
    revolution is left as it is, since imbalance makes it, and so is an order that is not whole:
    it comes from another shaft, which no blade cancels.

    Args:
        sources: Excitations.
        blades: Number of blades of the rotor, 0 where that is not asked; scalar.

    Returns:
        The same excitations, in their order.

    Source:
        The sum of equally spaced unit vectors; see `hub_filter`.
    """
    return tuple(
        replace(source, name=f"{source.name} ({CANCELS})")
        if blades and source.follows == ROTOR and _is_cancelled(source.multiple, blades)
        else source
        for source in sources
    )


def _is_cancelled(order: float, blades: int) -> bool:
    """Return whether an order can only be a blade load that equal blades do not transmit."""
    return order > 1.0 and order.is_integer() and order % blades != 0.0


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
