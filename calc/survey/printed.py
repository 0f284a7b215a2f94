"""Printed: the frame of a page that stands alone: style, title block, tables, feet of sheets."""

from collections.abc import Iterable, Sequence
from html import escape

from calc import VERSION
from calc.form.calculation import NOTICE

DENSE = 6
"""Columns of a table that is printed in small type."""

POLICY = "default-src 'none'; style-src 'unsafe-inline'"

STYLE = """
:root{color-scheme:light;--figure-font:system-ui,sans-serif}
body{font:15px/1.45 system-ui,sans-serif;color:#1b2733;max-width:62rem}
body{margin:2rem auto;padding:0 1rem}
h1,h2,h3{line-height:1.2;break-after:avoid}h2{border-top:1px solid #9aa7b2;padding-top:1rem}
table{border-collapse:collapse;margin:.6rem 0}caption{text-align:left;font-weight:600}
th,td{border-bottom:1px solid #d5dce2;padding:.2rem .6rem .2rem 0;text-align:left}
th,td{vertical-align:top}
.title-block{width:100%}.title-block :is(th,td){border:1px solid #667;padding:.3rem .5rem}
.title-block th{font-weight:400;width:9rem;color:#475467}.title-block td{min-width:9rem}
.wide{overflow-x:auto}svg{max-width:44rem;width:100%;height:auto}figure{margin:1rem 0}
.danger,.warning,.caution,.needs{border-left:4px solid #b54708;background:#fff6ed}
.danger,.warning,.caution,.needs{padding:.4rem .8rem;break-inside:avoid}
.danger,.caution{border-color:#b42318;background:#fef3f2}.danger{border:2px solid #b42318}
.needs{border-color:#475467;background:#f2f4f7}
code{overflow-wrap:anywhere}pre{white-space:pre-wrap;overflow-wrap:anywhere;font-size:.85rem}
@media print{body{margin:0;padding:0;max-width:none;font-size:10pt;color:#000}
.answer:has(figure){break-before:page}.wide{overflow:visible}table{max-width:100%;font-size:8.5pt}
th,td{overflow-wrap:break-word;padding-right:.4rem}caption{break-after:avoid}
.dense{font-size:7pt}.dense :is(th,td){overflow-wrap:anywhere;padding-right:.2rem}
.dense td{min-width:6.1em}.dense th{font-size:6.2pt}
thead{display:table-header-group;break-after:avoid}tbody tr:first-child{break-before:avoid}
p code{font-size:7pt}svg{max-width:150mm}
tr,figure{break-inside:avoid}a{color:inherit}}
"""


def page(title: str, parts: Iterable[str], foot: str, style: str = "") -> str:
    """Return a page that needs nothing else, the same bytes each time.

    Args:
        title: What the page is called; text.
        parts: What stands on it; HTML.
        foot: What stands at the foot of each printed sheet beside its number, where a browser
            prints such feet; text.
        style: More rules of style.
    """
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width">'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'
        f"<title>{escape(title)}</title><style>{STYLE}{style}{_feet(foot)}</style></head><body>\n"
        + "\n".join(parts)
        + "\n</body></html>\n"
    )


def made_from(digest: str) -> str:
    """Return the lines that say with which version and from which file a page was made."""
    return (
        f"<p>Rotorcraft vibration handbook {VERSION}. {NOTICE}</p>"
        f"<p>Made from the data sheet with SHA-256 <code>{escape(digest)}</code></p>"
    )


def foot_of(title: str, digest: str) -> str:
    """Return the foot of the sheets of a page: its title and the first digits of the hash."""
    return f"{title}. Data sheet {digest[:12]}, handbook {VERSION}. Analysis, not approval"


def title_block(pairs: Iterable[tuple[str, str]]) -> str:
    """Return labels with what was entered under them; what is empty is left to be written in."""
    cells = [
        f'<th scope="row">{escape(label)}</th><td>{escape(text)}</td>' for label, text in pairs
    ]
    lines = ["".join(cells[first : first + 2]) for first in range(0, len(cells), 2)]
    rows = "".join(f"<tr>{line}</tr>" for line in lines)
    return f'<table class="title-block"><tbody>{rows}</tbody></table>'


def table(caption: str, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return a table; the cells of its rows are HTML, its heads are text."""
    if not rows:
        return ""
    title = f"<caption>{escape(caption)}</caption>" if caption else ""
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in heads)
    top = f"<thead><tr>{head}</tr></thead>" if any(heads) else ""
    body = "".join(f"<tr>{''.join(f'<td>{cell}</td>' for cell in row)}</tr>" for row in rows)
    kind = ' class="dense"' if len(heads) >= DENSE else ""
    return f'<div class="wide"><table{kind}>{title}{top}<tbody>{body}</tbody></table></div>'


def _feet(foot: str) -> str:
    """Return the rule for the foot of each sheet."""
    return (
        f"@page{{margin:14mm 14mm 18mm;@bottom-left{{content:{_quoted(foot)};"
        "font:7.5pt system-ui,sans-serif;width:80%}"
        '@bottom-right{content:counter(page) " / " counter(pages);'
        "font:7.5pt system-ui,sans-serif}}\n"
    )


def _quoted(text: str) -> str:
    """Return text as a string of a style sheet in which no character ends it or the style."""
    plain = "".join(
        letter if letter.isalnum() or letter in " .,:-" else f"\\{ord(letter):x} "
        for letter in text
    )
    return f'"{plain}"'
