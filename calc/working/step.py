"""One line of a working: written with symbols, with numbers put in, and with its value."""

import ast
import inspect
import math
from dataclasses import dataclass
from typing import Any

from calc.digits import significant
from calc.quantity import Quantity
from calc.working.expression import Expression, UnreadableError, words
from calc.working.latex import LaTeX
from calc.working.mathml import MathML
from calc.working.pens import Piece, Python, Text, numeral
from calc.working.scope import Scope, declared_outputs, is_number
from calc.working.source import parts

_DIGITS = 10, 17
_CLOSE = 1e-9
_PENS = Text(), MathML(), LaTeX()


@dataclass(frozen=True, slots=True)
class Step:
    """A name, its formula, the numbers put in, and the value, all in SI units.

    `text` is for copies, `mathml` for pages, `latex` is one line of an `align` environment.
    `evaluable` is the line with its numbers as Python, or empty where only the value is shown.
    `remark` says why a branch was taken, or what a function of many lines returns.
    A step without text, such as the state of the air, consists of its `inner` steps.
    """

    name: str
    value: Any
    text: str = ""
    mathml: str = ""
    latex: str = ""
    evaluable: str = ""
    remark: str = ""
    inner: tuple["Step", ...] = ()


def written(
    name: str, quantity: Quantity | None, node: ast.expr, scope: Scope, digits: int
) -> Step:
    """Return the step that gives an expression a name; without text if it is no number."""
    value = scope.value(node)
    if not is_number(value):
        return Step(name, value, remark=purpose(node, scope))
    put_in, evaluable = _put_in(node, scope, value)
    lines = []
    for pen in _PENS:
        target = _named(pen, name, quantity)
        parts = [target, *_formula(pen, node, scope, put_in)]
        unit = quantity.si.name if quantity else ""
        whole = isinstance(value, int)
        shown = str(value) if whole else numeral(significant(value, digits))
        parts.append(pen.number(shown, unit))
        lines.append(pen.line([p for i, p in enumerate(parts) if i == 0 or p != parts[i - 1]]))
    text, mathml, latex = lines
    return Step(name, value, text, mathml, latex, evaluable, purpose(node, scope))


def _named(pen: Text, name: str, quantity: Quantity | None) -> Piece:
    return pen.symbol(quantity.symbol) if quantity and quantity.symbol else pen.words(words(name))


def _formula(pen: Text, node: ast.expr, scope: Scope, put_in: int) -> list[Piece]:
    """Return what stands between the name and the value: symbols, and numbers if they say more."""
    try:
        if isinstance(node, ast.Constant):
            return []
        if isinstance(node, ast.Call) and inspect.isfunction(scope.value(node.func)):
            return [Expression(pen, scope).called(node)]
        symbols = Expression(pen, scope).write(node)
        if isinstance(node, ast.Attribute) and symbols == pen.words(words(node)):
            return []
        if isinstance(node, ast.Name | ast.Attribute):
            return [symbols]
        return [symbols, Expression(pen, scope, put_in).write(node)] if put_in else [symbols]
    except UnreadableError:
        return []


def _put_in(node: ast.expr, scope: Scope, value: float) -> tuple[int, str]:
    """Return how many digits the numbers need to give the value, and the line in Python.

    Ten digits do, unless the line subtracts numbers that are nearly equal.
    """
    if isinstance(node, ast.Constant | ast.Name | ast.Attribute):
        return 0, ""
    if isinstance(node, ast.Call) and not inspect.isbuiltin(scope.value(node.func)):
        return 0, ""
    for digits in _DIGITS:
        try:
            line = Expression(Python(), scope, digits).write(node).text
        except UnreadableError:
            return 0, ""
        got = eval(line, {"math": math})  # noqa: S307  made of numbers and signs above
        if math.isclose(got, value, rel_tol=_CLOSE, abs_tol=0.0):
            return digits, line
    return digits, line


def purpose(node: ast.expr, scope: Scope) -> str:
    """Return what the functions of many lines in an expression return, from their docstrings."""
    said: dict[str, None] = {}
    for call in parts(node):
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name):
            function = scope.names.get(call.func.id)
            if inspect.isfunction(function) and not declared_outputs(function):
                first = (inspect.getdoc(function) or "").partition("\n")[0]
                said[first.removeprefix("Return ").rstrip(".")] = None
    return "; ".join(filter(None, said))
