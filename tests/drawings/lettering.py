"""Where the lettering of a drawing is: boxes from the widths of the letters in their fonts."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from xml.etree import ElementTree as ET

import matplotlib as mpl
from fontTools.ttLib import TTFont

from scripts.environment import ROOT

SVG = "{http://www.w3.org/2000/svg}"
WIDE = Path(mpl.get_data_path()) / "fonts" / "ttf"
KATEX = ROOT / "docs" / "assets" / "katex" / "fonts"
FONTS = {
    "words": WIDE / "DejaVuSans.ttf",  # the widest of the faces that a reader may have
    "bold": WIDE / "DejaVuSans-Bold.ttf",
    "KaTeX_Math": KATEX / "KaTeX_Math-Italic.woff",
    "KaTeX_Main": KATEX / "KaTeX_Main-Regular.woff",
}
SPACE = 0.3  # of a size, for characters that a font lacks: thin spaces and accents


@dataclass(frozen=True, slots=True)
class Box:
    """The place of a line of text on its sheet."""

    text: str
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "Box") -> bool:
        """Whether the two lines cover one another."""
        across = min(self.right, other.right) - max(self.left, other.left)
        down = min(self.bottom, other.bottom) - max(self.top, other.top)
        return across > 0.0 and down > 0.0


def boxes(drawing: ET.Element) -> Iterator[Box]:
    """Yield the boxes of all lines of text of a drawing."""
    size = float(drawing.attrib["font-size"])
    for text in drawing.iter(f"{SVG}text"):
        face = "bold" if "font-weight" in text.attrib else "words"
        wide = _width(text.text or "", face, size)
        for part in text:
            family = part.get("font-family", "").partition(",")[0] or face
            wide += _width(part.text or "", family, float(part.get("font-size", size)))
            wide += _width(part.tail or "", face, size)
        x, y = float(text.attrib["x"]), float(text.attrib["y"])
        left = x - {"start": 0.0, "middle": wide / 2.0, "end": wide}[text.attrib["text-anchor"]]
        yield Box("".join(text.itertext()), left, y - 0.8 * size, left + wide, y + 0.22 * size)


@cache
def _font(face: str) -> tuple[dict[int, str], dict[str, tuple[int, int]], int]:
    font = TTFont(FONTS[face])
    return font.getBestCmap(), font["hmtx"].metrics, font["head"].unitsPerEm


def _width(text: str, face: str, size: float) -> float:
    names, widths, whole = _font(face)
    parts = (names.get(ord(letter)) for letter in text)
    return size * sum(widths[name][0] / whole if name else SPACE for name in parts)
