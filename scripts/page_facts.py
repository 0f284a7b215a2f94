"""What one built page holds that can be wrong, read from its HTML."""

import re
from collections import Counter
from dataclasses import dataclass, field
from html import unescape

from scripts.pieces import END, TEXT, attributes_of, pieces

LOADS = {
    "audio": {"src"}, "embed": {"src"}, "iframe": {"src"}, "image": {"href", "xlink:href"},
    "img": {"src", "srcset"}, "input": {"src"}, "object": {"data"}, "script": {"src"},
    "source": {"src", "srcset"}, "track": {"src"}, "use": {"href", "xlink:href"},
    "video": {"src", "poster"},
}  # fmt: skip
"""Attributes that make a browser load something, by tag."""

LINKING = {"a", "area", "form"}
"""Tags whose address is a place to go to."""

LINKING_RELATIONS = {"canonical", "prev", "next", "alternate"}
"""Relations of <link> that load nothing."""

REFERRING = {"for", "form", "list", "aria-labelledby", "aria-describedby", "aria-controls"}
"""Attributes that name ids of the same page."""

_CSS_LOAD = re.compile(r"""url\(\s*['"]?([^'")\s]+)|@import\s+['"]([^'"]+)""")
_OF_NOTE = re.compile(
    r"""\b(?:id|for|form|list|data|poster|action|http-equiv|aria-[a-z]+|\w*:?href|src\w*)\s*="""
    r"|data-formula|url\(|@import",
    re.IGNORECASE,
)
"""Attributes that hold something of note; most are those of formulas and hold none."""
_CODE = {"code", "pre", "script", "style", "annotation"}


@dataclass
class Facts:
    """What one page holds: ids, what it loads, where it links, what it says."""

    ids: Counter[str] = field(default_factory=Counter)
    loads: list[str] = field(default_factory=list)
    links: list[str] = field(default_factory=list)
    references: list[str] = field(default_factory=list)
    policies: list[str] = field(default_factory=list)
    prose: str = ""
    code: str = ""
    has_form: bool = False


def facts(page: str) -> Facts:
    """Return the facts of a page."""
    reader = _Reader()
    reader.read(page)
    return reader.facts


def css_loads(text: str) -> list[str]:
    """Return what a style sheet loads."""
    return [address or imported for address, imported in _CSS_LOAD.findall(text)]


class _Reader:
    """Collects the facts of a page."""

    def __init__(self) -> None:
        self.facts = Facts()
        self._inside: list[str] = []

    def read(self, page: str) -> None:
        """Note every tag and text of a page."""
        texts: dict[str, list[str]] = {"prose": [], "code": []}
        for kind, name, rest in pieces(page):
            if kind == TEXT:
                self._text(rest, texts)
            elif kind == END:
                self._leave(name)
            else:
                self._enter(name, rest)
        self.facts.prose = unescape("".join(texts["prose"]))
        self.facts.code = unescape("".join(texts["code"]))

    def _enter(self, tag: str, attributes: str) -> None:
        """Note ids, addresses and references."""
        if tag in _CODE:
            self._inside.append(tag)
        if not _OF_NOTE.search(attributes):
            return
        values = attributes_of(attributes)
        if values.get("http-equiv") == "Content-Security-Policy":
            self.facts.policies.append(values.get("content", ""))
        if (tag == "form" and "data-formula" in values) or values.get("id") == "data-sheet":
            self.facts.has_form = True
        for name, value in values.items():
            self._note(tag, name, value, values)

    def _leave(self, tag: str) -> None:
        """Leave code."""
        if self._inside and self._inside[-1] == tag:
            self._inside.pop()

    def _text(self, text: str, texts: dict[str, list[str]]) -> None:
        """Note prose, code, and what a style element loads."""
        if "style" in self._inside:
            self.facts.loads += css_loads(text)
        elif "code" in self._inside or "pre" in self._inside:
            texts["code"].append(text)
        elif not self._inside:
            texts["prose"].append(text)

    def _note(self, tag: str, name: str, value: str, values: dict[str, str]) -> None:
        if name == "id":
            self.facts.ids[value] += 1
        elif name in LOADS.get(tag, ()):
            parts = value.split(",") if name == "srcset" else [value]
            addresses = [part.split()[0] for part in parts if part.strip()]
            inner = "#" if tag == "use" else None
            self._sort(addresses, inner)
        elif tag == "link" and name == "href":
            linking = values.get("rel") in LINKING_RELATIONS
            (self.facts.links if linking else self.facts.loads).append(value)
        elif tag in LINKING and name in {"href", "xlink:href", "action"}:
            self.facts.links.append(value)
        elif name in REFERRING:
            self.facts.references += value.split()
        elif name != "content":
            self._sort(css_loads(value), "#")

    def _sort(self, addresses: list[str], inner: str | None) -> None:
        """Count an address inside the page as a link to it, any other as a load."""
        for address in addresses:
            is_inner = inner is not None and address.startswith(inner)
            (self.facts.links if is_inner else self.facts.loads).append(address)
