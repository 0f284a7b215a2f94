r"""A symbol in restricted LaTeX, such as `\beta_{1c}` or `C_T/\sigma`, as text and as MathML."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from html import escape
from html.entities import html5

_GREEK = (
    "alpha beta gamma delta zeta eta theta vartheta iota kappa lambda mu nu xi pi rho sigma tau "
    "upsilon chi psi omega Gamma Delta Theta Lambda Xi Pi Sigma Upsilon Phi Psi Omega"
)
_LETTERS = {name: html5[f"{name};"] for name in _GREEK.split()} | {
    "epsilon": html5["varepsilon;"],
    "varepsilon": html5["epsilon;"],
    "phi": html5["varphi;"],
    "varphi": html5["phi;"],
    "ell": html5["ell;"],
    "partial": html5["part;"],
    "infty": html5["infin;"],
}
"""Letters by their LaTeX command; HTML names two pairs of them the other way round."""

_PRIME = "\N{PRIME}"
_SIGNS = {
    "cdot": "\N{MIDDLE DOT}",
    "times": "\N{MULTIPLICATION SIGN}",
    "circ": "\N{RING OPERATOR}",
    "prime": _PRIME,
    "%": "%",
    ",": "\N{THIN SPACE}",
}
_ACCENTS = {
    "bar": ("\u0304", "¯"),
    "hat": ("\u0302", "^"),
    "tilde": ("\u0303", "~"),
    "dot": ("\u0307", "˙"),
    "ddot": ("\u0308", "¨"),
}
_UPRIGHT = {"mathrm", "text", "operatorname"}
_RAISED = str.maketrans("0123456789+\N{MINUS SIGN}", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻")
_TOKEN = re.compile(r"\\[A-Za-z]+|\\[%,]|\d+(?:\.\d+)?|[A-Za-z]|[-{}_^/,.()+=*|']")


@dataclass(frozen=True, slots=True)
class _Part:
    """A letter, number, sign, upright word or group, with what is set about it."""

    kind: str
    text: str = ""
    inner: tuple["_Part", ...] = ()
    below: tuple["_Part", ...] = ()
    above: tuple["_Part", ...] = ()


@lru_cache(maxsize=1024)
def text(symbol: str) -> str:
    r"""Return a symbol as plain text for a copy.

    Examples:
        >>> text(r"\Omega"), text("M_{1,90}"), text(r"\bar{M}_x"), text("V^2")
        ('Ω', 'M_1,90', 'M̄_x', 'V²')
    """
    return "".join(map(_text, _parsed(symbol)))


@lru_cache(maxsize=1024)
def mathml(symbol: str) -> str:
    r"""Return a symbol as a piece of presentation MathML.

    Examples:
        >>> mathml("V_t"), mathml(r"\Omega")
        ('<msub><mi>V</mi><mi>t</mi></msub>', '<mi>Ω</mi>')
    """
    return _row(_parsed(symbol))


def _parsed(symbol: str) -> tuple[_Part, ...]:
    pieces = _split(symbol)
    parts = tuple(_parts(pieces, symbol, ""))
    if not parts:
        raise ValueError("A symbol must not be empty")
    return parts


def _split(symbol: str) -> Iterator[str]:
    place = 0
    while place < len(symbol):
        if symbol[place] == " ":
            place += 1
            continue
        match = _TOKEN.match(symbol, place)
        if not match:
            raise ValueError(f"The symbol {symbol} holds {symbol[place]!r}, which is not covered")
        upright = re.compile(r"\s*\{([^{}]*)\}").match(symbol, match.end())
        if match[0][1:] in _UPRIGHT and upright:
            yield f'"{upright[1]}'
            place = upright.end()
        else:
            yield match[0]
            place = match.end()


def _parts(pieces: Iterator[str], symbol: str, end: str) -> Iterator[_Part]:
    """Yield parts up to a closing brace or the end; subscripts join the part before them."""
    last: _Part | None = None
    for piece in pieces:
        if piece == end:
            break
        if piece in {"_", "^", "'"}:
            if last is None:
                raise ValueError(f"In the symbol {symbol} nothing stands before {piece}")
            last = _scripted(last, piece, pieces, symbol)
            continue
        if last:
            yield last
        last = _part(piece, pieces, symbol)
    else:
        if end:
            raise ValueError(f"The symbol {symbol} lacks a closing brace")
    if last:
        yield last


def _scripted(part: _Part, sign: str, pieces: Iterator[str], symbol: str) -> _Part:
    """Return a part with a prime, or with the script that follows the sign."""
    if sign == "'":
        return replace(part, above=(*part.above, _Part("mo", _PRIME)))
    if part.below if sign == "_" else part.above:
        raise ValueError(f"The symbol {symbol} has two scripts in one place")
    script = (_argument(pieces, symbol),)
    return replace(part, below=script) if sign == "_" else replace(part, above=script)


def _argument(pieces: Iterator[str], symbol: str) -> _Part:
    """Return the one letter, command or group that a script or an accent applies to."""
    piece = next(pieces, "")
    if not piece:
        raise ValueError(f"The symbol {symbol} ends too early")
    return _part(piece, pieces, symbol)


def _part(piece: str, pieces: Iterator[str], symbol: str) -> _Part:
    command = piece[1:] if piece.startswith("\\") else ""
    if piece == "{":
        return _Part("mrow", inner=tuple(_parts(pieces, symbol, "}")))
    if piece.startswith('"'):
        return _Part("upright", piece[1:])
    if command in _ACCENTS:
        return _Part("mover", command, (_argument(pieces, symbol),))
    if command == "frac":
        return _Part("mfrac", inner=(_argument(pieces, symbol), _argument(pieces, symbol)))
    if command in _LETTERS or command in _SIGNS:
        return _Part("mi" if command in _LETTERS else "mo", (_LETTERS | _SIGNS)[command])
    if command or piece in {"}", "_", "^", "'"}:
        raise ValueError(f"The symbol {symbol} holds {piece}, which is not covered")
    kind = "mi" if piece.isalpha() else "mn" if piece[0].isdigit() else "mo"
    return _Part(kind, "\N{MINUS SIGN}" if piece == "-" else piece)


def _text(part: _Part) -> str:
    between = "/" if part.kind == "mfrac" else ""
    shown = between.join(map(_text, part.inner)) or part.text
    if part.kind == "mover":
        shown += _ACCENTS[part.text][0]
    if part.below:
        shown += "_" + "".join(map(_text, part.below))
    above = "".join(map(_text, part.above))
    if above.strip(_PRIME) == "":
        return shown + above
    raised = above.translate(_RAISED)
    return shown + (raised if re.fullmatch("[0-9+\N{MINUS SIGN}]*", above) else f"^{above}")


def _mathml(part: _Part) -> str:
    if part.kind == "upright":
        single = ' mathvariant="normal"' if len(part.text) == 1 else ""
        tag = "mtext" if " " in part.text else "mi"
        shown = f"<{tag}{single}>{escape(part.text)}</{tag}>"
    elif part.kind == "mover":
        shown = f'<mover accent="true">{_row(part.inner)}<mo>{_ACCENTS[part.text][1]}</mo></mover>'
    elif part.kind == "mfrac":
        shown = f"<mfrac>{''.join(map(_mathml, part.inner))}</mfrac>"
    elif part.kind == "mrow":
        shown = _row(part.inner)
    else:
        shown = f"<{part.kind}>{escape(part.text)}</{part.kind}>"
    below, above = _row(part.below), _row(part.above)
    tag = f"m{'sub' if below else ''}{'sup' if above else ''}"
    return f"<{tag}>{shown}{below}{above}</{tag}>" if below or above else shown


def _row(parts: tuple[_Part, ...]) -> str:
    """Return parts as one element, or nothing for none."""
    shown = "".join(map(_mathml, parts))
    return shown if len(parts) < 2 else f"<mrow>{shown}</mrow>"
