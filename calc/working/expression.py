"""An expression of a formula's source, written with its symbols or with its numbers put in."""

import ast
import inspect
import math
from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import Any

from calc.digits import significant
from calc.quantity import Constant, Quantity, in_sentence
from calc.working.pens import Piece, Text, numeral
from calc.working.scope import Scope, is_number

EXACT = 6
"""A number that needs no more digits than these is put in as it is."""

ALL = 17
"""So many digits are all that a number has."""

_SIGNS: dict[type[ast.AST], str] = {
    ast.Add: "+",
    ast.Sub: "-",
    ast.Mult: "*",
    ast.FloorDiv: "//",
    ast.Mod: "%",
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
    ast.Eq: "=",
    ast.NotEq: "!=",
}


class UnreadableError(Exception):
    """An expression that is not arithmetic, of which only the value can be shown."""


class Expression:
    """Writes expressions with one pen; what is not arithmetic raises UnreadableError.

    Without `numbers` names are written as their declared symbols, or as their labels where they
    have none; with it as their values to so many digits.  A name without a declaration stands for
    the expression that it was given.
    """

    def __init__(self, pen: Text, scope: Scope, digits: int = 10, *, numbers: bool = False) -> None:
        """Take a pen and what the names stand for."""
        self.pen = pen
        self.scope = scope
        self.digits = digits
        self.numbers = numbers
        self.put: list[tuple[float, bool]] = []

    def write(self, node: ast.expr) -> Piece:
        """Return a written expression."""
        writer = _WRITERS.get(type(node))
        if writer is None:
            raise UnreadableError(type(node).__name__)
        return writer(self, node)

    def _operation(self, node: ast.BinOp) -> Piece:
        """Write a fraction, a power, or two terms or factors with a sign between them."""
        left, right = self.write(node.left), self.write(node.right)
        if isinstance(node.op, ast.Div):
            return self.pen.quotient(left, right)
        if isinstance(node.op, ast.Pow):
            return self.pen.power(left, right)
        if type(node.op) not in _SIGNS:
            raise UnreadableError
        sign = _SIGNS[type(node.op)]
        return self.pen.infix(left, "x" if self.numbers and sign == "*" else sign, right)

    def _signed(self, node: ast.UnaryOp) -> Piece:
        """Write a term with its sign."""
        if isinstance(node.op, ast.USub):
            return self.pen.negative(self.write(node.operand))
        raise UnreadableError

    def _comparison(self, node: ast.Compare) -> Piece:
        """Write one comparison of numbers."""
        sign = _SIGNS.get(type(node.ops[0]))
        if len(node.ops) > 1 or sign is None:
            raise UnreadableError
        return self.pen.compared(self.write(node.left), sign, self.write(node.comparators[0]))

    def _branch(self, node: ast.IfExp) -> Piece:
        """Write the branch that holds."""
        return self.write(node.body if self.scope.value(node.test) else node.orelse)

    def _literal(self, node: ast.Constant) -> Piece:
        """Write a number of the formula itself."""
        return self._number(node.value, exact=True)

    def _name(self, node: ast.Name) -> Piece:
        """Write a symbol, a label, a value, or what an undeclared name stands for."""
        quantity = self.scope.quantity(node)
        meaning = None if quantity else self.scope.meaning(node.id)
        if meaning is not None:
            try:
                return self.write(meaning)
            except UnreadableError:
                return self._number(self.scope.value(node))
        return self._declared(node, quantity)

    def _attribute(self, node: ast.Attribute) -> Piece:
        """Write a field like a name."""
        if self.scope.value(node) is math.pi:
            return self.pen.pi
        return self._declared(node, self.scope.quantity(node))

    def _call(self, node: ast.Call) -> Piece:
        """Write a function of mathematics, or the result of a formula by its symbol or value."""
        function = self.scope.value(node.func)
        if inspect.isbuiltin(function) and not node.keywords:
            return self._known(function, node.args)
        if function in {float, int} and self._is_the_same(node):
            return self.write(node.args[0])
        quantity = self.scope.quantity(node)
        if quantity is None:
            raise UnreadableError
        return self._declared(node, quantity)

    def _declared(self, node: ast.expr, quantity: Quantity | None) -> Piece:
        value = self.scope.value(node)
        if self.numbers or quantity is None:
            unit = quantity.si.name if quantity else ""
            return self._number(value, unit, exact=isinstance(value, Constant))
        if not is_number(value):
            raise UnreadableError
        own = isinstance(node, ast.Name)
        taken = not own and self.scope.is_taken(quantity.symbol, value)
        return named(self.pen, quantity, with_symbol=not taken)

    def _is_the_same(self, node: ast.Call) -> bool:
        """Return whether a call of `float` or `int` leaves its number as it was."""
        value = self.scope.value(node)
        return is_number(value) and value == self.scope.value(node.args[0])

    def _known(self, function: Callable[..., Any], arguments: list[ast.expr]) -> Piece:
        """Return a function of Python or its `math` module, as it is written by hand."""
        match arguments:
            case [ast.Tuple(terms) | ast.List(terms)] if function in {sum, math.fsum} and terms:
                return self._joined("+", [self.write(term) for term in terms])
            case [base, exponent] if function in {pow, math.pow}:
                return self.pen.power(self.write(base), self.write(exponent))
            case [_, _] if function is math.hypot:
                squares = [
                    self.pen.power(self.write(side), self._number(2, exact=True))
                    for side in arguments
                ]
                return self.pen.root(self._joined("+", squares))
            case [only] if function is math.sqrt:
                return self.pen.root(self.write(only))
            case [only] if function in {abs, math.fabs}:
                return self.pen.magnitude(self.write(only))
        return self.pen.function(function.__name__, [self.write(part) for part in arguments])

    def _joined(self, sign: str, pieces: Iterable[Piece]) -> Piece:
        """Return pieces with a sign between them."""
        first, *others = pieces
        for other in others:
            first = self.pen.infix(first, sign, other)
        return first

    def _number(self, value: Any, unit: str = "", *, exact: bool = False) -> Piece:
        if not is_number(value):
            raise UnreadableError
        self.put.append((value, exact))
        return self.pen.number(put_in(value, self.digits, exact=exact), unit)


