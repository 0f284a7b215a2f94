"""Figures of the pages: matplotlib drawings as SVG that follow the colours of the page."""

import io
import re
from typing import Any

from matplotlib import rcParams
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from calc.chart.palette import COLOURS, DASHES, named

INK, SOFT, RULE, WARNING = (COLOURS[name] for name in ("ink", "ink-soft", "rule", "warning"))
DATA = [COLOURS[f"data-{number}"] for number in range(1, 7)]
WIDTH = 1.6  # of a line, in points; dashes are in widths
STYLE: dict[Any, Any] = {
    "svg.fonttype": "none",
    "svg.hashsalt": "handbook",
    "font.size": 10.0,
    "font.family": "sans-serif",
    "text.color": INK,
    "axes.edgecolor": SOFT,
    "axes.labelcolor": INK,
    "axes.linewidth": 0.8,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "axes.axisbelow": True,
    "grid.color": RULE,
    "grid.linewidth": 0.6,
    "xtick.color": SOFT,
    "ytick.color": SOFT,
    "xtick.labelcolor": INK,
    "ytick.labelcolor": INK,
    "hatch.color": WARNING,
    "hatch.linewidth": 0.8,
    "lines.linewidth": WIDTH,
    "legend.frameon": False,
    "figure.facecolor": "none",
    "axes.facecolor": "none",
}


rcParams.update(STYLE)


def drawing(width: float = 6.4, height: float = 3.6, *, polar: bool = False) -> tuple[Figure, Axes]:
    """Return an empty figure in the style of the handbook and its axes; sizes in inches."""
    figure = Figure(figsize=(width, height), layout="constrained")
    return figure, figure.add_subplot(projection="polar" if polar else None)


def line_style(number: int) -> dict[str, object]:
    """Return colour and dashes of line 1 to 6, which differ in grey and for every eye."""
    dashes = tuple(length / WIDTH for length in DASHES[number - 1])
    return {"color": DATA[number - 1], "linestyle": (0, dashes) if dashes else "-"}


def svg(figure: Figure, identity: str, title: str, description: str) -> str:
    """Return a figure as inline SVG, with ids of its own and colours that follow the page."""
    file = io.StringIO()
    nothing = {"Date": None, "Creator": None}
    figure.savefig(file, format="svg", transparent=True, metadata=nothing)
    text = re.sub(r"^.*?(?=<svg)", "", file.getvalue(), flags=re.DOTALL)
    text = re.sub(r"<metadata>.*?</metadata>\s*", "", text, flags=re.DOTALL)
    text = re.sub(r'\bid="', f'id="{identity}-', text)
    text = re.sub(r"url\(#", f"url(#{identity}-", text)
    text = re.sub(r'xlink:href="#', f'href="#{identity}-', text)
    text = re.sub(r"'[^';\"]*'(, *'[^';\"]*')*, *sans-serif", "var(--sans, sans-serif)", text)
    for name, colour in COLOURS.items():
        text = text.replace(colour, named(name))
    label = f'role="img" aria-labelledby="{identity}-title {identity}-description"'
    names = (
        f'<title id="{identity}-title">{title}</title>'
        f'<desc id="{identity}-description">{description}</desc>'
    )
    text = re.sub(r' width="[^"]*pt"| height="[^"]*pt"', "", text, count=2)
    return re.sub(r"<svg([^>]*)>", rf"<svg\1 {label}>{names}", text, count=1).strip()
