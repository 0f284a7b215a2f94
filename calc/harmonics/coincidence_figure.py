"""Coincidence figure: a map of two independent speeds, or frequencies over a single one."""

import math
from collections.abc import Sequence
from itertools import pairwise

from calc.chart import Axis, Band, Cells, Chart, Line, Mark, Points
from calc.harmonics.coincidence_map import meeting_counts
from calc.harmonics.meetings import NONE, ROTOR, SECOND, Meeting, Mode, Source, source_line
from calc.harmonics.operating_speeds import ROTOR_SPEED, SECOND_SPEED, OperatingSpeeds
from calc.harmonics.speed_bands import merged, rotor_ranges, second_ranges
from calc.units import HERTZ, RPM

CELLS = 200  # of the map, along each speed
LABELS = 8  # how many coincidences nearest to the operating speeds are named on the map
CLASSES = ("free", "two excitations coincide", "an excitation crosses a mode")


def coincidence_chart(
    named: Sequence[Source], modes: Sequence[Mode], speeds: OperatingSpeeds, met: list[Meeting]
) -> Chart:
    """Return the avoid bands: a map of two speeds, or frequency over one if there is but one."""
    turning = {source.follows for source in named}
    if {ROTOR, SECOND} <= turning:
        return _map(met, speeds)
    return _over_one_speed(named, modes, met, speeds, SECOND if SECOND in turning else ROTOR)


def _map(met: Sequence[Meeting], speeds: OperatingSpeeds) -> Chart:
    """Return the map of the two speeds, with the coincidences nearest to operation named."""
    corners = speeds.of_interest(ROTOR), speeds.of_interest(SECOND)
    columns, rows = (_edges(*ends) for ends in corners)
    middles = [[(a + b) / 2.0 for a, b in pairwise(e)] for e in (columns, rows)]
    with_mode = meeting_counts((m for m in met if m.with_mode), *middles)
    between = meeting_counts((m for m in met if not m.with_mode and not m.always), *middles)
    classes = [
        [2 if mode else 1 if pair else 0 for mode, pair in zip(*lines, strict=True)]
        for lines in zip(with_mode, between, strict=True)
    ]
    nearest = sorted((m for m in met if not m.always), key=lambda m: _distance(m, speeds))
    return Chart(
        title="Avoid bands of two speeds",
        description="Map of the two speeds: hatched where an excitation crosses a mode, tinted "
        "where two excitations coincide, blank where neither does; the point marks the operating "
        "speeds and the frame their ranges.",
        x=Axis("Rotor speed", RPM, *corners[0], follows=ROTOR_SPEED),
        y=Axis("Propeller speed", RPM, *corners[1], follows=SECOND_SPEED),
        marks=(
            Cells(columns, rows, classes, CLASSES, (2,)),
            *(Line(_centre(m, *corners), m.words, 0) for m in nearest[:LABELS]),
            *_operation(speeds),
        ),
    )


def _operation(speeds: OperatingSpeeds) -> list[Mark]:
    """Return the operating speeds as a point, and their ranges as a frame."""
    point: list[Mark] = [Points([(speeds.rotor_speed, speeds.second_speed)], "operating speeds", 1)]
    (left, right), (low, high) = speeds.operating(ROTOR), speeds.operating(SECOND)
    if left == right and low == high:
        return point
    frame = [(left, low), (right, low), (right, high), (left, high), (left, low)]
    return [Line(frame, "operating ranges", 1), *point]


def _over_one_speed(
    sources: Sequence[Source],
    modes: Sequence[Mode],
    met: Sequence[Meeting],
    speeds: OperatingSpeeds,
    shaft: str,
) -> Chart:
    """Return the frequencies of excitations and modes over the one speed that there is."""
    low, high = speeds.of_interest(shaft)
    ranges = rotor_ranges(met, (1.0, 1.0)) if shaft == ROTOR else second_ranges(met, (1.0, 1.0))
    lines = [source_line(source) for source in sources]
    fixed = {line.name: line.rate for line in lines if line.follows == NONE}
    levels = fixed | {mode.name: mode.frequency for mode in modes}
    first, last = speeds.operating(shaft)
    operating = [Band(first, last, "x", "operating range")] if first < last else []
    nominal = speeds.nominal(shaft)
    return Chart(
        title="Avoid bands of one speed",
        description="Frequency of each excitation over the speed; a level line is a mode or a "
        "fixed frequency, hatched are the avoid bands, points mark the operating speed.",
        x=Axis(
            "Rotor speed" if shaft == ROTOR else "Propeller speed",
            RPM,
            low,
            high,
            follows=ROTOR_SPEED if shaft == ROTOR else SECOND_SPEED,
        ),
        y=Axis("Frequency", HERTZ, 0.0),
        marks=(
            *(
                Band(found.low, found.high, "x", "avoid", hatched=True)
                for found in merged(ranges, low, high)
            ),
            *operating,
            *(Line([(low, level), (high, level)], name, 0) for name, level in levels.items()),
            *(
                Line([(speed, line.rate * speed) for speed in (low, high)], line.name, 1 + n % 6)
                for n, line in enumerate(line for line in lines if line.follows == shaft)
            ),
            Points(
                [(nominal, line.rate * nominal) for line in lines if line.follows == shaft],
                "operating speed",
                1,
            ),
        ),
    )


def _edges(low: float, high: float) -> list[float]:
    return [low + (high - low) * step / CELLS for step in range(CELLS + 1)]


def _distance(m: Meeting, speeds: OperatingSpeeds) -> float:
    """Return how far two lines are apart in operation, as a logarithm of their ratio."""
    first, second = (line.rate * speeds.nominal(line.follows) for line in (m.first, m.second))
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