_WRITERS: dict[type[ast.AST], Callable[[Expression, Any], Piece]] = {
    ast.BinOp: Expression._operation,  # noqa: SLF001  its own methods, by what they write
    ast.UnaryOp: Expression._signed,  # noqa: SLF001
    ast.Compare: Expression._comparison,  # noqa: SLF001
    ast.IfExp: Expression._branch,  # noqa: SLF001
    ast.Constant: Expression._literal,  # noqa: SLF001
    ast.Name: Expression._name,  # noqa: SLF001
    ast.Attribute: Expression._attribute,  # noqa: SLF001
    ast.Call: Expression._call,  # noqa: SLF001
}


@lru_cache(maxsize=4096)
def put_in(value: float, digits: int, *, exact: bool = False) -> str:
    """Return a number as a numeral: as it is if it is short or exact, else to so many digits.

    Examples:
        >>> put_in(288.15, 4), put_in(219.91148575, 4), put_in(53936.575, 4), put_in(2, 4)
        ('288.15', '219.9', '53937', '2')
    """
    if isinstance(value, int) or (value.is_integer() and abs(value) < (1e15 if exact else 1e7)):
        return str(int(value))
    if digits >= ALL or exact:
        return repr(value)
    short = f"{value:.{max(EXACT, digits)}g}"
    return short if float(short) == value else numeral(significant(value, digits))


def named(pen: Text, quantity: Quantity, *, with_symbol: bool = True) -> Piece:
    """Return a quantity by its symbol, or by its label in words."""
    if quantity.symbol and with_symbol:
        return pen.symbol(quantity.symbol)
    return pen.words(in_sentence(quantity.label))
