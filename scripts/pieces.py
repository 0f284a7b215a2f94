"""Pieces of a built page: its tags and texts in turn, found faster than by a parser of any HTML.

The pages are made by programs, so that each tag is closed as it should be.
"""

import re
from collections.abc import Iterator
from html import unescape

START, END, TEXT = "start", "end", "text"

_TAG = re.compile(
    r"<!--.*?-->|<![^>]*>|<(?P<end>/?)(?P<name>[A-Za-z][^\s/>]*)"
    r"""(?P<attributes>[^>"']*(?:(?:"[^"]*"|'[^']*')[^>"']*)*)>""",
    re.DOTALL,
)
_ATTRIBUTE = re.compile(r"""([^\s=/>"']+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s>"']+)))?""")
_RAW = {"script", "style"}
_VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source",
         "track", "wbr"}  # fmt: skip


def pieces(page: str) -> Iterator[tuple[str, str, str]]:
    """Yield each tag and text of a page: its kind, the name of the tag, its attributes or the text.

    An element that holds nothing, such as an image, ends where it starts.  Texts are as written.

    Examples:
        >>> [*pieces('<p id="a">x<br>&amp;</p>')][:4]
        [('start', 'p', ' id="a"'), ('text', '', 'x'), ('start', 'br', ''), ('end', 'br', '')]
    """
    place = 0
    while (tag := _TAG.search(page, place)) is not None:
        if place < tag.start():
            yield TEXT, "", page[place : tag.start()]
        place = tag.end()
        name = (tag["name"] or "").lower()
        if tag["end"]:
            yield END, name, ""
        elif name:
            yield START, name, tag["attributes"]
            if name in _VOID or tag["attributes"].endswith("/"):
                yield END, name, ""
            elif name in _RAW:
                end = page.find(f"</{name}", place)
                end = len(page) if end < 0 else end
                yield TEXT, "", page[place:end]
                place = end
    if place < len(page):
        yield TEXT, "", page[place:]


def attributes_of(written: str) -> dict[str, str]:
    """Return the attributes of a tag by name, from how they are written.

    Examples:
        >>> attributes_of(' id="a" hidden title="x &amp; y"')
        {'id': 'a', 'hidden': '', 'title': 'x & y'}
    """
    return {
        match[1].lower(): unescape(match[2] or match[3] or match[4] or "")
        for match in _ATTRIBUTE.finditer(written)
    }
