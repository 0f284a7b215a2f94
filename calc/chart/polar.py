"""Polar figures: amplitudes and angles as arrows on a dial."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from html import escape

from calc.chart.figure import on_paper
from calc.chart.frame import WIDTH
from calc.chart.lettering import LEADING, SIZE, Lettering, around, best, shifted, wrapped
from calc.chart.marks import Line
from calc.chart.plot import PAPER, RULE, Plot, Point
from calc.chart.scale import Axis
from calc.digits import plain
from calc.quantity import Quantity
from calc.spreadsheet import rows_of
from calc.units import DEGREE, Unit

HEIGHT = 420.0
_RADIUS = 172.0
_MIDDLE = 204.0, 210.0
_KEYS_FROM = 424.0
_HEAD = 10.0


@dataclass(frozen=True, slots=True)
class Arrows:
    """Arrows of one kind: amplitude and angle each, with a name at the tip where there are many."""

    points: Sequence[Point]
    label: str
    style: int = 1
    names: Sequence[str] = ()


@dataclass(frozen=True, slots=True)
class Polar:
    """A figure of arrows from the middle; angle zero is at the top and angles grow clockwise.

    The title and the description are for those who do not see it.  `ring` is an amplitude that
    is shown at every angle.
    """

    title: str
    description: str
    amplitude: Axis
    angle: str
    arrows: Sequence[Arrows]
    ring: float = 0.0
    ring_label: str = ""

    @property
    def axes(self) -> tuple[Axis, ...]:
        """The axis of amplitudes."""
        return (self.amplitude,)

    def svg(self, identity: str) -> str:
        """Return the figure as SVG; `identity` begins the ids in it and is unique on its page."""
        name = escape(identity)
        plot = self._plot(name)
        rings, numbers = self._dial(plot)
        for arrows in self.arrows:
            _draw(plot, arrows)
        placed = [*numbers]
        for choices in plot.wanted:
            placed.append(best(choices, placed, plot.drawn, (0.0, 0.0, _KEYS_FROM, HEIGHT)))
        labels = "".join(lettering.svg(PAPER) for lettering in placed)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {HEIGHT:.0f}"'
            f' role="img" aria-labelledby="{name}-title" aria-describedby="{name}-desc"'
            f' font-family="var(--figure-font, system-ui, sans-serif)" font-size="{SIZE:.0f}"'
            f' fill="currentColor"><title id="{name}-title">{escape(self.title)}</title>'
            f'<desc id="{name}-desc">{escape(self.description)}</desc>'
            f"{rings}{self._ring(plot)}{''.join(plot.inside)}{self._keys()}{labels}"
            "</svg>"
        )

    def file(self) -> str:
        """Return the figure as an SVG file: dark on light paper, with all colours in it."""
        return on_paper(self.svg("figure"))

    def read_in(self, units: Iterable[tuple[Quantity, Unit]]) -> "Polar":
        """Return the figure with the unit chosen for its amplitudes."""
        chosen = {quantity.label: unit for quantity, unit in units}
        own = self.amplitude
        unit = chosen.get(own.follows.label, own.unit) if own.follows else own.unit
        return replace(self, amplitude=replace(own, unit=unit))

    def table(self, digits: int = 6) -> list[list[str]]:
        """Return the data of the figure: headings, then a row for each arrow."""
        rows = [["Arrow", self.amplitude.title, f"{self.angle} ({DEGREE.name})"]]
        for arrows in self.arrows:
            names = arrows.names or [""] * len(arrows.points)
            for (amplitude, angle), name in zip(arrows.points, names, strict=True):
                rows.append(
                    [
                        f"{arrows.label} {name}".rstrip(),
                        plain(self.amplitude.unit.reading(amplitude), digits),
                        plain(DEGREE.reading(angle), digits),
                    ]
                )
        if self.ring_label:
            ring = plain(self.amplitude.unit.reading(self.ring), digits)
            rows.append([self.ring_label, ring, "any"])
        return rows

    def csv(self) -> str:
        """Return the data of the figure as comma-separated values, to twelve digits."""
        return rows_of(self.table(12))

    def _plot(self, name: str) -> Plot:
        """Return a square plot area about the middle, as wide as the longest arrow asks for."""
        amplitudes = [amplitude for arrows in self.arrows for amplitude, _ in arrows.points]
        amplitudes.append(self.ring)
        across = replace(self.amplitude, low=0.0).fitted(amplitudes)
        axis = replace(across, low=-across.high)
        x, y = _MIDDLE
        return Plot(name, axis, axis, x - _RADIUS, y - _RADIUS, x + _RADIUS, y + _RADIUS)

    def _dial(self, plot: Plot) -> tuple[str, list[Lettering]]:
        """Return the rings with their amplitudes, and the spokes with their angles."""
        x, y = _MIDDLE
        rings, numbers = [], []
        for place, text in replace(plot.x, low=0.0).marked():
            if place > 1e-9:
                radius = place * _RADIUS
                rings.append(
                    f"M{x - radius:.2f} {y:.2f}a{radius:.2f} {radius:.2f} 0 1 0 {2 * radius:.2f} 0"
                    f"a{radius:.2f} {radius:.2f} 0 1 0 {-2 * radius:.2f} 0"
                )
                turn = math.radians(105.0)
                numbers.append(
                    Lettering(
                        x + radius * math.sin(turn), y - radius * math.cos(turn), (text,), "middle"
                    )
                )
        for degrees in range(0, 360, 30):
            turn = math.radians(degrees)
            across, up = math.sin(turn), math.cos(turn)
            rings.append(f"M{x:.2f} {y:.2f}L{x + _RADIUS * across:.2f} {y - _RADIUS * up:.2f}")
            far = _RADIUS + 16.0
            numbers.append(Lettering(x + far * across, y - far * up, (f"{degrees}°",), "middle"))
        drawn = f'<path d="{"".join(rings)}" fill="none" stroke="{RULE}" stroke-width="0.75"/>'
        return drawn, numbers

    def _ring(self, plot: Plot) -> str:
        """Return the ring, if there is one that can be seen."""
        x, y = _MIDDLE
        radius = plot.across(self.ring) - x
        return _circle(x, y, radius) if self.ring_label and radius > 0.0 else ""

    def _keys(self) -> str:
        """Return what each kind of arrow is, and what the dial shows, to its right."""
        across = self.amplitude.title, f"{self.angle}, clockwise from the top"
        y = 24.0
        drawn = []
        for title in across:
            lines = wrapped(title, WIDTH - _KEYS_FROM)
            y += LEADING * len(lines)
            drawn.append(Lettering(_KEYS_FROM, y - LEADING * len(lines) / 2.0, lines).svg())
        y += LEADING
        for arrows in self.arrows:
            lines = wrapped(arrows.label, WIDTH - _KEYS_FROM - 44.0)
            middle = y + LEADING * len(lines) / 2.0
            drawn.append(_arrow(_KEYS_FROM, middle, _KEYS_FROM + 34.0, middle, arrows.style))
            drawn.append(Lettering(_KEYS_FROM + 44.0, middle, lines).svg())
            y += LEADING * (len(lines) + 0.5)
        if self.ring_label:
            lines = wrapped(self.ring_label, WIDTH - _KEYS_FROM - 44.0)
            middle = y + LEADING * len(lines) / 2.0
            drawn.append(_circle(_KEYS_FROM + 17.0, middle, 9.0))
            drawn.append(Lettering(_KEYS_FROM + 44.0, middle, lines).svg())
        return "".join(drawn)


def _draw(plot: Plot, arrows: Arrows) -> None:
    """Draw the arrows of one kind, and ask for their names at the tips."""
    x, y = _MIDDLE
    names = arrows.names or [""] * len(arrows.points)
    for (amplitude, angle), name in zip(arrows.points, names, strict=True):
        tip = plot.across(amplitude * math.sin(angle)), plot.down(amplitude * math.cos(angle))
        if not math.isfinite(sum(tip)):
            continue
        plot.cover((x, y), tip)
        plot.inside.append(_arrow(x, y, *tip, arrows.style))
        if name:
            beside = around(*tip, 10.0, name)
            lower = [place for side in beside[:2] for place in shifted(side, (1, -1, 2, -2))]
            plot.wanted.append(beside + lower)


def _circle(x: float, y: float, radius: float) -> str:
    return (
        f'<circle cx="{x:.3f}" cy="{y:.3f}" r="{radius:.3f}" fill="none" stroke="currentColor"'
        ' stroke-dasharray="4 3"/>'
    )


def _arrow(x: float, y: float, to_x: float, to_y: float, style: int) -> str:
    """Return an arrow of a style from one place to another; a dot where it has no length."""
    look = Line((), "", style).look
    ink = look.partition('stroke="')[2].partition('"')[0]
    length = math.hypot(to_x - x, to_y - y)
    if length < 1.0:
        return f'<circle cx="{to_x:.3f}" cy="{to_y:.3f}" r="3.5" fill="{ink}"/>'
    along, side = (to_x - x) / length, (to_y - y) / length
    head = min(_HEAD, length)
    foot_x, foot_y = to_x - head * along, to_y - head * side
    wing_x, wing_y = 0.4 * head * side, 0.4 * head * along
    return (
        f'<path d="M{x:.3f} {y:.3f}L{foot_x:.3f} {foot_y:.3f}" {look}/>'
        f'<path d="M{to_x:.3f} {to_y:.3f}L{foot_x + wing_x:.3f} {foot_y - wing_y:.3f}'
        f'L{foot_x - wing_x:.3f} {foot_y + wing_y:.3f}z" fill="{ink}"/>'
    )
