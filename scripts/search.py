"""What the search loads: the pages with their names, forms and sections, and the synonyms.

The theme's own search loads its index and a worker at every visit; here both are made into one
script that is loaded when the search is first used, from a server and from disk alike.
"""

import json
import re
import shutil
from html import unescape
from pathlib import Path
from typing import Any

from calc.catalogue import FORMULAS
from calc.synonyms import SYNONYMS

TEXT_OF_A_SECTION = 900
"""So many characters of a section are searched: its beginning says what it is about."""


def write_pages(site: Path, nav: list[Any] | None) -> None:
    """Write the script of the search from the index that MkDocs made, and remove that index."""
    index = json.loads((site / "search" / "search_index.json").read_text("utf-8"))
    found = {"pages": _pages(index["docs"], chapters(nav)), "synonyms": SYNONYMS}
    text = json.dumps(found, ensure_ascii=False, separators=(",", ":"))
    script = site / "assets" / "search" / "pages.js"
    script.write_text(f"window.handbookPages = {text};\n", encoding="utf-8", newline="\n")
    shutil.rmtree(site / "search")


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


def _pages(sections: list[dict[str, Any]], chapter_of: dict[str, str]) -> list[dict[str, Any]]:
    pages: dict[str, dict[str, Any]] = {}
    for section in sections:
        address, _, anchor = section["location"].partition("#")
        title, text = _plain(section["title"]), _plain(section["text"])
        if address not in pages:
            source = address.replace(".html", ".md")
            pages[address] = {
                "address": address,
                "title": title,
                "chapter": chapter_of.get(source, ""),
                "names": section.get("tags", []),
                "forms": _forms(source),
                "sections": [],
            }
        part = {"anchor": anchor, "title": title, "text": text[:TEXT_OF_A_SECTION]}
        pages[address]["sections"].append(part)
    return list(pages.values())


def _forms(page: str) -> list[str]:
    """Return the titles of the forms of a page."""
    module = page.removesuffix(".md").replace("/", ".")
    return [entry.title for name, entry in FORMULAS.items() if name.rpartition(".")[0] == module]


def _plain(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())
