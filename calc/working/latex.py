"""A pen that writes LaTeX, for reports."""

import re
from typing import ClassVar

from calc.working.pens import (
    ATOM,
    FUNCTION,
    POWER,
    Piece,
    Text,
    hold_of,
    hold_of_symbol,
    parted,
    spelled,
)


class LaTeX(Text):
    """LaTeX, aligned at the first sign of equality."""

    signs: ClassVar[dict[str, str]] = Text.signs | {
        "-": " - ",
        "*": r" \cdot ",
        "x": r" \times ",
        "//": r" \operatorname{div} ",
        "%": r" \bmod ",
        "<=": r" \le ",
        ">=": r" \ge ",
        "!=": r" \ne ",
    }
    minus = "-"
    pi = Piece(r"\pi")

    def number(self, numeral: str, unit: str = "") -> Piece:
        """Return a numeral with its unit."""
        mantissa, exponent = parted(numeral)
        text = rf"{mantissa} \times 10^{{{exponent}}}" if exponent else mantissa
        if unit:
            upright = re.sub("[²³]", lambda found: f"^{{{'²³'.index(found[0]) + 2}}}", unit)
            upright = upright.replace("·", r"\,").replace("%", r"\%").replace("°", r"^\circ ")
            text += rf"\,\mathrm{{{upright}}}"
        return Piece(text, hold_of(numeral, unit))

    def symbol(self, latex: str) -> Piece:
        """Return a declared symbol."""
        return Piece(latex, hold_of_symbol(latex))

    def words(self, text: str) -> Piece:
        """Return words that stand for a number."""
        return Piece(rf"\text{{{text}}}", FUNCTION if " " in text else ATOM)

    def quotient(self, left: Piece, right: Piece) -> Piece:
        """Return a fraction."""
        return Piece(rf"\frac{{{left.text}}}{{{right.text}}}", FUNCTION)

    def power(self, base: Piece, exponent: Piece) -> Piece:
        """Return a power."""
        return Piece(f"{{{self.held(base, ATOM)}}}^{{{exponent.text}}}", POWER)

    def root(self, piece: Piece) -> Piece:
        """Return a square root."""
        return Piece(rf"\sqrt{{{piece.text}}}")

    def magnitude(self, piece: Piece) -> Piece:
        """Return an absolute value."""
        return Piece(rf"\left|{piece.text}\right|")

    def function(self, name: str, arguments: list[Piece]) -> Piece:
        """Return a function of some arguments."""
        command = r"\text" if " " in name else r"\operatorname"
        return Piece(
            f"{command}{{{spelled(name)}}}{self.bracketed(self.listed(arguments))}", FUNCTION
        )

    def bracketed(self, text: str) -> str:
        """Return text in brackets."""
        return rf"\left({text}\right)"

    def line(self, parts: list[Piece]) -> str:
        """Return parts that are equal, as one line of an `align` environment."""
        return super().line(parts).replace(" = ", " &= ", 1)
