"""Turning: the orders of a shaft in a stretch, and spectra of short blocks over its speed."""

import math
from collections.abc import Sequence
from itertools import pairwise

from calc.digits import significant
from calc.measurement.orders import order_components, shaft_angle
from calc.measurement.reading.steadiness import broken_intervals
from calc.measurement.spectrum import amplitude_spectrum
from calc.record.figures import orders_chart, waterfall_chart
from calc.record.look import MEASURES, Look, shown_unit
from calc.record.shown import Seen
from calc.survey.report.blocks import Grid, Words
from calc.units import DEGREE, RPM

MOST_ORDERS = 40
MOST_BLOCKS = 400
COLUMNS, ROWS = 200, 60
"""Cells of a waterfall, at most."""


def orders(look: Look) -> Seen:
    """Return amplitude and phase of a stretch at multiples of the speed of its shaft."""
    wanted = _wanted(look.values["orders"])
    pulses = look.pulses()
    per_turn = look.record.pulses_per_revolution
    found = order_components(look.samples, look.rate, pulses, wanted, per_turn)
    measure = look.values["measure"]
    unit = shown_unit(look.channel, "recorded", measure)
    scale = MEASURES[measure]
    known = look.record.has_angle
    heads = ["Order (/rev)", f"Amplitude ({unit.name})", "Phase, a lead (deg)"]
    rows = [
        [
            significant(one.order),
            significant(scale * one.amplitude),
            significant(DEGREE.reading(one.phase)) if known else "not known",
        ]
        for one in found
    ]
    said = [
        _zero(per_turn)
        if known
        else "Without a tachometer pulse the shaft has no zero: phases are not known",
        _told_apart(look, pulses),
        *look.notes,
    ]
    if look.speed and look.drift is not None:
        said.insert(
            0,
            f"Mean rotor speed {significant(RPM.reading(look.speed))} rpm, drifting by "
            f"{significant(100.0 * look.drift, 2)} %, which orders follow",
        )
    numbers = [
        heads,
        *(
            [f"{one.order!r}", f"{scale * one.amplitude!r}"]
            + ([f"{DEGREE.reading(one.phase)!r}"] if known else [""])
            for one in found
        ),
    ]
    largest = max(found, key=lambda one: one.amplitude)
    return Seen(
        f"Orders of {look.channel.name}",
        f"The largest of {len(found)}: {significant(scale * largest.amplitude)} {unit.name} at "
        f"{significant(largest.order)}/rev",
        [Grid("Orders", heads, rows), *(Words(f"{text}.") for text in said)],
        orders_chart(
            look.channel.name, unit, [(one.order, scale * one.amplitude) for one in found]
        ),
        lambda: numbers,
    )


