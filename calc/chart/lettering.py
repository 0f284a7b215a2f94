"""The lettering of a figure: how wide a text is, and where labels go so that none overlap."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from html import escape
from itertools import product

SIZE = 14.0
LEADING = 17.0
GRID = 8.0
_FORBIDDEN = 1000.0

Cell = tuple[int, int]

_WIDTHS = dict.fromkeys("iIjlft.,'|!:;()[]/ ", 0.4) | dict.fromkeys(
    "mwMWΩ%\N{MINUS SIGN}\N{MULTIPLICATION SIGN}", 0.95
)


def width(text: str) -> float:
    """Return how wide a line of text is at most: measured for a wide sans-serif face."""
    widths = (_WIDTHS.get(letter, 0.72 if letter.isupper() else 0.635) for letter in text)
    return SIZE * math.fsum(widths)


def wrapped(text: str, widest: float) -> tuple[str, ...]:
    """Return a text in lines, each as wide as fits; a longer word keeps a line to itself."""
    lines: list[str] = []
    for word in text.split():
        if lines and width(f"{lines[-1]} {word}") <= widest:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return tuple(lines)


@dataclass(frozen=True, slots=True)
class Lettering:
    """Lines of text about a point: `x` is the end that `anchor` names, `y` is half their height."""

    x: float
    y: float
    lines: tuple[str, ...]
    anchor: str = "start"
    step: int = 0
    """In which step of a figure it appears; in step 0 it is always there."""

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom."""
        wide = max((width(line) for line in self.lines), default=0.0)
        left = self.x - {"start": 0.0, "middle": wide / 2.0, "end": wide}[self.anchor]
        half = LEADING * len(self.lines) / 2.0
        return left, self.y - half, left + wide, self.y + half

    def overlaps(self, other: "Lettering") -> bool:
        """Whether the two would touch."""
        left, top, right, bottom = self.box
        left2, top2, right2, bottom2 = other.box
        return left < right2 and left2 < right and top < bottom2 and top2 < bottom

    def svg(self, halo: str = "") -> str:
        """Return the text as SVG; with the colour of the paper as a halo it reads over lines."""
        first = self.y - LEADING * (len(self.lines) - 1) / 2.0 + SIZE * 0.35
        rows = "".join(
            f'<tspan x="{self.x:.2f}" y="{first + LEADING * row:.2f}">{escape(line)}</tspan>'
            for row, line in enumerate(self.lines)
        )
        around = (
            f' stroke="{halo}" stroke-width="4" stroke-linejoin="round" paint-order="stroke"'
            if halo
            else ""
        )
        return f'<text text-anchor="{self.anchor}"{around}{appears(self.step)}>{rows}</text>'


def appears(step: int) -> str:
    """Return the attribute of what appears in a step of a figure; there is none for step 0."""
    return f' data-from="{step}"' if step else ""


def spread(places: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Return places moved apart as little as it takes: in order, in the range, without overlap.

    Where the sizes together exceed the range, they overlap by equal shares.
    """
    room = min(1.0, (high - low) / math.fsum(sizes)) if sizes else 1.0
    groups: list[tuple[float, float, list[int]]] = []
    for i in sorted(range(len(places)), key=lambda i: places[i]):
        size = sizes[i] * room
        start = min(max(places[i] - size / 2.0, low), high - size)
        members = [i]
        while groups and groups[-1][0] + groups[-1][1] > start:
            before, length, others = groups.pop()
            share = len(others) / (len(others) + len(members))
            start = share * before + (1.0 - share) * (start - length)
            members = others + members
            size += length
            start = min(max(start, low), high - size)
        groups.append((start, size, members))
    moved = list(places)
    for start, _, members in groups:
        edge = start
        for i in members:
            moved[i] = edge + sizes[i] * room / 2.0
            edge += sizes[i] * room
    return moved


def best(
    choices: Sequence[Lettering],
    placed: Sequence[Lettering],
    drawn: set[Cell],
    area: tuple[float, float, float, float],
) -> Lettering:
    """Return the choice that covers least: labels before lines, and earlier choices first."""
    left, top, right, bottom = area
    least, found = math.inf, choices[0]
    for place, choice in enumerate(choices):
        cost = place / 4.0
        if cost >= least:
            break
        box = choice.box
        if box[0] < left or box[1] < top or box[2] > right or box[3] > bottom:
            cost += _FORBIDDEN
        cost += _FORBIDDEN * sum(choice.overlaps(other) for other in placed)
        if cost < least:
            cost += len(drawn.intersection(cells(*box)))
        if cost < least:
            least, found = cost, choice
    return found


def cells(left: float, top: float, right: float, bottom: float) -> Iterator[Cell]:
    """Return the cells of a coarse grid that a box touches."""
    columns = range(int(left // GRID), int(right // GRID) + 1)
    return product(columns, range(int(top // GRID), int(bottom // GRID) + 1))


def shifted(lettering: Lettering, rows: Iterable[int]) -> list[Lettering]:
    """Return a label moved down by some numbers of lines."""
    return [replace(lettering, y=lettering.y + row * LEADING) for row in rows]


def around(x: float, y: float, gap: float, label: str) -> list[Lettering]:
    """Return where a label can stand about a point: right, left, above, below."""
    lines = (label,)
    return [
        Lettering(x + gap, y, lines),
        Lettering(x - gap, y, lines, "end"),
        Lettering(x, y - gap - LEADING / 2.0, lines, "middle"),
        Lettering(x, y + gap + LEADING / 2.0, lines, "middle"),
    ]
