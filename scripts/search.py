"""What the search loads: the pages with their names, forms and sections, and the synonyms.

The theme's own search loads its index and a worker at every visit, and takes as long to build as
a third of all else; here one script is made, which is loaded when the search is first used, from a
server and from disk alike.
"""

import json
import re
import shutil
from collections.abc import Iterable, Iterator
from html import unescape
from pathlib import Path
from typing import Any, NamedTuple

from calc.catalogue import FORMULAS
from calc.synonyms import SYNONYMS
from scripts.formula_text import formula_text
from scripts.pieces import END, START, TEXT, attributes_of, pieces

TEXT_OF_A_SECTION = 900
"""So many characters of a section are searched: its beginning says what it is about."""

_LEFT_OUT = re.compile(r'data-search-exclude|class="headerlink"')
_SILENT = {"script", "style", "object"}
_HEADINGS = {"h1", "h2", "h3", "h4", "h5", "h6"}
_APART = {"br", "p", "code", "pre", "li", "ol", "ul", "sub", "sup"}
"""Elements whose text stands apart from that before and after."""


class Section(NamedTuple):
    """A part of a page under a heading, in plain text; the first has no anchor of its own."""

    anchor: str
    title: str
    text: str


class Found(NamedTuple):
    """What the search shall know of one page."""

    address: str
    source: str
    names: list[str]
    sections: list[Section]


def sections(page: str, title: str) -> list[Section]:
    """Return the sections of the HTML of a page, but for what is marked to be left out.

    Args:
        page: The HTML of the page's content.
        title: The title of a page that does not begin with a heading.

    Examples:
        >>> sections('<h1 id="a">One</h1><p>x</p><h2 id="b">Two</h2><pre>y</pre>', "")
        [Section(anchor='', title='One', text='x'), Section(anchor='b', title='Two', text='y')]
    """
    found: list[tuple[str, list[str], list[str]]] = []
    texts: list[str] = []
    searched = _searched(page)
    for kind, name, rest in searched:
        if kind == START and name == "math":
            texts.append(formula_text(searched))
        elif kind == TEXT:
            texts.append(rest)
        elif kind == START and name in _HEADINGS and (anchor := attributes_of(rest).get("id")):
            if not found and "".join(texts).strip():
                found.append(("", [title], texts))
            texts = []
            found.append((anchor if found else "", texts, []))
        elif kind == END and name in _HEADINGS and found:
            texts = found[-1][2]
        elif name in _APART:
            texts.append(" ")
    found = found or [("", [title], texts)]
    return [Section(anchor, *map(_plain, map("".join, parts))) for anchor, *parts in found]


def _searched(page: str) -> Iterator[tuple[str, str, str]]:
    """Yield the pieces of a page but for those of elements that are left out."""
    depth, outer = 0, ""
    for kind, name, rest in pieces(page):
        if depth:
            depth += (kind == START) - (kind == END) if name == outer else 0
        elif kind == START and (name in _SILENT or _LEFT_OUT.search(rest)):
            depth, outer = 1, name
        else:
            yield kind, name, rest


def write_pages(site: Path, nav: list[Any] | None, found: Iterable[Found]) -> None:
    """Write the script of the search, and remove the index of the theme, which is empty."""
    known = {"pages": _pages(found, chapters(nav)), "synonyms": SYNONYMS}
    text = json.dumps(known, ensure_ascii=False, separators=(",", ":"))
    script = site / "assets" / "search" / "pages.js"
    script.parent.mkdir(parents=True, exist_ok=True)
    shutil.rmtree(site / "search", ignore_errors=True)
    script.write_text(f"window.handbookPages = {text};\n", encoding="utf-8", newline="\n")


def chapters(nav: list[Any] | None, chapter: str = "") -> dict[str, str]:
    """Return the chapter of each page, by the page's source file."""
    found: dict[str, str] = {}
    for item in nav or []:
        for title, target in item.items() if isinstance(item, dict) else [("", item)]:
            if isinstance(target, list):
                found |= chapters(target, chapter or title)
            else:
                found[target] = chapter
    return found


def _pages(found: Iterable[Found], chapter_of: dict[str, str]) -> list[dict[str, Any]]:
    return [
        {
            "address": page.address,
            "title": page.sections[0].title,
            "chapter": chapter_of.get(page.source, ""),
            "names": page.names,
            "forms": _forms(page.source),
            "sections": [
                {"anchor": anchor, "title": title, "text": text[:TEXT_OF_A_SECTION]}
                for anchor, title, text in page.sections
            ],
        }
        for page in found
    ]


def _forms(page: str) -> list[str]:
    """Return the titles of the forms of a page."""
    module = page.removesuffix(".md").replace("/", ".")
    return [entry.title for name, entry in FORMULAS.items() if name.rpartition(".")[0] == module]


def _plain(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())