def waterfall(look: Look) -> Seen:
    """Return spectra of short blocks over rotor speed or time, as a map."""
    over_speed = look.values["averaged"] == "speed"
    pulses = look.pulses() if over_speed else []
    size = round(look.values["block"] * look.rate)
    if not 8 <= size <= len(look.samples):
        raise ValueError("A block must hold at least 8 samples and be no longer than the stretch")
    step = max(size // 2, math.ceil((len(look.samples) - size + 1) / MOST_BLOCKS))
    low = look.values["low"] or 0.0
    high = look.values["high"] or 0.5 * look.rate
    starts = list(range(0, len(look.samples) - size + 1, step))
    starts, left_out = _even(starts, size, look.rate, pulses)
    spectra = [
        amplitude_spectrum(look.samples[first : first + size], look.rate, look.values["window"])
        for first in starts
    ]
    scale = MEASURES[look.values["measure"]]
    inside = [n for n, x in enumerate(spectra[0].frequencies) if low <= x <= high]
    if len(inside) < 2:
        raise ValueError("No two lines of a block lie between these frequencies")
    across, columns = _columns(spectra[0].frequencies, inside)
    levels = [[scale * max(one.amplitudes[a:b]) for a, b in columns] for one in spectra]
    length = size / look.rate
    if over_speed:
        per_turn = look.record.pulses_per_revolution
        places = [_mean_speed(pulses, per_turn, n / look.rate, length) for n in starts]
    else:
        places = [look.begin + n / look.rate + 0.5 * length for n in starts]
    up, rows = _rows(places, levels)
    unit = shown_unit(look.channel, "recorded", look.values["measure"])
    chart = waterfall_chart(look.channel.name, across, up, rows, over_speed=over_speed)
    loudest = max(range(len(levels)), key=lambda n: max(levels[n]))
    column = max(range(len(columns)), key=lambda n: levels[loudest][n])
    where = (
        f"{significant(RPM.reading(places[loudest]))} rpm"
        if over_speed
        else f"{significant(places[loudest])} s"
    )
    frequency = 0.5 * (across[column] + across[column + 1])
    heads = ["Rotor speed (rpm)" if over_speed else "Time (s)"]
    heads += [f"{significant(0.5 * (a + b), 6)} Hz" for a, b in pairwise(across)]

    def numbers() -> list[list[str]]:
        own = [RPM.reading(place) if over_speed else place for place in places]
        return [heads, *([repr(x), *map(repr, y)] for x, y in zip(own, levels, strict=True))]

    told = f"{len(levels)} blocks of {significant(length, 3)} s"
    said = [f"{told}, lines every {significant(1.0 / length, 3)} Hz", *left_out, *look.notes]
    return Seen(
        f"Waterfall of {look.channel.name}",
        f"The largest: {significant(levels[loudest][column])} {unit.name} near "
        f"{significant(frequency)} Hz at {where}",
        [Words(f"{text}.") for text in said],
        chart,
        numbers,
    )


def _wanted(text: str) -> list[float]:
    """Return the orders in a list such as `1, 2, 4.5`."""
    try:
        wanted = [float(part) for part in text.replace(";", " ").replace(",", " ").split()]
    except ValueError:
        raise ValueError("Orders must be numbers with commas between, such as 1, 2, 4") from None
    if not 1 <= len(wanted) <= MOST_ORDERS or not all(0.0 < one < math.inf for one in wanted):
        raise ValueError(f"Orders must be 1 to {MOST_ORDERS} numbers above zero")
    return wanted


def _zero(per_turn: int) -> str:
    """Return what phases count from, and what they are good for."""
    if per_turn == 1:
        return "Phases count from the pulse of the tachometer"
    return (
        f"Phases count from the first of {per_turn} pulses a revolution, and nothing marks which "
        "one that is: they hold between the channels of this record, and in another record the "
        f"phase of 1/rev may differ by multiples of {significant(360.0 / per_turn, 3)} deg. Place "
        "no balance weight by them"
    )


def _told_apart(look: Look, pulses: Sequence[float]) -> str:
    """Return how far apart lines must be so that an order is not read with its neighbour."""
    end = (len(look.samples) - 1) / look.rate
    marks = pulses[:: look.record.pulses_per_revolution]
    turns = sum(0.0 <= time <= end for time in marks) - 1
    return (
        f"Lines must be 1/{turns} of an order apart, {significant(1.0 / turns, 3)}/rev, to be told "
        f"apart over {turns} revolution{'' if turns == 1 else 's'}; a line nearer to an order than "
        "that adds in to it, and one farther off adds in less"
    )


def _even(
    starts: list[int], size: int, rate: float, pulses: Sequence[float]
) -> tuple[list[int], list[str]]:
    """Return the blocks whose pulses give a speed, and in words how many were left out."""
    gaps = [(pulses[n], pulses[n + 1]) for n in broken_intervals(pulses)]
    kept = [n for n in starts if not any(a < (n + size) / rate and n / rate < b for a, b in gaps)]
    if not kept:
        raise ValueError("In every block a pulse is missed or too many: look at it over time")
    lost = len(starts) - len(kept)
    told = "1 block is left out, in which" if lost == 1 else f"{lost} blocks are left out, in which"
    return kept, [f"{told} a pulse is missed or too many"] if lost else []


def _mean_speed(pulses: Sequence[float], per_turn: int, begin: float, length: float) -> float:
    """Return the mean speed of the shaft over a block, rad/s."""
    ends = (shaft_angle(pulses, time, per_turn) for time in (begin, begin + length))
    first, last = ends
    return (last - first) / length


def _columns(
    frequencies: Sequence[float], inside: Sequence[int]
) -> tuple[list[float], list[tuple[int, int]]]:
    """Return the edges of the columns of a map, and the lines of each."""
    wide = math.ceil(len(inside) / COLUMNS)
    last = inside[-1] + 1
    columns = [(first, min(first + wide, last)) for first in range(inside[0], last, wide)]
    half = 0.5 * frequencies[1]
    edges = [max(frequencies[a] - half, 0.0) for a, _ in columns]
    return [*edges, frequencies[columns[-1][1] - 1] + half], columns


def _rows(
    places: Sequence[float], levels: Sequence[Sequence[float]]
) -> tuple[list[float], list[list[float]]]:
    """Return the edges of the rows of a map, and the largest level of the blocks in each cell."""
    low, high = min(places), max(places)
    if high - low < 1e-3 * abs(high):
        low, high = low - 5e-3 * abs(high), high + 5e-3 * abs(high)
    count = min(ROWS, max(2, len(places)))
    edges = [low + (high - low) * n / count for n in range(count + 1)]
    rows: list[list[float]] = [[] for _ in range(count)]
    for place, level in zip(places, levels, strict=True):
        row = min(int((place - low) / (high - low) * count), count - 1)
        rows[row] = list(map(max, rows[row], level)) if rows[row] else list(level)
    return edges, rows
