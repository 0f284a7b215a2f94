"""Fonts of formulas and drawings, cut down to the characters that the site uses.

A first visit loads two to five of them; whole, they are the heaviest part of a page.
"""

import html
import logging
import re
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

ITALIC = "KaTeX_Math-Italic"
"""The font of the letters that stand for quantities; no other character is in it."""

_VISIBLE = re.compile(r"<katex-html\b.*?</katex-html>", re.DOTALL)
_SYMBOL = re.compile(r'<tspan class="symbol" font-family="(KaTeX_\w+)[^>]*>([^<]*)</tspan>')
_ITALIC = re.compile(r'<span class="[^"]*\bmathnormal\b[^"]*"[^>]*>([^<]*)</span>')
_TAG = re.compile(r"<[^>]*>")


def subset_fonts(site: Path) -> None:
    """Cut the fonts in `assets/katex/fonts` of a built site down to its formulas and drawings."""
    logging.getLogger("fontTools").setLevel(logging.ERROR)  # it remarks on the fonts' dates
    pages = [path.read_text("utf-8") for path in site.rglob("*.html")]
    shown = "".join(part for page in pages for part in _VISIBLE.findall(page))
    drawn = [symbol for page in pages for symbol in _SYMBOL.findall(page)]
    italic = _text("".join([*_ITALIC.findall(shown), *_in(drawn, "KaTeX_Math")]))
    others = _text("".join([_ITALIC.sub("", shown), *_in(drawn, "KaTeX_Main")]))
    for path in sorted((site / "assets" / "katex" / "fonts").glob("*.woff")):
        _subset(path, italic if path.stem == ITALIC else others)


def _in(drawn: list[tuple[str, str]], family: str) -> list[str]:
    return [text for font, text in drawn if font == family]


def _text(markup: str) -> str:
    return html.unescape(_TAG.sub("", markup))


def _subset(path: Path, text: str) -> None:
    font = TTFont(path, recalcTimestamp=False)
    subsetter = Subsetter(Options(layout_features=[], hinting=False))
    subsetter.populate(text=text)
    subsetter.subset(font)
    font.save(path)
