"""Pens that write one expression: plain text, and Python that can be run."""

import re
from functools import lru_cache
from typing import ClassVar, NamedTuple

from calc import symbol

SUM, NEGATIVE, PRODUCT, QUANTITY, FUNCTION, POWER, ATOM = range(1, 8)
"""How tightly a piece holds together; one that holds less than its place asks for is bracketed."""

MINUS = "\N{MINUS SIGN}"
TIMES = "\N{MULTIPLICATION SIGN}"
_FUNCTIONS = {"acos": "arccos", "asin": "arcsin", "atan": "arctan", "log": "ln"}
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
_LOWERED = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹" + MINUS, "-0123456789-")


class Piece(NamedTuple):
    """A written part of an expression."""

    text: str
    holds: int = ATOM


class Text:
    """Plain text, for copies; the other pens write the same things in their own signs."""

    signs: ClassVar[dict[str, str]] = {
        "+": " + ",
        "-": f" {MINUS} ",
        "*": " · ",
        "x": f" {TIMES} ",
        "/": " / ",
        "//": " div ",
        "%": " mod ",
        "=": " = ",
        "<": " < ",
        ">": " > ",
        "<=": " ≤ ",
        ">=": " ≥ ",
        "!=": " ≠ ",
        ",": ", ",
    }
    minus = MINUS
    pi = Piece("π")

    def number(self, numeral: str, unit: str = "") -> Piece:
        """Return a numeral such as `-1.2e-05` with its unit."""
        mantissa, exponent = parted(numeral)
        text = mantissa.replace("-", MINUS)
        if exponent:
            text += f"{TIMES}10{exponent.translate(_RAISED)}"
        return Piece(f"{text} {unit}".rstrip(), hold_of(numeral, unit))

    def symbol(self, latex: str) -> Piece:
        """Return a declared symbol."""
        return Piece(symbol.text(latex), hold_of_symbol(latex))

    def words(self, text: str) -> Piece:
        """Return words that stand for a number."""
        return Piece(text, FUNCTION if " " in text else ATOM)

    def infix(self, left: Piece, sign: str, right: Piece) -> Piece:
        """Return a sum, difference, product, quotient or comparison of two pieces."""
        if sign in {"+", "-"}:
            text = self.held(left, SUM) + self.signs[sign] + self.held(right, PRODUCT)
            return Piece(text, SUM)
        right_holds = QUANTITY if sign in {"*", "x"} else FUNCTION
        text = self.held(left, NEGATIVE) + self.signs[sign] + self.held(right, right_holds)
        return Piece(text, NEGATIVE if left.holds == NEGATIVE else PRODUCT)

    def compared(self, left: Piece, sign: str, right: Piece) -> Piece:
        """Return two pieces with a sign of comparison between them."""
        return Piece(f"{left.text}{self.signs[sign]}{right.text}", 0)

    def quotient(self, left: Piece, right: Piece) -> Piece:
        """Return a fraction."""
        return self.infix(left, "/", right)

    def negative(self, piece: Piece) -> Piece:
        """Return a piece with a minus before it."""
        return Piece(self.minus + self.held(piece, PRODUCT), NEGATIVE)

    def power(self, base: Piece, exponent: Piece) -> Piece:
        """Return a power; a whole exponent is raised."""
        if re.fullmatch(r"\d+", exponent.text):
            raised = exponent.text.translate(_RAISED)
        else:
            raised = f"^{self.held(exponent, ATOM)}"
        return Piece(self.held(base, ATOM) + raised, POWER)

    def root(self, piece: Piece) -> Piece:
        """Return a square root."""
        return Piece(f"√{self.held(piece, ATOM)}", FUNCTION)

    def magnitude(self, piece: Piece) -> Piece:
        """Return an absolute value."""
        return Piece(f"|{piece.text}|")

    def function(self, name: str, arguments: list[Piece]) -> Piece:
        """Return a function of some arguments."""
        return Piece(f"{spelled(name)}({self.listed(arguments)})", FUNCTION)

    def listed(self, pieces: list[Piece]) -> str:
        """Return pieces with commas between them."""
        return self.signs[","].join(piece.text for piece in pieces)

    def held(self, piece: Piece, holds: int) -> str:
        """Return a piece, in brackets if it holds together less than its place asks for."""
        return piece.text if piece.holds >= holds else self.bracketed(piece.text)

    def bracketed(self, text: str) -> str:
        """Return text in brackets."""
        return f"({text})"

    def line(self, parts: list[Piece]) -> str:
        """Return parts that are equal, as one line."""
        return self.signs["="].join(part.text for part in parts)


class Python(Text):
    """Python that can be run: numbers in SI units, without the units."""

    signs: ClassVar[dict[str, str]] = Text.signs | {
        "-": " - ",
        "*": " * ",
        "x": " * ",
        "//": " // ",
        "%": " % ",
        "=": " == ",
        "<=": " <= ",
        ">=": " >= ",
        "!=": " != ",
    }
    minus = "-"
    pi = Piece("math.pi")

    def number(self, numeral: str, unit: str = "") -> Piece:  # noqa: ARG002  SI throughout
        """Return a numeral."""
        return Piece(numeral, NEGATIVE if numeral.startswith("-") else ATOM)

    def power(self, base: Piece, exponent: Piece) -> Piece:
        """Return a power."""
        return Piece(f"{self.held(base, ATOM)}**{self.held(exponent, ATOM)}", POWER)

    def root(self, piece: Piece) -> Piece:
        """Return a square root."""
        return Piece(f"math.sqrt({piece.text})")

    def magnitude(self, piece: Piece) -> Piece:
        """Return an absolute value."""
        return Piece(f"abs({piece.text})")

    def function(self, name: str, arguments: list[Piece]) -> Piece:
        """Return a function of some arguments."""
        module = "" if name in {"min", "max", "round"} else "math."
        return Piece(f"{module}{name}({self.listed(arguments)})")


class Template(Python):
    """Python with `n[0]`, `n[1]` and so on in place of the numbers, in their order."""

    def __init__(self) -> None:
        """Start before the first number."""
        self.count = 0

    def number(self, numeral: str, unit: str = "") -> Piece:  # noqa: ARG002  its place says all
        """Return a name for the next number."""
        self.count += 1
        return Piece(f"n[{self.count - 1}]")


def numeral(shown: str) -> str:
    """Return a number as it is shown in the form that the pens take."""
    return shown.replace(f"{TIMES}10", "e").translate(_LOWERED)


def parted(numeral: str) -> tuple[str, str]:
    """Return the mantissa and the exponent of a numeral, the exponent without leading zeros."""
    mantissa, _, exponent = numeral.partition("e")
    return mantissa, str(int(exponent)) if exponent else ""


def hold_of(numeral: str, unit: str) -> int:
    """Return how tightly a number with its unit holds together."""
    if numeral.startswith("-"):
        return NEGATIVE
    if "e" in numeral or set(unit) & set("/·"):
        return QUANTITY
    return FUNCTION if unit else ATOM


@lru_cache(maxsize=512)
def hold_of_symbol(latex: str) -> int:
    """Return how tightly a symbol, which may be a short expression, holds together."""
    outside = re.sub(r"\{[^{}]*\}", "", latex)
    if re.search("[-+]", outside):
        return SUM
    return QUANTITY if "/" in outside or "frac" in outside else POWER if "^" in outside else ATOM


def spelled(name: str) -> str:
    """Return a function's name as it is written by hand."""
    return _FUNCTIONS.get(name, name)
