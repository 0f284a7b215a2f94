"""The frame of a figure: axes, labels at the ends of lines, and keys below."""

from collections.abc import Sequence
from typing import NamedTuple

from calc.chart.lettering import LEADING, Lettering, appears, around, spread, width, wrapped
from calc.chart.marks import Line
from calc.chart.plot import RULE, Plot
from calc.chart.scale import Axis

WIDTH, HEIGHT = 640.0, 400.0
_BEND, _LEADER = 8.0, 34.0
_RISE = 7.0
_WIDEST_BESIDE = 144.0
_WIDEST_ABOVE = 84.0
_KEYS = 24.0


class Frame(NamedTuple):
    """How tall a figure is, and between which places across the plot area lies at most."""

    height: float = HEIGHT
    left: float = 0.0
    right: float = WIDTH


WHOLE = Frame()
"""A figure that stands alone."""


class End(NamedTuple):
    """The label of a line, where the visible line ends (0 to 1), on which side, in which step."""

    look: str
    lines: tuple[str, ...]
    x: float
    y: float
    side: str
    step: int


def plot_area(
    identity: str,
    x: Axis,
    y: Axis,
    lines: Sequence[tuple[Line, int]],
    *,
    keyed: bool,
    frame: Frame = WHOLE,
) -> tuple[Plot, list[End]]:
    """Return a plot area with room around it for all lettering, and the ends of its lines.

    With each line goes the step of the figure in which it appears.
    """
    ends = [
        _end(line, step, *place) for line, step in lines if line.label and (place := line.end(x, y))
    ]
    above = max((len(end.lines) for end in ends if end.side == "top"), default=0)
    beside = max((width(t) for end in ends if end.side == "right" for t in end.lines), default=0.0)
    last = max((width(text) / 2.0 + 2.0 for place, text in x.marked() if place > 0.95), default=0.0)
    plot = Plot(
        identity,
        x,
        y,
        left=max(frame.left, max((width(text) for _, text in y.marked()), default=0.0) + 10.0),
        top=30.0 + (LEADING * above + _RISE if above else 0.0),
        right=min(frame.right, WIDTH - (beside + _LEADER + 8.0 if beside else max(18.0, last))),
        bottom=frame.height - 46.0 - (_KEYS if keyed else 0.0),
    )
    return plot, ends


def _end(line: Line, step: int, x: float, y: float) -> End:
    side = "right" if x > 0.995 else "top" if y > 0.995 else "inside"
    widest = {"right": _WIDEST_BESIDE, "top": _WIDEST_ABOVE, "inside": WIDTH}[side]
    return End(line.look, wrapped(line.label, widest), x, y, side, step)


def label_ends(plot: Plot, ends: Sequence[End]) -> None:
    """Label the lines where they end, moving labels apart and leading the line on to each."""
    across = [plot.left + end.x * (plot.right - plot.left) for end in ends]
    down = [plot.bottom - end.y * (plot.bottom - plot.top) for end in ends]
    beside = [i for i, end in enumerate(ends) if end.side == "right"]
    heights = [LEADING * len(ends[i].lines) for i in beside]
    rows = spread([down[i] for i in beside], heights, plot.top - LEADING / 2.0, plot.bottom + 8.0)
    for i, y in zip(beside, rows, strict=True):
        bend = f"L{plot.right + _BEND:.2f} {y:.2f}H{plot.right + _LEADER:.2f}"
        _lead(plot, ends[i], f"M{plot.right:.2f} {down[i]:.2f}{bend}")
        place = plot.right + _LEADER + 4.0
        plot.labels.append(Lettering(place, y, ends[i].lines, step=ends[i].step))
    above = [i for i, end in enumerate(ends) if end.side == "top"]
    widths = [max(width(text) for text in ends[i].lines) + 8.0 for i in above]
    places = spread([across[i] for i in above], widths, plot.left - 4.0, WIDTH)
    for i, x in zip(above, places, strict=True):
        foot = plot.top - _RISE
        _lead(plot, ends[i], f"M{across[i]:.2f} {plot.top:.2f}L{x:.2f} {foot:.2f}")
        y = foot - LEADING * len(ends[i].lines) / 2.0
        plot.labels.append(Lettering(x, y, ends[i].lines, "middle", ends[i].step))
    for end, x, y in zip(ends, across, down, strict=True):
        if end.side == "inside":
            with plot.step(end.step):
                plot.wanted.append(around(x, y, 8.0, end.lines[0]))


def _lead(plot: Plot, end: End, stroke: str) -> None:
    plot.outside.append(f'<path d="{stroke}" {end.look}{appears(end.step)}/>')


def axes(plot: Plot) -> str:
    """Return the rules, the tick marks with their numbers, and the titles of both axes."""
    rules, ticks, numbers = [], [], []
    for place, text in plot.x.marked():
        x = plot.left + place * (plot.right - plot.left)
        rules.append(f"M{x:.2f} {plot.top:.2f}V{plot.bottom:.2f}")
        ticks.append(f"M{x:.2f} {plot.bottom:.2f}v4")
        numbers.append(Lettering(x, plot.bottom + 14.0, (text,), "middle"))
    for place, text in plot.y.marked():
        y = plot.bottom - place * (plot.bottom - plot.top)
        rules.append(f"M{plot.left:.2f} {y:.2f}H{plot.right:.2f}")
        ticks.append(f"M{plot.left:.2f} {y:.2f}h-4")
        numbers.append(Lettering(plot.left - 7.0, y, (text,), "end"))
    frame = f"M{plot.left:.2f} {plot.top:.2f}V{plot.bottom:.2f}H{plot.right:.2f}"
    middle = (plot.left + plot.right) / 2.0
    titles = [
        Lettering(middle, plot.bottom + 34.0, (plot.x.title,), "middle"),
        Lettering(2.0, 10.0, (plot.y.title,)),
    ]
    return (
        f'<path d="{"".join(rules)}" fill="none" stroke="{RULE}" stroke-width="0.75"/>'
        f'<path d="{frame}{"".join(ticks)}" fill="none" stroke="currentColor"/>'
        f"{''.join(lettering.svg() for lettering in [*numbers, *titles])}"
    )


def keys(plot: Plot) -> str:
    """Return the keys, in a row below the figure."""
    x, y = plot.left, plot.bottom + 52.0
    drawn = []
    for sample, label in plot.keys:
        drawn.append(f'<g transform="translate({x:.2f} {y:.2f})">{sample}</g>')
        drawn.append(Lettering(x + 28.0, y + 6.0, (label,)).svg())
        x += 28.0 + width(label) + 20.0
    return "".join(drawn)
