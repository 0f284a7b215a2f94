"""Pens and fills of the drawings, in the colours of the page: light, dark and on paper."""

from dataclasses import dataclass

from calc.chart.palette import named

INK, SOFT = "currentColor", named("ink-soft")
PAPER, RULE, WARNING = named("paper"), named("rule"), named("warning")
SECOND, THIRD, FOURTH = (named(f"data-{style}") for style in (2, 3, 4))


@dataclass(frozen=True, slots=True)
class Pen:
    """Colour, width and dashes of a line."""

    colour: str
    width: float
    dashes: str = ""

    def __str__(self) -> str:
        """Return the pen as attributes of SVG."""
        dashes = f' stroke-dasharray="{self.dashes}"' if self.dashes else ""
        return f'stroke="{self.colour}" stroke-width="{self.width:g}"{dashes}'


BODY = Pen(INK, 1.75)
FINE = Pen(INK, 1.0)
SIZES = Pen(SOFT, 1.0)
AXIS = Pen(SOFT, 1.0, "11 3 2 3")
REST = Pen(SOFT, 1.0, "5 3")
FAINT = Pen(RULE, 1.5)
MOTION = Pen(SECOND, 2.0)
AIR = Pen(THIRD, 2.0)
FORCE = Pen(FOURTH, 2.25)
DANGER = Pen(WARNING, 1.0)
TINT = 'fill="currentColor" fill-opacity="0.1"'
EMPTY = f'fill="{PAPER}"'
SOLID = 'fill="currentColor"'
NO_FILL = 'fill="none"'
