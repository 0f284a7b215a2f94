"""Fonts of formulas and drawings, cut down to the characters that the site uses.

A first visit loads two to five of them; whole, they are the heaviest part of a page.
"""

import html
import logging
import re
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

_VISIBLE = re.compile(r'<katex-html\b.*?</katex-html>|<tspan class="symbol".*?</tspan>', re.DOTALL)
_TAG = re.compile(r"<[^>]*>")


def subset_fonts(site: Path) -> None:
    """Cut the fonts in `assets/katex/fonts` of a built site down to its formulas and drawings."""
    logging.getLogger("fontTools").setLevel(logging.ERROR)  # it remarks on the fonts' dates
    text = "".join(_formula_text(path.read_text("utf-8")) for path in site.rglob("*.html"))
    for path in sorted((site / "assets" / "katex" / "fonts").glob("*.woff")):
        _subset(path, text)


def _formula_text(page: str) -> str:
    return html.unescape(_TAG.sub("", "".join(_VISIBLE.findall(page))))


def _subset(path: Path, text: str) -> None:
    font = TTFont(path, recalcTimestamp=False)
    subsetter = Subsetter(Options(layout_features=[], hinting=False))
    subsetter.populate(text=text)
    subsetter.subset(font)
    font.save(path)
