r"""Words and symbols in a drawing: `flap $\beta$` as SVG text with sub- and superscripts."""

from collections.abc import Iterator
from html import escape
from xml.etree import ElementTree as ET

from calc.symbol import mathml

WORDS = "var(--sans, sans-serif)"
SYMBOLS = "KaTeX_Math, var(--serif, serif)"
SIGNS = "KaTeX_Main, var(--serif, serif)"

_LARGER = 1.2  # the fonts of formulas are small for their size
_SCRIPT = 0.72
_DOWN, _UP = 0.26, -0.42  # shifts of scripts, in sizes of the symbol
_MARKS = {"¯": "\u0304", "^": "\u0302", "~": "\u0303", "˙": "\u0307", "¨": "\u0308"}

Run = tuple[str, str, int]
"""A text, its font, and 0 on the line, -1 in a subscript or 1 in a superscript."""


def lettered(label: str, size: float) -> str:
    r"""Return the inside of an SVG text: words as they are, symbols between `$` set as such."""
    pieces: list[str] = []
    shift = 0.0
    for text, font, level in _runs(label):
        wanted = size * _LARGER * {0: 0.0, -1: _DOWN, 1: _UP}[level]
        moved = f' dy="{wanted - shift:.1f}"' if abs(wanted - shift) > 0.05 else ""
        shift = wanted
        if font == WORDS:
            pieces.append(f"<tspan{moved}>{escape(text)}</tspan>" if moved else escape(text))
            continue
        slant = ' font-style="italic"' if font == SYMBOLS else ""
        height = size * _LARGER * (_SCRIPT if level else 1.0)
        look = f'font-family="{font}"{slant} font-size="{height:.1f}"{moved}'
        pieces.append(f'<tspan class="symbol" {look}>{escape(text)}</tspan>')
    return "".join(pieces)


def symbols(label: str) -> list[str]:
    """Return the symbols of a label, as LaTeX."""
    return label.split("$")[1::2]


def _runs(label: str) -> Iterator[Run]:
    """Yield the runs of a label that are set alike."""
    for number, piece in enumerate(label.split("$")):
        if number % 2:
            symbol = ET.fromstring(f"<math>{mathml(piece)}</math>")  # noqa: S314 - made here
            yield from _merged(_symbol(symbol, 0))
        elif piece:
            yield piece, WORDS, 0


def _symbol(element: ET.Element, level: int) -> Iterator[Run]:
    """Yield the runs of a symbol in MathML."""
    inner = list(element)
    match element.tag:
        case "mi" if _is_italic(element):
            yield element.text or "", SYMBOLS, level
        case "mi" | "mn" | "mtext":
            yield element.text or "", SIGNS, level
        case "mo":
            yield _spaced(element.text or "", level), SIGNS, level
        case "msub" | "msup" | "msubsup":
            yield from _symbol(inner[0], level)
            if element.tag != "msup":
                yield from _symbol(inner[1], -1)
            if element.tag != "msub":
                yield from _symbol(inner[-1], 1)
        case "mover":
            *before, (text, font, at) = _symbol(inner[0], level)
            yield from before
            yield text + _MARKS[inner[1].text or ""], font, at
        case "math" | "mrow":
            for part in inner:
                yield from _symbol(part, level)
        case _:
            raise ValueError(f"{element.tag} has no place in the label of a drawing")


def _is_italic(letter: ET.Element) -> bool:
    """Return whether a letter is set in italics: a single one, but no Greek capital."""
    text = letter.text or ""
    return len(text) == 1 and not letter.get("mathvariant") and not (text.isupper() and text > "Z")


def _spaced(sign: str, level: int) -> str:
    """Return an operator with room about it, where it stands on the line."""
    between = {"+", "=", "\N{MINUS SIGN}"}
    return f"\N{THIN SPACE}{sign}\N{THIN SPACE}" if sign in between and not level else sign


def _merged(runs: Iterator[Run]) -> Iterator[Run]:
    """Yield the runs with neighbours of one font and level taken together."""
    last: Run | None = None
    for text, font, level in runs:
        if last and last[1:] == (font, level):
            last = last[0] + text, font, level
            continue
        if last:
            yield last
        last = text, font, level
    if last:
        yield last
