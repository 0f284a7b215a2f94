"""A sheet to draw on: lines, arcs, arrows and lettering as SVG, all in one style.

Places are complex numbers in units of a CSS pixel, x to the right and y down.  Angles are in
degrees, counterclockwise as the reader sees them, from the direction to the right.
"""

import cmath
import math
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from html import escape

from calc.chart import lettering
from scripts.drawings.lettering import WORDS, lettered, symbols
from scripts.drawings.pens import BODY, EMPTY, MOTION, NO_FILL, PAPER, SIZES, SOFT, TINT, Pen

SIZE = 13.0
LEADING = 16.0


def toward(angle: float, length: float = 1.0) -> complex:
    """Return the step of some length in the direction of an angle."""
    return cmath.rect(length, -math.radians(angle))


class Sheet:
    """A drawing under way, with a title and a description for those who do not see it."""

    def __init__(
        self,
        title: str,
        description: str,
        width: float = 340.0,
        height: float = 300.0,
        *,
        headed: bool = True,
        screen: str = "any",
    ) -> None:
        """Begin an empty sheet, with its title at the top; `screen`: any, wide, narrow."""
        self.title, self.description, self.screen = title, description, screen
        self.width, self.height = width, height
        self.symbols: list[str] = []
        self.links: list[str] = []
        self._shapes: list[str] = []
        self._labels: list[str] = []
        if headed:
            self.label(2 + 10j, title, "start", bold=True)

    @contextmanager
    def part(self, address: str, at: complex, anchor: str, name: str, text: str) -> Iterator[None]:
        """Make what is drawn meanwhile a link to a page, with a name and a line of text at a place.

        The text is the link for keyboard and screen reader, the shapes are one for the pointer.
        """
        shapes, labels = self._shapes, self._labels
        self._shapes, self._labels = [], []
        yield
        self.label(at, name, anchor, bold=True)
        self.label(at + 1j * LEADING, text, anchor, soft=True)
        wide = max(map(lettering.width, (name, text))) + 4.0
        left = at.real - {"start": 4.0, "middle": wide / 2.0, "end": wide - 4.0}[anchor]
        frame = (
            f'<rect x="{number(left)}" y="{number(at.imag - 12.0)}" width="{number(wide)}" '
            f'height="{number(LEADING + 22.0)}" {NO_FILL} pointer-events="all"/>'
        )
        group = (
            f'<g class="part"><a href="{address}" tabindex="-1" aria-hidden="true">'
            f"{''.join(self._shapes)}</a>"
            f'<a href="{address}">{frame}{_lettering(self._labels)}</a></g>'
        )
        self._shapes, self._labels = [*shapes, group], labels
        self.links.append(address)

    @contextmanager
    def step(self, first: int, last: int | None = None) -> Iterator[None]:
        """Let what is drawn meanwhile appear in a step, and be there up to a later one or the end.

        What the last step does not have is hidden until a page shows the steps.
        """
        shapes, labels = self._shapes, self._labels
        self._shapes, self._labels = [], []
        yield
        gone = f' data-until="{last}" visibility="hidden"' if last else ""
        inside = f"{''.join(self._shapes)}{_lettering(self._labels)}"
        group = f'<g data-from="{first}"{gone}>{inside}</g>'
        self._shapes, self._labels = [*shapes, group], labels

    def line(self, *points: complex, pen: Pen = BODY) -> None:
        """Draw straight lines from place to place."""
        self.shape(run(points), pen)

    def outline(self, points: Sequence[complex], pen: Pen = BODY, fill: str = NO_FILL) -> None:
        """Draw a closed figure with straight sides."""
        self.shape(f"{run(points)}z", pen, fill)

    def shape(self, path: str, pen: Pen = BODY, fill: str = NO_FILL) -> None:
        """Draw a path of SVG."""
        self._shapes.append(f'<path d="{path}" {pen} {fill}/>')

    def add(self, element: str) -> None:
        """Draw an element of SVG."""
        self._shapes.append(element)

    def body(self, path: str | Sequence[complex]) -> None:
        """Draw a solid part, which hides what lies under it."""
        outline = path if isinstance(path, str) else f"{run(path)}z"
        self.shape(outline, BODY, EMPTY)
        self._shapes.append(f'<path d="{outline}" {TINT}/>')

    def disc(self, centre: complex, radius: float) -> None:
        """Draw a solid round part, which hides what lies under it."""
        self.circle(centre, radius, BODY, EMPTY)
        self.circle(centre, radius, BODY, TINT)

    def circle(self, centre: complex, radius: float, pen: Pen = BODY, fill: str = NO_FILL) -> None:
        """Draw a circle."""
        self._shapes.append(
            f'<circle cx="{number(centre.real)}" cy="{number(centre.imag)}" '
            f'r="{number(radius)}" {pen} {fill}/>'
        )

    def arc(
        self, centre: complex, radius: float, start: float, end: float, *, pen: Pen = SIZES
    ) -> None:
        """Draw a part of a circle from an angle to another; counterclockwise where it is larger."""
        self.shape(bow(centre, radius, start, end), pen)

    def arrow(self, *points: complex, pen: Pen = SIZES, both: bool = False) -> None:
        """Draw a line with a head at its end, or at both ends."""
        ends = [(points[-1], points[-1] - points[-2])]
        if both:
            ends.append((points[0], points[0] - points[1]))
        self.shape(run(points), pen)
        for at, direction in ends:
            self.head(at, direction, pen)

    def turn(
        self,
        centre: complex,
        radius: float,
        start: float,
        end: float,
        *,
        pen: Pen = MOTION,
        both: bool = False,
    ) -> None:
        """Draw an arc with a head at its end, or at both ends."""
        sense = math.copysign(1.0, end - start)
        back = sense * math.degrees(_head_length(pen) / radius) / 2.0
        self.arc(centre, radius, start, end, pen=pen)
        self.head(centre + toward(end, radius), toward(end + sense * 90.0 - back), pen)
        if both:
            self.head(centre + toward(start, radius), toward(start - sense * 90.0 + back), pen)

    def head(self, at: complex, direction: complex, pen: Pen) -> None:
        """Draw the head of an arrow."""
        ahead = direction / abs(direction) * _head_length(pen)
        aside = ahead * 0.36j
        corners = at, at - ahead + aside, at - 0.8 * ahead, at - ahead - aside
        self._shapes.append(f'<path d="{run(corners)}z" fill="{pen.colour}" stroke="none"/>')

    def label(
        self,
        at: complex,
        text: str,
        anchor: str = "middle",
        *,
        bold: bool = False,
        soft: bool = False,
    ) -> None:
        r"""Write lines of text about a place that is half their height; symbols stand in `$`."""
        lines = text.split("\n") if text else []
        first = at.imag - LEADING * (len(lines) - 1) / 2.0 + SIZE * 0.36
        look = ' font-weight="600"' if bold else f' fill="{SOFT}"' if soft else ""
        for row, line in enumerate(lines):
            self.symbols += symbols(line)
            self._labels.append(
                f'<text x="{number(at.real)}" y="{number(first + LEADING * row)}" '
                f'text-anchor="{anchor}"{look}>{lettered(line, SIZE)}</text>'
            )

    def svg(self, identity: str) -> str:
        """Return the drawing as SVG; `identity` begins its ids and is unique on its page."""
        role = "group" if self.links else "img"
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" '
            f'viewBox="0 0 {number(self.width)} {number(self.height)}" role="{role}" '
            f'aria-labelledby="{identity}-title" aria-describedby="{identity}-desc" '
            f'font-family="{WORDS}" font-size="{SIZE:g}" fill="currentColor" '
            f'stroke-linecap="round" stroke-linejoin="round">'
            f'<title id="{identity}-title">{escape(self.title)}</title>'
            f'<desc id="{identity}-desc">{escape(self.description)}</desc>'
            f"{''.join(self._shapes)}{_lettering(self._labels)}</svg>"
        )


def number(value: float) -> str:
    """Return a length to a tenth of a unit."""
    return f"{round(value, 1) + 0.0:g}"


def place(at: complex) -> str:
    """Return a place as a path of SVG names it."""
    return f"{number(at.real)} {number(at.imag)}"


def run(points: Sequence[complex]) -> str:
    """Return straight lines from place to place as a path of SVG."""
    return "M" + "L".join(map(place, points))


def bow(centre: complex, radius: float, start: float, end: float) -> str:
    """Return a part of a circle as a path of SVG."""
    large = int(abs(end - start) > 180.0)
    sweep = int(end < start)
    first, last = (centre + toward(angle, radius) for angle in (start, end))
    return f"M{place(first)}A{number(radius)} {number(radius)} 0 {large} {sweep} {place(last)}"


def _lettering(labels: Sequence[str]) -> str:
    """Return labels with a rim in the colour of the paper, so that they can be read over lines."""
    rim = f'stroke="{PAPER}" stroke-width="3.5" paint-order="stroke"'
    return f"<g {rim}>{''.join(labels)}</g>" if labels else ""


def _head_length(pen: Pen) -> float:
    return 6.0 + 2.0 * pen.width
