"""In text: the blocks of a report as plain lines."""

from collections.abc import Iterable, Iterator

from calc.survey.report import blocks
from calc.survey.report.blocks import Block, Chapter, Jump, flat

KINDS = {"danger": "Danger: ", "caution": "Caution: ", "warning": "Warning: "}


def plain_text(parts: Iterable[Block | Chapter]) -> str:
    """Return blocks as plain text; a figure is a line that names it."""
    return "\n".join(line for block in flat(parts) for line in _lines(block)) + "\n"


def _lines(block: Block) -> Iterator[str]:
    match block:
        case blocks.Heading(text, _, _):
            yield text
        case blocks.Words(text, kind):
            yield f"{KINDS.get(kind, '')}{text}"
        case blocks.Items(lead, items, _):
            yield from (lead, *(f"  {item}" for item in items))
        case blocks.Grid(caption, heads, rows):
            cells = [[c.text if isinstance(c, Jump) else c for c in row] for row in rows]
            if len(heads) > 2:
                cells = [list(heads), *cells]
            yield from [caption] if caption and cells else []
            yield from (f"  {(': ' if len(heads) == 2 else ' | ').join(row)}" for row in cells)
        case blocks.TitleBlock(pairs):
            yield from (f"  {label}: {text}".rstrip() for label, text in pairs)
        case blocks.Drawing(title, _):
            yield f"Figure: {title}"
        case blocks.Working(lines):
            yield from ("Working", *(f"  {line}" for line in lines))
        case blocks.Code(lead, code) | blocks.Link(lead, code):
            yield f"{lead} {code}"
