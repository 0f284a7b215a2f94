"""An expression of a formula's source, written with its symbols or with its numbers put in."""

import ast
import inspect
import math
from collections.abc import Callable, Iterable
from typing import Any

from calc.working.pens import Piece, Text
from calc.working.scope import Scope, is_number

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


class Expression(ast.NodeVisitor):
    """Writes expressions with one pen; what is not arithmetic raises UnreadableError.

    Without digits names are written as symbols, with them as their values to so many digits, or
    to the last one for 17.
    """

    def __init__(self, pen: Text, scope: Scope, digits: int = 0) -> None:
        """Take a pen and what the names stand for."""
        self.pen = pen
        self.scope = scope
        self.digits = digits

    def write(self, node: ast.expr) -> Piece:
        """Return a written expression."""
        piece: Piece = self.visit(node)
        return piece

    def called(self, node: ast.Call) -> Piece:
        """Return a call as the name of the function in words and its arguments."""
        arguments = [*node.args, *(keyword.value for keyword in node.keywords)]
        return self.pen.function(words(node.func), [self.write(part) for part in arguments])

    def generic_visit(self, node: ast.AST) -> Piece:
        """Refuse what is not covered below."""
        raise UnreadableError(type(node).__name__)

    def visit_BinOp(self, node: ast.BinOp) -> Piece:
        """Write a fraction, a power, or two terms or factors with a sign between them."""
        left, right = self.write(node.left), self.write(node.right)
        if isinstance(node.op, ast.Div):
            return self.pen.quotient(left, right)
        if isinstance(node.op, ast.Pow):
            return self.pen.power(left, right)
        if type(node.op) not in _SIGNS:
            raise UnreadableError
        sign = _SIGNS[type(node.op)]
        return self.pen.infix(left, "x" if self.digits and sign == "*" else sign, right)

    def visit_UnaryOp(self, node: ast.UnaryOp) -> Piece:
        """Write a term with its sign."""
        if isinstance(node.op, ast.USub):
            return self.pen.negative(self.write(node.operand))
        raise UnreadableError

    def visit_Compare(self, node: ast.Compare) -> Piece:
        """Write one comparison of numbers."""
        sign = _SIGNS.get(type(node.ops[0]))
        if len(node.ops) > 1 or sign is None:
            raise UnreadableError
        return self.pen.compared(self.write(node.left), sign, self.write(node.comparators[0]))

    def visit_IfExp(self, node: ast.IfExp) -> Piece:
        """Write the branch that holds."""
        return self.write(node.body if self.scope.value(node.test) else node.orelse)

    def visit_Constant(self, node: ast.Constant) -> Piece:
        """Write a number of the formula itself."""
        return self._number(node.value)

    def visit_Name(self, node: ast.Name) -> Piece:
        """Write a symbol, words for a name without one, or its value."""
        return self._named(node)

    def visit_Attribute(self, node: ast.Attribute) -> Piece:
        """Write a field like a name."""
        return self.pen.pi if self.scope.value(node) is math.pi else self._named(node)

    def _named(self, node: ast.Name | ast.Attribute) -> Piece:
        value = self.scope.value(node)
        if self.digits or not is_number(value):
            quantity = self.scope.quantity(node)
            return self._number(value, quantity.si.name if quantity else "")
        return self._symbol(node) or self.pen.words(words(node))

    def visit_Call(self, node: ast.Call) -> Piece:
        """Write a function of mathematics, or a call of one of our own with its value."""
        function = self.scope.value(node.func)
        if inspect.isbuiltin(function) and not node.keywords:
            return self._known(function, node.args)
        value = self.scope.value(node)
        if (
            function in {float, int}
            and is_number(value)
            and value == self.scope.value(node.args[0])
        ):
            return self.write(node.args[0])
        if self.digits or not inspect.isfunction(function):
            quantity = self.scope.quantity(node)
            return self._number(value, quantity.si.name if quantity else "")
        return self._symbol(node) or self.called(node)

    def _symbol(self, node: ast.expr) -> Piece | None:
        """Return the symbol of a name, or of something else if no name has the same."""
        quantity = self.scope.quantity(node)
        own = isinstance(node, ast.Name)
        if quantity and quantity.symbol and (own or not self.scope.is_taken(quantity.symbol)):
            return self.pen.symbol(quantity.symbol)
        return None

    def _known(self, function: Callable[..., Any], arguments: list[ast.expr]) -> Piece:
        """Return a function of Python or its `math` module, as it is written by hand."""
        match arguments:
            case [ast.Tuple(terms) | ast.List(terms)] if function in {sum, math.fsum} and terms:
                return self.write(_total(terms))
            case [base, exponent] if function in {pow, math.pow}:
                return self.pen.power(self.write(base), self.write(exponent))
            case [_, _] if function is math.hypot:
                squares = (ast.BinOp(side, ast.Pow(), ast.Constant(2)) for side in arguments)
                return self.pen.root(self.write(_total(squares)))
            case [only] if function is math.sqrt:
                return self.pen.root(self.write(only))
            case [only] if function in {abs, math.fabs}:
                return self.pen.magnitude(self.write(only))
        return self.pen.function(function.__name__, [self.write(part) for part in arguments])

    def _number(self, value: Any, unit: str = "") -> Piece:
        if not is_number(value):
            raise UnreadableError
        shown = repr(value) if self.digits >= 17 else f"{value:.{self.digits or 10}g}"
        return self.pen.number(shown.removesuffix(".0"), unit)


def words(node: ast.expr | str) -> str:
    """Return a name, or the last name in an expression, as words."""
    match node:
        case ast.Name(name) | ast.Attribute(_, name) | str(name):
            return name.strip("_").replace("_", " ").lower()
    raise UnreadableError


def _total(terms: Iterable[ast.expr]) -> ast.expr:
    """Return terms joined by plus signs."""
    first, *others = terms
    for term in others:
        first = ast.BinOp(first, ast.Add(), term)
    return first
