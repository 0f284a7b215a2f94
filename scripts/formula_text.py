"""Formula text: a formula of a page on one line of plain text, as a search result shows it."""

import re
from collections.abc import Callable, Iterator, Sequence
from html import unescape

from scripts.pieces import START, TEXT

PRIME = "\N{PRIME}"
_ACCENTS = {
    "^": "\u0302",
    "‾": "\u0304",
    "ˉ": "\u0304",
    "˙": "\u0307",
    "¨": "\u0308",
    "~": "\u0303",
}
"""What combines with the letter before it, by the sign that stands above one."""


def formula_text(inside: Iterator[tuple[str, str, str]]) -> str:
    """Return a formula as text, from the pieces after its `<math>` up to `</math>`.

    Powers and indices stay what they are, and a fraction keeps its bar.

    Examples:
        >>> from scripts.pieces import pieces
        >>> page = "<math><mfrac><msup><mi>x</mi><mn>2</mn></msup><mn>2</mn></mfrac></math>"
        >>> found = pieces(page)
        >>> next(found) and formula_text(found)
        'x^2/2'
    """
    open_elements: list[list[str]] = [[]]
    for kind, name, rest in inside:
        if kind == TEXT:
            open_elements[-1].append(rest)
        elif kind == START:
            open_elements.append([])
        else:
            written = _WRITTEN.get(name, "".join)(open_elements.pop())
            if not open_elements:
                return written
            open_elements[-1].append(written)
    return ""


def _power(parts: Sequence[str]) -> str:
    base, above = parts
    return f"{base}{above}" if set(above) == {PRIME} else f"{base}^{_together(above)}"


def _index(parts: Sequence[str]) -> str:
    base, below = parts
    return f"{base}_{below if unescape(below).isalnum() else _together(below)}"


def _both(parts: Sequence[str]) -> str:
    base, below, above = parts
    return _power((_index((base, below)), above))


def _over(parts: Sequence[str]) -> str:
    base, above = parts
    return f"{base}{_ACCENTS[above]}" if above in _ACCENTS else _power(parts)


def _fraction(parts: Sequence[str]) -> str:
    above, below = parts
    above = above if re.fullmatch(r"[^-+−±=,]*", above) else _together(above)
    return f"{above}/{_together(below)}"


def _root(parts: Sequence[str]) -> str:
    return f"√{_together(''.join(parts))}"


def _root_of(parts: Sequence[str]) -> str:
    base, degree = parts
    return f"{_together(base)}^(1/{degree})"


def _cell(parts: Sequence[str]) -> str:
    return f"{''.join(parts)} "


def _together(text: str) -> str:
    """Return what binds more than its neighbours, in brackets unless it is one sign or number."""
    is_one = len(unescape(text)) == 1 or re.fullmatch(r"[\d.]+", text)
    return text if is_one or not text else f"({text})"


_WRITTEN: dict[str, Callable[[list[str]], str]] = {
    "msup": _power,
    "msub": _index,
    "munder": _index,
    "mover": _over,
    "msubsup": _both,
    "munderover": _both,
    "mfrac": _fraction,
    "msqrt": _root,
    "mroot": _root_of,
    "mtd": _cell,
}
