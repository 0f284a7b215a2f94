"""In HTML: the blocks of a report as parts of a page."""

from collections.abc import Iterable, Iterator
from html import escape

from calc.survey import printed
from calc.survey.report import blocks
from calc.survey.report.blocks import Block, Chapter, Jump

OWN_LINE = {"warning": "<strong>Warning</strong> ", "danger": "<strong>Danger</strong> "}


def html(parts: Iterable[Block | Chapter], *, opened: bool) -> Iterator[str]:
    """Yield the parts of a page; a working is folded unless it is asked for as opened."""
    for part in parts:
        if isinstance(part, Chapter):
            inside = "\n".join(html(part.blocks, opened=opened))
            yield f'<section class="answer" id="{part.anchor}">{inside}</section>'
        else:
            yield _html(part, opened=opened)


def _html(block: Block, *, opened: bool) -> str:  # noqa: PLR0911 - one return a kind of block
    match block:
        case blocks.Heading(text, level, anchor):
            name = f' id="{anchor}"' if anchor else ""
            return f"<h{level}{name}>{escape(text)}</h{level}>"
        case blocks.Words(text, "chief"):
            return f"<p><strong>{escape(text)}</strong></p>"
        case blocks.Words(text, kind):
            return f"<p{_class(kind)}>{OWN_LINE.get(kind, '')}{_lines(text)}</p>"
        case blocks.Items(lead, items, kind):
            inside = "".join(f"<li>{escape(item)}</li>" for item in items)
            return f"<div{_class(kind)}><p>{escape(lead)}</p><ul>{inside}</ul></div>"
        case blocks.Grid(caption, heads, rows):
            return printed.table(caption, heads, [list(map(_cell, row)) for row in rows])
        case blocks.TitleBlock(pairs):
            return printed.title_block(pairs)
        case blocks.Drawing(title, svg):
            return f"<figure>{svg}<figcaption>{escape(title)}</figcaption></figure>"
        case blocks.Working(lines):
            how = " open" if opened else ""
            text = escape("\n".join(lines))
            return f"<details{how}><summary>Working</summary><pre>{text}</pre></details>"
        case blocks.Code(lead, code) | blocks.Link(lead, code):
            return f"<p>{escape(lead)} <code>{escape(code)}</code></p>"


def _class(kind: str) -> str:
    return f' class="{kind}"' if kind else ""


def _lines(text: str) -> str:
    return "<br>".join(map(escape, text.split("\n")))


def _cell(cell: str | Jump) -> str:
    if isinstance(cell, Jump):
        return f'<a href="#{cell.anchor}">{escape(cell.text)}</a>'
    return escape(cell)
