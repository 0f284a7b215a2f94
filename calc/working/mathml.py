"""A pen that writes presentation MathML, for pages."""

import re
from functools import lru_cache
from html import escape
from typing import ClassVar

from calc import symbol
from calc.working.pens import (
    ATOM,
    FUNCTION,
    MINUS,
    NEGATIVE,
    POWER,
    Piece,
    Text,
    hold_of,
    hold_of_symbol,
    parted,
    spelled,
)

_LONGEST = 72
"""Characters on one line."""


class MathML(Text):
    """Presentation MathML, for pages."""

    signs: ClassVar[dict[str, str]] = {
        sign: f"<mo>{escape(text.strip())}</mo>" for sign, text in Text.signs.items()
    }
    minus = f"<mo>{MINUS}</mo>"
    pi = Piece("<mi>π</mi>")

    def number(self, numeral: str, unit: str = "") -> Piece:
        """Return a numeral with its unit."""
        return _number(numeral, unit)

    def symbol(self, latex: str) -> Piece:
        """Return a declared symbol."""
        return Piece(symbol.mathml(latex), hold_of_symbol(latex))

    def words(self, text: str) -> Piece:
        """Return words that stand for a number."""
        return Piece(f"<mtext>{escape(text)}</mtext>", FUNCTION if " " in text else ATOM)

    def quotient(self, left: Piece, right: Piece) -> Piece:
        """Return a fraction."""
        fraction = f"<mfrac>{_row(left.text)}{_row(right.text)}</mfrac>"
        return Piece(fraction, FUNCTION)

    def negative(self, piece: Piece) -> Piece:
        """Return a piece with a minus before it."""
        return Piece(_row(super().negative(piece).text), NEGATIVE)

    def power(self, base: Piece, exponent: Piece) -> Piece:
        """Return a power."""
        return Piece(f"<msup>{_row(self.held(base, ATOM))}{_row(exponent.text)}</msup>", POWER)

    def root(self, piece: Piece) -> Piece:
        """Return a square root."""
        return Piece(f"<msqrt>{piece.text}</msqrt>")

    def magnitude(self, piece: Piece) -> Piece:
        """Return an absolute value."""
        return Piece(f"<mrow><mo>|</mo>{piece.text}<mo>|</mo></mrow>")

    def function(self, name: str, arguments: list[Piece]) -> Piece:
        """Return a function of some arguments."""
        tag = "mtext" if " " in name else "mi"
        written = f"<{tag}>{escape(spelled(name))}</{tag}><mo>\u2061</mo>"
        return Piece(written + self.bracketed(self.listed(arguments)), FUNCTION)

    def bracketed(self, text: str) -> str:
        """Return text in brackets."""
        return f"<mrow><mo>(</mo>{text}<mo>)</mo></mrow>"

    def line(self, parts: list[Piece]) -> str:
        """Return parts that are equal as a displayed equation; a long one has a row for each."""
        line = super().line(parts)
        if len(re.sub("<[^>]*>", "", line)) > _LONGEST:
            first, *others = (part.text for part in parts)
            cells = [(first if i == 0 else "", other) for i, other in enumerate(others)]
            line = "".join(
                f"<mtr><mtd>{left}</mtd><mtd>{self.signs['=']}{right}</mtd></mtr>"
                for left, right in cells
            )
            line = f'<mtable columnalign="right left" displaystyle="true">{line}</mtable>'
        return f'<math display="block">{line}</math>'


@lru_cache(maxsize=4096)
def _number(numeral: str, unit: str) -> Piece:
    mantissa, exponent = parted(numeral)
    text = _signed(mantissa)
    if exponent:
        times = MathML.signs["x"]
        text += f"{times}<msup><mn>10</mn><mrow>{_signed(exponent)}</mrow></msup>"
    if unit:
        text += f'<mspace width="0.2em"/><mtext>{escape(unit)}</mtext>'
    return Piece(text, hold_of(numeral, unit))


def _signed(digits: str) -> str:
    number = f"<mn>{digits.removeprefix('-')}</mn>"
    return _row(f"<mo>{MINUS}</mo>{number}") if digits.startswith("-") else number


def _row(text: str) -> str:
    return f"<mrow>{text}</mrow>"
