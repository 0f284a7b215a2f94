"""Coincidence: the speeds at which sources meet modes or each other, and the speeds left free."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated

from calc.chart import Axis, Cells, Chart, Line, Points
from calc.declaration import Choice, Name, Table
from calc.harmonics.coincidence_map import meeting_counts
from calc.harmonics.meetings import (
    MARGIN,
    MODES,
    NONE,
    ROTOR,
    SECOND,
    SOURCES,
    Meeting,
    Mode,
    Source,
    check_modes,
    meetings,
)
from calc.harmonics.speed_bands import Range, gaps, merged, rotor_ranges, second_ranges
from calc.quantity import Quantity
from calc.units import ROTATION, RPM

ROTOR_LOW = Quantity(
    r"\Omega_1", "Lowest rotor speed of the map", ROTATION, at_least=0.0, example=200.0 * RPM.size
)
ROTOR_HIGH = Quantity(
    r"\Omega_2", "Highest rotor speed of the map", ROTATION, above=0.0, example=400.0 * RPM.size
)
SECOND_LOW = Quantity(
    "n_1", "Lowest second speed", ROTATION, at_least=0.0, example=800.0 * RPM.size
)
SECOND_HIGH = Quantity(
    "n_2", "Highest second speed", ROTATION, above=0.0, example=1800.0 * RPM.size
)
ROTOR_SPEED = Quantity(
    r"\Omega", "Rotor speed at work", ROTATION, above=0.0, example=300.0 * RPM.size
)
SECOND_SPEED = Quantity("n", "Second speed at work", ROTATION, above=0.0, example=1300.0 * RPM.size)
ROTOR_RANGE = Quantity("r", "Highest less lowest rotor speed", ROTATION, above=0.0)
SECOND_RANGE = Quantity("s", "Highest less lowest second speed", ROTATION, above=0.0)
FROM = Quantity(r"\Omega_1", "From", ROTATION, at_least=0.0)
TO = Quantity(r"\Omega_2", "To", ROTATION, at_least=0.0)
INNER_FROM = Quantity(r"\Omega_3", "From, frequencies exact", ROTATION, at_least=0.0)
INNER_TO = Quantity(r"\Omega_4", "To, frequencies exact", ROTATION, at_least=0.0)
AXIS = Choice("Speed", {ROTOR: "rotor", SECOND: "second"})
CLASSES = ("free", "two sources meet", "a source meets a mode")
CELLS = 200  # of the map, along each speed
LABELS = 8  # how many meetings nearest to the speeds at work are named on the map


@dataclass(frozen=True, slots=True)
class Advice:
    """What to avoid, in a sentence."""

    sentence: Annotated[str, Name("In words")]


@dataclass(frozen=True, slots=True)
class AvoidBand:
    """A range of a speed to avoid, with the edges that it has if all frequencies are exact."""

    speed: Annotated[str, AXIS]
    low: Annotated[float, FROM]
    high: Annotated[float, TO]
    inner_low: Annotated[float, INNER_FROM]
    inner_high: Annotated[float, INNER_TO]
    reasons: Annotated[str, Name("Because")]


@dataclass(frozen=True, slots=True)
class FreeBand:
    """A range of a speed in which nothing meets."""

    speed: Annotated[str, AXIS]
    low: Annotated[float, FROM]
    high: Annotated[float, TO]


@dataclass(frozen=True, slots=True)
class Coincidence:
    """The speeds to avoid in words and as a table, and those left free."""

    advice: Annotated[tuple[Advice, ...], Table("Advice", Advice)]
    avoid: Annotated[tuple[AvoidBand, ...], Table("Speeds to avoid", AvoidBand)]
    free: Annotated[tuple[FreeBand, ...], Table("Speeds left free", FreeBand)]


def coincidence(
    sources: Annotated[tuple[Source, ...], SOURCES],
    modes: Annotated[tuple[Mode, ...], MODES],
    rotor_low: Annotated[float, ROTOR_LOW],
    rotor_high: Annotated[float, ROTOR_HIGH],
    second_low: Annotated[float, SECOND_LOW],
    second_high: Annotated[float, SECOND_HIGH],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    second_speed: Annotated[float, SECOND_SPEED],
    margin: Annotated[float, MARGIN] = 0.05,
) -> Coincidence:
    r"""Return the ranges of two speeds in which sources meet modes or one another.

    $$ \frac{2 |f_1 - f_2|}{f_1 + f_2} \le t \iff \frac{1}{q} \le \frac{f_1}{f_2} \le q,
       \quad q = \frac{1 + t/2}{1 - t/2} $$

    A mode may lie anywhere within its uncertainty, which widens its ranges; the inner edges leave
    the uncertainty out.  Two sources that follow different speeds meet along a wedge: its ranges
    are those on the lines through the speeds at work.  Ranges that overlap are one.

    Args:
        sources: What shakes, and the speed that each follows; rows.
        modes: What can resonate; rows.
        rotor_low: Lowest rotor speed of interest; scalar, rad/s.
        rotor_high: Highest rotor speed of interest; scalar, rad/s.
        second_low: Lowest second speed of interest; scalar, rad/s.
        second_high: Highest second speed of interest; scalar, rad/s.
        rotor_speed: Rotor speed at which ranges of the second speed are taken; scalar, rad/s.
        second_speed: Second speed at which ranges of the rotor speed are taken; scalar, rad/s.
        margin: Difference of two frequencies over their mean that is too near; scalar.

    Returns:
        Ranges to avoid, in words and as rows, and ranges left free.

    Raises:
        ValueError: If a source or a mode cannot exist, a number is not finite or breaks its
            limits, or a highest speed is not above the lowest.

    Source:
        Relative separation of two frequencies; ranges in closed form.

    Examples:
        >>> rpm = RPM.size
        >>> found = coincidence(
        ...     (Source("2/rev", "rotor", 2.0),), (Mode("the first lateral mode", 12.58),),
        ...     300.0 * rpm, 420.0 * rpm, 0.0, 1.0, 330.0 * rpm, 1.0, 0.033,
        ... )
        >>> found.advice[0].sentence
        'Rotor speed: avoid 365 to 391 rpm: 2/rev meets the first lateral mode'
    """
    met = _meetings(sources, modes, margin)
    limits = {ROTOR: (rotor_low, rotor_high), SECOND: (second_low, second_high)}
    _check_limits(rotor_low, rotor_high, second_low, second_high)
    ROTOR_SPEED.check(rotor_speed)
    SECOND_SPEED.check(second_speed)
    ranges = {
        ROTOR: merged(rotor_ranges(met, second_speed), *limits[ROTOR]),
        SECOND: merged(second_ranges(met, rotor_speed), *limits[SECOND]),
    }
    return Coincidence(
        advice=tuple(map(Advice, _sentences(met, ranges))),
        avoid=tuple(
            AvoidBand(
                axis,
                found.low,
                found.high,
                found.inner_low,
                found.inner_high,
                "; ".join(found.reasons),
            )
            for axis, row in ranges.items()
            for found in row
        ),
        free=tuple(
            FreeBand(axis, *gap) for axis, row in ranges.items() for gap in gaps(row, *limits[axis])
        ),
    )


def coincidence_chart(
    sources: Annotated[tuple[Source, ...], SOURCES],
    modes: Annotated[tuple[Mode, ...], MODES],
    rotor_low: Annotated[float, ROTOR_LOW],
    rotor_high: Annotated[float, ROTOR_HIGH],
    second_low: Annotated[float, SECOND_LOW],
    second_high: Annotated[float, SECOND_HIGH],
    rotor_speed: Annotated[float, ROTOR_SPEED],
    second_speed: Annotated[float, SECOND_SPEED],
    margin: Annotated[float, MARGIN] = 0.05,
) -> Chart:
    """Return the map of the two speeds, with the meetings nearest to those at work named."""
    met = _meetings(sources, modes, margin)
    _check_limits(rotor_low, rotor_high, second_low, second_high)
    columns, rows = _edges(rotor_low, rotor_high), _edges(second_low, second_high)
    middles = [[(a + b) / 2.0 for a, b in pairwise(e)] for e in (columns, rows)]
    with_mode = meeting_counts((m for m in met if m.with_mode), *middles)
    between = meeting_counts((m for m in met if not m.with_mode and not m.always), *middles)
    classes = [
        [2 if mode else 1 if pair else 0 for mode, pair in zip(*lines, strict=True)]
        for lines in zip(with_mode, between, strict=True)
    ]
    corners = (rotor_low, rotor_high), (second_low, second_high)
    work = rotor_speed, second_speed
    nearest = sorted((m for m in met if not m.always), key=lambda m: _distance(m, *work))
    return Chart(
        title="Speeds to avoid",
        description="Map of the two speeds: hatched where a source meets a mode, tinted where two "
        "sources meet, blank where nothing meets; the point marks the speeds at work.",
        x=Axis("Rotor speed", RPM, *corners[0]),
        y=Axis("Second speed", RPM, *corners[1]),
        marks=(
            Cells(
                columns, rows, classes, ("free", "two sources meet", "a source meets a mode"), (2,)
            ),
            *(Line(_centre(m, *corners), m.words, 0) for m in nearest[:LABELS]),
            Points([work], "at work", 1),
        ),
    )


def _meetings(sources: Sequence[Source], modes: Sequence[Mode], margin: float) -> list[Meeting]:
    SOURCES.check(tuple(sources))
    check_modes(modes)
    MARGIN.check(margin)
    return meetings(sources, modes, margin)


def _check_limits(
    rotor_low: float, rotor_high: float, second_low: float, second_high: float
) -> None:
    ROTOR_LOW.check(rotor_low)
    ROTOR_HIGH.check(rotor_high)
    SECOND_LOW.check(second_low)
    SECOND_HIGH.check(second_high)
    ROTOR_RANGE.check(rotor_high - rotor_low)
    SECOND_RANGE.check(second_high - second_low)


def _sentences(met: Iterable[Meeting], ranges: dict[str, list[Range]]) -> Iterator[str]:
    for axis, row in ranges.items():
        for found in row:
            low = math.floor(RPM.reading(found.low) + 1e-6)
            high = math.ceil(RPM.reading(found.high) - 1e-6)
            reasons = ", and ".join(found.reasons)
            yield f"{axis.capitalize()} speed: avoid {low} to {high} rpm: {reasons}"
    for m in met:
        if m.always:
            yield f"At every speed: {m.words}"


def _edges(low: float, high: float) -> list[float]:
    return [low + (high - low) * step / CELLS for step in range(CELLS + 1)]


def _distance(m: Meeting, rotor_speed: float, second_speed: float) -> float:
    """Return how far two lines are apart at the speeds at work, as a logarithm of their ratio."""
    speeds = {ROTOR: rotor_speed, SECOND: second_speed, NONE: 1.0}
    first, second = (line.rate * speeds[line.follows] for line in (m.first, m.second))
    return abs(math.log(first / second))


def _centre(
    m: Meeting, rotor: tuple[float, float], second: tuple[float, float]
) -> list[tuple[float, float]]:
    """Return the line on the map along which two lines have the same frequency."""
    equal = m.second.rate / m.first.rate
    if m.first.follows == SECOND:
        return [(rotor[0], equal), (rotor[1], equal)]
    if m.second.follows == NONE:
        return [(equal, second[0]), (equal, second[1])]
    return [(equal * speed, speed) for speed in second]
