"""Closest lines: how far excitations are from modes and from one another in operation."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations, product
from typing import Annotated

from calc.airframe.quantities import MAGNIFICATION
from calc.airframe.separation import peak_magnification
from calc.airframe.single_mode import amplification
from calc.declaration import Name, Table
from calc.digits import significant
from calc.harmonics.meetings import (
    DAMPING,
    MODE_NAME,
    NONE,
    Line,
    Mode,
    Source,
    ratio_of,
    source_line,
)
from calc.harmonics.operating_speeds import OperatingSpeeds
from calc.harmonics.separation_margin import PERCENTAGE
from calc.numeric.ranges import apart
from calc.quantity import Quantity

DIFFERENCE = Quantity("d", "Line above the mode, negative below", PERCENTAGE)
FRACTION = Quantity("D/D_{max}", "Fraction of the resonant peak", PERCENTAGE)
MOST_ROWS = 6
FAR = 0.5  # of the mean; lines that are farther apart are left out
LEAST = Quantity("s", "Least separation over the ranges, of the mean", PERCENTAGE, at_least=0.0)
EDGE = Quantity("D_t", "Dynamic magnification factor at the edge of the margin", at_least=0.0)


@dataclass(frozen=True, slots=True)
class ClosestMode:
    """An excitation and a mode: how far apart, and how much the mode is amplified there."""

    words: Annotated[str, Name("At the operating speeds")]
    difference: Annotated[float, DIFFERENCE]
    least_separation: Annotated[float, LEAST]
    amplification: Annotated[float, MAGNIFICATION]
    fraction: Annotated[float, FRACTION]


@dataclass(frozen=True, slots=True)
class ClosestPair:
    """Two excitations and how far they are apart."""

    words: Annotated[str, Name("At the operating speeds")]
    least_separation: Annotated[float, LEAST]


@dataclass(frozen=True, slots=True)
class AtTheMargin:
    """What the margin leaves of the resonance of a mode, at the edge where it leaves more."""

    mode: Annotated[str, MODE_NAME]
    damping_ratio: Annotated[float, DAMPING]
    amplification: Annotated[float, EDGE]
    fraction: Annotated[float, FRACTION]


CLOSEST_MODES = Table("Excitations nearest to a mode", ClosestMode)
CLOSEST_PAIRS = Table("Excitations nearest to one another", ClosestPair)
AT_THE_MARGIN = Table("What the margin leaves of each resonance", AtTheMargin)


def closest_modes(
    sources: Sequence[Source], modes: Sequence[Mode], speeds: OperatingSpeeds
) -> tuple[ClosestMode, ...]:
    """Return the excitations that come nearest to a mode over the operating ranges, if any do."""
    rows = [
        _beside_mode(source_line(source), mode, speeds) for source, mode in product(sources, modes)
    ]
    near = [row for row in rows if row.least_separation <= FAR]
    return tuple(sorted(near, key=lambda row: (row.least_separation, abs(row.difference))))[
        :MOST_ROWS
    ]


def closest_pairs(sources: Sequence[Source], speeds: OperatingSpeeds) -> tuple[ClosestPair, ...]:
    """Return the excitations of different shafts that come nearest to one another."""
    lines = map(source_line, sources)
    rows = [
        ClosestPair(
            words(a.name, *_values(a, b, speeds)),
            _separation(_range(a, speeds), _range(b, speeds)),
        )
        for a, b in combinations(lines, 2)
        if a.follows != b.follows
    ]
    near = [row for row in rows if row.least_separation <= FAR]
    return tuple(sorted(near, key=lambda row: row.least_separation))[:MOST_ROWS]


def at_the_margin(modes: Iterable[Mode], margin: float) -> tuple[AtTheMargin, ...]:
    """Return what a margin leaves of the resonance of each mode."""
    ratio = ratio_of(margin)
    rows = []
    for mode in modes:
        left = max(amplification(edge, mode.damping_ratio) for edge in (1.0 / ratio, ratio))
        rows.append(
            AtTheMargin(
                mode.name, mode.damping_ratio, left, left / peak_magnification(mode.damping_ratio)
            )
        )
    return tuple(rows)


def words(line: str, frequency: float, other: str, other_frequency: float) -> str:
    """Return in words how far a line is from another, such as `2.1 % above the mode, 10.20 Hz`."""
    difference = frequency / other_frequency - 1.0
    side = "above" if difference > 0.0 else "below"
    place = f"{per_cent(abs(difference))} {side}" if abs(difference) >= 5e-5 else "on"
    named = f"{line}, {significant(frequency, 4)} Hz, is {place}"
    return f"{named} {other}, {significant(other_frequency, 4)} Hz"


def per_cent(fraction: float) -> str:
    """Return a fraction in per cent, to two digits or to the whole."""
    shown = 100.0 * fraction
    return f"{shown:.0f} %" if shown >= 9.95 else f"{shown:.2g} %"


def _beside_mode(line: Line, mode: Mode, speeds: OperatingSpeeds) -> ClosestMode:
    frequency = line.rate * speeds.nominal(line.follows)
    ratio = frequency / mode.frequency
    tolerance = (
        mode.frequency * (1.0 - mode.uncertainty),
        mode.frequency * (1.0 + mode.uncertainty),
    )
    magnified = amplification(ratio, mode.damping_ratio)
    return ClosestMode(
        words=words(line.name, frequency, mode.name, mode.frequency),
        difference=ratio - 1.0,
        least_separation=_separation(_range(line, speeds), tolerance),
        amplification=magnified,
        fraction=magnified / peak_magnification(mode.damping_ratio),
    )


def _values(first: Line, second: Line, speeds: OperatingSpeeds) -> tuple[float, str, float]:
    """Return the frequency of a line, and the name and frequency of another."""
    return (
        first.rate * speeds.nominal(first.follows),
        second.name,
        second.rate * speeds.nominal(second.follows),
    )


def _range(line: Line, speeds: OperatingSpeeds) -> tuple[float, float]:
    """Return the lowest and the highest frequency of a line in operation."""
    low, high = speeds.operating(line.follows) if line.follows != NONE else (1.0, 1.0)
    return line.rate * low, line.rate * high


def _separation(first: tuple[float, float], second: tuple[float, float]) -> float:
    """Return the least difference of two ranges of frequency over the mean, zero if they meet."""
    below, above = sorted((first, second))
    return 2.0 * apart(above, below) / (above[0] + below[1])
