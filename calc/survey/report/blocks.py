"""Blocks: what a report is made of, whether it becomes HTML, Markdown or plain text."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple


class Heading(NamedTuple):
    """A heading of a level from 1 to 3, and the anchor of what stands under it."""

    text: str
    level: int = 2
    anchor: str = ""


class Words(NamedTuple):
    """A paragraph; `kind` is danger, caution, warning or chief, or nothing for plain text."""

    text: str
    kind: str = ""


class Items(NamedTuple):
    """A list under a line that leads to it; `kind` as of `Words`, or needs."""

    lead: str
    items: Sequence[str]
    kind: str = ""


class Jump(NamedTuple):
    """The text of a cell that leads to an anchor in the same report."""

    text: str
    anchor: str


class Grid(NamedTuple):
    """A table with a caption; without a text in any of its heads it has none."""

    caption: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str | Jump]]


class TitleBlock(NamedTuple):
    """Labels with what was entered under them; what is empty is left to be written in."""

    pairs: Sequence[tuple[str, str]]


class Drawing(NamedTuple):
    """A figure as SVG with its title."""

    title: str
    svg: str


class Working(NamedTuple):
    """The lines of a working."""

    lines: Sequence[str]


class Code(NamedTuple):
    """A line with a text for programs after it: a hash, a name."""

    lead: str
    code: str


class Link(NamedTuple):
    """A line with an address after it, relative to the handbook."""

    lead: str
    address: str


Block = Heading | Words | Items | Grid | TitleBlock | Drawing | Working | Code | Link


class Chapter(NamedTuple):
    """Blocks that belong together under an anchor: one answer."""

    anchor: str
    blocks: Sequence[Block]


def flat(parts: Iterable[Block | Chapter]) -> list[Block]:
    """Return the blocks of parts, those of chapters among them."""
    found: list[Block] = []
    for part in parts:
        found += part.blocks if isinstance(part, Chapter) else [part]
    return found
