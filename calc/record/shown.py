"""Shown: what is seen in a record, as a part of a page, as text to paste and as files."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from html import escape

from calc import VERSION
from calc.chart import Chart, Panels
from calc.form.calculation import NOTICE
from calc.form.result_table import rows_cut
from calc.spreadsheet import rows_of
from calc.survey.report.blocks import Block, Grid, Heading, Link, Words
from calc.survey.report.in_markdown import markdown
from calc.survey.report.in_text import plain_text

LONGEST_TABLE = 60
"""Rows of a table that a page shows; the CSV file has them all."""

Rows = Sequence[Sequence[str]]


@dataclass(frozen=True, slots=True)
class Seen:
    """What a view shows: a sentence, paragraphs and tables, a figure; `numbers` makes all rows."""

    title: str
    sentence: str
    blocks: Sequence[Block]
    chart: Chart | Panels | None
    numbers: Callable[[], Rows]


def html(seen: Seen, identity: str) -> str:
    """Return what a view shows as a part of a page: figure, paragraphs, tables."""
    parts = [_figure(seen.chart, identity)] if seen.chart else []
    return "\n".join([*parts, *map(_block, seen.blocks)])


def text(seen: Seen, about: Iterable[tuple[str, str]], kind: str) -> str:
    """Return what a view shows to paste into a review: with what it was made of, and version.

    Args:
        seen: What the view shows.
        about: The record and the entries of the view, each with its label.
        kind: `text` or `markdown`.
    """
    parts: list[Block] = [Heading(seen.title, 3), Words(f"{seen.sentence}.")]
    parts += [block for block in seen.blocks if not isinstance(block, Link)]
    parts += [Grid("Record and entries", ["", ""], list(about)), _origin()]
    return {"text": plain_text, "markdown": markdown}[kind](parts)


def csv(seen: Seen, about: Iterable[tuple[str, str]]) -> str:
    """Return all numbers of a view as comma-separated values, with what they were made of."""
    return rows_of([*seen.numbers(), [], *map(list, about), [_origin().text]])


def table(grid: Grid, kind: str = "rows") -> str:
    """Return a table of a page, which scrolls by keyboard where it is wider than that."""
    head = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in grid.heads)
    rows = [[escape(cell) for cell in row if isinstance(cell, str)] for row in grid.rows]
    body = "".join(
        f"<tr>{''.join(f'<td>{cell}</td>' for cell in row)}</tr>" for row in rows[:LONGEST_TABLE]
    )
    top = f"<thead><tr>{head}</tr></thead>" if any(grid.heads) else ""
    return (
        f'<div class="scroll-box" tabindex="0"><table class="table {kind}">'
        f"<caption>{escape(grid.caption)}</caption>{top}<tbody>{body}</tbody></table></div>"
        f"{rows_cut(len(rows), LONGEST_TABLE, 'the CSV file')}"
    )


def _origin() -> Words:
    return Words(f"Rotorcraft vibration handbook {VERSION}. {NOTICE}")


def _block(block: Block) -> str:
    match block:
        case Grid():
            return table(block)
        case Words(words, "warning"):
            return f'<p class="warning"><strong>Warning</strong> {escape(words)}</p>'
        case Words(words, _):
            return f"<p>{escape(words)}</p>"
        case Link(words, address):
            return f'<p class="no-print"><a href="{escape(address)}">{escape(words)}</a></p>'
    raise TypeError(f"{type(block).__name__} is no part of a view")


def _figure(chart: Chart | Panels, identity: str) -> str:
    """Return a figure in the frame in which a page reads it at the pointer and enlarges it."""
    return (
        f'<figure class="live" id="{identity}"><div class="scroll-box">{chart.svg(identity)}</div>'
        f'<figcaption><span class="figure-title">{escape(chart.title)}</span></figcaption></figure>'
    )
