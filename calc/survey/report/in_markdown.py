"""In Markdown: the blocks of a report as text for a review."""

from collections.abc import Iterable

from calc.markdown import escaped, table
from calc.survey.report import blocks
from calc.survey.report.blocks import Block, Chapter, Jump, flat

KINDS = {"danger": "Danger", "caution": "Caution", "warning": "Warning"}


def markdown(parts: Iterable[Block | Chapter]) -> str:
    """Return a report as Markdown; a figure is a note that names it."""
    return "\n\n".join(filter(None, map(_markdown, flat(parts)))) + "\n"


def _markdown(block: Block) -> str:  # noqa: C901, PLR0911 - one return a kind of block
    match block:
        case blocks.Heading(text, level, _):
            return f"{'#' * level} {_line(text)}"
        case blocks.Words(text, "chief"):
            return f"**{_line(text)}**"
        case blocks.Words(text, kind) if kind in KINDS:
            return f"> **{KINDS[kind]}:** {_line(text)}"
        case blocks.Words(text, _):
            return "  \n".join(escaped(line) for line in text.split("\n"))
        case blocks.Items(lead, items, _):
            return "\n".join([_line(lead), "", *(f"- {_line(item)}" for item in items)])
        case blocks.Grid(caption, heads, rows):
            cells = [[c.text if isinstance(c, Jump) else c for c in row] for row in rows]
            title = f"*{_line(caption)}*\n\n" if caption else ""
            return f"{title}{table(heads, cells)}" if rows else ""
        case blocks.TitleBlock(pairs):
            return table(["Title block", "Entry"], pairs)
        case blocks.Drawing(title, _):
            return f"*Figure: {_line(title)}, in the report as a page.*"
        case blocks.Working(lines):
            return "\n".join(["Working:", "", *(f"    {line}" for line in lines)])
        case blocks.Code(lead, code):
            return f"{_line(lead)} `{code}`"
        case blocks.Link(lead, address):
            return f"[{_line(lead.rstrip(':'))}]({address})"


def _line(text: str) -> str:
    return escaped(" ".join(text.split()))
