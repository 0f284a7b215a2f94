"""Figures of a record: time history, spectrum, waterfall, orders, decay."""

import math
from collections.abc import Sequence

from calc.chart import Axis, Cells, Chart, Label, Line, Mark, Panels, Points, Rule, Stems
from calc.harmonics.sources import SourceLine
from calc.units import HERTZ, ONE, PER_REV, RPM, SECOND, Unit

MOST_NAMED = 14
"""Expected lines that a figure names; more would hide one another."""
LEVELS = (-36, -24, -12, -6)
"""Edges of the classes of a waterfall, dB below the largest line."""

LEAST_COHERENCE = 0.8
"""Below it a response is said to be doubtful; common practice, no source."""

Pair = tuple[float, float]


def history_chart(name: str, unit: Unit, steps: Sequence[tuple[float, float, float]]) -> Chart:
    """Return a time history: in each step a stroke from the smallest to the largest value."""
    points = [point for time, low, high in steps for point in ((time, low), (time, high))]
    return Chart(
        title=f"Time history of {name}",
        description="Each step of the drawing is a stroke from the smallest to the largest value "
        "in it, so that no peak is lost.",
        x=Axis("Time", SECOND, *_ends([time for time, _, _ in steps])),
        y=Axis(name, unit),
        marks=[Line(points)],
    )


def spectrum_chart(
    name: str,
    unit: Unit,
    lines: Sequence[Pair],
    peaks: Sequence[Pair],
    expected: Sequence[SourceLine],
    *,
    logarithmic: bool,
) -> Chart:
    """Return a spectrum with its peaks, and expected lines as rules that name their source."""
    low, high = _ends([frequency for frequency, _ in lines])
    marks: list[Mark] = [Line(lines)]
    inside = [line for line in expected if low <= line.frequency <= high]
    marks += [
        Rule(line.frequency, "x", line.source if len(inside) <= MOST_NAMED else "")
        for line in inside
    ]
    shown = [peak for peak in peaks if low <= peak[0] <= high]
    marks += [Points(shown, "peaks")] if shown else []
    largest = max((amplitude for _, amplitude in lines), default=1.0) or 1.0
    floor = _decade(min((a for _, a in lines if a > 0.0), default=largest), largest)
    return Chart(
        title=f"Spectrum of {name}",
        description="Amplitude over frequency; each step of the drawing shows its largest line. "
        "Dashed rules are the expected lines.",
        x=Axis("Frequency", HERTZ, low, high),
        y=Axis(name, unit, low=floor, log=True) if logarithmic else Axis(name, unit, low=0.0),
        marks=marks,
    )


def waterfall_chart(
    name: str,
    across: Sequence[float],
    up: Sequence[float],
    rows: Sequence[Sequence[float]],
    *,
    over_speed: bool,
) -> Chart:
    """Return spectra over rotor speed or time as a map of levels below the largest line.

    Args:
        name: Of the channel.
        across: Edges of the columns, Hz.
        up: Edges of the rows, rad/s or s.
        rows: The largest amplitude in each cell; a row that has none is empty.
        over_speed: Whether rows are rotor speeds; else they are times.
    """
    largest = max((value for row in rows for value in row), default=0.0) or 1.0
    classes = [
        [_level(value / largest) for value in row] or [0] * (len(across) - 1) for row in rows
    ]
    named = [f"{low} to {high} dB" for low, high in zip(LEVELS, [*LEVELS[1:], 0], strict=True)]
    named = [name.replace("-", "\N{MINUS SIGN}") for name in named]
    marks: list[Mark] = [Cells(across, up, classes, ["", *named])]
    if over_speed:
        marks += _order_lines(across[-1], up)
    return Chart(
        title=f"Waterfall of {name}",
        description="Each cell is the level of its largest line below the largest of all; thin "
        "lines are whole orders.",
        x=Axis("Frequency", HERTZ, across[0], across[-1]),
        y=Axis("Rotor speed", RPM, up[0], up[-1])
        if over_speed
        else Axis("Time", SECOND, up[0], up[-1]),
        marks=marks,
    )


def orders_chart(name: str, unit: Unit, orders: Sequence[Pair]) -> Chart:
    """Return the amplitudes of orders as stems."""
    highest = max((order for order, _ in orders), default=1.0)
    return Chart(
        title=f"Orders of {name}",
        description="Amplitude at each order of the shaft with the tachometer.",
        x=Axis("Order", PER_REV, 0.0, math.ceil(highest + 0.5)),
        y=Axis(name, unit, low=0.0),
        marks=[Stems(orders)],
    )


def decay_chart(
    name: str,
    unit: Unit,
    steps: Sequence[tuple[float, float, float]],
    envelope: Sequence[Pair],
) -> Chart:
    """Return a free decay with the envelope that was fitted to it."""
    points = [point for time, low, high in steps for point in ((time, low), (time, high))]
    marks: list[Mark] = [Line(points, style=2, dash="")]
    if envelope:
        marks.append(Line(envelope, "fitted", 4))
    return Chart(
        title=f"Decay of {name}",
        description="The stretch that was fitted, and the envelope of the fit.",
        x=Axis("Time", SECOND, *_ends([time for time, _, _ in steps])),
        y=Axis(name, unit),
        marks=marks,
    )


def response_chart(
    name: str,
    unit: Unit,
    sizes: Sequence[Pair],
    coherences: Sequence[Pair],
    halves: Sequence[float],
) -> Panels:
    """Return amplitude and coherence of a response, with its half-power points."""
    title, x = f"Response of {name}", Axis("Frequency", HERTZ, sizes[0][0], sizes[-1][0])
    told = "Amplitude of the response over the stimulus, over frequency."
    marks: list[Mark] = [Line(sizes)]
    marks += [Rule(place, "x", "" if n else "half power") for n, place in enumerate(halves)]
    amplitude = Chart(title, told, x, Axis("Response over stimulus", unit, low=0.0), marks)
    coherence = Chart(
        f"Coherence of {name}",
        "Coherence of stimulus and response, over frequency.",
        x,
        Axis("Coherence", ONE, 0.0, 1.0),
        [Line(coherences), Rule(LEAST_COHERENCE, "y")],
    )
    return Panels(title, "Amplitude above, coherence below.", [amplitude, coherence])


def _ends(values: Sequence[float]) -> Pair:
    return (values[0], values[-1]) if len(values) > 1 else (math.nan, math.nan)


def _decade(least: float, largest: float) -> float:
    """Return the foot of a logarithmic axis: at most five decades below the largest line."""
    return 10.0 ** math.floor(math.log10(max(least, largest * 1e-5)))


def _level(share: float) -> int:
    """Return the class of an amplitude over the largest one."""
    level = 20.0 * math.log10(share) if share > 0.0 else -math.inf
    return sum(level >= edge for edge in LEVELS)


def _order_lines(highest: float, up: Sequence[float]) -> list[Mark]:
    """Return the lines of whole orders, each with its number where it leaves the map."""
    marks: list[Mark] = []
    top = up[-1] / (2.0 * math.pi)
    for order in (1, 2, 3, 4, 5, 6, 8, 10, 12):
        if order * top > highest or top <= 0.0:
            break
        ends = [(order * speed / (2.0 * math.pi), speed) for speed in (up[0], up[-1])]
        marks += [Line(ends, style=0), Label(*ends[1], f"{order}/rev")]
    return marks
