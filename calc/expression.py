"""An expression of a formula's source, written with its symbols or with its numbers put in."""

import ast
import inspect
import math
from collections.abc import Callable
from dataclasses import dataclass, field, is_dataclass
from typing import Any, get_type_hints

from calc.declaration import outputs
from calc.pens import Piece, Text
from calc.quantity import Quantity

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


@dataclass(slots=True)
class Scope:
    """What the names in a formula stand for at one point of its working."""

    names: dict[str, Any]
    quantities: dict[str, Quantity]
    known: dict[int, Any] = field(default_factory=dict)

    def value(self, node: ast.expr) -> Any:
        """Return the value of an expression; each is evaluated once until a name changes."""
        if isinstance(node, ast.Constant):
            return node.value
        if id(node) not in self.known:
            code = compile(ast.Expression(node), "<working>", "eval")
            self.known[id(node)] = eval(code, self.names)  # noqa: S307  our own source
        return self.known[id(node)]

    def run(self, statement: ast.stmt) -> None:
        """Run a statement."""
        exec(compile(ast.Module([statement], []), "<working>", "exec"), self.names)  # noqa: S102
        self.known.clear()

    def assign(self, name: str, value: Any) -> None:
        """Give a name its value."""
        self.names[name] = value
        self.known.clear()

    def quantity(self, node: ast.expr) -> Quantity | None:
        """Return the declaration of a name, of a declared field or of a formula's only output."""
        match node:
            case ast.Name(name):
                return self.quantities.get(name)
            case ast.Attribute(owner, name):
                return _declared_field(self.value(owner), name)
            case ast.Call(function):
                return only_output(self.value(function))
        return None


def only_output(formula: Any) -> Quantity | None:
    """Return the declaration of what a formula returns, or None if it is no formula of one number."""
    if not inspect.isfunction(formula):
        return None
    try:
        found = outputs(formula)
    except (KeyError, TypeError):
        return None
    only = found[0].declaration
    return only if len(found) == 1 and isinstance(only, Quantity) else None


def is_formula(function: Any) -> bool:
    """Return whether a function is public and declares what it returns."""
    if not inspect.isfunction(function) or function.__name__.startswith("_"):
        return False
    try:
        return bool(outputs(function))
    except (KeyError, TypeError):
        return False


def words(name: str) -> str:
    """Return a Python name as words."""
    return name.strip("_").replace("_", " ").lower()


def is_number(value: Any) -> bool:
    """Return whether a value is one finite real number."""
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def _declared_field(owner: Any, name: str) -> Quantity | None:
    if not is_dataclass(owner):
        return None
    hint = get_type_hints(type(owner), include_extras=True).get(name)
    return next((d for d in getattr(hint, "__metadata__", ()) if isinstance(d, Quantity)), None)


class Expression:
    """Writes expressions with one pen: with symbols, or with numbers to some digits put in."""

    def __init__(self, pen: Text, scope: Scope, digits: int = 0) -> None:
        """Take a pen and what names stand for; zero digits means symbols."""
        self.pen = pen
        self.scope = scope
        self.digits = digits

    def write(self, node: ast.expr) -> Piece:
        """Return an expression as written by the pen; raise UnreadableError if it cannot be."""
        match node:
            case ast.BinOp(left, ast.Div(), right):
                return self.pen.quotient(self.write(left), self.write(right))
            case ast.BinOp(left, ast.Pow(), right):
                return self.pen.power(self.write(left), self.write(right))
            case ast.BinOp(left, operator, right):
                sign = _SIGNS.get(type(operator), "")
                if not sign:
                    raise UnreadableError
                times = "x" if self.digits and sign == "*" else sign
                return self.pen.infix(self.write(left), times, self.write(right))
            case ast.UnaryOp(ast.USub(), operand):
                return self.pen.negative(self.write(operand))
            case ast.UnaryOp(ast.UAdd(), operand):
                return self.write(operand)
            case ast.Compare(left, [operator], [right]) if type(operator) in _SIGNS:
                sign = _SIGNS[type(operator)]
                return self.pen.compared(self.write(left), sign, self.write(right))
            case ast.IfExp(test, holds, fails):
                return self.write(holds if self.scope.value(test) else fails)
            case ast.Call():
                return self._call(node)
            case ast.Attribute(ast.Name("math"), "pi"):
                return self.pen.pi
            case ast.Constant() | ast.Name() | ast.Attribute():
                return self._leaf(node)
        raise UnreadableError

    def called(self, node: ast.Call) -> Piece:
        """Return a call of one of our own functions, by its name in words and its arguments."""
        arguments = [*node.args, *(keyword.value for keyword in node.keywords)]
        name = ast.unparse(node.func).rpartition(".")[2]
        return self.pen.function(words(name), [self.write(argument) for argument in arguments])

    def _call(self, node: ast.Call) -> Piece:
        function = self.scope.value(node.func)
        match node.args:
            case [ast.Tuple(terms) | ast.List(terms)] if function in {sum, math.fsum} and terms:
                return self.write(_folded(terms, ast.Add()))
            case [base, exponent] if function is math.pow:
                return self.pen.power(self.write(base), self.write(exponent))
            case [left, right] if function is math.hypot:
                squares = [ast.BinOp(side, ast.Pow(), ast.Constant(2)) for side in (left, right)]
                return self.pen.root(self.write(_folded(squares, ast.Add())))
            case [only] if function is math.sqrt:
                return self.pen.root(self.write(only))
            case [only] if function in {abs, math.fabs}:
                return self.pen.magnitude(self.write(only))
            case [only] if function in {float, int} and is_whole(self.scope.value(only), function):
                return self.write(only)
        if inspect.isbuiltin(function) and not node.keywords:
            name = ast.unparse(node.func).rpartition(".")[2]
            return self.pen.function(name, [self.write(argument) for argument in node.args])
        return self._leaf(node)

    def _leaf(self, node: ast.expr) -> Piece:
        value = self.scope.value(node)
        if not is_number(value):
            raise UnreadableError
        quantity = self.scope.quantity(node)
        if self.digits or isinstance(node, ast.Constant):
            unit = quantity.si.name if quantity else ""
            return self.pen.number(f"{value:.{self.digits or 10}g}", unit)
        if quantity and quantity.symbol:
            return self.pen.symbol(quantity.symbol)
        if isinstance(node, ast.Call):
            return self.called(node)
        return self.pen.words(words(ast.unparse(node).rpartition(".")[2]))


def is_whole(value: Any, function: Callable[..., Any]) -> bool:
    """Return whether turning a number into a float or an int leaves it as it is."""
    return is_number(value) and bool(function(value) == value)


def _folded(terms: list[ast.expr], operator: ast.operator) -> ast.expr:
    """Return terms joined by one operator."""
    total = terms[0]
    for term in terms[1:]:
        total = ast.BinOp(total, operator, term)
    return total
