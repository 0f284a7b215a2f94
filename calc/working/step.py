"""One line of a working: written with symbols, with numbers put in, and with its value."""

import ast
import math
from dataclasses import dataclass
from functools import lru_cache
from types import CodeType
from typing import Any

from calc.digits import significant
from calc.quantity import Quantity
from calc.working.expression import ALL, Expression, UnreadableError, named, put_in
from calc.working.pens import Piece, Template, Text, numeral
from calc.working.scope import Scope

_DIGITS = 4, 5, 6, 8, 10, 12, ALL


@dataclass(frozen=True, slots=True)
class Step:
    """A line of a working, or a heading with the steps below it; all numbers are in SI units.

    `line` is written by the pen that was asked for.  `symbol` is what the line defines, and
    `evaluable` is its right side with the numbers put in, as Python; empty where there is none.
    `condition` is the comparison that decided that the line holds, as the pen writes it, and
    `remark` says how a number was found that no line could give.
    """

    symbol: str
    value: Any = None
    line: str = ""
    evaluable: str = ""
    condition: str = ""
    remark: str = ""
    heading: str = ""
    inner: tuple["Step", ...] = ()


def written(
    quantity: Quantity, node: ast.expr, scope: Scope, pen: Text, digits: int, *, own: bool = True
) -> Step:
    """Return the step that gives a quantity the value of an expression, which is a number.

    Where the expression is no arithmetic, the value stands alone.  `own` says whether the
    quantity goes by its symbol, which may be another's.
    """
    value = scope.value(node)
    pieces = [named(pen, quantity, with_symbol=own)]
    evaluable = ""
    try:
        if not isinstance(node, ast.Constant):
            pieces.append(_in_symbols(node, scope, pen))
            if not isinstance(node, ast.Name | ast.Attribute):
                enough, evaluable = _put_in(node, scope, value, digits)
                pieces.append(Expression(pen, scope, enough, numbers=True).write(node))
    except UnreadableError:
        del pieces[1:]
    shown = str(value) if isinstance(value, int) else numeral(significant(value, digits))
    pieces.append(pen.number(shown, quantity.si.name))
    symbol = quantity.symbol if own and quantity.symbol else quantity.label
    return Step(symbol, value, pen.line(_different(pieces)), evaluable)


def _in_symbols(node: ast.expr, scope: Scope, pen: Text) -> Piece:
    """Return an expression in symbols; one with a number that nothing declares is unreadable."""
    writer = Expression(pen, scope)
    piece = writer.write(node)
    if not all(exact for _, exact in writer.put):
        raise UnreadableError
    return piece


def _different(pieces: list[Piece]) -> list[Piece]:
    """Return pieces without those that only repeat the one before."""
    return [piece for i, piece in enumerate(pieces) if i == 0 or piece != pieces[i - 1]]


def _put_in(node: ast.expr, scope: Scope, value: float, shown: int) -> tuple[int, str]:
    """Return how many digits the numbers need to give the value as shown, and the line in Python.

    Four are enough for most lines; one that subtracts numbers that are nearly equal needs more.
    """
    goal = significant(value, shown)
    writer = Expression(Template(), scope, numbers=True)
    line = writer.write(node).text
    for digits in _DIGITS:
        numbers = [put_in(number, digits, exact=exact) for number, exact in writer.put]
        if significant(_evaluated(line, numbers), shown) == goal:
            break
    for index, number in enumerate(numbers):
        line = line.replace(f"n[{index}]", f"({number})" if number.startswith("-") else number)
    return digits, line


def _evaluated(line: str, numbers: list[str]) -> float:
    """Return the value of a line of Python with numbers put in; no number where it has none."""
    try:
        names = {"math": math, "n": [float(number) for number in numbers]}
        return float(eval(_compiled(line), names))  # noqa: S307  made of numbers and signs
    except (ArithmeticError, ValueError):
        return math.nan


@lru_cache(maxsize=1024)
def _compiled(line: str) -> CodeType:
    return compile(line, "<working>", "eval")
